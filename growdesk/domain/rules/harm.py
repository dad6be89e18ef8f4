"""Plants in trouble: rot, and roots that cannot drink. See ``PAGES``, below."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import signs
from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Health, Verdict, Water
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.rules import unfed_rest
from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look

ROT = "rot"
CANNOT_DRINK = "cannot-drink"
SUSPECT = "suspect"
TOLD_HOWEVER_OLD = frozenset({"rot", "no-live-roots"})


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
    if look is None or not signs.badly_shrivelled(look):
        return None
    if unfed_rest.says_the_water(case):
        return None
    if case.roots_alive:
        return _finding("badly-shrivelled", look, Water.THROUGH)
    return _finding("shrivelled-roots-unknown", look, Water.SPARING)


def suspects(case: Case) -> list[Reason]:
    """Tell of pests, a suspected virus and a newcomer, which decide nothing."""
    told: list[Reason] = []
    until = case.newcomer_until
    if until is not None:
        told.append(Reason(SUSPECT, Role.SUPPORTS, "newcomer", {"until": until}))
    if case.health_look is None or not case.health_look.health:
        return told
    pests, virus = case.trouble(Health.PESTS), case.trouble(Health.VIRUS_SUSPECT)
    look = pests or virus
    if look is not None:
        key = "pests-and-virus" if pests and virus else "pests" if pests else "virus"
        told.append(Reason(SUSPECT, Role.SUPPORTS, key, {"seen": look.on}))
    return told


def _finding(key: str, look: Look, water: Water) -> Finding:
    reason = Reason(CANNOT_DRINK, Role.DECIDES, key, {"seen": look.on})
    return Finding(CANNOT_DRINK, Verdict.CLEAR_WATER, water, reason)


PAGES: Pages = {
    rot: RulePage(
        rule=ROT,
        title=mark("Rot"),
        asks=mark("Did the last look at its health find rot?"),
        why=mark(
            "Rot runs in wet tissue, and a wet crown can be gone within days. Dry, "
            "warm and in moving air the plant has a chance; apart from the others and "
            "handled last, it does not pass the rot on."
        ),
        silent=mark("Once a later look has recorded its health without rot."),
        example=mark(
            "An oncidium in full growth, with rot seen on its newest bulb three "
            "days ago. Keep dry."
        ),
        source=mark("Common practice, no source."),
    ),
    cannot_drink: RulePage(
        rule=CANNOT_DRINK,
        title=mark("Cannot drink"),
        asks=mark("Has it no live roots, or is it badly shrivelled?"),
        why=mark(
            "Feed cannot help a plant that cannot drink. Water comes "
            "first: sparing without live roots, right through the "
            "pot where they are known to live: by root tips on the "
            "move, or a record of its health without that trouble, "
            "in a look within {look_limit_days}."
        ),
        silent=mark(
            "Once a later look has recorded its health without the "
            "trouble, or has seen root tips on the move. Wrinkled "
            "bulbs are not shrivelled ones. In an unfed rest, and "
            "while nitrogen is held, the rest says how much a "
            "shrivelled plant gets."
        ),
        example=mark(
            "A miltoniopsis was found without live roots three days ago, though a "
            "new growth is up. Clear water, sparingly."
        ),
        source=mark("Common practice, no source."),
    ),
}
