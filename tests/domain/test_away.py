"""What a helper gives: clear water or nothing, and never a choice."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest
from msgspec.structs import replace

from growdesk.domain.away import SPARE_DAYS, AwayPlant, away_plant
from growdesk.domain.facts import (
    Care,
    CareKind,
    Flowering,
    Health,
    House,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Overrule,
    Plant,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.judging import judge
from growdesk.services import kinds

LEAVES = date(2026, 6, 3)
DAYS = tuple(
    LEAVES + timedelta(days=number) for number in (0, 3, 7, 10, 14, 17, 21, 24)
)
HOUSE = House()
GROWING = Look(
    LEAVES - timedelta(days=2),
    new_growths=NewGrowths(extending=1),
    root_tips=RootTips.RUNNING,
    leaves=Leaves.FIRM,
    health=frozenset(),
)
PLANT = Plant("A1", "Cattleya", pot_volume_l=1.5, looks=(GROWING,))


def away(
    plant: Plant, kind: str = "cattleya", days: tuple[date, ...] = DAYS
) -> AwayPlant:
    return away_plant(plant, kinds.table().kinds[kind], HOUSE, days)


def test_what_would_be_fed_gets_clear_water() -> None:
    kind = kinds.table().kinds["cattleya"]
    assert judge(PLANT, kind, HOUSE, LEAVES).verdict is Verdict.FEED
    found = away(PLANT)
    assert found.given[0].on == LEAVES
    assert found.given[0].volume_l == pytest.approx(0.4)
    assert [each.on for each in found.given] == list(DAYS)


def test_a_look_in_date_when_leaving_stays_so() -> None:
    fresh_until = GROWING.on + timedelta(days=HOUSE.look_limit_days)
    assert DAYS[-1] > fresh_until
    assert DAYS[-1] in [each.on for each in away(PLANT).given]


def test_a_look_out_of_date_when_leaving_is_watered_seldom() -> None:
    old = replace(GROWING, on=LEAVES - timedelta(days=HOUSE.look_limit_days + 1))
    found = away(replace(PLANT, looks=(old,)))
    days = [each.on for each in found.given]
    assert days[0] == LEAVES
    gaps = [(after - before).days for before, after in pairwise(days)]
    assert gaps
    assert min(gaps) >= SPARE_DAYS


def test_a_flush_waits_and_one_watering_is_given() -> None:
    fed = tuple(
        Care(LEAVES - timedelta(days=days), CareKind.FEED, 150.0)
        for days in (28, 21, 14, 7)
    )
    plant = replace(PLANT, care=fed)
    kind = kinds.table().kinds["cattleya"]
    assert judge(plant, kind, HOUSE, LEAVES).verdict is Verdict.FLUSH
    assert away(plant).given[0].volume_l == pytest.approx(0.4)


def test_only_when_light_becomes_every_tenth_day() -> None:
    own = Overrule(
        Verdict.CLEAR_WATER, "mine", DAYS[-1], Water.IF_DRY, LEAVES - timedelta(days=1)
    )
    watered = Care(LEAVES - timedelta(days=4), CareKind.CLEAR_WATER)
    found = away(replace(PLANT, overrule=own, care=(watered,)))
    assert [each.on for each in found.given] == [DAYS[2], DAYS[5]]
    wet = Care(LEAVES - timedelta(days=4), CareKind.RAIN, rain_mm=0.5)
    rained = away(replace(PLANT, overrule=own, care=(watered, wet)))
    assert rained.given == found.given


def test_a_sparing_watering_is_half() -> None:
    own = Overrule(
        Verdict.CLEAR_WATER, "mine", DAYS[-1], Water.SPARING, LEAVES - timedelta(days=1)
    )
    found = away(replace(PLANT, overrule=own))
    assert {each.volume_l for each in found.given} == {0.2}


def test_what_rests_bare_stays_dry_and_is_named() -> None:
    bare = Look(
        date(2026, 1, 12),
        new_growths=NewGrowths(emerging=0, extending=0, maturing=0),
        root_tips=RootTips.NONE,
        new_leaf=NewLeaf.NONE,
        leaves=Leaves.LEAFLESS,
        health=frozenset(),
    )
    january = tuple(date(2026, 1, 14) + timedelta(days=days) for days in (0, 3, 7))
    plant = Plant("K7", "Catasetum", looks=(bare,))
    found = away(plant, "catasetum", january)
    assert found.given == ()
    assert found.bare_is_right
    cattleya = away(
        replace(
            PLANT,
            overrule=Overrule(Verdict.KEEP_DRY, "mine", DAYS[-1], Water.NONE, LEAVES),
        )
    )
    assert cattleya.given == ()
    assert not cattleya.bare_is_right


def test_buds_suspects_and_newcomers_are_told_apart() -> None:
    budding = replace(GROWING, flowering=frozenset({Flowering.BUDS}))
    found = away(replace(PLANT, looks=(budding,)))
    assert (found.in_bud, found.suspect, found.newcomer) == (True, False, False)
    ailing = replace(GROWING, health=frozenset({Health.PESTS}))
    found = away(replace(PLANT, looks=(ailing,), quarantine_until=LEAVES))
    assert (found.in_bud, found.suspect, found.newcomer) == (False, True, True)
