"""Gives a house and its plants as the object of a facts file.

The reverse of ``growdesk.domain.facts_file``: what is not recorded is left out, and
reading the object back gives equal values.
"""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING, cast

from growdesk.domain.facts_house import MONTH_DAYS
from growdesk.domain.facts_kinds import kind_fields_json

if TYPE_CHECKING:
    from collections.abc import Mapping

    from msgspec import Struct

    from growdesk.domain.facts import House, Plant


def facts_json(
    house: House,
    plants: tuple[Plant, ...],
    kinds: Mapping[str, Mapping[str, str]] | None = None,
) -> dict[str, object]:
    """Give an object that ``read_facts`` turns back into these values.

    ``kinds`` are the corrected fields of kinds, each with its cell, by the kind's key.
    """
    rules = _object(house)
    for name in MONTH_DAYS:
        month, day = getattr(house, name)
        rules[name] = f"{month:02d}-{day:02d}"
    found: dict[str, object] = {"house": rules}
    if kinds:
        found["kinds"] = {
            key: kind_fields_json(cells.items()) for key, cells in kinds.items()
        }
    return {**found, "plants": [_plant(plant) for plant in plants]}


def _plant(plant: Plant) -> dict[str, object]:
    read = _object(plant)
    if plant.kind_fields:
        read["kind_fields"] = kind_fields_json(plant.kind_fields)
    else:
        del read["kind_fields"]
    return read


def _object(value: Struct) -> dict[str, object]:
    read: dict[str, object] = {}
    for field in value.__struct_fields__:
        given = getattr(value, field)
        if given is not None:
            read[field] = _plain(given)
    return read


def _plain(value: object) -> object:
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, frozenset):
        return sorted(str(entry) for entry in value)
    if isinstance(value, tuple):
        return [_plain(entry) for entry in value]
    if isinstance(value, str | int | float):
        return value
    return _object(cast("Struct", value))
