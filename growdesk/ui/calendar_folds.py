"""Fold looks that are due on one day into one line, with their tags by place."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from growdesk.domain.jobs.job import Sort
from growdesk.domain.speech import mark, tr
from growdesk.services.calendar_values import JobLine, JobRef

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator
    from datetime import date

LOOKS = "looks"
"""The key of a line that stands for several looks."""
LEAST = 3
_OPENS = mark("Enter shows each.")


def fold(
    lines: Iterable[JobLine], today: date, opened: Collection[date] = ()
) -> Iterator[JobLine]:
    """Give the lines with looks of one day to come as one, but of days opened."""
    for _same, group in groupby(lines, lambda line: _sameness(line, today)):
        found = list(group)
        first = found[0]
        if _sameness(first, today) is None or len(found) < LEAST or first.on in opened:
            yield from found
        else:
            yield _folded(found)


def _sameness(line: JobLine, today: date) -> tuple[date, str] | None:
    """Give what looks have alike that go into one line; none where it stands alone."""
    is_fit = line.sort is Sort.LOOK and line.closed is None
    if not is_fit or line.is_overdue(today):
        return None
    return line.on, line.title


def _folded(lines: list[JobLine]) -> JobLine:
    ordered = sorted(lines, key=lambda line: line.walk)
    by_place = [
        f"{place or tr('No place')}: {', '.join(line.tag for line in group)}."
        for place, group in groupby(ordered, lambda line: line.place)
    ]
    first = lines[0]
    return JobLine(
        ref=JobRef(LOOKS, first.on),
        sort=Sort.LOOK,
        until=None,
        tag="",
        name="",
        place="",
        title=tr("{title} at {count} plants").format(
            title=first.title, count=len(lines)
        ),
        sentence=" ".join((*by_place, tr(_OPENS))),
        walk=first.walk,
        settled=True,
    )
