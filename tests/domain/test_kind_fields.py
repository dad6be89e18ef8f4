"""The fields of a kind: group, sort, unit, range, bond and what an empty one means."""

from __future__ import annotations

import pytest

from growdesk.domain.kind_fields import (
    ADVICE,
    DECLARED,
    FEED,
    FIELDS,
    GROWTH,
    HABIT,
    LIGHT,
    NAME,
    REPOT,
    SALTS,
    Sort,
)

SEEN: dict[str, tuple[str, str, Sort, str, str, str]] = {
    "title": ("Title", NAME, Sort.TEXT, "", "", ""),
    "habit": ("Habit", HABIT, Sort.CHOICE, "", "", ""),
    "rest": ("Rest", HABIT, Sort.CHOICE, "", "", "rest"),
    "rest_months": ("Rest months", HABIT, Sort.MONTHS, "", "", "rest"),
    "resume": ("Rest ends with", HABIT, Sort.CHOICE, "", "", "rest"),
    "resume_root_mm": (
        "Roots that end it",
        HABIT,
        Sort.NUMBER,
        "mm",
        "from 0 to 1000",
        "rest",
    ),
    "feeder": ("Feeder", FEED, Sort.CHOICE, "", "", ""),
    "ceiling_ppm_n": ("Ceiling", FEED, Sort.NUMBER, "ppm N", "from 1 to 1000", ""),
    "ceiling_is_ours": ("Whose ceiling", FEED, Sort.YES_NO, "", "", ""),
    "idle_interval_days": (
        "Fed while idle every",
        FEED,
        Sort.WHOLE,
        "days",
        "from 1 to 365",
        "",
    ),
    "spike_draws_feed": ("Spike draws feed", FEED, Sort.YES_NO, "", "", ""),
    "light_low_fc": (
        "Light from",
        LIGHT,
        Sort.NUMBER,
        "foot-candles",
        "from 10 to 12000",
        "light",
    ),
    "light_high_fc": (
        "Light to",
        LIGHT,
        Sort.NUMBER,
        "foot-candles",
        "from 10 to 12000",
        "light",
    ),
    "warmth": ("Warmth", LIGHT, Sort.CHOICE, "", "", ""),
    "base_c": ("Growth begins at", LIGHT, Sort.NUMBER, "°C", "from 0 to 60", "growth"),
    "best_low_c": ("Best from", LIGHT, Sort.NUMBER, "°C", "from 0 to 60", "growth"),
    "best_high_c": ("Best to", LIGHT, Sort.NUMBER, "°C", "from 0 to 60", "growth"),
    "stop_c": ("Growth stops at", LIGHT, Sort.NUMBER, "°C", "from 0 to 60", "growth"),
    "least_feed_c": (
        "Too cold to feed at",
        LIGHT,
        Sort.NUMBER,
        "°C",
        "from 0 to 60",
        "feed",
    ),
    "most_feed_c": (
        "Too hot to feed above",
        LIGHT,
        Sort.NUMBER,
        "°C",
        "from 0 to 60",
        "feed",
    ),
    "least_night_c": (
        "Coldest night",
        LIGHT,
        Sort.NUMBER,
        "°C",
        "from 0 to 60",
        "nights",
    ),
    "most_day_c": (
        "Hottest day",
        LIGHT,
        Sort.NUMBER,
        "°C",
        "from 0 to 60",
        "nights",
    ),
    "lead_rate_mm_per_week": (
        "Lead grows",
        GROWTH,
        Sort.NUMBER,
        "mm a week",
        "above 0 and at most 500",
        "",
    ),
    "root_rate_mm_per_week": (
        "Roots grow",
        GROWTH,
        Sort.NUMBER,
        "mm a week",
        "above 0 and at most 500",
        "",
    ),
    "growth_weeks": (
        "Growth takes",
        GROWTH,
        Sort.NUMBER,
        "weeks",
        "from 0.5 to 104",
        "",
    ),
    "spike_weeks": ("Spike takes", GROWTH, Sort.NUMBER, "weeks", "from 0.5 to 104", ""),
    "flower_weeks": ("In flower", GROWTH, Sort.NUMBER, "weeks", "from 0.5 to 104", ""),
    "blooms_from_unripe": (
        "Blooms from unripe growth",
        GROWTH,
        Sort.YES_NO,
        "",
        "",
        "",
    ),
    "old_spikes_branch": ("Old spikes branch", GROWTH, Sort.YES_NO, "", "", ""),
    "pot_ec_limit_ms_per_cm": (
        "Most salts in the pot",
        SALTS,
        Sort.NUMBER,
        "mS/cm",
        "from 0.05 to 10",
        "",
    ),
    "repot_years": (
        "Repotted every",
        REPOT,
        Sort.NUMBER,
        "years",
        "above 0 and at most 20",
        "",
    ),
    "repot_moment": ("Best moment", REPOT, Sort.TEXT, "", "", ""),
    "advice": ("Worth knowing", ADVICE, Sort.TEXT, "", "", ""),
}
EMPTY = {
    "rest_months": "none",
    "resume": "none",
    "ceiling_ppm_n": "none",
    "idle_interval_days": "as the house has it",
    "lead_rate_mm_per_week": "not known",
    "root_rate_mm_per_week": "not known",
    "repot_years": "not known",
    "advice": "none",
}


@pytest.mark.parametrize("name", FIELDS)
def test_a_field_is_declared_as_a_grower_sees_it(name: str) -> None:
    one = FIELDS[name]
    allowed = "" if one.allowed is None else str(one.allowed)
    told = (one.title, one.group, one.sort, one.unit, allowed, one.bond)
    assert told == SEEN[name]


def test_only_a_value_that_may_be_missing_may_be_empty() -> None:
    assert {one.name: one.empty for one in DECLARED if one.optional} == EMPTY


def test_a_choice_has_words_for_its_values_and_all_but_one_field_a_meaning() -> None:
    for one in DECLARED:
        assert bool(one.choices) is (one.sort in {Sort.CHOICE, Sort.YES_NO})
        assert all(one.choices.values() if one.choices else ())
    assert [one.name for one in DECLARED if not one.meaning] == ["repot_years"]
    assert {one.meaning[-1] for one in DECLARED if one.meaning} == {"."}
