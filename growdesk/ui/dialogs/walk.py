"""Walk from plant to plant: the look form of each in turn, with a bar to go on by.

Nothing half typed is lost: what is left at a stop unsaved goes out to be kept, and
stands there again when the stop is come back to.
"""

from __future__ import annotations

from functools import partial
from html import escape
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QImage, QKeySequence, QPixmap, QShortcut
from PySide6.QtWidgets import QDialogButtonBox, QHBoxLayout, QLabel, QVBoxLayout
from typing_extensions import override

from growdesk.domain.speech import mark, tr
from growdesk.ui import sizes, words
from growdesk.ui.dialogs.frame import Framed
from growdesk.ui.dialogs.look import ROWS_PX, LookDraft
from growdesk.ui.name_text import name_html
from growdesk.ui.widgets.look_form import LookForm
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QPushButton, QWidget

    from growdesk.services.walk_values import AtStop, Stop
    from growdesk.ui.dialogs.held import Held

HINT = mark(
    "Ctrl+Enter saves and goes on, F6 records no change, Page Down skips, "
    "Page Up goes back, Esc leaves."
)
NOTHING_SEEN = mark("There is no earlier look to leave as it was: note what you see.")
_PHOTO_PX = 96


class Shown(Struct, frozen=True):
    """A stop as it is shown: its number of how many, and what its form opens with."""

    stop: Stop
    number: int
    count: int
    at: AtStop
    monopodial: bool


class WalkDialog(Framed):
    """The look form of one plant after another.

    ``saved`` brings the draft, and whether anything in it was changed; ``step_wanted``
    is 1 or -1.
    """

    saved = Signal(object)
    step_wanted = Signal(int)
    others_wanted = Signal()

    def __init__(self, parent: QWidget | None, title: str) -> None:
        super().__init__(parent, title, tr("Next", "go on"))
        self.shown: Shown | None = None
        self.rows = LookForm()
        self._is_busy = False
        self._make_head()
        self.top.addWidget(label(tr(HINT), tone="muted"))
        self.body.addWidget(self.rows)
        self.message = label("", tone="muted")
        self.below.addWidget(self.message)
        self._make_bar()
        self.area.text_px = ROWS_PX
        sizes.least_wide(self, 780)

    # -- what the walk asks ---------------------------------------------------------

    def show_stop(self, shown: Shown, kept: Held | None, said: str = "") -> None:
        """Show a stop, with the draft that was left there."""
        self.shown = shown
        self._is_busy = False
        self._show_head(shown)
        self._change_rows(shown)
        self.begin()
        self.mark_draft(is_one=bool(kept))
        if kept:
            self.take_draft(kept)
        self.complain("")
        self.message.setText(said)
        self.save_button.setEnabled(True)
        self.previous_button.setEnabled(shown.number > 1)
        self.area.verticalScrollBar().setValue(0)
        self._order_tabs()
        self.rows.row("").setFocus(Qt.FocusReason.TabFocusReason)

    def wait(self) -> None:
        """Let nothing be pressed until the next stop is there, or a refusal."""
        self._is_busy = True
        self.save_button.setEnabled(False)

    @override
    def refused(self, error: Exception) -> None:
        self._is_busy = False
        super().refused(error)

    # -- Framed ---------------------------------------------------------------------

    @override
    def draft(self) -> LookDraft:
        """Give the look as entered."""
        rows = self.rows
        return LookDraft(rows.look(), rows.note_text(), rows.photos.paths)

    @override
    def kept(self) -> Held:
        """Give the whole look as it stands, once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def try_save(self) -> None:
        """Save what was changed and go on; without a change only go on."""
        if self.changes():
            super().try_save()
        else:
            self._step(1)

    @override
    def send(self, draft: object) -> None:
        self.wait()
        self.saved.emit(draft)

    def unchanged(self) -> None:
        """Record that the plant is as the last look has it."""
        shown = self.shown
        if shown is None or self._is_busy:
            return
        if shown.at.last is None and not self.changes():
            self.message.setText(tr(NOTHING_SEEN))
            return
        super().try_save()

    @override
    def reject(self) -> None:
        """Leave the walk, but not while a look is being written."""
        if not self._is_busy:
            super().reject()

    # -- inside ---------------------------------------------------------------------

    def _step(self, by: int) -> None:
        if not self._is_busy and self.shown is not None:
            self.step_wanted.emit(by)

    def _make_head(self) -> None:
        self.where = label("", tone="muted")
        self.plant = label("", scale=1.6)
        self.plant.setTextFormat(Qt.TextFormat.RichText)
        self.plant.setObjectName("walk-plant")
        self.last = label("")
        self.photo = _Fitted()
        texts = QVBoxLayout()
        texts.setSpacing(3)
        for each in (self.where, self.plant, self.last):
            texts.addWidget(each)
        texts.addStretch(1)
        head = QHBoxLayout()
        head.setSpacing(14)
        head.addWidget(self.photo, 0, Qt.AlignmentFlag.AlignTop)
        head.addLayout(texts, 1)
        self.top.addLayout(head)

    def _show_head(self, shown: Shown) -> None:
        stop = shown.stop
        where = tr("{number} of {count}").format(number=shown.number, count=shown.count)
        self.where.setText(" · ".join(each for each in (where, stop.where) if each))
        self.plant.setText(f"<b>{escape(stop.tag)}</b>&ensp;{name_html(stop.name)}")
        self.setAccessibleDescription(f"{where}, {stop.tag} {stop.name}")
        self.last.setText(_last_words(shown))
        self.photo.clear()
        self.photo.setVisible(shown.at.photo is not None)

    def _change_rows(self, shown: Shown) -> None:
        """Put fresh rows in the place of the last stop's."""
        before = self.rows
        self.rows = LookForm(monopodial=shown.monopodial)
        self.form = self.rows
        self.forms = (self.form,)
        self.rows.show_look(shown.at.look, shown.at.note)
        self.body.replaceWidget(before, self.rows)
        before.hide()
        before.setParent(None)
        before.deleteLater()

    def _make_bar(self) -> None:
        self.save_button.setToolTip(tr("Ctrl+Enter"))
        self.save_button.clicked.connect(self.try_save)
        role = QDialogButtonBox.ButtonRole.ActionRole
        self.previous_button = self._key(
            tr("Previous"), "PgUp", partial(self._step, -1)
        )
        self.unchanged_button = self._key(tr("Seen, unchanged"), "F6", self.unchanged)
        self.skip_button = self._key(tr("Skip"), "PgDown", partial(self._step, 1))
        self.others_button = button(tr("Other plants…"), self.others_wanted.emit)
        for each in (
            self.previous_button,
            self.skip_button,
            self.unchanged_button,
            self.save_button,
            self.others_button,
        ):
            self.buttons.addButton(each, role)
        leave = self.buttons.addButton(QDialogButtonBox.StandardButton.Close)
        leave.setText(tr("Leave"))

    def _key(self, text: str, key: str, pressed: Callable[[], object]) -> QPushButton:
        """Give a button with a key of its own that holds anywhere in the dialog."""
        sequence = QKeySequence(key)
        told = sequence.toString(QKeySequence.SequenceFormat.NativeText)
        QShortcut(sequence, self, pressed)
        return button(text, pressed, told)


class _Fitted(QLabel):
    """A picture no larger than a thumb."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(tr("The last photo"))

    @override
    def setPixmap(self, picture: QPixmap | QImage) -> None:
        aspect = Qt.AspectRatioMode.KeepAspectRatio
        smooth = Qt.TransformationMode.SmoothTransformation
        super().setPixmap(picture.scaled(_PHOTO_PX, _PHOTO_PX, aspect, smooth))


def _last_words(shown: Shown) -> str:
    """Say what was seen last, and whether this walk has its look already."""
    last = shown.at.last
    if last is None:
        said = tr("Not looked at before.")
    else:
        note = " ".join(last.note.split())
        seen = (
            tr("Last look, {day}: {signs} Note: {note}")
            if note
            else tr("Last look, {day}: {signs}")
        )
        said = seen.format(
            day=words.short_day(last.look.on), signs=last.signs, note=note
        )
    if shown.at.saved_id is None:
        return said
    return tr("The form shows what was saved on this walk. {said}").format(said=said)
