"""The unfed rests, and the rest without nitrogen. See ``PAGES``, below."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import seasons, signs
from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Flowering, RootTips, Size, Verdict, Water
from growdesk.domain.kinds import Rest
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look

RULE = "unfed-rest"
BUDDED = frozenset({Flowering.BUDS, Flowering.OPEN})
_ROOTS_UNSEEN = {RootTips.HIDDEN: "-hidden", None: "-roots-not-recorded"}
_ANY_YEAR = date(2001, 1, 1)


def takes_unfed_rest(case: Case) -> bool:
    """Tell whether this plant takes an unfed rest at all."""
    return (
        case.kind.rest in (Rest.UNFED, Rest.NO_NITROGEN)
        and not case.plant.ignores_rest
        and case.plant.size is not Size.SEEDLING
        and not case.near_equator
    )


def starts_on(case: Case) -> date | None:
    """Give the next day an unfed rest begins, or nothing where none is taken."""
    if not takes_unfed_rest(case):
        return None
    return seasons.next_date(case.on, _first_day(case))


def check(case: Case) -> Finding | None:
    """Hold feed in an unfed rest."""
    if not takes_unfed_rest(case):
        return None
    if case.kind.rest is Rest.UNFED:
        return _cool_and_dry(case)
    return _no_nitrogen(case)


def last_days(case: Case) -> Iterator[date]:
    """Give the first day after the rest that the calendar knows of."""
    if not takes_unfed_rest(case):
        return
    if case.kind.rest is Rest.NO_NITROGEN:
        yield _after(case.on, _nitrogen_back(case))
        counts_from = _hidden_until(case)
        if counts_from is not None:
            yield counts_from
        return
    north = (seasons.last_month(case.kind.rest_months), 1)
    month = seasons.turned(north, case.house.latitude)[0]
    last = seasons.last_of_month(month)
    yield seasons.next_date(case.on, last) + timedelta(days=1)


def says_the_water(case: Case) -> bool:
    """Tell whether a plant is in its rest, so that the rest says how it is watered.

    Once the nitrogen's hold is over the rest has ended; only feed still waits.
    """
    if case.kind.rest is Rest.NO_NITROGEN and not _Hold.of(case).holds:
        return False
    return check(case) is not None


def names_the_shoot(finding: Finding) -> bool:
    """Tell whether a finding of this rule speaks of the shoot itself."""
    return finding.reason.key.endswith(tuple(_ROOTS_UNSEEN.values()))


def says_budded(finding: Finding) -> bool:
    """Tell whether a finding of this rule gives the water back for flower buds."""
    return finding.reason.key.endswith("-budded")


class _Hold(Struct, frozen=True):
    """The latest hold of nitrogen: its first day, and the first day after it."""

    began: date
    ended: date
    holds: bool

    @classmethod
    def of(cls, case: Case) -> _Hold:
        began = seasons.last_date(case.on, _first_day(case))
        ended = seasons.last_date(case.on, _nitrogen_back(case))
        return cls(began, ended, began > ended)


def _nitrogen_back(case: Case) -> tuple[int, int]:
    """Give the house's day, or that after the kind's rest months if it is later."""
    house = case.house
    back, months = house.nitrogen_back_from, case.kind.rest_months
    if months:
        own = (seasons.last_month(months) % 12 + 1, 1)
        back = max(back, own, key=lambda day: _days_from(house.no_nitrogen_from, day))
    return seasons.turned(back, house.latitude)


def _days_from(start: tuple[int, int], day: tuple[int, int]) -> int:
    """Give the days from one day of the year on to the next such other day."""
    since = seasons.next_date(_ANY_YEAR, start)
    return (seasons.next_date(since, day) - since).days


def _after(on: date, month_day: tuple[int, int]) -> date:
    return seasons.next_date(on + timedelta(days=1), month_day)


def _first_day(case: Case) -> tuple[int, int]:
    latitude = case.house.latitude
    if case.kind.rest is Rest.NO_NITROGEN:
        return seasons.turned(case.house.no_nitrogen_from, latitude)
    return seasons.turned((seasons.first_month(case.kind.rest_months), 1), latitude)


def _cool_and_dry(case: Case) -> Finding | None:
    latitude = case.house.latitude
    months = seasons.turned_months(case.kind.rest_months, latitude)
    if case.on.month not in months:
        return None
    if case.signs.growth or case.signs.tips_moving:
        return None
    last = seasons.turned((seasons.last_month(case.kind.rest_months), 1), latitude)[0]
    known = case.signs.growth is False and case.signs.tips_moving is False
    values = {
        "seen": case.look and case.look.on,
        "until": seasons.next_date(case.on, seasons.last_of_month(last)),
    }
    key = "resting-nothing-moves" if known else "resting-signs-not-known"
    if case.signs.stalled:
        key = "resting-stalled"
    return Finding(
        RULE,
        Verdict.CLEAR_WATER,
        Water.SPARING,
        Reason(RULE, Role.DECIDES, key, values),
    )


def _no_nitrogen(case: Case) -> Finding | None:
    hold = _Hold.of(case)
    if not hold.holds and _growth_back(case, hold.ended):
        return None
    budded = _budded(case, hold.began)
    values: dict[str, object] = {
        "since": hold.began,
        "until": _after(case.on, _nitrogen_back(case)) - timedelta(days=1),
        "seen": budded.on if budded else case.look and case.look.on,
    }
    key = "no-nitrogen-held" if hold.holds else "no-nitrogen-after"
    if budded:
        key = f"{key}-budded"
    elif not hold.holds and case.signs.extending:
        key = f"{key}{_ROOTS_UNSEEN.get(case.signs.tips, '')}"
        values["fed_from"] = _hidden_until(case)
        values["days"] = case.house.hidden_roots_days
    water = Water.IF_DRY if budded or _draws_water(case, hold) else Water.SPARING
    return Finding(
        RULE, Verdict.CLEAR_WATER, water, Reason(RULE, Role.DECIDES, key, values)
    )


def _draws_water(case: Case, hold: _Hold) -> bool:
    """Tell whether something was seen on the move; lately, while nitrogen is held."""
    age = case.look_age_days
    lately = age is not None and age <= case.house.look_limit_days
    return case.signs.moving and (lately or not hold.holds)


def _growth_back(case: Case, ended: date) -> bool:
    """Tell whether a look since the hold ended shows this year's growth rooting."""
    return any(
        _rooting(case, index)
        for index, look in enumerate(case.looks)
        if look.on >= ended or look is case.look
    )


def _rooting(case: Case, index: int) -> bool:
    seen = signs.seen_in(case.looks[: index + 1], case.house.stall_days)
    if seen.maturing or (seen.extending and seen.tips_moving):
        return True
    if not seen.extending or seen.tips is not RootTips.HIDDEN:
        return False
    counts_until = case.looks[index].on + timedelta(days=case.house.look_limit_days)
    if index + 1 < len(case.looks):
        counts_until = min(counts_until, case.looks[index + 1].on - timedelta(days=1))
    return _counts_from(case, index) <= min(counts_until, case.on)


def _counts_from(case: Case, index: int) -> date:
    """Give the day from which a growth counts as rooted though its roots are hidden."""
    first = case.looks[index].on
    midwinter = seasons.midwinter(case.house.latitude)
    this_year = seasons.last_date(case.on, midwinter)
    for earlier in range(index, -1, -1):
        looks = case.looks[: earlier + 1]
        shoot = signs.seen_in(looks, case.house.stall_days).new_growth
        if shoot is False or looks[-1].on < this_year:
            break
        if shoot:
            first = looks[-1].on
    return first + timedelta(days=case.house.hidden_roots_days)


def _hidden_until(case: Case) -> date | None:
    """Give the day on which the newest look's hidden roots will count, if ever."""
    hidden = case.signs.extending and case.signs.tips is RootTips.HIDDEN
    return _counts_from(case, len(case.looks) - 1) if hidden else None


def _budded(case: Case, since: date) -> Look | None:
    """Give the first look of this rest with buds, until its flowers are spent."""
    newest = case.look
    flowering = (newest and newest.flowering) or frozenset()
    if not flowering & {*BUDDED, Flowering.FADING}:
        return None
    in_bud = (k for k in case.looks if (k.flowering or frozenset()) & BUDDED)
    return next((k for k in in_bud if k.on >= since or k is newest), None)


PAGES: Pages = {
    check: RulePage(
        rule=RULE,
        title=mark("Unfed rest"),
        asks=mark(
            "Is this kind in the months in which it takes no feed, or no nitrogen?"
        ),
        why=mark(
            "Feed in a cool, dry rest stays in the pot as salts. Nitrogen late in the "
            "year delays or costs soft-cane dendrobiums their flowers."
        ),
        silent=mark(
            "For seedlings, for plants marked as ignoring their "
            "rest, and within {equatorial_band_deg} of the equator. "
            "A cool and dry rest ends with the first new growth or "
            "root tip on the move. A rest without nitrogen holds "
            "from {no_nitrogen_from} up to {nitrogen_back_from}, or "
            "to the end of the kind's rest months if that is later. "
            "Then it waits for a growth that matures or extends with "
            "root tips; hidden ones count {hidden_roots_days} after "
            "the growth was first seen."
        ),
        example=mark(
            "A soft-cane dendrobium showed flower buds on 12 {february}: its water "
            "is back, its nitrogen is not. Clear water, if the pot is light."
        ),
        source=mark(
            "Bichsel, Starman & Wang, HortScience 43(2), 2008, "
            "https://sciencedocbox.com/Botany/90841774-Hortscience-43-2.html "
            "(feed carried to 1 November delays bloom); C. Yen, "
            "thesis, Texas A&M 2008, "
            "https://studylib.net/doc/8846978/ (stopping on 1 "
            "October flowered best). The two disagree on the date, "
            "so it is a house rule."
        ),
    )
}
