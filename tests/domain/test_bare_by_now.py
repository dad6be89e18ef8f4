"""A plant that rests bare, last seen before its rest: it may stand bare by now.

Water on a bare bulb rots it (Orchids, AOS, March 2012); an old look never releases.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import (
    Bulbs,
    House,
    Leaves,
    Look,
    NewLeaf,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.recheck import recheck
from growdesk.domain.worth_looking import worth_looking
from growdesk.domain.worth_words import why
from tests.domain.builders import (
    EMERGING,
    EQUATOR,
    EXTENDING,
    HOUSE,
    SOUTH,
    day,
    judged,
    kind_of,
    look,
    moving,
    outcome,
    plant,
    said,
    still,
)

DRY = ("look-out-of-date", "look-first", "none")
LIGHT = ("look-out-of-date", "look-first", "if-dry")
DECIDUOUS = ("catasetum", "lycaste", "pleione", "calanthe", "anguloa")


def leafy(on: str, **signs: object) -> Look:
    """Give a plant in full leaf, growing, with long roots."""
    return moving(on, leaves=Leaves.FIRM, longest_new_root_mm=150, **signs)


@pytest.mark.parametrize("kind", DECIDUOUS)
@pytest.mark.parametrize(
    ("seen", "on", "house"),
    [
        ("2025-08-20", "2026-01-15", HOUSE),
        ("2025-10-20", "2026-04-15", HOUSE),
        ("2025-08-20", "2026-05-10", HOUSE),
        ("2026-02-20", "2026-07-15", SOUTH),
        ("2026-04-20", "2026-10-15", SOUTH),
        ("2026-01-10", "2026-05-11", EQUATOR),
    ],
)
def test_a_leaf_of_before_the_rest_waters_nothing(
    kind: str, seen: str, on: str, house: House
) -> None:
    got = judged(plant(kind, leafy(seen)), on, house)
    assert outcome(got) == DRY
    assert "may stand bare" in said(got)
    assert "would be fed" not in said(got)


@pytest.mark.parametrize(
    ("seen", "on", "house", "found"),
    [
        # catasetums rest from November, from May in the south
        ("2025-10-05", "2025-10-31", HOUSE, LIGHT),
        ("2025-10-05", "2025-11-01", HOUSE, DRY),
        ("2026-04-05", "2026-04-30", SOUTH, LIGHT),
        ("2026-04-05", "2026-05-01", SOUTH, DRY),
        ("2026-06-22", "2026-07-20", HOUSE, LIGHT),
        ("2026-01-10", "2026-05-10", EQUATOR, LIGHT),
        ("2026-01-10", "2026-05-11", EQUATOR, DRY),
    ],
)
def test_the_rest_has_to_lie_between(
    seen: str, on: str, house: House, found: tuple[str, str, str]
) -> None:
    assert outcome(judged(plant("catasetum", leafy(seen)), on, house)) == found


@pytest.mark.parametrize(
    ("seen", "on", "found"),
    [("2025-12-20", "2026-01-12", DRY), ("2025-12-21", "2026-01-12", LIGHT)],
)
def test_midwinter_lies_between_where_the_rest_began_before(
    seen: str, on: str, found: tuple[str, str, str]
) -> None:
    """A lycaste in leaf: its rest months begin in November."""
    assert outcome(judged(plant("lycaste", leafy(seen)), on)) == found


def test_long_roots_of_last_spring_water_nothing_either() -> None:
    rooted = look(
        "2026-04-10",
        leaves=Leaves.LEAFLESS,
        new_growths=EMERGING,
        root_tips=RootTips.RUNNING,
        longest_new_root_mm=90,
    )
    one = plant("catasetum", rooted)
    assert judged(one, "2026-04-20").verdict == "feed"
    assert outcome(judged(one, "2026-05-10")) == LIGHT
    assert outcome(judged(one, "2027-01-15")) == DRY


def test_kinds_that_keep_their_leaves_are_watered_if_light() -> None:
    for kind in ("cattleya", "phalaenopsis"):
        assert outcome(judged(plant(kind, leafy("2025-08-20")), "2026-01-15")) == LIGHT


# -- at the bench -----


@pytest.mark.parametrize(
    ("on", "house"),
    [
        ("2025-11-20", HOUSE),
        ("2026-01-15", HOUSE),
        ("2026-05-10", HOUSE),
        ("2026-05-10", SOUTH),
        ("2026-05-10", EQUATOR),
    ],
)
def test_no_leaf_and_no_root_is_taken_from_the_old_look(on: str, house: House) -> None:
    seen = "2026-01-05" if house is SOUTH else "2025-08-20"
    one = plant("catasetum", leafy(seen, new_leaf=NewLeaf.FULL))
    bench = recheck(one, kind_of(one), house, day(on))
    for shown in (bench.nothing, bench.tip, bench.growth, bench.both):
        assert (shown.verdict, shown.water) == (Verdict.KEEP_DRY, Water.NONE)
    assert bench.rooted is not None
    assert bench.rooted.verdict is Verdict.FEED
    assert bench.rooted_mm == 80.0
    lycaste = plant("lycaste", leafy(seen))
    bench = recheck(lycaste, kind_of(lycaste), house, day(on))
    assert bench.nothing.verdict is Verdict.KEEP_DRY
    assert bench.both.water is Water.SPARING
    assert bench.rooted is None


def test_before_its_rest_the_leaf_still_stands_at_the_bench() -> None:
    one = plant("catasetum", leafy("2026-07-05"))
    bench = recheck(one, kind_of(one), HOUSE, day("2026-08-10"))
    assert bench.tip.verdict is Verdict.FEED


# -- last season's roots -----


@pytest.mark.parametrize(
    ("summer", "spring", "house"),
    [
        ("2025-08-20", "2026-03-12", HOUSE),
        ("2026-02-20", "2026-09-12", SOUTH),
        ("2026-03-01", "2026-09-12", EQUATOR),
    ],
)
def test_roots_of_last_season_do_not_feed_a_plant_that_kept_a_leaf(
    summer: str, spring: str, house: House
) -> None:
    kept = still(spring, leaves=Leaves.FIRM, new_growths=EMERGING)
    one = plant("catasetum", leafy(summer), kept)
    got = judged(one, spring, house)
    assert (got.rule, got.verdict) == ("leafless-rest", "keep-dry")
    assert "15 cm" not in said(got)
    anew = replace(kept, longest_new_root_mm=80.0)
    fed = judged(plant("catasetum", leafy(summer), anew), spring, house)
    assert fed.verdict == "feed"
    running = replace(kept, root_tips=RootTips.RUNNING)
    assert judged(plant("catasetum", running), spring, house).verdict == "feed"


@pytest.mark.parametrize(("seen", "rule"), [("03-13", "growing"), ("03-12", "leaf")])
def test_near_the_equator_roots_count_for_180_days(seen: str, rule: str) -> None:
    kept = still("2026-09-09", leaves=Leaves.FIRM, new_growths=EMERGING)
    got = judged(plant("catasetum", leafy(f"2026-{seen}"), kept), "2026-09-09", EQUATOR)
    assert got.rule.startswith(rule)


def test_a_leaf_seen_days_before_a_hasty_look_is_of_the_same_season() -> None:
    hasty = look("2025-11-05", new_growths=EXTENDING, root_tips=RootTips.RUNNING)
    one = plant("catasetum", leafy("2025-10-25"), hasty)
    assert judged(one, "2025-11-06").verdict == "feed"
    late = replace(hasty, on=day("2025-11-25"))
    got = judged(plant("catasetum", leafy("2025-10-25"), late), "2025-11-26")
    assert (got.rule, got.verdict) == ("leafless-rest", "keep-dry")


# -- what a look is worth -----


@pytest.mark.parametrize(
    ("seen", "on", "house"),
    [
        ("2025-08-20", "2026-01-15", HOUSE),
        ("2025-08-20", "2026-05-10", HOUSE),
        ("2026-02-20", "2026-11-10", SOUTH),
    ],
)
def test_a_plant_that_may_stand_bare_is_looked_at_early(
    seen: str, on: str, house: House
) -> None:
    for kind in ("catasetum", "lycaste"):
        one = plant(kind, leafy(seen))
        found = worth_looking(one, kind_of(one), house, day(on))
        assert found.likelihood == pytest.approx(2 / 3)
        assert "it may stand bare by now" in why(found, day(on))


def test_a_bare_plant_that_is_kept_dry_goes_by_its_own_signs() -> None:
    one = plant("catasetum", still("2025-11-20", leaves=Leaves.LEAFLESS))
    found = worth_looking(one, kind_of(one), HOUSE, day("2026-03-15"))
    assert found.key == "roots-bare"
    assert found.verdict is Verdict.KEEP_DRY


def test_nothing_to_weigh_is_no_certainty() -> None:
    """Where no sign may have come to what is done, all must still stand."""
    signs = {"new_leaf": NewLeaf.EXTENDING, "bulbs": Bulbs.SHRIVELLED, "health": []}
    one = plant("vanda", look("05-01", root_tips=RootTips.RUNNING, **signs))
    assert outcome(judged(one, "07-01")) == LIGHT
    found = worth_looking(one, kind_of(one), HOUSE, day("07-01"))
    assert found.key == "looked-long-ago"
    shrivelled, leaf, tips = 2 ** (-61 / 21), 2 ** (-61 / 36.75), 2 ** (-61 / 28)
    assert found.likelihood == pytest.approx(shrivelled * leaf * tips)
