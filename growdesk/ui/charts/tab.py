"""The Chart tab of a plant: which chart, the chart, its words, and a way to save it.

Nothing is built before the tab is opened. It knows the values of a chart and no
service; what is to be read or saved goes out as signals.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import Phrases, mark, tr
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.charts.canvas import ChartCanvas
from growdesk.ui.widgets.parts import button, label, link

if TYPE_CHECKING:
    from growdesk.services.values import PlantDetail
    from growdesk.ui.charts.drawing import Chart

WAITING = mark("Drawing the chart…")
FAILED = mark(
    "The chart could not be drawn; the line at the foot of the window says why."
)
ROOM_PX = 460
"""Height in which a chart and its buttons are seen without scrolling."""

TITLES = Phrases({Which.PLANT: "This plant", Which.SEASON: "Its season"})


class ChartTab(QWidget):
    """The charts of the plant shown."""

    wanted = Signal(object)
    save_wanted = Signal(object, object)
    drawing_wanted = Signal(object, object)
    place_wanted = Signal(int)
    room_wanted = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self.which = Which.PLANT
        self.asked: Wanted | None = None
        self._detail: PlantDetail | None = None
        self.shown: Chart | None = None
        self.canvas: ChartCanvas | None = None
        self.choices: dict[Which, QPushButton] = {}
        self.save_button = button(tr("Save chart…"), self._save)
        self.place_button = link(tr("The year of its place…"), self._want_place)
        self.sentence = label("", tone="muted")
        self.caption = label("")
        for each in (self.save_button, self.place_button, self.sentence, self.caption):
            each.setParent(self)  # without one they would outlive the window
            each.hide()
        self._column = QVBoxLayout(self)

    def show_plant(self, detail: PlantDetail) -> None:
        """Ask for the chart of a plant; the one in sight stays until it comes.

        The very same detail again only wants the chart drawn anew, in other colours.
        """
        if not self.choices:
            self._build()
        is_known, self._detail = detail is self._detail, detail
        if is_known and self.shown is not None:
            self._draw(self.shown)
            return
        wanted = Wanted(self.which, detail.plant_id, detail.on)
        if self.asked is None or self.asked.of_id != wanted.of_id:
            self._say(tr(WAITING))
        self.asked = wanted
        self.wanted.emit(wanted)

    def show_chart(self, wanted: Wanted, chart: Chart | None) -> None:
        """Show a chart that was asked for; none where it could not be read."""
        from growdesk.ui.charts.summary import nothing_of  # noqa: PLC0415 -- when drawn

        if wanted != self.asked:
            return
        if chart is None:
            self._say(tr(FAILED))
        elif empty := nothing_of(chart):
            self._say(empty)
        else:
            self._draw(chart)

    def _build(self) -> None:
        self._column.setContentsMargins(14, 10, 14, 14)
        self._column.setSpacing(8)
        row = QHBoxLayout()
        row.setSpacing(4)
        group = QButtonGroup(self)
        for which, text in TITLES.items():
            made = button(text, partial(self._choose, which))
            made.setCheckable(True)
            made.setAccessibleName(tr("Chart of {text}").format(text=text.lower()))
            made.setChecked(which is self.which)
            group.addButton(made)
            row.addWidget(made)
            self.choices[which] = made
        row.addStretch(1)
        row.addWidget(self.save_button)
        self._column.addLayout(row)
        self._column.addWidget(self.sentence)
        self._column.addWidget(self.place_button, 0, Qt.AlignmentFlag.AlignLeft)
        self.save_button.show()
        self.sentence.show()
        self.caption.show()
        self.caption.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse
        )
        self._column.addWidget(self.caption)
        self._column.addStretch(1)

    def _choose(self, which: Which) -> None:
        self.which = which
        if self.asked is not None:
            self.asked = Wanted(which, self.asked.of_id, self.asked.on)
            self.wanted.emit(self.asked)

    def _want_place(self) -> None:
        if self._detail is not None and self._detail.draft.place_id is not None:
            self.place_wanted.emit(self._detail.draft.place_id)

    def _say(self, text: str) -> None:
        """Say a sentence where a chart would stand."""
        self.shown = None
        self.sentence.setText(text)
        self.sentence.show()
        self.caption.hide()
        self.place_button.hide()
        self.save_button.setEnabled(False)
        if self.canvas is not None:
            self.canvas.hide()

    def _draw(self, chart: Chart) -> None:
        if self.canvas is None:
            self.canvas = ChartCanvas()
            self.canvas.drawing_wanted.connect(self.drawing_wanted)
            self.canvas.failed.connect(lambda: self._say(tr(FAILED)))
            self._column.insertWidget(2, self.canvas, 1)
            self._column.setStretch(self._column.count() - 1, 0)
            self.room_wanted.emit(ROOM_PX)
        from growdesk.ui.charts.summary import summary, title  # noqa: PLC0415 -- ditto

        text = summary(chart)
        self.shown = chart
        self.sentence.hide()
        self.canvas.show_chart(
            chart, tr("Chart, {title}").format(title=title(chart)), text
        )
        self.canvas.show()
        self.caption.setText(text)
        self.caption.show()
        has_place = self._detail is not None and self._detail.draft.place_id is not None
        self.place_button.setVisible(self.which is Which.SEASON and has_place)
        self.save_button.setEnabled(True)

    def _save(self) -> None:
        if self.shown is not None and self.canvas is not None:
            self.save_wanted.emit(self.shown, self.canvas.style_now())
