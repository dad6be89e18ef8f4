"""A day's course is weighted by time, holds its gaps against it, and forgets order."""

from __future__ import annotations

import random
from datetime import date, datetime, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.day_course import Course, courses

ON = date(2026, 5, 1)
MIDNIGHT = datetime(2026, 5, 1)  # noqa: DTZ001 -- a logger's clock has no zone
Samples = list[tuple[datetime, float]]


def at(hour: float) -> datetime:
    return MIDNIGHT + timedelta(hours=hour)


def steady(value: float, start: float, end: float, step: float) -> Samples:
    count = round((end - start) / step)
    return [(at(start + number * step), value) for number in range(count)]


def course(samples: Samples) -> Course:
    return courses(samples)[ON]


def test_400_for_12_hours_are_17_28_mol() -> None:
    """400 x 12 x 3600 / 1e6 = 17.28 mol m-2, by the definition of the DLI."""
    samples = [
        (at(minute / 60), 400.0 if 360 <= minute < 1080 else 0.0)
        for minute in range(1440)
    ]
    assert course(samples).dli_mol_per_m2 == pytest.approx(17.28)


def test_a_published_daily_light() -> None:
    """PAR Source: 400 fc of sodium lamps, 0.131 µmol per fc, 12 hours: 2.3 mol."""
    lit = 400 * 0.131
    samples = [
        (at(minute / 60), lit if 360 <= minute < 1080 else 0.0)
        for minute in range(1440)
    ]
    assert round(course(samples).dli_mol_per_m2, 1) == 2.3


def test_the_mean_is_weighted_by_time() -> None:
    """A logger that writes more often in the warm hour does not make a warm day."""
    samples = steady(10.0, 0, 24, 1 / 2)
    samples += [(at(12 + minute / 60), 30.0) for minute in range(5, 26)]
    found = course(samples)
    assert found.high == 30.0
    assert found.low == 10.0
    assert 10.2 < found.mean < 10.8


@pytest.mark.parametrize(
    ("end", "whole"), [(18.0, True), (17.5, False), (24.0, True), (1.0, False)]
)
def test_three_quarters_of_the_hours_make_a_day(end: float, whole: bool) -> None:
    found = course(steady(20.0, 0, end, 0.25))
    assert found.hours == pytest.approx(end)
    assert found.is_whole is whole


def test_a_gap_is_not_read_and_is_bridged() -> None:
    samples = steady(10.0, 0, 6, 0.25) + steady(20.0, 12, 24, 0.25)
    found = course(samples)
    assert found.hours == pytest.approx(5.75 + 11.75 + 0.25)
    assert not found.is_whole
    # 5.75 h of 10, a straight line of 6.25 h up to 20, 11.75 h of 20
    assert found.sum_h == pytest.approx(5.75 * 10 + 6.25 * 15 + 11.75 * 20)


def test_light_needs_its_noon() -> None:
    """20 of 24 hours are enough for warmth; a noon without readings is no light."""
    lost_noon = steady(100.0, 0, 10, 0.25) + steady(100.0, 14, 24, 0.25)
    lost_night = steady(100.0, 4, 24, 0.25)
    assert course(lost_noon).is_whole
    assert not course(lost_noon).is_whole_for_light
    assert course(lost_night).is_whole_for_light


@pytest.mark.parametrize("minutes", [1, 5, 15, 30, 60])
def test_any_usual_step_covers_the_day(minutes: int) -> None:
    found = course(steady(20.0, 0, 24, minutes / 60))
    assert found.hours == pytest.approx(24)
    assert found.bright_hours == pytest.approx(12)


@pytest.mark.parametrize(
    ("step", "pause", "is_gap"),
    [
        (1 / 12, 1.0, False),
        (1 / 12, 1.1, True),
        (1.0, 2.0, False),
        (1.0, 2.1, True),
        (4.0, 4.0, False),
        (4.0, 5.0, True),
    ],
)
def test_a_pause_of_an_hour_or_of_two_rows_is_no_gap(
    step: float, pause: float, is_gap: bool
) -> None:
    """Rows come each ``step`` hours until 8, then again after the pause."""
    before = steady(20.0, 0, 8 + step, step)
    after = steady(20.0, 8 + pause, 8 + pause + 2 * step, step)
    read = 8 + step + (0 if is_gap else pause)
    assert course(before + after).hours == pytest.approx(read + min(step, 2))


@pytest.mark.parametrize(("resumed", "whole"), [(13.5, True), (13.75, False)])
def test_light_needs_9_of_the_12_bright_hours(resumed: float, whole: bool) -> None:
    samples = steady(100.0, 0, 10.75, 0.25) + steady(100.0, resumed, 24, 0.25)
    assert course(samples).is_whole_for_light is whole


def test_a_day_has_no_more_than_24_hours() -> None:
    samples = [*steady(20.0, 0, 24, 0.25), (at(23.99), 20.0)]
    assert course(samples).hours == 24.0


def test_two_rows_a_day_are_no_course() -> None:
    assert not course([(at(6), 10.0), (at(18), 20.0)]).is_whole


def test_one_sample_is_its_own_mean() -> None:
    assert course([(at(6), 10.0)]) == Course(10.0, 10.0, 10.0, 0.0, 0.0, 0.0)


def test_the_hour_that_comes_twice_counts_once() -> None:
    """Clocks set back: 2 to 3 is written twice; the mean of both counts."""
    day = steady(10.0, 0, 24, 0.25)
    again = steady(14.0, 2, 3, 0.25)
    found = course(day + again)
    assert found.hours == pytest.approx(24)
    assert found.high == 14.0
    # four quarters of 12 in place of 10, over the 23.75 h from first to last sample
    assert found.mean == pytest.approx(10 + 2 / 23.75)


def test_the_hour_that_is_left_out_is_a_short_gap() -> None:
    day = steady(10.0, 0, 2, 0.25) + steady(10.0, 3, 24, 0.25)
    assert course(day).is_whole


def test_midnight_belongs_to_the_new_day() -> None:
    found = courses([(at(23.9), 1.0), (at(24), 2.0)])
    assert [on.day for on in found] == [1, 2]


NODES = st.lists(st.floats(-20, 45), min_size=25, max_size=25)


@given(NODES, st.lists(st.floats(0.001, 23.999), max_size=60))
def test_writing_more_often_changes_no_mean(
    nodes: list[float], extra: list[float]
) -> None:
    """The course is straight between full hours; more samples on it say no more."""
    coarse = [(at(hour if hour < 24 else 23.9999), v) for hour, v in enumerate(nodes)]
    fine = list(coarse)
    for hour in extra:
        (before, low), (after, high) = next(
            (one, other) for one, other in pairwise(coarse) if other[0] >= at(hour)
        )
        share = (at(hour) - before) / (after - before)
        fine.append((at(hour), low + share * (high - low)))
    one, other = course(coarse), course(fine)
    assert other.mean == pytest.approx(one.mean, abs=1e-3)
    assert other.sum_h == pytest.approx(one.sum_h, abs=1e-2)
    assert other.is_whole
    assert (other.low, other.high) == pytest.approx((one.low, one.high), abs=1e-3)


@given(
    st.lists(
        st.tuples(st.integers(0, 3 * 1440 - 1), st.floats(-20, 45)),
        min_size=1,
        max_size=80,
    ),
    st.integers(0, 1000),
)
def test_the_order_of_rows_does_not_matter(
    rows: list[tuple[int, float]], seed: int
) -> None:
    samples = [(at(minute / 60), value) for minute, value in rows]
    shuffled = samples[:]
    random.Random(seed).shuffle(shuffled)  # noqa: S311 -- an order, not a secret
    one, other = courses(samples), courses(shuffled)
    assert list(one) == list(other)
    for on, found in one.items():
        assert other[on].mean == pytest.approx(found.mean)
        assert other[on].hours == pytest.approx(found.hours)
        assert (other[on].low, other[on].high) == (found.low, found.high)
        assert found.low - 1e-9 <= found.mean <= found.high + 1e-9
