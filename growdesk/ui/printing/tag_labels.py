"""One label: the tag large, the name as the trade sets it, a date, a code to scan.

A name that is too long for a line goes over several, then is set smaller, then has its
genus abbreviated; only then is it set below ``READABLE_PT``. If even that has no room
it ends in an ellipsis and the label says so to whoever prints it. Knows no paper and no
painter.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.name_runs import Form, Run
from growdesk.domain.phrases import listed
from growdesk.domain.speech import tr, trn
from growdesk.services import names
from growdesk.ui import words
from growdesk.ui.printing.marks import MM, Face, Modules, Words
from growdesk.ui.printing.naming import (
    Styled,
    elide_runs,
    fits,
    joined,
    stack_names,
    wrap_runs,
)
from growdesk.ui.printing.qr import code
from growdesk.ui.printing.setting import line_pt, width_pt

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.tags import TagFacts
    from growdesk.ui.printing.marks import Mark

PAD_PT: Final = 1.8 * MM
_TAG_PT: Final = (30, 26, 22, 20, 18, 16, 14, 13, 12, 11, 10, 9, 8, 7)
READABLE_PT: Final = 8.0
"""Smaller than this a name is set only where nothing else makes room; ours."""
_ONE_LINE_PT: Final = (13.0, 12.0, 11.0)
_FEW_LINES_PT: Final = (12.0, 11.0, 10.0, 9.0)
_FEW_LINES: Final = 3
_ANY: Final = 99
_WRAPPED_PT: Final = (12.0, 11.0, 10.0, 9.0, 8.5, READABLE_PT)
_SMALL_PT: Final = (7.5, 7.0, 6.5)
_SMALLEST: Final = Face(6.5)
_LINE_PT: Final = (9.0, 8.0, 7.0, 6.5, 6.0)
_CODE_PT: Final = 24 * MM
_KEPT: Final = 8192
_LOW_PT: Final = 17 * MM
_ROOMS: Final = ((0.42, 0.44), (0.36, 0.36), (0.42, 0.3), (0.34, 0.3), (0.3, 0.25))
"""Shares of the label's width for the code and of its height for the tag, as tried."""


class Shown(Struct, frozen=True):
    """What stands on a label beside tag and name."""

    code: bool = True
    day: bool = True
    parentage: bool = False
    source: bool = False
    where: bool = False


class Label(Struct, frozen=True):
    """A label's marks from its corner, and what did not go on it as it should.

    ``name_pt`` is the size of the name's type, where there is one.
    """

    marks: tuple[Mark, ...]
    notes: tuple[str, ...] = ()
    name_pt: float = READABLE_PT


@lru_cache(_KEPT)
def label(
    plant: TagFacts, width_pt_: float, height_pt: float, shown: Shown | None = None
) -> Label:
    """Set one label in a room of this width and height in points.

    Where not all goes on it, code and tag give way before the name does. What was set
    is kept a while: copies, notes and a preview ask for it again.
    """
    asked = shown or Shown()
    best: Label | None = None
    for code_share, tag_share in _ROOMS:
        made = _label(plant, (width_pt_, height_pt), asked, (code_share, tag_share))
        if _lacking(made) == (0, False):
            return made
        if best is None or _lacking(made) < _lacking(best):
            best = made
    assert best is not None  # noqa: S101 -- there is a room to try
    return best


def _lacking(made: Label) -> tuple[int, bool]:
    """Give how many notes there are, and whether the name is too small to read well."""
    return len(made.notes), made.name_pt < READABLE_PT


def _label(
    plant: TagFacts,
    size: tuple[float, float],
    asked: Shown,
    shares: tuple[float, float],
) -> Label:
    wide, high = size
    marks: list[Mark] = []
    notes: list[str] = []
    right = wide - PAD_PT
    if asked.code:
        side = min(high, wide * shares[0], _CODE_PT)
        made = code(plant.tag, side)
        if made is None:
            notes.append(
                tr("{tag}: the code has no room and was left out.").format(
                    tag=plant.tag
                )
            )
        else:
            right = wide - side
            marks.append(_at(made, right, (high - side) / 2))
    is_low = high < _LOW_PT and right > 3 * high
    setting = _beside if is_low else _under
    return _with(setting(plant, (right, high), asked, shares[1]), marks, notes)


def lines_of(plant: TagFacts, shown: Shown) -> tuple[Styled, ...]:
    """Give the small lines of a label in their order."""
    return tuple(_lines(plant, shown))


def day_line(plant: TagFacts) -> str:
    """Say when a plant was repotted, else when it came; empty where not known."""
    if plant.repotted_on is not None:
        return tr("repotted {short_day}").format(
            short_day=words.short_day(plant.repotted_on)
        )
    if plant.acquired_on is not None:
        return tr("here since {short_day}").format(
            short_day=words.short_day(plant.acquired_on)
        )
    return ""


def _lines(plant: TagFacts, shown: Shown) -> Iterator[Styled]:
    if plant.together:
        yield (Run(plant.together),)
    if shown.day and (day := day_line(plant)):
        yield (Run(day),)
    if shown.parentage and plant.parentage:
        yield names.runs_of(plant.parentage)
    if shown.source and plant.source:
        yield (Run(tr("from {source}").format(source=plant.source)),)
    if shown.where and plant.where:
        yield (Run(plant.where),)


def _under(
    plant: TagFacts, within: tuple[float, float], shown: Shown, tag_share: float
) -> Label:
    """Set the tag over the name over the small lines."""
    right, height = within
    room = right - PAD_PT
    deep = height - 2 * PAD_PT
    tag = _tag_face(plant.tag, room, deep * tag_share)
    marks, notes, used = _tagged(plant.tag, PAD_PT, PAD_PT * 0.7, room, tag)
    below = _named(plant, room, deep - used, shown)
    return _with(_moved(below, PAD_PT, PAD_PT * 0.7 + used), marks, notes)


def _beside(
    plant: TagFacts, within: tuple[float, float], shown: Shown, tag_share: float
) -> Label:
    """Set the tag on a low label to the left of the rest."""
    right, height = within
    deep = height - PAD_PT
    most = (right - PAD_PT) * tag_share * 0.75
    tag = _tag_face(plant.tag, most, deep)
    own = min(width_pt(plant.tag, tag), most)
    top = (height - line_pt(tag)) / 2
    marks, notes, _ = _tagged(plant.tag, PAD_PT, top, own + 0.5, tag)
    left = PAD_PT + own + PAD_PT
    rest = _named(plant, right - left, deep, shown)
    low = max((mark.y_pt for mark in rest.marks if isinstance(mark, Words)), default=0)
    return _with(_moved(rest, left, (height - low) / 2 - 1.5), marks, notes)


def _tag_face(tag: str, room: float, deep: float) -> Face:
    """Give the largest face in which a tag fits, else the smallest."""
    for size in _TAG_PT:
        face = Face(size, bold=True)
        if width_pt(tag, face) <= room and line_pt(face) <= deep:
            return face
    return Face(_TAG_PT[-1], bold=True)


def _tagged(
    tag: str, x: float, y: float, room: float, face: Face
) -> tuple[list[Mark], list[str], float]:
    """Give a tag's marks, what has to be said of it, and the height it takes."""
    (line,) = wrap_runs((Run(tag.replace(" ", "\u00a0")),), room, face) or [()]
    cut = elide_runs(line, room, face)
    notes = (
        []
        if cut == line
        else [tr("{tag}: the tag is longer than the label.").format(tag=tag)]
    )
    return list(stack_names((cut,), x, y, face)), notes, line_pt(face)


def _named(plant: TagFacts, room: float, deep: float, shown: Shown) -> Label:
    """Set the name and the small lines into a room; the name goes first."""
    small = _that_fit(lines_of(plant, shown), room)
    marks: list[Mark] = []
    notes: list[str] = []
    y = 0.0
    name_pt = READABLE_PT
    most_pt = _LINE_PT[0]
    if plant.name.strip():
        lines, face, whole = _over(plant, small, (room, deep))
        marks += stack_names(lines, 0, 0, face)
        y = len(lines) * line_pt(face)
        most_pt = name_pt = face.size_pt
        if not whole:
            notes.append(
                tr("{tag}: the name is longer than the label, and is cut.").format(
                    tag=plant.tag
                )
            )
    more, told = _small(plant.tag, small, (room, deep), y, most_pt)
    return Label((*marks, *more), (*notes, *told), name_pt)


def _over(
    plant: TagFacts, small: tuple[Styled, ...], within: tuple[float, float]
) -> tuple[tuple[Styled, ...], Face, bool]:
    """Set the name over its first small lines, these smaller if need be."""
    room, deep = within
    kept = min(len(small), 2 if plant.together else 1)
    made = name_face(plant.name, room, deep - kept * line_pt(Face(_LINE_PT[1])))
    if made[2] and made[1].size_pt >= READABLE_PT:
        return made
    return name_face(plant.name, room, deep - kept * line_pt(Face(_LINE_PT[-1])))


def name_face(
    name: str, room: float, deep: float
) -> tuple[tuple[Styled, ...], Face, bool]:
    """Give a name's lines, their face, and whether nothing had to be cut."""
    readable = (
        *((size, 1) for size in _ONE_LINE_PT),
        *((size, _FEW_LINES) for size in _FEW_LINES_PT),
        *((size, _ANY) for size in _WRAPPED_PT),
    )
    forms = (Form.TYPED, Form.SHORT)
    ways = (
        *((form, *way) for form in forms for way in readable),
        *((form, size, _ANY) for size in _SMALL_PT for form in forms),
    )
    for form, size, most in ways:
        face = Face(size)
        lines = wrap_runs(names.runs_of(name, form), room, face)
        has_room = len(lines) <= most and len(lines) * line_pt(face) <= deep
        if has_room and fits(lines, room, face):
            return tuple(lines), face, True
    return _cut(name, room, deep)


def _cut(name: str, room: float, deep: float) -> tuple[tuple[Styled, ...], Face, bool]:
    """Set as much of a name as goes into a room, in the smallest face."""
    lines = wrap_runs(names.runs_of(name, Form.SHORT), room, _SMALLEST)
    most = max(1, int(deep // line_pt(_SMALLEST)))
    kept = [*lines[: most - 1], joined(lines[most - 1 :])]
    cut = tuple(elide_runs(line, room, _SMALLEST) for line in kept if line)
    return cut, _SMALLEST, cut == tuple(lines)


def _that_fit(lines: tuple[Styled, ...], room: float) -> tuple[Styled, ...]:
    """Give the small lines, shortened where a date has no room for its word."""
    face = Face(_LINE_PT[-1])
    return tuple(
        line
        if fits((line,), room, face)
        else (
            Run(
                line[0].text.replace("repotted", "rep.").replace("here since", "since")
            ),
            *line[1:],
        )
        for line in lines
    )


def _small(
    tag: str,
    lines: tuple[Styled, ...],
    within: tuple[float, float],
    y: float,
    most_pt: float,
) -> tuple[list[Mark], list[str]]:
    """Set the small lines below a name, in the largest face that takes all of them."""
    room, deep = within
    marks: list[Mark] = []
    left_out = 0
    face = next(
        (
            Face(size)
            for size in _LINE_PT
            if size <= most_pt
            and y + len(lines) * line_pt(Face(size)) <= deep + 1
            and fits(lines, room, Face(size))
        ),
        Face(_LINE_PT[-1]),
    )
    for line in lines:
        if y + face.size_pt > deep + PAD_PT * 0.5:
            left_out += 1
            continue
        marks += stack_names((elide_runs(line, room, face),), 0, y, face)
        y += line_pt(face)
    cut = sum(not fits((line,), room, face) for line in lines)
    if not left_out and not cut:
        return marks, []
    said = []
    if left_out:
        said.append(
            trn(
                "{count} line has no room", "{count} lines have no room", left_out
            ).format(count=left_out)
        )
    if cut:
        said.append(
            trn("{count} line is cut", "{count} lines are cut", cut).format(count=cut)
        )
    return marks, [f"{tag}: {listed(said)}."]


def _at(made: Modules, x: float, y: float) -> Modules:
    return replace(made, x_pt=made.x_pt + x, y_pt=made.y_pt + y)


def _moved(made: Label, x: float, y: float) -> Label:
    moved = tuple(
        replace(mark, x_pt=mark.x_pt + x, y_pt=mark.y_pt + y)
        for mark in made.marks
        if isinstance(mark, Words)
    )
    return replace(made, marks=moved)


def _with(made: Label, marks: list[Mark], notes: list[str]) -> Label:
    return replace(made, marks=(*marks, *made.marks), notes=(*notes, *made.notes))
