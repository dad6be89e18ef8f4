"""The mixing block: jugs in mixing order, the ladder, and clear water as a jug too.

Each jug has its letter in a frame, its strength, what to weigh, the EC to expect and a
blank for what the meter reads. Knows no arithmetic: every figure comes with the plan.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.volume_words import volume_text
from growdesk.ui import jug_words, words
from growdesk.ui.printing import wording
from growdesk.ui.printing.marks import (
    LETTER,
    STRONG,
    TAG,
    TEXT,
    Block,
    Frame,
    Rule,
    gap,
)
from growdesk.ui.printing.setting import (
    line_pt,
    paragraph,
    stack,
    width_pt,
    wrap,
)

if TYPE_CHECKING:
    from growdesk.services.values import Jug, MixPlan
    from growdesk.ui.printing.marks import Mark

_FRAME_PT = 38.0
_PAD_PT = 5.0
_UNIT = "ppm N is mg of nitrogen in a litre of the finished feed."


def mixing(mix: MixPlan, room_pt: float) -> tuple[Block, ...]:
    """Give the blocks of a round's mixing."""
    blocks: list[Block] = [*heading("Mix in this order", room_pt)]
    blocks += (_jug(jug, mix, room_pt) for jug in mix.jugs)
    blocks += _clear(mix, room_pt)
    if not mix.jugs:
        blocks += paragraph(jug_words.NO_FEED, room_pt)
    if mix.ladder:
        blocks += heading(jug_words.ladder_heading(mix), room_pt)
        caution = jug_words.ladder_caution(mix)
        blocks += paragraph(caution, room_pt) if caution else ()
    for number, step in enumerate(mix.ladder, start=1):
        blocks += paragraph(step, room_pt, indent_pt=20, mark=f"{number}.")
    blocks += _remarks(mix, room_pt)
    return tuple(blocks)


def heading(text: str, room_pt: float) -> tuple[Block, ...]:
    """Give a heading held on the page of what follows it."""
    lines = wrap(text, room_pt, TAG)
    height = len(lines) * line_pt(TAG) + 2
    return (gap(8), Block(height, stack(lines, 0, 0, TAG), keep=True))


def _jug(jug: Jug, mix: MixPlan, room_pt: float) -> Block:
    mixed = jug_words.volume(jug)
    spare = jug_words.spare(jug)
    parts = (
        f"{jug.strength_ppm_n} ppm N",
        f"{mixed}, {spare}" if spare else mixed,
        words.plants(len(jug.tags)),
    )
    title = " · ".join(parts)
    lines = (wording.weigh(jug, mix), wording.reading(jug), *jug.warnings)
    return _framed(jug.letter, title, lines, room_pt)


def _clear(mix: MixPlan, room_pt: float) -> tuple[Block, ...]:
    total_l = jug_words.clear_total_l(mix)
    if not total_l:
        return ()
    ready = f"{volume_text(total_l)} of {jug_words.water_name(mix)}"
    title = f"Clear water · {ready}, {jug_words.CLEAR_SPARE}"
    return (_framed("clear", title, (jug_words.clear_shares(mix),), room_pt),)


def _framed(letter: str, title: str, lines: tuple[str, ...], room_pt: float) -> Block:
    """Give a jug: its letter in a frame, a strong title, lines beside it."""
    left = _FRAME_PT + 12
    face = LETTER if len(letter) <= 2 else STRONG
    centred = (_FRAME_PT - width_pt(letter, face)) / 2
    high = _PAD_PT + (_FRAME_PT - line_pt(face)) / 2
    marks: list[Mark] = [
        Frame(0, _PAD_PT, _FRAME_PT, _FRAME_PT, 1.6),
        *stack((letter,), centred, high, face),
    ]
    y = _PAD_PT - 1
    weights = (STRONG, *(TEXT for _ in lines))
    for text, weight in zip((title, *lines), weights, strict=True):
        set_lines = wrap(text, room_pt - left, weight)
        marks += stack(set_lines, left, y, weight)
        y += len(set_lines) * line_pt(weight)
    height = max(y, _FRAME_PT + _PAD_PT) + _PAD_PT
    marks.append(Rule(0, height, room_pt, height))
    return Block(height, tuple(marks))


def _remarks(mix: MixPlan, room_pt: float) -> tuple[Block, ...]:
    blocks: list[Block] = [gap(4)]
    for remark in (jug_words.outside_band(mix), jug_words.volume_unknown(mix)):
        blocks += paragraph(remark, room_pt) if remark else ()
    if mix.jugs:
        blocks += paragraph(_UNIT, room_pt)
    return tuple(blocks)
