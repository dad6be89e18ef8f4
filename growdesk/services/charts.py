"""The charts of one collection: what each draws, read in one go, as frozen values.

Only reading happens here; the courses are put together in ``plant_course`` and
``season_course``, and nothing is drawn.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.case import REPOTTING
from growdesk.domain.facts import CareKind
from growdesk.services import plant_course, season_course
from growdesk.services.chart_values import (
    Basis,
    Course,
    FeedGiven,
    Length,
    PlantChart,
    SeasonChart,
    SeasonDay,
    Seen,
    Span,
)
from growdesk.services.judged_day import house_with_water
from growdesk.services.known import load_known
from growdesk.services.plants import get_draft
from growdesk.services.settings import is_kept, read_house
from growdesk.services.shelf import read_shelf
from growdesk.store.mapping import care_of, look_of, reading_of
from growdesk.store.schema import BloomRow, CareRow, LookRow, ReadingRow

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sqlalchemy.orm import Session

    from growdesk.domain.facts import Care, Look, Reading
    from growdesk.services.ledger import Ledger

__all__ = [
    "Basis",
    "Charts",
    "Course",
    "FeedGiven",
    "Length",
    "PlantChart",
    "SeasonChart",
    "SeasonDay",
    "Seen",
    "Span",
]


class Charts:
    """The charts of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def plant(self, plant_id: int, on: date) -> PlantChart:
        """Give one plant over the 18 months up to a day."""
        window = Span(plant_course.since_of(on), on)
        with self._ledger.reading() as session:
            draft = get_draft(session, plant_id)
            looks = _looks(session, plant_id, window)
            care = _care(session, plant_id, window)
            blooms = _blooms(session, plant_id)
        return PlantChart(
            plant_id=plant_id,
            tag=draft.tag,
            name=draft.name,
            since=window.begins,
            on=on,
            feeds=tuple(
                FeedGiven(each.on, each.strength_ppm_n)
                for each in care
                if each.what is CareKind.FEED
            ),
            flushes=_days(each.on for each in care if each.what is CareKind.FLUSH),
            repots=_repots(care, draft.repotted_on, window),
            leads=plant_course.lengths(looks, lambda look: look.lead_length_mm),
            roots=plant_course.lengths(looks, lambda look: look.longest_new_root_mm),
            seen=plant_course.seen(looks, blooms, window),
        )

    def season(self, plant_id: int, on: date) -> SeasonChart:
        """Give the year of a plant's place, for its kind."""
        with self._ledger.reading() as session:
            place_id = get_draft(session, plant_id).place_id
            (known,) = load_known(session, on, plant_id)
            house = house_with_water(read_house(session), read_shelf(session))
            days_back = season_course.YEAR_DAYS + house.temperature_window_days
            first = date(on.year, 1, 1) - timedelta(days=days_back)
            readings = _readings(session, place_id, first, on)
            latitude_given = is_kept(session, "latitude")
        place = replace(known.plant.place, readings=readings)
        plant = replace(known.plant, place=place)
        return SeasonChart(
            plant_id=plant_id,
            tag=plant.tag,
            name=plant.name,
            on=on,
            kind_title=known.kind.title,
            place=place.name,
            basis=season_course.basis_of(place),
            latitude=house.latitude,
            latitude_given=latitude_given,
            step_ppm_n=house.strength_step_ppm_n,
            days=season_course.season_days(plant, known.kind, house, on),
        )


def _looks(session: Session, plant_id: int, window: Span) -> tuple[Look, ...]:
    rows = session.execute(
        select(LookRow.__table__)
        .where(
            LookRow.plant_id == plant_id,
            LookRow.day.between(window.begins, window.ends),
        )
        .order_by(LookRow.day, LookRow.id)
    )
    return tuple(look_of(row) for row in rows)


def _care(session: Session, plant_id: int, window: Span) -> tuple[Care, ...]:
    rows = session.execute(
        select(CareRow.__table__)
        .where(
            CareRow.plant_id == plant_id,
            CareRow.day.between(window.begins, window.ends),
        )
        .order_by(CareRow.day, CareRow.id)
    )
    return tuple(care_of(row) for row in rows)


def _blooms(session: Session, plant_id: int) -> tuple[plant_course.Bloom, ...]:
    rows = session.execute(
        select(
            BloomRow.spike_seen_on, BloomRow.first_open_on, BloomRow.last_faded_on
        ).where(BloomRow.plant_id == plant_id)
    )
    return tuple(plant_course.Bloom(*row) for row in rows)


def _readings(
    session: Session, place_id: int | None, first: date, on: date
) -> tuple[Reading, ...]:
    """Give the readings that the year of a day can go by, a year before included."""
    rows = session.execute(
        select(ReadingRow.__table__)
        .where(ReadingRow.place_id == place_id, ReadingRow.day.between(first, on))
        .order_by(ReadingRow.day)
    )
    return tuple(reading_of(row) for row in rows)


def _repots(
    care: Iterable[Care], repotted_on: date | None, window: Span
) -> tuple[date, ...]:
    """Give the days of repots and divisions, by the care and by the plant itself."""
    days = [each.on for each in care if each.what in REPOTTING]
    if repotted_on is not None and window.begins <= repotted_on <= window.ends:
        days.append(repotted_on)
    return _days(days)


def _days(days: Iterable[date]) -> tuple[date, ...]:
    return tuple(sorted(set(days)))
