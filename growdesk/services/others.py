"""Notices what others wrote to a collection on a server since it was last asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import select

from growdesk.domain.speech import tr
from growdesk.services.ledger import facets
from growdesk.services.touched import touched_since
from growdesk.services.values import Changed
from growdesk.store.schema import ActionRow
from growdesk.store.server import ServerStore
from growdesk.store.states import state

if TYPE_CHECKING:
    from growdesk.services.ledger import Ledger
    from growdesk.store.session import Session
    from growdesk.store.states import State


_ALL = ~Changed.NOTHING


class News(Struct, frozen=True):
    """Which facets others touched, and in a line who did what last."""

    changed: Changed = Changed.NOTHING
    line: str = ""


class Others:
    """Asks cheaply, one statement where nothing happened, and remembers the answer."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger
        self.seen: State | None = None
        """The state that was looked at last; what is written may stand on it."""

    def look(self) -> News:
        """Give what others did since the last look; the first look gives nothing.

        What cannot be told for certain, as an undo, may have touched everything.
        """
        store = self._ledger.store
        if not isinstance(store, ServerStore):
            return News()  # nobody else can write there
        with self._ledger.reading() as session:
            before, now = self.seen, state(session)
            self.seen = now
            stretches = store.own.others(before, now)
            if not stretches:
                return News()
            changed = Changed.NOTHING
            for begin, end in stretches:
                touched = touched_since(session, begin, end)
                changed |= _ALL if touched is None else facets(touched.tables)
            return News(changed, _line(session, stretches[-1][1]))


def _line(session: Session, end: State) -> str:
    row = session.execute(
        select(ActionRow.title, ActionRow.who, ActionRow.is_note).where(
            ActionRow.id == end.newest, ActionRow.digest == end.digest
        )
    ).first()
    if row is None or not (row.is_note or end.newest == end.standing):
        return tr("Something was undone on another computer.")
    if not row.who:
        return tr("On another computer: {title}").format(title=row.title)
    return tr("On another computer, {who}: {title}").format(
        who=row.who, title=row.title
    )
