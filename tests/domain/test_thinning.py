"""Thinning keeps what it promises, whatever the clock says."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain.thinning import (
    FEWEST,
    NEWEST_OF,
    Dated,
    Why,
    is_due,
    to_go,
)

if TYPE_CHECKING:
    from collections.abc import Callable

START = date(2026, 1, 1)
FORWARD = st.integers(0, 60)
JUMPS = st.sampled_from([0] * 12 + [-3000, -400, -1, 700])
STEPS = st.tuples(FORWARD, JUMPS, st.sampled_from(Why), st.integers(1, 4))
DAYS = st.integers(0, 4000).map(lambda days: START + timedelta(days))


@st.composite
def backups_made(draw: st.DrawFn) -> list[Dated]:
    """Give backups as they are made over some years, the clock set now and then."""
    made, day = [], START + timedelta(3000)
    steps = draw(st.lists(STEPS, max_size=70))
    for number, (forward, jump, why, form) in enumerate(steps, 1):
        day += timedelta(forward + jump if abs((day - START).days) < 9000 else 0)
        made.append(Dated(number, day, why, form))
    return made


BACKUPS = backups_made()


def thinned(backups: list[Dated], today: date) -> list[Dated]:
    gone = to_go(backups, today)
    return [each for each in backups if each.number not in gone]


def lived(days: int, uses: Callable[[int], bool]) -> tuple[list[Dated], date]:
    """Give what is left after so many days, a backup on each that it is used."""
    kept: list[Dated] = []
    today = START
    for day in range(days):
        today = START + timedelta(day)
        if uses(day):
            kept = thinned([*kept, Dated(day + 1, today)], today)
    return kept, today


@settings(max_examples=120, deadline=None)
@given(BACKUPS, DAYS)
def test_the_newest_stay_and_so_do_those_to_come(
    backups: list[Dated], today: date
) -> None:
    kept = thinned(backups, today)
    assert kept[-FEWEST:] == backups[-FEWEST:]
    assert {each for each in backups if each.day > today} <= set(kept)
    for why, most in NEWEST_OF.items():
        asked = [each for each in backups if each.why is why]
        assert set(asked[-most:]) <= set(kept)
    for form in {each.form for each in backups if each.why is Why.BEFORE_FORM}:
        before = [
            each
            for each in backups
            if each.why is Why.BEFORE_FORM and each.form == form
        ]
        assert {before[0], before[-1]} <= set(kept)


@settings(max_examples=120, deadline=None)
@given(BACKUPS, DAYS)
def test_thinning_again_takes_nothing_more(backups: list[Dated], today: date) -> None:
    kept = thinned(backups, today)
    assert thinned(kept, today) == kept


@settings(max_examples=120, deadline=None)
@given(BACKUPS, DAYS)
def test_each_year_and_each_day_of_the_last_two_keeps_its_backups(
    backups: list[Dated], today: date
) -> None:
    kept = thinned(backups, today)
    past = [each for each in backups if each.day <= today]
    assert {each.day.year for each in past} == {
        each.day.year for each in kept if each.day <= today
    }
    last = list(dict.fromkeys(each.day for each in reversed(past)))[:2]
    assert all(each in kept for each in past if each.day in last)


def test_five_years_of_daily_use_leave_no_gap_wider_than_promised() -> None:
    kept: list[Dated] = []
    most = 0
    for day in range(5 * 365 + 2):
        today = START + timedelta(day)
        kept = thinned([*kept, Dated(day + 1, today)], today)
        most = max(most, len(kept))
        for earlier, later in pairwise(kept):
            gap = (later.day - earlier.day).days
            age = (today - later.day).days
            allowed = 1 if age < 6 else 7 if age < 35 else 31 if age < 334 else 366
            assert gap <= allowed, (today, earlier, later)
        assert kept[0].number == 1
    assert most <= 32


@pytest.mark.parametrize("every", [2, 3, 7, 11])
def test_used_now_and_then_the_same_number_of_times_stays(every: int) -> None:
    kept, _ = lived(5 * 365, lambda day: day % every == 0)
    days = [each.day for each in kept]
    assert len(days) >= 20
    assert [later - earlier for earlier, later in pairwise(days[-7:])] == [
        timedelta(every)
    ] * 6


@pytest.mark.parametrize("jump_days", [730, 36500, -1, -3650])
@pytest.mark.parametrize("lived_days", [30, 365, 700, 1500])
def test_a_wrong_clock_for_a_day_costs_nothing(lived_days: int, jump_days: int) -> None:
    kept, today = lived(lived_days, lambda _day: True)
    wrong = today + timedelta(jump_days)
    after = thinned([*kept, Dated(10_000, wrong)], wrong)
    right = thinned([*after, Dated(10_001, today)], today)
    assert set(kept) <= set(right)
    usual = thinned([*kept, Dated(10_001, today)], today)
    next_day = today + timedelta(1)
    then = set(thinned([*right, Dated(10_002, next_day)], next_day))
    assert set(thinned([*usual, Dated(10_002, next_day)], next_day)) <= then


def test_a_clock_set_back_for_good_deletes_nothing_of_the_time_to_come() -> None:
    kept, today = lived(700, lambda _day: True)
    later = list(kept)
    for day in range(400):
        back = today - timedelta(3650 - day)
        later = thinned([*later, Dated(20_000 + day, back)], back)
    assert set(kept) <= set(later)
    assert len(later) - len(kept) < 30


def test_retries_do_not_rotate_out_the_first_before_a_new_form() -> None:
    kept = [Dated(1, START, Why.DAILY, 4), Dated(2, START, Why.BEFORE_FORM, 4)]
    for number in range(3, 60):
        day = START + timedelta(number)
        kept = thinned([*kept, Dated(number, day, Why.BEFORE_FORM, 4)], day)
    assert kept[1].number == 2
    for number in range(60, 2000):
        day = START + timedelta(number)
        kept = thinned([*kept, Dated(number, day, Why.DAILY, 5)], day)
    of_form = [each.number for each in kept if each.why is Why.BEFORE_FORM]
    assert 2 in of_form
    assert 59 in of_form


def test_nothing_kept_is_nothing_to_thin() -> None:
    assert to_go([], START) == frozenset()


def test_one_is_due_on_each_day_without_one() -> None:
    assert is_due(None, START)
    assert is_due(START, START + timedelta(1))
    assert is_due(START + timedelta(1), START)
    assert not is_due(START, START)
