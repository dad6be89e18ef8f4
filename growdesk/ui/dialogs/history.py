"""Show what was done, by day, the newest first, and go back or forth to any point."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialogButtonBox,
    QHBoxLayout,
    QHeaderView,
    QLineEdit,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import tr
from growdesk.services.history_values import PastAsk
from growdesk.ui import history_words, theme
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.tips import as_typed
from growdesk.ui.widgets.find_line import DialogFindLine
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from growdesk.services.history_values import PastAction, PastPage
    from growdesk.ui.history_words import HistoryRow

_SIZE = QSize(760, 560)
_AIR_PX = 14
_WAIT_MS = 200
_TAG_PX = 130
_WHO = 3


class HistoryDialog(OnScreen):
    """The history of one collection; rows come in pages."""

    page_wanted = Signal(object)
    step_wanted = Signal(object)

    def __init__(self, parent: QWidget | None, tag: str = "") -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("History of changes"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.actions_shown: list[PastAction] = []
        self._rows: list[HistoryRow] = []
        self.find_line = DialogFindLine()
        self.find_line.setPlaceholderText(tr("Find in what was done"))
        self.find_line.setAccessibleName(tr("Find in what was done"))
        self.tag = QLineEdit(tag)
        self.tag.setPlaceholderText(tr("Of the plant"))
        self.tag.setAccessibleName(tr("Only of the plant with this tag"))
        self.tag.setClearButtonEnabled(True)
        self.tag.setFixedWidth(_TAG_PX)
        self.table = _table()
        self.message = label("", tone="muted")
        self.message.hide()
        self.step_button = button(tr("Undo"), self._step)
        self.more_button = button(tr("Show &older ones"), self._older)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(_WAIT_MS)
        self._timer.timeout.connect(self.ask)
        for line in (self.find_line, self.tag):
            line.textChanged.connect(lambda _text: self._timer.start())
        self.find_line.entered.connect(self.table.setFocus)
        self.table.itemSelectionChanged.connect(self._offer)
        self._lay_out()
        self._offer()

    # -- what the window asks -------------------------------------------------------

    def ask(self) -> None:
        """Ask for the newest of what is looked for."""
        self._timer.stop()
        self.say("")
        self.page_wanted.emit(PastAsk(self.find_line.text(), self.tag.text()))

    def show_page(self, ask: PastAsk, page: PastPage) -> None:
        """Show a page: the first in place of all, a later one below."""
        if ask.before is None:
            self.actions_shown = []
        self.actions_shown.extend(page.actions)
        self.more_button.setEnabled(page.has_more)
        self._fill()

    def say(self, text: str) -> None:
        """Say what was done, or why it was not."""
        self.message.setText(text)
        self.message.setVisible(bool(text))

    # -- inside ---------------------------------------------------------------------

    def _fill(self) -> None:
        chosen = self._chosen()
        self._rows = history_words.rows_of(self.actions_shown)
        self.table.setRowCount(0)
        self.table.clearSpans()
        self.table.setRowCount(len(self._rows))
        is_of_several = history_words.is_of_several(self.actions_shown)
        self.table.setColumnHidden(_WHO, not is_of_several)
        for number, row in enumerate(self._rows):
            if row.action is None:
                self._put_heading(number, row.heading)
            else:
                self._put_action(number, row, row.action)
        if self._rows:
            self.table.selectRow(history_words.row_to_choose(self._rows, chosen))
        else:
            self.say(tr(history_words.NOTHING))
        self._offer()

    def _put_action(self, number: int, row: HistoryRow, action: PastAction) -> None:
        cells = (row.time, action.title, row.whom, action.who)
        for column, text in enumerate(cells):
            item = QTableWidgetItem(text)
            item.setToolTip(as_typed(text))
            if action.undone or not (action.is_kept or action.is_note):
                item.setForeground(QColor(theme.colours().muted))
            self.table.setItem(number, column, item)

    def _put_heading(self, number: int, text: str) -> None:
        item = QTableWidgetItem(text)
        item.setFlags(Qt.ItemFlag.ItemIsEnabled)
        font = item.font()
        font.setBold(True)
        item.setFont(font)
        self.table.setItem(number, 0, item)
        self.table.setSpan(number, 0, 1, self.table.columnCount())

    def _chosen(self) -> PastAction | None:
        selected = self.table.selectionModel().selectedRows()
        number = selected[0].row() if selected else -1
        return self._rows[number].action if 0 <= number < len(self._rows) else None

    def _offer(self) -> None:
        chosen = self._chosen()
        self.step_button.setText(history_words.step_text(chosen))
        self.step_button.setEnabled(chosen is not None and chosen.is_kept)

    def _step(self) -> None:
        chosen = self._chosen()
        if chosen is not None:
            self.say("")
            self.step_wanted.emit(chosen)

    def _older(self) -> None:
        if self.actions_shown:
            oldest = self.actions_shown[-1].action_id
            self.page_wanted.emit(
                PastAsk(self.find_line.text(), self.tag.text(), before=oldest)
            )

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.find_line, 1)
        head.addWidget(self.tag)
        foot = QDialogButtonBox()
        for each in (self.step_button, self.more_button):
            foot.addButton(each, QDialogButtonBox.ButtonRole.ActionRole)
        close = foot.addButton(tr("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        close.setAutoDefault(False)
        foot.rejected.connect(self.reject)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addLayout(head)
        outer.addWidget(self.table, 1)
        outer.addWidget(self.message)
        outer.addWidget(label(tr(history_words.HOW), tone="muted"))
        outer.addWidget(foot)
        self.resize(_SIZE)
        self.table.setFocus()


def _table() -> QTableWidget:
    table = QTableWidget(0, 4)
    table.setAccessibleName(tr("What was done, the newest first"))
    table.setHorizontalHeaderLabels(
        [tr("Time"), tr("What was done"), tr("Plants"), tr("Account")]
    )
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    table.setShowGrid(False)
    table.setTabKeyNavigation(False)
    table.setWordWrap(False)
    table.verticalHeader().hide()
    high = table.fontMetrics().height() + _AIR_PX
    table.verticalHeader().setDefaultSectionSize(high)
    header = table.horizontalHeader()
    header.setDefaultAlignment(
        Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
    )
    header.setSectionResizeMode(1, QHeaderView.ResizeMode.Stretch)
    table.setColumnWidth(0, table.fontMetrics().horizontalAdvance("00:00") + 34)
    table.setColumnWidth(2, 190)
    table.setColumnHidden(_WHO, True)  # noqa: FBT003 -- Qt takes it so
    return table
