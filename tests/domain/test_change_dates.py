"""The day from which a plant could be fed is the day on which it first is."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest

from growdesk.domain import wording
from growdesk.domain.change import would_change
from growdesk.domain.facts import Care, CareKind, Verdict
from tests.domain.builders import HOUSE, day, judged, kind_of, moving, plant

if TYPE_CHECKING:
    from growdesk.domain.facts import Plant

MOST_DAYS = 60


def care(what: CareKind, *days: str) -> tuple[Care, ...]:
    """Give care of one sort on some days."""
    return tuple(Care(day(text), what, 100) for text in days)


def first_fed(one: Plant, on: date) -> date:
    """Give the first day on which the plant, looking the same, is fed."""
    for ahead in range(1, MOST_DAYS):
        later = on + timedelta(days=ahead)
        looks = (*one.looks, replace(one.looks[-1], on=later))
        if judged(replace(one, looks=looks), later).verdict is Verdict.FEED:
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
    ],
)
def test_the_day_named_is_the_first_day_it_is_fed(
    kind: str, looked: str, given: tuple[Care, ...], on: str
) -> None:
    one = plant(kind, moving(looked), care=given)
    assert judged(one, on).verdict is not Verdict.FEED
    text = " ".join(would_change(one, kind_of(one), HOUSE, day(on)))
    named = re.search(r"From (\d+) (\w+) on", text)
    assert named, text
    true = first_fed(one, day(on))
    assert (int(named[1]), named[2]) == (true.day, wording.MONTHS[true.month - 1])


def test_a_flush_given_today_is_not_asked_for_again() -> None:
    one = plant("cattleya", moving("06-25"), care=FEEDS)
    before = would_change(one, kind_of(one), HOUSE, day("06-30"))
    assert "If it has been flushed, it would be fed." in before
    done = replace(one, care=(*FEEDS, *care(CareKind.FLUSH, "06-30")))
    after = would_change(done, kind_of(done), HOUSE, day("06-30"))
    assert not [text for text in after if "flushed" in text]
