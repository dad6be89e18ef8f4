"""What a logger's file seems to hold, before anything is read from it."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.services import (
    logger_columns,
    logger_table,
    logger_text,
    logger_times,
    logger_words,
)
from growdesk.services.logger_columns import DEGREES, QUANTITY, Role
from growdesk.services.logger_values import Column, Survey

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from growdesk.services.logger_table import Layout, Row
    from growdesk.services.logger_text import LoggerText
    from growdesk.services.logger_times import DatesRead

_GUESSED_BY = 40
_SHOWN = 6


def survey(path: Path) -> Survey:
    """Say how a file is encoded and laid out, and what each column seems to be."""
    return of_text(logger_text.read_text(path))


def of_text(file: LoggerText) -> Survey:
    """Survey a text that was read before."""
    shape = logger_table.layout(file)
    begin = list(islice(logger_table.rows(file, shape), _GUESSED_BY))
    cells = [_column(begin, at) for at in range(shape.width)]
    roles = logger_columns.guess(shape.names, cells)
    found = scan(file, shape, roles)
    columns = tuple(
        Column(name, tuple(column[:_SHOWN]), role)
        for name, column, role in zip(shape.names, cells, roles, strict=True)
    )
    return Survey(
        source=file.source,
        encoding=file.encoding,
        delimiter=shape.delimiter,
        decimal=found.decimal,
        header_line=shape.header_line,
        rows=found.rows,
        columns=columns,
        orders=found.orders,
        notices=tuple(_notices(shape.names, cells, roles)),
    )


class Scan(Struct, frozen=True):
    """What all rows of a file say: their number, decimal sign, and dates."""

    rows: int
    decimal: str
    orders: tuple[DatesRead, ...]
    example: str


def scan(file: LoggerText, shape: Layout, roles: Sequence[Role]) -> Scan:
    """Go through all rows once; ``roles`` name the columns that say when."""
    when = [at for at, role in enumerate(roles) if role in {Role.TIME, Role.DATE}]
    dates: set[str] = set()
    marked: set[str] = set()
    count = 0
    for _, cells in logger_table.rows(file, shape):
        count += 1
        dates.update(_dates(cells, when))
        marked.update(
            cell
            for at, cell in enumerate(cells)
            if at not in when and ("," in cell or "." in cell)
        )
    decimal = logger_table.decimal_sign(_numbers(marked), shape.delimiter)
    return Scan(count, decimal, logger_times.orders(dates), min(dates, default=""))


def _dates(cells: Sequence[str], when: Sequence[int]) -> Iterator[str]:
    for at in when:
        found = logger_times.moment(cells[at]) if at < len(cells) else None
        if found is not None and found.day_text:
            yield found.day_text


def _numbers(cells: set[str]) -> set[str]:
    """Give the numbers among cells, without their units."""
    found = set()
    for cell in cells:
        number = logger_table.NUMBER.fullmatch(cell)
        if number is not None and logger_times.moment(cell) is None:
            found.add(number[1])
    return found


def _column(begin: Sequence[Row], at: int) -> list[str]:
    return [cells[at] if at < len(cells) else "" for _, cells in begin]


def _notices(
    names: Sequence[str], cells: Sequence[Sequence[str]], roles: Sequence[Role]
) -> Iterator[str]:
    """Say which column of several was taken, and which degrees are guessed."""
    own = [logger_columns.alone(*each) for each in zip(names, cells, strict=True)]
    for at, role in enumerate(roles):
        if role not in QUANTITY:
            continue
        likes = [
            n for n, other in enumerate(own) if QUANTITY.get(other) is QUANTITY[role]
        ]
        if len(likes) > 1:
            yield logger_words.of_several(
                names[at], [names[n] for n in likes if n != at]
            )
        is_named = logger_columns.names_degrees(names[at], cells[at])
        if QUANTITY[role] in DEGREES and not is_named:
            yield logger_words.degrees_guessed(names[at], role)
