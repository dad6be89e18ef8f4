"""CSV as spreadsheets write and read it: text in, rows out, and the way back.

A text that a spreadsheet would run as a formula goes out with a ' before it, which
reading takes off again, so that the round trip is identical. It knows no plants.
"""

from __future__ import annotations

import csv
import io
import re
from codecs import BOM_UTF8
from datetime import date
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.speech import fixed, mark, tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

_DELIMITERS = ",;\t"
_UTF_16_MARKS = (b"\xff\xfe", b"\xfe\xff")
_BEGIN = 4096
MOST_COLUMNS = 1000
_SPACE = " \t\r\n\v\f\x1c\x1d\x1e\x1f\x85\xa0\ufeff"
"""What is trimmed from both ends; the last is a mark of encoding amid a file."""
_PACKED = (
    b"PK\x03\x04",
    b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",
    b"\x1f\x8b",
    b"Rar!",
    b"7z\xbc",
)
_OTHERS = (
    *(b"%PDF", b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"\x7fELF"),
    *(b"SQLite format 3\x00", b"\xff\xfe\x00\x00", b"\x00\x00\xfe\xff"),
)
_AGAIN = mark("Save it as CSV in UTF-8.")
_FORMULA = re.compile(r"'*[=+\-@\t\r]")
_HELD_BACK = re.compile(r"'+[=+\-@\t\r]")


class Table(Struct, frozen=True):
    """A header and its rows; row 1 is the header, as a spreadsheet counts.

    ``notices`` are plain lines on how the file was read, ``encoding`` and ``delimiter``
    say it shortly.
    """

    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    notices: tuple[str, ...]
    encoding: str = ""
    delimiter: str = ","


def read_table(
    raw: bytes, source: str, *, trimmed: bool = True, most_rows: int | None = None
) -> Table:
    """Give the rows of a CSV file, separated by commas, semicolons or tabs.

    Cells are trimmed, unless they are to be read exactly as they were written.
    """
    refuse_others(raw, source)
    text, encoding = decoded(raw, source)
    first = text.split("\n", 1)[0]
    if "\x00" in first:
        raise InputError("FILE", source, tr("is not text"), tr(_AGAIN))
    delimiter = max(_DELIMITERS, key=first.count)
    read: list[tuple[int, tuple[str, ...]]] = []
    for number, row in enumerate(_rows(text, delimiter, source), start=1):
        if len(row) > MOST_COLUMNS:
            raise too_many_columns(source)
        if any(cell.strip() for cell in row):
            kept = [cell.strip(_SPACE) for cell in row] if trimmed else row
            read.append((number, tuple(map(_freed, kept))))
        if most_rows is not None and len(read) > most_rows + 1:
            raise _too_many(source, tr("has more than {most} rows"), most_rows)
    if not read or read[0][0] != 1:
        hint = tr("Write the names of the fields in the first row.")
        raise InputError("FILE", source, tr("has no header"), hint)
    said = _notices(encoding, source)
    header, rest = read[0][1], tuple(read[1:])
    return Table(header, rest, said, encoding.removesuffix("-sig"), delimiter)


def _rows(text: str, delimiter: str, source: str) -> Iterator[list[str]]:
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    begun = 1
    try:
        for row in rows:
            yield row
            begun = rows.line_num + 1
    except csv.Error as error:
        hint = tr("Save it again as CSV from the spreadsheet.")
        raise InputError("FILE", source, csv_problem(error, begun), hint) from None


def csv_problem(error: csv.Error, line: int) -> str:
    """Say what is wrong with the row that begins in a line."""
    said = str(error)
    if "end of data" in said:
        return tr("is not CSV: a quotation mark of line {line} is never closed").format(
            line=line
        )
    if "field limit" in said:
        return tr(
            "is not CSV: a cell of line {line} has more than {most} characters"
        ).format(line=line, most=fixed(csv.field_size_limit(), 0))
    return tr("is not CSV at line {line}: {error}").format(line=line, error=error)


def refuse_others(raw: bytes, source: str) -> None:
    """Refuse by its first bytes what is a spreadsheet, packed, a picture or paper."""
    if raw.startswith(_PACKED):
        hint = tr("Open it in the spreadsheet and save it as CSV.")
        raise InputError("FILE", source, tr("is a spreadsheet or a packed file"), hint)
    if raw.startswith(_OTHERS):
        raise InputError("FILE", source, tr("is not text"), tr(_AGAIN))


def too_many_columns(source: str) -> InputError:
    """Give the refusal of a table that is far wider than any grower's."""
    return _too_many(source, tr("has more than {most} columns"), MOST_COLUMNS)


def _too_many(source: str, problem: str, most: int) -> InputError:
    hint = tr("Split it into several files, or take out what is not needed.")
    said = problem.format(most=fixed(most, 0))
    return InputError("FILE", source, said, hint)


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
    wide = "utf-16" if raw.startswith(_UTF_16_MARKS) else ""
    if not wide and not raw.startswith(BOM_UTF8):
        wide = wide_encoding(raw[:_BEGIN])
    encoding = wide or "utf-8-sig"
    try:
        return raw.decode(encoding), encoding
    except UnicodeDecodeError:
        pass
    fallback = wide or "cp1252"
    try:
        return raw.decode(fallback), fallback
    except UnicodeDecodeError:
        raise InputError(
            "FILE", source, tr("is not readable text"), tr(_AGAIN)
        ) from None


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
