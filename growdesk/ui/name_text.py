"""Set plants' names in italics and quotes: as rich text, and painted by hand.

What a grower typed is never taken for markup. Doubtful names stay as typed.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QFont, QTextCharFormat, QTextLayout, QTextOption

from growdesk.domain.name_runs import Form
from growdesk.services import names

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QPainter

    from growdesk.domain.name_runs import Run

_ELLIPSIS = "\u2026"
_WIDE_PX = 100_000


def name_html(text: str, *, short: bool = False) -> str:
    """Give a name as escaped rich text; ``short`` abbreviates the genus."""
    return html_of(names.runs_of(text, Form.SHORT if short else Form.TYPED))


def html_of(runs: Sequence[Run]) -> str:
    """Give runs as escaped rich text."""
    return "".join(
        f"<i>{escape(run.text)}</i>" if run.italic else escape(run.text) for run in runs
    )


def shown_name(text: str, *, short: bool = False) -> str:
    """Give a name as shown, without its faces: for screen readers and tips."""
    runs = names.runs_of(text, Form.SHORT if short else Form.TYPED)
    return "".join(run.text for run in runs)


_MOST_KEPT = 2_000
"""More names than a screen shows at once; scrolling through all keeps no more."""


class NamePainter:
    """Paints names with their italics.

    Where a name does not fit, its genus is abbreviated, so that grex and clone are
    read; what does not fit even so is cut with an ellipsis.
    Laying a name out is dear, so that it is kept for its width and font.
    """

    def __init__(self, lines: int = 1) -> None:
        self._lines = lines
        self._kept: dict[tuple[str, int, str], QTextLayout] = {}

    def paint(self, painter: QPainter, rect: QRect, font: QFont, text: str) -> None:
        """Paint a name in the painter's pen, at the left and midway up."""
        layout = self.laid_out(text, font, rect.width())
        height = layout.boundingRect().height()
        top = rect.top() + max(0.0, (rect.height() - height) / 2)
        layout.draw(painter, QPointF(rect.left(), top))

    def laid_out(self, text: str, font: QFont, width_px: int) -> QTextLayout:
        """Give a name laid out in a width in pixels, cut where it must be."""
        key = (text, width_px, font.toString())
        if key not in self._kept:
            if len(self._kept) >= _MOST_KEPT:
                self._kept.clear()
            self._kept[key] = _fitted(text, font, width_px, self._lines)
        return self._kept[key]


def _fitted(text: str, font: QFont, width_px: int, lines: int) -> QTextLayout:
    """Lay a name out whole, else short, else as much as has room before an ellipsis."""
    for form in (Form.TYPED, Form.SHORT):
        whole = _lay_out(names.runs_of(text, form), font, width_px, lines)
        if _fits(whole, width_px, lines):
            return whole
    runs = names.runs_of(text, Form.SHORT)
    least, most = 0, sum(len(run.text) for run in runs)
    best = _lay_out(_cut(runs, 0), font, width_px, lines)
    while least < most:
        middle = (least + most + 1) // 2
        tried = _lay_out(_cut(runs, middle), font, width_px, lines)
        if _fits(tried, width_px, lines):
            least, best = middle, tried
        else:
            most = middle - 1
    return best


def _cut(runs: Sequence[Run], letters: int) -> list[Run]:
    kept: list[Run] = []
    left = letters
    for run in runs:
        kept.append(type(run)(run.text[:left], run.italic))
        left -= len(run.text)
        if left <= 0:
            break
    last = kept.pop()
    return [*kept, type(last)(last.text.rstrip() + _ELLIPSIS, last.italic)]


def _lay_out(
    runs: Sequence[Run], font: QFont, width_px: int, lines: int
) -> QTextLayout:
    text = "".join(run.text for run in runs)
    layout = QTextLayout(text, font)
    option = QTextOption(Qt.AlignmentFlag.AlignLeft)
    wrap = QTextOption.WrapMode
    option.setWrapMode(wrap.NoWrap if lines == 1 else wrap.WordWrap)
    layout.setTextOption(option)
    layout.setFormats(_formats(runs))
    layout.beginLayout()
    top = 0.0
    while (line := layout.createLine()).isValid():
        line.setLineWidth(_WIDE_PX if lines == 1 else width_px)
        line.setPosition(QPointF(0, top))
        top += line.height()
    layout.endLayout()
    return layout


def _formats(runs: Sequence[Run]) -> list[QTextLayout.FormatRange]:
    slanted = QTextCharFormat()
    slanted.setFontItalic(True)
    ranges = []
    at = 0
    for run in runs:
        length = len(run.text.encode("utf-16-le")) // 2
        if run.italic:
            each = QTextLayout.FormatRange()
            each.start, each.length, each.format = at, length, slanted
            ranges.append(each)
        at += length
    return ranges


def _fits(layout: QTextLayout, width_px: int, lines: int) -> bool:
    count = layout.lineCount()
    if count > lines:
        return False
    return all(layout.lineAt(at).naturalTextWidth() <= width_px for at in range(count))
