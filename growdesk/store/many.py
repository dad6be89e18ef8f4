"""Looks and care of many plants as domain facts, without what single rows may cost.

A frozen value sets each field by a call of its own, which for hundreds of thousands of
looks is most of the time they take; here they are made as plain values of the same
slots, and become what they are afterwards.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import cache
from typing import TYPE_CHECKING, Any, cast

from growdesk.domain.facts import (
    Bulbs,
    Care,
    CareKind,
    Flowering,
    Health,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Pot,
    Reading,
    RootTips,
)
from growdesk.store.mapping import STAGES, care_of, look_of
from growdesk.store.schema import CareRow, LookRow, ReadingRow

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from enum import StrEnum

    from sqlalchemy import ColumnElement

LOOK_COLUMNS: tuple[ColumnElement[Any], ...] = tuple(
    LookRow.__table__.c[name]
    for name in (
        "plant_id",
        "day",
        *STAGES,
        "root_tips",
        "longest_new_root_mm",
        "lead_length_mm",
        "new_leaf",
        "flowering",
        "leaves",
        "bulbs",
        "pot",
        "health",
        "runoff_ec_ms_per_cm",
        "keikis",
        "keiki_root_mm",
        "pods",
        "spike_mm",
    )
)
"""What ``looks_of`` is given of each row, in this order."""

CARE_COLUMNS: tuple[ColumnElement[Any], ...] = tuple(
    CareRow.__table__.c[name]
    for name in (
        "plant_id",
        "day",
        "what",
        "strength_ppm_n",
        "ec_ms_per_cm",
        "volume_l",
        "rain_mm",
    )
)
"""What ``cares_of`` is given of each row, in this order."""


READING_COLUMNS: tuple[ColumnElement[Any], ...] = tuple(
    ReadingRow.__table__.c[name]
    for name in (
        "place_id",
        "day",
        "mean_c",
        "low_c",
        "high_c",
        "light_mol_per_m2_d",
        "humidity_percent",
    )
)
"""What ``readings_of`` is given of each row, in this order."""


@cache
def plain_twin(frozen: type[Any]) -> Callable[..., Any]:
    """Give a plain class of the same slots as a frozen one, which is made quickly.

    What it makes is to be given the frozen class before it is handed on.
    """
    names = {each.name: each.type for each in fields(frozen)}
    twin = type(f"Plain{frozen.__name__}", (), {"__annotations__": names})
    return cast("Callable[..., Any]", dataclass(slots=True)(twin))


class _Words(dict[Any, Any]):
    """The members of an enumeration by their text; nothing stays nothing."""

    def __init__(self, words: type[StrEnum]) -> None:
        super().__init__({member.value: member for member in words})
        self[None] = None


class _Sets(dict[Any, Any]):
    """Sets of words by their text joined by commas, each made once."""

    def __init__(self, words: type[StrEnum]) -> None:
        super().__init__({None: None})
        self._members = {member.value: member for member in words}

    def __missing__(self, text: str) -> frozenset[Any]:
        found = frozenset(self._members[part] for part in text.split(",") if part)
        self[text] = found
        return found


class _Growths(dict[Any, Any]):
    """New growths by their counts, each made once; nothing where none is recorded."""

    def __missing__(self, counts: tuple[int | None, ...]) -> NewGrowths | None:
        found = NewGrowths(*counts)
        self[counts] = made = None if found == NewGrowths() else found
        return made


def looks_of(rows: Iterable[Any]) -> dict[int, list[Look]]:
    """Give looks by their plant, in the order of the rows."""
    growths, flowering, health = _Growths(), _Sets(Flowering), _Sets(Health)
    tips, leaf, leaves = _Words(RootTips), _Words(NewLeaf), _Words(Leaves)
    bulbs, pot = _Words(Bulbs), _Words(Pot)
    plain = plain_twin(Look)
    found: dict[int, list[Look]] = {}
    plant_id, of_plant = None, []
    for row in rows:
        if row[0] != plant_id:
            plant_id = row[0]
            of_plant = found.setdefault(plant_id, [])
        try:
            look = plain(
                row[1],
                growths[row[2:7]],
                tips[row[7]],
                row[8],
                row[9],
                leaf[row[10]],
                flowering[row[11]],
                leaves[row[12]],
                bulbs[row[13]],
                pot[row[14]],
                health[row[15]],
                *row[16:],
            )
        except KeyError:
            look = look_of(row)  # which says what is wrong, and where
        look.__class__ = Look
        of_plant.append(look)
    return found


def cares_of(rows: Iterable[Any]) -> dict[int, list[Care]]:
    """Give care by its plant, in the order of the rows."""
    kinds = _Words(CareKind)
    plain = plain_twin(Care)
    found: dict[int, list[Care]] = {}
    before, of_plant = None, []
    for row in rows:
        plant_id, day, what, strength, ec, volume, rain = row
        if plant_id != before:
            before, of_plant = plant_id, found.setdefault(plant_id, [])
        try:
            care = plain(day, kinds[what], strength, ec, volume, rain)
        except KeyError:
            care = care_of(row)
        care.__class__ = Care
        of_plant.append(care)
    return found


def readings_of(rows: Iterable[Any]) -> dict[int, list[Reading]]:
    """Give readings by their place, in the order of the rows."""
    plain = plain_twin(Reading)
    found: dict[int, list[Reading]] = {}
    for place_id, *values in rows:
        reading = plain(*values)
        reading.__class__ = Reading
        found.setdefault(place_id, []).append(reading)
    return found
