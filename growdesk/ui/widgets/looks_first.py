"""Show the looks worth taking: one line, and under it each of them with its why.

Folded it is a line of tags. Open, the cursor goes from plant to plant; Enter asks for
the look form, Escape folds it away. After a look its plant is gone from the list and
the cursor stands on the next one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QListView,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.facts import Verdict
from growdesk.domain.speech import Lines, mark, tr, trn
from growdesk.ui import sizes
from growdesk.ui.models.looks_model import ID_ROLE, Index, LooksModel
from growdesk.ui.widgets.looks_delegate import LooksDelegate
from growdesk.ui.widgets.parts import frame, link, short_label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QKeyEvent, QResizeEvent

    from growdesk.services.look_values import WorthLine

MOST_PLANTS = 10
TAGS_NAMED = 3
_COUNTS = Lines(
    "No looks worth taking",
    "One look worth taking",
    "Two looks worth taking",
    "Three looks worth taking",
    "Four looks worth taking",
    "Five looks worth taking",
    "Six looks worth taking",
    "Seven looks worth taking",
    "Eight looks worth taking",
    "Nine looks worth taking",
    "Ten looks worth taking",
)
NOTHING_TO_LOOK_AT = mark("No look is likely to turn a verdict of this day.")
STILL_LOOKED_FOR = mark(
    "The looks worth taking are still being found; ask again in a moment."
)
_ASIDE_PX = 40
_LIST_ROOM_PX = 350
"""What the list under it keeps: its filter, and half a dozen rows."""
_LEAST_HIGH_PX = 160
_ENTER = {Qt.Key.Key_Return, Qt.Key.Key_Enter}


class LooksFirst(QWidget):
    """The line, and the list it opens."""

    plant_chosen = Signal(int)
    look_wanted = Signal(int, str, str)
    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.model = LooksModel()
        self.head = link("", self.turn)
        self.head.setObjectName("looks-worth-taking")
        self.view = LooksView(self.model)
        self._card = frame("card")
        inner = QVBoxLayout(self._card)
        inner.setContentsMargins(1, 4, 1, 4)
        inner.addWidget(self.view)
        self._none = short_label("", tone="muted")
        self._none.setObjectName("no-looks")
        self._none.setMinimumHeight(self.head.sizeHint().height())
        self._among = short_label("", tone="muted")
        self._among.setObjectName("among-them")
        self._keys = short_label(tr("Enter records a look, Esc folds"), tone="muted")
        top = QHBoxLayout()
        top.setContentsMargins(7, 0, 14, 0)
        top.addWidget(self.head)
        top.addWidget(self._none)
        top.addWidget(self._among)
        top.addStretch(1)
        top.addWidget(self._keys)
        below = QVBoxLayout()
        below.setContentsMargins(14, 0, 14, 4)
        below.addWidget(self._card)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 2)
        column.setSpacing(2)
        column.addLayout(top)
        column.addLayout(below)
        self._card.hide()
        self._keys.hide()
        self.head.hide()
        self.hide()
        self.view.moved.connect(self.plant_chosen)
        self.view.entered_on.connect(self._want_look)
        self.view.escaped.connect(self._fold)

    @property
    def is_open(self) -> bool:
        """Tell whether the list is unfolded."""
        return not self._card.isHidden()

    def expect(self, *, has_plants: bool) -> None:
        """Keep the line's room while it is not known yet what to look at."""
        self.setVisible(has_plants)

    def show_lines(self, lines: Sequence[WorthLine]) -> None:
        """Show the first plants to look at; the cursor stays, or goes to the next."""
        had_focus = self.view.has_keys
        self.view.show_lines(lines[:MOST_PLANTS], follow=had_focus and self.is_open)
        self.head.setVisible(bool(lines))
        self._none.setText("" if lines else tr(NOTHING_TO_LOOK_AT))
        if not lines:
            self._card.hide()
            if had_focus:
                self.left.emit()
        self._name()

    def turn(self) -> None:
        """Unfold the list and go into it, or fold it away."""
        if self.is_open:
            self._fold()
        else:
            self.open()

    def open(self) -> bool:
        """Unfold the list with the cursor on a plant; tell whether there is one."""
        if not self.model.lines:
            return False
        self._card.show()
        self._name()
        self.view.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.view.begin()
        return True

    def grow_within(self, pane_px: int) -> None:
        """Let the list be as high as its pane has room for beside the day's own."""
        self.view.grow_to(max(pane_px - _LIST_ROOM_PX, _LEAST_HIGH_PX))

    def _want_look(self, plant_id: int) -> None:
        """Ask for the look form with the reason to look and the sign in doubt."""
        line = self.model.lines[self.model.row_of(plant_id)]
        self.look_wanted.emit(plant_id, line.why, line.sign)

    def _fold(self) -> None:
        self._card.hide()
        self._name()
        self.left.emit()

    def _name(self) -> None:
        lines = self.model.lines
        head = head_text([line.tag for line in lines], is_open=self.is_open)
        self.head.setText(head.replace("&", "&&"))
        self._keys.setVisible(self.is_open)
        self._among.setText(among_text(lines))
        self._fit_among()
        state = tr("shown below") if self.is_open else tr("folded")
        said = ", ".join(filter(None, (head, self._among.text())))
        self.head.setAccessibleName(f"{said}; {state}")

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_among()

    def _fit_among(self) -> None:
        """Leave the aside away where the line has no room for it."""
        parts = [self.head, self._among, *([self._keys] if self.is_open else [])]
        needed = sum(part.sizeHint().width() for part in parts) + _ASIDE_PX
        fits = bool(self._among.text()) and needed <= self.width()
        self._among.setVisible(fits)


def head_text(tags: Sequence[str], *, is_open: bool) -> str:
    """Give the line: the first tags while the list is folded."""
    count = len(tags)
    what = _COUNTS[count] if count < len(_COUNTS) else tr("{count} looks worth taking")
    what = what.format(count=count)
    if is_open:
        return what
    named = ", ".join(tags[:TAGS_NAMED])
    more = count - TAGS_NAMED
    if more <= 0:
        return f"{what}: {named}"
    return tr("{what}: {named} and {more} more").format(
        what=what, named=named, more=more
    )


def among_text(lines: Sequence[WorthLine]) -> str:
    """Say how many of the plants have the verdict to look first."""
    wanted = sum(line.verdict_now is Verdict.LOOK_FIRST for line in lines)
    if not wanted:
        return ""
    return trn(
        "{count} of them wants a look first",
        "{count} of them want a look first",
        wanted,
    ).format(count=wanted)


class LooksView(QListView):
    """The list: arrows go from plant to plant, Enter looks, Escape leaves."""

    moved = Signal(int)
    entered_on = Signal(int)
    escaped = Signal()

    def __init__(self, model: LooksModel) -> None:
        super().__init__()
        self._lines = model
        self._on: int | None = None
        self._row = 0
        self._quiet = False
        self._most_px = _LEAST_HIGH_PX
        self.setModel(model)
        self.setItemDelegate(LooksDelegate(self, model, lambda: self.has_keys))
        self.setAccessibleName(tr("Looks worth taking"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.viewport().setAutoFillBackground(False)
        self.doubleClicked.connect(self._look)
        sizes.current().turned.connect(self._take_size)
        self.clicked.connect(lambda _index: self._tell())

    @property
    def has_keys(self) -> bool:
        """Tell whether the window's keys go here, now or once a dialog is closed."""
        return self.window().focusWidget() is self

    def show_lines(self, lines: Sequence[WorthLine], *, follow: bool) -> None:
        """Show lines; ``follow`` tells where the cursor has come to stand."""
        self._quiet = True
        changed = self._lines.show(lines)
        if changed and lines:
            row = self._lines.row_of(self._on)
            row = min(self._row, len(lines) - 1) if row < 0 else row
            self.setCurrentIndex(self._lines.index(row))
        self._quiet = False
        self._fit()
        if changed and follow:
            self._tell()

    def grow_to(self, most_px: int) -> None:
        """Show all rows, or as many as this height holds."""
        self._most_px = most_px
        self._fit()

    def begin(self) -> None:
        """Put the cursor on a plant and tell which."""
        if not self.currentIndex().isValid():
            self.setCurrentIndex(self._lines.index(0))
        self._tell()
        self._fit()

    @override
    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        if current.isValid() and not self._quiet and self.has_keys:
            self._tell()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _ENTER and not event.modifiers():
            self._look(self.currentIndex())
        elif event.key() == Qt.Key.Key_Escape:
            self.escaped.emit()
        else:
            super().keyPressEvent(event)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()
        self._fit()

    def _look(self, index: QModelIndex) -> None:
        plant_id = index.data(ID_ROLE)
        if isinstance(plant_id, int):
            self.entered_on.emit(plant_id)

    def _tell(self) -> None:
        index = self.currentIndex()
        plant_id = index.data(ID_ROLE)
        if isinstance(plant_id, int):
            self._on, self._row = plant_id, index.row()
            self.moved.emit(plant_id)

    def _take_size(self) -> None:
        self.scheduleDelayedItemsLayout()
        self._fit()

    def _fit(self) -> None:
        rows = range(self._lines.rowCount())
        high = sum(self.sizeHintForRow(row) for row in rows)
        self.setFixedHeight(min(max(high, 1), self._most_px))
