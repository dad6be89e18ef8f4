"""Tell that a collection is damaged, with the ways out; nothing is lost by waiting."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialogButtonBox, QVBoxLayout, QWidget

from growdesk.domain.speech import tr
from growdesk.ui import damage_words, sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from growdesk.services.ways_out import WaysOut

_WIDE_PX = 560
_APART_PX = 8


class DamagedDialog(OnScreen):
    """What is damaged, the newest whole backup, and three ways: two lead on."""

    back_wanted = Signal()
    rescue_wanted = Signal()

    def __init__(
        self, parent: QWidget | None, ways: WaysOut, going: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        title = tr("The collection is damaged")
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._line = label("", tone="wrong")
        self._line.hide()
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(4)
        outer.addWidget(label(title, scale=1.3))
        for head, text in (
            (tr("What happened"), ways.line),
            (tr("What is safe"), _safe(ways)),
            (tr("What to do"), _advice(ways)),
        ):
            outer.addSpacing(_APART_PX)
            outer.addWidget(label(head, tone="head"))
            outer.addWidget(label(text))
        outer.addWidget(self._line)
        outer.addStretch(1)
        if going is not None:
            outer.addWidget(going)
        outer.addSpacing(_APART_PX)
        outer.addWidget(self._buttons(has_backup=ways.backup is not None))
        sizes.least_wide(self, _WIDE_PX)
        self._first.setDefault(True)
        self._first.setFocus()

    def begin(self) -> None:
        """Let nothing be asked twice while it is under way."""
        self._line.hide()
        self._allow(is_allowed=False)

    def failed(self, line: str) -> None:
        """Say why it did not work; the ways are open again."""
        self._line.setText(line)
        self._line.show()
        self._allow(is_allowed=True)

    def _buttons(self, *, has_backup: bool) -> QDialogButtonBox:
        box = QDialogButtonBox()
        self.back_button = button(tr("&Bring back this backup"), self._bring_back)
        self.rescue_button = button(tr("&Save what can be read"), self._rescue)
        ways = (self.back_button, self.rescue_button)[0 if has_backup else 1 :]
        for each in ways:
            each.setAutoDefault(True)
            box.addButton(each, QDialogButtonBox.ButtonRole.ActionRole)
        box.addButton(QDialogButtonBox.StandardButton.Close)
        box.rejected.connect(self.reject)
        self._first = ways[0]
        return box

    def _bring_back(self) -> None:
        self.back_wanted.emit()

    def _rescue(self) -> None:
        self.rescue_wanted.emit()

    def _allow(self, *, is_allowed: bool) -> None:
        self.back_button.setEnabled(is_allowed)
        self.rescue_button.setEnabled(is_allowed)


def _safe(ways: WaysOut) -> str:
    kept = tr("The damaged collection stays as it is, whichever way you take.")
    backup = damage_words.backup_line(ways.backup)
    return f"{kept} {backup}" if ways.backup is None else f"{backup} {kept}"


def _advice(ways: WaysOut) -> str:
    if ways.backup is None:
        return tr(
            "Save what can be read: it goes into a new collection in this one's place,"
            " and a list says what could not be read."
        )
    return tr(
        "If little was entered since the backup, bring it back. Else save what can be"
        " read: it goes into a new collection in this one's place, and a list says"
        " what could not be read. Copy the folder to another disk first if this one"
        " makes trouble."
    )
