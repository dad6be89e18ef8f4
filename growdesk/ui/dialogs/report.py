"""Show a report of a fault to be read and cut, and hand it out to be kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication, QTextCursor
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
)

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


class ReportDialog(OnScreen):
    """A report as text that can be written into; it is kept as it stands."""

    save_wanted = Signal(str)

    def __init__(self, parent: QWidget | None, text: str) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Report a fault"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.text = QPlainTextEdit(text)
        self.text.setAccessibleName(tr("The report"))
        self.text.setTabChangesFocus(True)
        self._begin_where_one_writes()
        self._line = label("", tone="muted")
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(
            label(
                tr(
                    "This is all that is in the report. Write at its head what you did "
                    "and saw, cut what you would rather keep to yourself, then save it "
                    "where you like. Nothing is sent."
                )
            )
        )
        outer.addWidget(self.text, 1)
        outer.addWidget(self._line)
        outer.addWidget(self._buttons())
        self.resize(sizes.area(680, 600))

    def say(self, line: str) -> None:
        """Tell what became of it; the report stays."""
        self._line.setText(line)

    def _begin_where_one_writes(self) -> None:
        """Put the cursor under the first head, which is for the person's own words."""
        head = self.text.document().find("== ")
        if not head.isNull():
            head.movePosition(QTextCursor.MoveOperation.NextBlock)
            self.text.setTextCursor(head)

    def _buttons(self) -> QDialogButtonBox:
        box = QDialogButtonBox()
        save = QPushButton(tr("&Save…"))
        save.setDefault(True)
        save.clicked.connect(self._save)
        box.addButton(save, QDialogButtonBox.ButtonRole.ActionRole)
        copy = button(tr("&Copy"), self._copy)
        box.addButton(copy, QDialogButtonBox.ButtonRole.ActionRole)
        box.addButton(QDialogButtonBox.StandardButton.Close)
        box.rejected.connect(self.reject)
        return box

    def _save(self) -> None:
        self.save_wanted.emit(self.text.toPlainText())

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.text.toPlainText())
        self.say(tr("Copied as it stands here."))
