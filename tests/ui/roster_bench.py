"""Lines of invented plants for tests of the table of all plants."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from growdesk.domain.holding import Status
from growdesk.services import names
from growdesk.services.finding import joined
from growdesk.services.roster_values import RosterLine

_GENERA = ("Cattleya", "Laelia", "Oncidium", "Encyclia")


def line(number: int, **more: Any) -> RosterLine:
    """Give a plant by its number; it stands in that place of the walk."""
    name = f"{_GENERA[number % 4]} number {number}"
    made = RosterLine(
        plant_id=number,
        tag=f"A{number}",
        name=name,
        kind_key=_GENERA[number % 4].lower(),
        kind_title=_GENERA[number % 4],
        place_id=number % 3,
        place=f"Sill {number % 3}",
        bench_name="",
        bench=number,
        walk=(0, "", 0, number, number),
        status=Status.GROWING,
    )
    made = replace(made, **more)
    found = joined((made.tag, made.name, made.place, made.note, made.signs))
    order = names.sort_key_of(made.name) if made.name else None
    return replace(made, found_by=found, name_order=order)


def lines(count: int) -> tuple[RosterLine, ...]:
    """Give plants 1 to ``count``."""
    return tuple(line(number) for number in range(1, count + 1))
