"""Looks due: the last one holds no longer, or none was ever taken."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.jobs.job import Job, Sort

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case


def jobs(case: Case, until: date, came_on: date | None = None) -> Iterator[Job]:
    """Give the next look that is due; ``came_on`` is when the plant was acquired."""
    tag = case.plant.tag
    if case.look is None:
        known = [day for day in (came_on, *(c.on for c in case.plant.care)) if day]
        yield Job(
            "look-never",
            Sort.LOOK,
            min((*known, case.on)),
            tag,
            settled=True,
            floating=not known,
        )
        return
    limit = case.house.look_limit_days
    due = case.look.on + timedelta(days=limit)
    if due <= until:
        values = {"seen": case.look.on, "days": limit}
        yield Job("look-due", Sort.LOOK, due, tag, settled=True, values=values)
