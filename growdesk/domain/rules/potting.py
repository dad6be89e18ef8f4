"""What the pot says: just repotted, salts in the mix, fed too lately.

What it asks: are the roots settled, is the mix due to be washed, has it been long
enough since the last feed?
Why it matters: bruised roots burn; salts left behind by feed burn tips; two feeds close
together are one feed too strong.
When it is silent: once root tips are seen after a repot; where nothing holds salts
(mounted, bare-root: no count of feeds); where the potting is fed at every watering.
Example: the third feed since the last flush makes this watering a flush.
Source: "Fertilizer Burn", American Orchid Society,
https://www.aos.org/orchid-care/orchid-pests-and-diseases/fertilizer-burn; "Fertilize
Weakly Weekly", AOS, July 2023, https://www.aos.org/orchids/articles/fertilize-weakly-weekly
(moss holds salts); flushing every fourth watering and the limits in days are common
practice, no source.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import CareKind, Health, Medium, Verdict, Water
from growdesk.domain.rules import growth, temperature, unfed_rest

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case

JUST_REPOTTED = "just-repotted"
SALTS = "salts"
TOO_SOON = "too-soon"


def just_repotted(case: Case) -> Finding | None:
    """Hold feed while a repotted plant settles."""
    on = case.repotted_on
    if on is None or (case.on - on).days > case.house.settle_days:
        return None
    if case.tips_seen_since_repot:
        return None
    values = {
        "repotted": on,
        "until": on + timedelta(days=case.house.settle_days),
        "share": case.house.fresh_repot_share,
    }
    reason = Reason(JUST_REPOTTED, Role.DECIDES, "just-repotted", values)
    return Finding(JUST_REPOTTED, Verdict.CLEAR_WATER, Water.IF_DRY, reason)


def salts(case: Case) -> Finding | Reason | None:
    """Flush a pot that is due; say so and put it off while the plant stands still."""
    due = next(flush_due(case), None)
    if due is None:
        return None
    if temperature.too_cold(case) is not None:
        return Reason(SALTS, Role.NOT_A_REASON, "flush-waits-for-warmth", {})
    if not case.growing and not growth.may_be_fed_idle(case):
        return Reason(SALTS, Role.NOT_A_REASON, "flush-put-off", {})
    return Finding(SALTS, Verdict.FLUSH, Water.THROUGH, due)


def flush_due(case: Case) -> Iterator[Reason]:
    """Give each reason for which the pot is due a flush, the gravest first."""
    yield from _burn(case)
    yield from _runoff(case)
    yield from _feeds(case)
    yield from _before_rest(case)


def _washed_since(case: Case, day: date) -> bool:
    washed = case.washed_on
    return washed is not None and washed >= day


def _burn(case: Case) -> Iterator[Reason]:
    look = case.trouble(Health.SALT_BURN)
    if look is not None and not _washed_since(case, look.on):
        yield Reason(SALTS, Role.DECIDES, "salt-burn", {"seen": look.on})


def _runoff(case: Case) -> Iterator[Reason]:
    look = case.look
    if look is None or look.runoff_ec_ms_per_cm is None or _washed_since(case, look.on):
        return
    poured = _poured_ec(case, look.on)
    if poured is None:
        return
    house = case.house
    limit = max(poured * house.runoff_ratio, poured + house.runoff_margin_ms_per_cm)
    ec = look.runoff_ec_ms_per_cm
    if ec > limit:
        values = {"seen": look.on, "ec": ec, "limit": limit, "poured": poured}
        yield Reason(SALTS, Role.DECIDES, "runoff-high", values)


def _poured_ec(case: Case, by: date) -> float | None:
    """Give the EC of the last feed by a day in mS/cm, from its strength if not read."""
    feeds = [c for c in case.care if c.what is CareKind.FEED and c.on <= by]
    feed = feeds[-1] if feeds else None
    if feed is None:
        return None
    if feed.ec_ms_per_cm is not None:
        return feed.ec_ms_per_cm
    if feed.strength_ppm_n is None:
        return None
    per_100 = case.house.ec_per_100_ppm_n_ms_per_cm
    return case.house.water_ec_ms_per_cm + per_100 * feed.strength_ppm_n / 100


def feeds_limit(case: Case) -> int | None:
    """Give how many feeds the potting takes before a flush, if it holds any."""
    if case.plant.mounted or case.plant.medium is Medium.NONE:
        return None
    if case.plant.medium is Medium.SPHAGNUM:
        return case.house.feeds_before_flush_sphagnum
    return case.house.feeds_before_flush


def _feeds(case: Case) -> Iterator[Reason]:
    limit = feeds_limit(case)
    count = case.feeds_since_washed
    if limit is None or count < limit:
        return
    values = {"count": count, "limit": limit, "washed": case.washed_on}
    key = "feeds-at-limit" if case.washed_on else "feeds-at-limit-never-washed"
    if case.washed_on is not None and case.washed_on == case.repotted_on:
        key = "feeds-at-limit-repotted"
    yield Reason(SALTS, Role.DECIDES, key, values)


def _before_rest(case: Case) -> Iterator[Reason]:
    start = unfed_rest.starts_on(case)
    if start is None or not case.feeds_since_washed:
        return
    days = (start - case.on).days
    if not 0 < days <= case.house.flush_before_rest_days:
        return
    flush = case.last(CareKind.FLUSH)
    already = flush is not None and (
        (start - flush.on).days <= case.house.flush_before_rest_days
    )
    if not already:
        yield Reason(SALTS, Role.DECIDES, "before-rest", {"start": start})


def too_soon(case: Case) -> Finding | None:
    """Give clear water between feeds."""
    feed = case.last_feed
    days = case.days_since_feed
    if feed is None or days is None or days >= case.feed_interval_days:
        return None
    values = {"fed": feed.on, "days": days, "interval": case.feed_interval_days}
    reason = Reason(TOO_SOON, Role.DECIDES, "too-soon", values)
    return Finding(TOO_SOON, Verdict.CLEAR_WATER, Water.IF_DRY, reason)
