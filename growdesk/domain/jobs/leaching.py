"""The leach before a rest, and the first water after it."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.jobs.job import Job, Sort
from growdesk.domain.jobs.rest_days import ONE, Span, at, holds, spans
from growdesk.domain.kinds import Rest, Resume
from growdesk.domain.rules import leafless_rest, potting

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case

WATERED = (CareKind.CLEAR_WATER, CareKind.FEED, CareKind.FLUSH, CareKind.RAIN)
BEFORE_REST = ("before-rest", "before-rest-fed")
MISSED_DAYS = 30
"""So long a first water that was not written down is still asked for."""


def jobs(case: Case, until: date) -> Iterator[Job]:
    """Give the leaches before rests and the first waters after them."""
    if case.kind.rest is Rest.LEAFLESS:
        yield from _first_water_of_bare(case, until)
        return
    if case.kind.rest not in (Rest.UNFED, Rest.NO_NITROGEN):
        return
    for span in spans(case, until + _window(case)):
        yield from _leach(case, span, until)
        yield from _first_water(case, span, until)


def _window(case: Case) -> timedelta:
    return timedelta(days=case.house.flush_before_rest_days)


def _leach(case: Case, span: Span, until: date) -> Iterator[Job]:
    """Give the leach; within its days the rule itself says whether it is due."""
    first = span.begin - _window(case)
    if not case.on < span.begin or first == span.begin or first > until:
        return
    if case.on >= first:
        due = any(reason.key in BEFORE_REST for reason in potting.flush_due(case))
    else:
        due = potting.feeds_limit(case) is not None
    if due:
        values = {"start": span.begin, "kind": case.kind.title}
        yield Job(
            "leach-before-rest",
            Sort.WATER,
            first,
            case.plant.tag,
            until=span.begin - ONE,
            settled=True,
            values=values,
        )


def _first_water(case: Case, span: Span, until: date) -> Iterator[Job]:
    back = span.end + ONE
    missed_until = back + timedelta(days=MISSED_DAYS)
    if back > until or case.on > missed_until or not _rested(case, span):
        return
    if any(c.what in WATERED and back <= c.on <= case.on for c in case.plant.care):
        return
    nitrogen = case.kind.rest is Rest.NO_NITROGEN
    yield Job(
        "first-water-no-nitrogen" if nitrogen else "first-water",
        Sort.WATER,
        back,
        case.plant.tag,
        until=missed_until,
        settled=True,
        values={"last": span.end, "kind": case.kind.title},
    )


def _rested(case: Case, span: Span) -> bool:
    """Tell whether the plant rests to the end of its days, as far as was seen."""
    if case.on < span.begin:
        return True
    return holds(at(case, min(case.on, span.end)))


def _first_water_of_bare(case: Case, until: date) -> Iterator[Job]:
    """Tell when the roots of a bare plant are to be measured for its first water."""
    finding = leafless_rest.check(case)
    if finding is None or finding.verdict is not Verdict.KEEP_DRY:
        return
    span = next((s for s in spans(case, until) if s.end + ONE >= case.on), None)
    if span is None or not span.begin <= case.on:
        return
    by_length = case.kind.resume is Resume.ROOT_LENGTH
    back = span.end + ONE
    if back <= until:
        yield Job(
            "first-water-measured" if by_length else "first-water-bare",
            Sort.WATER,
            back,
            case.plant.tag,
            forecast=True,
            values={
                "kind": case.kind.title,
                "resume_mm": leafless_rest.resume_mm(case),
            },
        )
