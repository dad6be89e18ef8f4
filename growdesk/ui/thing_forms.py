"""Write and remove what dialogs of several things hand out, and keep their drafts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from shiboken6 import isValid

from growdesk.ui.drafts import Drafts

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection
    from growdesk.services.values import Written
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.frame import Framed
    from growdesk.ui.dialogs.rows import RowsDialog


class ThingForms(QObject):
    """Forms over the things of one collection; ``again`` shows them anew."""

    def __init__(self, desk: Desk, window: QWidget) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._drafts = Drafts.of(window)

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    def _save(
        self,
        dialog: RowsDialog,
        work: Callable[[], Written],
        key: int | None,
        again: Callable[[int | None], None],
    ) -> None:
        def kept(done: Written) -> None:
            now = done.ids[0] if done.ids else key
            if isValid(dialog):
                dialog.stored(key, now)
                dialog.say(done.title)
            again(now)

        self._desk.write(work, kept, lambda error: refuse(dialog, error))

    def _remove(
        self,
        dialog: RowsDialog,
        key: int,
        work: Callable[[], Written],
        again: Callable[[int | None], None],
    ) -> None:
        def removed(done: Written) -> None:
            if isValid(dialog):
                dialog.removed(key)
                dialog.say(done.title)
            again(None)

        self._desk.write(work, removed, lambda error: refuse(dialog, error))

    def _attend(self, dialog: Framed, *of: object) -> None:
        self._drafts.attend((self._now.folder, *of), dialog)


def refuse(dialog: RowsDialog, error: Exception) -> None:
    """Tell a refusal where the dialog is still there."""
    if isValid(dialog):
        dialog.refused(error)
