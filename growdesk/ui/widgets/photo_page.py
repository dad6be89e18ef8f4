"""Show the photos of a plant, by day or by the stage of growth they show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import mark, tr
from growdesk.services.photo_stages import by_stage
from growdesk.ui import photo_words, words
from growdesk.ui.looking import writes
from growdesk.ui.preferences import preferences
from growdesk.ui.widgets.parts import button, column, label
from growdesk.ui.widgets.photo_rows import InSight

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.values import PhotoView, PlantDetail
    from growdesk.ui.widgets.thumbs import Thumbs

_KEPT = "photos-by-stage"
NOTHING = mark(
    "No photos yet. One of the base of the plant shows a year later what a note"
    " forgets. Drop pictures here, or paste one with Ctrl+V."
)


class PhotoPage(InSight):
    """The photos with their days, notes and marks, and a switch above them."""

    def __init__(
        self,
        detail: PlantDetail,
        thumbs: Thumbs,
        opened: Callable[[PhotoView], object],
        add: Callable[[], object],
        within: QWidget | None = None,
    ) -> None:
        super().__init__(thumbs, opened, within)
        self._detail = detail
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
            self.forget_rows()
        self._holder = QWidget(self)
        rows = column(spacing=8)
        self._holder.setLayout(rows)
        photos = self._detail.photos
        if not by_stages:
            self.add_rows(photos, rows)
        else:
            for group in by_stage(photos, self._detail.looks):
                years = ", ".join(str(year) for year in group.years)
                many = words.counted(len(group.photos), "photo", "photos")
                head = label(photo_words.STAGES[group.stage], tone="head")
                rows.addWidget(head)
                rows.addWidget(
                    label(f"{many}, {years}" if years else many, tone="muted")
                )
                self.add_rows(group.photos, rows)
        self._body.addWidget(self._holder)


def _kept() -> bool:
    return str(preferences().value(_KEPT, "false")).lower() == "true"
