"""A logger's days come in as they were shown, in one action, and go out by one undo."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import event, select

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Reading
from growdesk.services import logger_reading, logger_words
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.logger_columns import Quantity, Role
from growdesk.services.logger_survey import survey
from growdesk.services.logger_times import DayOrder
from growdesk.services.logger_values import Choices, Record, Report, Why
from growdesk.services.long_work import StoppedError
from growdesk.services.values import PlaceDraft
from growdesk.store.mapping import reading_of
from growdesk.store.schema import ReadingRow
from tests.services import logger_files as files

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    Tried = Callable[..., Report]

R = Role
MAY_1, MAY_2 = date(2026, 5, 1), date(2026, 5, 2)
TWO = (R.TIME, R.TEMPERATURE_C)


@pytest.fixture
def sill(collection: Collection) -> int:
    return collection.places.add(PlaceDraft("East sill")).ids[0]


@pytest.fixture
def tried(collection: Collection, sill: int, tmp_path: Path) -> Callable[..., Report]:
    """Give a way to try a text as if it were a file, as the survey suggests."""

    def run(raw: bytes | str, choices: Choices | None = None) -> Report:
        path = tmp_path / "sill.csv"
        path.write_bytes(raw.encode() if isinstance(raw, str) else raw)
        chosen = survey(path).choices if choices is None else choices
        return logger_reading.dry_run(collection.ledger, path, chosen, sill)

    return run


def on_record(collection: Collection, place_id: int) -> dict[date, Reading]:
    with collection.ledger.reading() as session:
        rows = session.execute(
            select(ReadingRow.__table__).where(ReadingRow.place_id == place_id)
        ).all()
    return {row.day: reading_of(row) for row in rows}


def whys(report: Report) -> list[tuple[int, Why]]:
    return [(entry.line, entry.why) for entry in report.file.left_out]


@pytest.mark.parametrize(("name", "raw"), list(files.all_files()))
def test_every_make_gives_the_same_days(name: str, raw: bytes, tried: Tried) -> None:
    american = (R.LEAVE_OUT, R.TIME, R.TEMPERATURE_F, R.HUMIDITY, R.FC)
    choices = Choices(american, DayOrder.MDY) if name == "american" else None
    report = tried(raw, choices)
    assert report.file.rows_read == 96
    assert report.file.left_out_count == 0
    assert report.file.part_days == ()
    assert len(report.days) == 2
    for found in report.days:
        reading = found.day.reading
        assert reading.mean_c == pytest.approx(files.MEAN_C, abs=0.1)
        assert reading.low_c == pytest.approx(files.LOW_C, abs=0.01)
        assert reading.high_c == pytest.approx(files.HIGH_C, abs=0.01)
        assert reading.humidity_percent == files.HUMIDITY
        assert reading.light_mol_per_m2_d == pytest.approx(files.DLI_MOL, rel=0.005)
        assert found.day.hours == pytest.approx(24)
        assert found.record is Record.NEW


def test_a_dry_run_writes_nothing(
    collection: Collection, sill: int, tried: Tried
) -> None:
    before = collection.history.view()
    assert len(tried(files.german()).days) == 2
    assert on_record(collection, sill) == {}
    assert collection.history.view() == before


def test_what_was_shown_is_written_and_one_undo_takes_it_back(
    collection: Collection, sill: int, tried: Tried
) -> None:
    report = tried(files.german())
    done = logger_reading.take(collection.ledger, report)
    assert done.title == "2 days of readings for East sill from sill.csv"
    assert len(done.ids) == 2
    kept = on_record(collection, sill)
    assert kept == {each.day.on: each.day.reading for each in report.days}
    collection.history.undo()
    assert on_record(collection, sill) == {}
    collection.history.redo()
    assert on_record(collection, sill) == kept


def test_the_same_file_again_changes_nothing(
    collection: Collection, tried: Tried
) -> None:
    logger_reading.take(collection.ledger, tried(files.german()))
    again = tried(files.german())
    assert {each.record for each in again.days} == {Record.SAME}
    assert again.to_write == ()
    with pytest.raises(InputError, match="gives no new day"):
        logger_reading.take(collection.ledger, again)


def test_what_would_be_replaced_is_named_and_the_rest_stays(
    collection: Collection, sill: int, tried: Tried
) -> None:
    """A typed temperature gives way; typed days that the file lacks stay."""
    collection.readings.write(sill, Reading(MAY_1, 25.0))
    collection.readings.write(sill, Reading(date(2026, 4, 30), 15.0))
    report = tried(files.german())
    assert [each.day.on for each in report.replaced] == [MAY_1]
    assert logger_words.record(report.days[0]) == "replaces 25.0 °C"
    assert report.days[1].record is Record.NEW
    logger_reading.take(collection.ledger, report)
    kept = on_record(collection, sill)
    assert kept[MAY_1].mean_c == pytest.approx(18, abs=0.1)
    assert kept[date(2026, 4, 30)] == Reading(date(2026, 4, 30), mean_c=15.0)
    collection.history.undo()
    assert on_record(collection, sill)[MAY_1] == Reading(MAY_1, mean_c=25.0)


def test_a_second_logger_adds_its_light(
    collection: Collection, sill: int, tried: Tried
) -> None:
    """What the file does not give stays: warmth of one logger, light of another."""
    collection.readings.write(sill, Reading(MAY_1, 17.0, 12.0, 21.0))
    light = Choices((R.DATE, R.TIME, R.LEAVE_OUT, R.LEAVE_OUT, R.LUX))
    report = tried(files.german(), light)
    assert [each.record for each in report.days] == [Record.ADDED_TO, Record.NEW]
    logger_reading.take(collection.ledger, report)
    kept = on_record(collection, sill)[MAY_1]
    assert (kept.mean_c, kept.low_c, kept.high_c) == (17.0, 12.0, 21.0)
    assert kept.light_mol_per_m2_d == pytest.approx(files.DLI_MOL, rel=0.005)


def test_a_low_and_a_high_take_an_old_mean_with_them(
    collection: Collection, sill: int, tried: Tried
) -> None:
    """A mean of 30 beside a new low of 10 and high of 20 would speak for the day."""
    collection.readings.write(sill, Reading(MAY_1, 30.0))
    report = tried("Date,Min °C,Max °C\n2026-05-01,10,20\n2026-05-02,11,21\n")
    logger_reading.take(collection.ledger, report)
    kept = on_record(collection, sill)
    assert kept[MAY_1] == Reading(MAY_1, low_c=10.0, high_c=20.0)
    assert kept[MAY_1].day_mean_c == 15.0
    assert kept[MAY_2].day_mean_c == 16.0


def test_one_row_a_day_with_its_light(tried: Tried) -> None:
    report = tried(
        "Date;Mean °C;Min °C;Max °C;RH %;DLI mol/m²/d\n"
        "01.05.2026;18,5;14,0;23,0;62;9,75\n02.05.2026;19,0;---;24,0;60;\n"
    )
    assert [each.day.reading for each in report.days] == [
        Reading(MAY_1, 18.5, 14.0, 23.0, 9.75, 62.0),
        Reading(MAY_2, 19.0, None, 24.0, None, 60.0),
    ]
    assert [each.day.hours for each in report.days] == [None, None]
    assert report.file.notices == (logger_words.ONE_ROW_A_DAY,)
    assert whys(report) == [(3, Why.NOT_A_NUMBER)]


def test_a_day_that_stands_twice_and_a_low_above_its_high(tried: Tried) -> None:
    report = tried(
        "Date,Min °C,Max °C\n2026-05-01,10,20\n2026-05-01,11,21\n2026-05-02,25,20\n"
    )
    assert [each.day.on for each in report.days] == [MAY_1]
    assert whys(report) == [(3, Why.DAY_TWICE), (4, Why.LOW_ABOVE_HIGH)]


def test_one_reading_of_light_a_day_is_no_daily_light(tried: Tried) -> None:
    report = tried("Date,°C,Lux\n2026-05-01,18,9000\n2026-05-02,19,8000\n")
    assert [each.day.reading.light_mol_per_m2_d for each in report.days] == [None] * 2
    assert logger_words.LIGHT_ONCE_A_DAY in report.file.notices


def test_a_day_read_in_part_gives_nothing_but_its_name(tried: Tried) -> None:
    """The first day is read from 18:00 on, the last one until 6:00."""
    when = files.moments(3)[36:-36]
    report = tried(
        files.table(
            "Time,°C,Lux",
            lambda at: f"{at},{files.temperature_c(at):.2f},{files.lux(at):.0f}",
            when,
        )
    )
    assert [each.day.on for each in report.days] == [MAY_2]
    assert [part.on for part in report.file.part_days] == [MAY_1, date(2026, 5, 3)]
    assert [part.hours for part in report.file.part_days] == pytest.approx([6, 6])
    said = logger_words.part_day(report.file.part_days[0])
    assert said == "1 May 2026: 6 of 24 hours read, too few for a mean."


def test_a_lost_light_sensor_takes_only_the_light(tried: Tried) -> None:
    def line(at: datetime) -> str:
        lost = at.day == 1 and 10 <= at.hour < 15
        return f"{at},{files.temperature_c(at):.2f},{'' if lost else files.lux(at)}"

    report = tried(files.table("Time,°C,Lux", line))
    first, second = report.days
    assert first.day.reading.mean_c == pytest.approx(18, abs=0.1)
    assert first.day.reading.light_mol_per_m2_d is None
    assert first.day.too_short == (Quantity.LIGHT,)
    assert logger_words.remarks(first.day) == "too few readings of light"
    assert second.day.too_short == ()


def test_more_light_than_the_sun_gives_is_asked_about(tried: Tried) -> None:
    report = tried(files.table("Time,PAR µmol", "{},1500".format, files.moments(1)))
    assert report.days == ()
    (part,) = report.file.part_days
    assert part.too_bright
    assert "is its unit right?" in logger_words.remarks(part)


def test_what_is_left_out_is_named_with_its_line(tried: Tried) -> None:
    lines = files.ambiguous("%Y-%m-%d").splitlines()
    lines[5] = "2026-05-01 02:00,OFL"
    lines[6] = "2026-05-01 02:30,"
    lines[7] = "2026-05-01 03:00,-127.0"
    lines[8] = "Time,Temp (C)"
    lines[9] = "yesterday,20.0"
    lines[10] = "2026-05-01 04:30,70 °F"
    lines.append("2026-06-01 00:00,20.0")
    report = tried("\n".join(lines))
    assert whys(report) == [
        (6, Why.NOT_A_NUMBER),
        (7, Why.NO_READING),
        (8, Why.OUT_OF_RANGE),
        (9, Why.HEADER_AGAIN),
        (10, Why.NO_TIME),
        (11, Why.OTHER_DEGREES),
        (98, Why.STILL_TO_COME),
    ]
    assert report.file.left_out_count == 7
    assert report.file.rows_read == 90
    assert [logger_words.left_out(entry) for entry in report.file.left_out] == [
        "Line 6: Temp (C): “OFL” is no number.",
        "Line 7: no reading stands in it.",
        "Line 8: Temp (C): -127.0 cannot be meant.",
        "Line 9: the header again.",
        "Line 10: “yesterday” is no date and time.",
        "Line 11: Temp (C): “70 °F” is in other degrees than the column.",
        "Line 98: 2026-06-01 is still to come.",
    ]


def test_twenty_are_listed_and_all_are_counted(tried: Tried) -> None:
    bad = "".join(f"2026-05-01 00:{minute:02},---\n" for minute in range(1, 26))
    report = tried(files.ambiguous("%Y-%m-%d") + bad)
    assert len(report.file.left_out) == 20
    assert report.file.left_out_count == 25
    assert logger_words.left_out_count(25, 20) == (
        "Of 25 rows something was left out; the first 20 are listed."
    )


def test_a_row_with_one_bad_cell_counts_for_the_rest(tried: Tried) -> None:
    report = tried(
        files.table("Time,°C,RH", lambda at: f"{at},20,{'OFL' if at.day == 1 else 55}")
    )
    first, second = (each.day.reading for each in report.days)
    assert (first.mean_c, first.humidity_percent) == (20, None)
    assert (second.mean_c, second.humidity_percent) == (20, 55)
    assert report.file.rows_read == 96
    assert report.file.left_out_count == 48


def test_a_restart_in_the_file_with_preamble_and_header(tried: Tried) -> None:
    first, second = files.moments(1), files.moments(2)[48:]
    header = "Time,Temp (C)"
    parts = [
        files.table(header, lambda at: f"{at},20.0", when) for when in (first, second)
    ]
    report = tried("Logger 3\n" + parts[0] + "Logger 3\n" + parts[1])
    assert [each.day.on for each in report.days] == [MAY_1, MAY_2]
    assert whys(report) == [(51, Why.NO_TIME), (52, Why.HEADER_AGAIN)]


def test_clocks_set_back_and_forward(
    collection: Collection, sill: int, tmp_path: Path
) -> None:
    """The day of 25 hours writes 2 to 3 twice; the day of 23 lacks it."""
    path = tmp_path / "dst.csv"
    autumn = files.moments(1, first=datetime(2025, 10, 26))  # noqa: DTZ001
    spring = files.moments(1, first=datetime(2026, 3, 29))  # noqa: DTZ001
    twice = [at for at in autumn if at.hour == 2]
    at_three = autumn.index(datetime(2025, 10, 26, 3))  # noqa: DTZ001
    when = [*autumn[:at_three], *twice, *autumn[at_three:]]
    when += [at for at in spring if at.hour != 2]
    path.write_text(files.table("Time,°C", lambda at: f"{at},20.0", when))
    report = logger_reading.dry_run(collection.ledger, path, survey(path).choices, sill)
    assert [each.day.reading.mean_c for each in report.days] == [20.0, 20.0]
    assert [each.day.hours for each in report.days] == pytest.approx([24.0, 22.5])
    assert report.file.notices == (logger_words.read_twice(2),)
    assert logger_words.read_twice(2).startswith("2 times stand twice")


def test_the_order_of_rows_does_not_matter(tried: Tried) -> None:
    lines = files.german().decode("cp1252").splitlines()
    backwards = "\n".join([*lines[:4], *reversed(lines[4:])]).encode("cp1252")
    one, other = tried(files.german()), tried(backwards)
    assert one.days == other.days


def test_ambiguous_dates_are_refused_until_they_are_chosen(tried: Tried) -> None:
    text = files.ambiguous("%d/%m/%Y")
    with pytest.raises(InputError) as caught:
        tried(text)
    assert caught.value.field == "day_order"
    assert caught.value.value == "01/05/2026"
    assert caught.value.hint == (
        "Say which: day, month, year: 1 May 2026 to 2 May 2026"
        " or month, day, year: 5 Jan 2026 to 5 Feb 2026."
    )
    found = tried(text, Choices(TWO, DayOrder.MDY))
    assert [each.day.on for each in found.days] == [date(2026, 1, 5), date(2026, 2, 5)]


def test_epoch_seconds_are_told_to_be_utc(tried: Tried) -> None:
    assert logger_words.IN_UTC in tried(files.epoch()).file.notices


@pytest.mark.parametrize(
    ("raw", "notice"),
    [
        (files.german(), logger_words.AS_DAYLIGHT),
        (files.wide(), logger_words.AS_SUN),
        (files.epoch(), None),
    ],
)
def test_how_light_was_turned_is_said(
    raw: bytes, notice: str | None, tried: Tried
) -> None:
    said = {logger_words.AS_DAYLIGHT, logger_words.AS_SUN} & set(
        tried(raw).file.notices
    )
    assert said == ({notice} if notice else set())


@pytest.mark.parametrize(
    ("roles", "problem"),
    [
        ((R.LEAVE_OUT, R.TEMPERATURE_C), "is in no column"),
        ((R.TIME, R.LEAVE_OUT), "is in no column"),
        ((R.TIME, R.TEMPERATURE_C, R.HUMIDITY), "are more than the file has"),
        ((R.TIME, R.TIME), "is chosen more than once"),
        ((R.TIME, R.DLI), "is the light of a whole day, and this file has"),
        ((R.DATE, R.TEMPERATURE_C), None),
    ],
)
def test_roles_that_cannot_be_meant(
    roles: tuple[Role, ...], problem: str | None, tried: Tried
) -> None:
    text = files.ambiguous("%Y-%m-%d")
    if problem is None:
        assert len(tried(text, Choices(roles)).days) == 2
        return
    with pytest.raises(InputError) as caught:
        tried(text, Choices(roles))
    assert caught.value.field == "columns"
    assert caught.value.problem.startswith(problem)


def test_two_columns_of_one_quantity_are_refused(tried: Tried) -> None:
    text = "Time,Lux,PAR\n2026-05-01 10:00,9000,160\n"
    with pytest.raises(InputError, match="'light' is chosen more than once"):
        tried(text, Choices((R.TIME, R.LUX, R.PPFD)))


def test_dates_alone_with_many_rows_ask_for_the_time(tried: Tried) -> None:
    text = "Date,Time,°C\n" + "".join(
        f"2026-05-01,{hour}:00,20\n" for hour in range(24)
    )
    assert tried(text).days[0].day.hours == pytest.approx(24)
    with pytest.raises(InputError, match="no column says the time"):
        tried(text, Choices((R.DATE, R.LEAVE_OUT, R.TEMPERATURE_C)))


def test_a_place_that_is_gone(collection: Collection, tmp_path: Path) -> None:
    path = tmp_path / "sill.csv"
    path.write_bytes(files.german())
    with pytest.raises(InputError, match="is not there any more"):
        logger_reading.dry_run(collection.ledger, path, survey(path).choices, 99)


def test_a_night_below_zero_of_a_sun_meter_is_dark(tried: Tried) -> None:
    report = tried(
        files.table(
            "Time,Solar W/m²",
            lambda at: f"{at},{max(-2.0, files.lux(at) / 54 / 2.016):.3f}",
        )
    )
    assert report.file.left_out_count == 0
    light = report.days[0].day.reading.light_mol_per_m2_d
    assert light == pytest.approx(files.DLI_MOL, rel=0.005)


def test_statements_do_not_grow_with_the_days(folder: Path, tmp_path: Path) -> None:
    """A year takes as many statements as a week, replaced days or new ones."""

    def count_for(days: int, name: str) -> int:
        counted = 0

        def note(*_details: object) -> None:
            nonlocal counted
            counted += 1

        made = Collection.open(folder / name, FixedClock(MAY_1), create=True)
        place_id = made.places.add(PlaceDraft("Sill")).ids[0]
        first = MAY_1 - timedelta(days=days)
        for mean_c, span in ((20, days), (21, days), (22, 2 * days)):
            path = tmp_path / "many.csv"
            begin = first - timedelta(days=span - days)
            lines = [f"{begin + timedelta(days=n)},{mean_c}" for n in range(span)]
            path.write_text("\n".join(["Date,°C", *lines]))
            report = logger_reading.dry_run(
                made.ledger, path, survey(path).choices, place_id
            )
            assert len(report.to_write) == span
            engine = made.ledger.store._engine
            event.listen(engine, "before_cursor_execute", note)
            logger_reading.take(made.ledger, report)
            event.remove(engine, "before_cursor_execute", note)
        assert len(on_record(made, place_id)) == 2 * days
        assert {each.mean_c for each in on_record(made, place_id).values()} == {22.0}
        made.history.undo()
        assert {each.mean_c for each in on_record(made, place_id).values()} == {21.0}
        made.close()
        return counted

    assert count_for(365, "year") == count_for(7, "week")


def test_a_file_that_nobody_waits_for_is_left(tmp_path: Path) -> None:
    path = tmp_path / "long.csv"
    path.write_text(
        files.table("Time,°C", "{},20.0".format, files.moments(30, minutes=10))
    )
    told: list[tuple[int, int]] = []

    def step(done: int, of: int) -> None:
        told.append((done, of))
        if len(told) > 3:
            raise StoppedError("Stopped.")

    choices = survey(path).choices
    with pytest.raises(StoppedError):
        logger_reading.read_days(path, choices, date(2026, 6, 20), step)
    assert [done for done, _of in told] == [0, 500, 1000, 1500]
    assert {of for _done, of in told} == {30 * 144 + 1}
    read = logger_reading.read_days(path, choices, date(2026, 6, 20))
    assert len(read.days) == 30
