"""Sets back what a full check found, as the history has it: one action, undoable.

What was changed meanwhile is left as it is. The damaged value stays in the history, as
what stood there before; one that cannot even be read is set back without.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from sqlalchemy import select, update
from sqlalchemy.exc import IntegrityError, OperationalError

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr, trn
from growdesk.services.ledger import written
from growdesk.store.schema import RECORDED, Base
from growdesk.store.witness import same

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Table

    from growdesk.services.check_values import Damage, Mend
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.journal import Writing


def set_back(ledger: Ledger, damage: Sequence[Damage]) -> Written:
    """Set back all of these that the history knows; raises InputError without any."""
    mends = [each.mend for each in damage if each.mend is not None]
    title = tr("Set back as the history has it")
    done = 0
    with ledger.writing(title) as writing:
        for mend in _parents_first(mends):
            done += _set_back(writing, mend)
        if not done:
            hint = tr("Look the collection through again.")
            raise InputError("check", "", tr("found nothing that stands so now"), hint)
        said = trn(
            "Set back as the history has it: {count} entry",
            "Set back as the history has it: {count} entries",
            done,
        ).format(count=done)
        return written(writing, said)


def _set_back(writing: Writing, mend: Mend) -> bool:
    """Set one back where it still stands as it was found; say whether it was."""
    table = Base.metadata.tables[mend.table]
    try:
        with writing.session.begin_nested():
            if not mend.column:
                return _bring_back(writing, table, mend)
            return _is_as_found(writing, mend) and _change(writing, table, mend)
    except IntegrityError:
        return False


def _bring_back(writing: Writing, table: Table, mend: Mend) -> bool:
    query = select(table.c.id).where(table.c.id == mend.row_id)
    if writing.session.scalar(query) is not None:
        return False
    values = {name: _value(table, name, value) for name, value in mend.row.items()}
    writing.put_back(RECORDED[mend.table], values, 0)
    return True


def _change(writing: Writing, table: Table, mend: Mend) -> bool:
    told = _value(table, mend.column, mend.told)
    try:
        with writing.session.begin_nested():
            return writing.update(
                RECORDED[mend.table], mend.row_id, {mend.column: told}
            )
    except (ValueError, TypeError, OperationalError):
        there = update(table).where(table.c.id == mend.row_id)
        writing.session.execute(there.values({mend.column: told}))
        return True


def _is_as_found(writing: Writing, mend: Mend) -> bool:
    """Tell whether a value stands as it was found; what cannot be read does."""
    column, name = mend.column, mend.table
    query = f"SELECT {column} FROM {name} WHERE id = ?"  # noqa: S608 -- of our own tables
    try:
        row = (
            writing.session.connection()
            .exec_driver_sql(query, (mend.row_id,))
            .one_or_none()
        )
    except OperationalError:
        return True
    return row is not None and same(row[0], mend.found)


def _value(table: Table, column: str, plain: Any) -> Any:
    """Give a value as a row takes it: a day as a day, yes and no as such."""
    kind = table.c[column].type.python_type
    if kind is date and isinstance(plain, str):
        return date.fromisoformat(plain)
    return bool(plain) if kind is bool and plain is not None else plain


def _parents_first(mends: Sequence[Mend]) -> list[Mend]:
    """Give whole entries first, in an order in which none points at one to come."""
    order = {table.name: at for at, table in enumerate(Base.metadata.sorted_tables)}
    return sorted(mends, key=lambda mend: (bool(mend.column), order[mend.table]))
