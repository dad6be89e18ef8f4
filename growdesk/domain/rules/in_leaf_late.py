"""The end of the season of kinds that rest bare. See ``PAGES``, below."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import seasons
from growdesk.domain.explain import Finding, Reason, Role
from growdesk.domain.facts import Leaves, Verdict, Water
from growdesk.domain.kinds import Rest, Resume
from growdesk.domain.rule_pages import Pages, RulePage
from growdesk.domain.rules import leafless_rest
from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from growdesk.domain.case import Case

GOING_DOWN = "going-down"
STILL_GREEN = "still-green"
LEAVES_GOING = (Leaves.YELLOWING, Leaves.DROPPING)


def going_down(case: Case) -> Finding | None:
    """Give sparing clear water while the leaves of a finished growth go."""
    look = case.look
    if case.kind.rest is not Rest.LEAFLESS or look is None:
        return None
    finished = True in (case.signs.maturing, case.signs.matured)
    finished = finished or look.new_growths is None
    finished = finished and case.signs.new_growth is not True
    if look.leaves not in LEAVES_GOING or not finished or not _late_half(case):
        return None
    values = {"seen": look.on, "leaves": look.leaves.value}
    return Finding(
        GOING_DOWN,
        Verdict.CLEAR_WATER,
        Water.SPARING,
        Reason(GOING_DOWN, Role.DECIDES, f"going-down-{look.leaves.value}", values),
    )


def still_green(case: Case) -> Finding | None:
    """Stop water on a plant that is green past the house's latest date."""
    look = case.look
    of_group = case.kind.rest is Rest.LEAFLESS and (
        case.kind.resume is Resume.ROOT_LENGTH
    )
    latitude = case.house.latitude
    if not of_group or look is None or case.near_equator:
        return None
    latest = seasons.turned(case.house.still_green_after, latitude)
    late = seasons.within(case.on, latest, seasons.spring_equinox(latitude))
    on_the_day = (case.on.month, case.on.day) == latest
    new_moving = True in (case.signs.new_growth, case.signs.leaf_moving)
    if not late or on_the_day or new_moving:
        return None
    if not leafless_rest.growing_season(case).leaf_out:
        return None
    values = {"seen": look.on, "latest": seasons.last_date(case.on, latest)}
    return Finding(
        STILL_GREEN,
        Verdict.KEEP_DRY,
        Water.NONE,
        Reason(STILL_GREEN, Role.DECIDES, _still_green_key(case), values),
    )


def _still_green_key(case: Case) -> str:
    maturing = "-maturing" if case.signs.maturing else ""
    tips = "-tips" if case.signs.tips_moving else ""
    return f"still-green{maturing}{tips}"


def _late_half(case: Case) -> bool:
    latitude = case.house.latitude
    if case.near_equator:
        return True  # no month says late there, so the signs alone do
    start, end = seasons.midsummer(latitude), seasons.spring_equinox(latitude)
    return seasons.within(case.on, start, end)


PAGES: Pages = {
    going_down: RulePage(
        rule=GOING_DOWN,
        title=mark("Going down"),
        asks=mark(
            "Has a kind that rests bare finished its growth, and are its leaves "
            "yellowing or dropping?"
        ),
        why=mark(
            "It draws its leaves back into the bulb. Feed left in the pot through a "
            "dry rest burns, and full water keeps it from going to sleep."
        ),
        silent=mark(
            "For kinds that keep their leaves, while a growth "
            "emerges or extends, and from {spring_equinox} to "
            "{midsummer}. Within {equatorial_band_deg} of the "
            "equator the signs alone decide."
        ),
        example=mark(
            "A catasetum's growth has matured and its leaves were yellowing in "
            "{november}. Clear water, sparingly."
        ),
        source=mark(
            "December notes on Catasetinae by a specialist, reposted, "
            "https://orchidboard.com/community/catasetum-and-stanhopea-alliance/"
            "99265-december-notes-fred-clarke-post887112.html (stop water in late "
            "December if still green); the rest is common practice, no source."
        ),
    ),
    still_green: RulePage(
        rule=STILL_GREEN,
        title=mark("Still green"),
        asks=mark(
            "Is a catasetum or one of its relatives still in leaf after "
            "{still_green_after}, with no new growth on the move?"
        ),
        why=mark(
            "Watered on, it never rests, and it starts its next growth in the dark "
            "months. Its old roots may run on late, which is no new growth."
        ),
        silent=mark(
            "Up to {still_green_after} and after {spring_equinox}; "
            "while a new growth emerges or extends, or a new leaf "
            "moves; for other kinds; and within "
            "{equatorial_band_deg} of the equator."
        ),
        example=mark(
            "A cycnoches stood in full leaf on the day after {still_green_after}, "
            "its growth matured and no root tip to be seen. Keep dry."
        ),
        source=mark(
            "December notes on Catasetinae by a specialist, reposted, "
            "https://orchidboard.com/community/catasetum-and-stanhopea-alliance/"
            "99265-december-notes-fred-clarke-post887112.html (stop water in late "
            "December if still green); the date itself is a house rule."
        ),
    ),
}
