"""A day of many plants on its way to be judged: all stand there before all are judged.

What is read first is what names a plant and says where it stands. Verdicts come by
steps, those that are asked for first; each is of its plant's whole record, and holds
for the state of the collection that it stands on.
"""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from msgspec.structs import replace
from sqlalchemy import func, select

from growdesk.domain.holding import together
from growdesk.domain.speech import manner
from growdesk.services import day_lines, day_rows, walking
from growdesk.services.judged_day import JudgedDay, judged_of
from growdesk.services.known import load_some
from growdesk.services.settings import read_house
from growdesk.services.shelf import Shelf, house_with_water, read_waters
from growdesk.services.standing import growing
from growdesk.services.values import Unjudged
from growdesk.store.mapping import held_as_of
from growdesk.store.schema import BenchRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping, Sequence
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House
    from growdesk.domain.speech import Manner
    from growdesk.services.known import Known
    from growdesk.services.values import Done, Line
    from growdesk.store.session import Session
    from growdesk.store.states import State

    Judged = tuple[Known, Judgement]

AT_ONCE = 300
"""So many plants are judged before anybody could see that they were not."""
FIRST, STEP = 40, 250
"""How many are judged at first, for what is in sight, and in each step after it."""


class PartDay(Struct, frozen=True):
    """A day of which some plants are judged, and the state it stands on."""

    state: State
    on: date
    today: date
    manner: Manner
    house: House
    plants: tuple[Unjudged, ...]
    done: Mapping[int, Done]
    judged: Mapping[int, Judged]
    lines: Mapping[int, Line]
    """By plant; none says its jug."""

    @property
    def is_whole(self) -> bool:
        """Tell whether every plant is judged."""
        return len(self.judged) == len(self.plants)

    def standing(self) -> tuple[Line | Unjudged, ...]:
        """Give every plant as the round is walked, with its line where it has one."""
        lines = self.lines
        return tuple([lines.get(each.plant_id, each) for each in self.plants])

    def in_order(self) -> tuple[tuple[Judged, ...], tuple[Line, ...]]:
        """Give all plants judged and their lines; only where it is whole."""
        ids = [each.plant_id for each in self.plants]
        judged, lines = self.judged, self.lines
        return tuple([judged[each] for each in ids]), tuple([lines[n] for n in ids])


def is_of_many(session: Session) -> bool:
    """Tell whether there are more plants than are judged at once."""
    held = select(PlantRow.id).where(growing()).limit(AT_ONCE + 1).subquery()
    return (session.scalar(select(func.count()).select_from(held)) or 0) > AT_ONCE


def begun(session: Session, now: State, on: date, today: date) -> PartDay:
    """Give a day with no plant judged yet."""
    house = house_with_water(read_house(session), read_waters(session))
    done = day_rows.done_on(session, on)
    return PartDay(now, on, today, manner(), house, _plants(session), done, {}, {})


def without(part: PartDay, fresh: PartDay, touched: Collection[int]) -> PartDay:
    """Give a day begun anew with what was judged of plants not touched since."""
    stay = [
        each.plant_id
        for each in fresh.plants
        if each.plant_id in part.judged and each.plant_id not in touched
    ]
    judged, lines = part.judged, part.lines
    return replace(
        fresh,
        judged={each: judged[each] for each in stay},
        lines={each: lines[each] for each in stay},
    )


def gone_on(
    session: Session, part: PartDay, first: Iterable[int] = (), most: int | None = None
) -> PartDay:
    """Give the day with more plants judged, ``first`` those that are asked for."""
    ids = dict.fromkeys(each.plant_id for each in part.plants)
    asked = dict.fromkeys(each for each in first if each in ids) | ids
    wanted = list(islice((each for each in asked if each not in part.judged), most))
    if not wanted:
        return part
    new = judged_of(load_some(session, part.on, wanted), part.house, part.on)
    day = JudgedDay(part.on, part.house, Shelf(), new)
    lines = {k.plant_id: day_lines.line(day, k, j, part.done) for k, j in new}
    judged = {each[0].plant_id: each for each in new}
    return replace(
        part, judged={**part.judged, **judged}, lines={**part.lines, **lines}
    )


def _plants(session: Session) -> tuple[Unjudged, ...]:
    """Give what names each plant that grows here, as the round is walked."""
    at = PlaceRow.__table__.c
    places = {
        row.id: (row.name, walking.place_order(row.name, row.position))
        for row in session.execute(select(at.id, at.name, at.position))
    }
    nowhere = "", walking.place_order("", None)
    wanted = (
        select(
            PlantRow.id,
            PlantRow.tag,
            PlantRow.name,
            PlantRow.place_id,
            PlantRow.bench,
            PlantRow.held_as,
            PlantRow.how_many,
            *walking.COLUMNS,
        )
        .outerjoin(BenchRow, BenchRow.id == PlantRow.bench_id)
        .where(growing())
    )
    found = []
    rows: Sequence[Any] = session.execute(wanted).all()
    for row in rows:
        key, tag, name, place_id, bench, held_as, many, stands, turn = tuple(row)
        place, order = places.get(place_id, nowhere)
        shared = "" if held_as is None else together(held_as_of(row), many)
        walk = walking.along(order, turn, bench, key)
        plant = Unjudged(key, tag, name, place, bench or 0, stands or "", shared)
        found.append((walk, plant))
    found.sort()  # a walk ends with the plant's number: no two are equal
    return tuple([plant for _walk, plant in found])
