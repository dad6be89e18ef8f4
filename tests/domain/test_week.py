"""The week walked forward: what Wednesday gives decides Saturday."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import (
    Care,
    CareKind,
    Flowering,
    House,
    Leaves,
    Look,
    NewGrowths,
    Plant,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.week import Settled, walk
from growdesk.services import kinds

WEDNESDAY = date(2026, 5, 13)
SATURDAY = date(2026, 5, 16)
NEXT_WEDNESDAY = date(2026, 5, 20)
HOUSE = House(latitude=48.2)
CATTLEYA = kinds.table().kinds["cattleya"]
CATASETUM = kinds.table().kinds["catasetum"]

GROWING = Plant(
    tag="C3",
    name="Cattleya Old Whitey",
    kind="cattleya",
    pot_volume_l=1.0,
    looks=(
        Look(
            on=date(2026, 5, 10),
            new_growths=NewGrowths(emerging=0, extending=1, maturing=0),
            root_tips=RootTips.RUNNING,
            flowering=frozenset({Flowering.NONE}),
        ),
    ),
)
IDLE = replace(
    GROWING,
    tag="C9",
    looks=(
        Look(
            on=date(2026, 5, 10),
            new_growths=NewGrowths(emerging=0, extending=0, maturing=0),
            root_tips=RootTips.NONE,
        ),
    ),
)


def _walk(
    *plants: Plant, days: tuple[date, ...], **more: object
) -> list[list[Verdict]]:
    rounds = walk(plants, [CATTLEYA] * len(plants), HOUSE, days, **more)  # type: ignore[arg-type]
    return [[judgement.verdict for judgement in judged] for judged in rounds]


def test_fed_on_wednesday_gets_clear_water_on_saturday_because_of_wednesday() -> None:
    rounds = walk([GROWING], [CATTLEYA], HOUSE, [WEDNESDAY, SATURDAY])
    assert rounds[0][0].verdict is Verdict.FEED
    saturday = rounds[1][0]
    assert (saturday.verdict, saturday.water) == (Verdict.CLEAR_WATER, Water.IF_DRY)
    assert WEDNESDAY in saturday.reasons[0].values.values()


def test_saturday_alone_is_fed() -> None:
    assert _walk(GROWING, days=(SATURDAY,)) == [[Verdict.FEED]]


def test_a_week_later_it_is_fed_again() -> None:
    days = (WEDNESDAY, SATURDAY, NEXT_WEDNESDAY)
    assert [verdicts[0] for verdicts in _walk(GROWING, days=days)] == [
        Verdict.FEED,
        Verdict.CLEAR_WATER,
        Verdict.FEED,
    ]


def test_the_third_feed_makes_the_next_a_flush_and_the_flush_frees_the_feed() -> None:
    fed = tuple(
        Care(WEDNESDAY - timedelta(days=7 * back), CareKind.FEED, 100.0)
        for back in (2, 1)
    )
    days = tuple(WEDNESDAY + timedelta(days=7 * ahead) for ahead in range(3))
    look = replace(GROWING.looks[0], on=WEDNESDAY)
    plant = replace(GROWING, looks=(look,), care=fed)
    assert _walk(plant, days=days) == [
        [Verdict.FEED],
        [Verdict.FLUSH],
        [Verdict.FEED],
    ]


def test_a_look_grows_old_over_the_days() -> None:
    limit = GROWING.looks[0].on + timedelta(days=HOUSE.look_limit_days)
    days = (limit, limit + timedelta(days=1))
    assert [verdicts[0] for verdicts in _walk(IDLE, days=days)] == [
        Verdict.CLEAR_WATER,
        Verdict.LOOK_FIRST,
    ]


def test_what_the_record_says_of_the_day_stands_over_the_plan() -> None:
    given = Care(WEDNESDAY, CareKind.CLEAR_WATER)
    plant = replace(GROWING, care=(given,))
    assert _walk(plant, days=(WEDNESDAY, SATURDAY)) == [[Verdict.FEED], [Verdict.FEED]]


def test_a_plant_passed_by_is_not_taken_as_fed() -> None:
    settled = Settled(passed_by={("C3", WEDNESDAY)})
    verdicts = _walk(GROWING, days=(WEDNESDAY, SATURDAY), settled=settled)
    assert verdicts == [[Verdict.FEED], [Verdict.FEED]]


def test_a_day_that_goes_by_the_record_adds_nothing() -> None:
    settled = Settled(by_record={WEDNESDAY})
    verdicts = _walk(GROWING, days=(WEDNESDAY, SATURDAY), settled=settled)
    assert verdicts == [[Verdict.FEED], [Verdict.FEED]]


def test_the_jugs_strength_is_what_is_taken_as_given() -> None:
    runoff = replace(GROWING.looks[0], on=SATURDAY, runoff_ec_ms_per_cm=0.6)
    plant = replace(GROWING, looks=(*GROWING.looks, runoff), feed_interval_days=2)
    strong = walk([plant], [CATTLEYA], HOUSE, [WEDNESDAY, SATURDAY])
    weak = walk(
        [plant],
        [CATTLEYA],
        HOUSE,
        [WEDNESDAY, SATURDAY],
        served=lambda judged: [10.0 for _ in judged],
    )
    assert strong[1][0].verdict is Verdict.FEED
    assert weak[1][0].verdict is Verdict.FLUSH


def test_keep_dry_and_the_plants_handed_in_are_left_alone() -> None:
    bare = Plant(
        tag="K7",
        kind="catasetum",
        looks=(
            Look(
                on=date(2026, 5, 10),
                leaves=Leaves.LEAFLESS,
                longest_new_root_mm=40.0,
                new_growths=NewGrowths(emerging=1),
            ),
        ),
    )
    plants = (bare, GROWING)
    rounds = walk(plants, [CATASETUM, CATTLEYA], HOUSE, [WEDNESDAY, SATURDAY])
    assert [judged[0].verdict for judged in rounds] == [Verdict.KEEP_DRY] * 2
    assert plants[1].care == ()


def test_days_are_walked_in_their_order_whatever_order_they_come_in() -> None:
    forward = walk([GROWING, IDLE], [CATTLEYA] * 2, HOUSE, [WEDNESDAY, SATURDAY])
    backward = walk([GROWING, IDLE], [CATTLEYA] * 2, HOUSE, [SATURDAY, WEDNESDAY])
    assert forward == backward


def test_kinds_must_stand_beside_the_plants() -> None:
    with pytest.raises(ValueError, match="shorter"):
        walk([GROWING, IDLE], [CATTLEYA], HOUSE, [WEDNESDAY])
