"""The trade's words in a text: found whole, the longest first, each once.

A glossary is a table of one language with every form a word takes there, so that a
language needs no rule of its own. No file is read here.
"""

from __future__ import annotations

import re
import unicodedata
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

MOST_IN_A_BLOCK = 2
_EVEN_CAPITALS = 3
"""A form of capitals up to this long, as EC or RO, is found in capitals alone."""


class Entry(Struct, frozen=True):
    """A word of the trade: its key, every form it takes, and what it means.

    One that everybody knows is not marked in texts, and stands in the list alone.
    """

    key: str
    word: str
    forms: tuple[str, ...]
    text: str
    is_marked: bool = True


class Found(Struct, frozen=True):
    """Where a word stands in a text: from ``start`` up to ``end``."""

    start: int
    end: int
    entry: Entry


class Glossary:
    """The words of one language."""

    def __init__(self, entries: Iterable[Entry]) -> None:
        self.entries = tuple(sorted(entries, key=lambda each: _letters(each.word)))
        self._by_key = {each.key: each for each in self.entries}
        self._by_form = {
            form.casefold(): each
            for each in self.entries
            for form in (each.word, *each.forms)
        }
        forms = {
            form
            for each in self.entries
            if each.is_marked
            for form in (each.word, *each.forms)
        }
        any_of = "|".join(map(_spelled, sorted(forms, key=len, reverse=True)))
        self._pattern = re.compile(rf"(?<![\w'’-])(?:{any_of or '(?!)'})(?![\w-])")

    def entry(self, key: str) -> Entry | None:
        """Give a word by its key."""
        return self._by_key.get(key)

    def found(
        self,
        text: str,
        told: Collection[str] = (),
        names: Collection[str] = (),
        most: int = MOST_IN_A_BLOCK,
    ) -> tuple[Found, ...]:
        """Find the words of a text, in its order, each once and ``most`` at most.

        ``told`` are keys that were explained above it; within ``names`` no word is
        looked for.
        """
        spans = [
            (at.start(), at.end())
            for name in names
            if name
            for at in re.finditer(re.escape(name), text)
        ]
        seen = set(told)
        hits: list[Found] = []
        for match in self._pattern.finditer(text):
            entry = self._by_form[" ".join(match[0].split()).casefold()]
            inside = any(a < match.end() and match.start() < b for a, b in spans)
            if inside or entry.key in seen or len(hits) == most:
                continue
            seen.add(entry.key)
            hits.append(Found(match.start(), match.end(), entry))
        return tuple(hits)

    def matching(self, wanted: str) -> tuple[Entry, ...]:
        """Give the words that a typed text is part of, by any of their forms."""
        part = wanted.strip().casefold()
        return tuple(
            each
            for each in self.entries
            if any(part in form.casefold() for form in (each.word, *each.forms))
        )


def read_entries(rows: Iterable[Mapping[str, str]]) -> tuple[Entry, ...]:
    """Read the rows of a table: key, word, its forms between strokes, text."""
    return tuple(
        Entry(
            row["key"],
            row["word"],
            tuple(form for form in row["forms"].split("|") if form),
            row["text"],
            row["marked"] == "yes",
        )
        for row in rows
    )


def _letters(word: str) -> str:
    """Give a word as it is ordered: small, and "ü" beside "u"."""
    parts = unicodedata.normalize("NFD", word.casefold())
    return "".join(part for part in parts if not unicodedata.combining(part))


def _spelled(form: str) -> str:
    """Give a form as a pattern: any space between its words, its first letter either.

    A short word of capitals is not found in small letters.
    """
    words = r"\s+".join(re.escape(part) for part in form.split())
    is_short = len(form) <= _EVEN_CAPITALS and form.isupper()
    return words if is_short or form[0].isupper() else f"(?i:{words})"
