"""What the pot says: repotted, full of salts, fed lately. See ``PAGES``, below."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Final

from growdesk.domain import salt_standing
from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import CareKind, Health, Medium, Verdict, Water
from growdesk.domain.once import once_for
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.rules import growth, temperature, unfed_rest
from growdesk.domain.salt_course import MOST_DAYS
from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look
    from growdesk.domain.salt_standing import Flush, Standing

JUST_REPOTTED = "just-repotted"
SALTS = "salts"
TOO_SOON = "too-soon"
WATER_TOO_SALTY = "water-too-salty"
METER_DIGITS = 2
"""A meter reads runoff to 0.01 mS/cm."""


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
    """Flush a pot that is due; say so and put it off while the plant stands still.

    With water no weaker than the pot may be, clear water is given and feed held.
    """
    for asked in _DUE:
        due = asked(case)
        if due is not None:
            break
    else:
        return None
    if temperature.too_cold(case) is not None:
        return Reason(SALTS, Role.NOT_A_REASON, "flush-waits-for-warmth", {})
    if not case.growing and not growth.may_be_fed_idle(case):
        return Reason(SALTS, Role.NOT_A_REASON, "flush-put-off", {})
    if salt_standing.water_too_salty(case):
        why = Reason(SALTS, Role.SUPPORTS, due.key, due.values)
        reason = Reason(SALTS, Role.DECIDES, WATER_TOO_SALTY, _water_of(case))
        return Finding(SALTS, Verdict.CLEAR_WATER, Water.IF_DRY, reason, (why,))
    return Finding(SALTS, Verdict.FLUSH, Water.THROUGH, due)


def _water_of(case: Case) -> dict[str, object]:
    kind = case.kind
    return {
        "water": case.house.water_ec_ms_per_cm,
        "limit": kind.pot_ec_limit_ms_per_cm,
        "kind": kind.title,
    }


def flush_due(case: Case) -> Iterator[Reason]:
    """Give each reason for which the pot is due a flush, the gravest first."""
    for asked in _DUE:
        reason = asked(case)
        if reason is not None:
            yield reason


def _washed_since(case: Case, day: date) -> bool:
    washed = case.washed_on
    return washed is not None and washed >= day


def _burn(case: Case) -> Reason | None:
    """Ask a flush for burn that was first seen after the last one: tips never heal."""
    first = case.trouble(Health.SALT_BURN)
    if first is None:
        return None
    for look in reversed(case.looks):
        if look.health is None:
            continue
        if Health.SALT_BURN not in look.health:
            break
        first = look
    if _washed_since(case, first.on):
        return None
    return Reason(SALTS, Role.DECIDES, "salt-burn", {"seen": first.on})


def _runoff(case: Case) -> Reason | None:
    if case.reading is None:
        return None
    look = _reading(case)
    if look is None or look.runoff_ec_ms_per_cm is None:
        return None
    poured = _poured_ec(case, look.on)
    if poured is None:
        return None
    house = case.house
    limit = max(poured * house.runoff_ratio, poured + house.runoff_margin_ms_per_cm)
    if not _reads_above(look, limit):
        return None
    values = {**_read(case, look), "limit": limit, "poured": poured}
    return Reason(SALTS, Role.DECIDES, _dated("runoff-high", case, look), values)


@once_for
def _reading(case: Case) -> Look | None:
    """Give the newest reading of a year unless the pot was washed after it."""
    look = case.reading
    if look is None or _washed_since(case, look.on):
        return None
    return look if (case.on - look.on).days <= MOST_DAYS else None


def _runoff_over_kind(case: Case) -> Reason | None:
    if case.reading is None:
        return None
    look, limit = _reading(case), case.kind.pot_ec_limit_ms_per_cm
    if look is None or not _reads_above(look, limit):
        return None
    values = {**_read(case, look), "limit": limit, "kind": case.kind.title}
    return Reason(SALTS, Role.DECIDES, _dated("runoff-over-kind", case, look), values)


def _reads_above(look: Look, limit: float) -> bool:
    """Tell whether a reading is above a limit, as finely as a meter shows it."""
    ec = look.runoff_ec_ms_per_cm
    return ec is not None and round(ec, METER_DIGITS) > round(limit, METER_DIGITS)


def _read(case: Case, look: Look) -> dict[str, object]:
    days = (case.on - look.on).days
    return {"seen": look.on, "days": days, "ec": look.runoff_ec_ms_per_cm}


def _dated(key: str, case: Case, look: Look) -> str:
    return f"{key}-today" if look.on == case.on else key


def _estimate(case: Case) -> Reason | None:
    """Let the lowest estimate decide, where the house rule says so."""
    if not case.house.flush_by_estimate:
        return None
    stands = _stands_to_be_washed(case)
    if stands is None or stands.low <= case.kind.pot_ec_limit_ms_per_cm:
        return None
    return Reason(SALTS, Role.DECIDES, "salts-over-kind", _range_of(case, stands))


def _stands_to_be_washed(case: Case) -> Standing | None:
    """Give the estimate where something was given since, and a flush could help."""
    if salt_standing.water_too_salty(case):
        return None
    stands = salt_standing.standing(case)
    return stands if stands is not None and stands.waterings else None


def _range_of(case: Case, stands: Standing) -> dict[str, object]:
    limit = case.kind.pot_ec_limit_ms_per_cm
    since, low, high = stands.since, stands.low, stands.high
    return {"since": since, "low_ec": low, "high_ec": high, "limit": limit}


def flushed_twice(flush: Flush | None) -> Iterator[Reason]:
    """Say that one soaking is not enough, where that can be told."""
    if flush is not None and flush.twice:
        yield Reason(SALTS, Role.SUPPORTS, "flush-twice", {})


def salts_estimated(case: Case, decider: Finding) -> Iterator[Reason]:
    """Tell where the pot may stand, if that is above what its kind should hold.

    It decides nothing and costs as much as a judgement: only for a plant that is told.
    """
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
    feeds = (c for c in reversed(case.care) if c.what is CareKind.FEED and c.on <= by)
    feed = next(feeds, None)
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


def _feeds(case: Case) -> Reason | None:
    limit = feeds_limit(case)
    count = case.feeds_since_washed
    if limit is None or count < limit:
        return None
    values = {"count": count, "limit": limit, "washed": case.washed_on}
    key = "feeds-at-limit" if case.washed_on else "feeds-at-limit-never-washed"
    if case.washed_on is not None and case.washed_on == case.repotted_on:
        key = "feeds-at-limit-repotted"
    return Reason(SALTS, Role.DECIDES, key, values)


def _before_rest(case: Case) -> Reason | None:
    start = unfed_rest.starts_on(case)
    if start is None or not case.feeds_since_washed or feeds_limit(case) is None:
        return None
    within = case.house.flush_before_rest_days
    if not 0 < (start - case.on).days <= within:
        return None
    flushed = case.flushed_on
    if flushed is not None and (start - flushed).days <= within:
        return None
    key = "before-rest-fed" if _fed_before(case, start) else "before-rest"
    return Reason(SALTS, Role.DECIDES, key, {"start": start, "days": within})


# Each reason for a flush, the gravest first.
_DUE: Final = (_burn, _runoff, _runoff_over_kind, _feeds, _before_rest, _estimate)


def _fed_before(case: Case, start: date) -> bool:
    """Tell whether a watering day on which it may be fed is left before a day."""
    first, feed = case.on + timedelta(days=1), case.last_feed
    if feed is not None:
        first = max(first, feed.on + timedelta(days=case.feed_interval_days))
    days = (first + timedelta(days=n) for n in range((start - first).days))
    return any(day.weekday() in case.house.watering_weekdays for day in days)


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
        title=mark("Just repotted"),
        asks=mark(
            "Was it repotted within the last {settle_days}, with no root tips seen "
            "since?"
        ),
        why=mark(
            "Bruised roots burn in feed and heal in clear water. A new root tip says "
            "that they have taken hold."
        ),
        silent=mark(
            "As soon as root tips are seen after the repot. Once {settle_days} are "
            "past feed comes back, at {fresh_repot_share} until they show."
        ),
        example=mark(
            "A cattleya was repotted {settle_days} ago, its new growth extending "
            "and no root tip seen since. Clear water, if the pot is light."
        ),
        source=mark(
            '"Fertilizer Burn", American Orchid Society, '
            "https://www.aos.org/orchid-care/orchid-pests-and-diseases/"
            "fertilizer-burn; "
            "the days are common practice, no source."
        ),
    ),
    salts: RulePage(
        rule=SALTS,
        title=mark("Salts"),
        asks=mark(
            "Was salt burn first seen since it was last washed "
            "through? Has it had {feeds_before_flush} since then, or "
            "{feeds_before_flush_sphagnum} in sphagnum? Did its "
            "runoff, read within a year and not washed out since, "
            "read more than {runoff_ratio} what was poured, and more "
            "than {runoff_margin_ms_per_cm} above it, or more than a "
            "pot of its kind should hold? Has it been fed, and does "
            "its unfed rest begin within {flush_before_rest_days}?"
        ),
        why=mark(
            "What the roots leave behind builds up in the mix and "
            "burns their tips. Clear water in quantity carries it "
            "out. Between readings of the runoff its salts are "
            "estimated from what it was given; the estimate "
            "{flush_by_estimate}. An EC that was not read is taken "
            "as {ec_per_100_ppm_n_ms_per_cm} for each 100 ppm N, "
            "over water of {water_ec_ms_per_cm}."
        ),
        silent=mark(
            "A flush or a repot washes a reading out and begins the "
            "count anew, and so does rain of {rain_flushes_mm} in a "
            "day on a pot outdoors; burnt tips never heal, so burn "
            "seen before it asks for none. Mounted and bare-root "
            "plants hold no feed, so none is counted, nor washed out "
            "before a rest. While nothing grows, or the place is too "
            "cold, the flush is put off, for a soaking then does "
            "more harm than the salts; and where the water is itself "
            "no weaker than a pot of its kind should be, feed is "
            "held and rain or RO water asked for. Nothing is "
            "estimated for a pot of unknown volume, or without a "
            "reading, a flush or a repot within a year."
        ),
        example=mark(
            "A cattleya with root tips running has had {feeds_before_flush} since "
            "it was last washed through. Flush: clear water in quantity."
        ),
        source=mark(
            '"Fertilizer Burn", American Orchid Society, '
            "https://www.aos.org/orchid-care/orchid-pests-and-diseases/"
            "fertilizer-burn; "
            '"Fertilize Weakly Weekly", AOS, July 2023, '
            "https://www.aos.org/orchids/articles/fertilize-weakly-weekly "
            "(moss holds salts). The estimate follows the leaching "
            "fraction of FAO Irrigation & Drainage Paper 29, Ayers & "
            "Westcot 1985, from memory. Each kind's limit names its "
            "source in the table of kinds. Flushing every fourth "
            "watering, the limits of runoff over what was poured and "
            "how much rain counts are common practice, no source."
        ),
    ),
    too_soon: RulePage(
        rule=TOO_SOON,
        title=mark("Fed lately"),
        asks=mark(
            "Was its last feed less than {least_interval_days} ago, or less than its "
            "own interval?"
        ),
        why=mark("Two feeds close together are one feed too strong."),
        silent=mark(
            "When the days are full: that day the next feed is allowed. Where the "
            "potting holds no feed (mounted, bare root, semi-hydro) every watering may "
            "feed, unless the plant has an interval of its own."
        ),
        example=mark(
            "A cattleya with root tips running was fed one day less than "
            "{least_interval_days} ago. Clear water, if the pot is light."
        ),
        source=mark("Common practice, no source."),
    ),
}
