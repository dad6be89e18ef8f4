"""A survey tells how any logger's file is written, and asks where it cannot know."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import InputError
from growdesk.services import logger_times
from growdesk.services.logger_columns import Role, guess
from growdesk.services.logger_survey import survey
from growdesk.services.logger_table import decimal_sign, number
from growdesk.services.logger_times import DayOrder, moment
from tests.services import logger_files as files

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.logger_values import Survey

R = Role


def surveyed(tmp_path: Path, raw: bytes | str) -> Survey:
    path = tmp_path / "sill.csv"
    path.write_bytes(raw.encode() if isinstance(raw, str) else raw)
    return survey(path)


WAYS = {
    "german": ("cp1252", ";", ",", 4),
    "american": ("utf-8", ",", ".", 2),
    "wide": ("utf-16", "\t", ".", 1),
    "unmarked": ("utf-16-le", "\t", ".", 1),
    "epoch": ("utf-8", ",", ".", 1),
    "named-months": ("utf-8", ",", ".", 1),
}
ROLES = {
    "german": (R.DATE, R.TIME, R.TEMPERATURE_C, R.HUMIDITY, R.LUX),
    "american": (
        R.LEAVE_OUT,
        R.TIME,
        R.TEMPERATURE_F,
        R.HUMIDITY,
        R.FC,
        R.LEAVE_OUT,
    ),
    "wide": (R.TIME, R.TEMPERATURE_C, R.HUMIDITY, R.W_PER_M2),
    "unmarked": (R.TIME, R.TEMPERATURE_C, R.HUMIDITY, R.W_PER_M2),
    "epoch": (R.TIME, R.TEMPERATURE_C, R.HUMIDITY, R.PPFD),
    "named-months": (R.TIME, R.TEMPERATURE_C, R.HUMIDITY, R.LUX),
}


@pytest.mark.parametrize(("name", "raw"), list(files.all_files()))
def test_a_file_is_known_for_what_it_is(tmp_path: Path, name: str, raw: bytes) -> None:
    found = surveyed(tmp_path, raw)
    way = (found.encoding, found.delimiter, found.decimal, found.header_line)
    assert way == WAYS[name]
    assert tuple(column.role for column in found.columns) == ROLES[name]
    assert found.rows == 96
    assert len(found.columns[0].samples) == 6
    assert found.notices == ()


def test_a_header_of_two_lines_gives_one_name(tmp_path: Path) -> None:
    found = surveyed(tmp_path, files.epoch())
    assert [column.name for column in found.columns] == [
        "stamp TS",
        "air temp deg C",
        "rel humidity %",
        "PAR umol/m2/s",
    ]


def test_a_file_without_a_header_numbers_its_columns(tmp_path: Path) -> None:
    found = surveyed(tmp_path, files.named_months().split(b"\n", 1)[1])
    assert found.header_line == 0
    assert [column.name for column in found.columns][:2] == ["Column 1", "Column 2"]
    assert found.columns[0].role is R.TIME
    assert found.rows == 96


def test_dates_that_go_both_ways_are_asked_for(tmp_path: Path) -> None:
    found = surveyed(tmp_path, files.ambiguous("%d/%m/%Y"))
    assert found.day_order is None
    assert [(each.order, each.first, each.last) for each in found.orders] == [
        (DayOrder.DMY, date(2026, 5, 1), date(2026, 5, 2)),
        (DayOrder.MDY, date(2026, 1, 5), date(2026, 2, 5)),
    ]


@pytest.mark.parametrize(
    ("day", "days", "order"),
    [
        ("%d/%m/%Y", 13, DayOrder.DMY),
        ("%m/%d/%Y", 13, DayOrder.MDY),
        ("%d.%m.%Y", 2, DayOrder.DMY),
        ("%Y/%m/%d", 2, DayOrder.YMD),
        ("%Y%m%d", 2, DayOrder.YMD),
    ],
)
def test_dates_that_go_one_way_are_not_asked_for(
    tmp_path: Path, day: str, days: int, order: DayOrder
) -> None:
    assert surveyed(tmp_path, files.ambiguous(day, days)).day_order is order


def test_one_day_in_the_file_may_be_the_same_either_way(tmp_path: Path) -> None:
    text = "Time,Temp (C)\n05/05/2026 10:00,20\n05/05/2026 11:00,21\n"
    assert surveyed(tmp_path, text).day_order is not None


def test_a_spoilt_date_does_not_decide_the_order(tmp_path: Path) -> None:
    text = files.ambiguous("%d/%m/%Y", 20) + "13/13/2026 00:00,20\n"
    assert surveyed(tmp_path, text).day_order is DayOrder.DMY


def test_degrees_that_nobody_names_are_told_by_the_numbers(tmp_path: Path) -> None:
    warm = surveyed(tmp_path, "Time,Temp\n2026-05-01 10:00,68\n2026-05-01 11:00,70\n")
    assert warm.columns[1].role is R.TEMPERATURE_F
    assert warm.notices == (
        "“Temp” names no degrees; by its numbers it is taken as °F.",
    )
    mild = surveyed(tmp_path, "Time,Temp\n2026-05-01 10:00,18\n2026-05-01 11:00,20\n")
    assert mild.columns[1].role is R.TEMPERATURE_C
    assert mild.notices[0].endswith("taken as °C.")


def test_the_first_of_several_columns_is_taken_and_said(tmp_path: Path) -> None:
    text = "Time,Probe 1 °C,Probe 2 °C\n2026-05-01 10:00,18,19\n"
    found = surveyed(tmp_path, text)
    assert [column.role for column in found.columns][1:] == [
        R.TEMPERATURE_C,
        R.LEAVE_OUT,
    ]
    assert found.notices == (
        "“Probe 1 °C” is taken; “Probe 2 °C” could be taken in its place.",
    )


@pytest.mark.parametrize(
    ("name", "role"),
    [
        ("Température (°C)", R.TEMPERATURE_C),
        ("Tmax °C", R.HIGH_C),
        ("Min Temp (F)", R.LOW_F),
        ("Hi Temp °F", R.HIGH_F),
        ("Dew point °C", R.LEAVE_OUT),
        ("Luftfeuchte rel. %", R.HUMIDITY),
        ("PPFD µmol·m⁻²·s⁻¹", R.PPFD),
        ("DLI mol/m²/d", R.DLI),
        ("Solar W/m2", R.W_PER_M2),
        ("Light (ftcd)", R.FC),
        ("Battery V", R.LEAVE_OUT),
        ("Mold risk", R.LEAVE_OUT),
    ],
)
def test_a_header_tells_what_its_column_holds(name: str, role: Role) -> None:
    names, cells = ("Time", name), (("2026-05-01 10:00",), ("20.5",))
    assert guess(names, cells)[1] is role


def test_the_local_time_is_taken_before_the_utc_one() -> None:
    names = ("Time UTC", "Time local", "°C")
    cells = (("2026-05-01 10:00",), ("2026-05-01 12:00",), ("20",))
    assert guess(names, cells) == (R.LEAVE_OUT, R.TIME, R.TEMPERATURE_C)


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("12:00 AM", 0),
        ("12:30 AM", 0.5),
        ("12:00 PM", 12),
        ("1:15 p.m.", 13.25),
        ("13:15", 13.25),
        ("24:00", 24),
        ("07:30:00.000", 7.5),
    ],
)
def test_clocks_of_12_and_24_hours(text: str, hours: float) -> None:
    for written in (text, f"2026-05-01 {text}"):
        found = moment(written)
        assert found is not None
        assert found.clock is not None
        assert found.clock.total_seconds() / 3600 == hours


@pytest.mark.parametrize("text", ["", "21.5", "12.30", "25:00", "13:00 PM", "10:61"])
def test_what_is_no_time(text: str) -> None:
    assert moment(text) is None


@pytest.mark.parametrize(
    ("text", "order", "on"),
    [
        ("01/02/26", DayOrder.DMY, date(2026, 2, 1)),
        ("01/02/26", DayOrder.MDY, date(2026, 1, 2)),
        ("01/02/26", DayOrder.YMD, date(2001, 2, 26)),
        ("1. 5. 2026", DayOrder.DMY, date(2026, 5, 1)),
        ("1-May-26", DayOrder.YMD, date(2026, 5, 1)),
        ("May 1, 2026", DayOrder.DMY, date(2026, 5, 1)),
        ("30/02/2026", DayOrder.DMY, None),
        ("2026/05/01", DayOrder.DMY, None),
        ("J 1 2026", DayOrder.DMY, None),
    ],
)
def test_days_in_each_order(text: str, order: DayOrder, on: date | None) -> None:
    assert logger_times.day(text, order) == on


@pytest.mark.parametrize(
    ("cells", "delimiter", "sign"),
    [
        ({"21.5", "60"}, ",", "."),
        ({"21,5"}, ";", ","),
        ({"21,375"}, ";", ","),
        ({"21,5", "1.234"}, ";", ","),
        ({"21.5", "12,345"}, ",", "."),
        ({"1.234,5"}, ";", ","),
        ({"1,234.5"}, ",", "."),
        ({"1,234"}, ",", ""),
        (set(), ",", "."),
    ],
)
def test_the_decimal_sign(cells: set[str], delimiter: str, sign: str) -> None:
    assert decimal_sign(cells, delimiter) == sign


@pytest.mark.parametrize(
    ("text", "decimal", "value"),
    [
        ("21.5", ".", 21.5),
        ("-3,25", ",", -3.25),
        ("−3.25", ".", -3.25),
        ("12,345.5", ".", 12345.5),
        ("1.234,5", ",", 1234.5),
        ("21.5 °C", ".", 21.5),
        ("60%", ".", 60.0),
        ("1.2e3", ".", 1200.0),
        ("21,5", ".", None),
        ("1,234", "", None),
        ("1234", "", 1234.0),
        ("---", ".", None),
        ("NaN", ".", None),
        ("inf", ".", None),
        ("OFL", ".", None),
        ("1.2.3", ".", None),
        (".", ".", None),
    ],
)
def test_numbers_in_cells(text: str, decimal: str, value: float | None) -> None:
    assert number(text, decimal) == value


@pytest.mark.parametrize(
    ("raw", "problem"),
    [
        (b"", "is empty"),
        (b" \r\n\r\n", "is empty"),
        (b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 9, "is not text"),
        (b"PK\x03\x04" + bytes(200), "is a spreadsheet or a packed file"),
        (b"\xff\xfe\x00", "is not readable text"),
        (b"one,two\nthree,four\n", "has no row with a date and a number"),
        (b"just a letter to a friend", "has no row with a date and a number"),
        (b"Time,Temp\n2026-05-01 10:00,---\n", "has no row with a date and a number"),
    ],
)
def test_files_that_are_none(tmp_path: Path, raw: bytes, problem: str) -> None:
    with pytest.raises(InputError) as caught:
        surveyed(tmp_path, raw)
    assert caught.value.problem == problem
    assert caught.value.hint


def test_a_huge_file_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("growdesk.services.files_in.MOST_BYTES", 100)
    with pytest.raises(InputError, match="is too large"):
        surveyed(tmp_path, files.german())


def test_a_folder_and_a_missing_file_are_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="is a folder"):
        survey(tmp_path)
    with pytest.raises(InputError, match="is not there"):
        survey(tmp_path / "none.csv")
