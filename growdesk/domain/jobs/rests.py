"""Rests coming, holding and ending."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import seasons
from growdesk.domain.facts import Verdict
from growdesk.domain.jobs.job import Job, Sort
from growdesk.domain.jobs.rest_days import ONE, Span, at, holds, spans
from growdesk.domain.kinds import Rest, Resume
from growdesk.domain.rules import in_leaf_late, leafless_rest, unfed_rest

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import date

    from growdesk.domain.case import Case

KEYS = {
    Rest.REDUCED: "rest-slow",
    Rest.UNFED: "rest-unfed",
    Rest.NO_NITROGEN: "rest-no-nitrogen",
    Rest.LEAFLESS: "rest-bare-expected",
}


def jobs(case: Case, until: date) -> Iterator[Job]:
    """Give the rests that hold now or begin up to a day."""
    bare_now = _bare_now(case)
    now = False
    for span in spans(case, until):
        if span.end < case.on:
            continue
        if span.has(case.on):
            now = True
            if bare_now is not None or not _may_hold(case, span):
                continue
        yield _told(case, KEYS[case.kind.rest], span.begin, span.end)
    if bare_now is not None:
        yield bare_now
    yield from _still_green(case, until)
    if not now and unfed_rest.check(case) is not None:
        yield _told(case, "rest-nitrogen-waits", _hold_ended(case))


def _may_hold(case: Case, span: Span) -> bool:
    if case.kind.rest is not Rest.LEAFLESS:
        return holds(case)
    return not _woken(case, span)


def _woken(case: Case, span: Span) -> bool:
    """Tell whether a look of these months found it growing, since the year turned."""
    turn = seasons.last_date(case.on, seasons.midwinter(case.house.latitude))
    begun = leafless_rest.growing_season(case).begun
    return begun and case.look is not None and case.look.on >= max(turn, span.begin)


def _hold_ended(case: Case) -> date:
    """Give the first day after the last hold of nitrogen."""
    return max(s.end for s in spans(case, case.on) if s.end < case.on) + ONE


def _bare_now(case: Case) -> Job | None:
    """Give the leafless rest that the plant is in, or going into, as last seen."""
    if in_leaf_late.going_down(case) is not None:
        return _told(case, "rest-going-down", _since(case, in_leaf_late.going_down))
    finding = leafless_rest.check(case)
    if finding is None:
        return None
    dry = finding.verdict is Verdict.KEEP_DRY
    key = "rest-waking"
    if dry:
        by_length = case.kind.resume is Resume.ROOT_LENGTH
        key = "rest-bare-measured" if by_length else "rest-bare"
    began = _since(case, leafless_rest.check)
    told = _told(case, key, began, _bare_until(case))
    root_mm = leafless_rest.growing_season(case).root_mm
    if key != "rest-bare-measured" or not root_mm:
        return told
    values = {**told.values, "said": "rest-bare-short", "root_mm": root_mm}
    return replace(told, values=values)


def _bare_until(case: Case) -> date | None:
    """Give the end of the kind's months that the day lies in."""
    return next((s.end for s in spans(case, case.on) if s.has(case.on)), None)


def _since(case: Case, rule: Callable[[Case], object]) -> date:
    """Give the first of the last looks in a row by which a rule holds.

    Where it came to hold after the newest look, by the season, it is that day.
    """
    newest = case.on if case.look is None else case.look.on
    days = (newest + ONE * ahead for ahead in range((case.on - newest).days + 1))
    since = next(day for day in days if rule(at(case, day)) is not None)
    if since > newest:
        return since
    for look in reversed(case.looks):
        if rule(at(case, look.on)) is None:
            break
        since = look.on
    return since


def _still_green(case: Case, until: date) -> Iterator[Job]:
    """Give the days on which water stops though the plant is in leaf."""
    house = case.house
    latest = seasons.turned(house.still_green_after, house.latitude)
    equinox = seasons.spring_equinox(house.latitude)
    if in_leaf_late.still_green(case) is not None:
        begins = seasons.last_date(case.on, latest) + ONE
    else:
        begins = seasons.next_date(case.on, latest) + ONE
        if begins > until or in_leaf_late.still_green(at(case, begins)) is None:
            return
    if in_leaf_late.going_down(at(case, max(begins, case.on))) is not None:
        return
    yield _told(case, "rest-still-green", begins, seasons.next_date(begins, equinox))


def _told(case: Case, key: str, on: date, until: date | None = None) -> Job:
    resume_mm = leafless_rest.resume_mm(case)
    return Job(
        key,
        Sort.REST,
        on,
        case.plant.tag,
        until=until,
        forecast=True,
        values={
            "kind": case.kind.title,
            "first": on,
            "last": until,
            "seen": case.look and case.look.on,
            "resume_mm": resume_mm,
        },
    )
