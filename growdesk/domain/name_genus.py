"""Read the genus of a name: in full, abbreviated, made, or by what it stands among."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import name_lexicon as lexicon
from growdesk.domain.genera import key_of
from growdesk.domain.name_tokens import Mark
from growdesk.domain.plant_name import DoubtSort, Part, Piece

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.genera import Genera, Genus
    from growdesk.domain.name_reader import Reading
    from growdesk.domain.name_tokens import Token

_LEAST_FOR_A_SLIP = 5
_LEAST_MADE = 8


def is_genus(genera: Genera, text: str) -> bool:
    """Tell whether a word is a genus in full, or an abbreviation with its full stop."""
    if genera.named(text) is not None:
        return True
    return text.endswith(".") and bool(genera.abbreviated(text) or genera.may_be(text))


def read_genus(
    reading: Reading, token: Token, after: Sequence[Token], *, is_wanted: bool
) -> bool:
    """Read a word as the genus if it is one; a missing genus is doubted if wanted."""
    genera = reading.source.genera
    full = genera.named(token.text)
    if full is not None:
        if token.text != full.name:
            reading.doubt(DoubtSort.SMALL_GENUS, token, full.name, may_be=(full.name,))
        _take(reading, token, full.name, genera)
        return True
    return (
        _read_by_context(reading, token)
        or _read_unsure(reading, token)
        or _read_short(reading, token, after)
        or _read_unknown(reading, token, after, is_wanted=is_wanted)
    )


def _take(reading: Reading, token: Token, name: str, genera: Genera) -> None:
    genus = genera.named(name)
    reading.genus = name
    reading.genus_typed = token.text
    if genus is not None and genus.is_made:
        reading.is_nothogenus = True
    glued = bool(reading.pieces) and reading.pieces[-1].part is Part.SIGN
    short = genera.short_of(name) if name else ""
    reading.pieces.append(Piece(Part.GENUS, token.text, glued, name, short))


def _among(reading: Reading) -> tuple[str, ...]:
    """Give the genera that the names around lead to expect."""
    genus = reading.source.genera.named(reading.context)
    if genus is None:
        return (reading.context,) if reading.context else ()
    return genus.parents or (genus.name,)


def _read_by_context(reading: Reading, token: Token) -> bool:
    """Take a single letter for the one genus around that begins with it.

    A letter that is one genus's own abbreviation, as C. is, stands for another only
    where that one is written in full before.
    """
    if len(token.text) != 2 or not token.text.endswith("."):
        return False
    source = reading.source
    has_own = source.genera.abbreviated(token.text) is not None
    if has_own and reading.context not in source.text[: token.start]:
        return False
    found = [name for name in _among(reading) if name.startswith(token.text[0])]
    if len(found) != 1:
        return False
    _take(reading, token, found[0], reading.source.genera)
    return True


def _read_unsure(reading: Reading, token: Token) -> bool:
    may_be = reading.source.genera.may_be(token.text)
    if not may_be or not token.text.endswith("."):
        return False
    reading.doubt(DoubtSort.UNSURE_GENUS, token, *may_be, may_be=may_be)
    reading.genus_typed = token.text
    reading.pieces.append(Piece(Part.GENUS, token.text))
    return True


def _read_short(reading: Reading, token: Token, after: Sequence[Token]) -> bool:
    genera = reading.source.genera
    genus = genera.abbreviated(token.text)
    has_stop = token.text.endswith(".")
    if genus is None or not (has_stop or _goes_without_stop(reading, genus, after)):
        return False
    short = next(s for s in genus.short if key_of(s) == key_of(token.text))
    if token.text.rstrip(".") != short.rstrip("."):
        reading.doubt(DoubtSort.SMALL_GENUS, token, short, may_be=(short,))
    elif not has_stop:
        reading.doubt(DoubtSort.NO_STOP, token, short)
    _take(reading, token, genus.name, genera)
    return True


def _goes_without_stop(reading: Reading, genus: Genus, after: Sequence[Token]) -> bool:
    """Tell whether a bare abbreviation may be one: it may be a word of a grex too."""
    if reading.context and genus.name not in {reading.context, *_among(reading)}:
        return False
    follows = after[0] if after else None
    if min(len(short.rstrip(".")) for short in genus.short) > 1:
        return follows is not None
    is_word = follows is not None and follows.mark is Mark.WORD
    return is_word and follows is not None and follows.text[:1].islower()


def _read_unknown(
    reading: Reading, token: Token, after: Sequence[Token], *, is_wanted: bool
) -> bool:
    word = token.text
    near = reading.source.genera.near(word) if len(word) >= _LEAST_FOR_A_SLIP else ""
    has_epithet = bool(after) and _may_follow_genus(after[0])
    is_clear = has_epithet or (len(word) >= _LEAST_MADE and _has_clone_or_gx(after))
    if lexicon.LATIN_GENUS.fullmatch(word) and is_clear and not near:
        reading.doubt(DoubtSort.UNKNOWN_GENUS, token)
        _take(reading, token, word, reading.source.genera)
        return True
    if near and (is_wanted or has_epithet):
        reading.doubt(DoubtSort.MISSPELT, token, near, may_be=(near,))
        reading.genus_typed = word
        reading.pieces.append(Piece(Part.GENUS, word))
        return True
    if is_wanted:
        reading.doubt(DoubtSort.NO_GENUS, token)
    return False


def _may_follow_genus(token: Token) -> bool:
    text = token.text
    if token.mark is not Mark.WORD:
        return False
    return text in lexicon.QUALIFIERS or bool(lexicon.LATIN_EPITHET.fullmatch(text))


def _has_clone_or_gx(after: Sequence[Token]) -> bool:
    return any(
        token.mark is Mark.CLONE or token.text in lexicon.GREX_WORDS for token in after
    )
