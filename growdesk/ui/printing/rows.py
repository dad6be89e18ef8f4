"""A plant's row in bench order, and the bar that stands where a hand must not water.

Each row has three boxes a wet hand can hit, the tag, the name, the dose with its
strength, the volume, why, and the day of the look.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts import Verdict
from growdesk.domain.speech import tr
from growdesk.ui.printing import wording
from growdesk.ui.printing.marks import MM, STRONG, TAG, TEXT, Block, Frame, Rule, Words
from growdesk.ui.printing.naming import name_lines, stack_names
from growdesk.ui.printing.setting import (
    baseline_pt,
    line_pt,
    right,
    stack,
    width_pt,
    wrap,
)

if TYPE_CHECKING:
    from growdesk.domain.vessels import Vessel
    from growdesk.services.sheet_values import SheetLine
    from growdesk.ui.printing.marks import Mark

BOX_PT = 6 * MM
_BOX_LEFTS_PT = (2.0, 36.0, 76.0)
_BOXES_PT = 116.0
_LOOK_PT = 56.0
_VOLUME_PT = 58.0
_GUTTER_PT = 8.0
_PAD_PT = 3.5
_NAME_LINES = 2


class Columns(Struct, frozen=True):
    """Where the columns stand on this paper with these tags."""

    width_pt: float
    tag_pt: float
    dose_pt: float

    @property
    def tag_left_pt(self) -> float:
        """Give the left edge of the tags."""
        return _BOXES_PT

    @property
    def name_left_pt(self) -> float:
        """Give the left edge of the names."""
        return _BOXES_PT + self.tag_pt + _GUTTER_PT

    @property
    def name_room_pt(self) -> float:
        """Give the room for a name."""
        return self.width_pt - self.name_left_pt - _LOOK_PT - _GUTTER_PT

    @property
    def volume_right_pt(self) -> float:
        """Give the right edge of the volumes."""
        return _BOXES_PT + self.dose_pt + _VOLUME_PT

    @property
    def reason_left_pt(self) -> float:
        """Give the left edge of the reasons."""
        return self.volume_right_pt + _GUTTER_PT


def columns(lines: tuple[SheetLine, ...], width_pt_: float) -> Columns:
    """Fit the columns to the widest tag and dose, within reason."""
    tag_pt = max((width_pt(line.tag, TAG) for line in lines), default=0.0)
    dose_pt = max((width_pt(wording.dose(line), STRONG) for line in lines), default=0.0)
    return Columns(
        width_pt=width_pt_,
        tag_pt=min(max(tag_pt, 24.0), width_pt_ * 0.3),
        dose_pt=max(dose_pt, 60.0),
    )


def heads(at: Columns) -> Block:
    """Give the column heads over a place's rows."""
    top = baseline_pt(TEXT)
    low = top + line_pt(TEXT)
    fed, room = tr("fed"), _BOX_LEFTS_PT[1] - 7 - 4
    marks: list[Mark] = [
        Words(0.0, low if width_pt(fed, TEXT) < room else top, fed, TEXT),
        Words(_BOX_LEFTS_PT[1] - 7, low, tr("clear"), TEXT),
        Words(_BOX_LEFTS_PT[2] - 14, top, tr("passed", "over: by"), TEXT),
        Words(_BOX_LEFTS_PT[2] - 1, low, tr("by", "under: passed"), TEXT),
        Words(at.tag_left_pt, top, tr("tag and name"), TEXT),
        Words(at.tag_left_pt, low, tr("what, how much, why"), TEXT),
        right(tr("look"), at.width_pt, top),
    ]
    height = line_pt(TEXT) * 2 + 1
    marks.append(Rule(0, height, at.width_pt, height, 1.2))
    return Block(height, tuple(marks), keep=True)


def row(line: SheetLine, at: Columns, mug: Vessel | None = None) -> Block:
    """Give a plant's row."""
    barred = line.verdict is Verdict.KEEP_DRY
    marks: list[Mark] = []
    y = _PAD_PT
    tag_lines = wrap(line.tag, at.tag_pt, TAG)
    named = name_lines(line.name, at.name_room_pt, TEXT, _NAME_LINES, line.together)
    marks += stack(tag_lines, at.tag_left_pt, y, TAG)
    first = baseline_pt(TAG) - baseline_pt(TEXT)
    marks += stack_names(named, at.name_left_pt, y + first, TEXT)
    marks.append(right(wording.seen(line.looked_on), at.width_pt, y + baseline_pt(TAG)))
    y += max(len(tag_lines) * line_pt(TAG), first + len(named) * line_pt(TEXT))
    more, y = _what(line, at, y, mug)
    marks += more
    height = max(y + _PAD_PT, BOX_PT + 2 * _PAD_PT)
    marks += _bar(at, height) if barred else _boxes(line)
    if not barred:
        marks.append(Rule(0, height, at.width_pt, height, 0.5))
    return Block(height, tuple(marks))


def _what(
    line: SheetLine, at: Columns, y: float, mug: Vessel | None
) -> tuple[list[Mark], float]:
    """Give dose, volume and reason, and where they end."""
    base = y + baseline_pt(TEXT)
    marks: list[Mark] = [Words(at.tag_left_pt, base, wording.dose(line), STRONG)]
    volume, mugs = wording.poured(line, mug)
    if volume:
        marks.append(right(volume, at.volume_right_pt, base))
    why = f"{mugs} · {_why(line)}" if mugs else _why(line)
    reasons = wrap(why, at.width_pt - at.reason_left_pt, TEXT)
    marks += stack(reasons, at.reason_left_pt, y, TEXT)
    y += len(reasons) * line_pt(TEXT)
    if line.redecide:
        room = at.width_pt - at.tag_left_pt
        asked = wrap(line.redecide, room, TEXT)
        marks += stack(asked, at.tag_left_pt, y, TEXT)
        y += len(asked) * line_pt(TEXT)
    return marks, y


def _why(line: SheetLine) -> str:
    if line.until_looked:
        return tr("{reason}. Until then: {until_looked}").format(
            reason=line.reason, until_looked=line.until_looked
        )
    return line.reason


def _boxes(line: SheetLine) -> list[Mark]:
    marks: list[Mark] = []
    top = _PAD_PT + 2
    ticked = wording.boxes_ticked(line.done)
    for left, crossed in zip(_BOX_LEFTS_PT, ticked, strict=True):
        marks.append(Frame(left, top, BOX_PT, BOX_PT, 1.2))
        if crossed:
            end, low = left + BOX_PT, top + BOX_PT
            marks += [Rule(left, top, end, low, 1.2), Rule(left, low, end, top, 1.2)]
    return marks


def _bar(at: Columns, height: float) -> list[Mark]:
    """Give the heavy frame and the bar where the boxes would be."""
    middle = height / 2
    return [
        Frame(-4, 1, at.width_pt + 8, height - 2, 2.0),
        Rule(2, middle, _BOXES_PT - 10, middle, 6.0),
    ]
