"""Show what was removed, put any of it back, and empty the bin after one question."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QDialogButtonBox, QVBoxLayout, QWidget

from growdesk.domain.speech import tr
from growdesk.services.bin_values import BinView
from growdesk.ui import history_words
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.dialogs.question import QuestionDialog
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from growdesk.services.bin_values import BinEntry

_SIZE = QSize(720, 460)
_MOST = 400


class BinDialog(OnScreen):
    """What lies in the bin, the newest first."""

    back_wanted = Signal(object)
    empty_wanted = Signal(object)

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Bin"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.view = BinView()
        self._shown: list[BinEntry] = []
        self.table = ToldTable(
            tr("What was removed, the newest first"),
            (tr("Removed"), tr("What"), tr("Plants or records")),
            wide=(1,),
        )
        self.table.activated.connect(lambda _cell: self._back())
        self.first = label("")
        self.message = label("", tone="muted")
        self.message.hide()
        self.back_button = button(tr("&Put back"), self._back, tr("Enter on a line"))
        self.empty_button = button(tr("&Empty the bin…"), self._empty)
        self._lay_out()
        self.show_bin(self.view)

    def show_bin(self, view: BinView) -> None:
        """Show what lies in the bin now."""
        self.view = view
        self._shown = list(view.entries[:_MOST])
        self.table.show_rows([history_words.bin_row(each) for each in self._shown])
        goes = history_words.what_goes(view)
        room = history_words.room_text(view) if view.photos else ""
        parts = [tr("To let go: {what}.").format(what=goes) if goes else "", room]
        if len(view.entries) > _MOST:
            parts.append(tr("The newest {most} are listed.").format(most=_MOST))
        if not view.entries and not goes:
            parts = [tr(history_words.BIN_NOTHING)]
        self.first.setText(" ".join(filter(None, parts)))
        self.back_button.setEnabled(bool(self._shown))
        self.empty_button.setEnabled(view.can_empty)

    def say(self, text: str) -> None:
        """Say what was done, or why it was not."""
        self.message.setText(text)
        self.message.setVisible(bool(text))

    def _back(self) -> None:
        row = self.table.currentRow()
        if 0 <= row < len(self._shown):
            self.say("")
            self.back_wanted.emit(self._shown[row].key)

    def _empty(self) -> None:
        self.empty_wanted.emit(self.view)

    def _lay_out(self) -> None:
        foot = QDialogButtonBox()
        for each in (self.back_button, self.empty_button):
            foot.addButton(each, QDialogButtonBox.ButtonRole.ActionRole)
        close = foot.addButton(tr("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        close.setAutoDefault(False)
        foot.rejected.connect(self.reject)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self.first)
        outer.addWidget(self.table, 1)
        outer.addWidget(self.message)
        outer.addWidget(label(tr(history_words.BIN_HOW), tone="muted"))
        outer.addWidget(foot)
        self.resize(_SIZE)
        self.table.setFocus()


class EmptyBinDialog(QuestionDialog):
    """The one question: what goes, on a button that says it; keeping is the default."""

    def __init__(self, parent: QWidget | None, view: BinView, folder: str) -> None:
        super().__init__(
            parent,
            tr("Empty the bin"),
            history_words.empty_text(view, folder),
            keep=tr("&Keep everything"),
            go=history_words.empty_button(view),
        )
