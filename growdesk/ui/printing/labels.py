"""Labels of stock bottles as pages of marks: two abreast, to be cut out.

Every label is as high as the highest of its row. Knows no painter.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark
from growdesk.ui.printing.marks import MM, STRONG, TAG, TEXT, Block, Frame, Rule
from growdesk.ui.printing.pages import Page, Placed
from growdesk.ui.printing.setting import line_pt, stack, wrap

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.stock_labels import StockLabel
    from growdesk.ui.printing.marks import Face, Mark

MARGIN_PT = 12 * MM
GUTTER_PT = 6 * MM
INSIDE_PT = 4 * MM
ABREAST = 2
TITLE = mark("Labels of stock bottles")


def lay_out_labels(
    labels: Sequence[StockLabel], width_pt: float, height_pt: float
) -> tuple[Page, ...]:
    """Give the pages of labels for a paper of this size in points."""
    room = (width_pt - 2 * MARGIN_PT - (ABREAST - 1) * GUTTER_PT) / ABREAST
    pages: list[Page] = []
    placed: list[Placed] = []
    y = MARGIN_PT
    for row in _rows(labels):
        blocks = [label_block(label, room) for label in row]
        high = max(block.height_pt for block in blocks)
        if placed and y + high > height_pt - MARGIN_PT:
            pages.append(Page(tuple(placed)))
            placed, y = [], MARGIN_PT
        for number, block in enumerate(blocks):
            x = MARGIN_PT + number * (room + GUTTER_PT)
            placed.append(Placed(x, y, (*block.marks, Frame(0, 0, room, high))))
        y += high + GUTTER_PT
    return (*pages, Page(tuple(placed)))


def label_block(label: StockLabel, width_pt: float) -> Block:
    """Give one label at a width, without its frame."""
    room = width_pt - 2 * INSIDE_PT
    marks: list[Mark] = []
    y = INSIDE_PT

    def put(texts: Sequence[str], face: Face) -> None:
        nonlocal y
        for text in texts:
            lines = wrap(text, room, face)
            marks.extend(stack(lines, INSIDE_PT, y, face))
            y += len(lines) * line_pt(face)

    put((label.name,), TAG)
    put(label.contents, TEXT)
    y += 3
    put(label.days, STRONG)
    y += 3
    put(label.use, TEXT)
    y += 4
    marks.append(Rule(INSIDE_PT, y, width_pt - INSIDE_PT, y))
    y += 4
    put(label.cautions[:1], STRONG)
    put(label.cautions[1:], TEXT)
    return Block(y + INSIDE_PT, tuple(marks))


def _rows(labels: Sequence[StockLabel]) -> list[Sequence[StockLabel]]:
    return [labels[at : at + ABREAST] for at in range(0, len(labels), ABREAST)]
