"""Show what is on record of one plant beside its timeline: photos, and its own data.

Cards and rows over frozen values; what a person wants done goes out as signals of
the pane that holds them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from growdesk.ui.widgets.parts import button, column, label
from growdesk.ui.widgets.thumbs import tile

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.values import PhotoView, PlantDetail
    from growdesk.ui.widgets.thumbs import Thumbs


def photos_page(
    detail: PlantDetail,
    thumbs: Thumbs,
    opened: Callable[[PhotoView], object],
    add: Callable[[], object],
) -> QWidget:
    """Give all photos of the plant."""
    page, inner = _page()
    if not detail.photos:
        _nothing(
            inner,
            "No photos yet. One of the base of the plant shows a year later what a "
            "note forgets.",
            "Add photos…",
            add,
        )
        return page
    grid = QGridLayout()
    grid.setSpacing(6)
    for number, photo in enumerate(detail.photos):
        grid.addWidget(tile(photo, thumbs, opened), number // 3, number % 3)
    grid.setColumnStretch(3, 1)
    inner.addLayout(grid)
    inner.addWidget(_named("Add photos…", add))
    inner.addStretch(1)
    return page


def _page() -> tuple[QWidget, QVBoxLayout]:
    page = QWidget()
    inner = column(margins=14)
    page.setLayout(inner)
    return page, inner


def _nothing(
    inner: QVBoxLayout, text: str, action: str, pressed: Callable[[], object]
) -> None:
    inner.addWidget(label(text, tone="muted"))
    row = QHBoxLayout()
    row.addWidget(_named(action, pressed))
    row.addStretch(1)
    inner.addLayout(row)
    inner.addStretch(1)


def _named(text: str, pressed: Callable[[], object]) -> QPushButton:
    """Give a button that its name finds again when the page is rebuilt."""
    made = button(text, pressed)
    made.setObjectName(text)
    return made
