"""Plants in trouble: rot, and roots that cannot drink.

What it asks: was rot seen, are there live roots, is the plant badly shrivelled?
Why it matters: rot runs in wet tissue; feed cannot help a plant that cannot drink.
When it is silent: once a later look recorded health without the trouble; badly
shrivelled in an unfed rest, where the rest decides how much water.
Example: no live roots on 4 May: clear water, sparing, and no feed.
Source: common practice, no source.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Bulbs, Health, Leaves, RootTips, Verdict, Water
from growdesk.domain.rules import unfed_rest

if TYPE_CHECKING:
    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look

ROT = "rot"
CANNOT_DRINK = "cannot-drink"


def rot(case: Case) -> Finding | None:
    """Keep a rotting plant dry."""
    look = case.trouble(Health.ROT)
    if look is None:
        return None
    return Finding(
        ROT,
        Verdict.KEEP_DRY,
        Water.NONE,
        Reason(ROT, Role.DECIDES, "rot", {"seen": look.on}),
        (Reason(ROT, Role.SUPPORTS, "rot-what-to-do", {}),),
    )


def cannot_drink(case: Case) -> Finding | None:
    """Give clear water where feed cannot be taken up."""
    rootless = case.trouble(Health.NO_ROOTS)
    if rootless is not None:
        return _finding("no-live-roots", rootless, Water.SPARING)
    look = case.look
    if look is None or not _badly_shrivelled(look):
        return None
    if unfed_rest.check(case) is not None:
        return None
    if _roots_known_alive(case):
        return _finding("badly-shrivelled", look, Water.THROUGH)
    return _finding("shrivelled-roots-unknown", look, Water.SPARING)


def _badly_shrivelled(look: Look) -> bool:
    return look.bulbs is Bulbs.SHRIVELLED or look.leaves is Leaves.SHRIVELLED


def _roots_known_alive(case: Case) -> bool:
    tips = case.signs.tips in (RootTips.STARTING, RootTips.RUNNING)
    return tips or case.health_look is not None


def _finding(key: str, look: Look, water: Water) -> Finding:
    reason = Reason(CANNOT_DRINK, Role.DECIDES, key, {"seen": look.on})
    return Finding(CANNOT_DRINK, Verdict.CLEAR_WATER, water, reason)
