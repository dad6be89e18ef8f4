"""Texts in the language chosen, numbers in the manner of the place."""

from __future__ import annotations

import threading
from gettext import NullTranslations
from typing import TYPE_CHECKING

import pytest
from typing_extensions import override

from growdesk.domain.speech import (
    Lines,
    Manner,
    Phrases,
    fixed,
    mark,
    plain,
    speak,
    tr,
    trimmed,
    trn,
)

if TYPE_CHECKING:
    from collections.abc import Iterator


class Turned(NullTranslations):
    """Says each text backwards, so that what was said is told from what was not."""

    @override
    def gettext(self, message: str) -> str:
        return message[::-1]

    @override
    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return (msgid1 if n == 1 else msgid2)[::-1]

    @override
    def pgettext(self, context: str, message: str) -> str:
        return f"{context}: {message[::-1]}" if context == "pot" else message


@pytest.fixture
def turned() -> Iterator[None]:
    speak(Manner(Turned(), ","))
    yield
    speak()


def test_english_is_said_as_it_stands() -> None:
    assert tr("Feed.") == "Feed."
    assert [trn("{n} plant", "{n} plants", n) for n in (0, 1, 2)] == [
        "{n} plants",
        "{n} plant",
        "{n} plants",
    ]
    assert (fixed(1.5, 2), trimmed(1.50, 2), plain(0.25)) == ("1.50", "1.5", "0.25")


@pytest.mark.usefixtures("turned")
def test_a_catalogue_says_texts_tables_and_rows_when_they_are_taken() -> None:
    assert tr("abc") == "cba"
    assert tr("") == ""
    assert trn("one", "many", 1) == "eno"
    assert trn("one", "many", 1.5) == "ynam"
    assert mark("abc") == "abc"
    table = Phrases({1: "ab", 2: "cd"})
    assert (table[1], table.get(3), list(table.values())) == ("ba", None, ["ba", "dc"])
    row = Lines("ab", "cd")
    assert (row[1], row[:1], list(row), len(row)) == ("dc", ("ba",), ["ba", "dc"], 2)


@pytest.mark.usefixtures("turned")
def test_a_context_without_words_of_its_own_falls_back() -> None:
    assert tr("light", "pot") == "pot: thgil"
    assert tr("light", "lamp") == "thgil"
    assert Phrases({1: "ab"}, "pot")[1] == "pot: ba"


@pytest.mark.usefixtures("turned")
def test_numbers_have_the_sign_of_the_place() -> None:
    assert fixed(1234.5, 1) == "1234,5"
    assert trimmed(2.0, 1) == "2"
    assert plain(0.05) == "0,05"


@pytest.mark.usefixtures("turned")
def test_other_threads_speak_the_same() -> None:
    heard: list[str] = []
    thread = threading.Thread(target=lambda: heard.append(tr("abc")))
    thread.start()
    thread.join()
    assert heard == ["cba"]


class Wrong(NullTranslations):
    """Says texts with fields that nobody fills, or that are no template at all."""

    @override
    def gettext(self, message: str) -> str:
        return {
            "{name} is fed.": "{nome} wird gedüngt.",
            "{ppm:.0f} ppm": "{ppm:d} ppm",
            "At {place}.": "In {place.",
            "In {day}, {place}.": "Am {day}.",
            "It says {.": "Da steht {.",
        }[message]

    @override
    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return "{n} Pflanzen, {which}" if n == 2 else "{n} Pflanze"


def test_a_field_that_would_not_be_filled_has_the_english_said() -> None:
    speak(Manner(Wrong()))
    try:
        assert tr("{name} is fed.").format(name="Kat") == "Kat is fed."
        assert tr("{ppm:.0f} ppm").format(ppm=12.5) == "12 ppm"
        assert tr("At {place}.").format(place="home") == "At home."
        assert tr("In {day}, {place}.").format(day="1", place="x") == "Am 1."
        assert tr("It says {.") == "Da steht {."
        said = [trn("One plant", "{n} plants", n).format(n=n) for n in (1, 2)]
        assert said == ["1 Pflanze", "2 plants"]
    finally:
        speak()
