"""Places too cold or too hot to feed in.

What it asks: has the place's mean of the last 7 days (a house rule) been at or below
the least at which the kind takes up feed, or above the most it bears?
Why it matters: roots that stand still leave the feed in the pot as salts.
When it is silent: without readings and without a mean for the place.
Example: an Oncidium at a mean of 12 °C: clear water, only if dry.
Source: least temperatures by growing class are common practice, no source (below about
50 °F several warm growers stop, and coated feeds release near 60 °F); base temperature
of Zygopetalum leaf growth 6.2 °C, ASHS abstract (Zygopetalum Redvale 'Fire Kiss').
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Verdict, Water

if TYPE_CHECKING:
    from growdesk.domain.case import Case

TOO_COLD = "too-cold"
TOO_HOT = "too-hot"


def too_cold(case: Case) -> Finding | None:
    """Hold feed in a place that has been too cold."""
    mean_c = case.mean_c(case.house.cold_window_days)
    if mean_c is None or mean_c > case.kind.least_feed_c:
        return None
    return _finding(case, TOO_COLD, mean_c, case.kind.least_feed_c)


def too_hot(case: Case) -> Finding | None:
    """Hold feed in a place that has been too hot."""
    mean_c = case.mean_c(case.house.cold_window_days)
    if mean_c is None or mean_c <= case.kind.most_feed_c:
        return None
    return _finding(case, TOO_HOT, mean_c, case.kind.most_feed_c)


def _finding(case: Case, rule: str, mean_c: float, limit_c: float) -> Finding:
    days = case.house.cold_window_days
    values = {"mean_c": mean_c, "limit_c": limit_c, "days": days}
    key = rule if case.mean_is_dated(days) else f"{rule}-undated"
    return Finding(
        rule,
        Verdict.CLEAR_WATER,
        Water.IF_DRY,
        Reason(rule, Role.DECIDES, key, values),
    )
