"""Read the journal page by page, and walk it back and forth over many actions.

An action whose changes were forgotten (the bin was emptied after it) keeps its title
and can be neither undone nor done again.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from itertools import islice
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from sqlalchemy import case, exists, func, select, union_all
from sqlalchemy.exc import IntegrityError

from growdesk.domain.errors import StoreError
from growdesk.store import undoing
from growdesk.store.both import image_number, image_text, is_image
from growdesk.store.schema import ActionRow, ChangeRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sqlalchemy import ColumnElement, Select

    from growdesk.store.journal import Stamp
    from growdesk.store.session import Session


class Past(Struct, frozen=True):
    """One action; ``steps`` is how many actions lie between now and its far side.

    Of a done action they are undone with it, of an undone one done again with it. A
    note tells what nothing undoes; ``who`` is the account it was done from.
    """

    action_id: int
    at_s: int
    title: str
    who: str
    is_note: bool
    undone: bool
    is_kept: bool
    steps: int


class Walked(Struct, frozen=True):
    """What a walk through the journal did: titles in order, tables, plants.

    ``stuck_at`` is the title of the action that could not be taken, if any.
    """

    titles: tuple[str, ...] = ()
    tables: frozenset[str] = frozenset()
    plants: tuple[int, ...] = ()
    stuck_at: str = ""


def page(
    session: Session,
    most: int,
    before: int | None = None,
    text: str = "",
    plant_id: int | None = None,
) -> list[Past]:
    """Give actions, the newest first, older than ``before`` where that is given."""
    kept = exists().where(ChangeRow.action_id == ActionRow.id)
    wanted = select(
        ActionRow.id,
        ActionRow.at_s,
        ActionRow.title,
        ActionRow.who,
        ActionRow.is_note,
        ActionRow.undone,
        kept,
    )
    if before is not None:
        wanted = wanted.where(ActionRow.id < before)
    if plant_id is not None:
        about = ChangeRow.action_id == ActionRow.id
        wanted = wanted.where(exists().where(about, _plant() == plant_id))
    wanted = wanted.order_by(ActionRow.id.desc())
    if text:
        wanted = wanted.where(ActionRow.id.in_(_told(session, wanted, text, most)))
    rows = session.execute(wanted.limit(most)).all()
    if not rows:
        return []
    done, undone = _numbers(session, rows[-1][0])
    return [
        Past(
            number,
            at_s,
            title,
            who,
            is_note,
            was_undone,
            bool(is_kept),
            bisect_right(undone, number)
            if was_undone
            else len(done) - bisect_left(done, number),
        )
        for number, at_s, title, who, is_note, was_undone, is_kept in rows
    ]


def plants_of(
    session: Session, action_ids: Sequence[int]
) -> dict[int, tuple[tuple[int, str], ...]]:
    """Give the plants that actions touched, with their tags as they are now.

    A plant that is not there any more has the tag that the journal knows, or none.
    """
    plant = _plant().label("plant")
    is_plant = ChangeRow.table_name == PlantRow.__tablename__
    tag = case((is_plant, image_text(_image(), "tag")))
    touched = select(ChangeRow.action_id, plant, func.max(tag).label("tag")).where(
        ChangeRow.action_id.in_(action_ids), plant.is_not(None)
    )
    told = touched.group_by(ChangeRow.action_id, plant).subquery()
    rows = session.execute(
        select(told.c.action_id, told.c.plant, func.coalesce(PlantRow.tag, told.c.tag))
        .outerjoin(PlantRow, PlantRow.id == told.c.plant)
        .order_by(told.c.action_id, told.c.plant)
    )
    found: dict[int, list[tuple[int, str]]] = {}
    for number, plant_id, known in rows:
        found.setdefault(number, []).append((plant_id, known or ""))
    return {number: tuple(plants) for number, plants in found.items()}


def walk_to(
    session: Session,
    point: int,
    step: Callable[[int, int], None],
    stamp: Stamp | None = None,
) -> Walked:
    """Undo or do again, one by one, until all up to ``point`` is done and no more.

    A step that the rows do not take is left, and the walk ends before it.
    """
    done = session.scalars(
        select(ActionRow.id).where(
            ActionRow.undone.is_(False),
            ActionRow.is_note.is_(False),
            ActionRow.id > point,
        )
    ).all()
    again = session.scalars(
        select(ActionRow.id).where(
            ActionRow.undone.is_(True),
            ActionRow.is_note.is_(False),
            ActionRow.id <= point,
        )
    ).all()
    move = undoing.undo if done else undoing.redo
    of = len(done) or len(again)
    titles: list[str] = []
    tables: set[str] = set()
    plants: dict[int, None] = {}
    for number in range(of):
        step(number, of)
        try:
            with session.begin_nested():
                moved = move(session, stamp)
        except (IntegrityError, StoreError):
            return Walked(
                tuple(titles), frozenset(tables), tuple(plants), _next(session, done)
            )
        if moved is None:
            break
        titles.append(moved.title)
        tables |= moved.tables
        plants.update(dict.fromkeys(moved.plants))
    return Walked(tuple(titles), frozenset(tables), tuple(plants))


def last_forgotten(session: Session) -> int:
    """Give the newest action whose changes were forgotten; 0 without any."""
    kept = exists().where(ChangeRow.action_id == ActionRow.id)
    forgotten = select(func.max(ActionRow.id)).where(~kept, ~ActionRow.is_note)
    return session.scalar(forgotten) or 0


def _next(session: Session, done: Sequence[int]) -> str:
    ahead = undoing.next_undo(session) if done else undoing.next_redo(session)
    return "" if ahead is None else ahead[1]


def _told(
    session: Session, among: Select[*tuple[Any, ...]], text: str, most: int
) -> list[int]:
    """Give the first actions whose titles hold a text, whatever its capitals.

    Letters are folded as Python does: databases know those of English, if any.
    """
    folded = text.casefold()
    wanted = among.with_only_columns(ActionRow.id, ActionRow.title)
    with session.execute(wanted) as rows:
        told = (number for number, title in rows if folded in title.casefold())
        return list(islice(told, most))


def _numbers(session: Session, lowest: int) -> tuple[list[int], list[int]]:
    """Give the numbers of what is done from one on, and of all that is undone."""
    wanted = select(ActionRow.id, ActionRow.undone).where(ActionRow.is_note.is_(False))
    rows = session.execute(
        union_all(
            wanted.where(ActionRow.id >= lowest),
            wanted.where(ActionRow.id < lowest, ActionRow.undone.is_(True)),
        )
    ).all()
    done = sorted(number for number, undone in rows if not undone)
    return done, sorted(number for number, undone in rows if undone)


def _plant() -> ColumnElement[Any]:
    """Give the plant that a change is about, or nothing."""
    is_plant = ChangeRow.table_name == PlantRow.__tablename__
    return case((is_plant, ChangeRow.row_id), else_=image_number(_image(), "plant_id"))


def _image() -> ColumnElement[Any]:
    """Give the image of a change; nothing where it is damaged and cannot be read."""
    image = func.coalesce(ChangeRow.after, ChangeRow.before)
    return case((is_image(image), image))
