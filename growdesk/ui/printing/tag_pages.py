"""Tags as pages of marks: a label a cell, from the first free one of a started page."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING

from msgspec import Struct, field
from PySide6.QtCore import QSizeF
from PySide6.QtGui import QPageSize

from growdesk.domain.errors import InputError
from growdesk.domain.label_layouts import PRESETS, Strip
from growdesk.domain.speech import mark, tr, trn
from growdesk.services.long_work import quietly
from growdesk.ui.printing.marks import MM, Frame, Rule
from growdesk.ui.printing.pages import Page, Placed
from growdesk.ui.printing.paper import A4, LETTER
from growdesk.ui.printing.sheet_pdf import pages_pdf, save_pdf
from growdesk.ui.printing.tag_labels import Shown, label

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from growdesk.domain.label_layouts import Cell, Layout
    from growdesk.services.long_work import Step
    from growdesk.services.tags import TagFacts
    from growdesk.ui.printing.marks import Mark

TITLE = mark("Tags")
MOST_COPIES = 20
_TICK_PT = 1.6 * MM
_NAMED_SIZES = {"A4": A4, "Letter": LETTER}


class TagWish(Struct, frozen=True):
    """How tags are wanted: on what, how many of each, from which cell on, with what."""

    layout: Layout = PRESETS[0]
    copies: int = 1
    first: int = 1
    shown: Shown = field(default_factory=Shown)


def checked(wish: TagWish) -> TagWish:
    """Give a wish that can be met, or say which number cannot be."""
    if not 1 <= wish.copies <= MOST_COPIES:
        hint = tr("Give 1 to {most_copies}.").format(most_copies=MOST_COPIES)
        raise InputError("copies", wish.copies, tr("is no number of copies"), hint)
    most = len(wish.layout.cells)
    if not 1 <= wish.first <= most:
        hint = tr("Give 1 to {most}.").format(most=most)
        raise InputError("first", wish.first, tr("is no label of the page"), hint)
    return wish


def page_size(layout: Layout) -> QPageSize:
    """Give the paper of a layout."""
    if isinstance(layout, Strip):
        across, down = layout.page_mm
        return QPageSize(
            QSizeF(across, down),
            QPageSize.Unit.Millimeter,
            layout.title,
            QPageSize.SizeMatchPolicy.ExactMatch,
        )
    return QPageSize(_NAMED_SIZES[layout.paper])


def lay_out_tags(
    plants: Sequence[TagFacts], wish: TagWish, *_paper_pt: float
) -> tuple[Page, ...]:
    """Give every page; labels stand where the layout says, whatever the paper."""
    return tuple(Page(tuple(placed)) for placed in _pages(plants, wish))


def notes_of(plants: Sequence[TagFacts], wish: TagWish) -> tuple[str, ...]:
    """Say what does not go on its label as it should, each once."""
    cell = wish.layout.cells[0]
    room = (cell.width_mm * MM, cell.height_mm * MM)
    return tuple(
        note for each in plants for note in label(each, *room, wish.shown).notes
    )


def told(plants: Sequence[TagFacts], wish: TagWish) -> str:
    """Say how many labels and pages there will be."""
    count = len(plants) * wish.copies
    pages = pages_of(len(plants), wish)
    labels = trn("{count} label", "{count} labels", count).format(count=count)
    if isinstance(wish.layout, Strip):
        return f"{labels}, {wish.layout.title}"
    return trn(
        "{labels} on {pages} page: {layout}",
        "{labels} on {pages} pages: {layout}",
        pages,
    ).format(labels=labels, pages=pages, layout=wish.layout.title)


def write_tags(
    plants: Sequence[TagFacts], wish: TagWish, path: Path, step: Step = quietly
) -> None:
    """Save tags as a PDF on the paper of their layout.

    ``step`` is told of each page twice: laid out and painted.
    """
    many = pages_of(len(plants), wish)

    def laid_out(*_paper_pt: float) -> tuple[Page, ...]:
        made = []
        for number, placed in enumerate(_pages(plants, wish)):
            step(number, 2 * many)
            made.append(Page(tuple(placed)))
        return tuple(made)

    def painted(done: int, of: int) -> None:
        step(of + done, 2 * of)

    content = pages_pdf(tr(TITLE), laid_out, page_size(wish.layout), painted)
    save_pdf(content, path, tr("The tags"))


def pages_of(plants: int, wish: TagWish) -> int:
    """Give how many pages the tags of so many plants fill."""
    return -(-(plants * wish.copies + wish.first - 1) // len(wish.layout.cells))


def _pages(plants: Sequence[TagFacts], wish: TagWish) -> Iterator[list[Placed]]:
    cells = wish.layout.cells
    wanted = (each for each in plants for _ in range(wish.copies))
    free = cells[wish.first - 1 :]
    while here := list(islice(wanted, len(free))):
        page: list[Placed] = []
        for plant, cell in zip(here, free, strict=False):
            page += _placed(plant, cell, wish)
        yield page
        free = cells


def _placed(plant: TagFacts, cell: Cell, wish: TagWish) -> Iterator[Placed]:
    wide, high = cell.width_mm * MM, cell.height_mm * MM
    left, top = cell.left_mm * MM, cell.top_mm * MM
    yield Placed(left, top, label(plant, wide, high, wish.shown).marks)
    if wish.layout.cut_marks:
        strip = isinstance(wish.layout, Strip)
        marks = _ticks(wide, high) if strip else (Frame(0, 0, wide, high, 0.3),)
        yield Placed(left, top, marks)


def _ticks(wide: float, high: float) -> tuple[Mark, ...]:
    """Give the short lines at both ends of a label on a strip."""
    return tuple(
        Rule(x, y, x, y + _TICK_PT, 0.5)
        for x in (0.25, wide - 0.25)
        for y in (0.0, high - _TICK_PT)
    )
