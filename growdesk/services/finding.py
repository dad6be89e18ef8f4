"""Find as one types: texts folded once, and every key one pass over what is left.

Accents, case and typographic signs do not count; all words that were typed must occur.
"""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

_PLAIN = str.maketrans(
    {
        "ø": "o",
        "đ": "d",
        "ð": "d",
        "ł": "l",
        "ı": "i",
        "æ": "ae",
        "œ": "oe",
        "þ": "th",
        "×": "x",
        "‘": "'",
        "’": "'",
        "“": '"',
        "”": '"',
        "–": "-",
        "—": "-",
        "\u00a0": " ",
    }
)
"""Letters that do not come apart into one of A to Z and an accent, and signs."""


def folded(text: str) -> str:
    """Give a text without case and accents."""
    if text.isascii():
        return text.casefold()
    parts = unicodedata.normalize("NFKD", text.casefold().translate(_PLAIN))
    for sign in filter(unicodedata.combining, set(parts)):
        parts = parts.replace(sign, "")
    return parts


def joined(parts: Iterable[str]) -> str:
    """Give one text to find in; no word is found across two of the parts."""
    return folded("\n".join(part for part in parts if part))


class Finder:
    """Which of some texts hold every word typed; they are folded already.

    ``ends`` go with the texts one by one, and are few that many share. ``scanned`` is
    how many texts the last find looked at: those that the find before had left, where
    its words only grew.
    """

    def __init__(self, texts: Sequence[str], ends: Sequence[str] = ()) -> None:
        self._texts = texts
        self._ends = ends
        self._all_ends = frozenset(ends)
        self._words: tuple[str, ...] = ()
        self._found = tuple(range(len(texts)))
        self.scanned = 0

    def find(self, typed: str) -> tuple[int, ...]:
        """Give the positions of the texts that hold all words, in their order."""
        return self.holding(tuple(folded(typed).split()))

    def holding(self, words: tuple[str, ...]) -> tuple[int, ...]:
        """Give the positions of the texts that hold words folded as the texts are."""
        if words == self._words:
            self.scanned = 0
            return self._found
        narrows = all(any(old in new for new in words) for old in self._words)
        known = self._words if narrows else ()
        left: Sequence[int] = self._found if narrows else range(len(self._texts))
        self.scanned = len(left) if words else 0
        for word in words:
            if word not in known:
                left = self._holding(word, left)
        self._words, self._found = words, tuple(left)
        return self._found

    def _holding(self, word: str, among: Sequence[int]) -> Sequence[int]:
        texts, ends = self._texts, self._ends
        by_end = {end for end in self._all_ends if word in end}
        if not by_end and len(among) == len(texts):
            return [at for at, text in enumerate(texts) if word in text]
        if not by_end:
            return [at for at in among if word in texts[at]]
        return [at for at in among if ends[at] in by_end or word in texts[at]]
