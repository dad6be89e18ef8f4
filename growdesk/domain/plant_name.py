"""What an orchid's name is made of, as data.

The order of a name is that of the RHS: genus, species or grex, 'Clone', awards, then
its parents in brackets, pod parent first.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from msgspec import Struct


class Part(StrEnum):
    """What a piece of a name is."""

    SIGN = "hybrid sign"
    GENUS = "genus"
    FORMER = "former genus"
    SPECIES = "species"
    RANK = "rank"
    EPITHET = "epithet"
    GREX = "grex"
    GREX_WORD = "grex word"
    CLONE = "clone"
    AWARD = "award"
    QUALIFIER = "qualifier"
    AUTHOR = "author"
    NOTE = "note"
    TRADE = "trade designation"
    MARK = "mark"
    CROSS = "cross"


ITALIC = frozenset((Part.GENUS, Part.SPECIES, Part.EPITHET))
"""The Latin parts; all else is roman (ICNCP, and Rec. 60 of the botanical code)."""


class DoubtSort(StrEnum):
    """Why a name, or a part of it, is doubtful."""

    NO_GENUS = "no-genus"
    UNSURE_GENUS = "unsure-genus"
    UNKNOWN_GENUS = "unknown-genus"
    MISSPELT = "misspelt"
    SMALL_GENUS = "small-genus"
    NO_STOP = "no-stop"
    CAPITALS = "capitals"
    CAPITAL_SPECIES = "capital-species"
    CAPITAL_EPITHET = "capital-epithet"
    SECOND_EPITHET = "second-epithet"
    UNQUOTED = "unquoted"
    DOUBLE_QUOTES = "double-quotes"
    OPEN_QUOTE = "open-quote"
    SMALL_CLONE = "small-clone"
    SECOND_CLONE = "second-clone"
    AWARD_WITHOUT_CLONE = "award-without-clone"
    AWARD_WITHOUT_SOCIETY = "award-without-society"
    BRACKETS = "brackets"
    SEVERAL_CROSSES = "several-crosses"
    HALF_CROSS = "half-cross"
    QUESTION = "question"
    LEFT_OVER = "left-over"
    TANGLED = "tangled"


GENTLE = frozenset((DoubtSort.UNKNOWN_GENUS, DoubtSort.NO_STOP, DoubtSort.SMALL_CLONE))
"""Doubts that leave no question how the name is built: it is still set as a name."""


class Doubt(Struct, frozen=True):
    """A doubt: why, what words it is about, and whole names that would settle it."""

    sort: DoubtSort
    about: str
    proposals: tuple[str, ...] = ()
    may_be: tuple[str, ...] = ()

    @property
    def is_gentle(self) -> bool:
        """Tell whether the name can still be set in italics and quotes."""
        return self.sort in GENTLE


class Award(Struct, frozen=True):
    """An award: the code as written, and the society that gave it."""

    code: str
    society: str = ""


class Piece(Struct, frozen=True):
    """A piece of a name in the order typed; ``glued`` pieces follow without a space.

    A genus has its ``full`` name and its ``short`` form with it.
    """

    part: Part
    text: str
    glued: bool = False
    full: str = ""
    short: str = ""


@dataclass(frozen=True, slots=True)
class PlantName:
    """A name read into its parts; what is not there is empty.

    ``genus`` is in full wherever it is known, also where it was abbreviated or, among
    parents, left out. ``ranks`` are pairs of rank and epithet. ``pod`` and ``pollen``
    are the parents. Two names are equal where their parts are, however typed.
    """

    as_typed: str = field(default="", compare=False)
    genus: str = ""
    genus_typed: str = field(default="", compare=False)
    is_nothogenus: bool = False
    former: str = ""
    species: str = ""
    is_natural_hybrid: bool = False
    ranks: tuple[tuple[str, str], ...] = ()
    grex: str = ""
    clone: str = ""
    awards: tuple[Award, ...] = ()
    qualifiers: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    trade: str = ""
    no_id: bool = False
    pod: PlantName | None = None
    pollen: PlantName | None = None
    doubts: tuple[Doubt, ...] = ()
    pieces: tuple[Piece, ...] = field(default=(), compare=False)

    @property
    def is_plain(self) -> bool:
        """Tell whether a doubt keeps the name as it was typed."""
        return any(not doubt.is_gentle for doubt in self.doubts)
