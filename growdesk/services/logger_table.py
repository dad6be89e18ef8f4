"""Where the rows of a logger's file begin, and how their cells are parted.

Lines before the header are passed over; the separator is the one by which most lines
have a day and a number; the decimal sign is the one that all numbers allow.
"""

from __future__ import annotations

import csv
import io
import re
from itertools import islice
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services import csv_form, logger_times

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.services.logger_text import LoggerText

Row = tuple[int, tuple[str, ...]]
"""A line's number in the file, and its cells."""

_DELIMITERS = "\t;,|"
_LOOKED_AT = 600
_MOST_HEADERS = 3
_MOST_LINES = 20
"""Lines that one cell may go over; a note above the rows may have some."""
_UNIT = r"(?:°\s?[CF]|℃|℉|[CF]|%(?:\s?RH)?|lx|lux|fc|W/m[²2]|µmol.*)"
NUMBER = re.compile(rf"([-+−]?[0-9.,]*[0-9](?:[eE][+-]?[0-9]{{1,3}})?)\s*({_UNIT})?")
GROUPED = re.compile(r"[+-]?[1-9][0-9]{0,2}(?:[.,][0-9]{3})+")


class Layout(Struct, frozen=True):
    """How a file is laid out. ``headers`` are the lines of names above the rows.

    ``first_line`` is the line of the first row, ``width`` its number of cells;
    ``header_line`` is 0 where there is no header.
    """

    delimiter: str
    headers: tuple[tuple[str, ...], ...]
    first_line: int
    width: int
    header_line: int = 0

    @property
    def names(self) -> tuple[str, ...]:
        """Give the columns' names; a column without one is called by its number."""
        found = []
        for at in range(self.width):
            parts = [row[at] for row in self.headers if at < len(row) and row[at]]
            found.append(
                " ".join(dict.fromkeys(parts)) or tr("Column {at}").format(at=at + 1)
            )
        return tuple(found)


def layout(file: LoggerText) -> Layout:
    """Find the separator, the header and the first row of a file."""
    best: tuple[str, list[Row], list[int]] = ("", [], [])
    for delimiter in _DELIMITERS:
        begin = list(islice(_cut(file, delimiter), _LOOKED_AT))
        good = [at for at, (_, cells) in enumerate(begin) if _is_reading(cells)]
        if len(good) > len(best[2]):
            best = (delimiter, begin, good)
    delimiter, begin, good = best
    if not good:
        hint = tr("Choose a table with a date and numbers in every row.")
        problem = tr("has no row with a date and a number")
        raise InputError("FILE", file.source, problem, hint)
    first = _first(begin, good)
    width = len(begin[first][1])
    headers = _headers([cells for _, cells in begin[:first]], width)
    header_line = begin[first - len(headers)][0] if headers else 0
    return Layout(delimiter, headers, begin[first][0], width, header_line)


def rows(file: LoggerText, shape: Layout) -> Iterator[Row]:
    """Give the rows of a file with their line numbers, empty lines left out."""
    for line, cells in _cut(file, shape.delimiter):
        if line >= shape.first_line:
            yield line, cells


def _cut(file: LoggerText, delimiter: str) -> Iterator[Row]:
    read = csv.reader(io.StringIO(file.text, newline=""), delimiter=delimiter)
    begun, hint = 1, tr("Export it from the logger's program again.")
    try:
        for cells in read:
            plain = tuple(cell.strip() for cell in cells)
            if read.line_num - begun > _MOST_LINES:
                problem = tr("has a quotation mark in line {line} that is never closed")
                said = problem.format(line=begun)
                raise InputError("FILE", file.source, said, hint)
            if len(plain) > csv_form.MOST_COLUMNS:
                raise csv_form.too_many_columns(file.source)
            if any(plain):
                yield read.line_num, plain
            begun = read.line_num + 1
    except csv.Error as error:
        problem = csv_form.csv_problem(error, begun)
        raise InputError("FILE", file.source, problem, hint) from None


def _is_dated(cells: Sequence[str]) -> bool:
    return any(
        found.day_text or found.epoch
        for found in map(logger_times.moment, cells)
        if found is not None
    )


def _is_reading(cells: Sequence[str]) -> bool:
    """Tell whether a line has a day and, beside it, a number."""
    if len(cells) < 2 or not _is_dated(cells):
        return False
    rest = [cell for cell in cells if logger_times.moment(cell) is None]
    return any(NUMBER.fullmatch(cell) for cell in rest)


def _first(begin: list[Row], good: list[int]) -> int:
    """Give the first row: of the width most have, with dated rows just above it."""
    widths = [len(begin[at][1]) for at in good]
    width = max(set(widths), key=lambda each: (widths.count(each), each))
    first = next(at for at in good if len(begin[at][1]) == width)
    while (
        first and len(begin[first - 1][1]) == width and _is_dated(begin[first - 1][1])
    ):
        first -= 1
    return first


def _headers(above: list[tuple[str, ...]], width: int) -> tuple[tuple[str, ...], ...]:
    """Give the lines just above the rows that name or measure nearly every column."""
    found: list[tuple[str, ...]] = []
    for up, cells in enumerate(reversed(above)):
        filled = sum(map(bool, cells))
        if filled >= max(2, width - 1) and len(cells) <= width + 1:
            found.insert(0, cells)
        elif up or len(cells) != width:  # only the lowest may be of few words
            break
        if len(found) == _MOST_HEADERS:
            break
    return tuple(found)


def decimal_sign(cells: set[str], delimiter: str) -> str:
    """Give the decimal sign of a file's numbers, or nothing where it is either.

    ``cells`` are numbers with a comma or a point in them.
    """
    both = [cell for cell in cells if "," in cell and "." in cell]
    if both:
        last = [max(",.", key=cell.rindex) for cell in both]
        return max(",.", key=last.count)
    commas = [cell for cell in cells if "," in cell]
    decimals = [cell for cell in commas if not GROUPED.fullmatch(cell)]
    points = len(commas) < len(cells)
    if not commas or (points and not decimals):
        return "."
    if decimals or delimiter != ",":
        return ","
    return ""


def number(text: str, decimal: str) -> float | None:
    """Give the number in a cell, its unit passed over, or nothing where it is none."""
    found = NUMBER.fullmatch(text)
    if found is None:
        return None
    digits = found[1].replace("−", "-")
    group = "," if decimal == "." else "."
    whole, _, part = digits.partition(decimal or ".")
    grouped = group in whole and decimal and GROUPED.fullmatch(whole)
    try:
        return float(f"{whole.replace(group, '') if grouped else whole}.{part or 0}")
    except ValueError:
        return None


def in_fahrenheit(text: str) -> bool | None:
    """Tell which degrees a cell names behind its number, or nothing for none."""
    found = NUMBER.fullmatch(text)
    unit = found[2] if found else None
    if not unit or unit[-1] not in "CF℃℉":
        return None
    return unit[-1] in "F℉"
