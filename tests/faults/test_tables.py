"""Tables that mean harm or were harmed: one line with its row, and nothing written.

What is taken is taken in one action, which one undo takes back. The same files go to
the reader of loggers too, which must refuse each in a line.
"""

from __future__ import annotations

import random
import zipfile
from collections.abc import Callable
from datetime import date
from io import BytesIO
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.services import intake_survey, logger_survey, transfer
from growdesk.services.csv_form import read_table, write_table
from growdesk.services.logger_reading import read_days

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection import Collection

Told = Callable[[str], None]
HEAD = b"tag,name,note\n"
TODAY = date(2026, 5, 20)


def _packed() -> bytes:
    out = BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("xl/workbook.xml", "<workbook/>")
    return out.getvalue()


def _pot(text: str) -> bytes:
    return b"tag,name,pot_volume_l\nA1,x," + text.encode() + b"\n"


def _day(text: str) -> bytes:
    return b"tag,name,acquired_on\nA1,x," + text.encode() + b"\n"


REFUSED: dict[str, tuple[bytes, str]] = {
    "nul in a cell": (HEAD + b"A1,Van\x00da,x\n", "Row 2, name: "),
    "bell in a cell": (HEAD + b"A1,b,c\nA2,Van\x07da,x\n", "Row 3, name: "),
    "nothing but nul": (bytes(5_000), "is not text"),
    "nul in the header": (b"tag,na\x00me\nA1,x\n", "is not text"),
    "utf-16 of odd length": ("tag\nÄ1\n".encode("utf-16") + b"\0", "not readable text"),
    "utf-16 with half a sign": (b"\xff\xfet\0\n\0\x00\xd8\n\0", "not readable text"),
    "utf-32": ("tag\nA1\n".encode("utf-32"), "is not text"),
    "no encoding at all": (HEAD + b"A1,Van\x81da,x\n", "not readable text"),
    "1 MB in a cell": (
        HEAD + b"A1," + b"x" * 1_000_000 + b"\n",
        "line 2 has more than",
    ),
    "150 kB in a cell": (HEAD + b"A1,b,c\nA2," + b"x" * 150_000, "of line 3 has more"),
    "open quote": (HEAD + b'A1,b,c\nA2,"b,c\n' + b"A3,b,c\n" * 9, "mark of line 3 is"),
    "open quote, long": (HEAD + b'A1,"b,c\n' + b"A2,b,c\n" * 90_000, "of line 2 has"),
    "name twice": (b"tag,name,name\nA1,x,y\n", "'name' stands twice"),
    "column without a name": (b"tag,,name\nA1,x,y\n", "row 1: '' is not a field"),
    "no names": (b",,\nA1,x,y\n", "has no header"),
    "10 000 columns": (b"tag" + b",x" * 10_000 + b"\n", "more than 1000 columns"),
    "5 000 000 cells": (b"tag" + b"," * 5_000_000, "more than 1000 columns"),
    "cells beyond the last": (HEAD + b"A1,b,c\nA2,b,c,d\n", "Row 3, row: 'd' stands"),
    "spreadsheet": (_packed(), "is a spreadsheet"),
    "old spreadsheet": (bytes.fromhex("d0cf11e0a1b11ae1") + bytes(99), "spreadsheet"),
    "PNG": (b"\x89PNG\r\n\x1a\n" + bytes(99), "is not text"),
    "JPEG": (b"\xff\xd8\xff\xe0" + bytes(99), "is not text"),
    "PDF": (b"%PDF-1.4\n1 0 obj\n", "is not text"),
    "web page": (b"<html><table><tr><td>A1</table>", "is not a field"),
    "noise": (random.Random(3).randbytes(9_000), "not readable text"),  # noqa: S311
    "day that is none": (_day("2025-02-30"), "Row 2, acquired_on: "),
    "German day that is none": (_day("31.2.2025"), "Row 2, acquired_on: "),
    "year 0": (_day("0000-00-00"), "Row 2, acquired_on: "),
    "year 99999": (_day("99999-01-01"), "Row 2, acquired_on: "),
    "1e999": (_pot("1e999"), "Row 2, pot_volume_l: "),
    "5 000 nines": (_pot("9" * 5_000), "Row 2, pot_volume_l: "),
    "infinity": (_pot("inf"), "Row 2, pot_volume_l: "),
    "not a number": (_pot("nan"), "Row 2, pot_volume_l: "),
    "a number in words": (_pot("=2+3"), "Row 2, pot_volume_l: "),
    "same tag twice": (b"tag,name\nA1,x\na1,y\n", "Row 3, tag: "),
    "0 bytes": (b"", "has no header"),
    "a million empty lines": (b"\n" * 1_000_000, "has no header"),
    "100 001 quotes": (b'"' * 100_001, "mark of line 1 is never closed"),
}
TAKEN: dict[str, tuple[bytes, tuple[str, str]]] = {
    "utf-16": ("tag,name\nA1,Vandä\n".encode("utf-16"), ("A1", "Vandä")),
    "utf-16 without mark": ("tag,name\nA1,x\n".encode("utf-16-be"), ("A1", "x")),
    "cp1252": ("tag,name\nA1,Vandä\n".encode("cp1252"), ("A1", "Vandä")),
    "two marks": (b"\xef\xbb\xbf\xef\xbb\xbftag,name\nA1,x\n", ("A1", "x")),
    "a mark amid": (b"tag,name\n\xef\xbb\xbfA1,x\n", ("A1", "x")),
    "bare returns": (b"tag,name\rA1,x\r", ("A1", "x")),
    "short rows": (b"tag,name,note\nA1\n", ("A1", "")),
    "formula": (b"tag,name\nA1,=1+1\n", ("A1", "=1+1")),
    "formula held back": (b"tag,name\nA1,'=1+1\n", ("A1", "=1+1")),
    "right to left": ("tag,name\nA1,\u202eadnaV\n".encode(), ("A1", "\u202eadnaV")),
    "surrogates as utf-8": (b"tag,name\nA1,\xed\xa0\x80\n", ("A1", "í\xa0€")),
    "semicolons": (b"tag;name\nA1;a, b\n", ("A1", "a, b")),
}


def _line(collection: Collection, path: Path) -> str:
    """Give the line a table is refused with."""
    try:
        found = transfer.survey_of(path)
        chosen = transfer.choose(found)
        report = transfer.take(collection.ledger, found, chosen)
    except InputError as error:
        return error.line()
    assert report.written is None
    return report.bad[0].line()


def test_every_hostile_table_is_one_line_and_nothing_is_written(
    collection: Collection, tmp_path: Path, told: Told
) -> None:
    path = tmp_path / "table.csv"
    wrong = {}
    for name, (content, must_say) in REFUSED.items():
        path.write_bytes(content)
        line = _line(collection, path)
        if must_say not in line or "\n" in line or len(line) > 2_500:
            wrong[name] = line
    assert wrong == {}
    assert collection.plants.all() == ()
    assert collection.history.view().undo is None
    told(f"F16 tables: {len(REFUSED)} hostile files, each refused in a line, 0 written")


def test_what_is_only_odd_is_taken_and_one_undo_takes_it_back(
    collection: Collection, tmp_path: Path, told: Told
) -> None:
    path = tmp_path / "table.csv"
    for name, (content, (tag, plant)) in TAKEN.items():
        path.write_bytes(content)
        found = transfer.survey_of(path)
        report = transfer.take(collection.ledger, found, transfer.choose(found))
        assert report.written is not None, name
        ((_, draft),) = collection.plants.all()
        assert (draft.tag, draft.name) == (tag, plant), name
        collection.history.undo()
        assert collection.plants.all() == (), name
    told(f"F16 tables: {len(TAKEN)} odd files taken as written, 1 undo each took all")


def test_no_hostile_table_troubles_the_reader_of_loggers(
    tmp_path: Path, told: Told
) -> None:
    path, lines = tmp_path / "logger.csv", 0
    for content, *_ in (*REFUSED.values(), *TAKEN.values()):
        path.write_bytes(content)
        with pytest.raises(GrowdeskError) as caught:
            logger_survey.survey(path)
        assert "\n" not in caught.value.line()
        lines += 1
    told(f"F16 tables: {lines} of them as a logger's file, each refused in a line")


def test_a_million_rows_are_refused_before_they_fill_the_memory(
    collection: Collection, tmp_path: Path, told: Told
) -> None:
    path = tmp_path / "table.csv"
    path.write_bytes(b"tag,name\n" + b"A1,Vanda\n" * 1_000_000)
    line = _line(collection, path)
    assert line == (
        "FILE: 'table.csv' has more than 200000 rows. Split it into several files, or"
        " take out what is not needed."
    )
    told("F16 tables: 1 000 000 rows, refused at 200 000 in a line")


def test_a_loggers_file_of_many_rows_is_read_row_by_row(
    tmp_path: Path, told: Told
) -> None:
    path = tmp_path / "logger.csv"
    day = "".join(
        f"2026-03-{{day}} {hour:02}:{minute:02};{20 + minute / 100}\n"
        for hour in range(24)
        for minute in range(60)
    )
    days = (day.replace("{day}", f"{1 + number % 28:02}") for number in range(35))
    path.write_text("Time;Temperature °C\n" + "".join(days), encoding="utf-8")
    found = logger_survey.survey(path)
    assert found.rows == 35 * 1_440
    read = read_days(path, found.choices, TODAY)
    assert len(read.days) == 28
    told(f"F16 tables: a logger's file of {found.rows} rows read, 28 days of it")


def test_an_open_quotation_mark_swallows_no_row_of_a_logger(tmp_path: Path) -> None:
    path = tmp_path / "logger.csv"
    rows = [f"2026-03-01 {hour:02}:00;{hour}.5" for hour in range(24)] * 4
    rows[30] = '2026-03-01 06:00;"6.5'
    path.write_text("Time;Temperature °C\n" + "\n".join(rows), encoding="utf-8")
    with pytest.raises(InputError, match="mark in line 32 that is never closed"):
        logger_survey.survey(path)


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t1", "'=1", "''=1", "'a", " =1"]
)
def test_a_formula_goes_out_held_back_and_comes_back_as_it_was(text: str) -> None:
    raw = write_table(["a"], [[text]])
    ((_, (back,)),) = read_table(raw, "x.csv", trimmed=False).rows
    assert back == text
    cell = raw.decode("utf-8-sig").split("\r\n")[1].strip('"')
    assert cell[:1] not in {"=", "+", "-", "@", "\t"}


def test_the_limit_of_rows_leaves_room_for_all_that_one_grower_has(
    collection: Collection, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(intake_survey, "MOST_ROWS", 3)
    path = tmp_path / "table.csv"
    path.write_bytes(b"tag\n" + b"".join(b"A%d\n" % number for number in range(3)))
    assert transfer.survey_of(path).rows == 3
    path.write_bytes(path.read_bytes() + b"A4\n")
    assert "more than 3 rows" in _line(collection, path)
