"""The mixing block: jugs in mixing order, the ladder, and clear water as a jug too.

Each jug has its letter in a frame, its strength, what to weigh with a box to tick for
each product, the EC to expect and a blank for what the meter reads. Knows no
arithmetic: every figure comes with the plan.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark, tr
from growdesk.ui import jug_measuring, jug_words, water_ready_words, words
from growdesk.ui.printing import wording
from growdesk.ui.printing.framed import Line, framed
from growdesk.ui.printing.marks import STRONG, TAG, Block, gap
from growdesk.ui.printing.setting import line_pt, paragraph, stack, wrap

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.values import Jug, MixPlan

_UNIT = mark("ppm N is mg of nitrogen in a litre of the finished feed.")


def mixing(mix: MixPlan, room_pt: float) -> tuple[Block, ...]:
    """Give the blocks of a round's mixing, whichever way is closer first."""
    jugs = tuple(_jugs(mix, room_pt))
    ladder = tuple(_ladder(mix, room_pt))
    first, other = (ladder, jugs) if mix.ladder_first and ladder else (jugs, ladder)
    return (
        *_short(mix, room_pt),
        *first,
        *other,
        *_clear(mix, room_pt),
        *_remarks(mix, room_pt),
    )


def heading(text: str, room_pt: float) -> tuple[Block, ...]:
    """Give a heading held on the page of what follows it."""
    lines = wrap(text, room_pt, TAG)
    height = len(lines) * line_pt(TAG) + 2
    return (gap(8), Block(height, stack(lines, 0, 0, TAG), keep=True))


def _short(mix: MixPlan, room_pt: float) -> Iterator[Block]:
    """Give what runs short, before anything is weighed."""
    if mix.short:
        yield gap(8)
    for line in mix.short:
        yield from paragraph(line, room_pt, face=STRONG)


def _jugs(mix: MixPlan, room_pt: float) -> Iterator[Block]:
    yield from heading(jug_words.jugs_heading(mix), room_pt)
    if not mix.jugs:
        yield from paragraph(tr(jug_words.NO_FEED), room_pt)
    if mix.ladder_why and not mix.ladder_first:
        yield from paragraph(mix.ladder_why, room_pt)
    for told in _of_all(mix):
        yield from paragraph(told, room_pt)
    for jug in mix.jugs:
        yield _jug(jug, mix, room_pt)


def _of_all(mix: MixPlan) -> Iterator[str]:
    """Give what holds for all jugs: their recipe, and in which order things go in."""
    recipe = jug_words.recipe_of_all(mix)
    if recipe:
        yield tr("Recipe: {recipe}.").format(recipe=recipe)
    order = jug_words.order_of_all(mix)
    if order:
        yield order


def _ladder(mix: MixPlan, room_pt: float) -> Iterator[Block]:
    if not mix.ladder:
        return
    yield from heading(jug_words.ladder_heading(mix), room_pt)
    if mix.ladder_why and mix.ladder_first:
        yield from paragraph(mix.ladder_why, room_pt)
    caution = jug_words.ladder_caution(mix)
    if caution:
        yield from paragraph(caution, room_pt)
    for number, step in enumerate(mix.ladder, start=1):
        yield from paragraph(step, room_pt, indent_pt=20, mark=f"{number}.")
    for reading in wording.diluted(mix):
        yield gap(6)
        yield from paragraph(reading, room_pt, indent_pt=20)


def _jug(jug: Jug, mix: MixPlan, room_pt: float) -> Block:
    mixed = jug_words.volume(jug)
    spare = jug_words.spare(jug)
    parts = (
        f"{jug.strength_ppm_n} ppm N",
        f"{mixed}, {spare}" if spare else mixed,
        words.plants(len(jug.tags)),
    )
    title = " · ".join(parts)
    recipe = jug_words.recipe(jug, mix)
    lines = (
        *((Line(tr("Recipe: {recipe}").format(recipe=recipe)),) if recipe else ()),
        *wording.weighing(jug, mix),
        *(Line(sentence) for sentence in jug_words.beside_order(jug)),
        *(Line(told, to_write="_" in told) for told in wording.outcome(jug)),
        *(Line(warning) for warning in jug_measuring.to_mind(jug)),
    )
    return framed(jug.letter, title, lines, room_pt)


def _clear(mix: MixPlan, room_pt: float) -> Iterator[Block]:
    for ready in water_ready_words.to_have_ready(mix):
        lines = [Line(line) for line in ready.lines]
        if ready.vessel:
            lines.append(
                Line(tr("Looked at the {vessel}").format(vessel=ready.vessel), boxes=1)
            )
        yield framed(
            tr("clear"),
            tr("Clear water · {title}").format(title=ready.title),
            tuple(lines),
            room_pt,
        )


def _remarks(mix: MixPlan, room_pt: float) -> Iterator[Block]:
    yield gap(4)
    for remark in jug_words.remarks(mix):
        yield from paragraph(remark, room_pt)
    if mix.jugs:
        yield from paragraph(tr(_UNIT), room_pt)
