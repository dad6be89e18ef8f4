"""Give the frame of every dialog with a form: what fits the screen and loses nothing.

The form scrolls between a fixed head and foot, so that a low screen reaches all of it.
Enter presses the button that has the focus and else saves; Ctrl+Enter saves from
anywhere. What was typed and left goes out as a draft. No dialog runs a loop of its own.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtWidgets import (
    QApplication,
    QDialogButtonBox,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.errors import GrowdeskError, OvertakenError
from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.held import Held, held, hold
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.dialogs.tabbing import chain
from growdesk.ui.field_words import plain_line
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.parts import Page, TallArea, button, column, label

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QShowEvent

_ENTER = {Qt.Key.Key_Return, Qt.Key.Key_Enter}
_BAR_PX = 14
_TEXT_PX = 620
_ASIDE_PX = 40


class BodyArea(TallArea):
    """The middle of a dialog: asks for all its content's height, takes what it gets.

    Text asks for no more than a line's usual width, ``text_px``; it wraps.
    """

    asked = Signal()

    def __init__(self, inner: QWidget, name: str) -> None:
        super().__init__(inner)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(name)
        self.text_px = _TEXT_PX

    @override
    def sizeHint(self) -> QSize:
        inner = self.widget()
        if inner is None:
            return super().sizeHint()
        wanted = inner.sizeHint().expandedTo(inner.minimumSizeHint())
        least = inner.minimumSizeHint().width()
        text = sizes.px(self.text_px)
        wanted.setWidth(max(least, min(wanted.width(), text)))
        wide = max(wanted.width(), self.viewport().width() if self.isVisible() else 0)
        high = inner.heightForWidth(wide) if inner.hasHeightForWidth() else -1
        return QSize(
            wanted.width() + _BAR_PX, (high if high > 0 else wanted.height()) + 2
        )

    @override
    def most_wide(self) -> int:
        window = self.window()
        free = window.room() if isinstance(window, OnScreen) else window.size()
        return free.width() - _ASIDE_PX

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        done = super().eventFilter(watched, event)
        if event.type() == QEvent.Type.LayoutRequest:
            self.asked.emit()
        return done


def _seen_by(over: QWidget | None) -> object:
    """Give the state that the window below a dialog shows."""
    while over is not None and not hasattr(over, "desk"):
        over = over.parentWidget()
    return None if over is None else over.desk.stands_on


class Framed(OnScreen):
    """A dialog with a head that stays, a form that scrolls, an error line, buttons."""

    left = Signal(object)
    most_high_px = 10_000

    def __init__(self, parent: QWidget | None, title: str, save: str) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.form = Form()
        self.forms: tuple[Form, ...] = (self.form,)
        self.opened_with: Held = {}
        self.stands_on = _seen_by(parent)
        """The state of a server that the form was opened on; nothing in a folder."""
        self.top = column()
        self.body = column(spacing=10)
        inner = Page()
        inner.setLayout(self.body)
        self.area = BodyArea(inner, title)
        self.area.asked.connect(self._fit)
        self.middle = QHBoxLayout()
        self.below = column()
        self._message = label("", tone="wrong")
        self._message.hide()
        self.save_button = QPushButton(save)
        self.save_button.setDefault(True)
        self.save_button.setToolTip(tr("Ctrl+Enter"))
        self.buttons = QDialogButtonBox()
        self.buttons.rejected.connect(self.reject)
        self._draft_bar = self._make_draft_bar()
        self._lay_out_frame()
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._keep_in_sight)

    # -- what a dialog of one sort gives --------------------------------------------

    def draft(self) -> object:
        """Give what the form holds; raises ``InputError`` on a slip."""
        raise NotImplementedError

    def send(self, draft: object) -> None:
        """Hand a draft out to be written."""
        raise NotImplementedError

    def kept(self) -> Any:
        """Give what has to be kept when the dialog is left now; empty for nothing."""
        return self.changes()

    def enter(self, focused: QWidget | None) -> None:
        """Do what Enter means where the focus is."""
        if isinstance(focused, QPushButton):
            focused.click()
        else:
            self.try_save()

    # -- saving ---------------------------------------------------------------------

    def try_save(self) -> None:
        """Hand the draft out, or tell the slip beside its field."""
        if not self.save_button.isEnabled():
            return
        self.complain("")
        for form in self.forms:
            form.clear_errors()
        try:
            draft = self.draft()
        except GrowdeskError as error:
            self.refused(error)
            return
        self.send(draft)

    def refused(self, error: Exception) -> None:
        """Tell why it was not written; all that was entered stays."""
        if isinstance(error, OvertakenError):
            self.stands_on = error.now
        self.save_button.setEnabled(True)
        self.complain("")
        if not self.show_beside(error):
            self.complain(plain_line(error))

    def show_beside(self, error: Exception) -> bool:
        """Tell an error beside its field, where the form has that field."""
        if self.form.show_error(error):
            return True
        self.form.say("")
        return False

    def complain(self, text: str) -> None:
        """Show a line above the buttons, where no field can be named."""
        self._message.setText(text)
        self._message.setVisible(bool(text))

    # -- what was typed -------------------------------------------------------------

    def begin(self) -> None:
        """Take what stands in the form as what it opened with."""
        self.opened_with = self.held()

    def held(self) -> Held:
        """Give what stands in the form."""
        return held(self.forms)

    def changes(self) -> Held:
        """Give what was typed or chosen since the form opened."""
        now = self.held()
        return {f: v for f, v in now.items() if v != self.opened_with.get(f)}

    def take_draft(self, kept: Any) -> None:
        """Put a draft that was left back into the form, and say so."""
        hold(self.forms, kept)
        self._draft_bar.show()

    def throw_away(self) -> None:
        """Show the form as it opens without its draft."""
        hold(self.forms, self.opened_with)
        self.mark_draft(is_one=False)

    def mark_draft(self, *, is_one: bool) -> None:
        """Say, or no longer say, that the form shows a draft."""
        self._draft_bar.setVisible(is_one)

    @override
    def reject(self) -> None:
        """Leave; what was entered is handed out to be kept as a draft."""
        self.left.emit(self.kept())
        super().reject()

    # -- keys and room --------------------------------------------------------------

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in _ENTER:
            super().keyPressEvent(event)
        elif event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.try_save()
        else:
            self.enter(self.focusWidget())

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._order_tabs()
        self._fit()
        self.stand_over_parent()

    def _fit(self) -> None:
        """Grow about its middle to what the form asks for, as far as there is room."""
        if not self.isVisible():
            return
        self.area.updateGeometry()
        self.middle.invalidate()
        room, wanted = self.room(), self.sizeHint()
        high = min(wanted.height(), sizes.px(self.most_high_px))
        middle = self.geometry().center()
        self.resize(
            min(max(wanted.width(), self.width()), room.width()),
            min(max(high, self.height()), room.height()),
        )
        self.move(self.pos() + middle - self.geometry().center())
        self.come_onto_screen()

    def tab_stops(self) -> list[QWidget]:
        """Give what the Tab key comes to between head and foot, in reading order."""
        return [each for each in chain(self) if self.area.isAncestorOf(each)]

    def _order_tabs(self) -> None:
        """Let the Tab key come to the head first and to the foot last."""
        inside, foot = self.tab_stops(), self._foot_buttons()
        head = [each for each in chain(self) if each not in {*inside, *foot}]
        stops = [*head, *inside, *sorted(foot, key=lambda button: button.x())]
        for before, after in pairwise(stops):
            self.setTabOrder(before, after)

    def _foot_buttons(self) -> list[QPushButton]:
        """Give the buttons at the foot; Ctrl+Enter on them is left to the dialog."""
        found = self.buttons.findChildren(QPushButton)
        for each in found:
            each.setAutoDefault(each is self.save_button)
        return found

    def _keep_in_sight(self, _before: QWidget | None, now: QWidget | None) -> None:
        if now is not None and self.area.isAncestorOf(now):
            self.area.ensureWidgetVisible(now)

    # -- building -------------------------------------------------------------------

    def _make_draft_bar(self) -> QFrame:
        bar = QFrame()
        row = QHBoxLayout(bar)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(
            label(tr("A kept draft; nothing of it is saved yet."), tone="wrong")
        )
        row.addWidget(button(tr("Throw th&is draft away"), self.throw_away))
        row.setStretch(0, 1)
        bar.hide()
        return bar

    def _lay_out_frame(self) -> None:
        self.top.addWidget(self._draft_bar)
        self.middle.addWidget(self.area, 1)
        foot = QVBoxLayout()
        foot.addWidget(self._message)
        foot.addWidget(self.buttons)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(18, 16, 18, 14)
        outer.setSpacing(10)
        outer.addLayout(self.top)
        outer.addLayout(self.middle, 1)
        outer.addLayout(self.below)
        outer.addLayout(foot)
