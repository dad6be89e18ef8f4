"""Small words that sentences of all sorts share."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from growdesk.domain.speech import Lines, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

_NUMBERS: Final = Lines(
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    context="number",
)


def listed(parts: Sequence[str]) -> str:
    """Join parts as they are said: "a, b and c"."""
    if len(parts) < 2:
        return "".join(parts)
    return tr("{list} and {parts}").format(list=", ".join(parts[:-1]), parts=parts[-1])


def one_of(parts: Sequence[str]) -> str:
    """Join parts of which one holds: "a, b or c"."""
    if len(parts) < 2:
        return "".join(parts)
    return tr("{list} or {last}").format(list=", ".join(parts[:-1]), last=parts[-1])


def inside(title: str) -> str:
    """Give a title as it stands inside a sentence: small, where nouns are so."""
    small = tr("small", "how a title begins inside a sentence: small, or as it is")
    return title.lower() if small == "small" else title


def number_word(count: int) -> str:
    """Give a number up to twelve as a word, a greater one in figures."""
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)
