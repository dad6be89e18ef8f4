"""The grower's own word.

What it asks: has the grower said what to do with this plant, until a date not past?
Why it matters: the grower may know what no look records; the tool obeys and says so.
When it is silent: without an overrule, or after its last day.
Example: "Feed, said the grower, until 3 May: it stands in a friend's greenhouse."
Source: house rule.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Verdict, Water

if TYPE_CHECKING:
    from growdesk.domain.case import Case

RULE = "overruled"

USUAL_WATER = {
    Verdict.FEED: Water.THROUGH,
    Verdict.FLUSH: Water.THROUGH,
    Verdict.CLEAR_WATER: Water.IF_DRY,
    Verdict.LOOK_FIRST: Water.SPARING,
    Verdict.KEEP_DRY: Water.NONE,
}


def check(case: Case) -> Finding | None:
    """Decide as the grower said."""
    said = case.plant.overrule
    if said is None or said.until < case.on:
        return None
    if said.since is not None and said.since > case.on:
        return None
    values = {"until": said.until, "why": said.reason.strip().rstrip(".")}
    return Finding(
        RULE,
        said.verdict,
        said.water or USUAL_WATER[said.verdict],
        Reason(RULE, Role.DECIDES, "overruled", values),
    )
