"""Keep what was typed into a form and left unsaved, until it is saved or thrown away.

A draft lives as long as the window and belongs to one collection and one thing. What
is in it, only the dialog that made it knows.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from PySide6.QtCore import QObject, Signal

if TYPE_CHECKING:
    from collections.abc import Hashable

    from growdesk.ui.dialogs.frame import Framed
    from growdesk.ui.dialogs.hindsight import HindsightDialog


class _Draft(Struct, frozen=True):
    title: str
    kept: Any


class Drafts(QObject):
    """The drafts of one window."""

    left = Signal(str)

    def __init__(self, window: QObject) -> None:
        super().__init__(window)
        self._kept: dict[Hashable, _Draft] = {}

    @classmethod
    def of(cls, window: QObject) -> Drafts:
        """Give the drafts of a window, the same for all who ask."""
        found = window.findChild(cls)
        return found if isinstance(found, cls) else cls(window)

    @property
    def titles(self) -> tuple[str, ...]:
        """Give the titles of the forms that were left unsaved."""
        return tuple(draft.title for draft in self._kept.values())

    def kept(self, key: Hashable) -> Any:
        """Give what was left under a key, or nothing."""
        found = self._kept.get(key)
        return None if found is None else found.kept

    def keep(self, key: Hashable, title: str, kept: Any) -> None:
        """Keep what a form was left with; an empty one is let go."""
        self._keep(key, title, kept)

    def let_go(self, key: Hashable) -> None:
        """Let a draft go, since what it held was written."""
        self._kept.pop(key, None)

    def attend(self, key: Hashable, dialog: Framed | HindsightDialog) -> None:
        """Give a dialog the draft it was left with, and keep what it leaves."""
        kept = self._kept.get(key)
        if kept is not None:
            dialog.take_draft(kept.kept)
        dialog.left.connect(partial(self._keep, key, dialog.windowTitle()))
        dialog.accepted.connect(partial(self._kept.pop, key, None))

    def _keep(self, key: Hashable, title: str, kept: Any) -> None:
        if not kept:
            self._kept.pop(key, None)
            return
        self._kept[key] = _Draft(title, kept)
        self.left.emit(title)
