"""What the pot says: repotted, full of salts, fed lately. See ``PAGES``, below."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain import salt_standing
from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import CareKind, Health, Medium, Verdict, Water
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.rules import growth, temperature, unfed_rest

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look
    from growdesk.domain.salt_standing import Standing

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
    flush = salt_standing.flush(case)
    twice = Reason(SALTS, Role.SUPPORTS, "flush-twice", {})
    more = (twice,) if flush is not None and flush.twice else ()
    return Finding(SALTS, Verdict.FLUSH, Water.THROUGH, due, more)


def flush_due(case: Case) -> Iterator[Reason]:
    """Give each reason for which the pot is due a flush, the gravest first."""
    yield from _burn(case)
    yield from _runoff(case)
    yield from _runoff_over_kind(case)
    yield from _feeds(case)
    yield from _before_rest(case)
    yield from _estimate(case)


def _washed_since(case: Case, day: date) -> bool:
    washed = case.washed_on
    return washed is not None and washed >= day


def _burn(case: Case) -> Iterator[Reason]:
    look = case.trouble(Health.SALT_BURN)
    if look is not None and not _washed_since(case, look.on):
        yield Reason(SALTS, Role.DECIDES, "salt-burn", {"seen": look.on})


def _runoff(case: Case) -> Iterator[Reason]:
    look = _reading(case)
    if look is None or look.runoff_ec_ms_per_cm is None:
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


def _reading(case: Case) -> Look | None:
    """Give the newest reading that still counts: not washed out, nor past its time."""
    look = salt_standing.newest_reading(case)
    if look is None or _washed_since(case, look.on):
        return None
    fresh = (case.on - look.on).days <= case.house.look_limit_days
    return look if fresh or look is case.look else None


def _runoff_over_kind(case: Case) -> Iterator[Reason]:
    look, limit = _reading(case), case.kind.pot_ec_limit_ms_per_cm
    ec = None if look is None else look.runoff_ec_ms_per_cm
    if look is not None and ec is not None and ec > limit:
        title = case.kind.title
        values = {"seen": look.on, "ec": ec, "limit": limit, "kind": title}
        yield Reason(SALTS, Role.DECIDES, "runoff-over-kind", values)


def _estimate(case: Case) -> Iterator[Reason]:
    """Let the lowest estimate decide, where the house rule says so."""
    if not case.house.flush_by_estimate:
        return
    stands = _stands_to_be_washed(case)
    if stands is not None and stands.low > case.kind.pot_ec_limit_ms_per_cm:
        values = _range_of(case, stands)
        yield Reason(SALTS, Role.DECIDES, "salts-over-kind", values)


def _stands_to_be_washed(case: Case) -> Standing | None:
    """Give the estimate where something was given since, and a flush could help."""
    if case.house.water_ec_ms_per_cm >= case.kind.pot_ec_limit_ms_per_cm:
        return None
    stands = salt_standing.standing(case)
    return stands if stands is not None and stands.waterings else None


def _range_of(case: Case, stands: Standing) -> dict[str, object]:
    limit = case.kind.pot_ec_limit_ms_per_cm
    since, low, high = stands.since, stands.low, stands.high
    return {"since": since, "low_ec": low, "high_ec": high, "limit": limit}


def salts_estimated(case: Case, decider: Finding) -> Iterator[Reason]:
    """Tell where the pot may stand, if that is above what its kind should hold."""
    told = decider.reason.key == "salts-over-kind"
    if told or decider.water is Water.NONE:
        return
    stands = _stands_to_be_washed(case)
    if stands is None or stands.ec_ms_per_cm <= case.kind.pot_ec_limit_ms_per_cm:
        return
    values = _range_of(case, stands)
    if decider.verdict is Verdict.FLUSH:
        yield Reason(SALTS, Role.SUPPORTS, "salts-stand-too", values)
    else:
        yield Reason(SALTS, Role.UNKNOWN, "salts-may-stand", values)


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


PAGES: Pages = {
    just_repotted: RulePage(
        rule=JUST_REPOTTED,
        title="Just repotted",
        asks="Was it repotted within the last {settle_days}, with no root tips seen "
        "since?",
        why="Bruised roots burn in feed and heal in clear water. A new root tip says "
        "that they have taken hold.",
        silent="As soon as root tips are seen after the repot. Once {settle_days} are "
        "past feed comes back, at {fresh_repot_share} until they show.",
        example="A cattleya was repotted {settle_days} ago, its new growth extending "
        "and no root tip seen since. Clear water, if the pot is light.",
        source='"Fertilizer Burn", American Orchid Society, '
        "https://www.aos.org/orchid-care/orchid-pests-and-diseases/fertilizer-burn; "
        "the days are common practice, no source.",
    ),
    salts: RulePage(
        rule=SALTS,
        title="Salts",
        asks="Was salt burn seen? Has it had {feeds_before_flush} since it was last "
        "washed through, or {feeds_before_flush_sphagnum} in sphagnum? Did its runoff "
        "read more than {runoff_ratio} what was poured, and more than "
        "{runoff_margin_ms_per_cm} above it, or more than a pot of its kind should "
        "hold? Has it been fed, and does its unfed rest begin within "
        "{flush_before_rest_days}?",
        why="What the roots leave behind builds up in the mix and burns their tips. "
        "Clear water in quantity carries it out. Between readings of the runoff its "
        "salts are estimated from what it was given; the estimate {flush_by_estimate}. "
        "An EC that was not read is taken as {ec_per_100_ppm_n_ms_per_cm} for each 100 "
        "ppm N, over water of {water_ec_ms_per_cm}.",
        silent="After a flush or a repot the count begins anew; mounted and bare-root "
        "plants hold no feed, so none is counted. While nothing grows, or the place is "
        "too cold, the flush is put off and the sentence says so: a soaking then does "
        "more harm than the salts. Nothing is estimated for a pot of unknown volume, "
        "or without a reading, a flush or a repot within a year.",
        example="A cattleya with root tips running has had {feeds_before_flush} since "
        "it was last washed through. Flush: clear water in quantity.",
        source='"Fertilizer Burn", American Orchid Society, '
        "https://www.aos.org/orchid-care/orchid-pests-and-diseases/fertilizer-burn; "
        '"Fertilize Weakly Weekly", AOS, July 2023, '
        "https://www.aos.org/orchids/articles/fertilize-weakly-weekly (moss holds "
        "salts). The estimate follows the leaching fraction of FAO Irrigation & "
        "Drainage Paper 29, Ayers & Westcot 1985, from memory. Each kind's limit names "
        "its source in the table of kinds. Flushing every fourth watering and the "
        "limits of runoff over what was poured are common practice, no source.",
    ),
    too_soon: RulePage(
        rule=TOO_SOON,
        title="Fed lately",
        asks="Was its last feed less than {least_interval_days} ago, or less than its "
        "own interval?",
        why="Two feeds close together are one feed too strong.",
        silent="When the days are full: that day the next feed is allowed. Where the "
        "potting holds no feed (mounted, bare root, semi-hydro) every watering may "
        "feed, unless the plant has an interval of its own.",
        example="A cattleya with root tips running was fed one day less than "
        "{least_interval_days} ago. Clear water, if the pot is light.",
        source="Common practice, no source.",
    ),
}
