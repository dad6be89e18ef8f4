"""The away sheet's rows in two columns side by side, so that a house goes on one page.

A row is tags, the amount, and a box for each day; the days stand once over each column.
A helper goes by tags, so that names stand only in a bar that has room for them.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.day_words import short_weekday
from growdesk.domain.mugs import ABOUT
from growdesk.domain.speech import tr
from growdesk.ui import words
from growdesk.ui.printing.away_rows import (
    BOX_PT,
    MOST_COLUMNS,
    NO_PLACE,
    NO_VOLUME,
    stands,
)
from growdesk.ui.printing.marks import STRONG, TAG, TEXT, Block, Frame, Rule, Words
from growdesk.ui.printing.naming import set_line, whole_line
from growdesk.ui.printing.setting import (
    baseline_pt,
    line_pt,
    right,
    stack,
    width_pt,
    wrap,
)
from growdesk.ui.printing.wording import DO_NOT_WATER

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date

    from growdesk.services.away import AwayBench, AwayGroup, AwaySheet
    from growdesk.ui.printing.marks import Face, Mark

_GAP_PT: Final = 13.0
_LEAST_DAY_PT: Final = 24.0
_APART_PT: Final = 4.0
_PAD_PT: Final = 0.35
_BESIDE_PT: Final = 5.0

Text = tuple[tuple[str, "Face"], ...]


class _Column(Struct, frozen=True):
    """One column: its width, and where the boxes of each day are centred."""

    room: float
    days: tuple[date, ...]
    day_pt: float

    @property
    def left(self) -> float:
        """Give where the days begin."""
        return self.room - self.day_pt * len(self.days)

    def centre(self, number: int) -> float:
        """Give the middle of a day's boxes."""
        return self.left + (number + 0.5) * self.day_pt


def for_each_pot(sheet: AwaySheet) -> str:
    """Say what the amounts mean, and that mugs are rounded where they are."""
    groups = [group for bench in sheet.benches for group in bench.groups]
    rounded = any(group.mugs.startswith(_about()) for group in groups)
    if rounded:
        return tr("Amounts are for each pot, mugs rounded.")
    return tr("Amounts are for each pot.")


def _about() -> str:
    """Give what stands before a rounded number of mugs."""
    return tr(ABOUT).partition("{")[0]


def two_columns(sheet: AwaySheet, room: float, high: float) -> Block | None:
    """Give all benches side by side, or nothing where they are higher than that."""
    if len(sheet.days) > MOST_COLUMNS:
        return None
    at = _column(sheet, (room - _GAP_PT) / 2)
    if at.left < at.room / 4:
        return None
    rows = tuple(row for bench in sheet.benches for row in _bench(bench, at))
    head = _head(at)
    left, right_ = _halved(rows, high - head.height_pt)
    tall = head.height_pt + max(_height(left), _height(right_))
    if tall > high:
        return None
    marks = [*_set((head, *left), 0)]
    if right_:
        marks += _set((head, *right_), room - at.room)
        marks.append(Rule(room / 2, 2, room / 2, tall, 0.8))
    return Block(tall, tuple(marks))


def _column(sheet: AwaySheet, room: float) -> _Column:
    wide = [width_pt(short_weekday(day), TEXT) for day in sheet.days]
    apart = [(one + other) / 2 + _APART_PT for one, other in pairwise(wide)]
    return _Column(room, sheet.days, max(_LEAST_DAY_PT, *wide, *apart))


def _head(at: _Column) -> Block:
    """Give the days over the boxes, the weekday over its number."""
    marks: list[Mark] = []
    for number, day in enumerate(at.days):
        for line, text in enumerate((short_weekday(day), str(day.day))):
            face = STRONG if line else TEXT
            left = at.centre(number) - width_pt(text, face) / 2
            y = line * line_pt(TEXT) + baseline_pt(TEXT)
            marks.append(Words(left, y, text, face))
    return Block(2 * line_pt(TEXT), tuple(marks))


def _height(rows: Sequence[Block]) -> float:
    return sum(row.height_pt for row in rows)


def _halved(
    rows: Sequence[Block], high: float
) -> tuple[tuple[Block, ...], tuple[Block, ...]]:
    """Break rows in two: between benches if that has room, else within one."""
    between: list[tuple[float, int]] = []
    within: list[tuple[float, int]] = []
    for number, row in enumerate(rows):
        if number and not rows[number - 1].keep:
            tall = max(_height(rows[:number]), _height((*row.repeat, *rows[number:])))
            (within if row.repeat else between).append((tall, number))
    fair = [each for each in between if each[0] <= high]
    choice = fair or [*between, *within]
    if not choice:
        return tuple(rows), ()
    _, at = min(choice)
    return tuple(rows[:at]), (*rows[at].repeat, *rows[at:])


def _set(rows: Sequence[Block], x: float) -> Iterator[Mark]:
    y = 0.0
    for row in rows:
        yield from (_moved(mark, x, y) for mark in row.marks)
        y += row.height_pt


def _moved(mark: Mark, x: float, y: float) -> Mark:
    if isinstance(mark, Rule):
        return replace(
            mark,
            x1_pt=mark.x1_pt + x,
            x2_pt=mark.x2_pt + x,
            y1_pt=mark.y1_pt + y,
            y2_pt=mark.y2_pt + y,
        )
    return replace(mark, x_pt=mark.x_pt + x, y_pt=mark.y_pt + y)


def _bench(bench: AwayBench, at: _Column) -> Iterator[Block]:
    name = bench.where or tr(NO_PLACE)
    yield from _heading(name, at)
    again = tuple(_heading(tr("{name}, continued").format(name=name), at))
    for number, group in enumerate(bench.groups):
        row = _watered(group, at) if group.days else _barred(group, at.room)
        yield replace(row, repeat=again if number else ())


def _heading(name: str, at: _Column) -> Iterator[Block]:
    lines = wrap(name, at.room, STRONG)
    low = 3 + len(lines) * line_pt(STRONG) + 0.5
    rule = Rule(0, low, at.room, low, 1.2)
    yield Block(low + 1, (*stack(lines, 0, 3, STRONG), rule), keep=True)


def _watered(group: AwayGroup, at: _Column) -> Block:
    """Give a row: tags, how much each pot gets, a box for each day."""
    end = at.left
    tags = wrap(", ".join(group.tags), end, TAG)
    amounts = _amounts(group, end)
    beside = width_pt(tags[-1], TAG) + _BESIDE_PT + _wide(amounts[0]) <= end
    first = len(tags) - 1 if beside else len(tags)
    marks: list[Mark] = [*stack(tags, 0, _PAD_PT, TAG)]
    for number, text in enumerate(amounts, start=first):
        base = _PAD_PT + number * line_pt(TAG) + baseline_pt(TAG)
        marks += _ending(text, end, base)
    for number, day in enumerate(at.days):
        centre = at.centre(number)
        if day in group.days:
            corner = (centre - BOX_PT / 2, _PAD_PT + 2.3)
            marks.append(Frame(*corner, BOX_PT, BOX_PT, 1.2))
        else:
            left = centre - width_pt("–", TEXT) / 2
            marks.append(Words(left, _PAD_PT + baseline_pt(TAG), "–", TEXT))
    low = 2 * _PAD_PT + (first + len(amounts)) * line_pt(TAG)
    marks.append(Rule(0, low, at.room, low, 0.5))
    return Block(low + 0.3, tuple(marks))


def _amounts(group: AwayGroup, room: float) -> tuple[Text, ...]:
    """Give the amount on one line where it has room, else mugs under the volume."""
    mugs = group.mugs.removeprefix(_about())
    if group.volume_l is None:
        said = wrap(tr(NO_VOLUME), room, STRONG)
        return tuple(((line, STRONG),) for line in said)
    volume = (words.volume(group.volume_l), STRONG)
    if not mugs:
        return ((volume,),)
    one: Text = (volume, (f" {mugs}", TEXT))
    tag = width_pt(", ".join(group.tags), TAG) + _BESIDE_PT
    return (one,) if tag + _wide(one) <= room else ((volume,), ((mugs, TEXT),))


def _wide(text: Text) -> float:
    return sum(width_pt(said, face) for said, face in text)


def _ending(text: Text, end: float, base: float) -> Iterator[Words]:
    x = end - _wide(text)
    for said, face in text:
        yield Words(x, base, said, face)
        x += width_pt(said, face)


def _barred(group: AwayGroup, room: float) -> Block:
    """Give what must stay dry in a heavy frame, and under it where it stands."""
    inside = 6.0
    wide = room - 2 * inside
    tags = wrap(f"{tr(DO_NOT_WATER)}: {', '.join(group.tags)}", wide, TAG)
    where = stands(group)
    y = 3.0
    marks: list[Mark] = [*stack(tags, inside, y, TAG)]
    y += (len(tags) - 1) * line_pt(TAG)
    base = y + baseline_pt(TAG)
    y += line_pt(TAG)
    named_room = wide - width_pt(where, TEXT) - 10
    named = whole_line(group.name, named_room, TEXT)
    if named or width_pt(tags[-1], TAG) + 10 + width_pt(where, TEXT) > wide:
        base = y + baseline_pt(TEXT)
        marks += set_line(named, inside, base, TEXT)
        y += line_pt(TEXT)
    marks.append(right(where, room - inside, base))
    marks.append(Frame(1, 2, room - 2, y, 2.0))
    return Block(y + 4, tuple(marks))
