"""Cells of the tables of an export as values of a column, and values as cells.

What is not recorded is an empty cell; an empty set of signs is *nothing*, for it was
looked for. Numbers of another spreadsheet are read too where they can mean one thing.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import read_day, read_text
from growdesk.domain.speech import Phrases, tr
from growdesk.services import csv_cells
from growdesk.store.mapping import WORD_SETS

if TYPE_CHECKING:
    from sqlalchemy import Column

NOTHING = "nothing"
_LONGEST = 1_000_000


def told(column: Column[Any], value: object) -> object:
    """Give the value as its cell has it."""
    return NOTHING if value == "" and column.name in WORD_SETS else value


def read(column: Column[Any], field: str, text: str) -> object:
    """Give the value of a cell; refuse what the column cannot hold."""
    kind = column.type.python_type
    if kind is str:
        return _text(column, field, text)
    if not text:
        if column.nullable:
            return None
        raise InputError(
            field, text, tr("is empty"), tr("Give {nouns}.").format(nouns=_NOUNS[kind])
        )
    if kind is bool:
        return csv_cells.flag(field, text)
    if kind is date:
        return read_day(field, text)
    if kind is int:
        return csv_cells.whole(field, text)
    return csv_cells.number(field, text)


_NOUNS = Phrases(
    {
        bool: "true or false",
        date: "a day",
        int: "a whole number",
        float: "a number",
    }
)


def _text(column: Column[Any], field: str, text: str) -> str | None:
    if column.name in WORD_SETS and text == NOTHING:
        return ""
    if not text and column.nullable:
        return None
    read_text(field, text, _LONGEST)
    return text
