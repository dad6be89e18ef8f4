"""The leafless rest: design section 3, its row of the gates table, clause by clause.

Published beside the checks: new roots of 3-5 in (8-12 cm) before water for the
Catasetum group (Orchids, AOS, March 2012); Lycaste is watered again with new growth.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import (
    CareKind,
    Flowering,
    House,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    RootTips,
)
from growdesk.services import kinds
from tests.domain.builders import (
    EMERGING,
    EQUATOR,
    EXTENDING,
    HOUSE,
    MATURING,
    SOUTH,
    bloom_told,
    deciding,
    did,
    judged,
    look,
    outcome,
    plant,
    said,
    still,
)

HELD = ("leafless-rest", "keep-dry", "none")
WAKING = ("leafless-rest", "clear-water", "sparing")
RUNNING, STARTING = RootTips.RUNNING, RootTips.STARTING
DECIDUOUS = ("lycaste", "anguloa", "calanthe", "pleione", "habenaria", "chysis")


def bare(on: str, *flowering: Flowering, **signs: object) -> Look:
    shown = {"new_growths": EMERGING, "root_tips": RUNNING, **signs}
    return look(on, *flowering, leaves=Leaves.LEAFLESS, **shown)


def in_leaf(on: str, *flowering: Flowering, **signs: object) -> Look:
    shown = {"new_growths": EXTENDING, "root_tips": RUNNING, **signs}
    return look(on, *flowering, leaves=Leaves.FIRM, **shown)


# -- the Catasetum group -----


@pytest.mark.parametrize(
    "name", ["Catasetum", "Cycnoches", "Mormodes", "Clowesia", "Fredclarkeara"]
)
def test_the_group_and_its_hybrids_wait_for_long_roots(name: str) -> None:
    assert kinds.table().find(name) is kinds.table().kinds["catasetum"]
    one = plant(name, bare("04-05", longest_new_root_mm=40))
    assert outcome(judged(one, "04-08")) == HELD


@pytest.mark.parametrize(("mm", "held"), [(40, True), (79, True), (80, False)])
def test_eighty_millimetres_of_new_root_bring_water_back(mm: int, held: bool) -> None:
    """Trade range 8-12 cm; the limit is inclusive."""
    one = plant("catasetum", bare("04-05", longest_new_root_mm=mm))
    got = outcome(judged(one, "04-08"))
    assert (got == HELD) is held
    assert held or got == ("growing", "feed", "through")


@pytest.mark.parametrize(("rule_mm", "held"), [(120.0, True), (60.0, False)])
def test_the_resume_length_is_a_house_rule(rule_mm: float, held: bool) -> None:
    house = replace(HOUSE, resume_root_mm=rule_mm)
    one = plant("catasetum", bare("04-05", longest_new_root_mm=100))
    assert (outcome(judged(one, "04-08", house)) == HELD) is held


@pytest.mark.parametrize("stage", [Flowering.BUDS, Flowering.OPEN, Flowering.FADING])
def test_leafless_and_in_bloom_stays_dry(stage: Flowering) -> None:
    """Arguable in the trade; common practice, no source."""
    one = plant("catasetum", bare("02-05", stage, longest_new_root_mm=5))
    got = judged(one, "02-08")
    assert outcome(got) == HELD
    assert len(bloom_told(got)) == 1


@pytest.mark.parametrize("growths", [EMERGING, EXTENDING, MATURING])
def test_new_growth_but_roots_too_short_stays_dry(growths: NewGrowths) -> None:
    """Arguable in the trade; common practice, no source."""
    one = plant("catasetum", bare("04-05", new_growths=growths, longest_new_root_mm=40))
    got = judged(one, "04-08")
    assert outcome(got) == HELD
    assert "4 cm" in deciding(got)
    assert "8 cm" in deciding(got)
    assert any(reason.rule == "growing" for reason in got.reasons)


def test_length_not_recorded_and_no_leaf_out_asks_for_a_measure() -> None:
    got = judged(plant("catasetum", bare("04-05")), "04-08")
    assert outcome(got) == HELD
    assert "measure" in deciding(got).lower()


@pytest.mark.parametrize("tips", [None, RootTips.HIDDEN])
def test_bare_with_nothing_known_of_its_roots_asks_too(tips: RootTips | None) -> None:
    one = plant("catasetum", look("04-05", leaves=Leaves.LEAFLESS, root_tips=tips))
    got = judged(one, "04-08")
    assert outcome(got) == HELD
    assert any(word in said(got).lower() for word in ("measure", "look at the roots"))


def test_bare_and_nothing_moving_is_kept_dry() -> None:
    one = plant("catasetum", still("01-05", leaves=Leaves.LEAFLESS))
    assert outcome(judged(one, "01-08")) == HELD


def test_a_leaf_out_and_roots_running_without_a_length_is_silent() -> None:
    one = plant("catasetum", in_leaf("05-05"))
    assert outcome(judged(one, "05-08")) == ("growing", "feed", "through")


@pytest.mark.parametrize("leaf", [NewLeaf.EXTENDING, NewLeaf.FULL])
def test_a_new_leaf_unfolding_is_a_leaf_out(leaf: NewLeaf) -> None:
    signs = {"new_growths": EXTENDING, "root_tips": RUNNING}
    one = plant("catasetum", look("05-05", new_leaf=leaf, **signs))
    assert judged(one, "05-08").rule == "growing"


@pytest.mark.parametrize("leaf", [NewLeaf.NONE, NewLeaf.STARTING, None])
def test_a_leaf_only_starting_is_no_leaf_out(leaf: NewLeaf | None) -> None:
    one = plant("catasetum", bare("05-05", new_leaf=leaf))
    assert outcome(judged(one, "05-08")) == HELD


@pytest.mark.parametrize("tips", [RootTips.NONE, STARTING])
def test_a_leaf_out_before_its_roots_run_is_not_fed(tips: RootTips) -> None:
    one = plant("catasetum", in_leaf("05-05", root_tips=tips))
    assert judged(one, "05-08").verdict != "feed"


@pytest.mark.parametrize(
    ("seen", "on", "held"),
    [
        ("05-05", "05-08", True),
        ("06-18", "06-20", True),
        ("06-22", "06-23", False),
        ("08-05", "08-08", False),
    ],
)
def test_a_short_length_holds_though_in_leaf_until_midsummer(
    seen: str, on: str, held: bool
) -> None:
    one = plant("catasetum", in_leaf(seen, longest_new_root_mm=60))
    assert (outcome(judged(one, on)) == HELD) is held


def test_midsummer_is_in_december_in_the_south() -> None:
    one = plant("catasetum", in_leaf("11-05", longest_new_root_mm=60))
    assert outcome(judged(one, "11-08", SOUTH)) == HELD
    assert judged(one, "11-08").rule != "leafless-rest"


def test_bare_with_short_roots_is_held_after_midsummer_too() -> None:
    one = plant("catasetum", bare("07-05", longest_new_root_mm=60))
    assert outcome(judged(one, "07-08")) == HELD


def test_once_met_it_stays_open() -> None:
    met = bare("04-05", longest_new_root_mm=85)
    later = bare("04-20", new_growths=EXTENDING)
    assert judged(plant("catasetum", met, later), "04-22").rule == "growing"


def test_once_met_a_shorter_root_does_not_shut_it() -> None:
    met = bare("04-05", longest_new_root_mm=85)
    other = in_leaf("04-20", longest_new_root_mm=60)
    assert judged(plant("catasetum", met, other), "04-22").rule == "growing"


def test_a_look_that_records_only_bareness_does_not_shut_it() -> None:
    """Not recorded is never the same as absent."""
    met = bare("04-05", longest_new_root_mm=85)
    hasty = look("04-20", leaves=Leaves.LEAFLESS)
    assert judged(plant("catasetum", met, hasty), "04-22").rule != "leafless-rest"


def test_it_shuts_when_the_plant_is_leafless_again() -> None:
    met = in_leaf("2025-06-05", longest_new_root_mm=90)
    gone = still("2025-12-15", leaves=Leaves.LEAFLESS)
    woken = bare("04-05")
    assert outcome(judged(plant("catasetum", met, gone), "2025-12-18")) == HELD
    assert outcome(judged(plant("catasetum", met, gone, woken), "04-08")) == HELD


def test_last_years_roots_do_not_open_a_season_begun_bare() -> None:
    met = in_leaf("2025-06-05", longest_new_root_mm=90)
    woken = bare("02-05")
    assert outcome(judged(plant("catasetum", met, woken), "02-08")) == HELD


def test_a_leaf_of_last_autumn_does_not_release_in_spring() -> None:
    """An old look may withhold; it never releases."""
    autumn = look(
        "2025-09-10", leaves=Leaves.FIRM, new_growths=MATURING, root_tips=RUNNING
    )
    spring = look("04-10", new_growths=EMERGING, root_tips=RUNNING)
    assert judged(plant("catasetum", autumn, spring), "04-12").verdict != "feed"


@pytest.mark.parametrize("on", ["03-28", "05-01", "06-15"])
def test_a_dry_hold_does_not_go_stale_and_asks_for_a_look(on: str) -> None:
    one = plant("catasetum", bare("03-03", longest_new_root_mm=40))
    got = judged(one, on)
    assert outcome(got) == HELD
    assert "look at the roots" in said(got)


def test_a_fresh_dry_hold_asks_for_no_look() -> None:
    one = plant("catasetum", bare("03-03", longest_new_root_mm=40))
    assert "look at the roots" not in said(judged(one, "03-24"))


def test_an_old_look_that_met_the_sign_does_not_release() -> None:
    one = plant("catasetum", bare("04-05", longest_new_root_mm=85))
    got = judged(one, "04-27")
    assert (got.rule, got.verdict) == ("look-out-of-date", "look-first")


@pytest.mark.parametrize("on", ["01-10", "03-10"])
def test_never_looked_at_in_its_rest_gets_no_water(on: str) -> None:
    """Some plants must stay dry; a pot in the dry rest is always light."""
    got = judged(plant("catasetum"), on)
    assert got.verdict == "look-first"
    assert got.water == "none"


def test_ignoring_its_rest_does_not_lift_a_leafless_rest() -> None:
    one = plant("catasetum", bare("04-05", longest_new_root_mm=40), ignores_rest=True)
    assert outcome(judged(one, "04-08")) == HELD


def test_near_the_equator_the_roots_still_decide() -> None:
    one = plant("catasetum", bare("04-05", longest_new_root_mm=40))
    assert outcome(judged(one, "04-08", EQUATOR)) == HELD


def test_a_repot_does_not_lift_it() -> None:
    care = (did("04-06", CareKind.REPOT),)
    one = plant("catasetum", bare("04-05", longest_new_root_mm=40), care=care)
    assert outcome(judged(one, "04-08")) == HELD


# -- the other deciduous kinds -----


@pytest.mark.parametrize("kind", DECIDUOUS)
def test_other_deciduous_kinds_stay_dry_while_nothing_is_seen(kind: str) -> None:
    one = plant(kind, still("01-05", leaves=Leaves.LEAFLESS))
    assert outcome(judged(one, "01-08")) == HELD


@pytest.mark.parametrize("kind", DECIDUOUS)
@pytest.mark.parametrize(
    ("growths", "tips"),
    [(EMERGING, RootTips.NONE), (NewGrowths(0, 0, 0), STARTING), (EXTENDING, RUNNING)],
)
def test_they_get_a_little_water_with_new_growth_or_roots(
    kind: str, growths: NewGrowths, tips: RootTips
) -> None:
    one = plant(kind, bare("03-05", new_growths=growths, root_tips=tips))
    assert outcome(judged(one, "03-08")) == WAKING


@pytest.mark.parametrize(("mm", "rule"), [(24, "leafless-rest"), (25, "growing")])
def test_they_are_fed_once_rooted(mm: int, rule: str) -> None:
    one = plant("lycaste", bare("03-05", longest_new_root_mm=mm))
    assert judged(one, "03-08").rule == rule


@pytest.mark.parametrize("kind", DECIDUOUS)
def test_they_are_fed_once_a_leaf_unfolds(kind: str) -> None:
    one = plant(kind, bare("04-05", new_leaf=NewLeaf.EXTENDING))
    assert outcome(judged(one, "04-08")) == ("growing", "feed", "through")


def test_their_dry_hold_does_not_go_stale_either() -> None:
    one = plant("lycaste", still("01-05", leaves=Leaves.LEAFLESS))
    got = judged(one, "03-08")
    assert outcome(got) == HELD
    assert "look at the roots" in said(got)


def test_an_old_waking_look_never_gives_more_than_a_little_and_says_so() -> None:
    one = plant("lycaste", bare("02-05", new_growths=EMERGING))
    got = judged(one, "03-20")
    assert got.water in ("none", "sparing")
    assert got.verdict in ("clear-water", "look-first")
    assert "43 days" in said(got)


@pytest.mark.parametrize("kind", ["cattleya", "phalaenopsis", "dendrobium-nobile"])
def test_kinds_that_keep_their_leaves_know_no_such_rest(kind: str) -> None:
    one = plant(kind, bare("04-05", longest_new_root_mm=5))
    assert judged(one, "04-08").rule != "leafless-rest"


# -- words, and plants of no known kind -----


@pytest.mark.parametrize("tips", [RootTips.NONE, STARTING])
def test_what_releases_a_plant_in_leaf_is_what_is_said(tips: RootTips) -> None:
    shown = in_leaf("05-05", root_tips=tips)
    got = deciding(judged(plant("catasetum", shown), "05-06"))
    assert "for them to run, or to measure 8 cm" in got
    assert "under way" not in got
    for release in ({"root_tips": RUNNING}, {"longest_new_root_mm": 80}):
        released = replace(shown, **release)
        assert judged(plant("catasetum", released), "05-06").verdict == "feed"


def test_a_growth_that_matures_has_not_begun_to_move() -> None:
    one = plant("catasetum", look("2025-12-20", new_growths=MATURING))
    got = judged(one, "2025-12-28")
    assert outcome(got) == HELD
    assert "begun" not in deciding(got)
    lycaste = plant("lycaste", bare("03-05", new_growths=MATURING, root_tips=None))
    got = judged(lycaste, "03-08")
    assert outcome(got) == WAKING
    assert "A growth was maturing on 5 March" in deciding(got)


@pytest.mark.parametrize("name", ["Unheardofia", "general"])
@pytest.mark.parametrize(("on", "house"), [("01-08", HOUSE), ("07-08", SOUTH)])
def test_bare_and_of_no_known_kind_is_kept_dry(
    name: str, on: str, house: House
) -> None:
    shown = still(on, leaves=Leaves.LEAFLESS)
    got = judged(plant(name, shown), on, house)
    assert outcome(got) == HELD
    assert "do give it" in said(got)
    assert ("No kind called Unheardofia" in said(got)) is (name != "general")
    for moves in ({"new_growths": EMERGING}, {"root_tips": STARTING}):
        waking = judged(plant(name, replace(shown, **moves)), on, house)
        assert outcome(waking) == WAKING
    leafy = judged(plant(name, still(on, leaves=Leaves.FIRM)), on, house)
    assert leafy.rule == "not-growing"
    assert "do give it" not in said(leafy)
