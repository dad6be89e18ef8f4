"""How long signs hold, by kind and season, and what they may have become since."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest
from msgspec.structs import replace

from growdesk.domain.case import Case
from growdesk.domain.facts import (
    Bulbs,
    Flowering,
    Health,
    House,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Place,
    Plant,
    Pot,
    RootTips,
)
from growdesk.domain.fading import (
    Fade,
    Season,
    flowering_days,
    gone,
    growth_days,
    leaf_days,
    season_of,
    still_days,
    tips_days,
)
from growdesk.domain.fading_hold import THIRD_SHARE
from growdesk.domain.worth_looking import most_faded, signs_of
from growdesk.services import kinds
from tests.domain.builders import (
    EMERGING,
    EQUATOR,
    EXTENDING,
    HOUSE,
    MATURING,
    NOTHING,
    SOUTH,
    day,
    fed,
    look,
    plant,
    still,
)

KINDS = kinds.table().kinds


def case_of(one: Plant, on: str, house: House = HOUSE) -> Case:
    return Case(one, KINDS[one.kind], house, day(on))


def fades(one: Plant, on: str, house: House = HOUSE) -> dict[str, Fade]:
    return {fade.key: fade for fade in signs_of(case_of(one, on, house))}


def become(one: Plant, key: str, on: str) -> Look:
    """Give the look that a sign would have turned the last one into."""
    return fades(one, on)[key].becomes(one.looks[-1])


# -- the reckoning -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("age", "chance"), [(0, 0.0), (7, 0.2929), (14, 0.5), (28, 0.75), (42, 0.875)]
)
def test_a_sign_is_as_likely_gone_as_not_after_it_has_held(
    age: int, chance: float
) -> None:
    assert gone(age, 14.0) == pytest.approx(chance, abs=1e-4)


def test_two_stages_have_the_chances_of_both_and_a_share_takes_its_part() -> None:
    seen = date(2026, 5, 1)
    on = seen + timedelta(days=14)
    one = Fade("rot", seen, (14.0,), lambda look: look)
    assert one.chance(on) == pytest.approx(0.5)
    assert replace(one, steps_days=(14.0, 7.0)).chance(on) == pytest.approx(0.375)
    assert replace(one, share=0.25).chance(on) == pytest.approx(0.125)
    assert one.chance(seen - timedelta(days=3)) == 0.0


@pytest.mark.parametrize(
    ("kind", "stage", "days"),
    [
        ("cattleya", "emerging", 26 * 7 / 8),
        ("cattleya", "extending", 26 * 7 / 4),
        ("cattleya", "maturing", 26 * 7 / 8),
        ("masdevallia", "extending", 21.0),
        ("paphiopedilum-multifloral", "emerging", 91.0),
    ],
)
def test_a_growths_stage_holds_for_half_its_length(
    kind: str, stage: str, days: float
) -> None:
    assert growth_days(KINDS[kind], stage) == pytest.approx(days)


def test_a_bud_opens_in_weeks_and_a_spike_takes_longer() -> None:
    moth = KINDS["phalaenopsis"]
    assert flowering_days(moth, Flowering.BUDS) == pytest.approx(13 * 7 / 6)
    assert flowering_days(moth, Flowering.SPIKE) == pytest.approx(13 * 7 / 3)
    assert flowering_days(moth, Flowering.SHEATH) == pytest.approx(13 * 7 / 2)
    assert flowering_days(moth, Flowering.OPEN) == pytest.approx(28.0)
    assert flowering_days(moth, Flowering.FADING) == pytest.approx(7.0)
    assert leaf_days(moth, NewLeaf.STARTING) == pytest.approx(8.75)
    assert leaf_days(moth, NewLeaf.EXTENDING) == pytest.approx(26.25)


@pytest.mark.parametrize(
    ("key", "column", "low", "high"),
    [
        # HortScience 42(1):68, 2007: 5.0 to 2.8 leaves in 37 weeks by warmth
        ("phalaenopsis", "growth_weeks", 7, 13.5),
        # Acta Horticulturae 450 no. 11: full flower for 6 to 13 weeks
        ("phalaenopsis", "flower_weeks", 6, 13),
        # Acta Horticulturae 766:35, 2008: 97 days at 17 °C, 78 at 20 °C
        ("miltoniopsis", "spike_weeks", 78 / 7, 97 / 7),
        # ASHS abstract, Zygopetalum Redvale 'Fire Kiss': 73 days at 14 °C, 30 at 26 °C
        ("zygopetalum", "spike_weeks", 30 / 7, 73 / 7),
        ("zygopetalum", "flower_weeks", 13 / 7, 37 / 7),
        # HortScience 59(3):348, 2024: four bulbs in 2.0 years
        ("oncidium", "growth_weeks", 25, 27),
        # Napa Valley society: new growth to ripe bulb in 6 to 7 months
        ("catasetum", "growth_weeks", 26, 30.5),
    ],
)
def test_lengths_that_were_read_stand_within_what_was_read(
    key: str, column: str, low: float, high: float
) -> None:
    assert low <= getattr(KINDS[key], column) <= high
    assert column not in KINDS[key].memory


# -- the seasons ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "on", "season"),
    [
        ("cattleya", "2025-11-01", Season.RESTING),
        ("cattleya", "2026-01-10", Season.RESTING),
        ("cattleya", "2026-01-25", Season.WAKING),
        ("cattleya", "2026-02-28", Season.WAKING),
        ("cattleya", "2026-04-11", Season.WAKING),
        ("cattleya", "2026-04-12", Season.OPEN),
        ("cattleya", "2026-10-31", Season.OPEN),
        ("catasetum", "2026-03-01", Season.RESTING),
        ("catasetum", "2026-04-01", Season.WAKING),
        ("phalaenopsis", "2026-01-10", Season.OPEN),
    ],
)
def test_a_kind_wakes_in_the_last_third_of_its_rest_and_six_weeks_after(
    kind: str, on: str, season: Season
) -> None:
    assert season_of(case_of(plant(kind), on)) is season


@pytest.mark.parametrize("kind", ["cattleya", "catasetum", "dendrobium-nobile"])
@pytest.mark.parametrize("month", range(1, 13))
def test_the_waking_season_turns_with_the_hemisphere(kind: str, month: int) -> None:
    north = date(2026, month, 10)
    south = date(2026, (month + 5) % 12 + 1, 10)
    here = season_of(Case(plant(kind), KINDS[kind], HOUSE, north))
    assert season_of(Case(plant(kind), KINDS[kind], SOUTH, south)) is here


def test_near_the_equator_no_month_says_that_a_kind_wakes() -> None:
    one, kind = plant("cattleya"), KINDS["cattleya"]
    days = [date(2026, month, 15) for month in range(1, 13)]
    assert {season_of(Case(one, kind, EQUATOR, on)) for on in days} == {Season.OPEN}


@pytest.mark.parametrize(
    ("house", "on", "days"),
    [
        (HOUSE, "12-20", 56.0),
        (HOUSE, "03-01", 14.0),
        (HOUSE, "07-01", 28.0),
        (SOUTH, "06-20", 56.0),
        (SOUTH, "09-01", 14.0),
        (SOUTH, "01-01", 28.0),
        (EQUATOR, "12-20", 28.0),
    ],
)
def test_that_nothing_moves_holds_less_where_the_kind_is_to_wake(
    house: House, on: str, days: float
) -> None:
    one = plant("cattleya", still("2025-06-01"))
    assert still_days(case_of(one, on, house)) == days
    key = "tips-none-waking" if days == 14 else "tips-none"
    assert fades(one, on, house)[key].holds_days == days


@pytest.mark.parametrize(
    ("house", "on", "days"),
    [
        (HOUSE, "03-20", 28.0),
        (HOUSE, "09-22", 28.0),
        (HOUSE, "09-23", 14.0),
        (HOUSE, "03-19", 14.0),
        (SOUTH, "09-22", 28.0),
        (SOUTH, "03-20", 28.0),
        (SOUTH, "03-21", 14.0),
        (SOUTH, "09-21", 14.0),
        (EQUATOR, "12-20", 28.0),
    ],
)
def test_running_tips_hold_twice_as_long_in_the_warm_half(
    house: House, on: str, days: float
) -> None:
    one = plant("vanda", look("2025-06-01", root_tips=RootTips.RUNNING))
    assert tips_days(case_of(one, on, house)) == days


def test_a_controlled_place_has_no_cool_half() -> None:
    one = plant("vanda", still("2025-12-01"), place=Place(controlled=True))
    assert tips_days(case_of(one, "2025-12-20")) == 28.0


# -- what a sign may have become -----------------------------------------------------


def test_each_stage_of_a_growth_passes_to_the_next() -> None:
    for counts, key, after in (
        (EMERGING, "growth-emerging", NewGrowths(0, 1, 0, 2)),
        (EXTENDING, "growth-extending", NewGrowths(0, 0, 1, 2)),
        (MATURING, "growth-maturing", NewGrowths(0, 0, 0, 3)),
        (NOTHING, "growth-none", NewGrowths(1, 0, 0, 2)),
    ):
        one = plant("cattleya", look("06-01", new_growths=counts))
        assert become(one, key, "06-20").new_growths == after
    both = plant("cattleya", look("06-01", new_growths=NewGrowths(2, 1, 0)))
    assert become(both, "growth-emerging", "06-20").new_growths == NewGrowths(0, 3, 0)
    assert become(both, "growth-extending", "06-20").new_growths == NewGrowths(2, 0, 1)


def test_a_stalled_growth_may_go_on() -> None:
    stalled = NewGrowths(0, 0, 0, 1, stalled=1)
    one = plant("cattleya", look("06-01", new_growths=stalled))
    after = become(one, "growth-stalled", "06-20").new_growths
    assert after == NewGrowths(0, 1, 0, 1, 0)


def test_a_lead_that_stood_still_is_no_growth_on_the_move() -> None:
    one = plant(
        "cattleya",
        look("05-01", new_growths=EXTENDING, lead_length_mm=60.0),
        look("06-01", new_growths=EXTENDING, lead_length_mm=60.0),
    )
    assert set(fades(one, "06-10")) >= {"growth-stalled"}
    assert "growth-extending" not in fades(one, "06-10")
    assert become(one, "growth-stalled", "06-10").lead_length_mm is None


def test_root_tips_start_run_and_close() -> None:
    def tips(shown: RootTips | None, key: str) -> RootTips | None:
        one = plant("cattleya", look("07-01", root_tips=shown))
        return become(one, key, "07-10").root_tips

    assert tips(RootTips.NONE, "tips-none") is RootTips.STARTING
    assert tips(None, "tips-not-recorded") is RootTips.STARTING
    assert tips(RootTips.STARTING, "tips-starting") is RootTips.RUNNING
    assert tips(RootTips.STARTING, "tips-closed") is RootTips.NONE
    assert tips(RootTips.RUNNING, "tips-running") is RootTips.NONE
    hidden = plant("cattleya", look("07-01", root_tips=RootTips.HIDDEN))
    assert not [key for key in fades(hidden, "07-10") if key.startswith("tips")]


def test_tips_that_start_come_to_run_or_close_and_nothing_else() -> None:
    starting = look("07-01", root_tips=RootTips.STARTING)
    found = fades(plant("cattleya", starting), "07-10")
    shares = [found[key].share for key in ("tips-starting", "tips-closed")]
    assert shares == [0.75, 0.25]


@pytest.mark.parametrize(
    ("signs", "key", "days"),
    [
        ({"root_tips": RootTips.STARTING}, "tips-starting", 10.0),
        ({"new_growths": NewGrowths(0, 0, 0, stalled=1)}, "growth-stalled", 28.0),
        ({"flowering": frozenset({Flowering.NONE})}, "flowering-none", 90.0),
        ({"health": {Health.ROT}}, "rot", 14.0),
        ({"health": {Health.NO_ROOTS}}, "no-roots", 42.0),
        ({"bulbs": Bulbs.SHRIVELLED}, "shrivelled", 21.0),
        ({"pot": Pot.WET}, "pot", 4.0),
        ({"pot": Pot.MOIST}, "pot", 3.0),
        ({"pot": Pot.NEARLY_DRY}, "pot", 2.0),
    ],
)
def test_what_holds_the_same_for_every_kind(
    signs: dict[str, Any], key: str, days: float
) -> None:
    assert fades(plant("cattleya", look("07-01", **signs)), "07-10")[
        key
    ].steps_days == (days,)


def test_a_catasetums_leaves_and_shoots_have_times_of_their_own() -> None:
    def days(seen: Look, on: str, key: str) -> float:
        return fades(plant("catasetum", seen), on)[key].holds_days

    late = look("10-01", leaves=Leaves.FIRM, new_growths=MATURING)
    assert days(late, "10-10", "leaves-firm") == 84.0
    assert days(late, "11-10", "leaves-firm") == 21.0
    yellow = look("10-01", leaves=Leaves.YELLOWING, new_growths=MATURING)
    assert days(yellow, "10-10", "leaves-yellowing") == 14.0
    dropping = look("10-01", leaves=Leaves.DROPPING, new_growths=MATURING)
    assert days(dropping, "10-10", "leaves-dropping") == 10.0
    bare = look("04-01", leaves=Leaves.LEAFLESS, new_growths=EMERGING)
    assert days(bare, "04-10", "leaf-unfolds") == 21.0
    nearly = look("04-01", longest_new_root_mm=79.0, leaves=Leaves.LEAFLESS)
    assert days(nearly, "04-10", "roots-short") == pytest.approx(3.0 * THIRD_SHARE)


def test_a_repot_of_the_looks_own_day_comes_after_it() -> None:
    seen = look("06-01", root_tips=RootTips.RUNNING)
    one = plant("cattleya", seen, repotted_on=day("06-01"))
    assert fades(one, "06-10")["tips-since-repot"].seen == day("06-01")


def test_tips_of_before_a_repot_say_nothing_now() -> None:
    seen = look("06-01", root_tips=RootTips.RUNNING)
    one = plant("cattleya", seen, repotted_on=day("06-05"))
    fade = fades(one, "06-10")["tips-since-repot"]
    assert fade.seen == day("06-05")
    assert fade.becomes(seen).root_tips is RootTips.STARTING


def test_a_moth_orchid_goes_by_its_leaf() -> None:
    for leaf, key, after in (
        (NewLeaf.STARTING, "leaf-starting", NewLeaf.EXTENDING),
        (NewLeaf.EXTENDING, "leaf-extending", NewLeaf.FULL),
        (NewLeaf.FULL, "leaf-none", NewLeaf.STARTING),
        (NewLeaf.NONE, "leaf-none", NewLeaf.STARTING),
        (None, "leaf-not-recorded", NewLeaf.STARTING),
    ):
        one = plant("phalaenopsis", look("06-01", new_leaf=leaf))
        assert become(one, key, "06-20").new_leaf is after
        assert not [k for k in fades(one, "06-20") if k.startswith("growth")]


def test_flowers_go_their_way_one_stage_at_a_time() -> None:
    stages = list(Flowering)[1:]
    for stage, then in pairwise(stages):
        one = plant("cattleya", look("06-01", stage))
        after = become(one, f"flowering-{stage.value}", "06-20").flowering
        assert after == frozenset({then})
    spent = plant("cattleya", look("06-01", Flowering.SPENT))
    assert not [key for key in fades(spent, "06-20") if key.startswith("flowering")]
    many = plant("cattleya", look("06-01", Flowering.BUDS, Flowering.OPEN))
    after = become(many, "flowering-open", "06-20").flowering
    assert after == frozenset({Flowering.BUDS, Flowering.FADING})


def test_a_soft_cane_breaks_straight_into_bud_the_sooner_the_nearer_its_waking() -> (
    None
):
    none = frozenset({Flowering.NONE})
    one = plant("dendrobium-nobile", look("2025-11-01", flowering=none))
    resting = fades(one, "2025-11-20")["flowering-none-buds"]
    waking = fades(one, "2026-02-01")["flowering-none-buds"]
    assert resting.holds_days > 2 * waking.holds_days
    assert waking.becomes(one.looks[0]).flowering == frozenset({Flowering.BUDS})
    other = plant("cattleya", look("2025-11-01", flowering=none))
    spike = fades(other, "2025-11-20")["flowering-none"].becomes(other.looks[0])
    assert spike.flowering == frozenset({Flowering.SPIKE})


def test_a_catasetums_roots_grow_on_at_its_rate() -> None:
    bare = {"leaves": Leaves.LEAFLESS, "new_growths": EMERGING}
    short = look("04-01", longest_new_root_mm=50.0, root_tips=RootTips.RUNNING, **bare)
    fade = fades(plant("catasetum", short), "04-10")["roots-short"]
    assert len(fade.steps_days) == 3
    whole = 30.0 / 15.0 * 7
    assert fade.chance(day("04-01") + timedelta(days=whole)) == pytest.approx(
        0.5, abs=1e-3
    )
    assert fade.chance(day("04-04")) < 0.05
    assert fade.becomes(short).longest_new_root_mm == 80.0
    unmeasured = look("04-01", root_tips=RootTips.RUNNING, **bare)
    found = fades(plant("catasetum", unmeasured), "04-10")["roots-not-measured"]
    assert found.steps_days == pytest.approx((80.0 / 15.0 * 7 / 2,))


def test_a_bare_one_has_both_to_wake_and_to_root() -> None:
    bare = still("2026-01-10", leaves=Leaves.LEAFLESS)
    resting = fades(plant("catasetum", bare), "01-20")["roots-bare"]
    waking = fades(plant("catasetum", bare), "04-20")["roots-bare-waking"]
    rooting = [80.0 / 15.0 * 7 * THIRD_SHARE] * 3
    assert resting.steps_days == pytest.approx((56.0, *rooting))
    assert waking.steps_days == pytest.approx((14.0, *rooting))
    short = fades(plant("lycaste", bare), "01-20")["roots-bare"]
    assert short.steps_days[1] == pytest.approx(25.0 / 15.0 * 7 * THIRD_SHARE)
    assert short.becomes(bare).longest_new_root_mm == 25.0


def test_one_in_leaf_goes_down_late_in_its_year() -> None:
    one = plant("catasetum", look("10-01", leaves=Leaves.FIRM, new_growths=MATURING))
    late = fades(one, "11-10")["leaves-firm"]
    early = fades(one, "10-10")["leaves-firm"]
    assert late.holds_days < early.holds_days
    assert late.becomes(one.looks[0]).leaves is Leaves.YELLOWING
    spring = plant(
        "catasetum",
        look(
            "05-20", leaves=Leaves.FIRM, longest_new_root_mm=90.0, new_growths=EXTENDING
        ),
    )
    assert "leaves-firm" not in fades(spring, "06-01")
    for leaves in (Leaves.YELLOWING, Leaves.DROPPING):
        going = look("11-01", leaves=leaves, new_growths=MATURING)
        after = become(plant("catasetum", going), f"leaves-{leaves.value}", "11-10")
        assert after.leaves is Leaves.LEAFLESS
        assert after.new_growths == NewGrowths(0, 0, 0, 2)
        assert after.root_tips is RootTips.NONE
    evergreen = plant("cattleya", look("11-01", leaves=Leaves.YELLOWING))
    assert not [key for key in fades(evergreen, "11-10") if key.startswith("leaves")]


def test_trouble_may_be_over() -> None:
    sick = look("06-01", health={Health.ROT, Health.NO_ROOTS}, bulbs=Bulbs.SHRIVELLED)
    one = plant("cattleya", sick, still("06-08", leaves=Leaves.SHRIVELLED))
    found = fades(one, "06-10")
    assert found["rot"].seen == day("06-01")
    assert found["rot"].becomes(one.looks[1]).health == frozenset({Health.NO_ROOTS})
    alive = found["no-roots"].becomes(one.looks[1])
    assert alive.health == frozenset({Health.ROT})
    assert alive.root_tips is RootTips.RUNNING
    plump = found["shrivelled"].becomes(one.looks[1])
    assert (plump.bulbs, plump.leaves) == (Bulbs.FIRM, Leaves.FIRM)
    assert found["rot"].holds_days < found["no-roots"].holds_days


def test_a_pot_dries_in_days_and_is_no_old_sign() -> None:
    one = plant("cattleya", moved := look("06-01", pot=Pot.WET, new_growths=EXTENDING))
    assert fades(one, "06-05")["pot"].becomes(moved).pot is Pot.DRY
    assert fades(one, "06-05")["pot"].chance(day("06-05")) == pytest.approx(0.5)
    assert most_faded(case_of(one, "06-15")) is None


def test_the_sign_that_outlived_its_time_longest_is_the_most_faded() -> None:
    seen = look(
        "2026-10-01", Flowering.OPEN, new_growths=EXTENDING, root_tips=RootTips.RUNNING
    )
    one = plant("cattleya", seen)
    assert most_faded(case_of(one, "10-08")) is None
    first = most_faded(case_of(one, "10-10"))
    assert first is not None
    assert first.key == "flowering-open"
    assert first.chance(day("10-10")) >= 0.5


def test_nobody_has_looked_and_nothing_fades() -> None:
    one = plant("catasetum", care=(fed("06-01"),))
    assert signs_of(case_of(one, "06-10")) == ()
