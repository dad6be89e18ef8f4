"""The night and the day to come, place by place, and the plants to move for it.

What is expected is typed by the grower, from whatever forecast, for each place:
growdesk asks nobody. The last night that was read stands beside it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec import Struct
from sqlalchemy import func, select

from growdesk.domain import night, night_words
from growdesk.domain.day_words import day_text
from growdesk.domain.errors import InputError
from growdesk.domain.facts_plant import TEMPERATURE_C
from growdesk.domain.night import Expected, Standing
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.speech import tr
from growdesk.services import checking, walking
from growdesk.services.known import load_known
from growdesk.services.ledger import written
from growdesk.services.named_rows import name_of
from growdesk.services.settings import read_house
from growdesk.services.standing import growing
from growdesk.store.schema import ForecastRow, PlaceRow, PlantRow, ReadingRow

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from growdesk.domain.facts import House
    from growdesk.domain.night import Shelter, Threat
    from growdesk.services.known import Known
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.session import Session


class NightPlace(Struct, frozen=True):
    """A place with what is expected of it, and the last night that was read, in °C."""

    place_id: int
    name: str
    outdoors: bool
    plants: int
    expected: Expected
    last_low_c: float | None
    last_low_on: date | None


class NightMove(Struct, frozen=True):
    """A plant to move: where it stands, what to do and why, in whole sentences."""

    plant_id: int
    tag: str
    name: str
    place: str
    bench: str
    threat: Threat
    shelter: Shelter
    by_c: float
    do: str
    why: str


class NightView(Struct, frozen=True):
    """The night that begins on a day, and the day itself.

    ``moves`` are in the order they are walked; ``advice`` is one sentence or empty.
    """

    on: date
    places: tuple[NightPlace, ...]
    moves: tuple[NightMove, ...]
    advice: str


class Nights:
    """What is expected of the nights of one collection's places."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def view(self, on: date) -> NightView:
        """Give what is expected of a day, and which plants to move for it."""
        with self._ledger.reading() as session:
            expected = _expected(session, on)
            return _view(session, on, expected)

    def would_be(self, on: date, expected: Mapping[int, Expected]) -> NightView:
        """Give the same for what is typed and not kept yet, by place."""
        kept = {place_id: _checked(each) for place_id, each in expected.items()}
        with self._ledger.reading() as session:
            return _view(session, on, kept)

    def expect(self, on: date, expected: Mapping[int, Expected]) -> Written:
        """Keep what is expected of places on a day; what is empty is forgotten."""
        kept = {place_id: _checked(each) for place_id, each in expected.items()}
        title = tr("Heat and cold expected on {day} written").format(
            day=day_text(on, on)
        )
        with self._ledger.writing(title) as writing:
            there = {
                row.place_id: row.id
                for row in writing.session.execute(
                    select(ForecastRow.__table__).where(
                        ForecastRow.place_id.in_(kept), ForecastRow.day == on
                    )
                ).all()
            }
            for place_id, each in kept.items():
                name_of(writing.session, PlaceRow, place_id, "place")
                values = {"low_c": each.low_c, "high_c": each.high_c}
                row_id = there.get(place_id)
                if each == Expected(None, None):
                    if row_id is not None:
                        writing.delete(ForecastRow, row_id)
                elif row_id is None:
                    writing.insert(
                        ForecastRow, {"place_id": place_id, "day": on, **values}
                    )
                else:
                    writing.update(ForecastRow, row_id, values)
        return written(writing, title)


def _checked(expected: Expected) -> Expected:
    low_c = checking.number("low_c", expected.low_c, TEMPERATURE_C)
    high_c = checking.number("high_c", expected.high_c, TEMPERATURE_C)
    if low_c is not None and high_c is not None and low_c > high_c:
        hint = tr("Give a low that is at most the high of {high}.").format(
            high=temperature_text(high_c)
        )
        raise InputError("low_c", low_c, tr("is above the high"), hint)
    return Expected(low_c, high_c)


def _expected(session: Session, on: date) -> dict[int, Expected]:
    rows = session.execute(
        select(ForecastRow.__table__).where(
            ForecastRow.place_id.in_(select(PlaceRow.id)), ForecastRow.day == on
        )
    ).all()
    return {row.place_id: Expected(row.low_c, row.high_c) for row in rows}


def _view(session: Session, on: date, expected: Mapping[int, Expected]) -> NightView:
    house = read_house(session)
    known = load_known(session, on)
    of_place = _by_name(session, expected)
    moves = [
        move
        for each in known
        for move in _moves(each, of_place.get(each.plant.place.name), house)
    ]
    is_cold = any(move.threat is night.Threat.COLD for move in moves)
    return NightView(
        on,
        _places(session, on, expected),
        tuple(moves),
        tr(night_words.KEEP_DRY) if is_cold else "",
    )


def _by_name(session: Session, expected: Mapping[int, Expected]) -> dict[str, Expected]:
    rows = session.execute(select(PlaceRow.id, PlaceRow.name))
    return {row.name: expected[row.id] for row in rows if row.id in expected}


def _moves(known: Known, of_place: Expected | None, house: House) -> list[NightMove]:
    if of_place is None:
        return []
    plant = known.plant
    standing = Standing(plant.tag, known.kind, known.at_glass, plant.place.outdoors)
    return [
        NightMove(
            known.plant_id,
            plant.tag,
            plant.name,
            plant.place.name,
            known.bench_name,
            warned.threat,
            warned.shelter,
            warned.by_c,
            night_words.what_to_do(warned),
            night_words.why(warned),
        )
        for warned in night.warnings(of_place, (standing,), house)
    ]


def _places(
    session: Session, on: date, expected: Mapping[int, Expected]
) -> tuple[NightPlace, ...]:
    places: Sequence[Any] = session.execute(
        select(PlaceRow.id, PlaceRow.name, PlaceRow.outdoors, PlaceRow.position)
    ).all()
    counted = session.execute(
        select(PlantRow.place_id, func.count())
        .where(growing())
        .group_by(PlantRow.place_id)
    )
    counts = {row[0]: row[1] for row in counted}
    lows = _last_lows(session, on)
    places = sorted(places, key=lambda row: walking.place_order(row.name, row.position))
    return tuple(
        NightPlace(
            row.id,
            row.name,
            row.outdoors,
            counts.get(row.id, 0),
            expected.get(row.id, Expected(None, None)),
            *lows.get(row.id, (None, None)),
        )
        for row in places
    )


def _last_lows(session: Session, on: date) -> dict[int, tuple[float, date]]:
    """Give the newest low that was read before a day, by place."""
    older = ReadingRow.__table__.alias("older")
    newest = (
        select(older.c.day)
        .where(
            older.c.place_id == PlaceRow.id,
            older.c.low_c.is_not(None),
            older.c.day <= on,
        )
        .order_by(older.c.day.desc())
        .limit(1)
        .scalar_subquery()
    )
    rows = session.execute(
        select(ReadingRow.place_id, ReadingRow.low_c, ReadingRow.day).join_from(
            PlaceRow,
            ReadingRow,
            (ReadingRow.place_id == PlaceRow.id) & (ReadingRow.day == newest),
            isouter=True,
        )
    )
    return {row.place_id: (row.low_c, row.day) for row in rows if row.day}
