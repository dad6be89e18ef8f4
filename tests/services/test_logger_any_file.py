"""Whatever a file holds, it is read or refused in one plain line."""

from __future__ import annotations

from datetime import date
from functools import partial
from typing import TYPE_CHECKING, TypeVar

from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.errors import InputError
from growdesk.domain.facts_plant import (
    HUMIDITY_PERCENT,
    LIGHT_MOL_PER_M2_D,
    TEMPERATURE_C,
)
from growdesk.services import logger_reading, logger_survey, logger_text, logger_words
from growdesk.services.logger_columns import Role
from growdesk.services.logger_text import LoggerText
from growdesk.services.logger_times import DayOrder
from growdesk.services.logger_values import Choices, FileRead

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    import pytest

T = TypeVar("T")
TODAY = date(2026, 5, 20)
CELLS = st.one_of(
    st.sampled_from(
        [
            "2026-05-01 10:00",
            "2026-05-01T24:00:00Z",
            "01/02/26",
            "1.5.2026",
            "13:30",
            "1:30 PM",
            "99:99",
            "1777629600",
            "21.5",
            "21,5",
            "1.234,5",
            "-127",
            "1e300",
            "70 °F",
            "60 %",
            "OFL",
            "---",
            "NaN",
            "",
            '"',
            "Time",
            "Temp °C",
            "RH %",
            "Lux",
        ]
    ),
    st.text(max_size=8),
)
ROWS = st.lists(st.lists(CELLS, min_size=1, max_size=5), min_size=1, max_size=12)
ROLES = st.lists(st.sampled_from(list(Role)), max_size=6)


def attempt(work: Callable[[], T]) -> tuple[T | None, InputError]:
    """Give what the work gives, or its refusal; any other failure is a failure."""
    try:
        return work(), InputError("none", "none", "none")
    except InputError as error:
        return None, error


def told(read: FileRead) -> None:
    """Hold what was read to what a place's record may hold, and say it all."""
    for found in (*read.days, *read.part_days):
        reading = found.reading
        for value in (reading.mean_c, reading.low_c, reading.high_c):
            assert value is None or TEMPERATURE_C.holds(value)
        if reading.low_c is not None and reading.high_c is not None:
            assert reading.low_c <= reading.high_c
        humid, light = reading.humidity_percent, reading.light_mol_per_m2_d
        assert humid is None or HUMIDITY_PERCENT.holds(humid)
        assert light is None or LIGHT_MOL_PER_M2_D.holds(light)
        assert found.on <= TODAY
        assert found.hours is None or 0 <= found.hours <= 24
        logger_words.remarks(found)
        logger_words.part_day(found)
    days = [found.on for found in read.days]
    assert len(days) == len(set(days))
    assert len(read.left_out) <= min(20, read.left_out_count * 5)
    for entry in read.left_out:
        line = logger_words.left_out(entry)
        assert line.startswith(f"Line {entry.line}: ")
        assert "{" not in line.replace(entry.text, "").replace(entry.column, "")


@given(ROWS, st.sampled_from(",;\t|"), ROLES, st.sampled_from([None, *DayOrder]))
def test_any_table_is_read_or_refused(
    rows: list[list[str]], mark: str, roles: list[Role], order: DayOrder | None
) -> None:
    text = "\n".join(mark.join(row) for row in rows)
    file = LoggerText("any.csv", text, "utf-8")
    survey, refused = attempt(lambda: logger_survey.of_text(file))
    if survey is None:
        assert refused.hint
        return
    assert len(survey.columns) == len(survey.choices.roles)
    for choices in (survey.choices, Choices(tuple(roles), order)):
        read, refused = attempt(partial(logger_reading.days_of, file, choices, TODAY))
        if read is None:
            assert refused.field in {"columns", "day_order"}
            assert refused.hint
        else:
            told(read)


@given(st.binary(max_size=400))
def test_any_bytes_are_text_or_refused(
    tmp_path_factory: pytest.TempPathFactory, raw: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "any.csv"
    path.write_bytes(raw)
    survey, refused = attempt(lambda: logger_survey.survey(path))
    if survey is None:
        assert refused.hint
        assert "\n" not in refused.line()
    else:
        assert survey.rows >= 1


def test_line_ends_and_marks_of_spreadsheets(tmp_path: Path) -> None:
    """A line for the spreadsheet's separator, CR alone, cells that end in a mark."""
    path = tmp_path / "any.csv"
    lines = [
        "sep=;",
        "Zeit;Temp °C;",
        *[f"01.05.26 {h:02}:00;2{h % 3},5;" for h in range(24)],
    ]
    for end in ("\r", "\n", "\r\n"):
        path.write_text(end.join(lines), newline="")
        text = logger_text.read_text(path)
        survey = logger_survey.of_text(text)
        assert [column.role for column in survey.columns][:2] == [
            Role.TIME,
            Role.TEMPERATURE_C,
        ]
        choices = Choices(survey.choices.roles, DayOrder.DMY)
        (day,) = logger_reading.days_of(text, choices, TODAY).days
        assert day.on == date(2026, 5, 1)
        assert day.reading.low_c == 20.5


def test_a_header_of_four_lines(tmp_path: Path) -> None:
    """Stations write a line about themselves, then names, units and how they mean."""
    path = tmp_path / "any.csv"
    path.write_text(
        '"TABLE1","station","12","prog","9"\n'
        '"STAMP","RECORD","AirTC_Avg","RH","SlrW"\n'
        '"TS","RN","Deg C","%","W/m^2"\n'
        '"","","Avg","Smp","Avg"\n'
        + "".join(f'"2026-05-01 {h:02}:00:00",{h},20.5,60,0\n' for h in range(24))
    )
    survey = logger_survey.survey(path)
    assert [column.role for column in survey.columns] == [
        Role.TIME,
        Role.LEAVE_OUT,
        Role.TEMPERATURE_C,
        Role.HUMIDITY,
        Role.W_PER_M2,
    ]
