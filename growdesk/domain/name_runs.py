"""Set a name: genus, species and epithets in italics, all else roman."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.plant_name import ITALIC, Part

if TYPE_CHECKING:
    from growdesk.domain.plant_name import Piece, PlantName


class Form(StrEnum):
    """How the genus is written: as typed, abbreviated where it can be, or in full."""

    TYPED = "typed"
    SHORT = "short"
    FULL = "full"


class Run(Struct, frozen=True):
    """A stretch of text in one face."""

    text: str
    italic: bool = False


def runs(name: PlantName, form: Form = Form.TYPED) -> tuple[Run, ...]:
    """Give a name's runs; a doubtful name is one plain run, letter by letter as typed.

    A genus that stands alone is never abbreviated. The hybrid sign stands before its
    genus or epithet without a space, and roman.
    """
    if name.is_plain or not name.pieces:
        return (Run(name.as_typed),) if name.as_typed else ()
    if len(name.pieces) == 1 and form is Form.SHORT:
        form = Form.TYPED
    made: list[Run] = []
    for piece in name.pieces:
        italic = piece.part in ITALIC
        text = _text(piece, form)
        if made and not piece.glued:
            both = italic and made[-1].italic
            _join(made, Run(" ", both))
        _join(made, Run(text, italic))
    return tuple(made)


def shown(name: PlantName, form: Form = Form.TYPED) -> str:
    """Give a name as shown, without its faces."""
    return "".join(run.text for run in runs(name, form))


def _text(piece: Piece, form: Form) -> str:
    if piece.part is Part.GENUS and piece.full:
        return {Form.SHORT: piece.short, Form.FULL: piece.full}.get(form, piece.text)
    return piece.text


def _join(made: list[Run], run: Run) -> None:
    if made and made[-1].italic is run.italic:
        made[-1] = Run(made[-1].text + run.text, run.italic)
    else:
        made.append(run)
