"""Whether the last look is fresh enough. Its page is in ``PAGES``, below."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import bare_by_now
from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.kinds import Rest
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.speech import mark

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
        if bare_by_now.may_be_bare(case):
            water = Water.NONE
            more = (Reason(RULE, Role.SUPPORTS, "may-be-bare", {}),)
    until = Reason(RULE, Role.SUPPORTS, f"until-looked-{water.value}", {})
    return Finding(RULE, Verdict.LOOK_FIRST, water, reason, (*more, until))


def _until_looked_at(last: Finding) -> Water:
    if last.water in (Water.NONE, Water.SPARING):
        return last.water
    return Water.IF_DRY


PAGES: Pages = {
    check: RulePage(
        rule=RULE,
        title=mark("Look out of date"),
        asks=mark("Was the plant looked at within the last {look_limit_days}?"),
        why=mark(
            "What was seen a month ago says little of today. An old "
            "look may hold water or feed back; it never releases "
            "them. A plant that rests bare and was last seen before "
            "its rest gets no water until then."
        ),
        silent=mark(
            "While the last look is {look_limit_days} old or younger. A leafless "
            "rest does not go out of date: it holds, and asks for a look at the roots."
        ),
        example=mark(
            "A cattleya had root tips running at its last look, one day more than "
            "{look_limit_days} ago. Look at it first."
        ),
        source=mark("House rule."),
    )
}
