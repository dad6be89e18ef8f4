"""Read a plant's name, typed as one line in the usual way, into its parts.

Nothing typed is changed or left out: what is doubtful is kept and told as a doubt.
"""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import name_lexicon as lexicon
from growdesk.domain.name_genus import is_genus
from growdesk.domain.name_line import read_name
from growdesk.domain.name_reader import Source
from growdesk.domain.name_tokens import MOST_DEPTH, Mark, closing, cut, depth_of, plain
from growdesk.domain.plant_name import Doubt, DoubtSort, Part, Piece, PlantName

if TYPE_CHECKING:
    from growdesk.domain.genera import Genera
    from growdesk.domain.name_tokens import Token

    Tokens = tuple[Token, ...]

MOST_LETTERS = 400
_MOST_CROSSES = 6


def parse_name(text: str, genera: Genera) -> PlantName:
    """Give the parts of a name; never raises, whatever was typed."""
    line = plain(text)
    if not line:
        return PlantName()
    source = Source(line, genera)
    if len(line) > MOST_LETTERS:
        return PlantName(line, doubts=(Doubt(DoubtSort.TANGLED, line[:40]),))
    tokens = cut(line)
    depth = depth_of(tokens)
    crosses = sum(token.mark is Mark.CROSS for token in tokens)
    if depth is None:
        return _unpaired(source, tokens)
    if depth > MOST_DEPTH or crosses > _MOST_CROSSES:
        return PlantName(line, doubts=(Doubt(DoubtSort.TANGLED, line[:40]),))
    return dataclasses.replace(
        _segment(source, tokens, "", is_wanted=True), as_typed=line
    )


def _unpaired(source: Source, tokens: Tokens) -> PlantName:
    """Read what stands before brackets that do not pair, and doubt the rest."""
    marks = [token.mark for token in tokens]
    brackets = (Mark.OPEN, Mark.CLOSE)
    first = next(at for at, mark in enumerate(marks) if mark in brackets)
    missing = marks.count(Mark.OPEN) - marks.count(Mark.CLOSE)
    closed = source.text + ")" * missing
    paired = missing > 0 and depth_of(cut(closed)) is not None
    doubt = Doubt(
        DoubtSort.BRACKETS,
        source.text[tokens[first].start :],
        (closed,) if paired else (),
    )
    before = tokens[:first]
    if not before or _crosses(source, before):
        return PlantName(source.text, doubts=(doubt,))
    name = read_name(source, before, "", _brackets, is_wanted=True).name()
    return dataclasses.replace(name, doubts=(*name.doubts, doubt))


def _segment(
    source: Source, tokens: Tokens, context: str, *, is_wanted: bool
) -> PlantName:
    """Read a name, or two with a hybrid sign between them."""
    if tokens and tokens[0].mark is Mark.OPEN and closing(tokens, 0) == len(tokens) - 1:
        inner = _segment(source, tokens[1:-1], context, is_wanted=is_wanted)
        return dataclasses.replace(inner, pieces=_bracketed(inner.pieces))
    equal = [at for at, token in _level(tokens) if token.mark is Mark.EQUALS]
    if equal:
        return _equal(source, tokens, equal[0], context)
    crosses = _crosses(source, tokens)
    if crosses:
        return _cross(source, tokens, crosses, (context, is_wanted))
    return read_name(source, tokens, context, _brackets, is_wanted=is_wanted).name()


def _level(tokens: Tokens) -> list[tuple[int, Token]]:
    """Give the tokens that stand in no brackets, with their places."""
    found = []
    at = 0
    while at < len(tokens):
        if tokens[at].mark is Mark.OPEN:
            at = closing(tokens, at) + 1
            continue
        found.append((at, tokens[at]))
        at += 1
    return found


def _crosses(source: Source, tokens: Tokens) -> list[int]:
    """Give where hybrid signs stand between two names, and not before an epithet."""
    found: list[int] = []
    for at, token in _level(tokens):
        if token.mark is Mark.CROSS:
            start = found[-1] + 1 if found else 0
            if not _is_sign(source, tokens, at, start):
                found.append(at)
    return found


def _is_sign(source: Source, tokens: Tokens, at: int, start: int) -> bool:
    if at + 1 >= len(tokens) or tokens[at + 1].mark is not Mark.WORD:
        return False
    after = tokens[at + 1]
    if at == start:
        return after.text not in lexicon.OF_ITSELF
    if not after.text[:1].islower() or after.text in lexicon.OF_ITSELF:
        return False
    before = tokens[at - 1]
    glued = after.start == tokens[at].end and tokens[at].spaced
    alone = at - start == 1 and is_genus(source.genera, before.text)
    signed = at - start == 2 and tokens[start].mark is Mark.CROSS  # × Genus × epithet
    return glued or alone or signed or before.text in lexicon.RANKS


def _cross(
    source: Source, tokens: Tokens, crosses: list[int], around: tuple[str, bool]
) -> PlantName:
    """Read the pod parent, then the pollen parent in the light of it."""
    context, is_wanted = around
    at = crosses[-1]
    sign = tokens[at]
    left, right = tokens[:at], tokens[at + 1 :]
    if not left or not right:
        rest = _segment(source, left or right, context, is_wanted=is_wanted)
        half = Doubt(DoubtSort.HALF_CROSS, source.text[sign.start : sign.end])
        piece = Piece(Part.CROSS, "\u00d7")
        pieces = (*rest.pieces, piece) if left else (piece, *rest.pieces)
        return dataclasses.replace(rest, doubts=(*rest.doubts, half), pieces=pieces)
    pod = _segment(source, left, context, is_wanted=is_wanted)
    pollen = _segment(source, right, pod.genus or context, is_wanted=False)
    doubts = (*pod.doubts, *pollen.doubts)
    if len(crosses) > 1:
        doubts += (Doubt(DoubtSort.SEVERAL_CROSSES, _text(source, tokens)),)
    same = bool(pod.genus) and pod.genus == pollen.genus
    return PlantName(
        as_typed=source.text,
        genus=pod.genus if same else "",
        genus_typed=pod.genus_typed if same else "",
        is_nothogenus=same and pod.is_nothogenus,
        pod=pod,
        pollen=pollen,
        doubts=doubts,
        pieces=(*pod.pieces, Piece(Part.CROSS, "\u00d7"), *pollen.pieces),
    )


def _equal(source: Source, tokens: Tokens, at: int, context: str) -> PlantName:
    """Read a name and, after the equals sign, its parents."""
    left, right = tokens[:at], tokens[at + 1 :]
    name = _segment(source, left, context, is_wanted=True)
    other = _segment(source, right, name.genus or context, is_wanted=False)
    pieces = (*name.pieces, Piece(Part.MARK, "="), *other.pieces)
    both = dataclasses.replace(
        name, pieces=pieces, doubts=(*name.doubts, *other.doubts)
    )
    if not left or not right or (other.pod and name.pod):
        doubt = Doubt(DoubtSort.TANGLED, "=")
        return dataclasses.replace(both, doubts=(*both.doubts, doubt))
    if other.pod is None:
        return dataclasses.replace(both, notes=(*both.notes, _text(source, right)))
    return dataclasses.replace(both, pod=other.pod, pollen=other.pollen)


def _brackets(source: Source, tokens: Tokens, context: str) -> tuple[PlantName, bool]:
    """Read what stands in brackets; tell whether it is a name, not a bare note."""
    inner = tokens[1:-1]
    name = _segment(source, inner, context, is_wanted=False)
    is_name = bool(name.pod) or bool(name.genus_typed)
    pieces = (
        _bracketed(name.pieces)
        if is_name
        else (Piece(Part.NOTE, _text(source, tokens)),)
    )
    return dataclasses.replace(name, pieces=pieces), is_name


def _bracketed(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    first = tuple(replace(piece, glued=True) for piece in pieces[:1])
    opened = Piece(Part.MARK, "(")
    return (opened, *first, *pieces[1:], Piece(Part.MARK, ")", glued=True))


def _text(source: Source, tokens: Tokens) -> str:
    return source.text[tokens[0].start : tokens[-1].end] if tokens else ""
