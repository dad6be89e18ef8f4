"""The cautions on paper: short at the foot of each page, the whole block once.

The sentences come with the sheet; none is written here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import tr
from growdesk.ui.printing.marks import TEXT, Block, Rule, gap
from growdesk.ui.printing.mixing import heading
from growdesk.ui.printing.setting import line_pt, paragraph, stack, width_pt, wrap

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.ui.printing.marks import Mark


def foot(cautions: Sequence[str], room_pt: float) -> Block:
    """Give the foot of each page: a line per caution, run on where one is too long."""
    lines: tuple[str, ...] = tuple(cautions)
    if any(width_pt(line, TEXT) > room_pt for line in lines):
        lines = wrap(" ".join(lines), room_pt, TEXT)
    marks: tuple[Mark, ...] = (Rule(0, 2, room_pt, 2, 0.8), *stack(lines, 0, 6, TEXT))
    return Block(6 + len(lines) * line_pt(TEXT), marks)


def caution_block(cautions: Sequence[str], room_pt: float) -> Iterator[Block]:
    """Give the whole block of cautions."""
    yield gap(8)
    yield from heading(tr("Cautions"), room_pt)
    for caution in cautions:
        yield from paragraph(caution, room_pt, indent_pt=14, mark="•")
