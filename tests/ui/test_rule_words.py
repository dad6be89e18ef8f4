"""Words of the page of house rules: values, defaults, and what a change would do."""

from __future__ import annotations

from datetime import date

import pytest

from growdesk.domain.facts import House, Verdict, Water
from growdesk.services.house_rules import DECLARED
from growdesk.services.rule_effects import HouseEffect, Outcome, PlantEffect
from growdesk.ui import rule_words, words

ON = date(2026, 11, 25)
RULES = {setting.key: setting for setting in DECLARED}
FED = Outcome(Verdict.FEED, Water.THROUGH, 150.0, 0.3)
CLEAR = Outcome(Verdict.CLEAR_WATER, Water.IF_DRY, None, 0.3)
SPARING = Outcome(Verdict.CLEAR_WATER, Water.SPARING, None, 0.3)
LOOK = Outcome(Verdict.LOOK_FIRST, Water.SPARING, None, 0.3)
WEAKER = Outcome(Verdict.FEED, Water.THROUGH, 100.0, 0.3)
MORE = Outcome(Verdict.FEED, Water.THROUGH, 150.0, 0.6)


def told(
    *changes: tuple[Outcome, Outcome],
    jugs: tuple[tuple[int, ...], tuple[int, ...]] = ((150,), (150,)),
) -> str:
    plants = tuple(
        PlantEffect(number, f"A{number}", "", before, after)
        for number, (before, after) in enumerate(changes, 1)
    )
    said = rule_words.effect(HouseEffect(ON, plants, *jugs))
    return said.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("full_strength_ppm_n", "150 ppm N"),
        ("latitude", "50°"),
        ("band_low", "25 %"),
        ("pot_share", "25 % of the pot"),
        ("feeder_heavy_share", "125 % of full strength"),
        ("half_light_low", "0.15"),
        ("jugs", "3"),
        ("still_green_after", "20 December"),
        ("spike_draws_feed_always", "no"),
        ("watering_weekdays", "Wednesday and Saturday"),
        ("resume_root_mm", "the kind's own"),
        ("fresh_repot_most_days", "365 days at most"),
    ],
)
def test_a_default_is_said_with_its_unit(key: str, said: str) -> None:
    setting = RULES[key]
    assert rule_words.value(setting, getattr(House(), key)) == said
    assert rule_words.default(setting) == f"Default {said}. {setting.source}"


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("full_strength_ppm_n", "Back to default, 150 ppm N"),
        ("feeder_heavy_share", "Back to default, 125 %"),
        ("fresh_repot_most_days", "Back to default, 365 days"),
        ("watering_weekdays", "Back to default, Wednesday and Saturday"),
        ("no_nitrogen_from", "Back to default, 15 September"),
    ],
)
def test_the_way_back_names_the_default(key: str, said: str) -> None:
    assert rule_words.back(RULES[key]) == said


@pytest.mark.parametrize(
    ("value", "digits", "said"),
    [(100.0, 0, "100"), (100.0, 2, "100"), (0.25, 2, "0.25"), (0.5, 2, "0.5")],
)
def test_only_idle_zeros_fall_off_a_number(
    value: float, digits: int, said: str
) -> None:
    assert words.number(value, digits) == said


def test_nothing_changed_is_said_so() -> None:
    assert told() == "On Wednesday 25 November nothing would change."


def test_turned_verdicts_come_first_each_with_both_sides() -> None:
    assert told((FED, CLEAR), (FED, WEAKER), (SPARING, CLEAR)) == (
        "On Wednesday 25 November: 2 plants would change: A1 feed 150 ppm N → clear "
        "water; A3 clear water sparingly → if the pot is light. 1 plant would get "
        "another strength: A2 150 → 100 ppm N."
    )


def test_many_plants_are_counted_after_the_first_few() -> None:
    said = told(*[(FED, LOOK)] * 6)
    assert said.startswith("On Wednesday 25 November: 6 plants would change: A1 ")
    assert said.endswith("A4 feed 150 ppm N → look first; and 2 more.")
    assert "more" not in told(*[(FED, LOOK)] * 4)


def test_volumes_and_jugs_are_told_last() -> None:
    assert told((FED, MORE), jugs=((150, 80), (150,))) == (
        "On Wednesday 25 November: 1 plant would get another volume. "
        "Jugs of 150 ppm N instead of 150 and 80."
    )
    assert told(jugs=((150,), ())).endswith("No jug of feed would be mixed.")
    assert told(jugs=((), (150, 80, 60))).endswith(
        "Jugs of 150, 80 and 60 ppm N would be mixed."
    )
