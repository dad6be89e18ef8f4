"""CSV as spreadsheets write and read it: text in, rows out, and the way back.

A text that a spreadsheet would run as a formula goes out with a ' before it, which
reading takes off again, so that the round trip is identical. It knows no plants.
"""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

_DELIMITERS = ",;\t"
_UTF_16_MARKS = (b"\xff\xfe", b"\xfe\xff")
_BEGIN = 4096
_FORMULA = re.compile(r"'*[=+\-@\t\r]")
_HELD_BACK = re.compile(r"'+[=+\-@\t\r]")


@dataclass(frozen=True, slots=True)
class Table:
    """A header and its rows; row 1 is the header, as a spreadsheet counts.

    ``notices`` are plain lines on how the file was read, ``encoding`` and ``delimiter``
    say it shortly.
    """

    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    notices: tuple[str, ...]
    encoding: str = ""
    delimiter: str = ","


def read_table(raw: bytes, source: str, *, trimmed: bool = True) -> Table:
    """Give the rows of a CSV file, separated by commas, semicolons or tabs.

    Cells are trimmed, unless they are to be read exactly as they were written.
    """
    text, encoding = decoded(raw, source)
    first = text.split("\n", 1)[0]
    delimiter = max(_DELIMITERS, key=first.count)
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    read: list[tuple[int, tuple[str, ...]]] = []
    try:
        for number, row in enumerate(rows, start=1):
            if any(cell.strip() for cell in row):
                kept = [cell.strip() for cell in row] if trimmed else row
                read.append((number, tuple(map(_freed, kept))))
    except csv.Error as error:
        spot = tr("at line {line_num}").format(line_num=rows.line_num)
        hint = tr("Save it again as CSV from the spreadsheet.")
        raise InputError(
            "FILE",
            source,
            tr("is not CSV {spot}: {error}").format(spot=spot, error=error),
            hint,
        ) from None
    if not read or read[0][0] != 1:
        hint = tr("Write the names of the fields in the first row.")
        raise InputError("FILE", source, tr("has no header"), hint)
    said = _notices(encoding, source)
    header, rest = read[0][1], tuple(read[1:])
    return Table(header, rest, said, encoding.removesuffix("-sig"), delimiter)


def write_table(header: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """Give a CSV file in UTF-8 with commas, days as ISO and decimals with a point."""
    written = io.StringIO(newline="")
    to = csv.writer(written, quoting=csv.QUOTE_MINIMAL, lineterminator="\r\n")
    to.writerow(header)
    to.writerows([_cell(value) for value in row] for row in rows)
    return written.getvalue().encode("utf-8-sig")


def tabbed(header: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Give rows for a spreadsheet to paste: tabs between cells, none inside one."""
    lines = [header, *([_cell(" ".join(text.split())) for text in row] for row in rows)]
    return "\n".join("\t".join(line) for line in lines) + "\n"


def decoded(raw: bytes, source: str) -> tuple[str, str]:
    """Give a file's text and its encoding: UTF-8, UTF-16 or cp1252."""
    wide = "utf-16" if raw.startswith(_UTF_16_MARKS) else wide_encoding(raw[:_BEGIN])
    encoding = wide or "utf-8-sig"
    try:
        return raw.decode(encoding), encoding
    except UnicodeDecodeError:
        pass
    fallback = wide or "cp1252"
    try:
        return raw.decode(fallback), fallback
    except UnicodeDecodeError:
        hint = tr("Save it as CSV in UTF-8.")
        raise InputError("FILE", source, tr("is not readable text"), hint) from None


def wide_encoding(begin: bytes) -> str:
    """Give UTF-16 that has no mark: of every two bytes one is zero, always the same."""
    pairs = len(begin) // 2
    for offset, encoding in ((1, "utf-16-le"), (0, "utf-16-be")):
        zeros = begin[offset::2].count(0)
        if pairs and zeros > 0.4 * pairs and not begin[1 - offset :: 2].count(0):
            return encoding
    return ""


def _notices(encoding: str, source: str) -> tuple[str, ...]:
    if encoding != "cp1252":
        return ()
    return (
        tr(
            "{source} is not UTF-8; it was read as Windows-1252, so look at the names."
        ).format(source=source),
    )


def _freed(text: str) -> str:
    return text[1:] if _HELD_BACK.match(text) else text


def _cell(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float):
        return repr(value).removesuffix(".0")
    if isinstance(value, int):
        return str(value)
    text = str(value)
    return f"'{text}" if _FORMULA.match(text) else text
