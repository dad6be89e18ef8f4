"""The genera that growers write: names, abbreviations, what made genera are made of.

The tables are shipped files; this module turns their text into values. A single letter
that more than one genus goes by is never taken for one of them.
"""

from __future__ import annotations

import csv
import io
import unicodedata
from difflib import get_close_matches
from functools import lru_cache
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Iterator

_LIKENESS = 0.84
_NO_SPECIES = frozenset(
    ("dendrobium antelope", "paphiopedilum complex", "paphiopedilum pinocchio")
)
"""Names that lead to a kind in ``genera.csv`` and are a grex or words of the trade."""


@lru_cache(maxsize=4096)
def folded(text: str) -> str:
    """Give a text in one case, without accents and double spaces, to compare by."""
    if text.isascii():
        return " ".join(text.casefold().split())
    parts = unicodedata.normalize("NFKD", text)
    bare = "".join(part for part in parts if not unicodedata.combining(part))
    return " ".join(bare.casefold().split())


def key_of(word: str) -> str:
    """Give an abbreviation or a genus as it is looked up."""
    return folded(word).rstrip(".")


class Genus(Struct, frozen=True):
    """A genus or a made genus (nothogenus), by its name in full.

    ``parents`` are the genera that a made genus is made of; ``now`` is the genus that
    its plants are placed in today; ``source`` is where its abbreviations are from.
    """

    name: str
    short: tuple[str, ...] = ()
    source: str = ""
    parents: tuple[str, ...] = ()
    now: str = ""

    @property
    def is_made(self) -> bool:
        """Tell whether the genus is made of others."""
        return bool(self.parents)


class Genera(Struct, frozen=True):
    """All genera by folded name, abbreviations, and species that are known by name.

    ``unsure`` leads an abbreviation to the several genera that it may stand for.
    """

    by_name: dict[str, Genus]
    by_short: dict[str, str]
    unsure: dict[str, tuple[str, ...]]
    species: frozenset[str] = frozenset()

    def named(self, word: str) -> Genus | None:
        """Give the genus that is written in full."""
        return self.by_name.get(folded(word))

    def abbreviated(self, word: str) -> Genus | None:
        """Give the genus of an abbreviation that stands for one genus alone."""
        key = key_of(word)
        if key in self.unsure or key not in self.by_short:
            return None
        return self.by_name[self.by_short[key]]

    def may_be(self, word: str) -> tuple[str, ...]:
        """Give the genera that an unsure abbreviation may stand for."""
        return self.unsure.get(key_of(word), ())

    def near(self, word: str) -> str:
        """Give the genus that a slip of the pen was meant for, or nothing."""
        found = get_close_matches(folded(word), self.by_name, n=1, cutoff=_LIKENESS)
        return self.by_name[found[0]].name if found else ""

    def short_of(self, name: str) -> str:
        """Give the abbreviation to write, or the name where none is sure."""
        genus = self.named(name)
        for short in () if genus is None else genus.short:
            if key_of(short) not in self.unsure:
                return short
        return name


def parse_genera(names: str, made: str, unsure: str) -> Genera:
    """Give the genera from ``genera.csv``, ``genera_made.csv``, ``genera_unsure.csv``.

    A row that does not fit is an ``InputError`` that names it.
    """
    by_name: dict[str, Genus] = {}
    species: set[str] = set()
    for _number, row in _rows(names, "genera.csv", "name,abbreviations,kind,source"):
        name = row["name"]
        if " " in name and name[0].isupper():
            species.add(folded(name))
        elif name[0].isupper():
            short = _listed(row["abbreviations"])
            by_name[folded(name)] = Genus(name, short, row["source"])
    for number, row in _rows(made, "genera_made.csv", "name,parents,now,source"):
        genus = by_name.get(folded(row["name"]))
        if genus is None:
            place = _place("genera_made.csv", number)
            raise InputError(f"{place}, name", row["name"], tr("is not in genera.csv"))
        by_name[folded(row["name"])] = replace(
            genus, parents=_listed(row["parents"]), now=row["now"]
        )
    by_short = {
        key_of(short): key for key, genus in by_name.items() for short in genus.short
    }
    several = {
        key_of(row["abbreviation"]): _listed(row["genera"])
        for _number, row in _rows(
            unsure, "genera_unsure.csv", "abbreviation,genera,source"
        )
    }
    return Genera(by_name, by_short, several, frozenset(species) - _NO_SPECIES)


def _listed(text: str) -> tuple[str, ...]:
    return tuple(item.strip() for item in text.split(";") if item.strip())


def _rows(text: str, table: str, columns: str) -> Iterator[tuple[int, dict[str, str]]]:
    """Give each row with its number in the file; the last cell is its source."""
    reader = csv.reader(io.StringIO(text))
    header = next(reader, [])
    if ",".join(header) != columns:
        raise InputError(
            tr("{table}, header").format(table=table),
            ",".join(header),
            tr("does not fit"),
        )
    for number, cells in enumerate(filter(None, reader), start=2):
        if len(cells) != len(header) or not cells[-1].strip():
            place, told = _place(table, number), ", ".join(filter(None, cells))
            raise InputError(place, told, tr("is short"))
        yield number, dict(zip(header, cells, strict=True))


def _place(table: str, number: int) -> str:
    return tr("{table}, row {number}").format(table=table, number=number)
