"""Reads one JSON object field by field, and says plainly what is wrong with it.

Every reader of the facts file goes through ``Fields``, so that each slip is told the
same way: where it stands, the field, the value, the way out. It knows nothing of
plants or house rules, and ``None`` always comes back as *not recorded*.
"""

from __future__ import annotations

import difflib
import json
import math
import re
from datetime import date
from enum import StrEnum
from typing import TypeVar

from msgspec import Struct
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.speech import plain, tr

Word = TypeVar("Word", bound=StrEnum)

_HIDDEN = re.compile("[\x00-\x08\x0b-\x1f\ud800-\udfff]")
"""Control characters but newline and tab, and halves of a sign."""
_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
FIRST_YEAR, LAST_YEAR = 1900, 2200
"""The years that a day may be meant in, in a facts file and after ``--on`` alike."""
_SHOWN_CHARACTERS = 60
_TEXT_CHARACTERS = 10_000


class Shown(Struct, frozen=True):
    """A JSON value as a person would see it in the file, cut to a readable length."""

    value: object

    @override
    def __str__(self) -> str:
        if isinstance(self.value, dict):
            return tr("an object")
        if isinstance(self.value, list):
            return tr("a list")
        text = json.dumps(self.value, ensure_ascii=False, default=str)
        if len(text) <= _SHOWN_CHARACTERS:
            return text
        return f"{text[:_SHOWN_CHARACTERS]}…"


class Range(Struct, frozen=True):
    """The numbers that can be meant, both ends included unless ``above`` is set.

    ``above`` leaves the lower end out: a pot of 0 litres is no pot.
    """

    low: float
    high: float
    above: bool = False

    def holds(self, value: float) -> bool:
        """Tell whether a number can be meant."""
        low_holds = value > self.low if self.above else value >= self.low
        return low_holds and value <= self.high

    @override
    def __str__(self) -> str:
        if self.above:
            return tr("above {low} and at most {high}").format(
                low=plain(self.low), high=plain(self.high)
            )
        return tr("from {low} to {high}").format(
            low=plain(self.low), high=plain(self.high)
        )


def words_joined(words: list[str]) -> str:
    """Give words as a person lists them: one, two or three."""
    if len(words) < 2:
        return "".join(words)
    return tr("{list} or {words}").format(list=", ".join(words[:-1]), words=words[-1])


def read_day(field: str, value: object) -> date:
    """Give the day of an ISO text such as 2026-01-20, and nothing looser."""
    if not isinstance(value, str) or not _ISO_DAY.fullmatch(value):
        hint = tr("Write a day as year-month-day in quotes, for example 2026-01-20.")
        raise InputError(field, Shown(value), tr("is not a day"), hint)
    try:
        day = date.fromisoformat(value)
    except ValueError:
        hint = tr("Give a day of the calendar as year-month-day.")
        raise InputError(
            field, Shown(value), tr("is not a day that exists"), hint
        ) from None
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        hint = tr("Give a day between the years {first_year} and {last_year}.").format(
            first_year=FIRST_YEAR, last_year=LAST_YEAR
        )
        raise InputError(field, Shown(value), tr("cannot be meant"), hint)
    return day


def read_number(field: str, value: object, allowed: Range) -> float:
    """Give a finite number in its range; a boolean or a text is none."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        hint = tr("Write a plain number without quotes or a unit, or null.")
        raise InputError(field, Shown(value), tr("is not a number"), hint)
    if isinstance(value, float) and not math.isfinite(value):
        raise InputError(
            field,
            Shown(value),
            tr("is not a number"),
            tr("Give a number {allowed}.").format(allowed=allowed),
        )
    if not allowed.holds(value):
        raise InputError(
            field,
            Shown(value),
            tr("cannot be meant"),
            tr("Give a number {allowed}.").format(allowed=allowed),
        )
    return float(value)


def read_whole(field: str, value: object, allowed: Range) -> int:
    """Give a whole number in its range."""
    number = read_number(field, value, allowed)
    if not number.is_integer():
        hint = tr("Give a whole number {allowed}.").format(allowed=allowed)
        raise InputError(field, Shown(value), tr("is not a whole number"), hint)
    return int(number)


def read_flag(field: str, value: object) -> bool:
    """Give true or false; a number or a text is neither."""
    if not isinstance(value, bool):
        hint = tr("Write true or false without quotes.")
        raise InputError(field, Shown(value), tr("is neither true nor false"), hint)
    return value


def read_text(field: str, value: object, most: int = _TEXT_CHARACTERS) -> str:
    """Give a text without control characters, trimmed at both ends."""
    if not isinstance(value, str):
        raise InputError(
            field, Shown(value), tr("is not a text"), tr("Write it in quotes.")
        )
    if not value:
        return value
    if len(value) > most:
        hint = tr("Give at most {most} characters.").format(most=most)
        raise InputError(field, Shown(value), tr("is too long"), hint)
    if _HIDDEN.search(value):
        hint = tr("Take the invisible signs out.")
        raise InputError(field, Shown(value), tr("holds a control character"), hint)
    return value.strip()


def read_word(
    field: str, value: object, words: type[Word], *, needed: bool = False
) -> Word:
    """Give one of the words of an enumeration, spelled as it is there."""
    known = [word.value for word in words]
    if not isinstance(value, str) or value not in known:
        way_out = tr("Use {words_joined}").format(words_joined=words_joined(known))
        hint = (
            f"{way_out}."
            if needed
            else tr("{way_out}, or leave it out.").format(way_out=way_out)
        )
        raise InputError(field, Shown(value), tr("is not a word known here"), hint)
    return words(value)


def dated(owner: str, noun: str, place_in_list: int, value: object) -> str:
    """Give what a person calls an entry: by its day, else by its place in the list."""
    on = value.get("on") if isinstance(value, dict) else None
    if isinstance(on, str) and _ISO_DAY.fullmatch(on):
        return tr("{owner}, {noun} of {on}").format(owner=owner, noun=noun, on=on)
    return f"{owner}, {noun} {place_in_list}"


def _instead(name: str, known: tuple[str, ...]) -> str:
    close = difflib.get_close_matches(name, known, n=1)
    if close:
        return tr("Did you mean {close}?").format(close=close[0])
    return tr("Take it out, or use {words_joined}.").format(
        words_joined=words_joined(list(known))
    )


class Fields(Struct, frozen=True):
    """One JSON object: what it is, where it stands, and typed readers for its fields.

    ``where`` is what a person would call the spot ("plant A1, look of 2026-01-20").
    """

    where: str
    items: dict[str, object]

    @classmethod
    def of(cls, where: str, value: object, what: str, known: tuple[str, ...]) -> Fields:
        """Give the fields of a JSON object; refuse a field that is not known."""
        if not isinstance(value, dict):
            hint = tr("Write it in braces, as in the example of the README.")
            raise InputError(
                where, Shown(value), tr("is not {what}").format(what=what), hint
            )
        fields = cls(where, value)
        for name in value:
            if name not in known:
                problem = tr("is not a field of {what}").format(what=what)
                shown = name[:_SHOWN_CHARACTERS]
                raise InputError(where, shown, problem, _instead(name, known))
        return fields

    def at(self, name: str) -> str:
        """Give the name of a field with the spot it stands at."""
        return f"{self.where}, {name}" if self.where else name

    def given(self, name: str) -> bool:
        """Tell whether a field holds anything but null."""
        return self.items.get(name) is not None

    def require(self, name: str, hint: str) -> object:
        """Give a field that cannot be left out."""
        value = self.items.get(name)
        if value is None:
            raise InputError(self.at(name), Shown(None), tr("cannot be left out"), hint)
        return value

    def day(self, name: str) -> date | None:
        """Give a day, or None where nothing is recorded."""
        value = self.items.get(name)
        return None if value is None else read_day(self.at(name), value)

    def number(self, name: str, allowed: Range) -> float | None:
        """Give a number, or None where nothing is recorded."""
        value = self.items.get(name)
        return None if value is None else read_number(self.at(name), value, allowed)

    def whole(self, name: str, allowed: Range) -> int | None:
        """Give a whole number, or None where nothing is recorded."""
        value = self.items.get(name)
        return None if value is None else read_whole(self.at(name), value, allowed)

    def flag(self, name: str) -> bool:
        """Give true or false; nothing recorded is false."""
        value = self.items.get(name)
        return False if value is None else read_flag(self.at(name), value)

    def text(self, name: str, most: int = _TEXT_CHARACTERS) -> str:
        """Give a text; nothing recorded is an empty one."""
        value = self.items.get(name)
        return "" if value is None else read_text(self.at(name), value, most)

    def word(self, name: str, words: type[Word]) -> Word | None:
        """Give a word of an enumeration, or None where nothing is recorded."""
        value = self.items.get(name)
        return None if value is None else read_word(self.at(name), value, words)

    def words(self, name: str, words: type[Word]) -> frozenset[Word] | None:
        """Give a list's words, or None where nothing is recorded."""
        value = self.items.get(name)
        if value is None:
            return None
        entries = self.entries(name)
        return frozenset(read_word(self.at(name), entry, words) for entry in entries)

    def entries(self, name: str) -> list[object]:
        """Give a list; nothing recorded is an empty one."""
        value = self.items.get(name)
        if value is None:
            return []
        if not isinstance(value, list):
            hint = tr("Write it in square brackets, also where there is only one.")
            raise InputError(self.at(name), Shown(value), tr("is not a list"), hint)
        return value
