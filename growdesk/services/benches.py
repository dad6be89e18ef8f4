"""Benches: which shelf of a place comes when on a round, and what stands along it.

The order of benches and the numbers along them are the walking order of everything
else; each change of it renumbers what it touches, as one action.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import func, select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr
from growdesk.services import checking
from growdesk.services.bench_values import (
    BenchChoice,
    BenchDraft,
    BenchView,
    PlaceBenches,
    Standing,
)
from growdesk.services.ledger import written
from growdesk.services.named_rows import GONE, name_of
from growdesk.services.plant_rows import counted
from growdesk.services.standing import growing
from growdesk.services.walking import place_order
from growdesk.store.schema import BenchRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

_CHANGED = mark("The benches were changed meanwhile; open them again.")


class Benches:
    """The benches of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    # -- reading --------------------------------------------------------------------

    def choices(self) -> tuple[BenchChoice, ...]:
        """Give all benches, by their places, in walking order."""
        with self._ledger.reading() as session:
            rows = session.execute(
                select(
                    BenchRow.__table__,
                    PlaceRow.name.label("place"),
                    PlaceRow.position.label("turn"),
                ).join(PlaceRow, PlaceRow.id == BenchRow.place_id)
            ).all()
        rows = sorted(
            rows,
            key=lambda row: (*place_order(row.place, row.turn), row.position, row.id),
        )
        return tuple(BenchChoice(row.id, row.place_id, row.name) for row in rows)

    def of_place(self, place_id: int) -> PlaceBenches:
        """Give the benches of a place with what grows on each, in order."""
        with self._ledger.reading() as session:
            name_of(session, PlaceRow, place_id, "place")
            benches = _benches(session, place_id)
            plants: dict[int | None, list[Standing]] = {}
            for row in _along(session, place_id):
                standing = Standing(row.id, row.tag, row.name)
                plants.setdefault(row.bench_id, []).append(standing)
        views = [
            BenchView(
                row.id,
                BenchDraft(row.name, row.at_glass, row.note),
                tuple(plants.get(row.id, ())),
            )
            for row in benches
        ]
        views.append(BenchView(None, BenchDraft(""), tuple(plants.get(None, ()))))
        return PlaceBenches(place_id, tuple(views))

    # -- benches --------------------------------------------------------------------

    def add(self, place_id: int, draft: BenchDraft) -> Written:
        """Add a bench; it comes after those that are there."""
        kept = _checked(draft)
        title = tr("Bench {name} added").format(name=kept.name)
        with self._ledger.writing(title) as writing:
            name_of(writing.session, PlaceRow, place_id, "place")
            _refuse_second(writing.session, place_id, kept.name, None)
            last = writing.session.scalar(
                select(func.max(BenchRow.position)).where(BenchRow.place_id == place_id)
            )
            values = {"place_id": place_id, "position": (last or 0) + 1}
            bench_id = writing.insert(BenchRow, {**_values(kept), **values})
        return written(writing, title, (bench_id,))

    def change(self, bench_id: int, draft: BenchDraft) -> Written:
        """Change a bench: its name, whether it stands at the glass, its note."""
        kept = _checked(draft)
        title = tr("Bench {name} changed").format(name=kept.name)
        with self._ledger.writing(title) as writing:
            row = _bench(writing.session, bench_id)
            _refuse_second(writing.session, row.place_id, kept.name, bench_id)
            writing.update(BenchRow, bench_id, _values(kept))
        return written(writing, title, (bench_id,))

    def order(self, place_id: int, bench_ids: Sequence[int]) -> Written:
        """Put the benches of a place in an order; all of them are named."""
        with self._ledger.reading() as session:
            place = name_of(session, PlaceRow, place_id, "place")
        title = tr("Benches of {place} put in order").format(place=place)
        with self._ledger.writing(title) as writing:
            there = {row.id for row in _benches(writing.session, place_id)}
            _refuse_other("benches", bench_ids, there)
            turns = [(each, {"position": n}) for n, each in enumerate(bench_ids, 1)]
            writing.update_many(BenchRow, turns)
        return written(writing, title, bench_ids)

    def remove(self, bench_id: int) -> Written:
        """Remove a bench; its plants stay in the place, after those on no bench."""
        with self._ledger.reading() as session:
            name = _bench(session, bench_id).name
        title = tr("Bench {name} removed").format(name=name)
        with self._ledger.writing(title) as writing:
            row = _bench(writing.session, bench_id)
            on_it = writing.session.scalars(
                select(PlantRow.id)
                .where(PlantRow.bench_id == bench_id)
                .order_by(PlantRow.bench.nulls_first(), PlantRow.id)
            ).all()
            _stand(writing, on_it, None, _last(writing.session, row.place_id, None))
            writing.delete(BenchRow, bench_id)
        return written(writing, title)

    # -- plants along them ----------------------------------------------------------

    def put(
        self, place_id: int, bench_id: int | None, plant_ids: Sequence[int]
    ) -> Written:
        """Put plants of a place on one of its benches, or on none, after the others."""
        with self._ledger.reading() as session:
            on = _name(session, place_id, bench_id)
            tags = _tags(session, place_id, plant_ids)
        title = tr("{counted} put on {on}").format(counted=counted(tags), on=on)
        with self._ledger.writing(title) as writing:
            _tags(writing.session, place_id, plant_ids)
            last = _last(writing.session, place_id, bench_id)
            _stand(writing, plant_ids, bench_id, last)
        return written(writing, title, plant_ids)

    def along(
        self, place_id: int, bench_id: int | None, plant_ids: Sequence[int]
    ) -> Written:
        """Put all plants of a bench, or of none, in an order; they are numbered anew.

        What left the collection keeps its old number.
        """
        with self._ledger.reading() as session:
            title = tr("Plants along {name} put in order").format(
                name=_name(session, place_id, bench_id)
            )
        with self._ledger.writing(title) as writing:
            there = {
                row.id
                for row in _along(writing.session, place_id)
                if row.bench_id == bench_id
            }
            _refuse_other("plants", plant_ids, there)
            _stand(writing, plant_ids, bench_id, 0)
        return written(writing, title, plant_ids)

    # -- places ---------------------------------------------------------------------

    def order_places(self, place_ids: Sequence[int]) -> Written:
        """Put the places in the order in which a round is walked; all are named."""
        title = tr("Places put in order")
        with self._ledger.writing(title) as writing:
            there = set(writing.session.scalars(select(PlaceRow.id)))
            _refuse_other("places", place_ids, there)
            turns = [(each, {"position": n}) for n, each in enumerate(place_ids, 1)]
            writing.update_many(PlaceRow, turns)
        return written(writing, title, place_ids)


def _stand(
    writing: Writing, plant_ids: Sequence[int], bench_id: int | None, after: int
) -> None:
    writing.update_many(
        PlantRow,
        [
            (each, {"bench_id": bench_id, "bench": number})
            for number, each in enumerate(plant_ids, after + 1)
        ],
    )


def _benches(session: Session, place_id: int) -> Sequence[Any]:
    return session.execute(
        select(BenchRow.__table__)
        .where(BenchRow.place_id == place_id)
        .order_by(BenchRow.position, BenchRow.id)
    ).all()


def _along(session: Session, place_id: int) -> Sequence[Any]:
    """Give what grows in a place by number along its bench."""
    return session.execute(
        select(PlantRow.id, PlantRow.tag, PlantRow.name, PlantRow.bench_id)
        .where(growing(), PlantRow.place_id == place_id)
        .order_by(func.coalesce(PlantRow.bench, 0), PlantRow.id)
    ).all()


def _last(session: Session, place_id: int, bench_id: int | None) -> int:
    """Give the last number along a bench, or along a place past its benches."""
    last = session.scalar(
        select(func.max(PlantRow.bench)).where(
            growing(),
            PlantRow.place_id == place_id,
            PlantRow.bench_id.is_not_distinct_from(bench_id),
        )
    )
    return last or 0


def _bench(session: Session, bench_id: int) -> Any:
    row = session.execute(
        select(BenchRow.__table__).where(BenchRow.id == bench_id)
    ).one_or_none()
    if row is None:
        raise InputError("bench", bench_id, tr("is not there any more"), tr(GONE))
    return row


def _name(session: Session, place_id: int, bench_id: int | None) -> str:
    """Give the name of a bench, which must be one of the place."""
    if bench_id is None:
        name_of(session, PlaceRow, place_id, "place")
        return tr("no bench")
    row = _bench(session, bench_id)
    if row.place_id != place_id:
        raise InputError(
            "bench", row.name, tr("is in another place"), tr("Choose one here.")
        )
    return str(row.name)


def _tags(session: Session, place_id: int, plant_ids: Sequence[int]) -> list[str]:
    """Give the tags of plants; refuse one that does not grow in the place."""
    there = {row.id: row.tag for row in _along(session, place_id)}
    for each in plant_ids:
        if each not in there:
            hint = tr("Move it to this place first.")
            raise InputError("plant", each, tr("does not stand in this place"), hint)
    if not plant_ids:
        raise InputError("plants", "", tr("are not named"), tr("Select a plant."))
    return [there[each] for each in plant_ids]


def _refuse_other(field: str, given: Sequence[int], there: set[int]) -> None:
    if len(given) != len(there) or set(given) != there:
        raise InputError(
            field, "", tr("are not those that are there now"), tr(_CHANGED)
        )


def _refuse_second(session: Session, place_id: int, name: str, own: int | None) -> None:
    folded = name.casefold()
    for row in _benches(session, place_id):
        if row.name.casefold() == folded and row.id != own:
            hint = tr("Give this one another name.")
            raise InputError("bench_name", name, tr("is a bench here already"), hint)


def _checked(draft: BenchDraft) -> BenchDraft:
    hint = tr("Give the bench a name, say top shelf.")
    return BenchDraft(
        name=checking.needed_text("bench_name", draft.name, hint, checking.NAME),
        at_glass=draft.at_glass,
        note=checking.text("note", draft.note),
    )


def _values(draft: BenchDraft) -> dict[str, object]:
    return {"name": draft.name, "at_glass": draft.at_glass, "note": draft.note}
