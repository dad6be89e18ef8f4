"""Going down and still green: the end of the season of kinds that rest bare."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import House, Leaves, NewGrowths, NewLeaf, RootTips
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    HOUSE,
    MATURING,
    NOTHING,
    SOUTH,
    judged,
    look,
    outcome,
    plant,
    said,
    still,
)

DOWN = ("going-down", "clear-water", "sparing")
GREEN = ("still-green", "keep-dry", "none")


def going(on: str, leaves: Leaves, growths: NewGrowths | None = NOTHING) -> object:
    return look(on, leaves=leaves, new_growths=growths, root_tips=RootTips.NONE)


@pytest.mark.parametrize("leaves", [Leaves.YELLOWING, Leaves.DROPPING])
@pytest.mark.parametrize("growths", [NOTHING, MATURING])
@pytest.mark.parametrize("kind", ["catasetum", "lycaste", "calanthe", "pleione"])
def test_yellowing_on_a_finished_growth_is_going_down(
    kind: str, growths: NewGrowths, leaves: Leaves
) -> None:
    shown = still("11-05", leaves=leaves, new_growths=growths)
    assert outcome(judged(plant(kind, shown), "11-08")) == DOWN


@pytest.mark.parametrize(
    ("on", "down"),
    [
        ("06-18", False),
        ("06-23", True),
        ("09-01", True),
        ("12-10", True),
        ("03-15", True),
        ("03-25", False),
        ("05-01", False),
    ],
)
def test_only_from_midsummer_to_the_spring_equinox(on: str, down: bool) -> None:
    one = plant("lycaste", still(on, leaves=Leaves.YELLOWING))
    assert (outcome(judged(one, on)) == DOWN) is down


def test_the_seasons_turn_in_the_south() -> None:
    one = plant("lycaste", still("05-05", leaves=Leaves.YELLOWING))
    assert outcome(judged(one, "05-08", SOUTH)) == DOWN
    assert judged(one, "05-08").rule != "going-down"


@pytest.mark.parametrize("leaves", [Leaves.FIRM, Leaves.SHRIVELLED, None])
def test_other_leaves_do_not_go_down(leaves: Leaves | None) -> None:
    one = plant("lycaste", still("11-05", leaves=leaves))
    assert judged(one, "11-08").rule != "going-down"


@pytest.mark.parametrize("growths", [EXTENDING, EMERGING, NewGrowths(0, 1, 1, 2)])
@pytest.mark.parametrize(
    ("on", "house"), [("07-15", HOUSE), ("11-08", HOUSE), ("01-15", SOUTH)]
)
def test_a_growth_still_on_its_way_is_not_going_down(
    on: str, house: House, growths: NewGrowths
) -> None:
    """An old bulb always counts as matured; a leaf or two may yellow any time."""
    shown = look(on, leaves=Leaves.DROPPING, new_growths=growths)
    for kind in ("catasetum", "lycaste"):
        assert judged(plant(kind, shown), on, house).rule != "going-down"


def test_root_tips_may_run_while_it_goes_down() -> None:
    signs = {"new_growths": MATURING, "root_tips": RootTips.RUNNING}
    one = plant("catasetum", look("11-05", leaves=Leaves.YELLOWING, **signs))
    assert outcome(judged(one, "11-08")) == DOWN


def test_kinds_that_keep_their_leaves_do_not_go_down() -> None:
    one = plant("cattleya", still("11-05", leaves=Leaves.YELLOWING))
    assert judged(one, "11-08").rule == "not-growing"


def test_going_down_beats_still_green() -> None:
    one = plant("catasetum", still("2025-12-28", leaves=Leaves.YELLOWING))
    assert outcome(judged(one, "2025-12-29")) == DOWN


@pytest.mark.parametrize(
    ("on", "green"),
    [
        ("2025-12-19", False),
        ("2025-12-20", False),
        ("2025-12-21", True),
        ("01-20", True),
        ("03-10", True),
        ("03-25", False),
    ],
)
def test_still_green_after_the_twentieth_of_december(on: str, green: bool) -> None:
    one = plant("catasetum", still(on, leaves=Leaves.FIRM))
    assert (outcome(judged(one, on)) == GREEN) is green


@pytest.mark.parametrize(("on", "green"), [("06-20", False), ("06-21", True)])
def test_the_twentieth_of_june_in_the_south(on: str, green: bool) -> None:
    one = plant("catasetum", still(on, leaves=Leaves.FIRM))
    assert (outcome(judged(one, on, SOUTH)) == GREEN) is green


def test_the_latest_date_is_a_house_rule() -> None:
    house = replace(HOUSE, still_green_after=(11, 30))
    one = plant("catasetum", still("12-05", leaves=Leaves.FIRM))
    assert outcome(judged(one, "12-05", house)) == GREEN


def test_latitude_nought_counts_as_north_but_months_say_nothing_there() -> None:
    one = plant("catasetum", still("01-20", leaves=Leaves.FIRM))
    assert judged(one, "01-20", House(latitude=0)).rule != "still-green"


@pytest.mark.parametrize(
    "moving",
    [
        {"new_growths": EMERGING},
        {"new_growths": NewGrowths(0, 1, 0, 0)},
        {"new_growths": EMERGING, "root_tips": RootTips.RUNNING},
        {"new_leaf": NewLeaf.EXTENDING},
    ],
)
def test_a_new_growth_or_leaf_keeps_it_silent(moving: dict[str, object]) -> None:
    one = plant("catasetum", still("01-20", leaves=Leaves.FIRM, **moving))
    assert judged(one, "01-22").rule != "still-green"


def test_a_growth_only_maturing_is_nothing_new() -> None:
    one = plant("catasetum", still("01-20", leaves=Leaves.FIRM, new_growths=MATURING))
    got = judged(one, "01-22")
    assert outcome(got) == GREEN
    assert "its growth maturing and no new one" in said(got)
    assert "nothing new" not in said(got)
    assert "has to wait" not in said(got)


@pytest.mark.parametrize("tips", [RootTips.STARTING, RootTips.RUNNING])
@pytest.mark.parametrize("growths", [NOTHING, MATURING, None])
@pytest.mark.parametrize(
    ("on", "house"), [("2025-12-28", HOUSE), ("2026-06-28", SOUTH)]
)
def test_old_roots_that_run_on_do_not_keep_it_growing(
    on: str, house: House, growths: NewGrowths | None, tips: RootTips
) -> None:
    shown = look(on, leaves=Leaves.FIRM, new_growths=growths, root_tips=tips)
    got = judged(plant("catasetum", shown), on, house)
    assert outcome(got) == GREEN
    told = (
        "root tips moved and no new growth showed"
        if growths is MATURING
        else "root tips on the move but no new growth"
    )
    assert told in said(got)
    assert judged(plant("lycaste", shown), on, house).verdict == "feed"


@pytest.mark.parametrize("kind", ["lycaste", "calanthe", "cattleya"])
def test_only_the_catasetum_group_is_told_to_stop_while_green(kind: str) -> None:
    one = plant(kind, still("01-20", leaves=Leaves.FIRM))
    assert judged(one, "01-22").rule != "still-green"
