"""The reasons and steps of the pages' examples as data: keys and values, no words."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest

from tests.domain.builders import HOUSE, judged
from tests.domain.rule_examples import OF_RULE, OF_STEP

if TYPE_CHECKING:
    from collections.abc import Mapping

REASONS: dict[str, tuple[tuple[str, str, dict[str, object]], ...]] = {
    "order": (
        ("rot", "rot", {"seen": "2026-05-31"}),
        ("rot", "rot-what-to-do", {}),
        ("salts", "feeds-at-limit", {"count": 3, "limit": 3, "washed": "2026-04-14"}),
        ("growing", "despite-growth-extending", {"seen": "2026-05-31"}),
    ),
    "overruled": (
        ("overruled", "overruled", {"until": "2026-04-20", "why": "it is on trial."}),
        ("overruled", "otherwise-clear-water-if-dry", {}),
        (
            "not-growing",
            "still-no-growth-no-tips",
            {"seen": "2026-04-09", "stall_days": 21, "length_mm": None},
        ),
    ),
    "leafless-rest": (
        (
            "leafless-rest",
            "bare-roots-short",
            {"seen": "2026-03-03", "root_mm": 40.0, "resume_mm": 80.0},
        ),
        ("leafless-rest", "dry-hold-look-old", {"days": 25}),
        ("growing", "despite-growth-emerging", {"seen": "2026-03-03"}),
    ),
    "look-out-of-date": (
        ("look-out-of-date", "look-old", {"seen": "2026-05-10", "days": 22}),
        (
            "look-out-of-date",
            "would-have-said-feed",
            {"verdict": "feed", "seen": "2026-05-10"},
        ),
        ("look-out-of-date", "until-looked-if-dry", {}),
    ),
    "rot": (
        ("rot", "rot", {"seen": "2026-05-29"}),
        ("rot", "rot-what-to-do", {}),
        ("growing", "despite-growth-extending", {"seen": "2026-05-29"}),
    ),
    "going-down": (
        (
            "going-down",
            "going-down-yellowing",
            {"seen": "2026-11-10", "leaves": "yellowing"},
        ),
        (
            "not-growing",
            "still-no-growth-tips-not-recorded",
            {"seen": "2026-11-10", "stall_days": 21, "length_mm": None},
        ),
    ),
    "still-green": (
        ("still-green", "still-green", {"seen": "2026-12-21", "latest": "2026-12-20"}),
    ),
    "cannot-drink": (
        ("cannot-drink", "no-live-roots", {"seen": "2026-05-29"}),
        ("growing", "despite-growth-extending", {"seen": "2026-05-29"}),
    ),
    "too-cold": (
        ("too-cold", "too-cold", {"mean_c": 12.0, "limit_c": 13.0, "days": 7}),
        ("growing", "despite-growth-extending", {"seen": "2026-11-07"}),
    ),
    "too-hot": (
        ("too-hot", "too-hot", {"mean_c": 29.0, "limit_c": 27.0, "days": 7}),
        ("growing", "despite-growth-extending", {"seen": "2026-07-07"}),
    ),
    "unfed-rest": (
        (
            "unfed-rest",
            "no-nitrogen-held-budded",
            {"since": "2025-09-15", "until": "2026-02-28", "seen": "2026-02-12"},
        ),
        ("bloom", "bloom-waters-only", {}),
    ),
    "just-repotted": (
        (
            "just-repotted",
            "just-repotted",
            {"repotted": "2026-04-26", "until": "2026-05-10", "share": 0.5},
        ),
        ("growing", "despite-growth-extending", {"seen": "2026-05-09"}),
    ),
    "salts": (
        ("salts", "feeds-at-limit", {"count": 3, "limit": 3, "washed": "2026-04-14"}),
        ("growing", "growth-extending", {"seen": "2026-05-31"}),
    ),
    "too-soon": (
        ("too-soon", "too-soon", {"fed": "2026-05-27", "days": 5, "interval": 6}),
    ),
    "idle-never-resting": (
        (
            "idle-never-resting",
            "idle-hidden",
            {"seen": "2026-01-19", "interval": 30, "share": 0.5, "fed": "2025-12-21"},
        ),
    ),
    "not-growing": (
        (
            "not-growing",
            "still-no-growth-no-tips",
            {"seen": "2026-01-19", "stall_days": 21, "length_mm": None},
        ),
        ("bloom", "bloom-open-then-not", {"seen": "2026-01-19"}),
    ),
    "growing": (
        ("growing", "growth-extending", {"seen": "2026-01-19"}),
        ("bloom", "bloom-open-then-fed", {"seen": "2026-01-19"}),
    ),
    "suspect": (
        ("growing", "growth-extending", {"seen": "2026-05-29"}),
        ("suspect", "pests", {"seen": "2026-05-29"}),
    ),
    "kind": (
        ("growing", "growth-extending", {"seen": "2026-05-31"}),
        ("kind", "kind-unknown", {"kind": "Unheardofia"}),
    ),
    "dates": (
        (
            "not-growing",
            "still-no-growth-no-tips",
            {"seen": "2026-05-31", "stall_days": 21, "length_mm": None},
        ),
        ("dates", "look-later", {"seen": "2026-06-02"}),
    ),
}

STEPS: dict[str, tuple[tuple[str, float | None, dict[str, object]], ...]] = {
    "strength": (
        ("full-house", None, {}),
        ("feeder-light", 0.5, {}),
        ("season-controlled", 1.0, {}),
        ("rounded", None, {"step": 10.0}),
    ),
    "full-strength": (
        ("full-own", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-controlled", 1.0, {}),
    ),
    "feeder": (
        ("full-house", None, {}),
        ("feeder-light", 0.5, {}),
        ("season-controlled", 1.0, {}),
        ("rounded", None, {"step": 10.0}),
    ),
    "controlled-place": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-controlled", 1.0, {}),
    ),
    "season-light": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-light", 0.4927, {"ra": 8.6897, "latitude": 48.0, "light": "bright"}),
        ("rounded", None, {"step": 10.0}),
    ),
    "light-read": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        (
            "season-light-read",
            0.4375,
            {
                "dli": 4.0,
                "full_dli": 22.0009,
                "light": "bright",
                "read_days": 3,
                "days": 21,
            },
        ),
        ("rounded", None, {"step": 10.0}),
    ),
    "daylight": (
        ("full-house", None, {}),
        ("feeder-heavy", 1.25, {}),
        (
            "season-window",
            0.7414,
            {"dli": 2.5056, "full_dli": 6.8753, "light": "medium", "facing": "east"},
        ),
        ("rounded", None, {"step": 10.0}),
    ),
    "season-lamps": (
        ("full-house", None, {}),
        ("feeder-heavy", 1.25, {}),
        ("season-lamps", 0.7516, {"dli": 2.592, "full_dli": 6.8753, "light": "medium"}),
        ("rounded", None, {"step": 10.0}),
    ),
    "season-temperature": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-light", 0.4927, {"ra": 8.6897, "latitude": 48.0, "light": "bright"}),
        ("season-temperature", 0.6667, {"mean_c": 14.0, "days": 21}),
        ("rounded", None, {"step": 10.0}),
    ),
    "performance": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("performance-lead-own", 0.5, {"rate": 10.0, "best": 20.0, "season": 0.8338}),
        ("rounded", None, {"step": 10.0}),
    ),
    "seedling": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-controlled", 1.0, {}),
        ("seedling", 0.5, {}),
        ("rounded", None, {"step": 10.0}),
    ),
    "no-tips-yet": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-light", 1.0, {"ra": 41.7834, "latitude": 48.2, "light": "bright"}),
        ("no-tips-yet", 0.5, {}),
        ("rounded", None, {"step": 10.0}),
    ),
    "fresh-repot": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-light", 1.0, {"ra": 41.7834, "latitude": 48.2, "light": "bright"}),
        ("fresh-repot", 0.5, {"repotted": "2026-04-16"}),
        ("rounded", None, {"step": 10.0}),
    ),
    "slow-release": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-controlled", 1.0, {}),
        ("slow-release", 0.5, {"until": "2026-07-15"}),
        ("rounded", None, {"step": 10.0}),
    ),
    "sphagnum": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-controlled", 1.0, {}),
        ("sphagnum", 0.75, {}),
        ("rounded", None, {"step": 10.0}),
    ),
    "fed-oftener": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-controlled", 1.0, {}),
        ("fed-oftener", 0.5, {"interval": 3, "days": 6}),
        ("rounded", None, {"step": 10.0}),
    ),
    "floor": (
        ("full-house", None, {}),
        ("feeder-light", 0.5, {}),
        ("season-light", 0.5812, {"ra": 8.6897, "latitude": 48.0, "light": "medium"}),
        ("seedling", 0.5, {}),
        ("fresh-repot", 0.5, {"repotted": "2026-10-16"}),
        ("floor", None, {"floor": 30.0}),
    ),
    "ceiling": (
        ("full-house", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-controlled", 1.0, {}),
        ("ceiling-own", None, {"ceiling": 20.0}),
    ),
    "rounded": (
        ("full-own", None, {}),
        ("feeder-medium", 1.0, {}),
        ("season-controlled", 1.0, {}),
        ("rounded", None, {"step": 10.0}),
    ),
}


def plain(values: Mapping[str, object]) -> dict[str, object]:
    return {name: _plain(value) for name, value in values.items()}


def _plain(value: object) -> object:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, str):
        return str(value)
    return round(value, 4) if isinstance(value, float) else value


@pytest.mark.parametrize("page", OF_RULE)
def test_a_rules_example_carries_its_data(page: str) -> None:
    make, _ = OF_RULE[page]
    one, on = make(HOUSE)
    told = [
        (each.rule, each.key, plain(each.values)) for each in judged(one, on).reasons
    ]
    assert tuple(told) == REASONS[page]


@pytest.mark.parametrize("page", OF_STEP)
def test_a_steps_example_carries_its_data(page: str) -> None:
    make, _, _ = OF_STEP[page]
    one, on, house = make(HOUSE)
    strength = judged(one, on, house).strength
    assert strength is not None
    told = [
        (
            step.key,
            None if step.factor is None else round(step.factor, 4),
            plain(step.values),
        )
        for step in strength.steps
    ]
    assert tuple(told) == STEPS[page]
