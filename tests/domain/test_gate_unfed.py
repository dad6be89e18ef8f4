"""The unfed rests: cooler, drier, unfed; and no nitrogen.

Published beside the checks: feed carried to 1 November delays bloom of a soft-cane
dendrobium (Bichsel, Starman & Wang 2008), stopping on 1 October flowered best in
another (Yen 2008): the date is disputed and a house rule. Months turn in the south
(R. Hutton, Orchid Council of New Zealand).
"""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from growdesk.domain.case import Case
from growdesk.domain.facts import (
    Bulbs,
    Flowering,
    House,
    Look,
    NewGrowths,
    NewLeaf,
    RootTips,
    Size,
)
from growdesk.domain.judging import judge
from growdesk.domain.rules import unfed_rest
from tests.domain.builders import (
    EMERGING,
    EQUATOR,
    EXTENDING,
    HOUSE,
    MATURING,
    NOTHING,
    SOUTH,
    bloom_told,
    day,
    deciding,
    fed,
    judged,
    kind_of,
    look,
    moving,
    outcome,
    plant,
    said,
    still,
)

REST = ("unfed-rest", "clear-water", "sparing")
DRINKS = ("unfed-rest", "clear-water", "if-dry")
FED = ("growing", "feed", "through")
UNFED = "laelia-rupicolous"  # November to March
NOBILE = "dendrobium-nobile"


# -- cooler, drier, unfed -----


@pytest.mark.parametrize(
    ("on", "rests"),
    [
        ("10-31", False),
        ("11-01", True),
        ("01-15", True),
        ("03-31", True),
        ("04-01", False),
    ],
)
def test_months_are_whole_and_inclusive(on: str, rests: bool) -> None:
    got = judged(plant(UNFED, still(on)), on)
    assert (outcome(got) == REST) is rests


@pytest.mark.parametrize(
    ("on", "rests"),
    [
        ("04-30", False),
        ("05-01", True),
        ("09-30", True),
        ("10-01", False),
        ("01-15", False),
    ],
)
def test_months_turn_in_the_south(on: str, rests: bool) -> None:
    got = judged(plant(UNFED, still(on)), on, SOUTH)
    assert (outcome(got) == REST) is rests


@pytest.mark.parametrize("latitude", [0.0, 10.0, -10.0])
def test_months_are_not_used_near_the_equator(latitude: float) -> None:
    got = judged(plant(UNFED, still("01-15")), "01-15", House(latitude=latitude))
    assert got.rule == "not-growing"


@pytest.mark.parametrize("latitude", [16.0, 60.0])
def test_beyond_fifteen_degrees_they_are(latitude: float) -> None:
    got = judged(plant(UNFED, still("01-15")), "01-15", House(latitude=latitude))
    assert outcome(got) == REST


@pytest.mark.parametrize(
    "signs",
    [
        {"new_growths": EMERGING},
        {"new_growths": EXTENDING},
        {"new_growths": MATURING},
        {"root_tips": RootTips.STARTING},
        {"root_tips": RootTips.RUNNING},
    ],
)
def test_it_rests_only_if_nothing_moves(signs: dict[str, object]) -> None:
    got = judged(plant(UNFED, still("01-15", **signs)), "01-16")
    assert outcome(got) == FED


@pytest.mark.parametrize(
    ("kind", "on", "house", "ends"),
    [
        ("laelia-rupicolous", "2026-01-15", HOUSE, "2026-04-01"),
        ("laelia-rupicolous", "2026-03-31", HOUSE, "2026-04-01"),
        ("laelia-rupicolous", "2026-07-15", SOUTH, "2026-10-01"),
        ("dendrobium-nobile", "2026-01-15", HOUSE, "2026-03-01"),
        ("dendrobium-nobile", "2026-07-15", SOUTH, "2026-09-01"),
    ],
)
def test_the_calendar_knows_the_first_day_after_the_rest(
    kind: str, on: str, house: House, ends: str
) -> None:
    one = plant(kind)
    case = Case(one, kind_of(one), house, day(on))
    assert list(unfed_rest.last_days(case)) == [day(ends)]


def test_buds_do_not_end_the_cool_rest() -> None:
    got = judged(plant(UNFED, still("01-15", Flowering.BUDS)), "01-16")
    assert outcome(got) == REST
    assert len(bloom_told(got)) == 1


@pytest.mark.parametrize("kind", [UNFED, NOBILE])
@pytest.mark.parametrize("more", [{"size": Size.SEEDLING}, {"ignores_rest": True}])
def test_seedlings_and_plants_that_ignore_their_rest_take_none(
    kind: str, more: dict[str, Any]
) -> None:
    got = judged(plant(kind, moving("01-15"), **more), "01-16")
    assert outcome(got) == FED


@pytest.mark.parametrize("kind", [UNFED, NOBILE])
def test_other_sizes_do(kind: str) -> None:
    got = judged(plant(kind, still("01-15"), size=Size.NEAR_BLOOMING), "01-16")
    assert outcome(got) == REST


def test_a_reduced_rest_is_no_unfed_rest() -> None:
    """Winter water and feed follow the growth down; a lead on the move is fed."""
    assert outcome(judged(plant("cattleya", moving("01-15")), "01-16")) == FED


def test_what_nobody_looked_at_is_not_said_to_be_absent() -> None:
    got = judged(plant(UNFED, look("01-15", Flowering.NONE)), "01-16")
    assert outcome(got) == REST
    assert "no root tips showed" not in deciding(got)


def test_a_lead_that_stands_still_is_not_said_to_be_absent() -> None:
    signs = {"new_growths": EXTENDING, "lead_length_mm": 40.0}
    looks = (still("12-20", **signs), still("2027-01-12", **signs))
    got = judged(plant(UNFED, *looks), "2027-01-13")
    assert outcome(got) == REST
    assert "no new growth" not in deciding(got)


# -- no nitrogen -----


@pytest.mark.parametrize(
    ("on", "rests"),
    [
        ("09-14", False),
        ("09-15", True),
        ("11-15", True),
        ("01-15", True),
        ("02-28", True),
    ],
)
def test_nitrogen_stops_from_its_date_whatever_grows(on: str, rests: bool) -> None:
    got = judged(plant(NOBILE, moving("06-01"), moving(on)), on)
    assert (outcome(got) == DRINKS) is rests
    assert rests or outcome(got) == FED


def test_the_end_of_february_is_the_29th_in_a_leap_year() -> None:
    on = "2028-02-29"
    assert outcome(judged(plant(NOBILE, moving(on)), on)) == DRINKS
    assert outcome(judged(plant(NOBILE, moving("2028-03-01")), "2028-03-01")) == FED


@pytest.mark.parametrize(
    ("date_", "on", "rests"),
    [((9, 1), "09-01", True), ((10, 1), "09-30", False), ((10, 1), "10-01", True)],
)
def test_its_date_is_a_house_rule(date_: tuple[int, int], on: str, rests: bool) -> None:
    house = replace(HOUSE, no_nitrogen_from=date_)
    got = judged(plant(NOBILE, moving("06-01"), moving(on)), on, house)
    assert (outcome(got) == DRINKS) is rests


@pytest.mark.parametrize(
    ("on", "rests"), [("03-14", False), ("03-15", True), ("08-31", True)]
)
def test_no_nitrogen_turns_in_the_south(on: str, rests: bool) -> None:
    got = judged(plant(NOBILE, moving("2025-12-01"), moving(on)), on, SOUTH)
    assert (outcome(got) == DRINKS) is rests


def test_no_nitrogen_is_not_used_near_the_equator() -> None:
    assert outcome(judged(plant(NOBILE, moving("11-15")), "11-16", EQUATOR)) == FED


@pytest.mark.parametrize(
    ("growths", "tips", "back"),
    [
        (NOTHING, RootTips.NONE, False),
        (NOTHING, RootTips.RUNNING, False),
        (EMERGING, RootTips.RUNNING, False),
        (EXTENDING, RootTips.NONE, False),
        (EXTENDING, RootTips.HIDDEN, False),
        (EXTENDING, None, False),
        (EXTENDING, RootTips.STARTING, True),
        (EXTENDING, RootTips.RUNNING, True),
        (MATURING, RootTips.NONE, True),
    ],
)
def test_after_february_a_rooting_shoot_or_a_maturing_one_brings_feed_back(
    growths: NewGrowths, tips: RootTips | None, back: bool
) -> None:
    shown = look("04-10", new_growths=growths, root_tips=tips)
    got = judged(plant(NOBILE, shown), "04-12")
    assert (got.rule != "unfed-rest") is back
    assert (got.verdict == "feed") is back


def test_once_back_it_stays_back_until_autumn() -> None:
    looks = (moving("04-10"), still("06-20", root_tips=RootTips.RUNNING))
    assert outcome(judged(plant(NOBILE, *looks), "06-22")) == FED


@pytest.mark.parametrize("stage", [Flowering.BUDS, Flowering.OPEN])
@pytest.mark.parametrize("on", ["02-12", "03-20"])
def test_flower_buds_bring_water_back_not_nitrogen(on: str, stage: Flowering) -> None:
    got = judged(plant(NOBILE, still(on, stage)), on)
    assert (got.rule, got.verdict) == ("unfed-rest", "clear-water")
    assert got.water in ("if-dry", "through")
    assert "nitrogen is not" in deciding(got)
    assert len(bloom_told(got)) == 1


def test_buds_are_dated_by_the_day_they_were_first_seen() -> None:
    looks = (still("02-12", Flowering.BUDS), still("02-20", Flowering.BUDS))
    assert "12 February" in deciding(judged(plant(NOBILE, *looks), "02-22"))


def test_a_kind_whose_spike_draws_feed_by_house_rule_still_rests() -> None:
    house = replace(HOUSE, spike_draws_feed_always=True)
    got = judged(plant(NOBILE, still("02-12", Flowering.BUDS)), "02-12", house)
    assert got.rule == "unfed-rest"


def test_a_feed_on_record_is_not_denied() -> None:
    """The date is the rule's; what the grower gave since is on record."""
    one = plant(NOBILE, moving("10-20"), care=(fed("10-10", 150),))
    got = judged(one, "10-22")
    assert got.rule == "unfed-rest"
    assert "Nitrogen stopped on 15 September" not in deciding(got)


def test_a_new_leaf_is_no_shoot() -> None:
    shown = still("04-10", new_leaf=NewLeaf.EXTENDING)
    assert judged(plant(NOBILE, shown), "04-12").rule == "unfed-rest"


# -- no nitrogen: its water, hidden roots, trouble, and the kind's own months -----


@pytest.mark.parametrize(
    "signs",
    [
        {"new_growths": EMERGING},
        {"new_growths": EXTENDING},
        {"root_tips": RootTips.RUNNING},
        {"new_leaf": NewLeaf.EXTENDING},
    ],
)
@pytest.mark.parametrize(
    ("on", "house"),
    [("10-20", HOUSE), ("07-15", HOUSE), ("04-20", SOUTH), ("01-15", SOUTH)],
)
def test_what_moves_is_watered_in_and_out_of_the_hold(
    signs: dict[str, Any], on: str, house: House
) -> None:
    assert outcome(judged(plant(NOBILE, still(on, **signs)), on, house)) == DRINKS
    assert outcome(judged(plant(NOBILE, still(on)), on, house)) == REST


def test_an_old_look_brings_no_more_water_into_the_hold() -> None:
    one = plant(NOBILE, moving("11-01"))
    assert judged(one, "11-22").water == "if-dry"
    old = judged(one, "11-23")
    assert (old.verdict, old.water) == ("look-first", "sparing")
    summer = judged(plant(NOBILE, still("07-01", new_growths=EMERGING)), "07-30")
    assert (summer.verdict, summer.water) == ("look-first", "if-dry")


def hidden(on: str, growths: NewGrowths = EXTENDING) -> Look:
    return look(on, new_growths=growths, root_tips=RootTips.HIDDEN)


SHOOT = (hidden("05-20", EMERGING), hidden("06-10"), hidden("06-28"))


@pytest.mark.parametrize(("on", "fed_"), [("06-30", False), ("07-01", True)])
def test_hidden_roots_count_six_weeks_after_the_shoot_was_first_seen(
    on: str, fed_: bool
) -> None:
    got = judged(plant(NOBILE, *SHOOT), on)
    assert outcome(got) == (FED if fed_ else DRINKS)
    assert fed_ or deciding(got) == (
        "Clear water, if the pot is light. A new shoot was extending on 28 June, and "
        "its root tips are hidden. Feed waits until it has been on record for 42 days, "
        "on 1 July."
    )


def test_hidden_roots_count_in_the_south_too() -> None:
    looks = (
        hidden("2025-11-20", EMERGING),
        hidden("2025-12-10"),
        hidden("2025-12-28"),
    )
    one = plant(NOBILE, *looks)
    assert outcome(judged(one, "2025-12-31", SOUTH)) == DRINKS
    assert outcome(judged(one, "2026-01-01", SOUTH)) == FED


def test_a_look_that_found_no_shoot_begins_the_weeks_anew() -> None:
    broken = (SHOOT[0], hidden("06-05", NOTHING), *SHOOT[1:])
    assert outcome(judged(plant(NOBILE, *broken), "07-01")) == DRINKS
    unsaid = (SHOOT[0], look("06-05"), *SHOOT[1:])
    assert outcome(judged(plant(NOBILE, *unsaid), "07-01")) == FED


def test_a_shoot_of_last_year_does_not_count() -> None:
    looks = (hidden("2025-12-10"), hidden("2026-02-25"), hidden("2026-03-14"))
    assert outcome(judged(plant(NOBILE, *looks), "2026-03-15")) == DRINKS


def test_once_hidden_roots_count_feed_stays_back() -> None:
    later = look("07-10", new_growths=NOTHING, root_tips=RootTips.RUNNING)
    assert outcome(judged(plant(NOBILE, *SHOOT, later), "07-12")) == FED
    too_soon = look("06-30", new_growths=NOTHING, root_tips=RootTips.RUNNING)
    assert outcome(judged(plant(NOBILE, *SHOOT, too_soon), "07-12")) == DRINKS


def test_roots_not_recorded_stay_unfed_and_are_asked_for() -> None:
    looks = [look(k.on, new_growths=k.new_growths) for k in SHOOT]
    got = judged(plant(NOBILE, *looks), "07-15")
    assert outcome(got) == DRINKS
    assert "Look at the roots" in deciding(got)
    assert "has to wait" not in said(got)


@pytest.mark.parametrize(
    ("on", "rule"), [("02-20", "unfed-rest"), ("03-02", "cannot-drink")]
)
def test_badly_shrivelled_after_the_hold_is_told(on: str, rule: str) -> None:
    shown = still(on, bulbs=Bulbs.SHRIVELLED)
    assert judged(plant(NOBILE, shown), on).rule == rule


def test_once_budded_the_water_stays_while_the_flowers_fade() -> None:
    buds, fading = still("01-10", Flowering.BUDS), still("01-28", Flowering.FADING)
    got = judged(plant(NOBILE, buds, fading), "01-31")
    assert outcome(got) == DRINKS
    assert "10 January" in deciding(got)
    assert [t for t in bloom_told(got) if "bring the water" in t] == []
    spent = still("01-28", Flowering.SPENT)
    assert outcome(judged(plant(NOBILE, buds, spent), "01-31")) == REST
    assert outcome(judged(plant(NOBILE, fading), "01-31")) == REST


CALLISTA = "dendrobium-callista"  # September to March


@pytest.mark.parametrize(
    ("kind", "on", "house", "held"),
    [
        (NOBILE, "03-01", HOUSE, False),
        (CALLISTA, "03-31", HOUSE, True),
        (CALLISTA, "04-01", HOUSE, False),
        (CALLISTA, "09-30", SOUTH, True),
        (CALLISTA, "10-01", SOUTH, False),
        (CALLISTA, "04-09", replace(HOUSE, nitrogen_back_from=(4, 10)), True),
        (CALLISTA, "04-10", replace(HOUSE, nitrogen_back_from=(4, 10)), False),
    ],
)
def test_the_hold_ends_with_the_later_of_the_house_and_the_kind(
    kind: str, on: str, house: House, held: bool
) -> None:
    got = judged(plant(kind, moving(on)), on, house)
    assert outcome(got) == (DRINKS if held else FED)


@pytest.mark.parametrize(
    ("months", "until"),
    [((9, 10, 11), "28 February"), ((11, 12, 1, 2, 3, 4), "30 April")],
)
def test_a_corrected_month_moves_the_hold(months: tuple[int, ...], until: str) -> None:
    kind = replace(kind_of(plant(NOBILE)), rest_months=months)
    got = judge(plant(NOBILE, still("02-20")), kind, HOUSE, day("02-21"))
    assert f"to {until}" in deciding(got)
    april = judge(plant(NOBILE, moving("04-20")), kind, HOUSE, day("04-21"))
    assert outcome(april) == (DRINKS if 4 in months else FED)
