"""What is dated after the day is told of; what is too old to count is not."""

from __future__ import annotations

from datetime import timedelta

import pytest

from growdesk.domain.facts import CareKind
from tests.domain.builders import day, did, judged, moving, of_rule, plant

ON = day("2026-06-03")


@pytest.mark.parametrize("later", [0, 1, 9])
@pytest.mark.parametrize("years_ago", [1, 3, 20])
def test_only_what_is_later_is_told(later: int, years_ago: int) -> None:
    old = ON - timedelta(days=365 * years_ago)
    looks = [
        moving(old),
        moving(ON),
        *[moving(ON + timedelta(days=later))] * bool(later),
    ]
    dates = [old, ON, *[ON + timedelta(days=later)] * bool(later)]
    care = tuple(did(on.isoformat(), CareKind.CLEAR_WATER) for on in dates)
    told = of_rule(judged(plant("cattleya", *looks, care=care), ON), "dates")
    expected = [
        ("look-later", {"seen": ON + timedelta(days=later)}),
        ("care-later", {"done": ON + timedelta(days=later)}),
    ]
    assert [(one.key, one.values) for one in told] == (expected if later else [])
