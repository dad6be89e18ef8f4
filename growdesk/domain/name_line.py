"""Lead through the words of one name from left to right, each to what reads it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import name_lexicon as lexicon
from growdesk.domain.genera import folded
from growdesk.domain.name_genus import read_genus
from growdesk.domain.name_reader import (
    Reading,
    Source,
    is_small,
    leave_over,
    read_award,
    read_clone,
    read_grex,
    read_known,
    read_small,
)
from growdesk.domain.name_tokens import Mark, Token, closing
from growdesk.domain.plant_name import Doubt, DoubtSort, Part, Piece, PlantName

if TYPE_CHECKING:
    from collections.abc import Sequence

Brackets = Callable[[Source, tuple[Token, ...], str], tuple[PlantName, bool]]
_LOUD = 4


def read_name(
    source: Source,
    tokens: tuple[Token, ...],
    context: str,
    brackets: Brackets,
    *,
    is_wanted: bool,
) -> Reading:
    """Read the tokens of one name; ``brackets`` reads what stands in brackets."""
    line = _Line(source, tokens, context, brackets, is_wanted=is_wanted)
    while line.at < len(tokens):
        line.step()
    line.finish()
    return line.reading


class _Line:
    """A name's tokens and how far they are read."""

    def __init__(
        self,
        source: Source,
        tokens: tuple[Token, ...],
        context: str,
        brackets: Brackets,
        *,
        is_wanted: bool,
    ) -> None:
        self.reading = Reading(source, context)
        self.tokens = tokens
        self.at = 0
        self._brackets = brackets
        self._wants_genus = is_wanted
        self._genus_tried = False
        self._noting = False
        self._note_begun = False

    @property
    def after(self) -> Sequence[Token]:
        return self.tokens[self.at + 1 :]

    def step(self) -> None:
        token = self.tokens[self.at]
        if token.mark is Mark.OPEN:
            self._read_brackets()
        elif token.mark is Mark.WORD:
            self._read_word(token)
        elif token.mark in (Mark.CLONE, Mark.DOUBLE):
            read_clone(self.reading, token)
        elif token.mark is Mark.CROSS:
            self._read_sign(token)
        elif token.mark is Mark.FORMER:
            self._read_former(token)
        elif token.mark is Mark.COMMA:
            self.reading.add(Part.MARK, token.text, glued=True)
            self._noting = True
            self._note_begun = False
        else:
            leave_over(self.reading, token)
        self.at += 1

    def finish(self) -> None:
        reading = self.reading
        if not reading.genus and not reading.genus_typed and self._wants_genus:
            self._doubt_genus()
        self._check_capitals()
        self._check_awards()

    # -- words ----------------------------------------------------------------------

    def _read_word(self, token: Token) -> None:
        if self._noting:
            self._read_note(token)
        elif self._is_no_id(token):
            self._read_no_id(token)
        elif self._read_question(token) or self._read_genus(token):
            return
        elif token.text in lexicon.RANKS and self._may_have_rank:
            self._read_rank(token)
        elif read_award(self.reading, token) or read_known(self.reading, token):
            return
        elif is_small(token.text):
            self.at += read_small(self.reading, token, self.after)
        else:
            self._read_capital(token)

    @property
    def _may_have_rank(self) -> bool:
        reading = self.reading
        return bool(reading.genus or reading.genus_typed or reading.species)

    def _read_note(self, token: Token) -> None:
        if read_award(self.reading, token):
            return
        self.reading.add(Part.NOTE, token.text)
        if self._note_begun:
            self.reading.notes[-1] += f" {token.text}"
        else:
            self.reading.notes.append(token.text)
        self._note_begun = True

    def _is_no_id(self, token: Token) -> bool:
        follows = self.after[0].text if self.after else ""
        return bool(
            token.text.casefold() == "no" and follows.casefold().rstrip(".") == "id"
        )

    def _read_no_id(self, token: Token) -> None:
        self.reading.no_id = True
        self.reading.add(Part.QUALIFIER, token.text)
        self.reading.add(Part.QUALIFIER, self.after[0].text)
        self.at += 1

    def _read_question(self, token: Token) -> bool:
        """Keep a question mark as the grower's own doubt."""
        if not token.text.endswith("?"):
            return False
        bare = token.text.rstrip("?")
        instead = (f"cf. {bare}",) if is_small(bare) else ()
        self.reading.doubt(DoubtSort.QUESTION, token, *instead)
        if bare:
            self._read_word(replace(token, text=bare))
        else:
            self.reading.add(Part.NOTE, token.text)
        return True

    def _read_genus(self, token: Token) -> bool:
        reading = self.reading
        says_itself = (
            lexicon.NO_ID.fullmatch(token.text)
            or token.text.casefold() in lexicon.QUALIFIERS
        )
        if self._genus_tried or says_itself:
            return False
        self._genus_tried = True
        return read_genus(reading, token, self.after, is_wanted=self._wants_genus)

    def _read_rank(self, token: Token) -> None:
        """Read a rank with its epithet, in small letters unless above the species."""
        reading = self.reading
        above = token.text in lexicon.ABOVE_SPECIES
        signed = bool(self.after) and self.after[0].mark is Mark.CROSS
        place = self.at + 1 + signed
        epithet = self.tokens[place] if place < len(self.tokens) else None
        if epithet is None or epithet.mark is not Mark.WORD:
            leave_over(reading, token)
            return
        if not above and not is_small(epithet.text):
            small = epithet.text.lower()
            instead = (small,) if is_small(small) else ()
            reading.doubt(DoubtSort.CAPITAL_EPITHET, epithet, *instead)
        reading.ranks.append((token.text, epithet.text))
        reading.add(Part.RANK, token.text)
        if signed:
            reading.add(Part.SIGN, "\u00d7")
        reading.add(Part.EPITHET, epithet.text, glued=signed)
        self.at = place

    def _read_capital(self, token: Token) -> None:
        reading = self.reading
        if reading.clone_seen:
            leave_over(reading, token)
        elif not reading.species:
            read_grex(reading, token)
        elif token.text.endswith(".") or token.text == "&":
            reading.add(Part.AUTHOR, token.text)
        else:
            self._read_unquoted(token)

    def _read_unquoted(self, token: Token) -> None:
        """Doubt words with capitals after a species: a clone without its quotes."""
        run = [token]
        for each in self.after:
            is_clone = each.mark is Mark.WORD and not is_small(each.text)
            if not is_clone or lexicon.AWARD.fullmatch(each.text):
                break
            run.append(each)
        whole = replace(token, end=run[-1].end)
        text = self.reading.source.text[whole.start : whole.end]
        self.reading.doubt(DoubtSort.UNQUOTED, whole, f"'{text}'")
        self.reading.notes.append(text)
        self.reading.add(Part.NOTE, text)
        self.at += len(run) - 1

    # -- what is no word ------------------------------------------------------------

    def _read_sign(self, token: Token) -> None:
        """Read a hybrid sign before a made genus or the epithet of a natural hybrid."""
        reading = self.reading
        follows = self.after[0] if self.after else None
        if follows is None or follows.mark is not Mark.WORD:
            reading.doubt(DoubtSort.HALF_CROSS, token)
            reading.add(Part.CROSS, "\u00d7")
            return
        reading.add(Part.SIGN, "\u00d7")
        if reading.genus and is_small(follows.text) and not reading.has_epithet:
            reading.is_natural_hybrid = True
            reading.species = follows.text
            reading.add(Part.SPECIES, follows.text, glued=True)
            self.at += 1
        elif not reading.pieces[:-1] and not is_small(follows.text):
            self.at += 1
            reading.is_nothogenus = True
            if not self._read_genus(follows):
                self._read_word(follows)
        else:
            reading.doubt(DoubtSort.HALF_CROSS, token)

    def _read_former(self, token: Token) -> None:
        """Read the genus in square brackets that a cross was registered under."""
        reading = self.reading
        if not token.closed:
            reading.doubt(DoubtSort.BRACKETS, token)
        reading.former = token.text.strip()
        genera = reading.source.genera
        genus = genera.named(reading.former) or genera.abbreviated(reading.former)
        if genus is None:
            reading.add(Part.FORMER, f"[{token.text}]")
            return
        reading.add(Part.MARK, "[")
        short = genera.short_of(genus.name)
        reading.pieces.append(
            Piece(Part.GENUS, reading.former, glued=True, full=genus.name, short=short)
        )
        reading.add(Part.MARK, "]", glued=True)

    def _read_brackets(self) -> None:
        reading = self.reading
        end = closing(self.tokens, self.at)
        inside = self.tokens[self.at : end + 1]
        name, is_name = self._brackets(
            reading.source, inside, reading.genus or reading.context
        )
        text = reading.source.text[inside[0].start : inside[-1].end]
        if name.pod is not None and reading.pod is None:
            reading.pod, reading.pollen = name.pod, name.pollen
            reading.genus = reading.genus or name.genus
        else:
            reading.notes.append(text)
        if is_name:
            reading.doubts.extend(name.doubts)
        reading.pieces.extend(name.pieces)
        self.at = end

    # -- the whole ------------------------------------------------------------------

    def _doubt_genus(self) -> None:
        reading = self.reading
        done = any(doubt.sort is DoubtSort.NO_GENUS for doubt in reading.doubts)
        if reading.no_id or reading.pod is not None:
            return
        if done:  # without a genus no other word has a sure place
            kept = (DoubtSort.NO_GENUS, DoubtSort.OPEN_QUOTE, DoubtSort.QUESTION)
            reading.doubts = [each for each in reading.doubts if each.sort in kept]
            return
        reading.doubts.append(Doubt(DoubtSort.NO_GENUS, reading.source.text))

    def _check_capitals(self) -> None:
        reading = self.reading
        for token in reading.grex:
            if token.text.isupper() and sum(map(str.isalpha, token.text)) > _LOUD:
                text = token.text
                reading.doubt(DoubtSort.CAPITALS, token, text.title(), text.lower())
        one = reading.grex[0] if len(reading.grex) == 1 else None
        if one is not None and not one.text.isupper():
            known = (
                folded(f"{reading.genus} {one.text}") in reading.source.genera.species
            )
            marked = any(piece.part is Part.GREX_WORD for piece in reading.pieces)
            if known and not marked:
                reading.doubt(DoubtSort.CAPITAL_SPECIES, one, one.text.lower())

    def _check_awards(self) -> None:
        """Doubt an award of a clone where no clone is named."""
        reading = self.reading
        needs = any(award.code in lexicon.OF_A_CLONE for award in reading.awards)
        unquoted = any(doubt.sort is DoubtSort.UNQUOTED for doubt in reading.doubts)
        if not needs or reading.clone_seen or unquoted:
            return
        if len(reading.grex) > 1:
            last = reading.grex[-1]
            instead = f"'{last.text}'"
            reading.doubt(DoubtSort.AWARD_WITHOUT_CLONE, last, instead)
        else:
            award = reading.awards[0]
            said = f"{award.code}/{award.society}" if award.society else award.code
            reading.doubts.append(Doubt(DoubtSort.AWARD_WITHOUT_CLONE, said))
