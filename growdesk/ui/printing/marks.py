"""What may stand on a page, as data: words, rules, frames; and blocks made of them.

Lengths are points (1/72 inch) from the block's top left corner. Knows no painter, so a
layout can be checked without a printer: every mark inside the page, no type too small.
"""

from __future__ import annotations

from msgspec import Struct

MM = 72 / 25.4
"""Points in a millimetre."""


class Face(Struct, frozen=True):
    """A size, weight and slant of type. Nothing on the sheet is set below 11 pt."""

    size_pt: float
    bold: bool = False
    italic: bool = False


TEXT = Face(11)
STRONG = Face(11, bold=True)
TAG = Face(13, bold=True)
TITLE = Face(16, bold=True)
LETTER = Face(22, bold=True)
FACES = (TEXT, STRONG, TAG, TITLE, LETTER)


class Words(Struct, frozen=True):
    """A run of text on one line; ``y_pt`` is its baseline."""

    x_pt: float
    y_pt: float
    text: str
    face: Face


class Rule(Struct, frozen=True):
    """A black line."""

    x1_pt: float
    y1_pt: float
    x2_pt: float
    y2_pt: float
    thick_pt: float = 0.6


class Frame(Struct, frozen=True):
    """An empty black frame: a box to tick, or a frame around words."""

    x_pt: float
    y_pt: float
    width_pt: float
    height_pt: float
    thick_pt: float = 1.0


class Modules(Struct, frozen=True):
    """A square of black and white modules: a code to be scanned, black where true."""

    x_pt: float
    y_pt: float
    module_pt: float
    rows: tuple[tuple[bool, ...], ...]

    @property
    def side_pt(self) -> float:
        """Give the side of the square, without a quiet zone."""
        return self.module_pt * len(self.rows)


class Drawing(Struct, frozen=True):
    """A chart as the content of an SVG file, drawn to fill its place."""

    x_pt: float
    y_pt: float
    width_pt: float
    height_pt: float
    svg: bytes


class Picture(Struct, frozen=True):
    """A picture's file, drawn in the middle of its place as large as it goes whole."""

    x_pt: float
    y_pt: float
    width_pt: float
    height_pt: float
    file: str


Mark = Words | Rule | Frame | Modules | Drawing | Picture


class Block(Struct, frozen=True):
    """A piece that is never broken over two pages.

    ``keep`` holds it on the page of the next block. ``repeat`` is set again at the top
    of a page that begins with this block (a place's heading, say).
    """

    height_pt: float
    marks: tuple[Mark, ...] = ()
    keep: bool = False
    repeat: tuple[Block, ...] = ()


def gap(height_pt: float) -> Block:
    """Give an empty block."""
    return Block(height_pt)
