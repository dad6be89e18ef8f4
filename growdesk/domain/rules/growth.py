"""Active growth, which decides. The pages are in ``PAGES``, below."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import NewLeaf, RootTips, Verdict, Water
from growdesk.domain.kinds import Habit, Rest
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from growdesk.domain.case import Case

IDLE = "idle-never-resting"
NOT_GROWING = "not-growing"
GROWING = "growing"


def may_be_fed_idle(case: Case) -> bool:
    """Tell whether a plant without a sign may still be fed slowly.

    Only evergreen kinds without a rest whose root tips are hidden or not recorded:
    tips looked for and absent are an answer.
    """
    return (
        not case.growing
        and case.kind.rest is Rest.NONE
        and case.signs.tips_moving is None
    )


def idle_interval_days(case: Case) -> int:
    """Give the days between feeds of an idle plant."""
    return case.kind.idle_interval_days or case.house.idle_interval_days


def idle(case: Case) -> Finding | None:
    """Feed at a share, seldom, where growth cannot be seen but does not rest."""
    if not may_be_fed_idle(case):
        return None
    days, interval = case.days_since_feed, idle_interval_days(case)
    if days is not None and days < interval:
        return None
    values = {
        "seen": case.look and case.look.on,
        "interval": interval,
        "share": case.house.idle_share,
        "fed": case.last_feed and case.last_feed.on,
    }
    hidden = case.signs.tips is RootTips.HIDDEN
    key = "idle-hidden" if hidden else "idle-not-recorded"
    reason = Reason(IDLE, Role.DECIDES, key, values)
    share = case.house.idle_share
    return Finding(IDLE, Verdict.FEED, Water.THROUGH, reason, factor=share)


def not_growing(case: Case) -> Finding | None:
    """Give clear water while nothing moves."""
    if case.growing:
        return None
    reason = Reason(NOT_GROWING, Role.DECIDES, _still_key(case), _still_values(case))
    more: tuple[Reason, ...] = ()
    if may_be_fed_idle(case):
        values = {
            "interval": idle_interval_days(case),
            "share": case.house.idle_share,
            "fed": _fed_on(case),
        }
        more = (Reason(IDLE, Role.SUPPORTS, "idle-wait", values),)
    return Finding(NOT_GROWING, Verdict.CLEAR_WATER, Water.IF_DRY, reason, more)


def growing(case: Case) -> Finding:
    """Feed what grows."""
    values = seen_on(case)
    decider, *others = seen_growing(case)
    return Finding(
        GROWING,
        Verdict.FEED,
        Water.THROUGH,
        Reason(GROWING, Role.DECIDES, decider, values),
        tuple([Reason(GROWING, Role.SUPPORTS, key, values) for key in others]),
    )


def seen_growing(case: Case) -> list[str]:
    """Give the key of each sign of growth seen, the most telling first."""
    seen = case.signs
    order = (
        (seen.extending, "growth-extending"),
        (seen.tips is RootTips.RUNNING, "tips-running"),
        (seen.leaf is NewLeaf.EXTENDING, "leaf-extending"),
        (seen.maturing, "growth-maturing"),
        (seen.tips is RootTips.STARTING, "tips-starting"),
        (seen.emerging, "growth-emerging"),
        (seen.leaf is NewLeaf.STARTING, "leaf-starting"),
        (case.spike_grows, "spike-draws-feed"),
    )
    return [key for answer, key in order if answer]


def seen_on(case: Case) -> dict[str, object]:
    """Give when the signs of growth were seen."""
    return {"seen": case.look and case.look.on}


def decided_by_spike(case: Case) -> bool:
    """Tell whether a spike or buds are the only sign, and so the deciding one."""
    return case.spike_grows and not case.signs.moving


def _fed_on(case: Case) -> object:
    return case.last_feed and case.last_feed.on


def _still_key(case: Case) -> str:
    tips = {True: "tips", False: "no-tips", None: "tips-not-recorded"}
    shown = tips[case.signs.tips_moving]
    if case.signs.tips is RootTips.HIDDEN:
        shown = "tips-hidden"
    if case.kind.habit is Habit.MONOPODIAL:
        leaf = "no-leaf" if case.signs.leaf_moving is False else "leaf-not-recorded"
        return f"still-{leaf}-{shown}"
    growth = "no-growth" if case.signs.growth is False else "growth-not-recorded"
    if case.signs.stalled:
        growth = "growth-stalled"
    return f"still-{growth}-{shown}"


def _still_values(case: Case) -> dict[str, object]:
    return {
        "seen": case.look and case.look.on,
        "stall_days": case.house.stall_days,
        "length_mm": case.look and case.look.lead_length_mm,
    }


PAGES: Pages = {
    idle: RulePage(
        rule=IDLE,
        title=mark("Idle but never resting"),
        asks=mark(
            "Is it a kind that never rests, its root tips hidden or "
            "not recorded and nothing else on the move? Was its last "
            "feed {idle_interval_days} ago, or as long as its kind "
            "asks?"
        ),
        why=mark(
            "In moss or an opaque pot nobody sees the roots, and such a plant goes on "
            "growing slowly. A weak feed now and then keeps it going."
        ),
        silent=mark(
            "For kinds with a rest, and where root tips were looked "
            "for and not found, which is an answer. Until the days "
            "are full it gets clear water. Moth orchids go by 14 "
            "days. Its feed is {idle_share} of what it would take in "
            "growth."
        ),
        example=mark(
            "A miltoniopsis in an opaque pot, no new growth seen, was last fed "
            "{idle_interval_days} ago. Feed."
        ),
        source=mark(
            "Common practice, no source; its share and its days are house rules."
        ),
    ),
    not_growing: RulePage(
        rule=NOT_GROWING,
        title=mark("Not growing"),
        asks=mark(
            "Was nothing seen on the move: no new growth, no new leaf, no root tip?"
        ),
        why=mark(
            "A plant takes up feed where it grows. What is given to one that stands "
            "still is left in the pot."
        ),
        silent=mark(
            "As soon as one sign is seen. A spike or buds on the way are a sign in "
            "{spike_draws_feed_always}. A growth no more than 1 mm longer after "
            "{stall_days} stands still and is none."
        ),
        example=mark(
            "A cattleya in flower showed no new growth and no root tips. Clear "
            "water, if the pot is light."
        ),
        source=mark(
            '"Fertilize Weakly Weekly", AOS, July 2023, '
            "https://www.aos.org/orchids/articles/fertilize-weakly-weekly (supply "
            "follows growth)."
        ),
    ),
    growing: RulePage(
        rule=GROWING,
        title=mark("Growing"),
        asks=mark("Is a new growth, a new leaf or a root tip on the move?"),
        why=mark(
            "A plant takes up feed where it grows. Bloom neither asks for feed nor "
            "forbids it."
        ),
        silent=mark(
            "When nothing moves. It has the last word, once nothing stronger has "
            "spoken; a spike or buds on the way count in {spike_draws_feed_always}."
        ),
        example=mark("A cattleya in flower has a new growth extending. Feed."),
        source=mark(
            '"Fertilize Weakly Weekly", AOS, July 2023, '
            "https://www.aos.org/orchids/articles/fertilize-weakly-weekly (supply "
            "follows growth); Wang & Chang, HortTechnology 27(2):144-149, 2017 (57 % "
            "of the nitrogen in a moth orchid's spike at visible bud is taken up after "
            "cooling starts)."
        ),
    ),
}
