"""What a table seems to hold, before anything is read from it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.speech import tr
from growdesk.services import csv_form, files_in, intake_units, logger_table
from growdesk.services import logger_times as times
from growdesk.services.intake_fields import FIELDS, NEEDED, Sort, folded
from growdesk.services.intake_values import Column, Survey
from growdesk.store.regular_files import shown_name

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from growdesk.services.csv_form import Table
    from growdesk.services.intake_fields import Field

SAMPLES = 3
MOST_ROWS = 200_000
"""Rows of one table taken in at once: all is shown before it is written."""
_MOST_DATES = 0.6
_ISO = 4


def survey(path: Path) -> Survey:
    """Say how a file is laid out, what its rows are, and what each column may be."""
    raw, name = files_in.read_bytes(path), shown_name(path)
    return of_table(csv_form.read_table(raw, name, most_rows=MOST_ROWS), name)


def of_table(table: Table, source: str) -> Survey:
    """Survey rows that were read before."""
    has_header = any(_known(name) for name in table.header) or not _is_data(table)
    if not has_header:
        names = tuple(
            tr("Column {at}").format(at=at) for at in range(1, len(table.header) + 1)
        )
        table = replace(table, header=names, rows=((1, table.header), *table.rows))
    cells = _columns(table)
    columns = tuple(
        _column(name, each, table.delimiter)
        for name, each in zip(table.header, cells, strict=True)
    )
    matched = {sort: match(columns, sort) for sort in Sort}
    sort = max(Sort, key=lambda each: _score(matched[each], each))
    notices = (*table.notices, *_notices(columns, matched[sort], sort))
    return Survey(
        source=source,
        encoding=table.encoding,
        delimiter=table.delimiter,
        has_header=has_header,
        sort=sort,
        columns=columns,
        matched=matched,
        notices=notices,
        table=table,
    )


def match(columns: Sequence[Column], sort: Sort) -> tuple[str, ...]:
    """Give the field of each column; a field is given once, to the best header."""
    found = [""] * len(columns)
    for exactly in (True, False):
        for at, column in enumerate(columns):
            key = "" if found[at] else _key(column, sort, exactly=exactly)
            if key and key not in found:
                found[at] = key
    return tuple(found)


def _key(column: Column, sort: Sort, *, exactly: bool) -> str:
    fields = FIELDS[sort]
    bare, _unit = intake_units.parted(column.name)
    if column.name.casefold() == "tag" and column.orders:
        return "on" if "on" in fields else ""  # the German day
    if exactly:
        return column.name if column.name in fields else ""
    said = folded(bare)
    for key, field in fields.items():
        if said in field.headers and fits(column, field):
            return key
    return ""


def fits(column: Column, field: Field) -> bool:
    """Tell whether a column's unit converts to what the field is kept in."""
    return intake_units.factor(column.unit, field.unit) is not None


def _known(name: str) -> bool:
    said = folded(intake_units.parted(name)[0])
    return any(
        said in field.headers for fields in FIELDS.values() for field in fields.values()
    )


def _is_data(table: Table) -> bool:
    """Tell whether the first row is like any other: a day or a number is in it."""
    return any(
        times.moment(cell) is not None or logger_table.NUMBER.fullmatch(cell)
        for cell in table.header
    )


def _score(keys: Sequence[str], sort: Sort) -> tuple[bool, int]:
    there = all(key in keys for key in NEEDED[sort])
    return there, sum(map(bool, keys))


def _columns(table: Table) -> list[list[str]]:
    width = len(table.header)
    cells: list[list[str]] = [[] for _ in range(width)]
    for _, row in table.rows:
        for at, cell in enumerate(row[:width]):
            if cell:
                cells[at].append(cell)
    return cells


def _column(name: str, cells: list[str], delimiter: str) -> Column:
    different = set(cells)
    dates = {text: times.moment(text) for text in different}
    days = {found.day_text for found in dates.values() if found and found.day_text}
    is_dates = bool(days) and len(days) >= _MOST_DATES * len(different)
    numbers = set()
    if not is_dates:
        numbers = {text for text in different if logger_table.NUMBER.fullmatch(text)}
    marked = {text for text in numbers if "," in text or "." in text}
    return Column(
        name=name,
        samples=tuple(dict.fromkeys(cells))[:SAMPLES],
        filled=len(cells),
        unit=intake_units.parted(name)[1],
        orders=_orders(days) if is_dates else (),
        decimal=_decimal(marked, delimiter),
        has_decimals=bool(marked),
    )


def _decimal(marked: set[str], delimiter: str) -> str:
    """Give the sign of a column's decimals, or nothing where it has to be asked for.

    Where a comma may be the decimal sign, since cells are parted by something else,
    "1.250" alone may be over a thousand.
    """
    sign = logger_table.decimal_sign(marked, delimiter)
    doubtful = delimiter != "," and all(map(logger_table.GROUPED.fullmatch, marked))
    return "" if marked and sign == "." and doubtful else sign


def _orders(days: set[str]) -> tuple[times.DatesRead, ...]:
    """Give the orders of a column's dates; those with the year in front ask nothing."""
    asked = {day for day in days if not day[:_ISO].isdigit()}
    return times.orders(asked or days)


def _notices(
    columns: Sequence[Column], keys: Sequence[str], sort: Sort
) -> tuple[str, ...]:
    found = []
    for column, key in zip(columns, keys, strict=True):
        bare = folded(intake_units.parted(column.name)[0])
        found += [
            tr("{name} is left out: {unit} cannot be turned into {title}.").format(
                name=column.name, unit=column.unit, title=field.title
            )
            for field in FIELDS[sort].values()
            if not key and bare in field.headers and not fits(column, field)
        ]
    return tuple(dict.fromkeys(found))
