"""The unfed rests, and the rest without nitrogen. See ``PAGES``, below."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain import seasons, signs
from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Flowering, Size, Verdict, Water
from growdesk.domain.kinds import Rest
from growdesk.domain.rule_pages import Pages, RulePage

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look

RULE = "unfed-rest"
BUDDED = frozenset({Flowering.BUDS, Flowering.OPEN})


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
        return
    month = seasons.turned((_last_month(case), 1), case.house.latitude)[0]
    last = seasons.last_of_month(month)
    yield seasons.next_date(case.on, last) + timedelta(days=1)


def _nitrogen_back(case: Case) -> tuple[int, int]:
    return seasons.turned(case.house.nitrogen_back_from, case.house.latitude)


def _after(on: date, month_day: tuple[int, int]) -> date:
    return seasons.next_date(on + timedelta(days=1), month_day)


def _first_day(case: Case) -> tuple[int, int]:
    latitude = case.house.latitude
    if case.kind.rest is Rest.NO_NITROGEN:
        return seasons.turned(case.house.no_nitrogen_from, latitude)
    return (seasons.turned((_first_month(case), 1), latitude)[0], 1)


def _first_month(case: Case) -> int:
    months = case.kind.rest_months
    starts = [m for m in months if (m - 2) % 12 + 1 not in months]
    return starts[0] if starts else months[0]


def _last_month(case: Case) -> int:
    months = case.kind.rest_months
    ends = [m for m in months if m % 12 + 1 not in months]
    return ends[0] if ends else months[-1]


def _cool_and_dry(case: Case) -> Finding | None:
    latitude = case.house.latitude
    months = seasons.turned_months(case.kind.rest_months, latitude)
    if case.on.month not in months:
        return None
    if case.signs.growth or case.signs.tips_moving:
        return None
    last = seasons.turned((_last_month(case), 1), latitude)[0]
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
    start = seasons.turned(case.house.no_nitrogen_from, case.house.latitude)
    back = _nitrogen_back(case)
    began = seasons.last_date(case.on, start)
    ended = seasons.last_date(case.on, back)
    held = began > ended
    if not held and _growth_back(case, ended - timedelta(days=1)):
        return None
    budded = _budded(case, began)
    values = {
        "since": began,
        "until": _after(case.on, back) - timedelta(days=1),
        "seen": budded.on if budded else None,
    }
    when = "held" if held else "after"
    key = f"no-nitrogen-{when}-budded" if budded else f"no-nitrogen-{when}"
    water = Water.IF_DRY if budded else Water.SPARING
    return Finding(
        RULE, Verdict.CLEAR_WATER, water, Reason(RULE, Role.DECIDES, key, values)
    )


def _growth_back(case: Case, since: date) -> bool:
    """Tell whether a look since the hold ended shows this year's growth rooting."""
    looks = case.looks
    for index, look in enumerate(looks):
        if look.on <= since:
            continue
        seen = signs.seen_in(looks[: index + 1], case.house.stall_days)
        if seen.maturing or (seen.extending and seen.tips_moving):
            return True
    return bool(case.signs.maturing) or (
        case.signs.extending is True and case.signs.tips_moving is True
    )


def _budded(case: Case, since: date) -> Look | None:
    """Give the first look of this rest with buds, if the newest still shows them."""
    newest = case.look
    if newest is None or not (newest.flowering or frozenset()) & BUDDED:
        return None
    return next(
        look
        for look in case.looks
        if look is newest
        or (look.on >= since and (look.flowering or frozenset()) & BUDDED)
    )


PAGES: Pages = {
    check: RulePage(
        rule=RULE,
        title="Unfed rest",
        asks="Is this kind in the months in which it takes no feed, or no nitrogen?",
        why="Feed in a cool, dry rest stays in the pot as salts. Nitrogen late in the "
        "year delays or costs soft-cane dendrobiums their flowers.",
        silent="For seedlings, for plants marked as ignoring their rest, and within "
        "{equatorial_band_deg} of the equator. A cool and dry rest ends with the first "
        "new growth or root tip on the move. A rest without nitrogen does not: it "
        "holds from {no_nitrogen_from} up to {nitrogen_back_from} whatever grows, and "
        "then until a new growth extends with root tips, or matures.",
        example="A soft-cane dendrobium showed flower buds on 12 {february}: its water "
        "is back, its nitrogen is not. Clear water, if the pot is light.",
        source="Bichsel, Starman & Wang, HortScience 43(2), 2008, "
        "https://sciencedocbox.com/Botany/90841774-Hortscience-43-2.html (feed carried "
        "to 1 November delays bloom); C. Yen, thesis, Texas A&M 2008, "
        "https://studylib.net/doc/8846978/ (stopping on 1 October flowered best). The "
        "two disagree on the date, so it is a house rule.",
    )
}
