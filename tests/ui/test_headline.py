"""The line across the top: what to do first, and what came of the day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.services.values import DayView, Done, DoneKind, Jug, Line, MixPlan
from growdesk.ui import headline

ON = date(2026, 11, 25)


def line(number: int, verdict: Verdict, done: Done | None = None) -> Line:
    return Line(
        plant_id=number,
        tag=f"A{number}",
        name="Laelia anceps",
        place="",
        bench=number,
        verdict=verdict,
        water=Water.THROUGH,
        strength_ppm_n=None,
        volume_l=0.5,
        letter=None,
        short_reason="",
        looked_on=None,
        suspect=False,
        done=done,
    )


def day(*lines: Line, jugs: int = 0, clear_l: float = 0.0) -> DayView:
    jug = Jug("A", 120, 1.7, 0.1, (), (), None, None, ())
    mix = MixPlan((jug,) * jugs, (), (), (), clear_l, 0.0, None, None)
    return DayView(ON, True, date(2026, 11, 28), lines, mix, ())


FED = Done(DoneKind.CARED, CareKind.FEED, 120, 0.5)
DAMP = Done(DoneKind.PASSED_BY, None, None, None)


def test_looks_come_first_then_the_jugs() -> None:
    looks = [line(number, Verdict.LOOK_FIRST) for number in range(4)]
    said = headline.what_first(day(*looks, line(9, Verdict.FEED), jugs=2), ON)
    assert said == (
        "4 plants want a look first; then mix 2 jugs of feed, 3.6 L. 1 plant to do."
    )


def test_without_looks_the_jugs_come_first() -> None:
    said = headline.what_first(day(line(1, Verdict.FEED), jugs=1, clear_l=0.15), ON)
    assert said == (
        "Mix 1 jug of feed, 1.8 L; then have 150 mL of clear water ready, and a "
        "little to spare. 1 plant to do."
    )


def test_a_look_first_plant_that_was_passed_by_still_wants_its_look() -> None:
    passed = line(1, Verdict.LOOK_FIRST, DAMP)
    assert headline.what_first(day(passed, line(2, Verdict.FEED)), ON).startswith(
        "1 plant wants a look first."
    )
    assert "1 plant still to look at" in headline.what_first(day(passed), ON)


def test_a_day_to_come_offers_nothing_to_do_yet() -> None:
    ahead = day(line(1, Verdict.FEED), jugs=1)
    said = headline.what_first(ahead, date(2026, 11, 24))
    assert said == (
        "As things stand: mix 1 jug of feed, 1.8 L. Ticks open on the day itself."
    )
    for done, goes_by in (
        ((date(2026, 11, 24),), "If today's round is done as planned"),
        ((date(2026, 11, 23),), "If Monday's round is done as planned"),
        (
            (date(2026, 11, 21), date(2026, 11, 24)),
            "If the rounds of Saturday 21 November and today are done as planned",
        ),
        (
            tuple(date(2026, 11, each) for each in (18, 21, 23)),
            "If the 3 rounds before it are done as planned",
        ),
    ):
        planned = replace(ahead, taken_as_done=done)
        assert headline.what_first(planned, date(2026, 11, 24)) == (
            f"{goes_by}: mix 1 jug of feed, 1.8 L. Ticks open on the day itself."
        )
    resting = headline.what_first(day(line(1, Verdict.KEEP_DRY)), date(2026, 11, 24))
    assert resting.startswith("Nothing to pour, as things stand.")


def test_half_way_it_says_what_is_left() -> None:
    said = headline.what_first(
        day(line(1, Verdict.FEED, FED), line(2, Verdict.FLUSH), jugs=1), ON
    )
    assert said == "1 plant to do, 1 done."


def test_all_done_says_what_was_used_what_is_left_and_the_next_day() -> None:
    said = headline.what_first(
        day(
            line(1, Verdict.FEED, FED),
            line(2, Verdict.FEED, FED),
            line(3, Verdict.CLEAR_WATER, DAMP),
            line(4, Verdict.LOOK_FIRST),
            line(5, Verdict.KEEP_DRY),
            jugs=1,
        ),
        ON,
    )
    assert said == (
        "All done: 2 fed, 1 passed by. 1 L used. 1 plant still to look at. "
        "Next watering day: Saturday 28 November."
    )


def test_a_day_on_which_all_rest_says_so() -> None:
    said = headline.what_first(day(line(1, Verdict.KEEP_DRY)), ON)
    assert said.startswith("Nothing to pour on this day.")


@pytest.mark.parametrize(
    ("on", "said"),
    [
        (date(2026, 11, 26), "Tomorrow, Thursday 26 November 2026"),
        (date(2026, 11, 28), "Saturday 28 November 2026 (in 3 days)"),
        (date(2026, 11, 24), "Tuesday 24 November 2026 (1 day ago)"),
    ],
)
def test_another_day_says_how_near_it_is(on: date, said: str) -> None:
    other = replace(day(), on=on, is_today=False)
    assert headline.day_title(other, ON) == said
