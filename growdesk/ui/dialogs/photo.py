"""Show one photo after another, large: its day and note, and what can be done with it.

What is changed of day and note is written when one goes on; a day that is none stays
until it is put right.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr
from growdesk.services.photo_values import PhotoDraft, StagedPhoto
from growdesk.ui import photo_words, sizes, typed
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.parts import button, label
from growdesk.ui.widgets.picture import Picture
from growdesk.ui.widgets.picture_loader import Loader

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from PySide6.QtGui import QKeyEvent

    from growdesk.services.values import PhotoView
    from growdesk.ui.tasks import Tasks

_STEPS = {
    Qt.Key.Key_PageUp: -1,
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_PageDown: 1,
    Qt.Key.Key_Right: 1,
}
HINT = mark(
    "Page Up and Page Down go through the photos; + and − zoom, 0 shows all of it,"
    " 1 its own size, the arrows move it."
)


class PhotoDialog(OnScreen):
    """The photos of a plant, one in sight."""

    remove_wanted = Signal(int)
    change_wanted = Signal(int, object)
    look_wanted = Signal(object)
    beside_wanted = Signal(object)

    def __init__(
        self,
        parent: QWidget | None,
        photos: Sequence[StagedPhoto],
        at: int,
        tasks: Tasks,
        drawable: Callable[[int], Path | None],
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._photos = tuple(photos)
        self._at = at
        self._insists = False
        self.picture = Picture(tr("The photo"))
        self.loader = Loader(self.picture, tasks, drawable)
        self.form = Form()
        self.day = self.form.line("taken_on", tr("&Day"), typed.day_example())
        self.note = self.form.line("note", tr("&Note"))
        self._caption = label("", tone="head")
        self._count = label("", tone="muted")
        self._place = label(f"● {tr(photo_words.PLACE_INSIDE)}", tone="muted")
        self._lay_out()
        self.resize(sizes.area(980, 800))
        self._show()
        self.picture.setFocus()

    @property
    def photo(self) -> PhotoView:
        """Give the photo in sight."""
        return self._photos[self._at].photo

    def renew(self, photos: Sequence[StagedPhoto]) -> None:
        """Take the photos as they are now; the one in sight stays, or its neighbour."""
        if not photos:
            self.accept()
            return
        before = self.photo
        is_typed = self._is_changed()
        ids = [each.photo.photo_id for each in photos]
        self._photos = tuple(photos)
        if before.photo_id in ids:
            self._at = ids.index(before.photo_id)
            if self.photo.path == before.path:
                self._tell(fill=not is_typed)
                return
        self._at = min(self._at, len(photos) - 1)
        self._show()

    def refused(self, error: Exception) -> None:
        """Tell why a change was not written; what was typed stays."""
        self.form.show_error(error)

    def step(self, by: int) -> None:
        """Go to the next photo or the one before; what was changed is written."""
        to = self._at + by
        if 0 <= to < len(self._photos) and self.save():
            self._at = to
            self._show()

    def save(self) -> bool:
        """Hand out day and note where they were changed; a slip is told beside it."""
        self.form.clear_errors()
        if not self._is_changed():
            return True
        try:
            draft = self._draft()
        except InputError as error:
            self.form.show_error(error)
            self.day.setFocus()
            return False
        self.change_wanted.emit(self.photo.photo_id, draft)
        return True

    @override
    def reject(self) -> None:
        """Close; a day that is none is pointed at once before it is let go."""
        if self.save() or self._insists:
            self.loader.leave()
            super().reject()
        self._insists = True

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if key in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.save()
        elif key in _STEPS:
            self.step(_STEPS[Qt.Key(key)])
        else:
            super().keyPressEvent(event)

    # -- inside ---------------------------------------------------------------------

    def _is_changed(self) -> bool:
        photo = self.photo
        now = (self.day.text().strip(), self.note.text().strip())
        return now != (_iso(photo), photo.note.strip())

    def _draft(self) -> PhotoDraft:
        day = typed.day(self.day.text(), "taken_on")
        return PhotoDraft(day, self.note.text().strip())

    def _show(self) -> None:
        self._insists = False
        self._tell(fill=True)
        self.loader.show(self.photo)

    def _tell(self, *, fill: bool) -> None:
        """Say what is known of the photo in sight."""
        staged, photo = self._photos[self._at], self.photo
        self.setWindowTitle(photo_words.name(photo))
        self.picture.setAccessibleName(photo_words.told(photo))
        self._caption.setText(photo_words.caption(staged))
        self._count.setText(
            tr("{at} of {count}").format(at=self._at + 1, count=len(self._photos))
        )
        self._place.setVisible(bool(photo.has_location))
        if fill:
            self.form.clear_errors()
            self.day.setText(_iso(photo))
            self.note.setText(photo.note)
        self.before.setEnabled(self._at > 0)
        self.after.setEnabled(self._at < len(self._photos) - 1)
        self.beside.setEnabled(len(self._photos) > 1)
        on_look = photo.look_id is not None
        self.look.setText(
            tr("Open its look…") if on_look else tr("Start a look from this photo…")
        )

    def _lay_out(self) -> None:
        outer = QVBoxLayout(self)
        outer.setContentsMargins(14, 12, 14, 12)
        outer.setSpacing(8)
        top = QHBoxLayout()
        top.addWidget(self._caption, 1)
        top.addWidget(self._count)
        outer.addLayout(top)
        outer.addWidget(self.picture, 1)
        outer.addLayout(self._zoom_row())
        outer.addWidget(self._place)
        outer.addWidget(self.form)
        outer.addLayout(self._deeds_row())
        outer.addWidget(label(tr(HINT), tone="muted"))

    def _zoom_row(self) -> QHBoxLayout:
        picture = self.picture
        self.before = button(tr("&Previous"), lambda: self.step(-1), tr("Page Up"))
        self.after = button(tr("Ne&xt"), lambda: self.step(1), tr("Page Down"))
        row = QHBoxLayout()
        row.addWidget(self.before)
        row.addWidget(self.after)
        row.addStretch(1)
        zooms = (
            ("−", tr("Smaller"), lambda: picture.zoom(picture.scale / 1.25)),
            ("+", tr("Larger"), lambda: picture.zoom(picture.scale * 1.25)),
            (tr("&All of it"), tr("Show all of it (0)"), picture.fit),
            (tr("&Own size"), tr("A pixel for a pixel (1)"), self._own_size),
        )
        for text, name, call in zooms:
            made = button(text, call, name)
            made.setAccessibleName(name)
            row.addWidget(made)
        return row

    def _deeds_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        native = QKeySequence.SequenceFormat.NativeText
        self.look = button("", lambda: self._leave_for(self.look_wanted.emit))
        self.beside = button(
            tr("Put &beside…"),
            lambda: self._leave_for(self.beside_wanted.emit),
            QKeySequence("Ctrl+Alt+V").toString(native),
        )
        remove = button(tr("&Remove"), self._remove, tr("It comes back by Undo"))
        keep = button(tr("&Save day and note"), self.save, tr("Enter"))
        close = button(tr("&Close"), self.reject)
        for each in (self.look, self.beside, remove):
            row.addWidget(each)
        row.addStretch(1)
        row.addWidget(keep)
        row.addWidget(close)
        return row

    def _own_size(self) -> None:
        self.picture.zoom(self.picture.own_scale)

    def _leave_for(self, use: Callable[[PhotoView], object]) -> None:
        if self.save():
            photo = self.photo
            self.loader.leave()
            self.accept()
            use(photo)

    def _remove(self) -> None:
        self.remove_wanted.emit(self.photo.photo_id)


def _iso(photo: PhotoView) -> str:
    return figures(photo.taken_on) if photo.taken_on else ""
