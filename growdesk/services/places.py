"""Places: where plants stand, with the light and the warmth they have."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from sqlalchemy import func, select

from growdesk.domain import wording
from growdesk.domain.errors import InputError
from growdesk.domain.facts import PlaceKind
from growdesk.domain.facts_plant import LAMP_HOURS, LAMP_PPFD, SHADED
from growdesk.domain.leaf_light import at_leaf
from growdesk.domain.speech import tr
from growdesk.services import checking
from growdesk.services.ledger import written
from growdesk.services.named_rows import name_of, refuse_second
from growdesk.services.recipe_rows import forget_place
from growdesk.services.settings import read_house
from growdesk.services.standing import growing
from growdesk.services.values import PlaceDraft, PlaceView, Written
from growdesk.services.view_form import without_place
from growdesk.services.walking import place_order
from growdesk.store.mapping import facing_of, glass_of, place_of, reading_of
from growdesk.store.schema import (
    BenchRow,
    ForecastRow,
    JobDoneRow,
    PlaceRow,
    PlantRow,
    ReadingRow,
    SavedViewRow,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from growdesk.domain.facts import House, Reading
    from growdesk.services.ledger import Ledger
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

_MEAN_DAYS = 7


class Places:
    """The places of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def all(self) -> tuple[PlaceView, ...]:
        """Give all places in walking order, plants counted and today's light told."""
        today = self._ledger.today()
        with self._ledger.reading() as session:
            rows = session.execute(select(PlaceRow.__table__)).all()
            counts = _counts(session)
            house = read_house(session)
            recent = _recent(session, house, today)
        views = [
            _view(row, counts.get(row.id, 0), recent.get(row.id, ()), house, today)
            for row in rows
        ]
        return tuple(
            sorted(views, key=lambda v: place_order(v.draft.name, v.draft.position))
        )

    def add(self, draft: PlaceDraft) -> Written:
        """Add a place."""
        kept = _checked(draft)
        title = tr("Place {name} added").format(name=kept.name)
        with self._ledger.writing(title) as writing:
            refuse_second(writing.session, PlaceRow, kept.name, None, "place")
            place_id = writing.insert(PlaceRow, _values(kept))
        return written(writing, title, (place_id,))

    def change(self, place_id: int, draft: PlaceDraft) -> Written:
        """Change a place."""
        kept = _checked(draft)
        title = tr("Place {name} changed").format(name=kept.name)
        with self._ledger.writing(title) as writing:
            name_of(writing.session, PlaceRow, place_id, "place")
            refuse_second(writing.session, PlaceRow, kept.name, place_id, "place")
            writing.update(PlaceRow, place_id, _values(kept))
        return written(writing, title, (place_id,))

    def remove(self, place_id: int) -> Written:
        """Remove a place where no plant stands; its readings go with it.

        So does what recipes were said to hold there and what views ask of it, which
        is told.
        """
        with self._ledger.reading() as session:
            name = name_of(session, PlaceRow, place_id, "place")
        title = tr("Place {name} removed").format(name=name)
        with self._ledger.writing(title) as writing:
            _refuse_occupied(writing.session, place_id, name)
            not_growing = writing.session.scalars(
                select(PlantRow.id).where(PlantRow.place_id == place_id)
            ).all()
            nowhere = {"place_id": None, "bench_id": None}
            writing.update_many(PlantRow, [(each, nowhere) for each in not_growing])
            for table in (ReadingRow, ForecastRow, JobDoneRow, BenchRow):
                of_place = select(table.id).where(table.place_id == place_id)
                writing.delete_many(table, writing.session.scalars(of_place).all())
            told = (*forget_place(writing, place_id), *_free_views(writing, place_id))
            writing.delete(PlaceRow, place_id)
        return written(writing, title, problems=told)


def _free_views(writing: Writing, place_id: int) -> tuple[str, ...]:
    """Let views ask for no place where it was this one; tell which."""
    rows = writing.session.execute(select(SavedViewRow.__table__)).all()
    freed = [
        (row, what)
        for row in rows
        if (what := without_place(row.what, place_id)) is not None
    ]
    writing.update_many(SavedViewRow, [(row.id, {"what": what}) for row, what in freed])
    return tuple(
        tr("The view {name} asks for no place now.").format(name=row.name)
        for row, _ in freed
    )


def _counts(session: Session) -> dict[int | None, int]:
    """Give the number of plants by place."""
    rows = session.execute(
        select(PlantRow.place_id, func.count())
        .where(growing())
        .group_by(PlantRow.place_id)
    )
    return {row[0]: row[1] for row in rows}


def _recent(session: Session, house: House, today: date) -> dict[int, list[Reading]]:
    """Give the readings of the last weeks by place, today's among them."""
    first = today - timedelta(days=max(house.light_window_days, _MEAN_DAYS))
    found: dict[int, list[Reading]] = {}
    for row in session.execute(
        select(ReadingRow.__table__).where(
            ReadingRow.place_id.in_(select(PlaceRow.id)),
            ReadingRow.day.between(first, today),
        )
    ):
        found.setdefault(row.place_id, []).append(reading_of(row))
    return found


def _view(
    row: Any, plants: int, readings: Sequence[Reading], house: House, today: date
) -> PlaceView:
    week = [each for each in readings if (today - each.on).days < _MEAN_DAYS]
    light = at_leaf(place_of(row, readings), house, today)
    return PlaceView(
        place_id=row.id,
        draft=_draft(row),
        plants=plants,
        mean_7_days_c=_mean(each.day_mean_c for each in week),
        humidity_7_days_percent=_mean(each.humidity_percent for each in week),
        light=wording.light_sentence(light, today, controlled=row.controlled),
    )


def _mean(values: Iterable[float | None]) -> float | None:
    read = [value for value in values if value is not None]
    return sum(read) / len(read) if read else None


def _draft(row: Any) -> PlaceDraft:
    return PlaceDraft(
        name=row.name,
        kind=row.kind,
        controlled=row.controlled,
        outdoors=row.outdoors,
        lamps_hours=row.lamps_hours,
        lamps_ppfd=row.lamps_ppfd,
        facing=facing_of(row),
        glass=glass_of(row),
        shaded=row.shaded,
        note=row.note,
        position=row.position,
    )


def _values(draft: PlaceDraft) -> dict[str, object]:
    return {
        "name": draft.name,
        "kind": draft.kind,
        "controlled": draft.controlled,
        "outdoors": draft.outdoors,
        "lamps_hours": draft.lamps_hours,
        "lamps_ppfd": draft.lamps_ppfd,
        "facing": draft.facing,
        "glass": draft.glass,
        "shaded": draft.shaded,
        "note": draft.note,
        "position": draft.position,
    }


def _checked(draft: PlaceDraft) -> PlaceDraft:
    kinds = [kind.value for kind in PlaceKind]
    if draft.kind not in kinds:
        hint = tr("Use one of {list}.").format(list=", ".join(kinds))
        raise InputError("kind", draft.kind, tr("is no sort of place"), hint)
    if (draft.lamps_hours is None) != (draft.lamps_ppfd is None):
        missing = "lamps_hours" if draft.lamps_hours is None else "lamps_ppfd"
        hint = tr("Give the hours and the PPFD of the lamps, or neither.")
        raise InputError(missing, tr("nothing"), tr("is given for the lamps"), hint)
    return replace(
        draft,
        name=checking.needed_text(
            "name", draft.name, tr("Give the place a name."), checking.NAME
        ),
        lamps_hours=checking.number("lamps_hours", draft.lamps_hours, LAMP_HOURS),
        lamps_ppfd=checking.number("lamps_ppfd", draft.lamps_ppfd, LAMP_PPFD),
        shaded=checking.number("shaded", draft.shaded, SHADED),
        note=checking.text("note", draft.note),
    )


def _refuse_occupied(session: Session, place_id: int, name: str) -> None:
    tags = session.scalars(
        select(PlantRow.tag)
        .where(PlantRow.place_id == place_id, growing())
        .order_by(PlantRow.tag)
    ).all()
    if tags:
        form = (
            tr("Move these plants first: {shown} and more.")
            if len(tags) > 10
            else tr("Move these plants first: {shown}.")
        )
        hint = form.format(shown=", ".join(tags[:10]))
        raise InputError("place", name, tr("still has plants"), hint)
