"""Rows that people call by a name: what is there, what is taken, which is in use."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import Phrases, mark, tr

if TYPE_CHECKING:
    from sqlalchemy import Select

    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

GONE: Final = mark("It was removed; undo brings it back.")
_ALREADY = Phrases(
    {
        "measure": "is a measure already",
        "place": "is a place already",
        "recipe": "is a recipe already",
        "tin": "is a tin already",
        "vessel": "is a vessel already",
        "view": "is a view already",
        "water": "is a water already",
    }
)


def name_of(
    session: Session, table: Any, row_id: int, what: str, hint: str = ""
) -> str:
    """Give a row's name; ``InputError`` where it is not there any more."""
    name: str | None = session.scalar(
        _there(select(table.name), table).where(table.id == row_id)
    )
    if name is None:
        raise InputError(what, row_id, tr("is not there any more"), hint or tr(GONE))
    return name


def refuse_second(
    session: Session, table: Any, name: str, own: int | None, what: str
) -> None:
    """Refuse a name that another row has, in whatever case it is written."""
    folded = name.casefold()
    for other_id, other in session.execute(_there(select(table.id, table.name), table)):
        if other.casefold() == folded and other_id != own:
            hint = tr("Give this one another name.")
            raise InputError("name", name, _ALREADY[what], hint)


def put_in_use(writing: Writing, table: Any, row_id: int) -> None:
    """Put one in use, and all others out of it."""
    ids = writing.session.scalars(select(table.id)).all()
    writing.update_many(table, [(each, {"in_use": each == row_id}) for each in ids])


def _there(chosen: Select[Any], table: Any) -> Select[Any]:
    """Leave out what went off the shelf."""
    gone = getattr(table, "gone_on", None)
    return chosen if gone is None else chosen.where(gone.is_(None))
