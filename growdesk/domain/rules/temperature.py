"""Places too cold or too hot to feed in. See ``PAGES``, below."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import mean_read
from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from growdesk.domain.case import Case

TOO_COLD = "too-cold"
TOO_HOT = "too-hot"


def too_cold(case: Case) -> Finding | None:
    """Hold feed in a place that has been too cold."""
    mean_c = case.place_day.lately_c
    if mean_c is None or mean_c > case.kind.least_feed_c:
        return None
    return _finding(case, TOO_COLD, case.kind.least_feed_c)


def too_hot(case: Case) -> Finding | None:
    """Hold feed in a place that has been too hot."""
    mean_c = case.place_day.lately_c
    if mean_c is None or mean_c <= case.kind.most_feed_c:
        return None
    return _finding(case, TOO_HOT, case.kind.most_feed_c)


def _finding(case: Case, rule: str, limit_c: float) -> Finding:
    how, read = mean_read.told(case, case.house.cold_window_days)
    values = {**read, "limit_c": limit_c}
    return Finding(
        rule,
        Verdict.CLEAR_WATER,
        Water.IF_DRY,
        Reason(rule, Role.DECIDES, f"{rule}{how}", values),
    )


PAGES: Pages = {
    too_cold: RulePage(
        rule=TOO_COLD,
        title=mark("Too cold"),
        asks=mark(
            "Has the place averaged no more, over the last {cold_window_days}, than "
            "the least at which this kind takes up feed?"
        ),
        why=mark(
            "Roots that stand still in the cold leave the feed in the pot, where it "
            "stays as salts."
        ),
        silent=mark(
            "Without readings and without a mean for the place. Each "
            "kind has its own least: 15 °C for warm growers, 13 °C "
            "for intermediate and 8 °C for cool ones."
        ),
        example=mark(
            "An oncidium has a new growth extending, but its place has averaged "
            "12 °C. Clear water, if the pot is light."
        ),
        source=mark(
            "The limits by growing class are common practice, no source (below about "
            "50 °F several warm growers stop, and coated feeds release near 60 °F); "
            "base temperature of Zygopetalum leaf growth 6.2 °C, ASHS abstract "
            "(Zygopetalum Redvale 'Fire Kiss')."
        ),
    ),
    too_hot: RulePage(
        rule=TOO_HOT,
        title=mark("Too hot"),
        asks=mark(
            "Has the place averaged more, over the last {cold_window_days}, than the "
            "most at which this kind is fed?"
        ),
        why=mark(
            "In great heat a plant drinks without growing, and what it does not take "
            "up dries into salts around its roots."
        ),
        silent=mark(
            "Without readings and without a mean for the place. The most is 32 °C "
            "for most kinds and 27 °C for cool growers."
        ),
        example=mark(
            "A masdevallia has a new growth extending, but its place has averaged "
            "29 °C. Clear water, if the pot is light."
        ),
        source=mark(
            "The limits by growing class are common practice, no source (below about "
            "50 °F several warm growers stop, and coated feeds release near 60 °F)."
        ),
    ),
}
