"""Setting type: how wide words are, where lines break, what is left out.

Type is measured once at a large size without hinting, so lines break at the same words
on every printer, in the preview and in the PDF. Knows nothing of plants.
"""

from __future__ import annotations

import re
from functools import lru_cache
from threading import local
from typing import TYPE_CHECKING

from PySide6.QtGui import QFont, QFontMetricsF

from growdesk.ui.printing.marks import TEXT, Block, Face, Words
from growdesk.ui.typeset import NO_BREAK, typeset

if TYPE_CHECKING:
    from collections.abc import Iterable


_FAMILIES = [
    "DejaVu Sans",
    "Segoe UI",
    "Helvetica Neue",
    "Arial",
    "Liberation Sans",
]
_REFERENCE_PX = 1000
_ELLIPSIS = "…"
_SPACES = re.compile(r"[ \t\r\n]+")
"""Where a line may break: not at a space that holds a unit to its number."""


def font(face: Face, size_px: int) -> QFont:
    """Give the font of a face at a size in device dots."""
    made = QFont()
    made.setFamilies(_FAMILIES)
    made.setStyleHint(QFont.StyleHint.SansSerif)
    made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    made.setPixelSize(size_px)
    made.setBold(face.bold)
    made.setItalic(face.italic)
    made.setFeature(QFont.Tag("liga"), 0)  # "fi" as one sign is not found by a search
    return made


class _Metrics(local):
    """Metrics of each slope and weight, a set a thread: font engines are not shared."""

    def __init__(self) -> None:
        self.by_cut: dict[tuple[bool, bool], QFontMetricsF] = {}

    def of(self, *, bold: bool, italic: bool) -> QFontMetricsF:
        """Give the metrics at the reference size."""
        cut = (bold, italic)
        if cut not in self.by_cut:
            face = Face(_REFERENCE_PX, bold, italic)
            self.by_cut[cut] = QFontMetricsF(font(face, _REFERENCE_PX))
        return self.by_cut[cut]


_metrics = _Metrics()


@lru_cache(maxsize=40_000)
def _advance_px(text: str, bold: bool, italic: bool) -> float:  # noqa: FBT001 -- cached
    return _metrics.of(bold=bold, italic=italic).horizontalAdvance(text)


def width_pt(text: str, face: Face) -> float:
    """Measure a text set on one line; it is measured once for all sizes."""
    advance_px = _advance_px(text, face.bold, face.italic)
    return advance_px * face.size_pt / _REFERENCE_PX


def line_pt(face: Face) -> float:
    """Give the distance from one line of a face to the next."""
    return face.size_pt * 1.28


def baseline_pt(face: Face) -> float:
    """Give the distance from the top of a line to its baseline."""
    return face.size_pt * 1.0


def wrap(text: str, room_pt: float, face: Face) -> tuple[str, ...]:
    """Break a text into lines that fit, no number from its unit.

    A word too long for a line is broken too. The lines have plain spaces, so that a
    search finds them.
    """
    lines: list[str] = []
    line = ""
    for word in _pieces(typeset(text), room_pt, face):
        longer = f"{line} {word}" if line else word
        if line and width_pt(longer, face) > room_pt:
            lines.append(line)
            line = word
        else:
            line = longer
    return tuple(each.replace(NO_BREAK, " ") for each in (*lines, line))


def _pieces(text: str, room_pt: float, face: Face) -> Iterable[str]:
    for word in _SPACES.split(text.strip()):
        rest = word
        while width_pt(rest, face) > room_pt and len(rest) > 1:
            cut = _fitting(rest, room_pt, face)
            yield rest[:cut]
            rest = rest[cut:]
        yield rest


def _fitting(text: str, room_pt: float, face: Face) -> int:
    """Count the leading characters that fit, at least one."""
    low, high = 1, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if width_pt(text[:middle], face) <= room_pt:
            low = middle
        else:
            high = middle - 1
    return low


def elide(text: str, room_pt: float, face: Face) -> str:
    """Give the text, or as much of it as fits with an ellipsis."""
    if width_pt(text, face) <= room_pt:
        return text
    room_left_pt = room_pt - width_pt(_ELLIPSIS, face)
    return text[: _fitting(text, room_left_pt, face)].rstrip() + _ELLIPSIS


def stack(
    lines: Iterable[str], x_pt: float, y_pt: float, face: Face
) -> tuple[Words, ...]:
    """Set lines one under another from a top edge."""
    first = y_pt + baseline_pt(face)
    return tuple(
        Words(x_pt, first + number * line_pt(face), text, face)
        for number, text in enumerate(lines)
    )


def right(text: str, right_pt: float, baseline: float, face: Face = TEXT) -> Words:
    """Set a text so that it ends at an edge."""
    return Words(right_pt - width_pt(text, face), baseline, text, face)


def paragraph(
    text: str,
    room_pt: float,
    *,
    indent_pt: float = 0.0,
    mark: str = "",
    face: Face = TEXT,
) -> tuple[Block, ...]:
    """Set a text as lines that a page may break between; a mark hangs before it."""
    lines = wrap(text, room_pt - indent_pt, face)
    blocks = []
    for number, line in enumerate(lines):
        words = [Words(indent_pt, baseline_pt(face), line, face)]
        if mark and number == 0:
            words.insert(0, Words(0, baseline_pt(face), mark, face))
        keep = number == 0 and len(lines) > 1
        blocks.append(Block(line_pt(face), tuple(words), keep=keep))
    return tuple(blocks)
