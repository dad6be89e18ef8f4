"""The away sheet as pages of marks: who gets how much on which day, and who none.

For somebody who knows nothing of orchids: every line says what to do, none asks. Two
pages at most; nothing is set below 11 pt. Knows no painter.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.phrases import listed
from growdesk.domain.speech import Lines, mark, tr, trn
from growdesk.services.long_work import quietly
from growdesk.ui import words
from growdesk.ui.printing.away_columns import for_each_pot, two_columns
from growdesk.ui.printing.away_rows import bench_rows, short_day, table
from growdesk.ui.printing.marks import (
    MM,
    STRONG,
    TEXT,
    TITLE,
    Block,
    Face,
    Rule,
    Words,
    gap,
)
from growdesk.ui.printing.pages import (
    LEFT_PT,
    TOP_PT,
    Page,
    Paper,
    Placed,
    paginate,
)
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
from growdesk.ui.printing.sheet_pdf import pages_pdf, save_pdf

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from growdesk.services.away import AwaySheet
    from growdesk.services.long_work import Step
    from growdesk.ui.printing.marks import Mark

DOUBT: Final = mark("If in doubt, don't.")
MOST_PAGES: Final = 2
_LARGE = Face(24, bold=True)
_SIDE_PT: Final = 12 * MM
_RULES: Final = Lines(
    (
        "Clear water only, slowly over the whole pot until it runs out below; pour "
        "away what stands under it. Never feed. Keep the flowers and the hearts of "
        "leaves dry."
    ),
    (
        "Water only what has a box that day, and tick it. Never make up for a missed "
        "day."
    ),
)
_ALONE: Final = mark(
    "Leave alone: the tins, bottles and jugs of feed; fallen leaves; spent flowers. "
    "Move, turn, cut and repot nothing."
)
_CAUTIONS: Final = Lines(
    "Keep children and pets from the plants and from everything on the shelf.",
    "Drink nothing from a bottle here. Poisoning: call your poison centre.",
)


def title(sheet: AwaySheet) -> str:
    """Give the sheet's title, for the file and the printer's queue."""
    begins, ends = short_day(sheet.begins), short_day(sheet.ends)
    return tr("Watering, {begins} to {ends} {year}").format(
        begins=begins, ends=ends, year=sheet.ends.year
    )


def write_away(
    sheet: AwaySheet,
    call: str,
    path: Path,
    paper: str | None = None,
    step: Step = quietly,
) -> None:
    """Save a sheet as a PDF; ``call`` is whom to call, a blank line where empty."""
    laid_out = partial(lay_out_away, sheet, call)
    content = pages_pdf(title(sheet), laid_out, paper, step)
    save_pdf(content, path, tr("The away sheet"))


def lay_out_away(
    sheet: AwaySheet, call: str, width_pt_: float, height_pt: float
) -> tuple[Page, ...]:
    """Give the pages for a paper of this size in points.

    Raises ``InputError`` where even two pages do not hold the collection.
    """
    room = width_pt_ - 2 * _SIDE_PT
    head = _head(sheet, "", room)
    frame = Paper(width_pt_, height_pt, head.height_pt, _foot(room))
    bodies = tuple(paginate(_blocks(sheet, call, room), frame))
    if len(bodies) > 1:
        beside = _side_by_side(sheet, call, room, frame.body_pt)
        bodies = tuple(paginate(beside, frame)) or bodies
    if len(bodies) > MOST_PAGES:
        raise InputError(
            "place",
            tr("all places"),
            tr("would fill {count} pages, more than a helper reads").format(
                count=len(bodies)
            ),
            tr("Make a sheet for each place."),
        )
    return tuple(
        _page(
            sheet,
            tr("{number} of {count}").format(number=number, count=len(bodies)),
            body,
            frame,
        )
        for number, body in enumerate(bodies, start=1)
    )


def _page(
    sheet: AwaySheet, number: str, body: tuple[Placed, ...], frame: Paper
) -> Page:
    room = frame.width_pt - 2 * _SIDE_PT
    shifted = (replace(each, x_pt=each.x_pt - LEFT_PT + _SIDE_PT) for each in body)
    return Page(
        (
            Placed(_SIDE_PT, TOP_PT, _head(sheet, number, room).marks),
            *shifted,
            Placed(_SIDE_PT, frame.foot_top_pt, frame.foot.marks),
        )
    )


def _head(sheet: AwaySheet, number: str, room: float) -> Block:
    """Give the header: the days, the page, and the one rule that always holds."""
    first = baseline_pt(TITLE)
    wide = width_pt(number, STRONG) + 12
    lines = wrap(title(sheet), room - wide, TITLE)
    marks: list[Mark] = [
        *stack(lines, 0, 0, TITLE),
        right(number, room, first, STRONG),
    ]
    y = len(lines) * line_pt(TITLE) + 1
    marks += stack((tr(DOUBT),), 0, y, _LARGE)
    beside = room - width_pt(tr(DOUBT), _LARGE) - 16
    made = words.short_day(sheet.made_at.astimezone().date())
    for line in (
        sheet.collection,
        tr("{plants}. Made on {made}.").format(
            plants=words.plants(sheet.plants), made=made
        ),
    ):
        y += line_pt(TEXT)
        marks.append(right(elide(line, beside, TEXT), room, y))
    y += line_pt(_LARGE) - 2 * line_pt(TEXT) + 1
    marks.append(Rule(0, y, room, y, 1.6))
    return Block(y + 5, tuple(marks))


def _foot(room: float) -> Block:
    marks: tuple[Mark, ...] = (
        Rule(0, 2, room, 2, 0.8),
        *stack(_CAUTIONS, 0, 5, TEXT),
    )
    return Block(6 + len(_CAUTIONS) * line_pt(TEXT), marks)


def _blocks(sheet: AwaySheet, call: str, room: float) -> tuple[Block, ...]:
    at = table(sheet, room)
    rows = (row for bench in sheet.benches for row in bench_rows(bench, at))
    begins = _begins(call, _rules(sheet), room)
    return (*begins, *rows, *_ends(sheet, room))


def _side_by_side(
    sheet: AwaySheet, call: str, room: float, high: float
) -> tuple[Block, ...]:
    """Give the one page of two columns; nothing where that does not hold all."""
    begins = tuple(_begins(call, _rules(sheet, for_each_pot(sheet)), room))
    ends = tuple(_ends(sheet, room))
    free = high - sum(block.height_pt for block in (*begins, *ends))
    found = two_columns(sheet, room, free)
    return () if found is None else (*begins, found, *ends)


def _begins(call: str, rules: Iterable[str], room: float) -> Iterator[Block]:
    for rule in rules:
        yield from paragraph(rule, room, indent_pt=14, mark="•")
    yield from _call(call, room)


def _rules(sheet: AwaySheet, more: str = "") -> Iterator[str]:
    yield from _RULES
    water = (
        tr("The water to use: {water}.").format(water=sheet.water)
        if sheet.water
        else ""
    )
    said = " ".join(filter(None, (water, _needed(sheet), more)))
    if said:
        yield said


def _needed(sheet: AwaySheet) -> str:
    most = max((litres for _, litres in sheet.litres), default=0.0)
    return (
        tr("The most for one day is {most}.").format(most=words.volume(most))
        if most
        else ""
    )


def _call(call: str, room: float) -> Iterator[Block]:
    """Give whom to call, or a line to write it on."""
    said = tr("Call: ")
    left = width_pt(said, STRONG)
    if call.strip():
        lines = wrap(call, room - left, TEXT)
        marks: tuple[Mark, ...] = (
            Words(0, baseline_pt(STRONG), said, STRONG),
            *stack(lines, left, 0, TEXT),
        )
        yield Block(len(lines) * line_pt(TEXT), marks)
        return
    low = baseline_pt(STRONG) + 6
    yield Block(
        low + 4,
        (Words(0, low, said, STRONG), Rule(left, low + 2, room, low + 2, 0.6)),
    )


def _ends(sheet: AwaySheet, room: float) -> Iterator[Block]:
    """Give what to leave alone, and what looks worse than it is."""
    yield gap(4)
    if sheet.bare:
        said = trn(
            "Bare is right: {tags} rests without leaves, or loses them now. It is "
            "not dying and must not be watered.",
            "Bare is right: {tags} rest without leaves, or lose them now. They are "
            "not dying and must not be watered.",
            len(sheet.bare),
        ).format(tags=listed([tag for tag, _name in sheet.bare]))
        yield from paragraph(said, room, face=STRONG)
    yield from paragraph(tr(_ALONE), room)
    if sheet.in_bud:
        said = tr("In bud or flower, so do not even turn the pot: {list}.").format(
            list=listed(sheet.in_bud)
        )
        yield from paragraph(said, room)
    if sheet.last:
        said = tr("Do these last, and wash your hands after them: {list}.").format(
            list=listed(sheet.last)
        )
        yield from paragraph(said, room)
