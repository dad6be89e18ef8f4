"""Rain on the plants that stand outdoors and uncovered, written as care.

Rain that came too short to wet a pot is not written, nor any under cover. A plant that
was given something on the same day keeps that: it has one outcome a day.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec import Struct
from sqlalchemy import select

from growdesk.domain import rain
from growdesk.domain.case import Case
from growdesk.domain.errors import InputError
from growdesk.domain.facts import Care, CareKind
from growdesk.domain.facts_look import RAIN_MM
from growdesk.domain.jobs.weather import harmed_by_rain
from growdesk.domain.quantity_words import small_text
from growdesk.domain.speech import mark, tr
from growdesk.services import checking, day_rows, walking
from growdesk.services.action_titles import plants
from growdesk.services.known import load_known
from growdesk.services.ledger import written
from growdesk.services.settings import read_house
from growdesk.services.standing import growing
from growdesk.store.schema import BenchRow, CareRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.facts import House
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.session import Session

TO_COVER = mark(
    "to have little or no water now; bring under cover before it rains again."
)


class RainedOn(Struct, frozen=True):
    """What a day's rain would be written for, by tag in walking order.

    ``counts_as`` is ``none``, ``clear-water`` or ``flush``; ``given_already`` were
    watered by hand that day, ``covered`` stand under cover. ``resting`` are rained on
    though they are to have little water or none.
    """

    counts_as: str
    plant_ids: tuple[int, ...]
    tags: tuple[str, ...]
    given_already: tuple[str, ...]
    covered: tuple[str, ...]
    resting: tuple[str, ...] = ()


class OutdoorPlace(Struct, frozen=True):
    """A place outdoors and how many plants stand there."""

    place_id: int
    name: str
    plants: int


class Rain:
    """The rain of one collection's places outdoors."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def places(self) -> tuple[OutdoorPlace, ...]:
        """Give the places outdoors in the order they are walked."""
        with self._ledger.reading() as session:
            rows = session.execute(
                select(PlaceRow.id, PlaceRow.name, PlaceRow.position).where(
                    PlaceRow.outdoors
                )
            ).all()
            stands = session.scalars(select(PlantRow.place_id).where(growing())).all()
        rows = sorted(rows, key=lambda row: walking.place_order(row.name, row.position))
        return tuple(
            OutdoorPlace(row.id, row.name, stands.count(row.id)) for row in rows
        )

    def would_wet(
        self, place_ids: Sequence[int], on: date, rain_mm: float | None
    ) -> RainedOn:
        """Say which plants a day's rain would be written for, and as what."""
        mm = checking.number("rain_mm", rain_mm, RAIN_MM)
        with self._ledger.reading() as session:
            return _rained_on(session, place_ids, on, mm)

    def fell(
        self, place_ids: Sequence[int], on: date, rain_mm: float | None, note: str = ""
    ) -> Written:
        """Write a day's rain for the plants of places outdoors. ``rain_mm`` in mm."""
        checking.day_done("on", on, self._ledger.today())
        mm = checking.number("rain_mm", rain_mm, RAIN_MM)
        kept = checking.text("note", note)
        if not place_ids:
            raise InputError(
                "places", tr("none"), tr("are chosen"), tr("Choose a place outdoors.")
            )
        with self._ledger.reading() as session:
            found = _rained_on(session, place_ids, on, mm)
        _refuse_nothing(found, mm)
        title = tr("Rain on {counted}").format(counted=plants(found.tags))
        row = {"day": on, "what": CareKind.RAIN, "rain_mm": mm, "note": kept}
        with self._ledger.writing(title) as writing:
            rows = [{"plant_id": plant_id, **row} for plant_id in found.plant_ids]
            ids = writing.insert_many(CareRow, rows)
        return written(writing, title, ids, _left_out(found))


def _rained_on(
    session: Session, place_ids: Sequence[int], on: date, rain_mm: float | None
) -> RainedOn:
    house = read_house(session)
    fell = Care(on, CareKind.RAIN, rain_mm=rain_mm)
    rows = session.execute(
        select(
            PlantRow.id,
            PlantRow.tag,
            PlantRow.bench,
            PlantRow.under_cover,
            PlaceRow.name,
            PlaceRow.position,
            *walking.COLUMNS,
        )
        .join(PlaceRow, PlaceRow.id == PlantRow.place_id)
        .outerjoin(BenchRow, BenchRow.id == PlantRow.bench_id)
        .where(growing(), PlaceRow.outdoors, PlaceRow.id.in_(place_ids))
    ).all()
    rows = sorted(rows, key=lambda row: walking.order(row, row.name, row.position))
    done = day_rows.done_on(session, on)
    open_to_it = [row for row in rows if not row.under_cover]
    wet = [row for row in open_to_it if row.id not in done]
    counts_as = "flush" if rain.flushes(fell, house) else "clear-water"
    if not rain.waters(fell, house):
        counts_as = "none"
    return RainedOn(
        counts_as,
        tuple(row.id for row in wet),
        tuple(row.tag for row in wet),
        tuple(row.tag for row in open_to_it if row.id in done),
        tuple(row.tag for row in rows if row.under_cover),
        () if counts_as == "none" else _resting(session, house, open_to_it, on),
    )


def _resting(
    session: Session, house: House, open_to_it: Sequence[Any], on: date
) -> tuple[str, ...]:
    """Give those in the open that a rest keeps from water, in the order given."""
    if not open_to_it:
        return ()
    known = {each.plant_id: each for each in load_known(session, on)}
    found = (known[row.id] for row in open_to_it)
    return tuple(
        each.plant.tag
        for each in found
        if harmed_by_rain(Case(each.plant, each.kind, house, on, each.kind_known))
    )


def _refuse_nothing(found: RainedOn, rain_mm: float | None) -> None:
    if found.counts_as == "none":
        hint = tr("It wets the leaves only; the house rules say from when it counts.")
        raise InputError(
            "rain_mm",
            small_text(rain_mm or 0),
            tr("is too little to water a pot"),
            hint,
        )
    if not found.plant_ids:
        hint = tr(
            "Plants under cover, and those watered that day, are left as they are."
        )
        raise InputError("places", tr("no plant"), tr("stands there in the rain"), hint)


def _left_out(found: RainedOn) -> tuple[str, ...]:
    said = []
    if found.given_already:
        tags = ", ".join(found.given_already)
        said.append(
            tr("{tags}: something is on record for the day already, and stays.").format(
                tags=tags
            )
        )
    if found.resting:
        said.append(f"{', '.join(found.resting)}: {tr(TO_COVER)}")
    return tuple(said)
