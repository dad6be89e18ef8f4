"""Show all that the collection can be brought back from, and ask before it is done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import tr
from growdesk.ui import backup_words, looking, sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.dialogs.question import QuestionDialog
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtCore import SignalInstance

    from growdesk.services.backup_values import Backable, BackupsView

_SIZE = QSize(920, 520)


class BackupsDialog(OnScreen):
    """The backups of one collection, the last that was made first.

    ``progress`` is shown at the foot while long work is under way.
    """

    make_wanted = Signal()
    look_wanted = Signal(object)
    prove_wanted = Signal(object)
    back_wanted = Signal(object)
    file_wanted = Signal()
    second_wanted = Signal()
    folder_wanted = Signal()

    def __init__(
        self, parent: QWidget | None, today: date, progress: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Backups"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._today = today
        self._entries: tuple[Backable, ...] = ()
        self.table = ToldTable(
            tr("Backups, the last that was made first"),
            (
                tr("Made"),
                tr("Why"),
                tr("State"),
                tr("Plants"),
                tr("Photos"),
                tr("Size"),
            ),
            wide=(),
            numbers=(3, 4, 5),
        )
        self.table.horizontalHeader().setStretchLastSection(True)
        self.table.activated.connect(lambda _cell: self._bring_back())
        self.table.itemSelectionChanged.connect(self._tell_chosen)
        self.first = label("")
        self.chosen = label("", tone="muted")
        self.message = label("")
        self.message.hide()
        self.look_button = button(
            tr("&Look into it…"),
            lambda: self._emit(self.look_wanted),
            tr("Which plants it holds, and what differs from now"),
        )
        self.prove_button = button(
            tr("&Read it through"),
            lambda: self._emit(self.prove_wanted),
            tr("Every record and photo of it, to see that it is whole"),
        )
        self.back_button = button(
            tr("&Bring it back…"),
            self._bring_back,
            tr("Enter on a line; asks first"),
        )
        self.make_button = button(tr("&Make one now"), self.make_wanted.emit)
        self.file_button = button(
            tr("From a &file…"),
            self.file_wanted.emit,
            tr("Bring a backup back that lies somewhere else"),
        )
        self.second_button = button(
            tr("&Second place…"),
            self.second_wanted.emit,
            tr("A folder on another disk or a stick, where every backup also goes"),
        )
        self.folder_button = button(tr("&Open the folder"), self.folder_wanted.emit)
        self._writing = (self.make_button, self.file_button, self.second_button)
        self._lay_out(progress)
        self._offer()

    def show_view(self, view: BackupsView) -> None:
        """Show what there is now."""
        self._entries = view.entries
        self.table.show_rows([backup_words.row(e, self._today) for e in view.entries])
        self.first.setText(backup_words.standing(view, self._today))
        self._offer()
        if not view.entries and self.focusWidget() is self.table:
            self.make_button.setFocus()
        self._tell_chosen()

    def say(self, text: str) -> None:
        """Say what was done, or why it was not."""
        self.message.setText(text)
        self.message.setVisible(bool(text))

    @property
    def _now_chosen(self) -> Backable | None:
        row = self.table.currentRow()
        return self._entries[row] if 0 <= row < len(self._entries) else None

    def _bring_back(self) -> None:
        if self.back_button.isEnabled():
            self._emit(self.back_wanted)

    def _emit(self, wanted: SignalInstance) -> None:
        chosen = self._now_chosen
        if chosen is not None:
            self.say("")
            wanted.emit(chosen)

    def _tell_chosen(self) -> None:
        chosen = self._now_chosen
        self.chosen.setText("" if chosen is None else chosen.problem)
        self.chosen.setVisible(chosen is not None and bool(chosen.problem))

    def _offer(self) -> None:
        """Offer what can be done; where one only looks, nothing is brought back."""
        reason = looking.current().reason
        for each in (self.look_button, self.prove_button, self.back_button):
            each.setEnabled(bool(self._entries))
        if reason:
            for each in (self.back_button, *self._writing):
                each.setEnabled(False)
            self.say(tr("You can look, not write: {reason}").format(reason=reason))

    def _lay_out(self, progress: QWidget | None) -> None:
        of_one = QHBoxLayout()
        for each in (self.back_button, self.look_button, self.prove_button):
            of_one.addWidget(each)
        of_one.addStretch(1)
        foot = QDialogButtonBox()
        for each in (
            self.make_button,
            self.file_button,
            self.second_button,
            self.folder_button,
        ):
            foot.addButton(each, QDialogButtonBox.ButtonRole.ActionRole)
        close = foot.addButton(tr("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        close.setAutoDefault(False)
        foot.rejected.connect(self.reject)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addWidget(self.first)
        outer.addWidget(self.table, 1)
        outer.addWidget(self.chosen)
        outer.addLayout(of_one)
        outer.addWidget(self.message)
        if progress is not None:
            outer.addWidget(progress)
        outer.addWidget(foot)
        self.resize(sizes.px(_SIZE.width()), sizes.px(_SIZE.height()))
        self.table.setFocus()


class BringBackDialog(QuestionDialog):
    """The one question: what comes, what stays. Keeping what is there is default."""

    def __init__(self, parent: QWidget | None, text: str) -> None:
        super().__init__(
            parent,
            tr("Bring a backup back"),
            text,
            keep=tr("&Keep what is there"),
            go=tr("&Bring the backup back"),
        )
