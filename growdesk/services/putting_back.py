"""Put removed records back as they were, where what they belong to is still there.

All that one action took away comes back together, and what it changed beside that
(photos taken off a look, say) is set as before unless it was changed again since.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services.day_rows import WATERING
from growdesk.store.removed import references, taken_by
from growdesk.store.schema import RECORDED, CareRow, PassByRow

if TYPE_CHECKING:
    from growdesk.store.images import Values
    from growdesk.store.journal import Writing
    from growdesk.store.removed import Shifted
    from growdesk.store.session import Session

Numbers = dict[tuple[str, int], int]


def put_back(writing: Writing, action_id: int) -> tuple[int, ...]:
    """Put back what an action took away; give the plants that it is of."""
    session = writing.session
    taken, shifted = taken_by(session, action_id)
    if not taken:
        hint = tr("Open the bin anew.")
        raise InputError("entry", "", tr("is not in the bin any more"), hint)
    numbers: Numbers = {}
    try:
        for each in taken:
            if each.table not in RECORDED:
                problem = tr("holds what only a newer growdesk knows")
                raise InputError("entry", "", problem, tr("Put it back with that one."))
            row = _pointed(session, each.table, each.row, numbers)
            _refuse_second_watering(session, each.table, row)
            number = writing.put_back(RECORDED[each.table], row, each.change_id)
            numbers[each.table, each.row["id"]] = number
        for change in shifted:
            _set_as_before(writing, change, numbers)
    except IntegrityError as error:
        problem = tr("cannot stand beside what was written since, of that name or day")
        hint = tr("Rename or remove that one first.")
        raise InputError("entry", "", problem, hint) from error
    owners = (each.row.get("plant_id") for each in taken)
    return tuple(dict.fromkeys(owner for owner in owners if owner is not None))


def _pointed(
    session: Session, table: str, row: Values, numbers: Numbers
) -> dict[str, Any]:
    """Give a row that points at what is there; refuse one whose owner is gone."""
    pointed = dict(row)
    columns = RECORDED[table].__table__.c
    for column, target in references(table).items():
        before = row[column]
        if before is None:
            continue
        number: int | None = numbers.get((target, before), before)
        if not _is_there(session, target, number):
            if column in {"plant_id", "place_id"} or not columns[column].nullable:
                problem = tr("belongs to what is not there any more")
                hint = tr("It can only stay in the bin.")
                raise InputError("entry", "", problem, hint)
            number = None
        pointed[column] = number
    return pointed


def _refuse_second_watering(session: Session, table: str, row: Values) -> None:
    """Refuse a watering where the plant has another word on that day by now."""
    if table != CareRow.__tablename__ or row["what"] not in WATERING:
        return
    plant_id, day = row["plant_id"], row["day"]
    others = select(CareRow.id).where(
        CareRow.plant_id == plant_id, CareRow.day == day, CareRow.what.in_(WATERING)
    )
    passed = select(PassByRow.id).where(
        PassByRow.plant_id == plant_id, PassByRow.day == day
    )
    if any(session.scalar(each.limit(1)) is not None for each in (others, passed)):
        problem = tr("is of a day that has another watering by now")
        raise InputError("entry", "", problem, tr("Delete that one first."))


def _set_as_before(writing: Writing, change: Shifted, numbers: Numbers) -> None:
    row_class = RECORDED.get(change.table)
    if row_class is None:
        return
    table = row_class.__table__
    found = writing.session.execute(
        select(table).where(table.c.id == change.row_id)
    ).mappings()
    now = found.one_or_none()
    if now is None:
        return
    pointing = references(change.table)
    values = {
        name: numbers.get((pointing.get(name, ""), before), before)
        for name, before in change.before.items()
        if name in change.after
        and before != change.after[name]
        and name in now
        and now[name] == change.after[name]
    }
    for name in values.keys() & pointing.keys():
        if values[name] is not None and not _is_there(
            writing.session, pointing[name], values[name]
        ):
            del values[name]
    if values:
        writing.update(row_class, change.row_id, values)


def _is_there(session: Session, table: str, number: int | None) -> bool:
    column = RECORDED[table].__table__.c.id
    return session.scalar(select(column).where(column == number)) is not None
