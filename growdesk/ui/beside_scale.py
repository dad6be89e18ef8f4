"""Give two photos the same scale: by pixels, or by the same length marked on both."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Sequence

Point = tuple[float, float]
View = tuple[float, Point]
_LEAST_PX = 4.0


class Pairing(Struct, frozen=True):
    """How the right photo goes with the left.

    ``factor`` is how many pixels of the left are as long as one of the right; the two
    points, in their own pixels, stand at the same place of both windows.
    """

    factor: float
    left: Point
    right: Point

    def right_scale(self, left_scale: float) -> float:
        """Give the right's scale for the left's."""
        return left_scale * self.factor

    def right_centre(self, left_centre: Point) -> Point:
        """Give what the right shows in its middle where the left shows that."""
        return (
            self.right[0] + (left_centre[0] - self.left[0]) / self.factor,
            self.right[1] + (left_centre[1] - self.left[1]) / self.factor,
        )

    def left_centre(self, right_centre: Point) -> Point:
        """Give what the left shows in its middle where the right shows that."""
        return (
            self.left[0] + (right_centre[0] - self.right[0]) * self.factor,
            self.left[1] + (right_centre[1] - self.right[1]) * self.factor,
        )

    def all_of(self, left_size: Point, right_size: Point, room: Point) -> View:
        """Give the left's scale and middle at which all of both is in that room."""
        spans = []
        for axis in (0, 1):
            before = max(self.left[axis], self.right[axis] * self.factor)
            after = max(
                left_size[axis] - self.left[axis],
                (right_size[axis] - self.right[axis]) * self.factor,
            )
            spans.append((before, after))
        scale = min(room[axis] / max(sum(spans[axis]), 1e-9) for axis in (0, 1))
        middle = [self.left[a] + (spans[a][1] - spans[a][0]) / 2 for a in (0, 1)]
        return scale, (middle[0], middle[1])


def by_pixels(left_size: Point, right_size: Point) -> Pairing:
    """Give a pixel of one for a pixel of the other, middle on middle."""
    return Pairing(1.0, _half(left_size), _half(right_size))


def by_marks(left: Sequence[Point], right: Sequence[Point]) -> Pairing | None:
    """Give the scale at which both marked lengths are the same; none is too short."""
    if len(left) != 2 or len(right) != 2:
        return None
    lengths = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in (left, right)]
    if min(lengths) < _LEAST_PX:
        return None
    return Pairing(lengths[0] / lengths[1], _between(*left), _between(*right))


def _half(size: Point) -> Point:
    return size[0] / 2, size[1] / 2


def _between(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2
