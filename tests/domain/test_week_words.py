"""What a day hangs on, and one plant's week in sentences."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import product

import pytest
from msgspec.structs import replace

from growdesk.domain import week_templates as templates
from growdesk.domain.facts import (
    Care,
    CareKind,
    House,
    Look,
    NewGrowths,
    Plant,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.judging import judge
from growdesk.domain.week_because import Because, Earlier, How, because
from growdesk.domain.week_wording import (
    PlantDay,
    missed_round,
    ordinal_text,
    sentence,
    sentences,
)
from growdesk.services import kinds

MONDAY = date(2026, 5, 11)
TUESDAY, WEDNESDAY, THURSDAY, FRIDAY = (
    MONDAY + timedelta(days=number) for number in range(1, 5)
)
SATURDAY = date(2026, 5, 16)
HOUSE = House(latitude=48.2)
CATTLEYA = kinds.table().kinds["cattleya"]
GROWING = Plant(
    tag="C3",
    kind="cattleya",
    pot_volume_l=1.0,
    looks=(
        Look(
            on=date(2026, 5, 10),
            new_growths=NewGrowths(extending=1),
            root_tips=RootTips.RUNNING,
        ),
    ),
)


def _cause(plant: Plant, on: date, *earlier: Earlier) -> Because | None:
    judged = judge(plant, CATTLEYA, HOUSE, on)
    return because(plant, CATTLEYA, HOUSE, judged, earlier)


def _fed(*days: date) -> Plant:
    return replace(GROWING, care=tuple(Care(day, CareKind.FEED, 100.0) for day in days))


def test_a_feed_taken_out_that_turns_the_verdict_is_the_cause() -> None:
    found = _cause(_fed(WEDNESDAY), SATURDAY, Earlier(MONDAY), Earlier(WEDNESDAY))
    assert found == Because(WEDNESDAY, How.GIVEN, CareKind.FEED)


def test_care_that_changes_nothing_is_no_cause() -> None:
    watered = replace(GROWING, care=(Care(WEDNESDAY, CareKind.CLEAR_WATER),))
    assert _cause(watered, SATURDAY, Earlier(WEDNESDAY)) is None
    assert _cause(GROWING, SATURDAY) is None


def test_a_day_that_is_not_of_the_walk_is_never_named() -> None:
    assert _cause(_fed(WEDNESDAY), SATURDAY, Earlier(MONDAY)) is None


def test_two_feeds_that_only_together_withhold_are_named_by_the_later() -> None:
    found = _cause(_fed(MONDAY, WEDNESDAY), FRIDAY, Earlier(MONDAY), Earlier(WEDNESDAY))
    assert found == Because(WEDNESDAY, How.GIVEN, CareKind.FEED)
    assert _cause(_fed(MONDAY, WEDNESDAY), FRIDAY, Earlier(MONDAY)) is None


@pytest.mark.parametrize(
    ("record", "passed_by", "how"),
    [
        ((), False, How.MISSED),
        ((), True, How.PASSED_BY),
        ((Care(WEDNESDAY, CareKind.CLEAR_WATER),), False, How.INSTEAD),
    ],
)
def test_a_planned_feed_put_in_that_turns_the_verdict_is_the_cause(
    record: tuple[Care, ...], how: How, *, passed_by: bool
) -> None:
    plant = replace(GROWING, care=record)
    planned = Care(WEDNESDAY, CareKind.FEED, 100.0)
    found = _cause(plant, SATURDAY, Earlier(WEDNESDAY, planned, passed_by))
    assert found == Because(WEDNESDAY, how, CareKind.FEED)


def _day(on: date, **more: object) -> PlantDay:
    values: dict[str, object] = {
        "verdict": Verdict.CLEAR_WATER,
        "water": Water.IF_DRY,
        "strength_ppm_n": None,
        **more,
    }
    return PlantDay(on, **values)  # type: ignore[arg-type]


def test_neighbours_that_say_the_same_share_a_sentence() -> None:
    fed = _day(MONDAY, verdict=Verdict.FEED, water=Water.THROUGH, strength_ppm_n=80.0)
    cause = Because(MONDAY, How.GIVEN, CareKind.FEED)
    rest = [_day(on, because=cause) for on in (TUESDAY, WEDNESDAY, THURSDAY)]
    assert sentences([fed, *rest, replace(fed, on=FRIDAY)], MONDAY) == (
        "Today it is fed at 80 ppm N.",
        (
            "On Tuesday, Wednesday and Thursday it gets clear water, if the pot is "
            "light, because today feeds it."
        ),
        "On Friday it is fed at 80 ppm N.",
    )
    assert sentences([], MONDAY) == ()


def test_what_is_past_goes_by_the_record() -> None:
    given = _day(MONDAY, given=CareKind.FEED, strength_ppm_n=77.0)
    assert sentence(given, WEDNESDAY) == "On Monday it was fed at 77 ppm N."
    unread = replace(given, strength_ppm_n=None)
    assert sentence(unread, WEDNESDAY) == "On Monday it was fed."
    missed = _day(MONDAY, missed=True)
    assert sentence(missed, WEDNESDAY) == (
        "On Monday it was to get clear water, and nothing is on record."
    )


def test_rain_today_has_fallen_and_is_not_planned() -> None:
    cause = Because(MONDAY, How.GIVEN, CareKind.RAIN)
    said = sentence(_day(WEDNESDAY, because=cause), MONDAY)
    assert said.endswith(", because rain fell on it today.")


def test_a_flush_by_count_names_which_feed_makes_it_due() -> None:
    cause = Because(MONDAY, How.GIVEN, CareKind.FEED, 3, "washed")
    flush = _day(WEDNESDAY, verdict=Verdict.FLUSH, water=Water.THROUGH, because=cause)
    assert sentence(flush, MONDAY).endswith(
        ", because today's is the third feed since it was washed."
    )
    assert sentence(flush, TUESDAY).endswith(
        ", because Monday's was the third feed since it was washed."
    )
    for number, word in ((1, "first"), (10, "tenth"), (11, "11th"), (22, "22nd")):
        assert ordinal_text(number) == word


_GIVES = (CareKind.FEED, CareKind.FLUSH, CareKind.CLEAR_WATER)


def test_every_sentence_can_be_said_and_is_whole() -> None:
    said = set()
    causes = [
        None,
        *(Because(MONDAY, how, what) for how, what in product(How, _GIVES)),
        Because(MONDAY, How.GIVEN, CareKind.RAIN),
        *(
            Because(MONDAY, How.GIVEN, CareKind.FEED, count, since)
            for count, since in product((1, 3, 12), ("washed", "repotted", "ever"))
        ),
    ]
    records = [None, *_GIVES, CareKind.RAIN]
    for key, cause, today in product(
        templates.PLANS, causes, (MONDAY, TUESDAY, SATURDAY)
    ):
        verdict, water = Verdict(key[0]), Water(key[1])
        more = {"verdict": verdict, "water": water, "because": cause}
        for given, passed, missed in product(records, (False, True), (False, True)):
            if missed and verdict in (Verdict.KEEP_DRY, Verdict.LOOK_FIRST):
                continue
            day = _day(WEDNESDAY, given=given, passed_by=passed, missed=missed, **more)
            said.add(sentence(replace(day, strength_ppm_n=80.0), today))
            said.add(sentence(day, today))
    for one in said:
        assert one[0].isupper()
        assert one.endswith(".")
        assert "{" not in one
        assert "on today" not in one


@pytest.mark.parametrize(
    ("missed", "told"),
    [
        (WEDNESDAY, "Wednesday's round has nothing recorded"),
        (date(2026, 5, 9), "Saturday 9 May's round has nothing recorded"),
    ],
)
def test_a_missed_round_names_its_day(missed: date, told: str) -> None:
    assert missed_round(missed, SATURDAY) == f"{told}; today is judged by that."
