"""Active growth decides: growing, not growing, idle, and the trade's bloom cases.

Published beside the checks: 57 % of the nitrogen in a moth orchid's spike at visible
bud is taken up after cooling starts (Wang & Chang, HortTechnology 27(2), 2017).
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain.explain import Role
from growdesk.domain.facts import Flowering, Leaves, NewGrowths, NewLeaf, RootTips
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    HOUSE,
    MATURING,
    NOTHING,
    bloom_told,
    deciding,
    fed,
    judged,
    look,
    moving,
    outcome,
    plant,
    said,
    still,
    warm_place,
)

FED = ("growing", "feed", "through")
STILL = ("not-growing", "clear-water", "if-dry")
IDLE = ("idle-never-resting", "feed", "through")
BLOOM = [Flowering.BUDS, Flowering.OPEN, Flowering.FADING]


# -- the trade's arguable cases -----


@pytest.mark.parametrize("stage", BLOOM)
def test_in_bloom_and_growing_is_fed(stage: Flowering) -> None:
    """Arguable in the trade; common practice, no source."""
    got = judged(plant("cattleya", moving("01-20", stage)), "01-24")
    assert outcome(got) == FED
    assert len(bloom_told(got)) == 1


@pytest.mark.parametrize("stage", BLOOM)
def test_in_bloom_with_nothing_moving_gets_clear_water_for_another_reason(
    stage: Flowering,
) -> None:
    """Arguable in the trade; common practice, no source."""
    got = judged(plant("cattleya", still("01-20", stage)), "01-24")
    assert outcome(got) == STILL
    assert deciding(got).startswith("Clear water, if the pot is light.")
    assert "20 January" in deciding(got)
    (told,) = bloom_told(got)
    assert "isn't the reason" in told
    assert [r.role for r in got.reasons if r.rule == "bloom"] == [Role.NOT_A_REASON]


@pytest.mark.parametrize("stage", [s for s in Flowering if s not in BLOOM])
def test_no_bloom_no_sentence_about_it(stage: Flowering) -> None:
    assert bloom_told(judged(plant("cattleya", still("01-20", stage)), "01-24")) == []


def test_buds_and_open_at_once_are_told_once() -> None:
    shown = still("01-20", Flowering.BUDS, Flowering.OPEN, Flowering.FADING)
    assert len(bloom_told(judged(plant("cattleya", shown), "01-24"))) == 1


# -- growing -----


@pytest.mark.parametrize(
    "signs",
    [
        {"new_growths": EMERGING},
        {"new_growths": EXTENDING},
        {"new_growths": MATURING},
        {"root_tips": RootTips.STARTING},
        {"root_tips": RootTips.RUNNING},
        {"new_leaf": NewLeaf.STARTING},
        {"new_leaf": NewLeaf.EXTENDING},
    ],
)
@pytest.mark.parametrize("kind", ["cattleya", "vanda"])
def test_each_sign_of_growth_is_enough(kind: str, signs: dict[str, object]) -> None:
    got = judged(plant(kind, still("05-05", **signs)), "05-08")
    assert outcome(got) == FED
    assert "5 May" in deciding(got)


@pytest.mark.parametrize(
    "signs", [{"new_growths": EXTENDING}, {"root_tips": "running"}]
)
def test_one_sign_with_the_rest_not_recorded_is_enough(
    signs: dict[str, object],
) -> None:
    if "root_tips" in signs:
        signs = {"root_tips": RootTips.RUNNING}
    assert outcome(judged(plant("cattleya", look("05-05", **signs)), "05-08")) == FED


@pytest.mark.parametrize(
    "signs",
    [
        {},
        {"new_growths": NewGrowths(0, 0, 0, 5)},
        {"new_leaf": NewLeaf.FULL},
        {"new_leaf": NewLeaf.NONE},
        {"leaves": Leaves.YELLOWING},
    ],
)
def test_matured_growths_and_full_leaves_are_no_growth(
    signs: dict[str, object],
) -> None:
    assert outcome(judged(plant("cattleya", still("05-05", **signs)), "05-08")) == STILL


def test_the_newest_look_counts_whatever_order_they_come_in() -> None:
    old, new = moving("05-01"), still("05-06")
    for looks in ((old, new), (new, old)):
        assert outcome(judged(plant("cattleya", *looks), "05-08")) == STILL


def test_a_later_look_is_not_used() -> None:
    one = plant("cattleya", still("05-05"), moving("05-20"))
    got = judged(one, "05-08")
    assert outcome(got) == STILL
    assert "20 May" in said(got)


# -- stalled -----


def measured(on: str, mm: float, **signs: object) -> object:
    shown = {"new_growths": EXTENDING, "root_tips": RootTips.NONE, **signs}
    return look(on, lead_length_mm=mm, **shown)


@pytest.mark.parametrize(
    ("first", "second", "rule"),
    [
        (("05-01", 60), ("05-22", 60), "not-growing"),
        (("05-01", 60), ("05-21", 60), "growing"),
        (("05-01", 60), ("05-22", 61), "not-growing"),
        (("05-01", 60), ("05-22", 59), "not-growing"),
        (("05-01", 60.1), ("05-22", 61.1), "not-growing"),
        (("05-01", 60), ("05-22", 61.1), "growing"),
        (("05-01", 60), ("05-22", 58.9), "growing"),
        (("04-01", 60), ("05-22", 60), "not-growing"),
    ],
)
def test_equal_lengths_21_days_apart_are_a_stall(
    first: tuple[str, float], second: tuple[str, float], rule: str
) -> None:
    one = plant("cattleya", measured(*first), measured(*second))  # type: ignore[arg-type]
    assert judged(one, "05-24").rule == rule


def test_a_stall_leaves_other_signs_standing() -> None:
    later = measured("05-22", 60, root_tips=RootTips.RUNNING)
    one = plant("cattleya", measured("05-01", 60), later)  # type: ignore[arg-type]
    assert outcome(judged(one, "05-24")) == FED


def test_a_stall_is_told_as_one() -> None:
    one = plant("cattleya", measured("05-01", 60), measured("05-22", 60))  # type: ignore[arg-type]
    text = deciding(judged(one, "05-24"))
    assert "no new growth" not in text
    assert "still" in text


def test_a_growth_counted_as_stalled_is_no_sign() -> None:
    shown = still("05-05", new_growths=NewGrowths(0, 0, 0, 2, stalled=1))
    assert outcome(judged(plant("cattleya", shown), "05-08")) == STILL


# -- a spike that draws feed -----


@pytest.mark.parametrize("kind", ["phalaenopsis", "oncidium"])
@pytest.mark.parametrize("stage", [Flowering.SPIKE, Flowering.BUDS])
def test_a_spike_on_the_way_is_growth_where_it_draws_feed(
    kind: str, stage: Flowering
) -> None:
    shown = still("12-05", stage, new_leaf=NewLeaf.NONE)
    got = judged(plant(kind, shown), "12-08")
    assert outcome(got) == FED
    assert bloom_told(got) == []


@pytest.mark.parametrize("stage", [Flowering.OPEN, Flowering.FADING, Flowering.SHEATH])
def test_flowers_open_or_a_sheath_draw_none(stage: Flowering) -> None:
    shown = still("12-05", stage, new_leaf=NewLeaf.NONE)
    assert outcome(judged(plant("phalaenopsis", shown), "12-08")) == STILL


@pytest.mark.parametrize("kind", ["cattleya", "cymbidium", "vanda"])
@pytest.mark.parametrize("stage", [Flowering.SPIKE, Flowering.BUDS])
def test_in_other_kinds_a_spike_draws_none_until_the_house_says_so(
    kind: str, stage: Flowering
) -> None:
    one = plant(kind, still("05-05", stage, new_leaf=NewLeaf.NONE))
    house = replace(HOUSE, spike_draws_feed_always=True)
    assert outcome(judged(one, "05-08")) == STILL
    assert outcome(judged(one, "05-08", house)) == FED
    assert bloom_told(judged(one, "05-08", house)) == []


def test_buds_are_told_where_a_root_decides() -> None:
    shown = still("12-05", Flowering.BUDS, root_tips=RootTips.RUNNING)
    assert len(bloom_told(judged(plant("phalaenopsis", shown), "12-08"))) == 1


def test_buds_are_told_where_another_gate_decides() -> None:
    one = plant("phalaenopsis", still("12-05", Flowering.BUDS), care=(fed("12-04"),))
    got = judged(one, "12-08")
    assert got.rule == "too-soon"
    assert len(bloom_told(got)) == 1


# -- idle but never resting -----


@pytest.mark.parametrize("tips", [RootTips.HIDDEN, None])
@pytest.mark.parametrize(
    ("kind", "on", "idle"),
    [
        ("phalaenopsis", "05-14", False),
        ("phalaenopsis", "05-15", True),
        ("miltoniopsis", "05-30", False),
        ("miltoniopsis", "05-31", True),
    ],
)
def test_a_kind_that_never_rests_is_fed_at_half_seldom(
    kind: str, on: str, idle: bool, tips: RootTips | None
) -> None:
    """Every 30 days, moth orchids every 14; the limit is inclusive."""
    shown = look("05-14", root_tips=tips, new_growths=NOTHING, new_leaf=NewLeaf.NONE)
    one = plant(kind, shown, care=(fed("05-01"),))
    assert outcome(judged(one, on)) == (IDLE if idle else STILL)


def test_it_is_fed_at_half() -> None:
    hidden = look("06-05", root_tips=RootTips.HIDDEN)
    idle = judged(plant("miltoniopsis", hidden, full_strength_ppm_n=160), "06-21")
    grows = judged(
        plant("miltoniopsis", moving("06-05"), full_strength_ppm_n=160), "06-21"
    )
    assert idle.strength_ppm_n == 40
    assert grows.strength_ppm_n == 80


def test_looked_for_and_absent_is_an_answer() -> None:
    shown = still("05-14", new_leaf=NewLeaf.NONE)
    assert outcome(judged(plant("phalaenopsis", shown), "05-15")) == STILL


@pytest.mark.parametrize("kind", ["cattleya", "laelia-rupicolous", "vanda", "lycaste"])
def test_kinds_with_a_rest_are_not_fed_idle(kind: str) -> None:
    shown = look("06-14", leaves=Leaves.FIRM, root_tips=RootTips.HIDDEN)
    assert judged(plant(kind, shown), "06-15").verdict == "clear-water"


def test_a_cold_place_is_not_fed_idle() -> None:
    shown = look("05-14", root_tips=RootTips.HIDDEN)
    one = plant("phalaenopsis", shown, place=warm_place(14, "05-15"))
    assert judged(one, "05-15").rule == "too-cold"


def test_signs_that_nobody_recorded_are_not_said_to_be_absent() -> None:
    got = judged(plant("cattleya", look("05-05", Flowering.OPEN)), "05-08")
    assert outcome(got) == STILL
    text = said(got)
    for claim in ("no new growth", "no root tips", "nothing moves", "No new growth"):
        assert claim not in text


@pytest.mark.parametrize(
    ("signs", "claim"),
    [
        ({"new_growths": NOTHING, "root_tips": RootTips.HIDDEN}, "no root tips"),
        ({"new_growths": NOTHING}, "no root tips"),
        ({"root_tips": RootTips.NONE}, "no new growth"),
        (
            {"new_growths": NewGrowths(0, 0), "root_tips": RootTips.NONE},
            "no new growth",
        ),
    ],
)
def test_only_what_was_looked_for_is_said_to_be_absent(
    signs: dict[str, object], claim: str
) -> None:
    got = judged(plant("cattleya", look("05-05", **signs)), "05-08")
    assert claim not in said(got)


# -- kinds -----


def test_an_unknown_kind_is_judged_carefully_and_said() -> None:
    got = judged(plant("Unheardofia", moving("05-05")), "05-08")
    assert outcome(got) == FED
    assert "Unheardofia" in said(got)
    assert got.strength is not None
    assert got.strength_ppm_n is not None
    assert got.strength_ppm_n <= 100
    assert [r.role for r in got.reasons if r.rule == "kind"] == [Role.UNKNOWN]
