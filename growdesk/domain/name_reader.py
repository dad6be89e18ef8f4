"""Read one name, without the cross it may stand in: genus, epithet, clone, awards.

Words are read from left to right. Whatever has no place is kept where it stood, and a
doubt says so; nothing typed is ever left out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct, field

from growdesk.domain import name_lexicon as lexicon
from growdesk.domain.name_tokens import Mark
from growdesk.domain.plant_name import (
    Award,
    Doubt,
    DoubtSort,
    Part,
    Piece,
    PlantName,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.genera import Genera
    from growdesk.domain.name_tokens import Token


class Source(Struct, frozen=True):
    """The whole line that a name stands in, and what genera there are."""

    text: str
    genera: Genera

    def with_words(self, start: int, end: int, words: str) -> str:
        """Give the whole line with other words from ``start`` to ``end``."""
        return self.text[:start] + words + self.text[end:]


class Reading(Struct):
    """A name while it is read."""

    source: Source
    context: str = ""
    genus: str = ""
    genus_typed: str = ""
    is_nothogenus: bool = False
    former: str = ""
    species: str = ""
    is_natural_hybrid: bool = False
    ranks: list[tuple[str, str]] = field(default_factory=list)
    grex: list[Token] = field(default_factory=list)
    clone: str = ""
    clone_seen: bool = False
    awards: list[Award] = field(default_factory=list)
    qualifiers: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    trade: str = ""
    no_id: bool = False
    pod: PlantName | None = None
    pollen: PlantName | None = None
    doubts: list[Doubt] = field(default_factory=list)
    pieces: list[Piece] = field(default_factory=list)

    def add(self, part: Part, text: str, *, glued: bool = False) -> None:
        """Keep a piece where it stands."""
        self.pieces.append(Piece(part, text, glued))

    def doubt(
        self,
        sort: DoubtSort,
        about: Token,
        *instead: str,
        may_be: tuple[str, ...] = (),
    ) -> None:
        """Doubt a token, and propose the whole line with other words for it."""
        proposals = tuple(
            self.source.with_words(about.start, about.end, words) for words in instead
        )
        said = self.source.text[about.start : about.end]
        others = tuple(line for line in proposals if line != self.source.text)
        self.doubts.append(Doubt(sort, said, others, may_be))

    @property
    def has_epithet(self) -> bool:
        """Tell whether a species, a grex or a trade designation has been read."""
        return bool(self.species or self.grex or self.trade)

    def name(self) -> PlantName:
        """Give what was read."""
        return PlantName(
            as_typed=self.source.text,
            genus=self.genus or self.context,
            genus_typed=self.genus_typed,
            is_nothogenus=self.is_nothogenus,
            former=self.former,
            species=self.species,
            is_natural_hybrid=self.is_natural_hybrid,
            ranks=tuple(self.ranks),
            grex=" ".join(token.text for token in self.grex),
            clone=self.clone,
            awards=tuple(self.awards),
            qualifiers=tuple(self.qualifiers),
            notes=tuple(self.notes),
            trade=self.trade,
            no_id=self.no_id,
            pod=self.pod,
            pollen=self.pollen,
            doubts=tuple(self.doubts),
            pieces=tuple(self.pieces),
        )


def is_small(text: str) -> bool:
    """Tell whether a word begins with a small letter; figures do not."""
    return text[:1].islower()


def read_clone(reading: Reading, token: Token) -> None:
    """Read a name in quotes."""
    text = token.text.strip()
    curled = f"\u2018{text}\u2019"
    if not token.closed:
        own = _before_awards(token.text)
        rest = token.text[len(own) :]
        reading.doubt(DoubtSort.OPEN_QUOTE, token, f"'{own}'{rest}")
    elif token.mark is Mark.DOUBLE:
        reading.doubt(DoubtSort.DOUBLE_QUOTES, token, f"'{text}'")
    elif reading.clone_seen:
        reading.doubt(DoubtSort.SECOND_CLONE, token)
    elif is_small(text):
        reading.doubt(DoubtSort.SMALL_CLONE, token, f"'{text[:1].upper()}{text[1:]}'")
    if not reading.clone_seen:
        reading.clone = text
    reading.clone_seen = True
    reading.add(Part.CLONE, curled)


def _before_awards(text: str) -> str:
    words = text.split(" ")
    while len(words) > 1 and lexicon.AWARD.fullmatch(words[-1].rstrip(",")):
        words.pop()
    return " ".join(words)


def read_award(reading: Reading, token: Token) -> bool:
    """Read an award, AM/AOS; one without its society is doubtful."""
    text = token.text
    if lexicon.AWARD.fullmatch(text):
        code, _, society = text.partition("/")
        reading.awards.append(Award(code, society))
    elif text in lexicon.AWARDS and (reading.clone_seen or reading.has_epithet):
        reading.awards.append(Award(text))
        reading.doubt(DoubtSort.AWARD_WITHOUT_SOCIETY, token)
    else:
        return False
    reading.add(Part.AWARD, text)
    return True


def read_known(reading: Reading, token: Token) -> bool:
    """Read a word that says of itself what it is: a qualifier, a note, gx."""
    text = token.text
    if lexicon.NO_ID.fullmatch(text):
        reading.no_id = True
        reading.add(Part.QUALIFIER, text)
    elif text in lexicon.GREX_WORDS:
        reading.add(Part.GREX_WORD, text)
    elif text in lexicon.QUALIFIERS or text.endswith(("-type", "-complex")):
        reading.qualifiers.append(text)
        reading.add(Part.QUALIFIER, text)
    elif _is_figure(text) or (_is_note(text) and _has_room(reading, text)):
        reading.notes.append(text)
        reading.add(Part.NOTE, text)
    else:
        return False
    return True


def _has_room(reading: Reading, text: str) -> bool:
    """Tell whether a word in capitals is none of a grex that is being read."""
    return is_small(text) or reading.clone_seen or not reading.grex


def _is_figure(text: str) -> bool:
    return bool(lexicon.PLOIDY.fullmatch(text) or lexicon.NUMBERED.fullmatch(text))


def _is_note(text: str) -> bool:
    bare = text.rstrip(".").casefold()
    return (text.islower() or text.isupper()) and bare in lexicon.NOTES


def read_grex(reading: Reading, token: Token) -> None:
    """Read a word of a grex, or of a trade designation."""
    text = token.text
    if lexicon.TRADE.search(text):
        words = [*(each.text for each in reading.grex), text]
        reading.trade = " ".join(words)
        reading.pieces = [
            Piece(Part.TRADE, piece.text, piece.glued)
            if piece.part is Part.GREX
            else piece
            for piece in reading.pieces
        ]
        reading.grex.clear()
        reading.add(Part.TRADE, text)
        return
    reading.grex.append(token)
    reading.add(Part.GREX, text)


def read_small(reading: Reading, token: Token, after: Sequence[Token]) -> int:
    """Read a word in small letters: a species, a small word of a grex, or a doubt.

    Gives how many of the words after it were read with it.
    """
    text = token.text
    if not reading.has_epithet and not reading.clone_seen:
        reading.species = text
        reading.add(Part.SPECIES, text)
    elif reading.grex and not reading.clone_seen:
        _read_small_in_grex(reading, token, after)
    elif reading.species and not reading.ranks and not reading.clone_seen:
        return _doubt_second_epithet(reading, token, after)
    else:
        leave_over(reading, token)
    return 0


def _read_small_in_grex(reading: Reading, token: Token, after: Sequence[Token]) -> None:
    nearest = after[0] if after else None
    goes_on = nearest is not None and nearest.mark is Mark.WORD
    if token.text in lexicon.SMALL and goes_on:
        read_grex(reading, token)
        return
    capital = _capitals(token.text)
    reading.doubt(DoubtSort.UNQUOTED, token, f"'{capital}'", capital)
    reading.add(Part.NOTE, token.text)


def _doubt_second_epithet(
    reading: Reading, token: Token, after: Sequence[Token]
) -> int:
    """Doubt the small words after a species, together: a form, a grex, or a clone."""
    run = [token, *_more_small(after)]
    text = reading.source.text
    said = text[token.start : run[-1].end]
    both = f"{reading.species} {said}"
    start = run[-1].end - len(both)
    instead = [f"{reading.species} var. {said}"] if len(run) == 1 else []
    instead += [_capitals(both), f"{reading.species} '{_capitals(said)}'"]
    stands_so = start >= 0 and text[start : run[-1].end] == both
    proposals = tuple(
        reading.source.with_words(start, run[-1].end, words)
        for words in (instead if stands_so else ())
    )
    reading.doubts.append(Doubt(DoubtSort.SECOND_EPITHET, said, proposals))
    reading.add(Part.NOTE, said)
    return len(run) - 1


def _more_small(after: Sequence[Token]) -> list[Token]:
    """Give the words in small letters that go on, up to one that says what it is."""
    run: list[Token] = []
    for each in after:
        known = (
            each.text in lexicon.RANKS
            or each.text in lexicon.QUALIFIERS
            or each.text in lexicon.GREX_WORDS
            or _is_figure(each.text)
            or _is_note(each.text)
            or each.text.endswith("?")
        )
        if each.mark is not Mark.WORD or not is_small(each.text) or known:
            break
        run.append(each)
    return run


def _capitals(words: str) -> str:
    return " ".join(f"{word[:1].upper()}{word[1:]}" for word in words.split())


def leave_over(reading: Reading, token: Token) -> None:
    """Keep a word that has no place in the name; behind a comma it would be a note."""
    before = reading.source.text[: token.start].rstrip()
    instead = f"{before}, {reading.source.text[token.start :]}"
    sure = bool(before) and before[-1] not in "(,;" and not reading.context
    sure = sure and token.mark is not Mark.EQUALS
    said = reading.source.text[token.start : token.end]
    proposals = (instead,) if sure else ()
    reading.doubts.append(Doubt(DoubtSort.LEFT_OVER, said, proposals))
    reading.notes.append(token.text)
    reading.add(Part.NOTE, token.text)
