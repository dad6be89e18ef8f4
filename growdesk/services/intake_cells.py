"""Cells of a table as values of a field, by the column's own dates and decimals."""

from __future__ import annotations

import re
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services import intake_units, intake_words
from growdesk.services import logger_times as times
from growdesk.services.logger_times import DayOrder
from growdesk.services.table_cells import NOTHING
from growdesk.store.mapping import WORD_SETS, WORDS

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.intake_fields import Field
    from growdesk.services.intake_values import Choices, Column

_NUMBER = re.compile(r"[+-]?[0-9.,]*[0-9](?:[eE][+-]?[0-9]{1,3})?")
_GROUPED = re.compile(r"[+-]?[1-9][0-9]{0,2}(?:([.,])[0-9]{3})(?:\1[0-9]{3})*")
_SPACES = str.maketrans(dict.fromkeys(" \xa0\u202f\u2009'’", "") | {"−": "-"})
_ISO_YEAR = 4


def reader(column: Column, field: Field, choices: Choices) -> Callable[[str], object]:
    """Give what reads a cell of this column as this field."""
    name, kind = field.column.name, field.column.type.python_type
    if field.column.foreign_keys or kind is str:
        return str if field.column.foreign_keys else _words(name)
    if kind is bool:
        return partial(intake_words.flag, field.key)
    if kind is date:
        return partial(day, field.key, order=order_of(column, choices))
    times_by = intake_units.factor(column.unit, field.unit) or 1.0
    read = partial(number, field.key, decimal=column.decimal or choices.decimal)
    if kind is int:
        return lambda text: _whole(field.key, text, read(text) * times_by)
    return lambda text: float(f"{read(text) * times_by:.15g}")


def _words(name: str) -> Callable[[str], object]:
    """Give what reads a cell of text, or of words the collection knows."""
    if name in WORD_SETS:
        words = WORD_SETS[name]
        return lambda text: intake_words.word_set(name, text, words, NOTHING)
    if name in WORDS:
        return lambda text: intake_words.word(name, text, WORDS[name])
    return str


def order_of(column: Column, choices: Choices) -> DayOrder | None:
    """Give the order of a column's dates; nothing where it has to be asked for."""
    allowed = [each.order for each in column.orders]
    if choices.day_order in allowed:
        return choices.day_order
    if len(allowed) > 1:
        return None
    return allowed[0] if allowed else choices.day_order or DayOrder.YMD


def day(field: str, text: str, order: DayOrder | None) -> date:
    """Give a day; the year in front is read so whatever the order of the others."""
    found = times.moment(text)
    said = found.day_text if found is not None else ""
    if not said:
        hint = tr("Write it as year-month-day, for example 2026-03-28.")
        raise InputError(field, text, tr("is not a day"), hint)
    if said[:_ISO_YEAR].isdigit():
        order = DayOrder.YMD
    if order is None:
        hint = tr("Say in which order day and month stand.")
        raise InputError(field, text, tr("could be read in two ways"), hint)
    read = times.day(said, order)
    if read is None:
        hint = tr("Look at day, month and year, or say in which order they stand.")
        raise InputError(field, text, tr("is not a day that exists"), hint)
    return read


def number(field: str, text: str, decimal: str) -> float:
    """Give a number; marks of thousands are passed over where they can be told."""
    plain = text.translate(_SPACES)
    if not _NUMBER.fullmatch(plain):
        hint = tr("Write a plain number without a unit.")
        raise InputError(field, text, tr("is not a number"), hint)
    marks = [sign for sign in plain if sign in ",."]
    grouped = _GROUPED.fullmatch(plain)
    if grouped and not decimal:
        hint = (
            tr("Write it with a point, or without the comma.")
            if grouped[1] == ","
            else tr("Write it with a comma, or without the point.")
        )
        raise InputError(field, text, tr("could be read in two ways"), hint)
    if not marks:
        return float(plain)
    if len(marks) == 1 and not (grouped and marks[0] != (decimal or ".")):
        return float(plain.replace(",", "."))
    point = decimal or (marks[-1] if len(set(marks)) > 1 else ".")
    whole, _, part = plain.partition(point)
    other = "," if point == "." else "."
    if (
        other in part
        or point in part
        or (other in whole and not _GROUPED.fullmatch(whole))
    ):
        hint = tr("Write it with one point, and nothing between thousands.")
        raise InputError(field, text, tr("is not a number"), hint)
    return float(f"{whole.replace(other, '')}.{part or 0}")


def _whole(field: str, text: str, value: float) -> int:
    if not value.is_integer():
        raise InputError(
            field, text, tr("is not a whole number"), tr("Leave the part off.")
        )
    return int(value)
