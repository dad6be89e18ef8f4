"""Decides what becomes of each row that was read out of a damaged file.

A value that can be read stands, unless the history surely has another; one that cannot
is taken from the history, else it is no longer recorded. A row that is gone comes back
where the history or an index knows all of it. Nothing is read or written here.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field

from growdesk.services.soundness import problems_of
from growdesk.store.witness import same

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy import Column, Table

    from growdesk.store.accounts import Told

Row = dict[str, Any]


class Became(Enum):
    """What became of a value or a row that is not as it stood."""

    SET_BACK = 1
    NOT_RECORDED = 2
    IN_PART = 3
    BROUGHT_BACK = 4
    LOST = 5
    STAND_IN = 6
    CUT_LOOSE = 7
    RENAMED = 8
    DOUBTFUL = 9


class Note(Struct, frozen=True):
    """One thing that is not as it stood; ``row`` is what is known of the row.

    One that is doubtful stands as it stood, and ``now`` is what the history has.
    """

    became: Became
    table: str
    row: Mapping[str, Any]
    column: str = ""
    stood: object = None
    now: object = None


class Known(Struct, frozen=True):
    """All that is known of one row.

    ``row`` is what was read, ``unsure`` the columns of it that were read in part or not
    at all, ``by_index`` what an index says. The history is ``is_sure`` where nothing
    that came after its last word on the row is lost.
    """

    table: Table
    row_id: int
    row: Row | None = None
    told: Told | None = None
    is_sure: bool = False
    unsure: frozenset[str] = frozenset()
    by_index: Mapping[str, Any] = field(default_factory=dict)
    is_stray: bool = False


def decided(known: Known) -> tuple[Row | None, list[Note]]:
    """Give the row as it is to stand, or none, with what is to be told of it."""
    if known.row is None:
        return _brought_back(known)
    told = known.told
    if known.is_stray and told is not None and told.is_there is False:
        return None, []
    return _read(known, known.row)


def _read(known: Known, row: Row) -> tuple[Row | None, list[Note]]:
    name = known.table.name
    wrong = _wrong(known, row)
    values: Row = {"id": known.row_id}
    notes: list[Note] = []
    for column, stood in row.items():
        if column == "id":
            continue
        became, value = _value(known, column, stood, is_wrong=column in wrong)
        if became is Became.LOST:
            return None, [Note(became, name, row)]
        if became is Became.DOUBTFUL and known.told is not None:
            told = known.told.values[column]
            notes.append(Note(became, name, row, column, stood, told))
        elif became is not None:
            notes.append(Note(became, name, row, column, stood, value))
        values[column] = value
    return values, notes


def _value(
    known: Known, name: str, stood: object, *, is_wrong: bool
) -> tuple[Became | None, object]:
    """Give what one value becomes, and what is to be told of it if anything."""
    told = known.told.values if known.told is not None else {}
    if name in told and (is_wrong or known.is_sure):
        is_same = same(stood, told[name]) and name not in known.unsure
        return (None, stood) if is_same else (Became.SET_BACK, told[name])
    if not is_wrong:
        doubts = told.get(name) is not None and not same(stood, told[name])
        return (Became.DOUBTFUL if doubts else None), stood
    column = known.table.c[name]
    if isinstance(stood, str) and stood and name in known.unsure & _FREE:
        return Became.IN_PART, stood
    if column.nullable or _blank(column) is not None:
        value = None if column.nullable else _blank(column)
        is_same = same(stood, value) and name not in known.unsure
        return (None if is_same else Became.NOT_RECORDED), value
    return Became.LOST, None


def _brought_back(known: Known) -> tuple[Row | None, list[Note]]:
    table, told = known.table, known.told
    if told is not None and told.is_there is False:
        return None, []
    values: Row = {"id": known.row_id, **known.by_index}
    if told is not None:
        values |= told.values
    whole = {column.name: values.get(column.name, _blank(column)) for column in table.c}
    lacks = any(
        whole[column.name] is None and not column.nullable for column in table.c
    )
    guessed = told is None or told.is_there is None
    if lacks or (guessed and len(known.by_index) + 1 < len(table.c)):
        return None, [Note(Became.LOST, table.name, values)]
    wrong = {line.partition(":")[0] for line in problems_of(table.name, dict(whole))}
    if wrong & set(whole):
        return None, [Note(Became.LOST, table.name, values)]
    return whole, [Note(Became.BROUGHT_BACK, table.name, whole)]


def _wrong(known: Known, row: Row) -> set[str]:
    """Give the columns whose values cannot be meant."""
    whole = dict.fromkeys(known.table.c.keys()) | row
    wrong = {line.partition(":")[0] for line in problems_of(known.table.name, whole)}
    lacking = {
        name
        for name, value in row.items()
        if value is None and not known.table.c[name].nullable
    }
    return (wrong | lacking | known.unsure) & set(row)


_FREE = frozenset(
    {
        "note",
        "name",
        "source",
        "left_why",
        "parentage",
        "papers",
        "product",
        "award",
        "file_name",
        "overrule_reason",
    }
)


def _blank(column: Column[Any]) -> Any:
    """Give what a column holds where nothing was said: its default, or nothing."""
    found = getattr(column.default, "arg", None)
    return int(found) if isinstance(found, bool) else found
