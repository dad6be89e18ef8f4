"""The day from which a plant could be fed is the day on which it first is."""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain import day_words
from growdesk.domain.change import would_change
from growdesk.domain.facts import (
    Care,
    CareKind,
    Flowering,
    Leaves,
    Look,
    NewGrowths,
    Overrule,
    RootTips,
    Verdict,
)
from tests.domain.builders import HOUSE, day, judged, kind_of, moving, plant, still

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.domain.facts import Plant

MOST_DAYS = 60


def care(what: CareKind, *days: str) -> tuple[Care, ...]:
    """Give care of one sort on some days."""
    return tuple(Care(day(text), what, 100) for text in days)


def spiking(on: str) -> Look:
    """Give a look at a spike and nothing else on the move."""
    return still(on, Flowering.SPIKE)


def told(one: Plant, on: str) -> tuple[str, ...]:
    return would_change(one, kind_of(one), HOUSE, day(on))


def seen_later(one: Plant, on: date) -> Plant:
    """Give the plant looked at on a day as last time; a repot hides its root tips."""
    again = replace(one.looks[-1], on=on)
    if any(each.what is CareKind.REPOT for each in one.care):
        again = replace(again, root_tips=None)
    return replace(one, looks=(*one.looks, again))


def first_fed(one: Plant, on: date) -> date:
    """Give the first day on which the plant, looking the same, is fed."""
    for ahead in range(1, MOST_DAYS):
        later = on + timedelta(days=ahead)
        if judged(seen_later(one, later), later).verdict is Verdict.FEED:
            return later
    raise AssertionError("it is never fed")


FEEDS = care(CareKind.FEED, "06-01", "06-08", "06-15")


@pytest.mark.parametrize(
    ("kind", "looked", "given", "on"),
    [
        ("cattleya", "06-25", (*FEEDS, *care(CareKind.FLUSH, "06-30")), "06-30"),
        ("cattleya", "06-25", care(CareKind.FEED, "06-26", "06-30"), "06-30"),
        ("cattleya", "06-25", care(CareKind.FEED, "06-27"), "06-30"),
        ("laelia-rupicolous", "10-18", care(CareKind.FEED, "10-05"), "10-20"),
        ("cattleya", "07-13", care(CareKind.REPOT, "07-15"), "07-15"),
        ("cattleya", "07-13", care(CareKind.REPOT, "07-14"), "07-15"),
    ],
)
def test_the_day_named_is_the_first_day_it_is_fed(
    kind: str, looked: str, given: tuple[Care, ...], on: str
) -> None:
    one = plant(kind, moving(looked), care=given)
    assert judged(one, on).verdict is not Verdict.FEED
    text = " ".join(told(one, on))
    named = re.search(r"From (\d+) (\w+) on", text)
    assert named, text
    true = first_fed(one, day(on))
    assert (int(named[1]), named[2]) == (true.day, day_words.MONTHS[true.month - 1])


def test_a_flush_given_today_is_not_asked_for_again() -> None:
    one = plant("cattleya", moving("06-25"), care=FEEDS)
    before = told(one, "06-30")
    assert "If it has been flushed, it would be fed." in before
    done = replace(one, care=(*FEEDS, *care(CareKind.FLUSH, "06-30")))
    after = told(done, "06-30")
    assert not [text for text in after if "flushed" in text]


def test_after_a_repot_nothing_is_promised_before_it_has_settled() -> None:
    """The tips that ran before it say nothing of the roots in the new pot."""
    one = plant("cattleya", moving("07-13"), care=care(CareKind.REPOT, "07-15"))
    assert told(one, "07-15") == (
        "From 30 July on it could be fed, if it then looks as it did last time.",
    )
    for on, rule in (("07-29", "just-repotted"), ("07-30", "growing")):
        assert judged(seen_later(one, day(on)), on).rule == rule


def test_after_a_repot_a_plant_that_only_rooted_has_to_root_again() -> None:
    rooted = still("07-13", root_tips=RootTips.RUNNING)
    one = plant("cattleya", rooted, care=care(CareKind.REPOT, "07-15"))
    assert told(one, "07-15") == (
        "From 16 July on, if root tips are seen running, it would be fed.",
    )
    again = replace(seen_later(one, day("07-16")), looks=(*one.looks, moving("07-16")))
    assert judged(again, "07-16").verdict is Verdict.FEED


def test_leaves_that_drop_promise_nothing_for_another_year() -> None:
    """By its leaves it is on its way to bare; it cannot look the same in March."""
    going = {"new_growths": NewGrowths(0, 0, 0, 1), "leaves": Leaves.DROPPING}
    one = plant("catasetum", still("07-13", longest_new_root_mm=120.0, **going))
    assert judged(one, "07-15").rule == "going-down"
    assert "March" not in " ".join(told(one, "07-15"))


def test_a_flush_before_a_rest_is_not_put_off_to_the_end_of_the_rest() -> None:
    one = plant("dendrobium-nobile", moving("08-29"), care=care(CareKind.FEED, "08-20"))
    assert judged(one, "08-30").rule == "salts"
    assert told(one, "08-30") == ("If it has been flushed, it would be fed.",)


def test_the_end_of_a_rest_is_promised_however_far() -> None:
    one = plant("dendrobium-nobile", moving("11-12"))
    assert told(one, "11-14") == (
        "From 1 March on it could be fed, if it then looks as it did last time.",
    )
    then = day("2027-03-01")
    assert judged(seen_later(one, then), then).verdict is Verdict.FEED


@pytest.mark.parametrize(
    ("seen", "days"), [(moving, 90), (moving, 59), (spiking, 59), (spiking, 90)]
)
def test_a_spike_alone_is_promised_two_months_at_most(
    seen: Callable[[str], Look], days: int
) -> None:
    given = care(CareKind.FEED, "05-07")
    one = plant("oncidium", seen("05-05"), care=given, feed_interval_days=days + 1)
    named = [text for text in told(one, "05-08") if text.startswith("From")]
    assert bool(named) is (seen is moving or days <= MOST_DAYS)


def test_a_high_runoff_is_not_forgiven_by_a_day_to_come() -> None:
    high = moving("06-10", runoff_ec_ms_per_cm=3.5)
    one = plant("cattleya", high, care=care(CareKind.FEED, "06-12"))
    assert judged(one, "06-15").verdict is Verdict.FLUSH
    late = replace(one, feed_interval_days=30)
    for each in (one, late):
        assert not [text for text in told(each, "06-15") if "could be fed" in text]


@pytest.mark.parametrize(
    ("seen", "verdict", "words"),
    [
        (still, Verdict.FEED, "From 21 May on it would get clear water, even if it"),
        (moving, Verdict.KEEP_DRY, "From 21 May on it could be fed, if it then"),
        (moving, Verdict.FEED, "Your overrule holds until 20 May; after that it is"),
        (still, Verdict.KEEP_DRY, "Your overrule holds until 20 May; after that it is"),
    ],
)
def test_the_end_of_an_own_word_is_told_once(
    seen: Callable[[str], Look], verdict: Verdict, words: str
) -> None:
    said = Overrule(verdict, "on trial", day("05-20"))
    (sentence,) = told(plant("cattleya", seen("05-05"), overrule=said), "05-08")
    assert sentence.startswith(words)
