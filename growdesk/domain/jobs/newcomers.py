"""A newcomer's quarantine ending."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.jobs.job import Job, Sort

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case


def jobs(case: Case, until: date) -> Iterator[Job]:
    """Give the last day of the quarantine; a suspect is not to join the others."""
    ends = case.plant.quarantine_until
    if ends is None or ends > until:
        return
    seen = case.health_look
    said = "quarantine-ends"
    if case.suspect:
        said = "quarantine-trouble"
    elif seen is None or (case.on - seen.on).days > case.house.look_limit_days:
        said = "quarantine-unseen"
    values = {"said": said, "seen": seen and seen.on}
    yield Job("quarantine-ends", Sort.NEWCOMER, ends, case.plant.tag, values=values)
