"""Put together who blooms when: a row for each plant, or for each kind of many."""

from __future__ import annotations

from collections import defaultdict
from datetime import timedelta
from functools import partial
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.bloom_season import YEAR_DAYS, expected, place_of
from growdesk.domain.seasons import northern
from growdesk.domain.speech import tr
from growdesk.services.bloom_rows import FORGOTTEN_DAYS, draft_of
from growdesk.services.bloom_values import BloomLine, Flowered, WhoBlooms
from growdesk.services.known import load_known
from growdesk.services.settings import read_house
from growdesk.store.schema import BloomRow

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from growdesk.services.bloom_values import BloomDraft
    from growdesk.services.known import Known
    from growdesk.store.session import Session

MOST_PLANTS = 36
"""More rows than these are legible on no page; then there is one for each kind."""


def who_blooms(session: Session, on: date, first_month: int | None = None) -> WhoBlooms:
    """Give who blooms when; the year begins in January, south of the equator in July.

    Only plants that grow here count, and only what was open up to the day.
    """
    known = load_known(session, on)
    drafts = _drafts(session)
    begins_with = first_month or (1 if northern(read_house(session).latitude) else 7)
    flowered = {
        each.plant_id: spans
        for each in known
        if (spans := spans_of(drafts.get(each.plant_id, ()), on))
    }
    blooming = [each for each in known if each.plant_id in flowered]
    of_kinds = len(blooming) > MOST_PLANTS
    lines = _kind_lines if of_kinds else _plant_lines
    return WhoBlooms(
        on=on,
        first_month=begins_with,
        of_kinds=of_kinds,
        lines=tuple(sorted(lines(blooming, flowered), key=partial(_turn, begins_with))),
        this_month=_this_month(blooming, flowered, on),
        now=tuple(
            _named(each)
            for each in blooming
            if any(span.is_on for span in flowered[each.plant_id])
        ),
        without=len(known) - len(blooming),
    )


def spans_of(drafts: Iterable[BloomDraft], on: date) -> tuple[Flowered, ...]:
    """Give when a plant's flowers were open up to a day, oldest first.

    A bloom that was never closed is open still for some months, and after that a day.
    """
    found = []
    for draft in drafts:
        opened, ends = draft.first_open_on, draft.last_faded_on
        begins = opened or ends
        if begins is None or begins > on:
            continue
        is_on = ends is None and on - begins <= timedelta(days=FORGOTTEN_DAYS)
        is_on = is_on or (ends is not None and ends > on)
        last = on if is_on else ends or begins
        found.append(Flowered(begins, last, is_on, opened is not None))
    return tuple(sorted(found, key=lambda span: span.begins))


def _drafts(session: Session) -> dict[int, list[BloomDraft]]:
    drafts: dict[int, list[BloomDraft]] = defaultdict(list)
    for row in session.execute(select(BloomRow.__table__)):
        drafts[row.plant_id].append(draft_of(row))
    return drafts


def _plant_lines(
    blooming: Sequence[Known], flowered: dict[int, tuple[Flowered, ...]]
) -> list[BloomLine]:
    return [
        BloomLine(
            _named(each),
            1,
            flowered[each.plant_id],
            expected(s.begins for s in flowered[each.plant_id] if s.opened),
        )
        for each in blooming
    ]


def _kind_lines(
    blooming: Sequence[Known], flowered: dict[int, tuple[Flowered, ...]]
) -> list[BloomLine]:
    """Give a row for each kind; what it does next is not told, its plants differ."""
    kinds: dict[str, list[int]] = defaultdict(list)
    for each in blooming:
        kinds[tr(each.kind.title)].append(each.plant_id)
    return [
        BloomLine(
            title,
            len(ids),
            tuple(
                sorted(
                    (span for each in ids for span in flowered[each]),
                    key=lambda span: span.begins,
                )
            ),
            None,
        )
        for title, ids in kinds.items()
    ]


def _turn(first_month: int, line: BloomLine) -> tuple[float, str]:
    """Sort rows by the mean day of their first season, from the first month on."""
    place = place_of(line.spans[-1].begins)
    if line.expected is not None and line.expected.seasons:
        place = line.expected.seasons[0].mean.place_days
    begins = (first_month - 1) * YEAR_DAYS / 12
    return (place - begins) % YEAR_DAYS, line.title


def _this_month(
    blooming: Sequence[Known], flowered: dict[int, tuple[Flowered, ...]], on: date
) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """Give who was in flower in the month of the day, in the years before."""
    found = []
    for each in blooming:
        spans = flowered[each.plant_id]
        years = {year for span in spans for year in _years_in(span, on.month)}
        past = tuple(sorted(year for year in years if year < on.year))
        if past:
            found.append((_named(each), past))
    return tuple(found)


def _years_in(span: Flowered, month: int) -> Iterable[int]:
    """Give the years in whose month a span was open."""
    first = span.begins.year * 12 + span.begins.month - 1
    last = span.ends.year * 12 + span.ends.month - 1
    return (each // 12 for each in range(first, last + 1) if each % 12 == month - 1)


def _named(known: Known) -> str:
    return f"{known.plant.tag} {known.plant.name}".strip()
