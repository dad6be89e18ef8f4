"""What a fresh look at the bench would decide, by the judging itself."""

from __future__ import annotations

from datetime import date

from msgspec.structs import replace

from growdesk.domain.facts import (
    Care,
    CareKind,
    Health,
    House,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Plant,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.judging import judge
from growdesk.domain.recheck import recheck
from growdesk.services import kinds

ON = date(2026, 5, 13)
HOUSE = House(latitude=48.2)
KINDS = kinds.table().kinds
OLD = Look(
    on=date(2026, 4, 1),
    new_growths=NewGrowths(emerging=0, extending=2, maturing=1, matured=1),
    root_tips=RootTips.RUNNING,
    leaves=Leaves.FIRM,
    health=frozenset(),
)
STALE = Plant(tag="C3", kind="cattleya", pot_volume_l=1.0, looks=(OLD,))


def test_the_plant_itself_is_to_be_looked_at() -> None:
    verdict = judge(STALE, KINDS["cattleya"], HOUSE, ON).verdict
    assert verdict is Verdict.LOOK_FIRST


def test_a_sign_brings_it_on_feed_and_nothing_gives_clear_water() -> None:
    seen = recheck(STALE, KINDS["cattleya"], HOUSE, ON)
    assert (seen.nothing.verdict, seen.nothing.water) == (
        Verdict.CLEAR_WATER,
        Water.IF_DRY,
    )
    assert seen.tip.verdict is seen.growth.verdict is Verdict.FEED
    assert seen.both.verdict is Verdict.FEED
    assert not seen.by_leaf


def test_a_growth_without_root_tips_is_weaker() -> None:
    seen = recheck(STALE, KINDS["cattleya"], HOUSE, ON)
    assert seen.growth.strength_ppm_n is not None
    assert seen.both.strength_ppm_n is not None
    assert seen.growth.strength_ppm_n < seen.both.strength_ppm_n


def test_a_monopodial_shows_a_new_leaf() -> None:
    plant = replace(STALE, kind="phalaenopsis", looks=())
    seen = recheck(plant, KINDS["phalaenopsis"], HOUSE, ON)
    assert seen.by_leaf
    assert seen.growth.verdict is Verdict.FEED
    leafy = replace(OLD, new_leaf=NewLeaf.EXTENDING)
    still = recheck(replace(plant, looks=(leafy,)), KINDS["phalaenopsis"], HOUSE, ON)
    assert still.nothing.verdict is not Verdict.LOOK_FIRST
    assert still.nothing.verdict is Verdict.CLEAR_WATER


def test_what_holds_beside_growth_still_holds() -> None:
    rotten = replace(OLD, health=frozenset({Health.ROT}))
    seen = recheck(replace(STALE, looks=(rotten,)), KINDS["cattleya"], HOUSE, ON)
    assert {seen.nothing.verdict, seen.tip.verdict, seen.both.verdict} == {
        Verdict.KEEP_DRY
    }
    fed = replace(STALE, care=(Care(date(2026, 5, 10), CareKind.FEED, 100.0),))
    soon = recheck(fed, KINDS["cattleya"], HOUSE, ON)
    assert soon.both.verdict is Verdict.CLEAR_WATER


def test_an_empty_look_is_completed_by_what_is_seen() -> None:
    bare = replace(STALE, looks=(Look(on=date(2026, 4, 1)),))
    seen = recheck(bare, KINDS["cattleya"], HOUSE, ON)
    told = [
        each.reasons[0].key for each in (seen.nothing, seen.tip, seen.growth, seen.both)
    ]
    assert told == [
        "still-no-growth-no-tips",
        "tips-starting",
        "growth-emerging",
        "growth-extending",
    ]


def test_later_looks_are_not_the_last_one() -> None:
    later = replace(OLD, on=date(2026, 6, 1), health=frozenset({Health.ROT}))
    seen = recheck(replace(STALE, looks=(OLD, later)), KINDS["cattleya"], HOUSE, ON)
    assert seen.tip.verdict is Verdict.FEED
