"""The line across the top: what to do first, and what came of the day."""

from __future__ import annotations

from datetime import date

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import CareKind, House, Verdict, Water
from growdesk.services.look_values import Bench
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
        "4 plants want a look first. Mix 2 jugs of feed, 3.6 L. 1 plant to do."
    )


def test_without_looks_the_jugs_come_first() -> None:
    said = headline.what_first(day(line(1, Verdict.FEED), jugs=1, clear_l=0.15), ON)
    assert said == (
        "Mix 1 jug of feed, 1.8 L. Have 150 mL of clear water ready, and a little to "
        "spare. 1 plant to do."
    )


def test_a_jug_of_a_pot_without_its_volume_is_not_called_empty() -> None:
    """The first plant needs a tag and a name, so that its litres are not known yet."""
    view = day(line(1, Verdict.FEED))
    jug = Jug("A", 70, 0.0, 0.0, (), (), None, None, ())
    said = headline.what_first(replace(view, mix=replace(view.mix, jugs=(jug,))), ON)
    assert said == "Mix 1 jug of feed, litres not known. 1 plant to do."


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
        "Mix 1 jug of feed, 1.8 L. So it stands now. Ticks open on the day itself."
    )
    for done, goes_by in (
        ((date(2026, 11, 24),), "the round of today"),
        ((date(2026, 11, 23),), "the round of Monday"),
        (
            (date(2026, 11, 21), date(2026, 11, 24)),
            "the rounds of Saturday 21 November and today",
        ),
        (
            tuple(date(2026, 11, each) for each in (18, 21, 23)),
            "the 3 rounds before it",
        ),
    ):
        planned = replace(ahead, taken_as_done=done)
        assert headline.what_first(planned, date(2026, 11, 24)) == (
            f"Mix 1 jug of feed, 1.8 L. That takes {goes_by} as done as planned. "
            "Ticks open on the day itself."
        )
    resting = headline.what_first(day(line(1, Verdict.KEEP_DRY)), date(2026, 11, 24))
    assert resting.startswith("Nothing to pour. So it stands now.")


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
        "All done: 2 fed and 1 passed by. 1 L used. 1 plant still to look at. "
        "Next watering day: Saturday 28 November."
    )


def test_a_day_on_which_all_rest_says_so() -> None:
    said = headline.what_first(day(line(1, Verdict.KEEP_DRY)), ON)
    assert said == (
        "Nothing to pour: the plant is kept dry, its line says why. "
        "Next watering day: Saturday 28 November."
    )
    all_rest = [line(number, Verdict.KEEP_DRY) for number in range(3)]
    assert headline.what_first(day(*all_rest), ON).startswith(
        "Nothing to pour: all 3 plants are kept dry, each line says why."
    )
    waits = headline.what_first(day(*all_rest, line(5, Verdict.LOOK_FIRST)), ON)
    assert waits.startswith(
        "1 plant wants a look first. Nothing else is to be done on this day."
    )


def test_no_plant_one_plant_and_a_past_day_have_their_own_words() -> None:
    assert headline.what_first(day(), ON) == (
        "No plants yet. Begin with the steps on the left."
    )
    assert headline.what_first(day(line(1, Verdict.FLUSH)), ON) == "1 plant to do."
    view = replace(day(line(1, Verdict.FLUSH, FED)), is_today=False)
    past = headline.what_first(view, date(2026, 11, 30))
    assert past == "All done: 1 fed. 500 mL used."


def test_today_is_no_watering_day_by_the_house() -> None:
    other = House(watering_weekdays=(5,))
    bench = Bench(ON, other, (), frozenset())
    to_do = replace(day(line(1, Verdict.FLUSH)), bench=bench)
    assert headline.what_first(to_do, ON) == (
        "No watering day today; the next is Saturday 28 November. 1 plant to do."
    )
    over = replace(to_do, lines=(line(1, Verdict.FLUSH, DAMP),))
    assert headline.what_first(over, ON) == (
        "No watering day today; the next is Saturday 28 November. "
        "All done: 1 passed by."
    )
    wednesdays = replace(other, watering_weekdays=(2,))
    on_one = replace(to_do, bench=replace(bench, house=wednesdays))
    assert headline.what_first(on_one, ON) == "1 plant to do."


def test_over_a_week_it_says_for_which_day() -> None:
    view = day(line(1, Verdict.FLUSH))
    assert headline.for_day(view, ON) == "For today: 1 plant to do."
    other = replace(view, is_today=False)
    assert headline.for_day(other, date(2026, 11, 27)) == (
        "For Wednesday 25 November: 1 plant to do. What was really given can still be "
        "ticked late."
    )


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
