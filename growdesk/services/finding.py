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
    return "".join(sign for sign in parts if not unicodedata.combining(sign))


def joined(parts: Iterable[str]) -> str:
    """Give one text to find in; no word is found across two of the parts."""
    return "\n".join(folded(part) for part in parts if part)


class Finder:
    """Which of some texts hold every word typed; they are folded already.

    ``scanned`` is how many texts the last find looked at: those that the find before
    had left, where its words only grew.
    """

    def __init__(self, texts: Sequence[str]) -> None:
        self._texts = texts
        self._words: tuple[str, ...] = ()
        self._found: tuple[int, ...] = tuple(range(len(texts)))
        self.scanned = 0

    def find(self, typed: str) -> tuple[int, ...]:
        """Give the positions of the texts that hold all words, in their order."""
        words = tuple(folded(typed).split())
        if words == self._words:
            self.scanned = 0
            return self._found
        narrows = all(any(old in new for new in words) for old in self._words)
        among = self._found if narrows else range(len(self._texts))
        self.scanned = len(among) if words else 0
        self._words = words
        self._found = tuple(each for each in among if self._holds(each, words))
        return self._found

    def _holds(self, position: int, words: tuple[str, ...]) -> bool:
        text = self._texts[position]
        return all(word in text for word in words)
