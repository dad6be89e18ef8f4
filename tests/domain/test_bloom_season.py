"""The season of a plant's flowers: circular mean, spread, two seasons, none.

Mean, resultant length and circular standard deviation are held against scipy
(``scipy.stats.circmean`` and ``circstd``) and against published figures: the glacial
striae of Davis, Statistics and Data Analysis in Geology (1986), p. 316, whose mean
resultant length is printed as 0.800.
"""

from __future__ import annotations

import math
import random
from datetime import date, timedelta

import pytest

from growdesk.domain.bloom_season import (
    YEAR_DAYS,
    expected,
    place_of,
    round_mean,
)
from growdesk.domain.bloom_words import expected_words

STRIAE = (
    "23 27 53 58 64 83 85 88 93 99 100 105 113 113 114 117 121 123 125 126 126 126 127 "
    "127 128 128 129 132 132 132 134 135 137 144 145 145 146 153 155 155 155 157 163 "
    "165 171 172 179 181 186 190 212"
)


@pytest.mark.parametrize("seed", range(12))
def test_mean_and_spread_are_those_of_scipy(seed: int) -> None:
    from scipy import stats

    draw = random.Random(seed)  # noqa: S311 -- a sample, no secret
    middle = draw.uniform(0, YEAR_DAYS)
    days = [(middle + draw.gauss(0, 5 + seed * 6)) % YEAR_DAYS for _ in range(2 + seed)]
    found = round_mean(days)
    mean = stats.circmean(days, high=YEAR_DAYS, low=0)
    assert math.isclose(
        math.cos((found.place_days - mean) * math.tau / YEAR_DAYS), 1, abs_tol=1e-12
    )
    assert found.spread_days == pytest.approx(
        stats.circstd(days, high=YEAR_DAYS, low=0), abs=1e-6
    )


def test_the_published_resultant_length_is_met() -> None:
    turned = [float(degrees) * YEAR_DAYS / 360 for degrees in STRIAE.split()]
    assert round(round_mean(turned).resultant, 3) == 0.800


def test_same_days_have_no_spread_and_days_opposite_have_no_mean() -> None:
    assert round_mean([70.0, 70.0]).spread_days == pytest.approx(0, abs=1e-5)
    opposite = round_mean([0.0, YEAR_DAYS / 2])
    assert opposite.resultant == pytest.approx(0, abs=1e-12)
    assert opposite.spread_days > YEAR_DAYS


def test_every_calendar_day_has_one_place_and_leap_day_lies_between() -> None:
    assert place_of(date(2023, 3, 1)) == place_of(date(2024, 3, 1))
    before, leap, after = (
        place_of(day)
        for day in (date(2024, 2, 28), date(2024, 2, 29), date(2024, 3, 1))
    )
    assert before < leap < after
    assert leap - before == pytest.approx(after - leap)
    assert 0 < place_of(date(2025, 1, 1)) < place_of(date(2024, 12, 31)) < YEAR_DAYS


def test_one_year_is_silent_and_two_are_said_to_be_little() -> None:
    assert expected([]) is None
    assert expected([date(2025, 3, 12)]) is None
    assert expected([date(2025, 3, 1), date(2025, 3, 20)]) is None
    assert expected_words(None) == ""
    found = expected([date(2024, 3, 10), date(2025, 3, 14)])
    assert expected_words(found) == (
        "Opens about 12 March: its own last two years, 4 days apart, which is little "
        "to go by."
    )


def test_a_season_is_said_with_its_spread() -> None:
    days = [date(2022, 3, 1), date(2023, 3, 24), date(2024, 3, 8), date(2025, 3, 15)]
    found = expected(days)
    assert found is not None
    (season,) = found.seasons
    assert season.years == 4
    positions = [place_of(day) for day in days]
    from scipy import stats

    spread = stats.circstd(positions, high=YEAR_DAYS, low=0)
    assert season.spread_days == pytest.approx(spread)
    assert expected_words(found) == (
        "Opens about 12 March, give or take 9 days: its own last four years."
    )


def test_new_year_does_not_tear_a_season_apart() -> None:
    found = expected([date(2022, 12, 28), date(2024, 1, 3), date(2024, 12, 31)])
    assert found is not None
    (season,) = found.seasons
    assert season.years == 3
    assert season.spread_days < 4
    assert season.day_in(2025) in {date(2025, 12, 31), date(2025, 1, 1)}


def test_the_same_calendar_day_is_told_as_that_day() -> None:
    for month, day in ((2, 28), (3, 1), (1, 1), (12, 31), (7, 4)):
        found = expected([date(year, month, day) for year in (2021, 2022, 2023, 2024)])
        assert found is not None
        assert found.seasons[0].day_in(2028) == date(2028, month, day)
    leap = expected([date(2020, 2, 29), date(2024, 2, 29)])
    assert leap is not None
    assert leap.seasons[0].day_in(2025) in {date(2025, 2, 28), date(2025, 3, 1)}


def test_two_seasons_a_year_are_told_apart() -> None:
    days = [date(year, month, 10) for year in (2023, 2024, 2025) for month in (3, 9)]
    found = expected(days)
    assert found is not None
    assert [season.day_in(2026).month for season in found.seasons] == [3, 9]
    assert [season.years for season in found.seasons] == [3, 3]
    assert expected_words(found) == (
        "Opens twice a year, by its own last three years: about 10 March (give or take "
        "a day) and about 10 September (give or take a day)."
    )


def test_openings_through_the_year_have_no_season() -> None:
    days = [
        date(2022, 1, 5),
        date(2022, 7, 1),
        date(2023, 2, 20),
        date(2023, 9, 1),
        date(2024, 4, 10),
        date(2024, 11, 1),
        date(2025, 5, 25),
    ]
    found = expected(days)
    assert found is not None
    assert found.seasons == ()
    assert found.coming(date(2025, 8, 1)) is None
    assert expected_words(found).startswith("It keeps to no season: it opened on")


def test_a_stray_opening_is_named_and_does_not_move_the_mean() -> None:
    usual = [date(2022, 3, 10), date(2023, 3, 14), date(2025, 3, 12)]
    found = expected([*usual, date(2024, 8, 3)])
    assert found is not None
    assert found.strays == (date(2024, 8, 3),)
    assert found.seasons[0].day_in(2026) == date(2026, 3, 12)
    assert expected_words(found).endswith("Outside that it opened on 3 August 2024.")


def test_a_second_spike_of_a_season_is_no_other_year() -> None:
    found = expected([date(2024, 3, 1), date(2024, 4, 5), date(2025, 3, 3)])
    assert found is not None
    assert found.seasons[0].openings == (date(2024, 3, 1), date(2025, 3, 3))


def test_what_was_long_ago_is_left_out() -> None:
    old = [date(2001, 8, 1), date(2002, 8, 1)]
    found = expected([*old, date(2024, 3, 1), date(2025, 3, 3)])
    assert found is not None
    assert found.strays == ()
    assert len(found.seasons) == 1


@pytest.mark.parametrize(
    ("on", "day"),
    [
        (date(2025, 3, 20), date(2026, 3, 12)),
        (date(2026, 1, 5), date(2026, 3, 12)),
        (date(2026, 3, 25), date(2026, 3, 12)),
        (date(2026, 3, 27), date(2027, 3, 12)),
    ],
)
def test_the_next_opening_waits_a_fortnight_and_no_longer(on: date, day: date) -> None:
    found = expected([date(2023, 3, 12), date(2024, 3, 12), date(2025, 3, 12)])
    assert found is not None
    coming = found.coming(on)
    assert coming is not None
    assert coming.day == day
    assert coming.first_day <= coming.day <= coming.last_day


def test_what_opened_early_is_not_waited_for_again() -> None:
    days = [date(2023, 3, 12), date(2024, 3, 12), date(2025, 2, 25)]
    coming = (expected(days) or pytest.fail("no season")).coming(date(2025, 3, 1))
    assert coming is not None
    assert coming.day.year == 2026


def test_of_two_seasons_the_nearer_comes_next() -> None:
    days = [date(year, month, 10) for year in (2023, 2024) for month in (3, 9)]
    found = expected(days)
    assert found is not None
    coming = found.coming(date(2025, 4, 30))
    assert coming is not None
    assert coming.day == date(2025, 9, 10)


@pytest.mark.parametrize("shift", [0, 91, 182, 273])
def test_seasons_turn_with_the_year(shift: int) -> None:
    base = [date(2022, 1, 10), date(2023, 1, 25), date(2024, 1, 14)]
    days = [day + timedelta(days=shift) for day in base]
    found = expected(days)
    assert found is not None
    assert found.seasons[0].spread_days == pytest.approx(6.3, abs=0.5)


def test_two_openings_that_lie_apart_show_no_lack_of_season() -> None:
    assert expected([date(2025, 3, 1), date(2025, 11, 1)]) is None
    assert expected([date(2024, 3, 1), date(2025, 9, 10)]) is None
    three = [date(2024, 1, 1), date(2024, 9, 1), date(2025, 5, 10)]
    assert expected_words(expected(three)).startswith("It keeps to no season")


@pytest.mark.parametrize(
    ("then", "told"),
    [(10, "on the same day"), (11, "a day apart"), (13, "3 days apart")],
)
def test_two_years_are_told_by_what_lies_between_them(then: int, told: str) -> None:
    found = expected([date(2024, 3, 10), date(2025, 3, then)])
    assert f"its own last two years, {told}, which is little" in expected_words(found)
