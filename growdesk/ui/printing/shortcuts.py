"""The keys on one page: three columns of groups, in the largest type that fits.

Knows no painter.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from growdesk.domain.speech import tr
from growdesk.ui import shortcut_table
from growdesk.ui.printing.marks import MM, TITLE, Block, Face, Rule, Words, gap
from growdesk.ui.printing.pages import Page, Placed
from growdesk.ui.printing.setting import baseline_pt, line_pt, stack, width_pt, wrap
from growdesk.ui.printing.sheet_pdf import pages_pdf, save_pdf

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from growdesk.ui.printing.marks import Mark
    from growdesk.ui.shortcut_table import Group, Row

_SIDE_PT: Final = 11 * MM
_GAP_PT: Final = 12.0
_COLUMNS: Final = 3
_SIZES_PT: Final = (9.0, 8.5, 8.0, 7.5, 7.0, 6.5, 6.0)
_BETWEEN_PT: Final = 5.0
_BESIDE_PT: Final = 5.0

_Columns = tuple[tuple[Block, ...], ...]


def write_keys(groups: Sequence[Group], path: Path, paper: str | None = None) -> None:
    """Save the sheet as a PDF; ``paper`` is ``A4``, ``Letter`` or the machine's own."""
    title = tr(shortcut_table.TITLE)
    content = pages_pdf(title, partial(lay_out_keys, groups), paper)
    save_pdf(content, path, tr("The sheet of shortcuts"))


def lay_out_keys(
    groups: Sequence[Group], width_pt_: float, height_pt: float
) -> tuple[Page, ...]:
    """Give the page for a paper of this size in points; more only where one is full."""
    room = width_pt_ - 2 * _SIDE_PT
    column = (room - (_COLUMNS - 1) * _GAP_PT) / _COLUMNS
    head = line_pt(TITLE) + 6
    high = height_pt - 2 * _SIDE_PT - head
    sizes = (_filled(tuple(_blocks(groups, column, size)), high) for size in _SIZES_PT)
    columns = next((each for each in sizes if len(each) <= _COLUMNS), None)
    if columns is None:
        columns = _filled(tuple(_blocks(groups, column, _SIZES_PT[0])), high)
    pages = (columns[at : at + _COLUMNS] for at in range(0, len(columns), _COLUMNS))
    return tuple(_page(each, column, room, head) for each in pages)


def _page(columns: _Columns, column: float, room: float, head: float) -> Page:
    title: tuple[Mark, ...] = (
        Words(0, baseline_pt(TITLE), tr(shortcut_table.TITLE), TITLE),
        Rule(0, line_pt(TITLE) + 1, room, line_pt(TITLE) + 1, 1.2),
    )
    placed = [Placed(_SIDE_PT, _SIDE_PT, title)]
    for number, blocks in enumerate(columns):
        x, y = _SIDE_PT + number * (column + _GAP_PT), _SIDE_PT + head
        for block in blocks:
            placed.append(Placed(x, y, block.marks))
            y += block.height_pt
    return Page(tuple(placed))


def _filled(blocks: Sequence[Block], high: float) -> _Columns:
    """Fill columns from the top; a block that keeps stays with the next."""
    columns: list[list[Block]] = [[]]
    used = 0.0
    for number, block in enumerate(blocks):
        after = blocks[number + 1].height_pt if block.keep else 0.0
        if columns[-1] and used + block.height_pt + after > high:
            columns.append([])
            used = 0.0
        if columns[-1] or block.marks:
            columns[-1].append(block)
            used += block.height_pt
    return tuple(tuple(each) for each in columns)


def _blocks(groups: Sequence[Group], room: float, size: float) -> Iterator[Block]:
    strong, plain = Face(size, bold=True), Face(size)
    each_key = (key for group in groups for row in group.rows for key in row.keys)
    left = min(max(width_pt(key, strong) for key in each_key) + _BESIDE_PT, room / 2)
    for number, group in enumerate(groups):
        if number:
            yield gap(_BETWEEN_PT)
        lines = wrap(group.title, room, strong)
        low = len(lines) * line_pt(strong) + 1
        rule = Rule(0, low, room, low, 0.6)
        yield Block(low + 1.5, (*stack(lines, 0, 0, strong), rule), keep=True)
        for row in group.rows:
            yield _row(row, (left, room), strong, plain)


def _row(row: Row, at: tuple[float, float], strong: Face, plain: Face) -> Block:
    """Set a row: its keys to the left, one below the other where they are long."""
    left, room = at
    one_line = width_pt(row.shown, strong) <= left - _BESIDE_PT
    keys = (row.shown,) if one_line else tuple(_keys(row, left - 1, strong))
    words = wrap(row.text, room - left, plain)
    lines = max(len(keys), len(words))
    marks = (*stack(keys, 0, 0, strong), *stack(words, left, 0, plain))
    return Block(lines * line_pt(plain) + 0.8, marks)


def _keys(row: Row, room: float, face: Face) -> Iterator[str]:
    for each in row.keys:
        yield from wrap(each, room, face)
