"""Two photos of a plant side by side at the same scale, moved together.

Cameras and distances differ: two marks on each photo, on the same thing, set the scale.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.phrases import inside
from growdesk.domain.speech import mark, tr
from growdesk.ui import photo_words, sizes
from growdesk.ui.beside_scale import Pairing, Point, by_marks, by_pixels
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import button, label, scrolled
from growdesk.ui.widgets.picture import Picture
from growdesk.ui.widgets.picture_loader import Loader
from growdesk.ui.widgets.thumbs import SIDE, tile

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from PySide6.QtGui import QResizeEvent

    from growdesk.services.photo_values import StagedPhoto
    from growdesk.services.values import PhotoView
    from growdesk.ui.tasks import Tasks
    from growdesk.ui.widgets.thumbs import Thumbs

_STRIP_PX = SIDE + 26
PIXELS = mark(
    "Both by their own pixels: a pixel of one is as large as one of the other."
)
MARK = mark(
    "Mark the two ends of the same thing on both photos, such as the rim of the pot:"
    " click them, or move the cross with the arrows and press Space."
)
MARKED = mark("The two marked lengths are the same now; both photos go by them.")
TOO_SHORT = mark(
    "The marks of one photo are too close together. Mark its two ends anew."
)


class Side(QWidget):
    """One photo with its caption, and the strip it is chosen from."""

    def __init__(
        self,
        name: str,
        photos: Sequence[StagedPhoto],
        tasks: Tasks,
        drawable: Callable[[int], Path | None],
        thumbs: Thumbs,
    ) -> None:
        super().__init__()
        self._photos = tuple(photos)
        self._name = name
        self.picture = Picture(name)
        self.loader = Loader(self.picture, tasks, drawable)
        self.caption = label("", tone="head")
        self._group = QButtonGroup(self)
        strip = QWidget()
        row = QHBoxLayout(strip)
        row.setContentsMargins(2, 2, 2, 2)
        row.setSpacing(4)
        self.tiles: list[QPushButton] = []
        for number, staged in enumerate(self._photos):
            made = tile(staged.photo, thumbs, partial(self._choose, number))
            made.setObjectName(f"{name}-{staged.photo.photo_id}")
            made.setCheckable(True)
            made.setAutoDefault(False)
            told = f"{name}: {photo_words.caption(staged)}"
            made.setAccessibleName(told)
            made.setToolTip(photo_words.caption(staged))
            self._group.addButton(made)
            self.tiles.append(made)
            row.addWidget(made)
        row.addStretch(1)
        area = scrolled(
            strip, tr("Photos to choose from, {name}").format(name=inside(name))
        )
        sizes.high(area, _STRIP_PX)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._area = area
        inner = QVBoxLayout(self)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.setSpacing(6)
        inner.addWidget(self.caption)
        inner.addWidget(self.picture, 1)
        inner.addWidget(area)

    def choose(self, number: int) -> None:
        """Show one of the photos."""
        staged = self._photos[number]
        self.caption.setText(photo_words.caption(staged))
        self.picture.setAccessibleName(f"{self._name}: {photo_words.caption(staged)}")
        self.tiles[number].setChecked(True)
        self._area.ensureWidgetVisible(self.tiles[number])
        self.picture.marks = ()
        self.loader.show(staged.photo)

    def _choose(self, number: int, _photo: PhotoView) -> None:
        self.choose(number)

    @property
    def size_px(self) -> Point:
        """Give the photo's size in its own pixels."""
        whole = self.picture.whole
        return float(whole.width()), float(whole.height())

    @property
    def marks(self) -> list[Point]:
        """Give the marks set on the photo, in its pixels."""
        return [(point.x(), point.y()) for point in self.picture.marks]


class BesideDialog(OnScreen):
    """Two sides, one zoom."""

    def __init__(
        self,
        parent: QWidget | None,
        sides: tuple[Side, Side],
        chosen: tuple[int, int],
        title: str,
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("{title}: two photos side by side").format(title=title))
        self.left, self.right = sides
        self.pairing = by_pixels((1, 1), (1, 1))
        self.told = label(tr(PIXELS), tone="muted")
        self._is_fit = True
        self._lay_out()
        for side in sides:
            picture = side.picture
            picture.arrived.connect(self._arrived)
            picture.moved.connect(partial(self._moved, side))
            picture.fit_wanted.connect(self.fit)
            picture.marked.connect(self._marked)
        self.left.choose(chosen[0])
        self.right.choose(chosen[1])
        self.resize(sizes.area(1180, 720))
        self.left.picture.setFocus()

    # -- scale ----------------------------------------------------------------------

    def fit(self) -> None:
        """Show all of both, at the one scale."""
        left, right = self.left.picture, self.right.picture
        if not (left.has_image and right.has_image):
            return
        self._is_fit = True
        room = (
            float(min(left.width(), right.width())),
            float(min(left.height(), right.height())),
        )
        self._put(*self.pairing.all_of(self.left.size_px, self.right.size_px, room))

    def go_by_pixels(self) -> None:
        """Give up the marks."""
        for side in (self.left, self.right):
            side.picture.marks = ()
        self.mark_button.setChecked(False)
        self._set_marking(on=False)
        self._take(by_pixels(self.left.size_px, self.right.size_px), tr(PIXELS))

    def zoom(self, by: float) -> None:
        """Make both larger or smaller."""
        self.left.picture.zoom(self.left.picture.scale * by)

    def _arrived(self) -> None:
        """Begin anew by pixels once a side shows another photo."""
        if self.left.picture.has_image and self.right.picture.has_image:
            marking = self.mark_button.isChecked()
            words = tr(MARK) if marking else tr(PIXELS)
            for side in (self.left, self.right):
                side.picture.marks = ()
            self._take(by_pixels(self.left.size_px, self.right.size_px), words)

    def _marked(self) -> None:
        left, right = self.left.marks, self.right.marks
        if len(left) < 2 or len(right) < 2:
            self.told.setText(tr(MARK))
            return
        found = by_marks(left, right)
        if found is None:
            self.told.setText(tr(TOO_SHORT))
            return
        self.mark_button.setChecked(False)
        self._set_marking(on=False)
        self._take(found, tr(MARKED))

    def _take(self, pairing: Pairing, words: str) -> None:
        self.pairing = pairing
        self.told.setText(words)
        self.fit()

    def _moved(self, side: Side) -> None:
        """Let the other side go along with the one that was moved."""
        self._is_fit = False
        picture, other = side.picture, self._other(side).picture
        if not other.has_image:
            return
        centre = (picture.centre.x(), picture.centre.y())
        if side is self.left:
            scale = self.pairing.right_scale(picture.scale)
            other.put(scale, QPointF(*self.pairing.right_centre(centre)))
        else:
            scale = picture.scale / self.pairing.factor
            other.put(scale, QPointF(*self.pairing.left_centre(centre)))

    def _put(self, scale: float, left_centre: Point) -> None:
        self.left.picture.put(scale, QPointF(*left_centre))
        centre = self.pairing.right_centre(left_centre)
        self.right.picture.put(self.pairing.right_scale(scale), QPointF(*centre))

    def _other(self, side: Side) -> Side:
        return self.right if side is self.left else self.left

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._is_fit:
            self.fit()

    # -- inside ---------------------------------------------------------------------

    @override
    def reject(self) -> None:
        for side in (self.left, self.right):
            side.loader.leave()
        super().reject()

    def _set_marking(self, *, on: bool) -> None:
        for side in (self.left, self.right):
            side.picture.marking = on
            side.picture.update()

    def _turn_marking(self) -> None:
        on = self.mark_button.isChecked()
        self._set_marking(on=on)
        if on:
            for side in (self.left, self.right):
                side.picture.marks = ()
            self.told.setText(tr(MARK))
            self.left.picture.setFocus()

    def _lay_out(self) -> None:
        outer = QVBoxLayout(self)
        outer.setContentsMargins(14, 12, 14, 12)
        outer.setSpacing(8)
        both = QHBoxLayout()
        both.setSpacing(10)
        both.addWidget(self.left, 1)
        both.addWidget(self.right, 1)
        outer.addLayout(both, 1)
        outer.addWidget(self.told)
        row = QHBoxLayout()
        self.mark_button = button(tr("Set the &scale by marks"), self._turn_marking)
        self.mark_button.setCheckable(True)
        row.addWidget(self.mark_button)
        row.addWidget(button(tr("By &pixels"), self.go_by_pixels))
        row.addStretch(1)
        for text, name, call in (
            ("−", tr("Smaller"), partial(self.zoom, 1 / 1.25)),
            ("+", tr("Larger"), partial(self.zoom, 1.25)),
            (tr("&All of both"), tr("Show all of both (0)"), self.fit),
        ):
            made = button(text, call, name)
            made.setAccessibleName(name)
            row.addWidget(made)
        row.addWidget(button(tr("&Close"), self.reject))
        outer.addLayout(row)
