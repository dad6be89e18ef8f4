"""Repots due by the age of the medium, at the moment that is right for the kind.

Due is not now: a repot waits for the sign its kind wants, and for the end of flowers.
"""

from __future__ import annotations

import calendar
from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.facts import Medium
from growdesk.domain.jobs import repot_moments
from growdesk.domain.jobs.job import Job, Sort
from growdesk.domain.jobs.rest_days import at

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.case import Case

MONTHS = 12
WAITING = ("repot-waits", "repot-in-flower")


def jobs(case: Case, until: date) -> Iterator[Job]:
    """Give the repot that falls due up to a day, or waits, or may be done now."""
    since, years = case.repotted_on, lasting_years(case)
    if since is None or years is None:
        return
    due = years_later(since, years)
    if due > until:
        return
    said, came = _stands(case, due)
    yield Job(
        "repot",
        Sort.REPOT,
        due,
        case.plant.tag,
        settled=True,
        forecast=said in WAITING,
        values={
            "said": said,
            "since": since,
            "years": years,
            "medium": case.plant.medium and case.plant.medium.value,
            "moment": case.kind.repot_moment,
            "seen": case.look and case.look.on,
            "came": came,
            "kind": case.kind.title,
            "due": due,
        },
    )


def lasting_years(case: Case) -> float | None:
    """Give the years until the next repot: the kind's, or the medium's if shorter."""
    house = case.house
    if case.plant.mounted:
        return None
    lasts = {
        Medium.BARK: house.bark_years,
        Medium.SPHAGNUM: house.sphagnum_years,
        Medium.MINERAL: house.mineral_years,
        Medium.SEMI_HYDRO: house.semi_hydro_years,
        Medium.SOIL: house.soil_years,
    }
    medium = case.plant.medium
    if medium is Medium.NONE:
        return None
    by_medium = None if medium is None else lasts[medium]
    known = [years for years in (case.kind.repot_years, by_medium) if years]
    return min(known, default=None)


def years_later(day: date, years: float) -> date:
    """Give the day some years on, to a month; the last of a month stays within it."""
    months = day.year * MONTHS + day.month - 1 + round(years * MONTHS)
    year, month = months // MONTHS, months % MONTHS + 1
    return date(year, month, min(day.day, calendar.monthrange(year, month)[1]))


def _stands(case: Case, due: date) -> tuple[str, date]:
    """Give how a repot stands, and the day from which it stands so."""
    plain = "" if case.kind.repot_moment else "-plain"
    if case.on < due:
        return f"repot-due{plain}", due
    if case.look is not None and repot_moments.in_flower(case.look):
        return "repot-in-flower", due
    if not repot_moments.has_come(case):
        return "repot-waits", due
    came = due
    for look in reversed(case.looks):
        if not repot_moments.has_come(at(case, look.on)):
            break
        came = max(due, look.on)
    return f"repot-now{plain}", came
