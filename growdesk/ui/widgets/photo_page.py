"""Show the photos of a plant, by day or by the stage of growth they show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import mark, tr
from growdesk.services.photo_stages import by_stage
from growdesk.ui import photo_words, sizes, words
from growdesk.ui.looking import writes
from growdesk.ui.preferences import preferences
from growdesk.ui.widgets.parts import Page, button, column, label
from growdesk.ui.widgets.thumbs import SIDE, tile

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from growdesk.services.values import PhotoView, PlantDetail
    from growdesk.ui.widgets.thumbs import Thumbs

_COLUMNS = 3
_KEPT = "photos-by-stage"
_NOTE = 60
NOTHING = mark(
    "No photos yet. One of the base of the plant shows a year later what a note"
    " forgets. Drop pictures here, or paste one with Ctrl+V."
)


def photos_page(
    detail: PlantDetail,
    thumbs: Thumbs,
    opened: Callable[[PhotoView], object],
    add: Callable[[], object],
) -> QWidget:
    """Give all photos of the plant, as the grower chose to see them."""
    return PhotoPage(detail, thumbs, opened, add)


class PhotoPage(Page):
    """The photos with their days, notes and marks, and a switch above them."""

    def __init__(
        self,
        detail: PlantDetail,
        thumbs: Thumbs,
        opened: Callable[[PhotoView], object],
        add: Callable[[], object],
    ) -> None:
        super().__init__()
        self._detail = detail
        self._thumbs = thumbs
        self._opened = opened
        inner = column(margins=14)
        self.setLayout(inner)
        more = writes(button(tr("Add photos…"), add))
        more.setObjectName("Add photos…")
        top = QHBoxLayout()
        if detail.photos:
            for made in self._switch():
                top.addWidget(made)
        else:
            inner.addWidget(label(tr(NOTHING), tone="muted"))
        top.addWidget(more)
        top.addStretch(1)
        inner.addLayout(top)
        self._body = QVBoxLayout()
        self._body.setSpacing(6)
        inner.addLayout(self._body)
        inner.addStretch(1)
        self._holder: QWidget | None = None
        if detail.photos:
            self._show(by_stages=_kept())

    def _switch(self) -> tuple[QPushButton, QPushButton]:
        self._group = QButtonGroup(self)
        made = []
        for key, text, name, by_stages in (
            ("by day", tr("By day"), tr("Photos by day"), False),
            ("by stage", tr("By stage"), tr("Photos by stage"), True),
        ):
            each = QPushButton(text)
            each.setObjectName(f"photos {key}")
            each.setAutoDefault(False)
            each.setCheckable(True)
            each.setChecked(by_stages is _kept())
            each.setAccessibleName(name)
            self._group.addButton(each)
            made.append(each)
        made[0].clicked.connect(lambda: self._choose(by_stages=False))
        made[1].clicked.connect(lambda: self._choose(by_stages=True))
        return made[0], made[1]

    def _choose(self, *, by_stages: bool) -> None:
        preferences().setValue(_KEPT, by_stages)
        self._show(by_stages=by_stages)

    def _show(self, *, by_stages: bool) -> None:
        if self._holder is not None:
            self._holder.hide()
            self._body.removeWidget(self._holder)
            self._holder.deleteLater()
        self._holder = QWidget()
        rows = column(spacing=8)
        self._holder.setLayout(rows)
        photos = self._detail.photos
        if not by_stages:
            rows.addLayout(self._grid(photos))
        else:
            for group in by_stage(photos, self._detail.looks):
                years = ", ".join(str(year) for year in group.years)
                many = words.counted(len(group.photos), "photo", "photos")
                head = label(photo_words.STAGES[group.stage], tone="head")
                rows.addWidget(head)
                rows.addWidget(
                    label(f"{many}, {years}" if years else many, tone="muted")
                )
                rows.addLayout(self._grid(group.photos))
        self._body.addWidget(self._holder)

    def _grid(self, photos: Sequence[PhotoView]) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(8)
        for number, photo in enumerate(photos):
            grid.addWidget(self._cell(photo), number // _COLUMNS, number % _COLUMNS)
        grid.setColumnStretch(_COLUMNS, 1)
        return grid

    def _cell(self, photo: PhotoView) -> QWidget:
        cell = QWidget()
        inner = column(spacing=1)
        cell.setLayout(inner)
        inner.addWidget(tile(photo, self._thumbs, self._opened))
        lines = [(photo_words.day(photo), "")]
        if photo.note:
            note = photo.note.split("\n", 1)[0]
            cut = note if len(note) <= _NOTE else f"{note[:_NOTE].rstrip()}…"
            lines.append((f"“{cut}”", "muted"))
        if photo.problem:
            lines.append((tr("The file is missing"), "wrong"))
        if photo.has_location:
            lines.append((f"● {tr(photo_words.PLACE_INSIDE)}", "muted"))
        for text, tone in lines:
            line = label(text, tone=tone)
            sizes.wide(line, SIDE)
            inner.addWidget(line, 0, Qt.AlignmentFlag.AlignTop)
        inner.addStretch(1)
        return cell


def _kept() -> bool:
    return str(preferences().value(_KEPT, "false")).lower() == "true"
