"""Notices what others wrote to a collection on a server since it was last asked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.speech import tr
from growdesk.services.ledger import facets
from growdesk.services.touched import State, state, touched_since
from growdesk.services.values import Changed
from growdesk.store.schema import ActionRow

if TYPE_CHECKING:
    from growdesk.services.ledger import Ledger
    from growdesk.store.session import Session


@dataclass(frozen=True, slots=True)
class News:
    """Which facets others touched, and in a line who did what last."""

    changed: Changed = Changed.NOTHING
    line: str = ""


class Others:
    """Asks cheaply, two statements where nothing happened, and remembers the answer."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger
        self._seen: State | None = None
        self._own = 0

    def wrote(self) -> None:
        """Note that this window wrote one action itself, and shows it already."""
        self._own += 1

    def look(self) -> News:
        """Give what others did since the last look; the first look gives nothing.

        What cannot be told for certain, as an undo, may have touched everything.
        """
        own, self._own = self._own, 0
        with self._ledger.reading() as session:
            before, now = self._seen, state(session)
            self._seen = now
            if before is None or before == now or self._is_ours(before, now, own):
                return News()
            touched = touched_since(session, before, now)
            changed = ~Changed.NOTHING if touched is None else facets(touched.tables)
            return News(changed, _line(session, now))

    def _is_ours(self, before: State, now: State, own: int) -> bool:
        """Tell whether all that came is what this window wrote."""
        plain = before.newest == before.standing and now.newest == now.standing
        return plain and own > 0 and now.newest - before.newest == own


def _line(session: Session, now: State) -> str:
    row = session.execute(
        select(ActionRow.title, ActionRow.who).where(ActionRow.id == now.newest)
    ).first()
    if row is None or now.newest != now.standing:
        return tr("Something was undone on another computer.")
    if not row.who:
        return tr("On another computer: {title}").format(title=row.title)
    return tr("On another computer, {who}: {title}").format(
        who=row.who, title=row.title
    )
