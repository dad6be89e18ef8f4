"""Show one plant on one day: the reasons first, then what is on record of it.

Knows ``PlantDetail`` and a source of thumbnails; all that a person wants done goes
out as signals.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QSplitter,
    QStackedLayout,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from growdesk.ui.widgets import records
from growdesk.ui.widgets.parts import button, label, scrolled
from growdesk.ui.widgets.reasons import Reasons

if TYPE_CHECKING:
    from growdesk.services.values import PlantDetail
    from growdesk.ui.widgets.thumbs import Thumbs


class DetailPane(QFrame):
    """The middle pane."""

    look_wanted = Signal()
    look_change_wanted = Signal(object)
    give_wanted = Signal()
    plant_wanted = Signal()
    photos_wanted = Signal()
    photo_opened = Signal(object)

    def __init__(self, thumbs: Thumbs) -> None:
        super().__init__()
        self.setProperty("pane", "true")
        self.setAccessibleName("The plant")
        self._thumbs = thumbs
        self.detail: PlantDetail | None = None
        self._reasons = Reasons()
        self._reasons.change_wanted.connect(self.plant_wanted)
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName("What is on record of the plant")
        self._filled: set[int] = set()
        self._areas = [
            scrolled(QWidget(), title) for title in ("Looks", "Photos", "Care", "Plant")
        ]
        for area in self._areas:
            self.tabs.addTab(area, area.accessibleName())
        self.tabs.currentChanged.connect(self._fill)
        self._nothing = label("", tone="muted")
        self._stack = QStackedLayout(self)
        self._lay_out()
        self.show_nothing("Choose a plant in the list; its reasons stand here.")

    def show_nothing(self, text: str) -> None:
        """Say in words why no plant is shown."""
        self.detail = None
        self._nothing.setText(text)
        self._stack.setCurrentIndex(0)

    def show_plant(self, detail: PlantDetail) -> None:
        """Show a plant; the tab that was open stays open."""
        same = self.detail is not None and self.detail.plant_id == detail.plant_id
        self.detail = detail
        self._reasons.show_plant(detail)
        if not same:
            self._scroll.verticalScrollBar().setValue(0)
        self._fill_tabs(detail)
        self._stack.setCurrentIndex(1)

    def refresh_colours(self) -> None:
        """Draw the plant again in the scheme now in force."""
        if self.detail is not None:
            self.show_plant(self.detail)

    def _lay_out(self) -> None:
        empty = QWidget()
        inner = QVBoxLayout(empty)
        inner.setContentsMargins(22, 22, 22, 22)
        inner.addWidget(self._nothing)
        inner.addStretch(1)
        self._stack.addWidget(empty)
        self._scroll = scrolled(self._reasons, "Reasons")
        self._scroll.setMinimumHeight(200)
        upper = QWidget()
        column = QVBoxLayout(upper)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._scroll, 1)
        column.addLayout(self._buttons())
        split = QSplitter(Qt.Orientation.Vertical)
        split.setChildrenCollapsible(False)
        split.addWidget(upper)
        split.addWidget(self.tabs)
        split.setStretchFactor(0, 0)
        split.setStretchFactor(1, 1)
        split.setSizes([430, 260])
        self._stack.addWidget(split)

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(18, 8, 18, 10)
        row.setSpacing(8)
        self.look_button = button("Record a look…", self.look_wanted.emit)
        self.look_button.setDefault(True)
        row.addWidget(self.look_button)
        row.addWidget(button("Give something else…", self.give_wanted.emit))
        row.addStretch(1)
        return row

    def _fill_tabs(self, detail: PlantDetail) -> None:
        """Name the tabs and fill the one in sight; the others wait to be opened."""
        self._filled.clear()
        self.tabs.setTabText(0, f"Looks ({len(detail.looks)})")
        self.tabs.setTabText(1, f"Photos ({len(detail.photos)})")
        self._fill(self.tabs.currentIndex())

    def _fill(self, number: int) -> None:
        detail = self.detail
        if detail is None or number in self._filled:
            return
        self._filled.add(number)
        area = self._areas[number]
        page = self._page(number, detail)
        old = area.takeWidget()
        if old is not None:
            old.deleteLater()
        area.setWidget(page)

    def _page(self, number: int, detail: PlantDetail) -> QWidget:
        opened = self.photo_opened.emit
        if number == 0:
            return records.looks_page(
                detail,
                self._thumbs,
                opened,
                self.look_change_wanted.emit,
                self.look_wanted.emit,
            )
        if number == 1:
            return records.photos_page(
                detail, self._thumbs, opened, self.photos_wanted.emit
            )
        if number == 2:
            return records.care_page(detail, self.give_wanted.emit)
        return records.plant_page(detail, self.plant_wanted.emit)
