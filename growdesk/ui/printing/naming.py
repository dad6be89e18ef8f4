"""Setting plants' names on paper: genus and epithets in italics, lines broken between.

A name that has no room is tried with its genus abbreviated; only then is it cut, with
an ellipsis. A doubtful name stays plain, as typed.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.name_runs import Form, Run
from growdesk.services import names
from growdesk.ui.printing.marks import Face, Words
from growdesk.ui.printing.setting import baseline_pt, elide, line_pt, width_pt

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence


Styled = tuple[Run, ...]
"""One line of a name: its stretches one after another."""
_SHAPES = (Form.TYPED, Form.SHORT)


def name_lines(
    name: str, room_pt: float, face: Face, most: int = 1, after: str = ""
) -> list[Styled]:
    """Break a name over so many lines at most: as typed, else short, else cut.

    ``after`` are plain words that follow it.
    """
    lines: list[Styled] = []
    for form in _SHAPES:
        runs = (*names.runs_of(name, form), Run(f" {after}"))
        lines = wrap_runs(runs, room_pt, face)
        if fits(lines, room_pt, face) and len(lines) <= most:
            return lines or [()]
    kept = [elide_runs(line, room_pt, face) for line in lines[: most - 1]]
    return [*kept, elide_runs(joined(lines[most - 1 :]), room_pt, face)]


def whole_line(name: str, room_pt: float, face: Face) -> Styled:
    """Give a name on one line, as typed or else short; nothing where it has no room."""
    for form in _SHAPES:
        line = joined([names.runs_of(name, form)])
        if styled_pt(line, face) <= room_pt:
            return line
    return ()


def wrap_runs(runs: Iterable[Run], room_pt: float, face: Face) -> list[Styled]:
    """Break a name between its words; a word too long for a line stays whole."""
    lines: list[list[Run]] = []
    used_em = 0.0
    room_em = room_pt / face.size_pt
    for word in _measured(tuple(runs), face.bold):
        longer_em = used_em + word.gap_em + word.wide_em
        if lines and longer_em <= room_em:
            lines[-1] += (word.gap, *word.runs)
            used_em = longer_em
        else:
            lines.append([*word.runs])
            used_em = word.wide_em
    return [_merged(line) for line in lines]


def fits(lines: Iterable[Sequence[Run]], room_pt: float, face: Face) -> bool:
    """Tell whether no line is wider than its room."""
    return all(styled_pt(line, face) <= room_pt for line in lines)


def styled_pt(line: Iterable[Run], face: Face) -> float:
    """Measure a line of a name."""
    return sum(width_pt(run.text, in_face(face, run)) for run in line)


def in_face(face: Face, run: Run) -> Face:
    """Give a face with the slant of a stretch."""
    return Face(face.size_pt, face.bold, run.italic)


def elide_runs(line: Sequence[Run], room_pt: float, face: Face) -> Styled:
    """Give a line, or as much of it as fits with an ellipsis."""
    if styled_pt(line, face) <= room_pt:
        return tuple(line)
    kept: list[Run] = []
    left = room_pt
    for number, run in enumerate(line):
        wide = width_pt(run.text, in_face(face, run))
        is_last = number == len(line) - 1
        if wide > left or (not is_last and left - wide < width_pt("…", face)):
            cut = elide(f"{run.text.rstrip()}……", max(left, 0.0), in_face(face, run))
            return (*kept, Run(cut.replace("……", "…"), run.italic))
        kept.append(run)
        left -= wide
    return tuple(kept)


def joined(lines: Iterable[Sequence[Run]]) -> Styled:
    """Give several lines as one."""
    made: list[Run] = []
    for line in lines:
        made += (_space(made, line), *line) if made and line else line
    return _merged(made)


def set_line(
    line: Iterable[Run], x_pt: float, baseline: float, face: Face
) -> Iterator[Words]:
    """Set one line of a name from its left edge on a baseline."""
    for run in line:
        slanted = in_face(face, run)
        yield Words(x_pt, baseline, run.text, slanted)
        x_pt += width_pt(run.text, slanted)


def stack_names(
    lines: Iterable[Sequence[Run]], x_pt: float, y_pt: float, face: Face
) -> tuple[Words, ...]:
    """Set the lines of a name one under another from a top edge."""
    first = y_pt + baseline_pt(face)
    return tuple(
        words
        for number, line in enumerate(lines)
        for words in set_line(line, x_pt, first + number * line_pt(face), face)
    )


class _Word(Struct, frozen=True):
    """A word of a name with the space before it, measured in sizes of its type."""

    runs: tuple[Run, ...]
    gap: Run
    wide_em: float
    gap_em: float


@lru_cache(8192)
def _measured(runs: tuple[Run, ...], bold: bool) -> tuple[_Word, ...]:  # noqa: FBT001 -- cached
    """Measure each word once, whatever size it is set in."""
    face = Face(1.0, bold)
    found: list[_Word] = []
    before: list[Run] = []
    for word in _words(runs):
        gap = _space(before, word)
        gap_em = width_pt(gap.text, in_face(face, gap))
        found.append(_Word(tuple(word), gap, styled_pt(word, face), gap_em))
        before = word
    return tuple(found)


def _words(runs: Iterable[Run]) -> Iterator[list[Run]]:
    """Give the words of a name, each of one stretch or of several without a space."""
    word: list[Run] = []
    for run in runs:
        for is_space, signs in groupby(run.text, key=str.isspace):
            if not is_space:
                word.append(Run("".join(signs), run.italic))
            elif word:
                yield word
                word = []
    if word:
        yield word


def _space(before: Sequence[Run], word: Sequence[Run]) -> Run:
    """Give the space before a word, which is italic only between italics."""
    return Run(" ", bool(before) and before[-1].italic and word[0].italic)


def _merged(line: Iterable[Run]) -> Styled:
    """Join neighbours of one slant, so that a search finds them as one."""
    return tuple(
        Run("".join(run.text for run in group), italic)
        for italic, group in groupby(line, key=lambda run: run.italic)
    )
