"""The away sheet's rows over the whole width: tags, name, amount, a box a day."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.day_words import on_weekday, short_text, short_weekday
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.ui import words
from growdesk.ui.printing.marks import (
    MM,
    STRONG,
    TAG,
    TEXT,
    Block,
    Frame,
    Rule,
    Words,
    gap,
)
from growdesk.ui.printing.mixing import heading
from growdesk.ui.printing.naming import set_line, whole_line
from growdesk.ui.printing.setting import (
    baseline_pt,
    elide,
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
    from growdesk.ui.printing.marks import Mark

BOX_PT: Final = 4.2 * MM
MOST_COLUMNS: Final = 6
NO_PLACE: Final = mark("No place")
NO_VOLUME: Final = mark("until it runs out below")
_NTH: Final = Phrases(
    {1: "{number}st", 2: "{number}nd", 3: "{number}rd", 4: "{number}th"},
    "place along a bench",
)
_PAD_PT: Final = 2.0
_GUTTER_PT: Final = 8.0
_DAY_PT: Final = 43.0


class Table(Struct, frozen=True):
    """Where amounts end and days stand; without ``lefts`` days go below as text."""

    room: float
    amount_pt: float
    days: tuple[date, ...]
    lefts: tuple[float, ...]

    @property
    def amount_right(self) -> float:
        """Give the right edge of the amounts."""
        return (self.lefts[0] if self.lefts else self.room) - _GUTTER_PT


def table(sheet: AwaySheet, room: float) -> Table:
    """Give where everything stands in a room."""
    amounts = [
        width_pt(_amount(group), STRONG)
        for bench in sheet.benches
        for group in bench.groups
        if group.days
    ]
    count = len(sheet.days) if len(sheet.days) <= MOST_COLUMNS else 0
    lefts = tuple(room - (count - number) * _DAY_PT for number in range(count))
    return Table(room, max(amounts, default=0.0), sheet.days, lefts)


def bench_rows(bench: AwayBench, at: Table) -> Iterator[Block]:
    """Give a bench's heading and rows."""
    name = bench.where or tr(NO_PLACE)
    yield from _heading(name, at)
    again = tuple(_heading(tr("{name}, continued").format(name=name), at))
    for group in bench.groups:
        plain = _watered(group, at) if group.days else _barred(group, at.room)
        yield replace(plain, repeat=again)


def _heading(name: str, at: Table) -> Iterator[Block]:
    """Give a place's heading, with the days over their boxes."""
    if not at.lefts:
        yield from heading(name, at.room)
        return
    yield gap(5)
    base = baseline_pt(TAG)
    marks: list[Mark] = [Words(0, base, elide(name, at.lefts[0] - 8, TAG), TAG)]
    for left, day in zip(at.lefts, at.days, strict=True):
        text = f"{short_weekday(day)} {day.day}"
        marks.append(Words(_middle(left, width_pt(text, TEXT)), base, text, TEXT))
    height = line_pt(TAG) + 1
    marks.append(Rule(0, height, at.room, height, 1.2))
    yield Block(height + 1, tuple(marks), keep=True)


def _middle(left: float, wide: float) -> float:
    return left + (_DAY_PT - wide) / 2


def _watered(group: AwayGroup, at: Table) -> Block:
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
    if len(tags) == 1:
        marks += set_line(
            whole_line(group.name, tag_room - left, TEXT), left, base, TEXT
        )
    y += len(tags) * line_pt(TAG)
    if at.lefts:
        marks += _in_columns(group, at)
    else:
        more, y = _boxes(group.days, y + 1, at.room)
        marks += more
    y += _PAD_PT
    marks.append(Rule(0, y, at.room, y, 0.5))
    return Block(y, tuple(marks))


def _in_columns(group: AwayGroup, at: Table) -> Iterator[Mark]:
    """Give a box under each day that brings water, a dash under the others."""
    for left, day in zip(at.lefts, at.days, strict=True):
        if day in group.days:
            yield Frame(_middle(left, BOX_PT), _PAD_PT + 1.5, BOX_PT, BOX_PT, 1.2)
        else:
            dash = _middle(left, width_pt("–", TEXT))
            yield Words(dash, _PAD_PT + baseline_pt(TAG), "–", TEXT)


def _amount(group: AwayGroup) -> str:
    many = len(group.tags) > 1
    if group.volume_l is None:
        told = tr(NO_VOLUME)
        return tr("{told}, each").format(told=told) if many else told
    mugs = f" ({group.mugs})" if group.mugs else ""
    amount = f"{words.volume(group.volume_l)}{mugs}"
    return tr("{amount} each").format(amount=amount) if many else amount


def _boxes(days: Sequence[date], y: float, room: float) -> tuple[list[Mark], float]:
    """Set a box with its day for each watering, over as many lines as they take."""
    marks: list[Mark] = []
    x = 0.0
    line = max(BOX_PT + 3, line_pt(TEXT))
    for day in days:
        text = short_day(day)
        wide = BOX_PT + 4 + width_pt(text, TEXT) + 12
        if x and x + wide - 12 > room:
            x, y = 0.0, y + line
        marks += [
            Frame(x, y + 1, BOX_PT, BOX_PT, 1.0),
            Words(x + BOX_PT + 4, y + baseline_pt(TEXT) + 0.5, text, TEXT),
        ]
        x += wide
    return marks, y + line


def short_day(day: date) -> str:
    """Give a day as ``Wed 2 Dec``."""
    return on_weekday(short_weekday(day), short_text(day))


def _barred(group: AwayGroup, room: float) -> Block:
    """Give what must stay dry: in a heavy frame, with where it stands."""
    inside = 6.0
    said = f"{tr(DO_NOT_WATER)}: "
    left = inside + width_pt(said, TAG)
    where = stands(group)
    tag_room = room - left - inside - width_pt(where, TEXT) - 10
    tags = wrap(", ".join(group.tags), tag_room, TAG)
    y = 2 * _PAD_PT + 1
    marks: list[Mark] = [
        Words(inside, y + baseline_pt(TAG), said, TAG),
        *stack(tags, left, y, TAG),
        right(where, room - inside, y + baseline_pt(TAG)),
    ]
    named_left = left + width_pt(tags[0], TAG) + 8
    named_room = left + tag_room - named_left
    if len(tags) == 1:
        named = whole_line(group.name, named_room, TEXT)
        marks += set_line(named, named_left, y + baseline_pt(TAG), TEXT)
    y += len(tags) * line_pt(TAG) + _PAD_PT
    marks.append(Frame(0, 2, room, y - 1, 2.0))
    return Block(y + 4, tuple(marks))


def stands(group: AwayGroup) -> str:
    """Say where along the bench they stand."""
    if group.of == 1:
        return tr("the only one here")
    first = _nth(group.first)
    if len(group.tags) == 1:
        return tr("{first} of {of}").format(first=first, of=group.of)
    return tr("{first} to {nth} of {of}").format(
        first=first, nth=_nth(group.last), of=group.of
    )


def _nth(number: int) -> str:
    is_teen = number % 100 in (11, 12, 13)
    last = number % 10
    return _NTH[4 if is_teen or last not in _NTH else last].format(number=number)
