"""Whether the plant has been looked at lately enough to be fed.

What it asks: is there a look, and is it no older than the house's limit?
Why it matters: what was seen a month ago says little of today; an old look may withhold
water or feed, it never releases them.
When it is silent: while the last look is within the limit (its last day included).
Example: last looked at 30 days ago: look first; until then water only if dry.
Source: house rule.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.kinds import Rest

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.domain.case import Case

RULE = "look-out-of-date"


def check(case: Case, otherwise: Callable[[Case], Finding]) -> Finding | None:
    """Ask for a look, with what would hold otherwise as the guide until then."""
    age = case.look_age_days
    if age is not None and age <= case.house.look_limit_days:
        return None
    last = otherwise(case)
    water = _until_looked_at(last)
    if case.look is None:
        if case.kind.rest is Rest.LEAFLESS:
            water = Water.NONE  # it may be bare, and a bare pot is always light
        reason = Reason(RULE, Role.DECIDES, "never-looked", {})
        more: tuple[Reason, ...] = ()
    else:
        values = {"seen": case.look.on, "days": age}
        reason = Reason(RULE, Role.DECIDES, "look-old", values)
        said = {"verdict": last.verdict.value, "seen": case.look.on}
        key = f"would-have-said-{last.verdict.value}"
        more = (Reason(RULE, Role.SUPPORTS, key, said),)
    until = Reason(RULE, Role.SUPPORTS, f"until-looked-{water.value}", {})
    return Finding(RULE, Verdict.LOOK_FIRST, water, reason, (*more, until))


def _until_looked_at(last: Finding) -> Water:
    if last.water in (Water.NONE, Water.SPARING):
        return last.water
    return Water.IF_DRY
