"""Invented files as loggers of all makes write them; none is anybody's."""

from __future__ import annotations

from datetime import datetime, timedelta
from math import pi, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

FIRST = datetime(2026, 5, 1)  # noqa: DTZ001 -- a logger's clock has no zone
MEAN_C, LOW_C, HIGH_C, HUMIDITY = 18.0, 14.0, 22.0, 60.0
NOON_LUX = 12_000.0
DLI_MOL = NOON_LUX / 54 * 12 * 3600 * 2 / pi / 1e6
"""12 h shaped like half a sine wave hold 2/pi of its peak: 6.11 mol."""


def temperature_c(at: datetime) -> float:
    """Give 14 °C at 2, 22 °C at 14, 18 °C in the mean."""
    return 18 - 4 * sin((at.hour + at.minute / 60 + 4) / 12 * pi)


def lux(at: datetime) -> float:
    """Give half a sine wave from 6 to 18."""
    return max(0.0, NOON_LUX * sin((at.hour + at.minute / 60 - 6) / 12 * pi))


def moments(
    days: int = 2, minutes: int = 30, first: datetime = FIRST
) -> list[datetime]:
    """Give the moments of whole days."""
    return [first + timedelta(minutes=n) for n in range(0, days * 1440, minutes)]


def table(
    header: str, line: Callable[[datetime], str], when: list[datetime] | None = None
) -> str:
    """Give a file of a header and a line for each moment."""
    return "\n".join([header, *map(line, when or moments()), ""])


def german() -> bytes:
    """Give semicolons, decimal commas, day first, date apart, a preamble, cp1252."""

    def line(at: datetime) -> str:
        values = f"{temperature_c(at):.2f};60,0;{lux(at):.1f}".replace(".", ",")
        return f"{at:%d.%m.%Y};{at:%H:%M};{values}"

    header = "Gerät 7;;;;\nSeriennummer;12345;;;\n\nDatum;Uhrzeit;Temperatur [°C];"
    return table(header + "Feuchte [%rF];Licht (lx)", line).encode("cp1252")


def american() -> bytes:
    """Give 12-hour clocks, month first, two-digit years, °F, lumens a square foot."""

    def line(at: datetime) -> str:
        fahrenheit = temperature_c(at) * 1.8 + 32
        foot_candles = lux(at) * 0.3048**2
        return f'7,{at:%m/%d/%y %I:%M:%S %p},{fahrenheit:.3f},60,"{foot_candles:.2f}",'

    header = (
        '"Plot Title: sill"\n"#","Date Time, GMT-05:00","Temp, °F (S/N: 1)",'
        '"RH, %","Intensity, lum/ft²","Stopped"'
    )
    return table(header, line, moments(first=datetime(2026, 4, 29))).encode("utf-8-sig")  # noqa: DTZ001


def wide() -> bytes:
    """Give tabs in UTF-16 with its mark, ISO times with an offset, sun in W m-2."""

    def line(at: datetime) -> str:
        watts = lux(at) / 54 / 2.016
        return f"{at.isoformat()}+02:00\t{temperature_c(at):.2f}\t60\t{watts:.3f}"

    return table("Time\tT (°C)\tRH (%)\tGlobal radiation W/m²", line).encode("utf-16")


def unmarked() -> bytes:
    """Give the same in UTF-16 without its mark."""
    return wide().decode("utf-16").encode("utf-16-le")


def epoch() -> bytes:
    """Give epoch seconds and PPFD, units in a second line of the header."""
    start = datetime(1970, 1, 1)  # noqa: DTZ001 -- read as UTC

    def line(at: datetime) -> str:
        seconds = (at - start).total_seconds()
        return f"{seconds:.0f},{temperature_c(at):.3f},60,{lux(at) / 54:.2f}"

    return table("stamp,air temp,rel humidity,PAR\nTS,deg C,%,umol/m2/s", line).encode()


def named_months() -> bytes:
    """Give months by name and units in every cell."""
    return table(
        "When,Temperature,Humidity,Illuminance",
        lambda at: (
            f"{at:%d-%b-%Y %H:%M},{temperature_c(at):.2f} °C,60 %,{lux(at):.1f} lx"
        ),
    ).encode()


def all_files() -> Iterator[tuple[str, bytes]]:
    """Give the files that hold the same two days."""
    yield "german", german()
    yield "american", american()
    yield "wide", wide()
    yield "unmarked", unmarked()
    yield "epoch", epoch()
    yield "named-months", named_months()


def ambiguous(day: str, days: int = 2) -> str:
    """Give a file whose dates can be read day first or month first."""
    return table(
        "Time,Temp (C)",
        lambda at: f"{at.strftime(day)} {at:%H:%M},{temperature_c(at):.2f}",
        moments(days),
    )
