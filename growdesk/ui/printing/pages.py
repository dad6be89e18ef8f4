"""The sheet as pages of marks: which block stands on which page, header and foot.

Everything about the sheet's order is here: each round begins a page, keep-dry plants
come first, then the order of work, the jugs, the places in bench order; the full
cautions close the sheet. Knows no painter.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.speech import mark, tr
from growdesk.services.walking import where
from growdesk.ui import words
from growdesk.ui.printing.cautions import caution_block, foot
from growdesk.ui.printing.marks import MM, STRONG, TEXT, TITLE, Block, Rule, Words, gap
from growdesk.ui.printing.mixing import heading, mixing
from growdesk.ui.printing.naming import name_lines, stack_names
from growdesk.ui.printing.rows import columns, heads, row
from growdesk.ui.printing.setting import (
    baseline_pt,
    elide,
    line_pt,
    paragraph,
    right,
    stack,
    width_pt,
    wrap,
)
from growdesk.ui.printing.wording import made, title

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from growdesk.services.sheet_values import Sheet, SheetLine, SheetPlace, SheetRound
    from growdesk.ui.printing.marks import Mark

LEFT_PT = 26 * MM
RIGHT_PT = 10 * MM
TOP_PT = 11 * MM
BOTTOM_PT = 10 * MM
NO_BENCH = mark("On no bench")


class Placed(Struct, frozen=True):
    """Marks with the place of their corner on the page."""

    x_pt: float
    y_pt: float
    marks: tuple[Mark, ...]


class Page(Struct, frozen=True):
    """One page, ready to be drawn."""

    placed: tuple[Placed, ...]


class Paper(Struct, frozen=True):
    """The paper with what stands on every page."""

    width_pt: float
    height_pt: float
    head_pt: float
    foot: Block

    @property
    def room_pt(self) -> float:
        """Give the width between the margins."""
        return self.width_pt - LEFT_PT - RIGHT_PT

    @property
    def body_top_pt(self) -> float:
        """Give where the body begins."""
        return TOP_PT + self.head_pt

    @property
    def body_pt(self) -> float:
        """Give the height of the body."""
        return self.foot_top_pt - self.body_top_pt

    @property
    def foot_top_pt(self) -> float:
        """Give where the foot begins."""
        return self.height_pt - BOTTOM_PT - self.foot.height_pt


def lay_out(sheet: Sheet, width_pt_: float, height_pt: float) -> tuple[Page, ...]:
    """Give every page of a sheet for a paper of this size in points."""
    room = width_pt_ - LEFT_PT - RIGHT_PT
    head_pt = max(
        (_head(sheet, each, "", room).height_pt for each in sheet.rounds), default=0.0
    )
    frame = Paper(width_pt_, height_pt, head_pt, foot(sheet.cautions_short, room))
    bodies: list[tuple[SheetRound, tuple[Placed, ...]]] = []
    for number, each in enumerate(sheet.rounds, start=1):
        waters = sheet.waters if number == 1 else ()
        blocks = list(_round(each, made(sheet), waters, room))
        if number == len(sheet.rounds):
            blocks += caution_block(sheet.cautions_full, room)
        bodies += [(each, body) for body in paginate(blocks, frame)]
    count = len(bodies)
    return tuple(
        _page(
            sheet,
            each,
            tr("{number} of {count}").format(number=number, count=count),
            body,
            frame,
        )
        for number, (each, body) in enumerate(bodies, start=1)
    )


def _page(
    sheet: Sheet,
    each: SheetRound,
    number: str,
    body: tuple[Placed, ...],
    frame: Paper,
) -> Page:
    head = _head(sheet, each, number, frame.room_pt)
    return Page(
        (
            Placed(LEFT_PT, TOP_PT, head.marks),
            *body,
            Placed(LEFT_PT, frame.foot_top_pt, frame.foot.marks),
        )
    )


def _head(sheet: Sheet, each: SheetRound, number: str, room_pt: float) -> Block:
    """Give the header: the day, the page, whose sheet, what the round assumes."""
    first = baseline_pt(TITLE)
    marks: list[Mark] = [
        Words(0, first, words.long_day(each.on), TITLE),
        right(number, room_pt, first, STRONG),
    ]
    y = line_pt(TITLE)
    marks += stack((title(sheet),), 0, y, TEXT)
    name = elide(sheet.collection, room_pt, TEXT)
    if width_pt(title(sheet), TEXT) + 16 + width_pt(name, TEXT) > room_pt:
        y += line_pt(TEXT)
    marks.append(right(name, room_pt, y + baseline_pt(TEXT)))
    y += line_pt(TEXT)
    if each.assumes:
        assumed = wrap(each.assumes, room_pt, STRONG)
        marks += stack(assumed, 0, y, STRONG)
        y += len(assumed) * line_pt(STRONG)
    marks.append(Rule(0, y + 2, room_pt, y + 2, 1.6))
    return Block(y + 8, tuple(marks))


def _round(
    each: SheetRound, made_on: str, waters: Sequence[str], room_pt: float
) -> Iterator[Block]:
    """Give a round's blocks in the order they are needed at the bench."""
    yield from _keep_dry(each.keep_dry, room_pt)
    if each.order_of_work:
        yield from heading(tr("Order of work"), room_pt)
    for number, step in enumerate(each.order_of_work, start=1):
        yield from paragraph(step, room_pt, indent_pt=20, mark=f"{number}.")
    if waters:
        yield from heading(tr("Water for the week"), room_pt)
    for water in waters:
        yield from paragraph(water, room_pt, indent_pt=14, mark="•")
    yield from mixing(each.mix, room_pt)
    yield from paragraph(made_on, room_pt)
    yield from _plants(each, room_pt)


def _plants(each: SheetRound, room_pt: float) -> Iterator[Block]:
    """Give the plants under their places and benches, as they are walked."""
    lines = tuple(line for place in each.places for line in place.lines)
    at = columns(lines, room_pt)
    before = ""
    for number, place in enumerate(each.places):
        yield gap(6)
        name = place.name or tr("No place")
        again = (
            *heading(tr("{where}, continued").format(where=_where(place)), room_pt),
            heads(at),
        )
        if number == 0 or name != before:
            yield from heading(name, room_pt)
        before = name
        if place.has_benches:
            yield from bench_heading(place.bench, room_pt)
        yield heads(at)
        for line in place.lines:
            plain = row(line, at, each.mix.mug)
            yield Block(plain.height_pt, plain.marks, repeat=again)


def bench_heading(bench: str, room_pt: float) -> Iterator[Block]:
    """Give the small heading of a bench, under that of its place."""
    for line in wrap(bench or tr(NO_BENCH), room_pt, STRONG):
        marks = (Words(0, baseline_pt(STRONG), line, STRONG),)
        yield Block(line_pt(STRONG), marks, keep=True)


def _where(place: SheetPlace) -> str:
    bench = place.bench or tr(NO_BENCH)
    name = place.name or tr("No place")
    return where(name, bench) if place.has_benches else name


def _keep_dry(lines: Sequence[SheetLine], room_pt: float) -> Iterator[Block]:
    """Give the plants that get no water, first of all."""
    if not lines:
        yield from paragraph(tr("No plant is kept dry this round."), room_pt)
        return
    count = words.plants(len(lines))
    yield from heading(
        tr("Keep dry: no water for {count}").format(count=count), room_pt
    )
    tag_room = min(max(width_pt(line.tag, STRONG) for line in lines), room_pt * 0.3)
    left = tag_room + 10
    place_left = room_pt * 0.66
    for line in lines:
        tags = wrap(line.tag, tag_room, STRONG)
        named = name_lines(line.name, place_left - left - 10, TEXT)
        place = wrap(where(line.place, line.bench_name), room_pt - place_left, TEXT)
        marks = (
            *stack(tags, 0, 0, STRONG),
            *stack_names(named, left, 0, TEXT),
            *stack(place, place_left, 0, TEXT),
        )
        high = max(len(tags) * line_pt(STRONG), len(place) * line_pt(TEXT))
        yield Block(high + 1, marks)


def paginate(blocks: Sequence[Block], frame: Paper) -> Iterator[tuple[Placed, ...]]:
    """Fill pages; kept blocks move with the next, repeats are set again on top."""
    page: list[Placed] = []
    y = 0.0
    for group in _groups(blocks):
        height = sum(block.height_pt for block in group)
        if page and y + height > frame.body_pt:
            yield tuple(page)
            page, y = [], 0.0
        again = group[0].repeat if not page else ()
        for block in (*again, *group):
            if page or block.marks:
                page.append(Placed(LEFT_PT, frame.body_top_pt + y, block.marks))
                y += block.height_pt
    if page:
        yield tuple(page)


def _groups(blocks: Iterable[Block]) -> Iterator[tuple[Block, ...]]:
    group: list[Block] = []
    for block in blocks:
        group.append(block)
        if not block.keep:
            yield tuple(group)
            group = []
    if group:
        yield tuple(group)
