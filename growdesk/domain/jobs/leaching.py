"""The leach before a rest, and the first water after it."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain import rain
from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.domain.jobs.job import Job, Sort
from growdesk.domain.jobs.rest_days import ONE, Span, at, holds, spans
from growdesk.domain.judging import judge
from growdesk.domain.kinds import Rest, Resume
from growdesk.domain.rules import leafless_rest, potting

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import Care

WATERED = (CareKind.CLEAR_WATER, CareKind.FEED, CareKind.FLUSH)
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
    """Give the leach; within its days the rule itself says whether it is due.

    Then it waits while the verdict is no flush: nothing grows, it is cold, it is sick.
    """
    first = span.begin - _window(case)
    if not case.on < span.begin or first == span.begin or first > until:
        return
    if case.on >= first:
        due = any(reason.key in BEFORE_REST for reason in potting.flush_due(case))
    else:
        due = potting.feeds_limit(case) is not None
    if due:
        waits = case.on >= first and _judged(case).verdict is not Verdict.FLUSH
        said = "leach-waits" if waits else "leach-before-rest"
        values = {"said": said, "start": span.begin, "kind": case.kind.title}
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
    if any(back <= c.on <= case.on and _watered(case, c) for c in case.plant.care):
        return
    if case.on >= back and not _may_drink(case):
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


def _watered(case: Case, care: Care) -> bool:
    return care.what in WATERED or rain.waters(care, case.house)


def _judged(case: Case) -> Judgement:
    return judge(case.plant, case.kind, case.house, case.on, kind_known=case.kind_known)


def _may_drink(case: Case) -> bool:
    """Tell whether the day's verdict leaves it clear water; a feed is its own word."""
    judged = _judged(case)
    waits = judged.verdict in (Verdict.CLEAR_WATER, Verdict.LOOK_FIRST)
    sparing = judged.water is Water.SPARING and case.kind.rest is Rest.UNFED
    return waits and judged.water is not Water.NONE and not sparing


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
