"""A year in review: what flowered, grew, came, went and was done, by the record."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services import year_rows
from growdesk.services.long_work import quietly
from growdesk.services.settings import Settings, read_house
from growdesk.services.year_values import YearPhoto, YearReview
from growdesk.store import photos as files

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from typing import Any

    from growdesk.services.ledger import Ledger
    from growdesk.services.long_work import Step
    from growdesk.services.year_rows import Period

MOST_PHOTOS = 12
FIRST_YEAR = 1980
_PARTS = 8
"""Steps told before the photos."""


def calendar_year(year: int, today: date, field: str = "year") -> Period:
    """Give the days of a calendar year, of this one up to today."""
    if not FIRST_YEAR <= year <= today.year:
        hint = tr("Give {first_year} to {year}.").format(
            first_year=FIRST_YEAR, year=today.year
        )
        raise InputError(field, year, tr("is no year to look back on"), hint)
    return date(year, 1, 1), min(date(year, 12, 31), today)


def twelve_months(until: date, today: date, field: str = "on") -> Period:
    """Give the twelve months up to a day, that day included."""
    if until > today:
        hint = tr("Give {isoformat} or earlier.").format(isoformat=today.isoformat())
        raise InputError(field, until.isoformat(), tr("is still to come"), hint)
    if until.year <= FIRST_YEAR:
        hint = tr("Give a day after {first_year}.").format(first_year=FIRST_YEAR)
        raise InputError(field, until.isoformat(), tr("is too long ago"), hint)
    after = until + timedelta(days=1)
    try:
        return after.replace(year=after.year - 1), until
    except ValueError:
        return date(after.year - 1, 3, 1), until


class YearReviews:
    """The years in review of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def make(self, within: Period, step: Step = quietly) -> YearReview:
        """Give the review of the days; ``step`` is told how far it is and may stop it.

        Pictures are made small where they are missing, which takes a while.
        """
        of = _PARTS + MOST_PHOTOS
        step(0, of)
        with self._ledger.reading() as session:
            there = year_rows.plants(session)
            blooms = year_rows.blooms(session, there, within)
            step(2, of)
            months = year_rows.months(session, within)
            step(4, of)
            grown = year_rows.grown(session, there, within)
            looks, looked_at = year_rows.looked(session, there, within)
            step(6, of)
            house = read_house(session)
            rounds, rounds_of = year_rows.rounds(
                session, house, within, self._ledger.today()
            )
            taken = year_rows.photos(session, there, within)
            strength = year_rows.strength(session, within)
            repotted = year_rows.repotted(session, there, within)
            marks = year_rows.marks(session, there, within)
        step(_PARTS, of)
        chosen = year_rows.spread(taken, MOST_PHOTOS)
        return YearReview(
            collection=Settings(self._ledger).word("collection", self._ledger.name),
            begins=within[0],
            ends=within[1],
            made_at=self._ledger.clock.now(),
            growing=year_rows.growing_on(there, within[1]),
            blooms=blooms,
            months=months,
            strength_ppm_n=strength,
            grown=grown,
            came=year_rows.came(there, within),
            went=year_rows.went(there, within),
            repotted=repotted,
            looks=looks,
            looked_at=looked_at,
            rounds=rounds,
            rounds_of=rounds_of,
            marks=marks,
            photos=tuple(self._photos(chosen, there, step)),
            photos_of=len(taken),
        )

    def _photos(
        self, chosen: list[Any], there: Mapping[int, Any], step: Step
    ) -> Iterator[YearPhoto]:
        for number, row in enumerate(chosen, start=1):
            file = files.make_thumbnail(self._ledger.folder, row.sha256, row.ext)
            name = None if file is None else str(file)
            yield YearPhoto(year_rows.who(there[row.plant_id]), row.taken_on, name)
            step(_PARTS + number, _PARTS + MOST_PHOTOS)
