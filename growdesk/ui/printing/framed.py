"""A jug on paper: its letter in a frame, a strong title, lines with boxes beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.ui.printing.marks import LETTER, MM, STRONG, TAG, TEXT, Block, Frame, Rule
from growdesk.ui.printing.setting import line_pt, stack, width_pt, wrap

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.ui.printing.marks import Mark

TICK_PT = 4 * MM
"""A box for one product: small, since it stands in a line of type, and still hit."""
_FRAME_PT = 38.0
_PAD_PT = 5.0
_LEFT_PT = _FRAME_PT + 12
_BESIDE_PT = TICK_PT + 7
_ABOVE_BOX_PT = 2.0
_HAND_PT = 5.0
"""What a hand's writing is higher than a line of type."""


class Line(Struct, frozen=True):
    """A line beside a jug's letter, with boxes to tick before it.

    ``large`` is for what is weighed, read at arm's length; ``to_write`` gives a hand
    room above a blank.
    """

    text: str
    boxes: int = 0
    strong: bool = False
    large: bool = False
    to_write: bool = False


def framed(letter: str, title: str, lines: Sequence[Line], room_pt: float) -> Block:
    """Give a jug: its letter in a frame, a strong title, lines beside it."""
    face = LETTER if len(letter) <= 2 else STRONG
    centred = (_FRAME_PT - width_pt(letter, face)) / 2
    high = _PAD_PT + (_FRAME_PT - line_pt(face)) / 2
    marks: list[Mark] = [
        Frame(0, _PAD_PT, _FRAME_PT, _FRAME_PT, 1.6),
        *stack((letter,), centred, high, face),
    ]
    y = _PAD_PT - 1
    for line in (Line(title, strong=True), *lines):
        more, y = _set(line, y, room_pt)
        marks += more
    height = max(y, _FRAME_PT + _PAD_PT) + _PAD_PT
    marks.append(Rule(0, height, room_pt, height))
    return Block(height, tuple(marks))


def _set(line: Line, y: float, room_pt: float) -> tuple[list[Mark], float]:
    """Set a line from a top edge; give its marks and where it ends."""
    face = TAG if line.large else STRONG if line.strong else TEXT
    left = _LEFT_PT + line.boxes * _BESIDE_PT
    top = y + (_ABOVE_BOX_PT if line.boxes else 0) + (_HAND_PT if line.to_write else 0)
    set_lines = wrap(line.text, room_pt - left, face)
    marks: list[Mark] = [*stack(set_lines, left, top, face)]
    marks += (
        Frame(_LEFT_PT + number * _BESIDE_PT, top + 1.5, TICK_PT, TICK_PT, 1.0)
        for number in range(line.boxes)
    )
    return marks, top + len(set_lines) * line_pt(face)
