"""The order in which a round is walked: places, their benches, plants along each.

Places go by their turn, those without one after them by name; in a place its benches by
their position, then what stands on none. It is the one order of list, week, sheet, walk
and exports.
"""

from __future__ import annotations

from typing import Any

from growdesk.store.schema import BenchRow

Walk = tuple[int, str, int, int, int]

COLUMNS = (
    BenchRow.name.label("bench_name"),
    BenchRow.position.label("bench_position"),
)
"""What a statement over plants takes along from their bench."""
LAST = 1_000_000


def order(row: Any, place: str, turn: int | None) -> Walk:
    """Give the sort key of a plant's row; ``turn`` is the position of its place."""
    at = place_order(place, turn)
    return along(at, row.bench_position, row.bench, row.id)


def along(
    place: tuple[int, str], bench: int | None, number: int | None, plant_id: int
) -> Walk:
    """Give the sort key of a plant by its place's, its bench's turn and its own."""
    return (*place, LAST if bench is None else bench, number or 0, plant_id)


def where(place: str, bench: str, *more: str) -> str:
    """Give place and bench as they are said together, with what more is said there."""
    return " · ".join(each for each in (place, bench, *more) if each)


def place_order(place: str, turn: int | None) -> tuple[int, str]:
    """Give the sort key of a place."""
    return (LAST if turn is None else turn, place.casefold())
