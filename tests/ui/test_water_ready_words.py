"""Clear water on its card: of which water, into which blend, what it is for."""

from __future__ import annotations

from msgspec.structs import replace

from growdesk.domain.water_ready import WaterNeed
from growdesk.services.values import MixPlan
from growdesk.ui.water_ready_words import to_have_ready

NEED = WaterNeed(1, "", "rain", jugs_l=2.0, clear_l=2.0, flush_l=0.5, spare_l=0.13)

RAIN = WaterNeed(
    1, "", "rain", jugs_l=1.0, clear_l=2.0, spare_l=0.1, blended="soft", blended_l=2.0
)
TAP = WaterNeed(
    2, "town", "tap", clear_l=1.0, spare_l=0.05, blended="soft", blended_l=1.0
)


def plan(*needs: WaterNeed) -> MixPlan:
    return MixPlan((), (), (), (), 2.0, 0.5, "rain", None, waters=needs)


BLENDED = replace(
    plan(RAIN, TAP),
    clear_blend="For 3.15 L: 2.1 L of rain water and 1.05 L of tap water.",
)


def test_clear_water_says_of_which_water_and_what_for() -> None:
    (card,) = to_have_ready(plan(NEED))
    assert card.title == "2.63 L of rain water"
    assert card.vessel == "barrel"
    assert card.lines == (
        "2 L for clear water, 500 mL for flushing, 130 mL to spare.",
        "With what goes into the jugs, 4.63 L in all.",
    )


def test_clear_water_of_a_blend_is_one_with_the_litres_of_its_waters() -> None:
    (card,) = to_have_ready(BLENDED)
    assert card.title == "3.15 L of soft"
    assert card.vessel == "barrel"
    assert card.lines == (
        "For 3.15 L: 2.1 L of rain water and 1.05 L of tap water.",
        "3 L for clear water, 150 mL to spare.",
        "With what goes into the jugs, 3.1 L of rain water in all.",
    )


def test_clear_water_beside_a_blend_is_told_apart_from_it() -> None:
    rain = replace(RAIN, flush_l=2.0, spare_l=0.2)
    blended, pure = to_have_ready(replace(BLENDED, waters=(rain, TAP)))
    assert blended.title == "3.15 L of soft"
    assert pure.title == "2.1 L of rain water"
