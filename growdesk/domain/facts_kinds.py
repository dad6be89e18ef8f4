"""Gives corrections of kinds from a facts file and for one, in JSON's own types.

A number is a number, yes and no are true and false, months are a list, words and texts
stand in quotes; an empty text takes a value away, ``null`` corrects nothing. A field or
a kind that is not known is refused by name, and so is one that does not fit its kind.
"""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import (
    Fields,
    Range,
    Shown,
    read_flag,
    read_number,
    read_text,
    read_whole,
)
from growdesk.domain.kind_corrections import corrected, read_field
from growdesk.domain.kind_fields import CORRECTABLE, FIELDS, Sort
from growdesk.domain.kind_words import cell
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from growdesk.domain.kinds import Kind, KindTable

KindFields = tuple[tuple[str, str], ...]

_ANY = Range(-1e9, 1e9)
_MONTH = Range(1, 12)


def read_kind_fields(where: str, value: object) -> KindFields:
    """Give the corrected fields of an object, each with its cell, by name."""
    fields = Fields.of(where, value, tr("a kind that can be corrected"), CORRECTABLE)
    cells = {
        name: _cell(fields.at(name), name, given)
        for name, given in fields.items.items()
        if given is not None
    }
    return tuple(sorted(cells.items()))


def read_kind_table(facts: object, table: KindTable) -> KindTable:
    """Give the table as the ``kinds`` of a decoded facts file correct it."""
    given = facts.get("kinds") if isinstance(facts, dict) else None
    if given is None:
        return table
    if not isinstance(given, dict):
        hint = tr("Write it in braces, each kind's key with its corrected fields.")
        raise InputError("kinds", Shown(given), tr("is no object of kinds"), hint)
    kinds = dict(table.kinds)
    for key, value in given.items():
        if key not in kinds:
            raise InputError("kinds", key, tr("is not a kind"), _near(key, kinds))
        where = f"kinds, {key}"
        kinds[key] = fitted(where, kinds[key], read_kind_fields(where, value))
    return replace(table, kinds=kinds)


def fitted(where: str, kind: Kind, cells: KindFields, *, here: bool = False) -> Kind:
    """Give a kind with corrections that have to fit it; ``where`` names the spot."""
    try:
        return corrected(kind, dict(cells), here=here)
    except InputError as error:
        at = f"{where}, {error.field}"
        raise InputError(at, error.value, error.problem, error.hint) from None


def kind_fields_json(cells: Iterable[tuple[str, str]]) -> dict[str, object]:
    """Give corrected fields in JSON's own types."""
    return {name: _plain(name, text) for name, text in cells}


def _cell(at: str, name: str, given: object) -> str:
    text = given if given == "" else _typed(at, name, given)
    try:
        read_field(name, str(text))
    except InputError as error:
        raise InputError(at, Shown(given), error.problem, error.hint) from None
    return str(text)


def _typed(at: str, name: str, given: object) -> str:
    sort = FIELDS[name].sort
    if sort is Sort.YES_NO:
        return cell(name, read_flag(at, given))
    if sort is Sort.MONTHS:
        if not isinstance(given, list):
            hint = tr("Write the months as numbers in square brackets, as [11, 12, 1].")
            raise InputError(at, Shown(given), tr("is not a list of months"), hint)
        return cell(name, [read_whole(at, month, _MONTH) for month in given])
    if sort in {Sort.NUMBER, Sort.WHOLE}:
        return cell(name, read_number(at, given, _ANY))
    return read_text(at, given)


def _plain(name: str, text: str) -> object:
    value = read_field(name, text)
    if FIELDS[name].sort is Sort.MONTHS:
        return list(value)
    return "" if value is None else value


def _near(key: str, kinds: Mapping[str, Kind]) -> str:
    close = difflib.get_close_matches(key, kinds, n=1)
    hint = tr("growdesk kinds lists all keys.")
    if not close:
        return hint
    return f"{tr('Did you mean {close}?').format(close=close[0])} {hint}"
