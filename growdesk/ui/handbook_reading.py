"""Open the handbook of one window at the page that is asked for, and keep one of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication
from shiboken6 import isValid
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services.handbook import handbook
from growdesk.ui.dialogs.handbook import HandbookDialog
from growdesk.ui.handbook_asking import FACES
from growdesk.ui.preferences import preferences

if TYPE_CHECKING:
    from collections.abc import Mapping

    from PySide6.QtGui import QAction
    from PySide6.QtWidgets import QWidget

    from growdesk.ui.faces import Faces
    from growdesk.ui.rule_reading import RuleReading

_KEPT = "handbook-page"


class HandbookReading(QObject):
    """The handbook beside one window; it goes when the window goes."""

    def __init__(
        self,
        window: QWidget,
        commands: Mapping[str, QAction],
        faces: Faces,
        rules: RuleReading,
    ) -> None:
        super().__init__(window)
        self._window = window
        self._commands = commands
        self._faces = faces
        self._rules = rules
        self.dialog: HandbookDialog | None = None
        window.installEventFilter(self)

    def of_window(self) -> None:
        """Open it at what the window shows; on the day, at the page last read."""
        self.open(FACES.get(self._faces.shown, ""))

    def open(self, page: str = "") -> None:
        """Show it at a page, or where it was left."""
        dialog = self.dialog
        if dialog is None or not isValid(dialog):
            kept = str(preferences().value(_KEPT, ""))
            dialog = self.dialog = self._made(page or kept)
            dialog.show()
            dialog.stand_beside(self._window)
        elif page:
            dialog.go_to(page)
        dialog.show()
        dialog.raise_()
        dialog.activateWindow()

    def _made(self, page: str) -> HandbookDialog:
        dialog = HandbookDialog(handbook(), page)
        dialog.turned_to.connect(lambda key: preferences().setValue(_KEPT, key))
        dialog.rule_wanted.connect(self._rules.show)
        dialog.command_wanted.connect(self._do)
        return dialog

    def _do(self, command: str) -> None:
        """Open what a page leads to, in the window, or say why it stays shut now."""
        if self.dialog is None:
            return
        if QApplication.activeModalWidget() is not None:
            self.dialog.say(tr("A form is open. Finish it first."))
        elif not self._commands[command].isEnabled():
            self.dialog.say(tr("There is nothing to open it for now."))
        else:
            self.dialog.say("")
            self._window.activateWindow()
            self._commands[command].trigger()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Close it with its window, which is hidden only when it is closed."""
        if watched is self._window and event.type() == QEvent.Type.Hide:
            dialog = self.dialog
            if dialog is not None and isValid(dialog):
                dialog.close()
        return super().eventFilter(watched, event)
