"""Show what a look through a collection, or a rescue, found: a head and plain lines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialogButtonBox, QPlainTextEdit, QVBoxLayout

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtWidgets import QWidget

Way = tuple[str, "Callable[[], object]"]


class FoundDialog(OnScreen):
    """Heads in short sentences, the list as text, and the ways that lead on."""

    def __init__(
        self,
        parent: QWidget | None,
        title: str,
        heads: Sequence[str],
        text: str,
        ways: Sequence[Way] = (),
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.text = QPlainTextEdit(text)
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        self.text.setAccessibleName(tr("What was found"))
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(label(title, scale=1.3))
        for head in heads:
            outer.addWidget(label(head))
        outer.addWidget(self.text, 1)
        self.text.setVisible(bool(text))
        if not text:
            outer.addStretch(1)
        outer.addWidget(self._buttons(ways, has_text=bool(text)))
        self.resize(sizes.area(640, 460 if text else 180))

    def _buttons(self, ways: Sequence[Way], *, has_text: bool) -> QDialogButtonBox:
        box = QDialogButtonBox()
        for said, way in ways:
            box.addButton(
                button(said, self._leading(way)),
                QDialogButtonBox.ButtonRole.ActionRole,
            )
        if has_text:
            copy = button(tr("Cop&y"), self._copy)
            box.addButton(copy, QDialogButtonBox.ButtonRole.ActionRole)
        close = box.addButton(QDialogButtonBox.StandardButton.Close)
        close.setDefault(True)
        box.rejected.connect(self.reject)
        return box

    def _leading(self, way: Callable[[], object]) -> Callable[[], None]:
        def go() -> None:
            self.accept()
            way()

        return go

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.text.toPlainText())
