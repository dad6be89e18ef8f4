"""What reading a logger's file has to say, in a grower's words.

The window and the command line say it alike. Nothing is read or reckoned here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.day_words import short_dated_text
from growdesk.domain.phrases import listed
from growdesk.domain.quantity_words import degrees_fixed, temperature_unit
from growdesk.domain.speech import Phrases, fixed, mark, tr, trn
from growdesk.services.logger_columns import Quantity, Role
from growdesk.services.logger_times import DayOrder
from growdesk.services.logger_values import Record, Why

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from growdesk.services.logger_times import DatesRead
    from growdesk.services.logger_values import (
        DayOnRecord,
        LeftOut,
        LoggedDay,
        Report,
        Survey,
    )

ROLES: Mapping[Role, str] = Phrases(
    {
        Role.LEAVE_OUT: "leave out",
        Role.TIME: "time",
        Role.DATE: "date",
        Role.TEMPERATURE_C: "temperature °C",
        Role.TEMPERATURE_F: "temperature °F",
        Role.LOW_C: "lowest °C",
        Role.LOW_F: "lowest °F",
        Role.HIGH_C: "highest °C",
        Role.HIGH_F: "highest °F",
        Role.HUMIDITY: "humidity %",
        Role.LUX: "light, lux",
        Role.FC: "light, foot-candles",
        Role.PPFD: "PPFD, µmol m-2 s-1",
        Role.W_PER_M2: "sun, W m-2",
        Role.DLI: "day's light, mol m-2",
    }
)
ORDERS: Mapping[DayOrder, str] = Phrases(
    {
        DayOrder.YMD: "year, month, day",
        DayOrder.DMY: "day, month, year",
        DayOrder.MDY: "month, day, year",
    }
)
QUANTITIES: Mapping[Quantity, str] = Phrases(
    {
        Quantity.TEMPERATURE: "temperature",
        Quantity.LOW: "lowest temperature",
        Quantity.HIGH: "highest temperature",
        Quantity.HUMIDITY: "humidity",
        Quantity.LIGHT: "light",
    }
)
RECORDS: Mapping[Record, str] = Phrases(
    {
        Record.NEW: "new",
        Record.ADDED_TO: "adds to the record",
        Record.REPLACED: "replaces the record",
        Record.SAME: "on record already",
    }
)
_WHY: Mapping[Why, str] = Phrases(
    {
        Why.NO_TIME: "“{text}” is no date and time",
        Why.NOT_A_NUMBER: "{column}: “{text}” is no number",
        Why.OUT_OF_RANGE: "{column}: {text} cannot be meant",
        Why.OTHER_DEGREES: "{column}: “{text}” is in other degrees than the column",
        Why.NO_READING: "no reading stands in it",
        Why.HEADER_AGAIN: "the header again",
        Why.STILL_TO_COME: "{text} is still to come",
        Why.DAY_TWICE: "{text} stands in an earlier line",
        Why.LOW_ABOVE_HIGH: "the lowest temperature is above the highest",
    }
)
AS_DAYLIGHT = mark(
    "Light is turned into PPFD as daylight: 54 lux, or 5.0 foot-candles, for each"
    " µmol m-2 s-1. Under tubes and sodium lamps it is a quarter to a third less."
)
AS_SUN = mark(
    "W m-2 is taken as all of the sun's radiation: 2.02 µmol m-2 s-1 for each W m-2."
)
IN_UTC = mark("Its time counts seconds in UTC, so its days run from midnight UTC.")
ONE_ROW_A_DAY = mark(
    "It has one row a day, so its temperatures are taken as the days' means."
)
LIGHT_ONCE_A_DAY = mark(
    "One reading of light a day makes no daily light, so light is left out."
)
EITHER_DECIMAL = mark(
    "Numbers such as 1,234 could be read in two ways and are left out; export the file"
    " with semicolons or decimal points."
)


def of_several(taken: str, others: Sequence[str]) -> str:
    """Say which column was taken where others hold the same."""
    return tr("“{taken}” is taken; {list} could be taken in its place.").format(
        taken=taken, list=_listed(others)
    )


def degrees_guessed(name: str, role: Role) -> str:
    """Say that degrees were told by the numbers."""
    degrees = "°F" if role.name.endswith("_F") else "°C"
    return tr(
        "“{name}” names no degrees; by its numbers it is taken as {degrees}."
    ).format(name=name, degrees=degrees)


def read_twice(count: int) -> str:
    """Say that times stand twice, as when the clock is set back."""
    return trn(
        "{count} time stands twice, as when clocks are set back; the mean of both"
        " counts.",
        "{count} times stand twice, as when clocks are set back; the mean of both"
        " counts.",
        count,
    ).format(count=count)


def file_headline(survey: Survey) -> str:
    """Say which file it is and how many rows it has."""
    rows = trn("{rows} row", "{rows} rows", survey.rows).format(rows=survey.rows)
    if not survey.header_line:
        return f"{survey.source}: {rows}"
    return tr("{source}: {rows} under the header in line {header_line}").format(
        source=survey.source, rows=rows, header_line=survey.header_line
    )


def asks(survey: Survey, *, is_known: bool) -> str:
    """Say what the grower is asked to look at before a file is tried."""
    if is_known:
        return tr("Read as the last file with these columns was.")
    if len(survey.orders) > 1:
        return tr(
            "Look whether each column is taken for what it holds, and say how the dates"
            " are written: they can be read in several ways."
        )
    return tr("Look whether each column is taken for what it holds.")


def outcome(report: Report) -> str:
    """Say what a trial found: "2 days for East sill; 1 replaces its record."."""
    new, replaced = len(report.to_write), len(report.replaced)
    if not report.days:
        return tr("No whole day could be read for {place}.").format(place=report.place)
    if not new:
        return tr("All of it is on record for {place} already.").format(
            place=report.place
        )
    said = [
        _brings(new, replaced).format(
            days=days(new), place=report.place, count=replaced
        )
    ]
    parts = len(report.file.part_days)
    if parts:
        said.append(
            trn(
                "{count} day gave too little.", "{count} days gave too little.", parts
            ).format(count=parts)
        )
    return " ".join((*said, tr("Nothing is written yet.")))


def _brings(new: int, replaced: int) -> str:
    """Give the sentence on the days to be written, its ``days`` and ``place`` open."""
    if not replaced:
        return tr("{days} for {place}.")
    if new == 1:
        return tr("{days} for {place}; it replaces what is on record.")
    if replaced == new:
        return tr("{days} for {place}; all replace what is on record.")
    return trn(
        "{days} for {place}; {count} replaces what is on record.",
        "{days} for {place}; {count} replace what is on record.",
        replaced,
    )


def left_out(entry: LeftOut) -> str:
    """Say what was left out of a line, and why."""
    said = _WHY[entry.why].format(column=entry.column, text=_short(entry.text))
    return tr("Line {line}: {said}.").format(line=entry.line, said=said)


def left_out_count(count: int, shown: int) -> str:
    """Say how many rows were left out in whole or part, and how many are shown."""
    if not count:
        return tr("No row was left out.")
    if shown < count:
        return tr(
            "Of {count} rows something was left out; the first {shown} are listed."
        ).format(count=count, shown=shown)
    return trn(
        "Of {count} row something was left out.",
        "Of {count} rows something was left out.",
        count,
    ).format(count=count)


def dates(read: DatesRead) -> str:
    """Say what an order makes of a file's dates: ``day, month, year: 1 May 2026``."""
    return f"{ORDERS[read.order]}: {span(read)}"


def span(read: DatesRead) -> str:
    """Give the first and last day that an order makes of a file's dates."""
    if read.first == read.last:
        return day(read.first)
    return tr("{first} to {last}").format(first=day(read.first), last=day(read.last))


def day(on: date) -> str:
    """Give a day as ``25 Nov 2026``."""
    return short_dated_text(on)


def part_day(part: LoggedDay) -> str:
    """Say why a day gives nothing."""
    if part.hours is None:
        return tr("{day}: too few for a mean.").format(day=day(part.on))
    return tr("{day}: {hours} of 24 hours read, too few for a mean.").format(
        day=day(part.on), hours=fixed(part.hours, 0)
    )


def numbers(found: LoggedDay) -> tuple[str, ...]:
    """Give mean, low, high in the unit shown, humidity in %, light in mol, hours."""
    read = found.reading
    warm = (read.mean_c, read.low_c, read.high_c)
    others = (read.humidity_percent, read.light_mol_per_m2_d)
    said = ["" if each is None else degrees_fixed(each) for each in warm]
    said += ["" if each is None else fixed(each, 1) for each in others]
    return (*said, "" if found.hours is None else f"{fixed(found.hours, 0)}")


def on_record(found: DayOnRecord) -> str:
    """Say what taking a day does, and what the file does not give of it."""
    return "; ".join(filter(None, (record(found), remarks(found.day))))


def remarks(found: LoggedDay) -> str:
    """Say what a day does not give although the file has a column for it."""
    said = []
    if found.too_short:
        names = [QUANTITIES[each] for each in found.too_short]
        said.append(tr("too few readings of {list}").format(list=_listed(names)))
    if found.too_bright:
        said.append(tr("more light than the sun gives: is its unit right?"))
    return "; ".join(said)


def record(found: DayOnRecord) -> str:
    """Say what taking a day does, and what it takes the place of."""
    if found.record is not Record.REPLACED or found.before is None:
        return RECORDS[found.record]
    before = found.before
    was = []
    if before.day_mean_c is not None:
        was.append(f"{degrees_fixed(before.day_mean_c)} {temperature_unit()}")
    if before.humidity_percent is not None:
        was.append(f"{fixed(before.humidity_percent, 1)} %")
    if before.light_mol_per_m2_d is not None:
        was.append(f"{fixed(before.light_mol_per_m2_d, 1)} mol")
    return (
        tr("replaces {list}").format(list=", ".join(was))
        if was
        else RECORDS[found.record]
    )


def days(count: int) -> str:
    """Give a count of days."""
    return trn("{count} day", "{count} days", count).format(count=count)


def _listed(names: Sequence[str]) -> str:
    return listed(
        [
            tr("“{name}”").format(name=name)
            if name not in QUANTITIES.values()
            else name
            for name in names
        ]
    )


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:39]}…"
