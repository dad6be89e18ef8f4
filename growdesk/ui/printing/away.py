"""The away sheet as pages of marks: who gets how much on which day, and who none.

For somebody who knows nothing of orchids: every line says what to do, none asks. Two
pages at most; nothing is set below 11 pt. Knows no painter.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Final

from growdesk.domain.errors import InputError
from growdesk.domain.phrases import listed
from growdesk.ui import words
from growdesk.ui.printing.marks import (
    MM,
    STRONG,
    TAG,
    TEXT,
    TITLE,
    Block,
    Face,
    Frame,
    Rule,
    Words,
    gap,
)
from growdesk.ui.printing.mixing import heading
from growdesk.ui.printing.naming import name_lines, set_line
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
from growdesk.ui.printing.wording import DO_NOT_WATER

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date
    from pathlib import Path

    from growdesk.services.away import AwayBench, AwayGroup, AwaySheet
    from growdesk.ui.printing.marks import Mark

DOUBT: Final = "If in doubt, don't."
MOST_PAGES: Final = 2
_LARGE = Face(24, bold=True)
_BOX_PT: Final = 4.2 * MM
_PAD_PT: Final = 2.0
_GUTTER_PT: Final = 8.0
_DAY_PT: Final = 43.0
_MOST_COLUMNS: Final = 6
_LEAST_NAME_PT: Final = 60.0
_NO_PLACE = "No place"
_SIDE_PT: Final = 14 * MM
_RULES: Final = (
    (
        "Clear water only, slowly over the whole pot until it runs out below; pour "
        "away what stands under it. Never feed. Keep the flowers and the hearts of "
        "leaves dry."
    ),
    (
        "Water only what has a box for the day, and tick it. A day that was missed is "
        "left out; never give double."
    ),
)
_ALONE: Final = (
    "Leave alone: the tins, bottles and jugs of feed; fallen leaves; spent flowers. "
    "Move, turn, cut and repot nothing."
)
_CAUTIONS: Final = (
    "Keep children and pets from the plants and from everything on the shelf.",
    "Drink nothing from a bottle here. Poisoning: call your poison centre.",
)


def title(sheet: AwaySheet) -> str:
    """Give the sheet's title, for the file and the printer's queue."""
    return f"Watering, {_short(sheet.begins)} to {_short(sheet.ends)} {sheet.ends.year}"


def write_away(
    sheet: AwaySheet, call: str, path: Path, paper: str | None = None
) -> None:
    """Save a sheet as a PDF; ``call`` is whom to call, a blank line where empty."""
    laid_out = partial(lay_out_away, sheet, call)
    save_pdf(pages_pdf(title(sheet), laid_out, paper), path, "The away sheet")


def lay_out_away(
    sheet: AwaySheet, call: str, width_pt_: float, height_pt: float
) -> tuple[Page, ...]:
    """Give the pages for a paper of this size in points.

    Raises ``InputError`` where even two pages do not hold the collection.
    """
    room = width_pt_ - 2 * _SIDE_PT
    head = _head(sheet, "", room)
    frame = Paper(width_pt_, height_pt, head.height_pt, _foot(room))
    blocks = tuple(_blocks(sheet, call, room))
    bodies = tuple(paginate(blocks, frame))
    if len(bodies) > MOST_PAGES:
        raise InputError(
            "place",
            "all places",
            f"would fill {len(bodies)} pages, more than a helper reads",
            "Make a sheet for each place.",
        )
    return tuple(
        _page(sheet, f"{number} of {len(bodies)}", body, frame)
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
    marks += stack((DOUBT,), 0, y, _LARGE)
    y += line_pt(_LARGE) + 1
    marks.append(Rule(0, y, room, y, 1.6))
    return Block(y + 5, tuple(marks))


def _foot(room: float) -> Block:
    marks: tuple[Mark, ...] = (
        Rule(0, 2, room, 2, 0.8),
        *stack(_CAUTIONS, 0, 5, TEXT),
    )
    return Block(6 + len(_CAUTIONS) * line_pt(TEXT), marks)


def _blocks(sheet: AwaySheet, call: str, room: float) -> Iterator[Block]:
    for rule in _rules(sheet):
        yield from paragraph(rule, room, indent_pt=14, mark="•")
    yield gap(3)
    yield from _call(call, room)
    at = _table(sheet, room)
    for bench in sheet.benches:
        yield from _bench(bench, at)
    yield from _ends(sheet, room)


def _rules(sheet: AwaySheet) -> Iterator[str]:
    yield from _RULES
    if sheet.water:
        yield f"The water to use: {sheet.water}.{_needed(sheet)}"


def _needed(sheet: AwaySheet) -> str:
    most = max((litres for _, litres in sheet.litres), default=0.0)
    return f" The most for one day is {words.volume(most)}." if most else ""


def _call(call: str, room: float) -> Iterator[Block]:
    """Give whom to call, or a line to write it on."""
    said = "Call: "
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


@dataclass(frozen=True, slots=True)
class _Table:
    """Where amounts end and days stand; without ``lefts`` days go below as text."""

    room: float
    amount_pt: float
    days: tuple[date, ...]
    lefts: tuple[float, ...]

    @property
    def amount_right(self) -> float:
        """Give the right edge of the amounts."""
        return (self.lefts[0] if self.lefts else self.room) - _GUTTER_PT


def _table(sheet: AwaySheet, room: float) -> _Table:
    amounts = [
        width_pt(_amount(group), STRONG)
        for bench in sheet.benches
        for group in bench.groups
        if group.days
    ]
    count = len(sheet.days) if len(sheet.days) <= _MOST_COLUMNS else 0
    lefts = tuple(room - (count - number) * _DAY_PT for number in range(count))
    return _Table(room, max(amounts, default=0.0), sheet.days, lefts)


def _bench(bench: AwayBench, at: _Table) -> Iterator[Block]:
    name = bench.where or _NO_PLACE
    yield from _heading(name, at)
    again = tuple(_heading(f"{name}, continued", at))
    for group in bench.groups:
        plain = _watered(group, at) if group.days else _barred(group, at.room)
        yield replace(plain, repeat=again)


def _heading(name: str, at: _Table) -> Iterator[Block]:
    """Give a place's heading, with the days over their boxes."""
    if not at.lefts:
        yield from heading(name, at.room)
        return
    yield gap(5)
    base = baseline_pt(TAG)
    marks: list[Mark] = [Words(0, base, elide(name, at.lefts[0] - 8, TAG), TAG)]
    for left, day in zip(at.lefts, at.days, strict=True):
        text = _short(day).rsplit(" ", 1)[0]
        marks.append(Words(_middle(left, width_pt(text, TEXT)), base, text, TEXT))
    height = line_pt(TAG) + 1
    marks.append(Rule(0, height, at.room, height, 1.2))
    yield Block(height + 1, tuple(marks), keep=True)


def _middle(left: float, wide: float) -> float:
    return left + (_DAY_PT - wide) / 2


def _watered(group: AwayGroup, at: _Table) -> Block:
    """Give a line: tags, how much each, a box for each day."""
    y = _PAD_PT
    base = y + baseline_pt(TAG)
    tag_room = at.amount_right - at.amount_pt - _GUTTER_PT
    tags = wrap(", ".join(group.tags), tag_room, TAG)
    marks: list[Mark] = [
        *stack(tags, 0, y, TAG),
        right(_amount(group), at.amount_right, base, STRONG),
    ]
    left = width_pt(tags[0], TAG) + 7
    if group.name and len(tags) == 1 and tag_room - left > _LEAST_NAME_PT:
        (named,) = name_lines(group.name, tag_room - left, TEXT)
        marks += set_line(named, left, base, TEXT)
    y += len(tags) * line_pt(TAG)
    if at.lefts:
        marks += _in_columns(group, at)
    else:
        more, y = _boxes(group.days, y + 1, at.room)
        marks += more
    y += _PAD_PT
    marks.append(Rule(0, y, at.room, y, 0.5))
    return Block(y, tuple(marks))


def _in_columns(group: AwayGroup, at: _Table) -> Iterator[Mark]:
    """Give a box under each day that brings water, a dash under the others."""
    for left, day in zip(at.lefts, at.days, strict=True):
        if day in group.days:
            yield Frame(_middle(left, _BOX_PT), _PAD_PT + 1.5, _BOX_PT, _BOX_PT, 1.2)
        else:
            dash = _middle(left, width_pt("–", TEXT))
            yield Words(dash, _PAD_PT + baseline_pt(TAG), "–", TEXT)


def _amount(group: AwayGroup) -> str:
    each = " each" if len(group.tags) > 1 else ""
    if group.volume_l is None:
        return f"until it runs out below{each and ', each'}"
    mugs = f" ({group.mugs})" if group.mugs else ""
    return f"{words.volume(group.volume_l)}{mugs}{each}"


def _boxes(days: Sequence[date], y: float, room: float) -> tuple[list[Mark], float]:
    """Set a box with its day for each watering, over as many lines as they take."""
    marks: list[Mark] = []
    x = 0.0
    line = max(_BOX_PT + 3, line_pt(TEXT))
    for day in days:
        text = _short(day)
        wide = _BOX_PT + 4 + width_pt(text, TEXT) + 12
        if x and x + wide - 12 > room:
            x, y = 0.0, y + line
        marks += [
            Frame(x, y + 1, _BOX_PT, _BOX_PT, 1.0),
            Words(x + _BOX_PT + 4, y + baseline_pt(TEXT) + 0.5, text, TEXT),
        ]
        x += wide
    return marks, y + line


def _short(day: date) -> str:
    """Give a day as ``Wed 2 Dec``."""
    weekday, number, month = words.near_day(day).split(" ")
    return f"{weekday[:3]} {number} {month[:3]}"


def _barred(group: AwayGroup, room: float) -> Block:
    """Give what must stay dry: in a heavy frame, with where it stands."""
    inside = 6.0
    said = f"{DO_NOT_WATER}: "
    left = inside + width_pt(said, TAG)
    stands = _stands(group)
    tag_room = room - left - inside - width_pt(stands, TEXT) - 10
    tags = wrap(", ".join(group.tags), tag_room, TAG)
    y = 2 * _PAD_PT + 1
    marks: list[Mark] = [
        Words(inside, y + baseline_pt(TAG), said, TAG),
        *stack(tags, left, y, TAG),
        right(stands, room - inside, y + baseline_pt(TAG)),
    ]
    named_left = left + width_pt(tags[0], TAG) + 8
    named_room = left + tag_room - named_left
    if group.name and len(tags) == 1 and named_room > _LEAST_NAME_PT:
        (named,) = name_lines(group.name, named_room, TEXT)
        marks += set_line(named, named_left, y + baseline_pt(TAG), TEXT)
    y += len(tags) * line_pt(TAG) + _PAD_PT
    marks.append(Frame(0, 2, room, y - 1, 2.0))
    return Block(y + 4, tuple(marks))


def _stands(group: AwayGroup) -> str:
    """Say where along the bench they stand."""
    if group.of == 1:
        return "the only one here"
    first = _nth(group.first)
    if len(group.tags) == 1:
        return f"{first} of {group.of}"
    return f"{first} to {_nth(group.last)} of {group.of}"


def _nth(number: int) -> str:
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    if number % 100 in (11, 12, 13):
        ending = "th"
    return f"{number}{ending}"


def _ends(sheet: AwaySheet, room: float) -> Iterator[Block]:
    """Give what to leave alone, and what looks worse than it is."""
    yield gap(6)
    if sheet.bare:
        one = len(sheet.bare) == 1
        named = listed([f"{tag} {name}".strip() for tag, name in sheet.bare])
        said = (
            f"Bare is right: {named} {'rests' if one else 'rest'} without leaves, or "
            f"{'loses' if one else 'lose'} them now. {'It is' if one else 'They are'} "
            "not dying and must not be watered."
        )
        yield from paragraph(said, room, face=STRONG)
    yield from paragraph(_ALONE, room)
    if sheet.in_bud:
        said = f"In bud or flower, so do not even turn the pot: {listed(sheet.in_bud)}."
        yield from paragraph(said, room)
    if sheet.last:
        said = f"Do these last, and wash your hands after them: {listed(sheet.last)}."
        yield from paragraph(said, room)
    made = words.long_day(sheet.made_at.astimezone().date())
    name = elide(sheet.collection, room * 0.6, TEXT)
    yield from paragraph(f"{name}, {words.plants(sheet.plants)}. Made on {made}.", room)
