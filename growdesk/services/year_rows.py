"""Read what a year in review tells of, a statement or two for each part of it."""

from __future__ import annotations

from collections import Counter, defaultdict
from datetime import date, timedelta
from itertools import cycle
from typing import TYPE_CHECKING, Any

from sqlalchemy import func, select

from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.holding import Descent, Status
from growdesk.services.bloom_rows import FORGOTTEN_DAYS
from growdesk.services.standing import here
from growdesk.services.used_course import used
from growdesk.services.year_values import (
    Came,
    Grown,
    Went,
    Who,
    YearBloom,
    YearMark,
    YearMonth,
)
from growdesk.store.both import month_of
from growdesk.store.schema import (
    BloomRow,
    CareRow,
    LookRow,
    MarkRow,
    PhotoRow,
    PlantRow,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from growdesk.domain.facts import House
    from growdesk.store.session import Session

Period = tuple[date, date]
WATERING = (CareKind.FEED, CareKind.CLEAR_WATER, CareKind.FLUSH)
_DAY = timedelta(days=1)


def plants(session: Session) -> dict[int, Any]:
    """Give every plant on record by its number, those that left too."""
    rows = session.execute(select(PlantRow.__table__).where(here()))
    return {row.id: row for row in rows}


def who(row: Any) -> Who:
    """Give a plant as it is named."""
    return Who(row.id, row.tag, row.name)


def growing_on(there: Mapping[int, Any], on: date) -> int:
    """Count the plants that were in the collection at the end of a day.

    One without a day of coming counts as always here.
    """
    return sum(
        (row.acquired_on is None or row.acquired_on <= on)
        and (row.status == Status.GROWING or (row.left_on or date.min) > on)
        for row in there.values()
    )


def blooms(
    session: Session, there: Mapping[int, Any], within: Period
) -> tuple[YearBloom, ...]:
    """Give the flowerings that were open within the days, the first ones first."""
    by_plant: defaultdict[int, list[Any]] = defaultdict(list)
    for row in session.execute(select(BloomRow.__table__)):
        opened = row.first_open_on or row.last_faded_on
        if opened is not None and opened <= within[1] and row.plant_id in there:
            by_plant[row.plant_id].append((opened, row))
    found = []
    for plant_id, rows in by_plant.items():
        first = min(opened for opened, _ in rows)
        for opened, row in rows:
            ends = row.last_faded_on
            last = ends or min(within[1], opened + FORGOTTEN_DAYS * _DAY)
            if max(last, opened) < within[0]:
                continue
            found.append(
                YearBloom(
                    who(there[plant_id]),
                    opened,
                    ends,
                    row.flowers,
                    row.spikes,
                    row.award,
                    is_first=opened == first and opened >= within[0],
                )
            )
    return tuple(sorted(found, key=lambda each: (each.begins, each.who.tag)))


def months(session: Session, within: Period) -> tuple[YearMonth, ...]:
    """Give each month with what was given in it."""
    month = month_of(CareRow.day)
    rows = session.execute(
        select(month, CareRow.what, func.count())
        .join(PlantRow, PlantRow.id == CareRow.plant_id)
        .where(here(), CareRow.day.between(*within))
        .group_by(month, CareRow.what)
    )
    counts = {(key, what): count for key, what, count in rows}
    chart = used(session, within[1])
    grams = {
        first: sum(product.of("N")[place] for product in chart.products)
        for place, first in enumerate(chart.months)
    }
    return tuple(
        YearMonth(
            first,
            fed=counts.get((first.isoformat()[:7], CareKind.FEED), 0),
            clear=counts.get((first.isoformat()[:7], CareKind.CLEAR_WATER), 0),
            flushed=counts.get((first.isoformat()[:7], CareKind.FLUSH), 0),
            rained=counts.get((first.isoformat()[:7], CareKind.RAIN), 0),
            nitrogen_g=grams.get(first, 0.0),
        )
        for first in _firsts(within)
    )


def strength(session: Session, within: Period) -> float | None:
    """Give the mean strength of the feeds on record, in mg N per litre."""
    found = session.scalar(
        select(func.avg(CareRow.strength_ppm_n))
        .join(PlantRow, PlantRow.id == CareRow.plant_id)
        .where(here(), CareRow.what == CareKind.FEED, CareRow.day.between(*within))
    )
    return None if found is None else float(found)


def grown(
    session: Session, there: Mapping[int, Any], within: Period
) -> tuple[Grown, ...]:
    """Give what was measured, the best against their own year before first."""
    before = (_year_before(within[0]), within[0] - _DAY)
    now, then = _longest(session, within), _longest(session, before)
    found = [
        Grown(who(there[plant_id]), *now[plant_id], *then.get(plant_id, (None, None)))
        for plant_id in now
        if plant_id in there
    ]
    return tuple(sorted(found, key=lambda each: (-(each.gain or 0.0), each.who.tag)))


def came(there: Mapping[int, Any], within: Period) -> tuple[Came, ...]:
    """Give the plants that came within the days, in their order."""
    found = [
        Came(
            who(row),
            row.acquired_on,
            row.source,
            None if row.parent_how is None else Descent(row.parent_how),
            there[row.parent_id].tag if row.parent_id in there else "",
        )
        for row in there.values()
        if row.acquired_on is not None and within[0] <= row.acquired_on <= within[1]
    ]
    return tuple(sorted(found, key=lambda each: (each.on, each.who.tag)))


def went(there: Mapping[int, Any], within: Period) -> tuple[Went, ...]:
    """Give the plants that left within the days, in their order."""
    found = [
        Went(who(row), Status(row.status), row.left_on, row.left_why)
        for row in there.values()
        if row.status != Status.GROWING
        and row.left_on is not None
        and within[0] <= row.left_on <= within[1]
    ]
    return tuple(sorted(found, key=lambda each: (each.on, each.who.tag)))


def repotted(
    session: Session, there: Mapping[int, Any], within: Period
) -> tuple[tuple[Who, date], ...]:
    """Give each repot on record within the days."""
    rows = session.execute(
        select(CareRow.plant_id, CareRow.day)
        .where(CareRow.what == CareKind.REPOT, CareRow.day.between(*within))
        .order_by(CareRow.day, CareRow.plant_id)
    )
    return tuple((who(there[key]), day) for key, day in rows if key in there)


def looked(
    session: Session, there: Mapping[int, Any], within: Period
) -> tuple[int, int]:
    """Give how many looks were taken, and at how many plants."""
    rows = session.execute(
        select(LookRow.plant_id, func.count())
        .where(LookRow.day.between(*within))
        .group_by(LookRow.plant_id)
    )
    counts = [count for key, count in rows if key in there]
    return sum(counts), len(counts)


def rounds(
    session: Session, house: House, within: Period, today: date
) -> tuple[int, int]:
    """Give the watering days with something on record, and how many there were."""
    days = session.scalars(
        select(CareRow.day)
        .where(CareRow.what.in_(WATERING), CareRow.day.between(*within))
        .distinct()
    )
    done = {day for day in days if day.weekday() in house.watering_weekdays}
    last = min(within[1], today)
    count = (last - within[0]).days + 1
    all_days = (within[0] + number * _DAY for number in range(max(count, 0)))
    of = sum(day.weekday() in house.watering_weekdays for day in all_days)
    return len(done), of


def marks(
    session: Session, there: Mapping[int, Any], within: Period
) -> tuple[YearMark, ...]:
    """Give the marks of hindsight set within the days, the commonest first."""
    rows = session.execute(
        select(MarkRow.plant_id, MarkRow.verdict, MarkRow.better).where(
            MarkRow.marked_on.between(*within)
        )
    )
    counts = Counter((was, better) for key, was, better in rows if key in there)
    return tuple(
        YearMark(Verdict(was), Verdict(better), times)
        for (was, better), times in counts.most_common()
    )


def photos(session: Session, there: Mapping[int, Any], within: Period) -> list[Any]:
    """Give the photos taken within the days, in their order."""
    rows = session.execute(
        select(PhotoRow.__table__)
        .where(PhotoRow.taken_on.between(*within))
        .order_by(PhotoRow.taken_on, PhotoRow.id)
    )
    return [row for row in rows if row.plant_id in there]


def spread(rows: Sequence[Any], most: int) -> list[Any]:
    """Choose photos spread over the months, and over the plants within each."""
    by_month: defaultdict[tuple[int, int], list[Any]] = defaultdict(list)
    for row in rows:
        by_month[row.taken_on.year, row.taken_on.month].append(row)
    shown: Counter[int] = Counter()
    chosen: list[Any] = []
    left = min(most, len(rows))
    for of_month in cycle(by_month.values()):
        if len(chosen) == left:
            break
        if of_month:
            best = min(of_month, key=lambda row: shown[row.plant_id])
            of_month.remove(best)
            shown[best.plant_id] += 1
            chosen.append(best)
    return sorted(chosen, key=lambda row: (row.taken_on, row.id))


def _year_before(first: date) -> date:
    try:
        return first.replace(year=first.year - 1)
    except ValueError:
        return first.replace(year=first.year - 1, day=28)


def _longest(
    session: Session, within: Period
) -> dict[int, tuple[float | None, float | None]]:
    lead = func.max(LookRow.lead_length_mm)
    root = func.max(LookRow.longest_new_root_mm)
    rows = session.execute(
        select(LookRow.plant_id, lead, root)
        .where(LookRow.day.between(*within))
        .group_by(LookRow.plant_id)
    )
    return {key: (a, b) for key, a, b in rows if a is not None or b is not None}


def _firsts(within: Period) -> Iterator[date]:
    first = within[0].replace(day=1)
    while first <= within[1]:
        yield first
        first = (first + 31 * _DAY).replace(day=1)
