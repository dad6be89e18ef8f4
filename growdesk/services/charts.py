"""The charts of one collection: what each draws, read in one go, as frozen values.

Only reading happens here; the courses are put together in ``plant_course``,
``season_course`` and ``place_course``, and nothing is drawn.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.case import REPOTTING, Case
from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Place
from growdesk.domain.speech import tr
from growdesk.services import (
    kind_rows,
    kinds,
    place_course,
    plant_course,
    season_course,
)
from growdesk.services.chart_values import (
    Basis,
    Course,
    FeedGiven,
    Growth,
    Length,
    PlaceChart,
    PlantChart,
    SeasonChart,
    SeasonDay,
    Seen,
    Span,
    Strengths,
    YearDay,
)
from growdesk.services.known import load_known
from growdesk.services.plant_rows import get_draft
from growdesk.services.settings import is_kept, read_house
from growdesk.services.shelf import house_with_water, read_waters
from growdesk.services.standing import growing
from growdesk.store.mapping import place_of, plant_of, reading_of
from growdesk.store.schema import (
    BloomRow,
    PlaceRow,
    PlantRow,
    ReadingRow,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.domain.facts import Care, House, Reading
    from growdesk.domain.kinds import Kind, KindTable
    from growdesk.services.ledger import Ledger
    from growdesk.store.session import Session

__all__ = [
    "Basis",
    "Charts",
    "Course",
    "FeedGiven",
    "Growth",
    "Length",
    "PlaceChart",
    "PlantChart",
    "SeasonChart",
    "SeasonDay",
    "Seen",
    "Span",
    "Strengths",
    "YearDay",
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
            (known,) = load_known(session, on, plant_id)
            blooms = _blooms(session, plant_id)
            house = read_house(session)
        looks = [each for each in known.plant.looks if window.holds(each.on)]
        care = [each for each in known.plant.care if window.holds(each.on)]
        case = Case(known.plant, known.kind, house, on, known.kind_known)
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
            moves=_days(each.on for each in care if each.what is CareKind.MOVE),
            treatments=_days(each.on for each in care if each.what is CareKind.TREAT),
            leads=plant_course.lengths(looks, lambda look: look.lead_length_mm),
            roots=plant_course.lengths(looks, lambda look: look.longest_new_root_mm),
            seen=plant_course.seen(looks, blooms, window),
            growth=plant_course.growth(case, window.begins),
        )

    def season(self, plant_id: int, on: date) -> SeasonChart:
        """Give the year of a plant's place, for its kind."""
        with self._ledger.reading() as session:
            place_id = get_draft(session, plant_id).place_id
            (known,) = load_known(session, on, plant_id)
            house = house_with_water(read_house(session), read_waters(session))
            readings = _readings(session, place_id, house, on)
            latitude_given = is_kept(session, "latitude")
        place = replace(known.plant.place, readings=readings)
        plant = replace(known.plant, place=place)
        return SeasonChart(
            plant_id=plant_id,
            tag=plant.tag,
            name=plant.name,
            on=on,
            kind_title=tr(known.kind.title),
            place=place.name,
            basis=season_course.basis_of(place, house, on),
            latitude=house.latitude,
            latitude_given=latitude_given,
            step_ppm_n=house.strength_step_ppm_n,
            days=season_course.season_days(plant, known.kind, house, on),
            facing=place.facing,
        )

    def place(self, place_id: int, on: date) -> PlaceChart:
        """Give the year of a place, for the kinds that stand there."""
        with self._ledger.reading() as session:
            house = house_with_water(read_house(session), read_waters(session))
            place = _place(session, place_id, house, on)
            table = kind_rows.table_of(session)
            here = place_course.commonest(_kinds(session, place_id, table))
            latitude_given = is_kept(session, "latitude")
        drawn = here[: place_course.MOST_KINDS]
        return PlaceChart(
            place_id=place_id,
            place=place.name,
            on=on,
            basis=season_course.basis_of(place, house, on),
            facing=place.facing,
            latitude=house.latitude,
            latitude_given=latitude_given,
            step_ppm_n=house.strength_step_ppm_n,
            full_strength_ppm_n=house.full_strength_ppm_n,
            days=season_course.year_days(place, house, on),
            strengths=(
                place_course.strengths(drawn, place, house, on)
                if drawn
                else place_course.by_class(table, place, house, on)
            ),
            kinds_left_out=len(here) - len(drawn),
        )


def _blooms(session: Session, plant_id: int) -> tuple[plant_course.Bloom, ...]:
    rows = session.execute(
        select(
            BloomRow.spike_seen_on, BloomRow.first_open_on, BloomRow.last_faded_on
        ).where(BloomRow.plant_id == plant_id)
    )
    return tuple(plant_course.Bloom(*row) for row in rows)


def _readings(
    session: Session, place_id: int | None, house: House, on: date
) -> tuple[Reading, ...]:
    """Give the readings that the year of a day can go by, a year before included."""
    if place_id is None:
        return ()
    first = date(on.year, 1, 1) - timedelta(days=season_course.days_back(house))
    rows = session.execute(
        select(ReadingRow.__table__)
        .where(ReadingRow.place_id == place_id, ReadingRow.day.between(first, on))
        .order_by(ReadingRow.day)
    )
    return tuple(reading_of(row) for row in rows)


def _place(session: Session, place_id: int, house: House, on: date) -> Place:
    row = session.execute(
        select(PlaceRow.__table__).where(PlaceRow.id == place_id)
    ).one_or_none()
    if row is None:
        hint = tr("It was removed; undo brings it back.")
        raise InputError("place", place_id, tr("is not there any more"), hint)
    return place_of(row, _readings(session, place_id, house, on))


def _kinds(session: Session, place_id: int, table: KindTable) -> list[Kind]:
    """Give the kind of each plant at a place; corrections of one plant are its own."""
    rows = session.execute(
        select(PlantRow.__table__).where(PlantRow.place_id == place_id, growing())
    )
    return [kinds.kind_of(plant_of(row, Place(), [], []), table)[0] for row in rows]


def _repots(
    care: Iterable[Care], repotted_on: date | None, window: Span
) -> tuple[date, ...]:
    """Give the days of repots and divisions, by the care and by the plant itself."""
    days = [each.on for each in care if each.what in REPOTTING]
    if repotted_on is not None and window.holds(repotted_on):
        days.append(repotted_on)
    return _days(days)


def _days(days: Iterable[date]) -> tuple[date, ...]:
    return tuple(sorted(set(days)))
