"""The grower's own word. Its page is in ``PAGES``, below."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from growdesk.domain.case import Case

RULE = "overruled"

ENDS = tuple(".!?…")
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
    values = {"until": said.until, "why": _closed(said.reason.strip())}
    return Finding(
        RULE,
        said.verdict,
        said.water or USUAL_WATER[said.verdict],
        Reason(RULE, Role.DECIDES, "overruled", values),
    )


def _closed(sentence: str) -> str:
    """Give the grower's own sentence with a mark at its end."""
    return sentence if sentence.endswith(ENDS) else f"{sentence}."


PAGES: Pages = {
    check: RulePage(
        rule=RULE,
        title=mark("Overruled"),
        asks=mark(
            "Have you said yourself what this plant gets, and does that still hold?"
        ),
        why=mark(
            "You may know what no look records: a plant on trial, in "
            "a friend's greenhouse, or one you would rather lose "
            "than starve. It is done as you said, and it is told "
            "that it was you, and what it would get without the "
            "overrule."
        ),
        silent=mark("Without an overrule, before its first day and after its last."),
        example=mark(
            "A cattleya in which nothing moves is on trial, and you said: feed it "
            "until the end of next week. Feed."
        ),
        source=mark("House rule."),
    )
}
