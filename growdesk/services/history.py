"""Undo and redo, by name, over closing and reopening."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services.ledger import facets
from growdesk.services.values import HistoryView, Written
from growdesk.store import journal

if TYPE_CHECKING:
    from growdesk.services.ledger import Ledger
    from growdesk.store.journal import Moved


class History:
    """What was done to one collection, and the way back and forth in it."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def view(self) -> HistoryView:
        """Give what undo and redo would do now, in words."""
        with self._ledger.reading() as session:
            back, forth = journal.next_undo(session), journal.next_redo(session)
        return HistoryView(
            undo=None if back is None else back[1],
            redo=None if forth is None else forth[1],
        )

    def undo(self) -> Written | None:
        """Take the last action back; nothing where there is none."""
        with self._ledger.store.unrecorded() as session:
            moved = journal.undo(session)
        return _written("Undone", moved)

    def redo(self) -> Written | None:
        """Do again what was undone last; nothing where there is none."""
        with self._ledger.store.unrecorded() as session:
            moved = journal.redo(session)
        return _written("Done again", moved)


def _written(word: str, moved: Moved | None) -> Written | None:
    if moved is None:
        return None
    return Written(facets(moved.tables), f"{word}: {moved.title}")
