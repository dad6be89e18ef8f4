"""Looks and care of many plants as domain facts, without what single rows may cost.

Their rows are read as bare columns, each word of an enumeration is looked up, not made,
and a day that many rows share is one value: half a million of them are held at a time.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

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
    from collections.abc import Iterable
    from datetime import date
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
    found: dict[int, list[Look]] = {}
    days: dict[date, date] = {}
    plant_id, of_plant = None, []
    for row in rows:
        if row[0] != plant_id:
            plant_id = row[0]
            of_plant = found.setdefault(plant_id, [])
        try:
            look = Look(
                days.setdefault(row[1], row[1]),
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
        of_plant.append(look)
    return found


def cares_of(rows: Iterable[Any]) -> dict[int, list[Care]]:
    """Give care by its plant, in the order of the rows."""
    kinds = _Words(CareKind)
    found: dict[int, list[Care]] = {}
    days: dict[date, date] = {}
    before, of_plant = None, []
    for row in rows:
        plant_id, day, what, strength, ec, volume, rain = row
        if plant_id != before:
            before, of_plant = plant_id, found.setdefault(plant_id, [])
        try:
            care = Care(
                days.setdefault(day, day), kinds[what], strength, ec, volume, rain
            )
        except KeyError:
            care = care_of(row)
        of_plant.append(care)
    return found


def readings_of(rows: Iterable[Any]) -> dict[int, list[Reading]]:
    """Give readings by their place, in the order of the rows."""
    found: dict[int, list[Reading]] = {}
    for place_id, *values in rows:
        found.setdefault(place_id, []).append(Reading(*values))
    return found
