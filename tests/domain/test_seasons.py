"""Where in the year a day stands, in either hemisphere."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain import seasons
from tests.domain.builders import HOUSE, day

MONTH_DAYS = st.dates(date(2024, 1, 1), date(2024, 12, 31)).map(
    lambda when: (when.month, when.day)
)
DAYS = st.dates(date(2020, 1, 1), date(2032, 12, 31))


def test_latitude_nought_counts_as_north() -> None:
    assert seasons.northern(0.0)
    assert seasons.northern(48.2)
    assert not seasons.northern(-0.1)


@pytest.mark.parametrize(
    ("latitude", "near"),
    [
        (0, True),
        (14.9, True),
        (-14.9, True),
        (15.1, False),
        (-15.1, False),
        (90, False),
    ],
)
def test_within_fifteen_degrees_of_the_equator(latitude: float, near: bool) -> None:
    assert seasons.equatorial(latitude, HOUSE.equatorial_band_deg) is near


@pytest.mark.parametrize(
    ("north", "south"),
    [((12, 20), (6, 20)), ((9, 15), (3, 15)), ((1, 1), (7, 1)), ((6, 21), (12, 21))],
)
def test_days_turn_by_six_months_in_the_south(
    north: tuple[int, int], south: tuple[int, int]
) -> None:
    assert seasons.turned(north, -37) == south
    assert seasons.turned(north, 48) == north
    assert seasons.turned(north, 0) == north


def test_months_turn_whole() -> None:
    """Published: a New Zealand calendar rests cattleyas from May to August (F25)."""
    assert seasons.turned_months((11, 12, 1, 2), -41) == (5, 6, 7, 8)
    assert seasons.turned_months((11, 12, 1, 2), 41) == (11, 12, 1, 2)


def test_equinoxes_and_solstices() -> None:
    assert seasons.midsummer(48) == (6, 21)
    assert seasons.midsummer(-37) == (12, 21)
    assert seasons.midwinter(48) == (12, 21)
    assert seasons.midwinter(-37) == (6, 21)
    assert seasons.spring_equinox(48)[0] == 3
    assert seasons.spring_equinox(-37)[0] == 9


@pytest.mark.parametrize(
    ("on", "inside"),
    [
        ("11-01", True),
        ("12-31", True),
        ("01-01", True),
        ("02-28", True),
        ("03-01", False),
        ("10-31", False),
    ],
)
def test_a_span_may_run_over_the_turn_of_the_year(on: str, inside: bool) -> None:
    assert seasons.within(day(on), (11, 1), (2, 29)) is inside


@given(on=DAYS, start=MONTH_DAYS, end=MONTH_DAYS)
def test_a_span_and_its_gap_share_the_year(
    on: date, start: tuple[int, int], end: tuple[int, int]
) -> None:
    now = (on.month, on.day)
    both = seasons.within(on, start, end) and seasons.within(on, end, start)
    assert both is (now in {start, end} if start != end else now == start)
    assert (
        start == end or seasons.within(on, start, end) or seasons.within(on, end, start)
    )


@given(on=DAYS, month_day=MONTH_DAYS)
def test_next_and_last_dates_are_the_nearest(
    on: date, month_day: tuple[int, int]
) -> None:
    after, before = seasons.next_date(on, month_day), seasons.last_date(on, month_day)
    assert before <= on <= after
    assert after - on <= timedelta(days=366)
    assert on - before <= timedelta(days=366)
    for found in (after, before):
        assert (found.month, found.day) in (month_day, (2, 28))


def test_the_last_of_february() -> None:
    assert seasons.last_of_month(2) == (2, 29)
    assert seasons.last_of_month(4) == (4, 30)
    assert seasons.next_date(day("2027-02-01"), (2, 29)) == day("2027-02-28")
    assert seasons.next_date(day("2028-02-01"), (2, 29)) == day("2028-02-29")
