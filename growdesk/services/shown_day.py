"""A watering day as it is shown: judged as it stands, or as the walked week has it.

A day to come goes by the days before it, taken as done as planned, so that the list,
the plant, the week and the sheet say one thing of it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.services.judged_day import JudgedDay, judged_day
from growdesk.services.week_walk import walked_to

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.week_walk import WalkedWeek
    from growdesk.store.session import Session


def shown_day(session: Session, on: date, today: date) -> JudgedDay:
    """Judge all plants on a day, one to come after the rounds planned before it."""
    if on <= today:
        return judged_day(session, on)
    walked = walked_to(session, on, today)
    rounds = zip(walked.left, walked.mixes(), strict=True)
    each, mix = next(found for found in rounds if found[0].on == on)
    plants = zip(walked.known, each.plants, each.judged, strict=True)
    return JudgedDay(
        on=on,
        house=walked.house,
        shelf=walked.shelf,
        judged=tuple((replace(k, plant=plant), judged) for k, plant, judged in plants),
        taken_as_done=_taken_as_done(walked, on),
        planned=mix,
    )


def _taken_as_done(walked: WalkedWeek, on: date) -> tuple[date, ...]:
    """Give the days before one whose care is planned and not on record yet."""
    return tuple(
        each.on
        for each, following in zip(walked.rounds, walked.rounds[1:], strict=False)
        if each.on < on and each.plants != following.plants
    )
