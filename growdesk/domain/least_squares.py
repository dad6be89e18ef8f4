"""Non-negative least squares of small problems: a few products, a few elements.

The active set method of C. L. Lawson and R. J. Hanson, Solving Least Squares Problems
(1974), chapter 23. Each set is solved by modified Gram-Schmidt with the right side as
one more column, which is as steady as Householder's way (A. Bjorck, BIT 7, 1967).
"""

from __future__ import annotations

from math import hypot
from operator import mul
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

Column = list[float]

_NOTHING = 1e-14
"""What a gain must be above; and times a thousand, what is left of a column of length 1
that the others make up."""


def least_not_negative(
    columns: Sequence[Sequence[float]], right: Sequence[float]
) -> list[float]:
    """Give the x, none below nothing, that makes ``|A x - b|`` least."""
    lengths = [hypot(*column) or 1.0 for column in columns]
    scaled = [
        [value / length for value in column]
        for column, length in zip(columns, lengths, strict=True)
    ]
    found = _walk(scaled, list(right))
    return [x / length for x, length in zip(found, lengths, strict=True)]


def _walk(columns: list[Column], right: Column) -> list[float]:
    """Let columns in, the one that gains most first, until none gains any more."""
    count = len(columns)
    found = [0.0] * count
    held: list[int] = []
    useless: set[int] = set()
    least = _NOTHING * (hypot(*right) or 1.0) * max(count, len(right))
    for _ in range(10 * count + 10):
        rest = _rest(columns, found, right)
        gains = {
            number: _dot(columns[number], rest)
            for number in range(count)
            if number not in held and number not in useless
        }
        best = max(gains, key=gains.__getitem__, default=-1)
        if best < 0 or gains[best] <= least:
            break
        tried = _fitted([columns[each] for each in (*held, best)], right)
        if tried is None or tried[-1] <= 0:
            useless.add(best)
            continue
        useless.clear()
        held.append(best)
        found = _inside(columns, right, found, held, tried)
    return found


def _inside(
    columns: list[Column],
    right: Column,
    found: list[float],
    held: list[int],
    wanted: list[float],
) -> list[float]:
    """Go to what is wanted of the columns held, and let go of each that ends at 0."""
    while min(wanted, default=1.0) <= 0:
        pairs = list(zip(held, wanted, strict=True))
        steps = {
            each: found[each] / (found[each] - goal) if found[each] > goal else 0.0
            for each, goal in pairs
            if goal <= 0
        }
        step = min(steps.values())
        for each, goal in pairs:
            found[each] += step * (goal - found[each])
        for each in [each for each, at in steps.items() if at == step]:
            found[each] = 0.0
            held.remove(each)
        wanted = _fitted([columns[each] for each in held], right) or []
    new = [0.0] * len(found)
    for each, x in zip(held, wanted, strict=True):
        new[each] = x
    return new


def _fitted(columns: list[Column], right: Column) -> list[float] | None:
    """Solve by least squares; nothing where one column is made up by the others."""
    rest, left = list(right), [list(column) for column in columns]
    triangle: list[list[float]] = []
    aims: list[float] = []
    for place, column in enumerate(left):
        length = hypot(*column)
        if length < 1000 * _NOTHING:
            return None
        unit = [value / length for value in column]
        taken = [_take(unit, other) for other in left[place + 1 :]]
        triangle.append([length, *taken])
        aims.append(_take(unit, rest))
    solved: list[float] = []
    for row, aim in zip(reversed(triangle), reversed(aims), strict=True):
        solved.insert(0, (aim - _dot(row[1:], solved)) / row[0])
    return solved


def _take(unit: Column, other: Column) -> float:
    """Take from a column what it has of a unit one, and give how much that was."""
    share = _dot(unit, other)
    for place, value in enumerate(unit):
        other[place] -= share * value
    return share


def _rest(columns: list[Column], found: list[float], right: Column) -> Column:
    rest = list(right)
    for column, x in zip(columns, found, strict=True):
        if x:
            for place, value in enumerate(column):
                rest[place] -= x * value
    return rest


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    total: float = sum(map(mul, one, other))
    return total
