"""Cut a typed name into words, quoted words, brackets and hybrid signs, with places."""

from __future__ import annotations

import re
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

MOST_DEPTH = 8
_SINGLE_OPEN = "'\u2018\u201a\u201b\u2019`\u00b4\u2032"
_SINGLE_CLOSE = "'\u2019\u2018`\u00b4\u2032"
_DOUBLE_OPEN = '"\u201c\u201e\u00ab\u201d\u2033'
_DOUBLE_CLOSE = '"\u201d\u201c\u00bb\u2033'
_SIGNS = "\u00d7\u2715\u2a2f"
_AFTER_QUOTE = " ,;)]"
_GLUED_X = re.compile(r"x(?=[A-Z][a-z]{3})")
_BREAKS = re.compile(rf"[\s()\[\],;={_SIGNS}]")


class Mark(StrEnum):
    """What a token is."""

    WORD = "word"
    CLONE = "quoted"
    DOUBLE = "double-quoted"
    CROSS = "cross"
    OPEN = "("
    CLOSE = ")"
    FORMER = "[]"
    COMMA = ","
    EQUALS = "="


class Token(Struct, frozen=True):
    """A token with its place in the text; ``text`` is bare of quotes and brackets."""

    mark: Mark
    text: str
    start: int
    end: int
    spaced: bool = True
    closed: bool = True


def plain(text: str) -> str:
    """Give a typed text on one line, with single spaces."""
    return " ".join(text.split())


def cut(text: str) -> tuple[Token, ...]:
    """Give the tokens of a text that is on one line already."""
    tokens: list[Token] = []
    at = 0
    while at < len(text):
        if text[at].isspace():
            at += 1
            continue
        token = _token(text, at)
        tokens.append(token)
        at = max(token.end, at + 1)
    return tuple(_settled(tokens))


def _settled(tokens: list[Token]) -> list[Token]:
    """Let a capital X be a word where no name follows that it could cross with."""
    after_each = [*(token.mark for token in tokens[1:]), None]
    return [
        replace(token, mark=Mark.WORD) if _stands_alone(token, after) else token
        for token, after in zip(tokens, after_each, strict=False)
    ]


def _stands_alone(token: Token, after: Mark | None) -> bool:
    is_x = token.mark is Mark.CROSS and token.text == "X"
    return is_x and after not in (Mark.WORD, Mark.OPEN)


def depth_of(tokens: tuple[Token, ...]) -> int | None:
    """Give how deep the brackets lie, or ``None`` where they do not pair."""
    depth = deepest = 0
    for token in tokens:
        depth += (token.mark is Mark.OPEN) - (token.mark is Mark.CLOSE)
        deepest = max(deepest, depth)
        if depth < 0:
            return None
    return deepest if depth == 0 else None


def closing(tokens: tuple[Token, ...], at: int) -> int:
    """Give where the bracket that opens at ``at`` closes."""
    depth = 0
    for place in range(at, len(tokens)):
        mark = tokens[place].mark
        depth += (mark is Mark.OPEN) - (mark is Mark.CLOSE)
        if depth == 0:
            return place
    return len(tokens) - 1


def _token(text: str, at: int) -> Token:
    sign = text[at]
    spaced = at == 0 or text[at - 1].isspace()
    simple = {"(": Mark.OPEN, ")": Mark.CLOSE, ",": Mark.COMMA, ";": Mark.COMMA}
    simple |= {"=": Mark.EQUALS, **dict.fromkeys(_SIGNS, Mark.CROSS)}
    if sign in simple:
        return Token(simple[sign], sign, at, at + 1, spaced)
    if sign == "[":
        end = text.find("]", at)
        stop = len(text) if end < 0 else end
        return Token(
            Mark.FORMER, text[at + 1 : stop], at, stop + 1, spaced, closed=end >= 0
        )
    if _opens(text, at, _SINGLE_OPEN):
        return _quoted(text, at, Mark.CLONE, _SINGLE_CLOSE, spaced=spaced)
    if _opens(text, at, _DOUBLE_OPEN):
        return _quoted(text, at, Mark.DOUBLE, _DOUBLE_CLOSE, spaced=spaced)
    if spaced and _GLUED_X.match(text, at):
        return Token(Mark.CROSS, sign, at, at + 1, spaced)
    return _word(text, at, spaced=spaced)


def _word(text: str, at: int, *, spaced: bool) -> Token:
    found = _BREAKS.search(text, at + 1)
    end = found.start() if found else len(text)
    word = text[at:end]
    mark = Mark.CROSS if word in {"x", "X"} else Mark.WORD
    return Token(mark, word, at, end, spaced)


def _opens(text: str, at: int, signs: str) -> bool:
    if text[at] not in signs or at + 1 >= len(text) or text[at + 1].isspace():
        return False
    return at == 0 or text[at - 1] in " (,;=" or text[at - 1] in _SIGNS


def _quoted(text: str, at: int, mark: Mark, closers: str, *, spaced: bool) -> Token:
    """Take a quoted text to its last closing mark before anything else opens."""
    ends = _ends(text, at, closers)
    if not ends:
        return Token(mark, text[at + 1 :], at, len(text), spaced, closed=False)
    end = ends[0]
    for later in ends[1:]:
        if _any_opens(text, end + 1, later) or "(" in text[end:later]:
            break
        end = later
    return Token(mark, text[at + 1 : end], at, end + 1, spaced)


def _any_opens(text: str, start: int, stop: int) -> bool:
    return any(
        _opens(text, at, _SINGLE_OPEN + _DOUBLE_OPEN) for at in range(start, stop)
    )


def _ends(text: str, at: int, closers: str) -> list[int]:
    return [
        place
        for place in range(at + 1, len(text))
        if text[place] in closers
        and not text[place - 1].isspace()
        and (place + 1 == len(text) or text[place + 1] in _AFTER_QUOTE)
    ]
