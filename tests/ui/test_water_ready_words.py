"""Clear water on its card: of which water, into which blend, what it is for."""

from __future__ import annotations

from growdesk.domain.water_ready import WaterNeed
from growdesk.services.values import MixPlan
from growdesk.ui.water_ready_words import to_have_ready

NEED = WaterNeed(1, "", "rain", jugs_l=2.0, clear_l=2.0, flush_l=0.5, spare_l=0.13)


def plan(*needs: WaterNeed) -> MixPlan:
    return MixPlan((), (), (), (), 2.0, 0.5, "rain", None, waters=needs)


def test_clear_water_says_of_which_water_and_what_for() -> None:
    (card,) = to_have_ready(plan(NEED))
    assert card.title == "2.63 L of rain water"
    assert card.vessel == "barrel"
    assert card.lines == (
        "2 L for clear water, 500 mL for flushing, 130 mL to spare.",
        "With what goes into the jugs, 4.63 L in all.",
    )


def test_clear_water_of_a_blend_says_so_on_both_its_waters() -> None:
    rain = WaterNeed(1, "", "rain", clear_l=2.0, blended="soft")
    tap = WaterNeed(2, "town", "tap", clear_l=1.0, blended="soft")
    assert [card.title for card in to_have_ready(plan(rain, tap))] == [
        "2 L of rain water into soft",
        "1 L of tap water (town) into soft",
    ]
