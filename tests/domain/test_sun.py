"""The sun against print and against a second way of reckoning.

How a value was read stands beside it: *read* in the source itself, *second hand* in a
text that quotes the source, *computed* from the source's equations beforehand, or *from
memory*. A value from memory is no proof by itself; it only guards against slips.
"""

from __future__ import annotations

from datetime import date, timedelta
from math import inf, nan

import pytest
from astral import Observer
from astral.sun import sunrise, sunset
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain import sun as s
from growdesk.domain.errors import InputError

EXAMPLE_8 = (-20.0, date(2026, 9, 3))  # 20 S, day 246 of the year

LATITUDES = st.floats(-90, 90, allow_nan=False)
DAYS = st.dates(date(1950, 1, 1), date(2100, 12, 31))


# FAO 56 Example 8, p. 80; second hand, from a public test suite that quotes the page.
def test_fao_example_8_intermediate_values() -> None:
    latitude, on = EXAMPLE_8
    assert s.inverse_distance(on) == pytest.approx(0.985, abs=0.0005)
    assert s.declination_rad(on) == pytest.approx(0.120, abs=0.0005)
    assert s.sunset_hour_angle_rad(latitude, on) == pytest.approx(1.527, abs=0.0005)


def test_fao_example_8_radiation() -> None:
    assert s.ra_mj_per_m2_d(*EXAMPLE_8) == pytest.approx(32.2, abs=0.05)


# The same in more digits: 32.194 MJ m-2 d-1 = 372.617 W m-2, read in the NCAR pages.
def test_ncar_radiation_for_example_8() -> None:
    ra = s.ra_mj_per_m2_d(*EXAMPLE_8)
    assert ra == pytest.approx(32.194, abs=0.0005)
    assert ra * 1e6 / 86_400 == pytest.approx(372.617, abs=0.002)


# FAO 56 Example 9, p. 83: 11.7 h; second hand. 11.66559 in the NCAR output, read.
def test_fao_example_9_day_length() -> None:
    assert s.day_length_h(*EXAMPLE_8) == pytest.approx(11.7, abs=0.05)
    assert s.day_length_h(*EXAMPLE_8) == pytest.approx(11.66559, abs=0.00001)


# FAO 56 Table 2.6, January; second hand, from a transcription of p. 217. The table is
# for the 15th of the month.
@pytest.mark.parametrize(
    ("latitude", "ra"),
    [(70, 0.0), (68, 0.1), (66, 0.6), (64, 1.4), (62, 2.3), (60, 3.3), (58, 4.3)],
)
def test_fao_table_in_january(latitude: float, ra: float) -> None:
    computed = s.ra_mj_per_m2_d(latitude, date(2026, 1, 15))
    assert computed == pytest.approx(ra, abs=0.051)


# Written down from memory, so no proof of the table: 40 N and the equator.
@pytest.mark.parametrize(
    ("latitude", "months"),
    [
        (40, (15.0, 20.4, 27.2, 34.7, 39.7, 41.9, 40.8, 36.7, 30.0, 22.5, 16.3, 13.6)),
        (0, (36.2, 37.5, 37.9, 36.8, 34.8, 33.4, 33.9, 35.7, 37.2, 37.4, 36.3, 35.6)),
    ],
)
def test_year_from_memory(latitude: float, months: tuple[float, ...]) -> None:
    for month, ra in enumerate(months, start=1):
        computed = s.ra_mj_per_m2_d(latitude, date(2026, month, 15))
        assert computed == pytest.approx(ra, abs=0.15)


# From memory: 13 44 N in April, 38.06 MJ m-2 d-1 and 12.31 h.
def test_april_at_13_44_north_from_memory() -> None:
    on = date(2026, 4, 15)
    assert s.ra_mj_per_m2_d(13 + 44 / 60, on) == pytest.approx(38.06, abs=0.01)
    assert s.day_length_h(13 + 44 / 60, on) == pytest.approx(12.31, abs=0.01)


# Computed beforehand from FAO 56 equations 21 to 34, on the 15th of each month.
@pytest.mark.parametrize(
    ("latitude", "ra", "hours"),
    [
        (
            50,
            (8.9, 14.4, 22.2, 31.5, 38.5, 41.7, 40.2, 34.3, 25.6, 16.8, 10.2, 7.5),
            (8.3, 9.8, 11.6, 13.5, 15.2, 16.1, 15.7, 14.3, 12.3, 10.4, 8.7, 7.9),
        ),
        (
            30,
            (21.1, 25.8, 31.4, 36.8, 40.0, 41.2, 40.5, 38.0, 33.3, 27.5, 22.2, 19.7),
            (10.3, 11.0, 11.8, 12.7, 13.5, 13.9, 13.7, 13.1, 12.2, 11.2, 10.5, 10.1),
        ),
    ],
)
def test_year_computed_beforehand(
    latitude: float, ra: tuple[float, ...], hours: tuple[float, ...]
) -> None:
    for month in range(1, 13):
        sun = s.sun(latitude, date(2026, month, 15))
        assert sun.ra_mj_per_m2_d == pytest.approx(ra[month - 1], abs=0.06)
        assert sun.day_length_h == pytest.approx(hours[month - 1], abs=0.06)


# Luther College, Decorah (43.3 N), September, after the US Naval Observatory's rule
# (upper limb, refraction); read.
@pytest.mark.parametrize(
    ("day", "minutes"),
    [(1, 13 * 60 + 9), (15, 12 * 60 + 29), (22, 12 * 60 + 9), (30, 11 * 60 + 45)],
)
def test_almanac_of_decorah(day: int, minutes: int) -> None:
    on = date(2025, 9, day)
    assert s.day_length_almanac_h(43.3, on) * 60 == pytest.approx(minutes, abs=3)
    shorter = minutes - s.day_length_h(43.3, on) * 60
    assert 10 <= shorter <= 16


@pytest.mark.parametrize("latitude", [0, 20, -20, 40, -40, 48.2, 55, -55, 60, -60, 64])
def test_almanac_agrees_with_a_second_reckoning(latitude: float) -> None:
    observer = Observer(latitude, 0)
    for step in range(0, 730, 5):
        on = date(2027, 1, 1) + timedelta(days=step)
        span = sunset(observer, on) - sunrise(observer, on)
        hours = span.total_seconds() / 3600
        assert s.day_length_almanac_h(latitude, on) == pytest.approx(hours, abs=3 / 60)


@given(st.floats(70, 90), st.integers(-20, 20), st.integers(1950, 2100))
def test_polar_summer_and_winter(latitude: float, offset: int, year: int) -> None:
    june = date(year, 6, 21) + timedelta(days=offset)
    december = date(year, 12, 21) + timedelta(days=min(offset, 10))
    for bright, dark in ((latitude, -latitude), (-latitude, latitude)):
        on, other = (june, december) if bright > 0 else (december, june)
        assert s.sun(bright, on).day_length_h == 24
        assert s.sun(bright, on).sunrise_to_sunset_h == pytest.approx(24)
        assert s.sun(dark, on) == s.Sun(0, s.day_length_almanac_h(dark, on), 0)
        assert s.sun(dark, other).day_length_h == 24


@given(st.floats(74, 90))
def test_deep_polar_night_is_dark_by_the_almanac_too(latitude: float) -> None:
    assert s.day_length_almanac_h(latitude, date(2026, 12, 21)) == 0
    assert s.day_length_almanac_h(-latitude, date(2026, 6, 21)) == 0


@given(LATITUDES, DAYS)
def test_never_out_of_bounds(latitude: float, on: date) -> None:
    sun = s.sun(latitude, on)
    assert 0 <= sun.day_length_h <= 24
    assert 0 <= sun.sunrise_to_sunset_h <= 24
    assert 0 <= sun.ra_mj_per_m2_d < 50


@given(LATITUDES, DAYS)
def test_both_halves_of_the_earth_share_the_day(latitude: float, on: date) -> None:
    both = s.day_length_h(latitude, on) + s.day_length_h(-latitude, on)
    assert both == pytest.approx(24, abs=1e-6)


# Farther out the simple declination of eq. 24 is off by more than the air lifts.
@given(st.floats(-30, 30), DAYS)
def test_the_almanac_day_is_the_longer(latitude: float, on: date) -> None:
    assert s.day_length_almanac_h(latitude, on) > s.day_length_h(latitude, on)


@pytest.mark.parametrize("latitude", [90.1, -90.5, nan, inf, -inf])
def test_no_latitude(latitude: float) -> None:
    on = date(2026, 1, 1)
    for ask in (s.sun, s.day_length_h, s.ra_mj_per_m2_d, s.day_length_almanac_h):
        with pytest.raises(InputError) as caught:
            ask(latitude, on)
        assert caught.value.field == "latitude"


def test_leap_years_count_the_day_of_the_year() -> None:
    assert s.declination_rad(date(2028, 3, 1)) == s.declination_rad(date(2027, 3, 2))
    assert s.sun(48.2, date(2028, 12, 31)).day_length_h < 8.5
    assert s.sun(48.2, date(2028, 2, 29)).day_length_h > 10.5


def test_the_equator_has_twelve_hours() -> None:
    on = date(2026, 12, 21)
    assert s.day_length_h(0, on) == pytest.approx(12)
    assert s.day_length_almanac_h(0, on) == pytest.approx(12.12, abs=0.02)


# Plain arithmetic: 100 µmol m-2 s-1 for 10 hours is 3.6 mol m-2.
def test_day_of_lamp_light() -> None:
    assert s.dli_mol_per_m2(100, 10) == pytest.approx(3.6)
    assert s.dli_mol_per_m2(0, 24) == 0
    assert s.dli_mol_per_m2(100, 0) == 0


# 400 fc of high-pressure sodium for 12 hours is 2.3 mol (lamp maker's page, read), with
# 0.131 µmol m-2 s-1 to the foot-candle (instrument maker's page, read).
def test_published_day_of_lamp_light() -> None:
    assert s.dli_mol_per_m2(400 * 0.131, 12) == pytest.approx(2.3, abs=0.05)


@pytest.mark.parametrize(
    ("ppfd", "hours", "field"),
    [
        (-1, 5, "ppfd"),
        (nan, 5, "ppfd"),
        (5, 25, "hours"),
        (5, -1, "hours"),
        (5, nan, "hours"),
    ],
)
def test_no_lamp(ppfd: float, hours: float, field: str) -> None:
    with pytest.raises(InputError) as caught:
        s.dli_mol_per_m2(ppfd, hours)
    assert caught.value.field == field
