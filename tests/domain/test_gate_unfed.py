"""The unfed rests: cooler, drier, unfed; and no nitrogen.

Published beside the checks: feed carried to 1 November delays bloom of a soft-cane
dendrobium (Bichsel, Starman & Wang 2008), stopping on 1 October flowered best in
another (Yen 2008): the date is disputed and a house rule. Months turn in the south
(R. Hutton, Orchid Council of New Zealand).
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from growdesk.domain.facts import (
    Flowering,
    House,
    NewGrowths,
    NewLeaf,
    RootTips,
    Size,
)
from tests.domain.builders import (
    EMERGING,
    EQUATOR,
    EXTENDING,
    HOUSE,
    MATURING,
    NOTHING,
    SOUTH,
    bloom_told,
    deciding,
    fed,
    judged,
    look,
    moving,
    outcome,
    plant,
    still,
)

REST = ("unfed-rest", "clear-water", "sparing")
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
    assert (outcome(got) == REST) is rests
    assert rests or outcome(got) == FED


def test_the_end_of_february_is_the_29th_in_a_leap_year() -> None:
    on = "2028-02-29"
    assert outcome(judged(plant(NOBILE, moving(on)), on)) == REST
    assert outcome(judged(plant(NOBILE, moving("2028-03-01")), "2028-03-01")) == FED


@pytest.mark.parametrize(
    ("date_", "on", "rests"),
    [((9, 1), "09-01", True), ((10, 1), "09-30", False), ((10, 1), "10-01", True)],
)
def test_its_date_is_a_house_rule(date_: tuple[int, int], on: str, rests: bool) -> None:
    house = replace(HOUSE, no_nitrogen_from=date_)
    got = judged(plant(NOBILE, moving("06-01"), moving(on)), on, house)
    assert (outcome(got) == REST) is rests


@pytest.mark.parametrize(
    ("on", "rests"), [("03-14", False), ("03-15", True), ("08-31", True)]
)
def test_no_nitrogen_turns_in_the_south(on: str, rests: bool) -> None:
    got = judged(plant(NOBILE, moving("2025-12-01"), moving(on)), on, SOUTH)
    assert (outcome(got) == REST) is rests


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
