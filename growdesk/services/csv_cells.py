"""Cells of a CSV row as values: numbers, days, words, yes and no.

A cell that could be read in two ways is asked back. An empty cell is not recorded.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, TypeVar

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import read_day, read_word
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from datetime import date
    from enum import StrEnum

    Word = TypeVar("Word", bound=StrEnum)

_NUMBER = re.compile(r"[+-]?[0-9]*[.,]?[0-9]+(?:[eE][+-]?[0-9]{1,3})?")
_GROUP = re.compile(r"[+-]?[0-9]{1,3},[0-9]{3}")
_YES = {"true", "yes", "1", "x"}
_NO = {"false", "no", "0", ""}


def number(field: str, text: str) -> float | None:
    """Give a number; a comma is a decimal comma unless it could group thousands."""
    if not text:
        return None
    if not _NUMBER.fullmatch(text):
        hint = tr("Write a plain number without a unit.")
        raise InputError(field, text, tr("is not a number"), hint)
    if _GROUP.fullmatch(text):
        hint = tr("Write it with a point, or without the comma.")
        raise InputError(field, text, tr("could be read in two ways"), hint)
    return float(text.replace(",", "."))


def whole(field: str, text: str) -> int | None:
    """Give a whole number."""
    value = number(field, text)
    if value is None:
        return None
    if not value.is_integer():
        raise InputError(
            field, text, tr("is not a whole number"), tr("Leave the part off.")
        )
    return int(value)


def day(field: str, text: str) -> date | None:
    """Give a day written as 2026-03-28."""
    return read_day(field, text) if text else None


def flag(field: str, text: str) -> bool:
    """Give yes or no; an empty cell is no."""
    folded = text.casefold()
    if folded in _YES:
        return True
    if folded in _NO:
        return False
    raise InputError(
        field, text, tr("is neither yes nor no"), tr("Write true or false.")
    )


def word(field: str, text: str, words: type[Word]) -> Word | None:
    """Give a word of an enumeration."""
    return read_word(field, text.casefold(), words) if text else None
