"""Turn looks, care and blooms of one plant into what its chart draws.

A look says what was seen on its day. A span joins looks that all showed the same; it
ends at the last of them, and a look that found it gone, or too long a silence, breaks
it. A sign that was not recorded breaks nothing and proves nothing.
Matured growths are left out: they stand for years and say nothing of what moves.
"""

from __future__ import annotations

import calendar
from datetime import date, timedelta
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts import Flowering
from growdesk.domain.performance import Part, measured, rates, yardstick
from growdesk.domain.signs import LEAF_MOVING, ON_THE_WAY, TIPS_MOVING
from growdesk.services.chart_values import Course, Growth, Length, Seen, Span

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look
    from growdesk.domain.performance import Rate

SILENCE_DAYS = 62
"""Two looks further apart than this are not joined: nobody saw what was between."""

SHORTER_SHARE = 0.8
"""A length under this share of the last one is of another lead or root."""

MONTHS_SHOWN = 18
_OPEN = frozenset({Flowering.OPEN, Flowering.FADING})

Point = tuple[date, bool]


class Bloom(Struct, frozen=True):
    """A flowering as recorded; any of its days may be missing."""

    spike_seen_on: date | None
    first_open_on: date | None
    last_faded_on: date | None


def since_of(on: date) -> date:
    """Give the day 18 months before a day, or the last day of that month."""
    year, month = divmod(on.year * 12 + on.month - 1 - MONTHS_SHOWN, 12)
    last = calendar.monthrange(year, month + 1)[1]
    return date(year, month + 1, min(on.day, last))


def lengths(
    looks: Iterable[Look], length: Callable[[Look], float | None]
) -> tuple[tuple[Length, ...], ...]:
    """Give the lengths that were measured, those of one lead or root together.

    Much shorter than before, or after a long silence, it is another one.
    """
    runs: list[list[Length]] = []
    for look in looks:
        mm = length(look)
        if mm is None:
            continue
        last = runs[-1][-1] if runs else None
        if last is not None and _is_same(last, look.on, mm):
            runs[-1].append(Length(look.on, mm))
        else:
            runs.append([Length(look.on, mm)])
    return tuple(tuple(run) for run in runs)


def _is_same(last: Length, on: date, length_mm: float) -> bool:
    near = on - last.on <= timedelta(days=SILENCE_DAYS)
    return near and length_mm >= last.length_mm * SHORTER_SHARE


def growth(case: Case, since: date) -> tuple[Growth, ...]:
    """Give the rates of lead and roots as judging tells them, from a day on."""
    now = None if case.plant.place.controlled else measured(case)
    found = []
    for part in Part:
        runs: list[list[Rate]] = []
        for rate in rates(case, part):
            if rate.on < since:
                continue
            if runs and rate.on - runs[-1][-1].on <= timedelta(days=SILENCE_DAYS):
                runs[-1].append(rate)
            else:
                runs.append([rate])
        if runs:
            told = tuple(tuple(run) for run in runs)
            counts = now is not None and now.what is part
            found.append(Growth(part, told, yardstick(case, part), counts))
    return tuple(found)


def seen(
    looks: Sequence[Look], blooms: Sequence[Bloom], window: Span
) -> tuple[Seen, ...]:
    """Give every course of which anything was seen, in the order it is drawn."""
    courses = [
        *_flowering(looks, blooms, window),
        *(_course(course, sign, looks) for course, sign in _SIGNS),
    ]
    return tuple(course for course in courses if course.spans)


def _growths(stage: str) -> Callable[[Look], bool | None]:
    def shows(look: Look) -> bool | None:
        counts = look.new_growths
        count = None if counts is None else getattr(counts, stage)
        return None if count is None else bool(count)

    return shows


def _leaf(look: Look) -> bool | None:
    return None if look.new_leaf is None else look.new_leaf in LEAF_MOVING


def _tips(look: Look) -> bool | None:
    if look.root_tips is None or look.root_tips.value == "hidden":
        return None
    return look.root_tips in TIPS_MOVING


def _open(look: Look) -> bool | None:
    return None if look.flowering is None else bool(look.flowering & _OPEN)


def _on_the_way(look: Look) -> bool | None:
    return None if look.flowering is None else bool(look.flowering & ON_THE_WAY)


_SIGNS = (
    (Course.EMERGING, _growths("emerging")),
    (Course.EXTENDING, _growths("extending")),
    (Course.MATURING, _growths("maturing")),
    (Course.NEW_LEAF, _leaf),
    (Course.ROOT_TIPS, _tips),
)


def _course(
    course: Course, sign: Callable[[Look], bool | None], looks: Sequence[Look]
) -> Seen:
    points = _points(looks, sign)
    return Seen(course, _true_days(points), spans_of(points))


def _flowering(
    looks: Sequence[Look], blooms: Sequence[Bloom], window: Span
) -> Iterator[Seen]:
    """Give flowers and spikes, by the looks and by the blooms recorded together."""
    opened = [(b.first_open_on, b.last_faded_on) for b in blooms]
    coming = [(b.spike_seen_on, b.first_open_on) for b in blooms]
    for course, sign, recorded in (
        (Course.IN_FLOWER, _open, opened),
        (Course.SPIKE, _on_the_way, coming),
    ):
        points = _points(looks, sign)
        begun = [(day, True) for day, end in recorded if day is not None and not end]
        spans = [
            *spans_of(sorted([*points, *_inside(begun, window)])),
            *_clipped(recorded, window),
        ]
        yield Seen(course, _true_days(points), merged(spans))


def _points(looks: Iterable[Look], sign: Callable[[Look], bool | None]) -> list[Point]:
    found = ((look.on, sign(look)) for look in looks)
    return [(on, shows) for on, shows in found if shows is not None]


def _true_days(points: Iterable[Point]) -> tuple[date, ...]:
    return tuple(dict.fromkeys(on for on, shows in points if shows))


def _inside(points: Iterable[Point], window: Span) -> list[Point]:
    return [(on, is_so) for on, is_so in points if window.begins <= on <= window.ends]


def _clipped(
    recorded: Iterable[tuple[date | None, date | None]], window: Span
) -> Iterator[Span]:
    for begins, ends in recorded:
        if begins is None or ends is None:
            continue
        clipped = Span(max(begins, window.begins), min(ends, window.ends))
        if clipped.begins <= clipped.ends:
            yield clipped


def spans_of(points: Iterable[Point]) -> tuple[Span, ...]:
    """Give the spans of points that stand oldest first."""
    spans: list[Span] = []
    goes_on = False
    for on, shows in points:
        near = bool(spans) and on - spans[-1].ends <= timedelta(days=SILENCE_DAYS)
        if shows and goes_on and near:
            spans[-1] = Span(spans[-1].begins, on)
        elif shows:
            spans.append(Span(on, on))
        goes_on = shows
    return tuple(spans)


def merged(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Give spans oldest first, those that touch made one."""
    found: list[Span] = []
    for span in sorted(spans, key=lambda each: each.begins):
        if found and span.begins <= found[-1].ends + timedelta(days=1):
            found[-1] = Span(found[-1].begins, max(found[-1].ends, span.ends))
        else:
            found.append(span)
    return tuple(found)
