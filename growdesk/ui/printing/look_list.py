"""The look list as pages of marks: a plant's blanks in the order of the look form.

What is written is the digit that chooses in the form; the digits stand at the foot of
each page. Knows no painter.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts import (
    Bulbs,
    Flowering,
    Health,
    Leaves,
    NewLeaf,
    Pot,
    RootTips,
)
from growdesk.domain.quantity_words import length_sign
from growdesk.domain.speech import mark, tr
from growdesk.services.long_work import quietly
from growdesk.ui import words
from growdesk.ui.printing.marks import (
    MM,
    STRONG,
    TAG,
    TEXT,
    TITLE,
    Block,
    Frame,
    Rule,
    Words,
    gap,
)
from growdesk.ui.printing.mixing import heading
from growdesk.ui.printing.naming import name_lines, set_line
from growdesk.ui.printing.pages import (
    LEFT_PT,
    RIGHT_PT,
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
    right,
    stack,
    width_pt,
    wrap,
)
from growdesk.ui.printing.sheet_pdf import pages_pdf, save_pdf

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date
    from enum import StrEnum
    from pathlib import Path

    from growdesk.services.long_work import Step
    from growdesk.services.look_list import LookList, LookListLine
    from growdesk.ui.printing.marks import Mark

WRITE_PT = 7 * MM
"""What a hand needs from one line of blanks to the next."""
BOX_PT = 4.5 * MM
UNCHANGED = mark("unchanged")
NO_PLACE = mark("No place")
_GAP_PT = 7.0
_PAD_PT = 3.0
_SHORT_PT, _LONG_PT = 16.0, 28.0
_NOTE_LEAST_PT = 40 * MM
_UNDER_PRINT_PT = 1.5 * MM
_SEEN_LINES = 2
_YEAR_DAYS = 300
_GROWTHS_TOLD = mark("New growths: ")


class Blank(Struct, frozen=True):
    """A word with a line to write on after it, and a unit after that."""

    field: str
    text: str
    line_pt: float = _SHORT_PT
    unit: str = ""

    @property
    def unit_shown(self) -> str:
        """Give the unit as it is printed: that of lengths is the grower's."""
        return length_sign() if self.unit == LENGTH else self.unit

    @property
    def width_pt(self) -> float:
        """Give what it takes on a line."""
        unit = width_pt(self.unit_shown, TEXT) + 3 if self.unit else 0.0
        return width_pt(tr(self.text), TEXT) + 3 + self.line_pt + unit


LENGTH = "length"
"""Stands for the unit of small lengths that is shown."""

_GROWTHS = tuple(
    Blank("new_growths", stage)
    for stage in (
        mark("emerging"),
        mark("extending"),
        mark("maturing"),
        mark("matured"),
        mark("stalled"),
    )
)
_ROOTS = (Blank("root_tips", mark("roots")),)
_LEAF = (Blank("new_leaf", mark("leaf")),)
_REST = (
    Blank("flowering", mark("flowers"), _LONG_PT),
    Blank("spike_mm", mark("spike"), _LONG_PT, LENGTH),
    Blank("pods", mark("pods")),
    Blank("keikis", mark("keikis")),
    Blank("leaves", mark("leaves")),
    Blank("bulbs", mark("bulbs")),
    Blank("pot", mark("pot")),
    Blank("health", mark("trouble"), _LONG_PT),
    Blank("longest_new_root_mm", mark("new root"), _LONG_PT, LENGTH),
    Blank("lead_length_mm", mark("lead"), _LONG_PT, LENGTH),
    Blank("runoff_ec_ms_per_cm", "EC", _LONG_PT),
)


def title(paper: LookList) -> str:
    """Give the list's title, for its head, the file and the printer's queue."""
    return tr("Look list, {long_day}").format(long_day=words.long_day(paper.on))


def blanks(*, leaf_first: bool) -> tuple[Blank, ...]:
    """Give the blanks of a plant in the order in which its form asks."""
    if leaf_first:
        return (*_LEAF, *_ROOTS, *_GROWTHS, *_REST)
    return (*_GROWTHS, *_ROOTS, *_LEAF, *_REST)


def digits() -> tuple[str, ...]:
    """Give what each digit means, a line for each sign that is chosen."""
    return (
        _digits(tr("Roots"), tuple(RootTips)),
        _digits(tr("Leaf"), tuple(NewLeaf)),
        _digits(tr("Flowers"), tuple(Flowering)),
        _digits(tr("Leaves"), tuple(Leaves)),
        _digits(tr("Bulbs"), tuple(Bulbs)),
        _digits(tr("Pot"), tuple(Pot)),
        _digits(tr("Trouble"), tuple(Health), first=("none",)),
    )


def write_look_list(
    paper: LookList, path: Path, size: str | None = None, step: Step = quietly
) -> None:
    """Save a list as a PDF; ``size`` is ``A4``, ``Letter`` or the machine's own."""
    laid_out = partial(lay_out_look_list, paper)
    content = pages_pdf(title(paper), laid_out, size, step)
    save_pdf(content, path, tr("The look list"))


def lay_out_look_list(
    paper: LookList, width_pt_: float, height_pt: float
) -> tuple[Page, ...]:
    """Give every page of a list for a paper of this size in points."""
    room = width_pt_ - LEFT_PT - RIGHT_PT
    head = _head(paper, "", room)
    sheet = Paper(width_pt_, height_pt, head.height_pt, _foot(room))
    bodies = tuple(paginate(tuple(_blocks(paper, room)), sheet)) or ((),)
    return tuple(
        _page(
            paper,
            tr("{number} of {count}").format(number=number, count=len(bodies)),
            body,
            sheet,
        )
        for number, body in enumerate(bodies, start=1)
    )


def _page(paper: LookList, number: str, body: tuple[Placed, ...], sheet: Paper) -> Page:
    head = _head(paper, number, sheet.room_pt)
    return Page(
        (
            Placed(LEFT_PT, TOP_PT, head.marks),
            *body,
            Placed(LEFT_PT, sheet.foot_top_pt, sheet.foot.marks),
        )
    )


def _head(paper: LookList, number: str, room_pt: float) -> Block:
    """Give the header: title, page, whose list, how many plants, made when."""
    first = baseline_pt(TITLE)
    made = words.long_day(paper.made_at.astimezone().date())
    told = tr("{plants}, made on {made}.").format(
        plants=words.plants(paper.plants), made=made
    )
    y = line_pt(TITLE)
    name_room = room_pt - width_pt(told, TEXT) - 16
    marks: tuple[Mark, ...] = (
        Words(0, first, title(paper), TITLE),
        right(number, room_pt, first, STRONG),
        Words(0, y + baseline_pt(TEXT), told, TEXT),
        right(elide(paper.collection, name_room, TEXT), room_pt, y + baseline_pt(TEXT)),
    )
    y += line_pt(TEXT)
    return Block(y + 8, (*marks, Rule(0, y + 3, room_pt, y + 3, 1.6)))


def _foot(room_pt: float) -> Block:
    """Give the meaning of the digits, run on over as few lines as they take."""
    told = tr("0 not looked at. ") + " ".join(f"{line}." for line in digits())
    lines = wrap(told, room_pt, TEXT)
    marks: tuple[Mark, ...] = (Rule(0, 2, room_pt, 2, 0.8), *stack(lines, 0, 6, TEXT))
    return Block(6 + len(lines) * line_pt(TEXT), marks)


def _blocks(paper: LookList, room_pt: float) -> Iterator[Block]:
    for place in paper.places:
        name = place.where or tr(NO_PLACE)
        again = heading(tr("{name}, continued").format(name=name), room_pt)
        yield from heading(name, room_pt)
        for line in place.lines:
            plain = plant_block(line, paper.on, room_pt)
            yield Block(plain.height_pt, plain.marks, repeat=again)
    if not paper.places:
        yield gap(8)


def plant_block(line: LookListLine, on: date, room_pt: float) -> Block:
    """Give a plant: tag and name, what was last seen, its blanks, room for a note."""
    box_left = room_pt - width_pt(tr(UNCHANGED), TEXT) - BOX_PT - 5
    tag = elide(line.tag, room_pt * 0.3, TAG)
    name_left = width_pt(tag, TAG) + 8
    (name,) = name_lines(line.name, box_left - name_left - 10, TEXT)
    y = _PAD_PT
    base = y + baseline_pt(TAG)
    marks: list[Mark] = [
        Words(0, base, tag, TAG),
        *set_line(name, name_left, base, TEXT),
        Frame(box_left, y, BOX_PT, BOX_PT, 1.2),
        right(tr(UNCHANGED), room_pt, base),
    ]
    y += line_pt(TAG)
    seen = _lines(_seen(line, on), room_pt)
    marks += stack(seen, 0, y, TEXT)
    y += len(seen) * line_pt(TEXT)
    y -= _UNDER_PRINT_PT
    more, x, y = _set(blanks(leaf_first=line.leaf_first), y, room_pt)
    marks += more
    label = width_pt(tr("note"), TEXT) + 3
    if room_pt - x - label < _NOTE_LEAST_PT:
        x, y = 0.0, y + WRITE_PT
    marks += [
        Words(x, y, tr("note"), TEXT),
        Rule(x + label, y + 2, room_pt, y + 2, 0.6),
    ]
    y += 6
    marks.append(Rule(0, y, room_pt, y, 1.2))
    return Block(y + _PAD_PT, tuple(marks))


def _seen(line: LookListLine, on: date) -> str:
    """Say what was seen last, and when; the year only of a look of long ago."""
    if line.looked_on is None:
        return tr("Not looked at before.")
    day = words.short_day(line.looked_on)
    if (on - line.looked_on).days < _YEAR_DAYS:
        day = day.rsplit(" ", 1)[0]
    return f"{day}: {line.seen.removeprefix(tr(_GROWTHS_TOLD))}"


def _lines(said: str, room_pt: float) -> tuple[str, ...]:
    """Break what was seen over two lines at most."""
    lines = wrap(said, room_pt, TEXT)
    if len(lines) <= _SEEN_LINES:
        return lines
    kept = lines[: _SEEN_LINES - 1]
    return (*kept, elide(" ".join(lines[_SEEN_LINES - 1 :]), room_pt, TEXT))


def _set(
    given: Sequence[Blank], y: float, room_pt: float
) -> tuple[list[Mark], float, float]:
    """Set blanks one after another over as many lines as they take; give the end."""
    marks: list[Mark] = []
    x, y = 0.0, y + WRITE_PT
    for blank in given:
        if x and x + blank.width_pt > room_pt:
            x, y = 0.0, y + WRITE_PT
        left = x + width_pt(tr(blank.text), TEXT) + 3
        end = left + blank.line_pt
        marks += [Words(x, y, tr(blank.text), TEXT), Rule(left, y + 2, end, y + 2, 0.6)]
        if blank.unit:
            marks.append(Words(end + 3, y, blank.unit_shown, TEXT))
        x += blank.width_pt + _GAP_PT
    return marks, x, y


def _digits(name: str, kinds: tuple[StrEnum, ...], first: tuple[str, ...] = ()) -> str:
    said = (*first, *(words.sign(kind) for kind in kinds))
    told = ", ".join(f"{number} {text}" for number, text in enumerate(said, start=1))
    return f"{name}: {told}"
