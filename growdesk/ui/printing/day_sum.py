"""A watering day in sum as pages of marks. Knows no painter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.ui import day_sum_words
from growdesk.ui.printing.marks import STRONG, TITLE, Block, Words, gap
from growdesk.ui.printing.pages import LEFT_PT, TOP_PT, Page, Paper, Placed, paginate
from growdesk.ui.printing.setting import line_pt, paragraph, right, stack, wrap

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.day_sum import DaySum


def lay_out_sum(summed: DaySum, width_pt: float, height_pt: float) -> tuple[Page, ...]:
    """Give the pages for a paper of this size in points."""
    bare = Paper(width_pt, height_pt, 0.0, gap(line_pt(STRONG)))
    titles = wrap(day_sum_words.title(summed), bare.room_pt, TITLE)
    head = Block(len(titles) * line_pt(TITLE) + 8, stack(titles, 0, 0, TITLE))
    frame = Paper(width_pt, height_pt, head.height_pt, gap(line_pt(STRONG)))
    bodies = tuple(paginate(tuple(_blocks(summed, frame.room_pt)), frame))
    return tuple(
        Page(
            (
                Placed(LEFT_PT, TOP_PT, head.marks),
                *body,
                Placed(
                    LEFT_PT,
                    frame.foot_top_pt,
                    (_number(number, len(bodies), frame.room_pt),),
                ),
            )
        )
        for number, body in enumerate(bodies, start=1)
    )


def _number(number: int, of: int, room: float) -> Words:
    return right(f"{number} / {of}", room, STRONG.size_pt, STRONG)


def _blocks(summed: DaySum, room: float) -> Iterator[Block]:
    for part in day_sum_words.parts(summed):
        if part.title:
            yield gap(8)
            marks = stack((part.title,), 0, 0, STRONG)
            yield Block(line_pt(STRONG) + 2, marks, keep=True)
        for line in part.lines:
            yield from paragraph(line, room)
