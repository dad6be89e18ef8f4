"""Show one chart in a dialog of its own, the same in words, and a way to save it.

What is to be read or saved is done by others; the chart comes in once it is read.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import sizes, theme
from growdesk.ui.charts.canvas import ChartCanvas
from growdesk.ui.charts.summary import nothing_of, summary, title
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.parts import Page, button, column, label, scrolled

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent
    from PySide6.QtWidgets import QScrollArea

    from growdesk.ui.charts.asking import Wanted
    from growdesk.ui.charts.drawing import Chart

_WANTED = 900, 730
_WORDS_HIGH_PX = 150
_SIDE_PX, _ABOVE_PX = 18, 16


class ChartTexts(Struct, frozen=True):
    """What a chart's dialog says before its chart is there, and where it failed.

    Declared in English, said by the dialog.
    """

    title: str
    waiting: str
    failed: str
    in_words: str


class ChartDialog(OnScreen):
    """One chart; ``kind`` is the sort of chart that it shows."""

    save_wanted = Signal(object, object, object)
    drawing_wanted = Signal(object, object)

    def __init__(
        self,
        parent: QWidget | None,
        wanted: Wanted,
        texts: ChartTexts,
        kind: type[Chart],
    ) -> None:
        super().__init__(parent)
        self._texts = texts
        self._kind = kind
        self.setWindowTitle(tr(texts.title))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.wanted = wanted
        self.shown: Chart | None = None
        self.canvas: ChartCanvas | None = None
        self._area: QScrollArea | None = None
        self.sentence = label(tr(texts.waiting), tone="muted")
        self.caption = label("")
        self.caption.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse
        )
        self.message = label("", tone="muted")
        self.save_button = button(tr("&Save chart…"), self._save)
        self.save_button.setEnabled(False)
        self._lay_out()
        theme.current().turned.connect(self._turn)

    def show_chart(self, wanted: Wanted, chart: Chart | None) -> None:
        """Show the chart that was asked for; none where it could not be read."""
        if wanted != self.wanted:
            return
        if isinstance(chart, self._kind) and (empty := nothing_of(chart)):
            self._say_empty(chart, empty)
        elif isinstance(chart, self._kind):
            self._draw(chart)
        else:
            self.sentence.setText(tr(self._texts.failed))

    def say(self, text: str) -> None:
        """Say what became of a save."""
        self.message.setText(text)

    def add_head(self, outer: QVBoxLayout) -> None:
        """Add what stands over the chart; here nothing does."""

    def _lay_out(self) -> None:
        words = Page()
        inner = column()
        inner.addWidget(self.caption)
        inner.addStretch(1)
        words.setLayout(inner)
        self._words = scrolled(words, tr(self._texts.in_words))
        self._words.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self._words.hide()
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        close.rejected.connect(self.accept)
        self._last = close.button(QDialogButtonBox.StandardButton.Close)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.save_button)
        foot.addWidget(self.message, 1)
        foot.addWidget(close)
        self._column = outer = QVBoxLayout(self)
        outer.setContentsMargins(_SIDE_PX, 16, _SIDE_PX, 14)
        outer.setSpacing(10)
        self.add_head(outer)
        outer.addWidget(self.sentence, 1)
        outer.addWidget(self._words)
        outer.addLayout(foot)
        self.resize(sizes.area(*_WANTED).boundedTo(self.room()))

    def _say_empty(self, chart: Chart, text: str) -> None:
        """Say a sentence where nothing is to be drawn."""
        self.shown = None
        self.setWindowTitle(title(chart))
        self.sentence.setText(text)
        self.sentence.show()
        self._words.hide()
        if self._area is not None:
            self._area.hide()
        self.save_button.setEnabled(False)

    def _draw(self, chart: Chart) -> None:
        if self.canvas is None or self._area is None:
            self.canvas = ChartCanvas()
            self.canvas.drawing_wanted.connect(self.drawing_wanted)
            self.canvas.failed.connect(self._say_failed)
            self._area = scrolled(self.canvas, tr("The chart"))
            self._area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            self._column.insertWidget(1, self._area, 1)
            below = (self._words, self.save_button, self._last)
            focus.chain((self.canvas, *below))
        self._area.show()
        text, name = summary(chart), title(chart)
        self.shown = chart
        self.setWindowTitle(name)
        self.sentence.hide()
        self.canvas.show_chart(chart, tr("Chart, {name}").format(name=name), text)
        self.caption.setText(text)
        self._words.show()
        self._fit_words()
        self.save_button.setEnabled(True)

    def _say_failed(self) -> None:
        self.sentence.setText(tr(self._texts.failed))
        self.sentence.show()
        if self._area is not None:
            self._area.hide()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_words()

    def _fit_words(self) -> None:
        """Give the words as much height as they need, up to a limit; they scroll."""
        room = self.contentsRect().width() - 2 * _SIDE_PX
        needed = self.caption.heightForWidth(max(room, 1)) + _ABOVE_PX
        self._words.setFixedHeight(min(needed, sizes.px(_WORDS_HIGH_PX)))

    def _turn(self) -> None:
        if self.shown is not None:
            self._draw(self.shown)

    def _save(self) -> None:
        if self.shown is not None and self.canvas is not None:
            self.say("")
            self.save_wanted.emit(self.shown, self.canvas.style_now(), self)
