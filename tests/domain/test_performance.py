"""Measured growth beats the calendar: rates, yardsticks and limits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from growdesk.domain import wording
from growdesk.domain.facts import Lamps, Look, NewGrowths, Place, Plant, RootTips
from growdesk.services import kinds
from tests.domain.builders import EXTENDING, MATURING, judged, look, plant

if TYPE_CHECKING:
    from growdesk.domain.explain import Step

KIND_RATE = kinds.table().kinds["cattleya"].lead_rate_mm_per_week
ROOT_RATE = kinds.table().kinds["vanda"].root_rate_mm_per_week
ON = "06-20"


def lead(on: str, mm: float, growths: NewGrowths = EXTENDING) -> Look:
    return look(on, new_growths=growths, root_tips=RootTips.NONE, lead_length_mm=mm)


def root(on: str, mm: float) -> Look:
    return look(on, root_tips=RootTips.RUNNING, longest_new_root_mm=mm)


def step(one: Plant, on: str = ON) -> Step | None:
    strength = judged(one, on).strength
    assert strength is not None
    found = [s for s in strength.steps if s.key.startswith("performance")]
    return found[0] if found else None


def factor(*looks: Look, on: str = ON, **more: Any) -> float | None:
    found = step(plant("cattleya", *looks, **more), on)
    return None if found is None else found.factor


def test_half_the_usual_rate_is_half() -> None:
    """Cattleya leads make 10 mm a week; 20 mm in four weeks is half of it."""
    assert KIND_RATE == 10
    assert factor(lead("05-21", 40), lead("06-18", 60)) == pytest.approx(0.5)


def test_it_takes_the_seasons_place() -> None:
    one = plant("cattleya", lead("05-21", 40), lead("06-18", 60))
    strength = judged(one, ON).strength
    assert strength is not None
    assert not [s for s in strength.steps if s.key.startswith("season")]
    assert strength.ppm_n == 80


@pytest.mark.parametrize(("grown", "expected"), [(1, 0.2), (8, 0.2), (400, 1.0)])
def test_it_is_clipped_between_a_fifth_and_one(grown: float, expected: float) -> None:
    assert factor(lead("05-21", 40), lead("06-18", 40 + grown)) == pytest.approx(
        expected
    )


def test_no_growth_between_two_lengths_is_a_fifth_not_the_season() -> None:
    """Under 21 days apart it is no stall yet, but the rate now is nought."""
    assert factor(lead("06-04", 60), lead("06-18", 60)) == pytest.approx(0.2)


@pytest.mark.parametrize(("first", "counts"), [("05-16", True), ("05-15", False)])
def test_lengths_count_inside_35_days(first: str, counts: bool) -> None:
    assert (factor(lead(first, 40), lead("06-18", 60)) is not None) is counts


def test_one_length_is_no_rate() -> None:
    assert factor(lead("06-18", 60)) is None


def test_it_is_silent_while_a_growth_matures() -> None:
    assert factor(lead("05-21", 40), lead("06-18", 60, MATURING)) is None


def test_lengths_of_leads_that_did_not_extend_are_no_rate() -> None:
    emerging = NewGrowths(1, 0, 0, 2)
    assert factor(lead("05-21", 40, emerging), lead("06-18", 60, emerging)) is None


def test_running_roots_are_a_yardstick_too() -> None:
    """Vanda roots make 20 mm a week; 40 mm in four weeks is half of it."""
    assert ROOT_RATE == 20
    found = step(plant("vanda", root("05-21", 20), root("06-18", 60)))
    assert found is not None
    assert found.factor == pytest.approx(0.5)


def test_without_a_yardstick_it_is_silent() -> None:
    assert step(plant("oncidium", lead("05-21", 40), lead("06-18", 60))) is None


def test_the_plants_own_best_of_an_earlier_season_comes_first() -> None:
    """Last June it made 20 mm a week; 10 now is half, though usual for its kind."""
    last_year = (lead("2025-06-01", 20), lead("2025-06-22", 80))
    now = (lead("05-21", 40), lead("06-18", 80))
    assert factor(*last_year, *now) == pytest.approx(0.5)
    assert factor(*now) == pytest.approx(1.0)


def test_this_seasons_best_is_no_yardstick() -> None:
    spring = (lead("04-01", 10), lead("04-22", 130))
    now = (lead("05-21", 40), lead("06-18", 80))
    assert factor(*spring, *now) == pytest.approx(1.0)


def test_without_lamps_it_raises_by_a_quarter_at_most() -> None:
    """Long soft shoots in gloom are no vigour."""
    looks = (lead("12-01", 40), lead("12-29", 100))
    dark = judged(plant("cattleya", lead("12-29", 100)), "12-30").strength
    assert dark is not None
    season = next(s.factor for s in dark.steps if s.key == "season-light")
    assert season is not None
    assert factor(*looks, on="12-30") == pytest.approx(season * 1.25)


def test_with_lamps_it_raises_freely() -> None:
    place = Place(lamps=Lamps(hours=8, ppfd=20))
    looks = (lead("12-01", 40), lead("12-29", 100))
    assert factor(*looks, on="12-30", place=place) == pytest.approx(1.0)


def test_it_lowers_freely_without_lamps() -> None:
    assert factor(lead("05-21", 40), lead("06-18", 50)) == pytest.approx(0.25)


def test_a_much_shorter_lead_is_another_lead() -> None:
    assert factor(lead("05-21", 200), lead("06-18", 30)) is None


def test_the_sentence_names_both_rates_with_their_unit() -> None:
    one = plant("cattleya", lead("05-21", 40), lead("06-18", 60))
    sentence = wording.strength_sentence(judged(one, ON))
    assert "5 mm a week" in sentence
    assert "10" in sentence
    assert "kind" in sentence


def test_later_looks_are_not_used() -> None:
    looks = (lead("05-21", 40), lead("06-18", 60), lead("06-25", 400))
    assert factor(*looks) == pytest.approx(0.5)
