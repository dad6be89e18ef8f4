"""What is measured: a bar is our way beside a floor, with a limit and the sizes."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.bench.ground import Ground

SIZES = (40, 1_000, 10_000)
LEAST_RUNS = 7


class Unit(StrEnum):
    """What a limit is a number of."""

    TIMES = "x"
    MS = "ms"
    PER_S = "/s"
    MB = "MB"
    SHARE = "%"
    COUNT = ""


class Limit(Struct, frozen=True):
    """What a bar has to keep to: at most, or for a speed or a share at least."""

    unit: Unit
    value: float

    @classmethod
    def times(cls, value: float) -> Limit:
        """Allow so many times what the floor takes."""
        return cls(Unit.TIMES, value)

    @classmethod
    def ms(cls, value: float) -> Limit:
        """Allow so many milliseconds."""
        return cls(Unit.MS, value)

    @classmethod
    def per_s(cls, value: float) -> Limit:
        """Ask for so many a second at least; ours gives how many it did a second."""
        return cls(Unit.PER_S, value)

    @classmethod
    def mb(cls, value: float) -> Limit:
        """Allow so many megabytes; ours gives how many it took."""
        return cls(Unit.MB, value)

    @classmethod
    def share(cls, value: float) -> Limit:
        """Ask for this share of the floor's speed at least, 0 to 1."""
        return cls(Unit.SHARE, value)

    @classmethod
    def count(cls, value: float) -> Limit:
        """Allow so many; ours gives how many there were."""
        return cls(Unit.COUNT, value)

    @property
    def is_least(self) -> bool:
        """Tell whether more is better."""
        return self.unit in {Unit.PER_S, Unit.SHARE}

    @property
    def is_of_both(self) -> bool:
        """Tell whether it holds ours against the floor."""
        return self.unit in {Unit.TIMES, Unit.SHARE}

    @property
    def is_given(self) -> bool:
        """Tell whether ours gives the number itself, which is no time."""
        return self.unit in {Unit.PER_S, Unit.MB, Unit.COUNT}

    def holds(self, value: float) -> bool:
        """Tell whether a number keeps to it."""
        return value >= self.value if self.is_least else value <= self.value


class Pair(Struct, frozen=True):
    """Our way and the floor, set up and ready to be timed again and again.

    ``before`` is run, untimed, before each of them.
    """

    ours: Callable[[], float | None]
    base: Callable[[], float | None] | None = None
    before: Callable[[], object] | None = None
    close: Callable[[], object] | None = None


class Bar(Struct, frozen=True):
    """One measurement: its key, what a person waits for, the floor, and the limit.

    With ``grows`` the cost is fitted over the sizes. ``runs`` is how often both sides
    run; ``slow`` bars run only when they are named or all is asked for.
    """

    key: str
    said: str
    base: str
    most: Limit
    measure: Callable[[Ground], Pair]
    sizes: tuple[int, ...] = SIZES
    grows: bool = False
    runs: int = LEAST_RUNS
    slow: bool = False


class Taken(Struct, frozen=True):
    """What one size of a bar took: seconds, or the numbers given, of both sides."""

    bar: Bar
    plants: int
    ours: tuple[float, ...]
    base: tuple[float, ...]
    load: float
