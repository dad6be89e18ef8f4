"""Write care, for one plant or many, as one action; change it; delete it.

A plant has one watering a day: a new one takes the place of what was written for that
day, while one that is changed may not come upon another. What a feed or water took
from the shelf goes with it: with its litres where only those change, by what is in use
where its strength or kind does, and back where it is deleted.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain import pouring
from growdesk.domain.case import REPOTTING
from growdesk.domain.day_words import day_text
from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.domain.recipe_uses import recipe_for
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.services import checking, day_rows, drawing_down, repot_record
from growdesk.services.action_titles import plants
from growdesk.services.care_checks import POURED, checked
from growdesk.services.care_values import CareDraft
from growdesk.services.known import load_some
from growdesk.services.ledger import written
from growdesk.services.plant_rows import tags_of, tags_there
from growdesk.services.settings import read_house
from growdesk.services.shelf import house_with_water, read_shelf
from growdesk.store.schema import CareRow, DrawnRow

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence
    from datetime import date

    from growdesk.domain.facts import House, Plant
    from growdesk.services.ledger import Ledger
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Written
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

Row = dict[str, Any]

TITLES: Mapping[CareKind, str] = Phrases(
    {
        CareKind.FEED: "Feed given to {}",
        CareKind.CLEAR_WATER: "Clear water given to {}",
        CareKind.FLUSH: "Flush given to {}",
        CareKind.REPOT: "Repot of {}",
        CareKind.DIVIDE: "Division of {}",
        CareKind.MOVE: "Move of {}",
        CareKind.TREAT: "Treatment of {}",
        CareKind.RAIN: "Rain on {}",
    }
)
_VERDICTS = {
    CareKind.FEED: Verdict.FEED,
    CareKind.CLEAR_WATER: Verdict.CLEAR_WATER,
    CareKind.FLUSH: Verdict.FLUSH,
}
_DRAWS_BY = ("what", "strength_ppm_n")
_GONE = mark("It was deleted; undo brings it back.")


class _Pouring:
    """What is needed to say what care pours and takes from the shelf on a day."""

    def __init__(self, session: Session, on: date, plants: Collection[int]) -> None:
        self.on = on
        self.shelf: Shelf = replace(read_shelf(session), on=on)
        self.house: House = house_with_water(read_house(session), self.shelf)
        self.plants: dict[int, Plant] = {
            known.plant_id: known.plant for known in load_some(session, on, plants)
        }

    def poured_l(self, plant_id: int, what: CareKind) -> float | None:
        """Give the litres taken as given: a whole round, or a whole flush."""
        verdict, plant = _VERDICTS.get(what), self.plants.get(plant_id)
        if verdict is None or plant is None:
            return None
        return pouring.pour_l(plant, self.house, verdict, Water.THROUGH)

    def uses(self, rows: Sequence[Row]) -> list[drawing_down.Uses]:
        """Give what rows of the same care take, each by its plant's recipe."""
        shelf, house = self.shelf, self.house
        recipes = [
            recipe_for(plant, self.on, shelf.uses, shelf.recipe, house.latitude)
            if (plant := self.plants.get(row["plant_id"]))
            else None
            for row in rows
        ]
        return drawing_down.of_given(rows, recipes, house, shelf)


def add(ledger: Ledger, plant_ids: Sequence[int], draft: CareDraft) -> Written:
    """Write what was given or done to plants, whatever the plan says."""
    tags = wanted(ledger, plant_ids, draft.on)
    kept = checked(draft, ledger.today())
    rows = [{"plant_id": plant_id, **_values(kept)} for plant_id in tags]
    uses: list[drawing_down.Uses] = [{} for _ in rows]
    if kept.what in POURED:
        with ledger.reading() as session:
            pouring_on = _Pouring(session, kept.on, tags)
        for row in rows:
            if row["volume_l"] is None:
                row["volume_l"] = pouring_on.poured_l(row["plant_id"], kept.what)
        uses = pouring_on.uses(rows)
    title = TITLES[kept.what].format(named(list(tags.values())))
    problems: tuple[str, ...] = ()
    with ledger.writing(title) as writing:
        if kept.what in day_rows.WATERING:
            day_rows.take_back(writing, tags, kept.on)
        ids = writing.insert_many(CareRow, rows)
        writing.insert_many(DrawnRow, drawing_down.rows(ids, uses))
        if kept.what in REPOTTING:
            repots = [(row["plant_id"], None, row) for row in rows]
            problems = repot_record.settle(writing, repots)
    return written(writing, title, ids, problems)


def change(ledger: Ledger, care_id: int, draft: CareDraft) -> Written:
    """Correct a piece of care; what it took from the shelf and its repot follow."""
    kept = checked(draft, ledger.today())
    with ledger.reading() as session:
        before = row_of(session, care_id)
        plant_id = before["plant_id"]
        tag = tags_of(session, [plant_id])[plant_id]
        _refuse_second(session, before, kept, tag)
        after = {**before, **_values(kept)}
        if kept.what not in day_rows.WATERING:
            after["ec_ms_per_cm"] = None
        uses = _drawn_anew(session, before, after)
    title = tr("{titles} changed").format(titles=TITLES[kept.what].format(tag))
    told: tuple[str, ...] = ()
    with ledger.writing(title) as writing:
        changed = {name: value for name, value in after.items() if name != "id"}
        writing.update(CareRow, care_id, changed)
        if uses is not None:
            day_rows.put_back(writing, [care_id])
            writing.insert_many(DrawnRow, drawing_down.rows([care_id], [uses]))
        elif _scale(before, after) != 1:
            _scale_drawn(writing, care_id, _scale(before, after))
        if before["what"] in REPOTTING or kept.what in REPOTTING:
            told = repot_record.settle(writing, [(plant_id, before, after)])
    return written(writing, title, (care_id,), told)


def remove(ledger: Ledger, care_ids: Sequence[int]) -> Written:
    """Delete pieces of care; what they took goes back on the shelf."""
    with ledger.reading() as session:
        rows = rows_of(session, care_ids)
        if not rows:
            raise InputError(
                "care", tr("none"), tr("is chosen"), tr("Choose an entry.")
            )
        tags = tags_of(session, [row["plant_id"] for row in rows])
    title = tr("{count} entries of care of {plants} deleted").format(
        count=len(rows), plants=named(list(tags.values()))
    )
    if len({(row["what"], row["day"]) for row in rows}) == 1:
        of = TITLES[CareKind(rows[0]["what"])]
        title = tr("{care} on {day} deleted").format(
            care=of.format(named(list(tags.values()))),
            day=day_text(rows[0]["day"], ledger.today()),
        )
    with ledger.writing(title) as writing:
        ids = [row["id"] for row in rows]
        day_rows.put_back(writing, ids)
        writing.delete_many(CareRow, ids)
        repots = [(r["plant_id"], r, None) for r in rows if r["what"] in REPOTTING]
        problems = repot_record.settle(writing, repots)
    return written(writing, title, (), problems)


def wanted(ledger: Ledger, plant_ids: Sequence[int], on: date) -> dict[int, str]:
    """Give the tags of the plants meant, once each; refuse a day still to come.

    One that had left by then is refused as well.
    """
    checking.day_done("on", on, ledger.today())
    if not plant_ids:
        raise InputError(
            "plants", tr("none"), tr("are chosen"), tr("Choose one plant or more.")
        )
    with ledger.reading() as session:
        return tags_there(session, plant_ids, on)


def named(tags: Sequence[str]) -> str:
    """Give one tag, or how many plants there are."""
    return plants(tags)


def row_of(session: Session, care_id: int) -> Row:
    """Give a piece of care with all its columns, or say that it is gone."""
    return rows_of(session, (care_id,))[0]


def rows_of(session: Session, care_ids: Sequence[int]) -> list[Row]:
    """Give pieces of care in the order asked for, once each, or say what is gone."""
    wanted = select(CareRow.__table__).where(CareRow.id.in_(set(care_ids)))
    found = {row["id"]: dict(row) for row in session.execute(wanted).mappings()}
    for care_id in care_ids:
        if care_id not in found:
            raise InputError("care", care_id, tr("is not there any more"), tr(_GONE))
    return [found[care_id] for care_id in dict.fromkeys(care_ids)]


def _values(draft: CareDraft) -> Row:
    """Give the columns of a draft; the first field is the day."""
    values = {each: getattr(draft, each) for each in CareDraft.__struct_fields__}
    return {"day": values.pop("on"), **values}


def _refuse_second(session: Session, before: Row, kept: CareDraft, tag: str) -> None:
    """Refuse a watering on a day that has another of the same plant."""
    if kept.what not in day_rows.WATERING:
        return
    if before["what"] in day_rows.WATERING and before["day"] == kept.on:
        return
    others = select(CareRow.id).where(
        CareRow.plant_id == before["plant_id"],
        CareRow.day == kept.on,
        CareRow.id != before["id"],
        CareRow.what.in_(day_rows.WATERING),
    )
    if session.scalars(others.limit(1)).first() is not None:
        raise InputError(
            "on",
            kept.on.isoformat(),
            tr("has another watering of {tag}").format(tag=tag),
            tr("Change that one, or delete it first."),
        )


def _drawn_anew(session: Session, before: Row, after: Row) -> drawing_down.Uses | None:
    """Give what changed care takes where that cannot follow from what it took."""
    is_alike = all(before[name] == after[name] for name in _DRAWS_BY)
    if is_alike and (before["volume_l"] or not after["volume_l"]):
        return None
    if after["what"] not in POURED:
        return {}
    return _Pouring(session, after["day"], (after["plant_id"],)).uses([after])[0]


def _scale(before: Row, after: Row) -> float:
    """Give how many times as much was poured; nothing at all takes nothing."""
    old, new = before["volume_l"] or 0.0, after["volume_l"] or 0.0
    return new / old if old else 1.0


def _scale_drawn(writing: Writing, care_id: int, times: float) -> None:
    drawn = writing.session.execute(
        select(DrawnRow.id, DrawnRow.amount).where(DrawnRow.care_id == care_id)
    ).all()
    if times <= 0:
        writing.delete_many(DrawnRow, [row.id for row in drawn])
        return
    changes = [(row.id, {"amount": row.amount * times}) for row in drawn]
    if changes:
        writing.update_many(DrawnRow, changes)
