"""Every language says every text, with its fields and letters, in the room there is."""

from __future__ import annotations

import re
import string
from gettext import GNUTranslations
from io import BytesIO
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.speech import Manner, speak, tr, trn
from tests.languages import catalogue
from tests.languages.texts import Text, all_texts

if TYPE_CHECKING:
    from collections.abc import Iterator

LANGUAGES = sorted(path.name for path in catalogue.FOLDER.iterdir() if path.is_dir())
LABEL = 26
"""A text up to so many letters may stand on a button, in a head or before a field."""
ROOM = 1.5
ROOM_MORE = 7
"""Such a text may take half as much again, and a few letters for the shortest."""
NAMES = frozenset({"RO", "tap", "Tap", "compot"})
"""Names that stand in sentences too, and that a language may have no short one for."""


@pytest.fixture(scope="module", params=LANGUAGES)
def language(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture(scope="module")
def said(language: str) -> dict[Text, str | tuple[str, ...]]:
    return catalogue.said(language)


def pairs(said: dict[Text, str | tuple[str, ...]]) -> Iterator[tuple[str, str]]:
    """Give each English form with what is said for it."""
    for text, string_ in said.items():
        forms = (string_,) if isinstance(string_, str) else string_
        english = (text.one, text.many) if text.many else (text.one,)
        yield from zip(english, forms, strict=True)


def fields(text: str) -> set[str]:
    """Give the fields of a template; a text with single braces has none."""
    try:
        return {name for _, name, _, _ in string.Formatter().parse(text) if name}
    except ValueError:
        return set()


def test_german_is_among_the_languages() -> None:
    assert "de" in LANGUAGES


def test_fields_are_named_for_who_translates() -> None:
    """`{month_2}` or `{get}` tells a translator nothing."""
    wrong = {
        (text.one, name)
        for text in all_texts()
        for form in (text.one, text.many)
        for name in fields(form)
        if re.search(r"_\d$", name) or name in {"get", "none", "str", "len"}
    }
    assert wrong == set()


def test_nothing_is_missing(language: str) -> None:
    assert [text.one for text in catalogue.missing(language)] == []


def test_nothing_is_said_that_the_program_no_longer_says(
    said: dict[Text, str | tuple[str, ...]],
) -> None:
    now = all_texts()
    assert [text.one for text in said if text not in now] == []


def test_fields_are_those_of_the_english_text(
    said: dict[Text, str | tuple[str, ...]],
) -> None:
    assert [(e, s) for e, s in pairs(said) if fields(e) != fields(s)] == []


def test_a_letter_to_press_is_marked_where_english_marks_one(
    said: dict[Text, str | tuple[str, ...]],
) -> None:
    marked = re.compile(r"&\w")
    wrong = [
        (english, other)
        for english, other in pairs(said)
        if len(marked.findall(english)) != len(marked.findall(other))
    ]
    assert wrong == []


@pytest.mark.parametrize("sign", [":", "…"])
def test_texts_end_as_in_english(
    sign: str, said: dict[Text, str | tuple[str, ...]]
) -> None:
    wrong = [
        (english, other)
        for english, other in pairs(said)
        if english.endswith(sign) != other.endswith(sign)
    ]
    assert wrong == []


def test_lines_are_as_many_as_in_english(
    said: dict[Text, str | tuple[str, ...]],
) -> None:
    wrong = [(e, s) for e, s in pairs(said) if e.count("\n") != s.count("\n")]
    assert wrong == []


def test_no_label_is_overlong(said: dict[Text, str | tuple[str, ...]]) -> None:
    wrong = [
        (english, other)
        for english, other in pairs(said)
        if english not in NAMES
        and len(english) <= LABEL
        and len(other) > len(english) * ROOM + ROOM_MORE
    ]
    assert wrong == []


def test_the_compiled_catalogue_is_that_of_the_texts(language: str) -> None:
    again = f"python -m tests.languages.catalogue compile {language}"
    same = catalogue.mo_path(language).read_bytes() == catalogue.compiled(language)
    assert same, again


def test_the_decimal_sign_is_asked_for_and_german_has_a_comma() -> None:
    sign = Text(".", context="decimal sign")
    assert sign in all_texts()
    assert catalogue.said("de")[sign] == ","


def test_what_is_compiled_is_said(language: str) -> None:
    catalogue_ = GNUTranslations(BytesIO(catalogue.compiled(language)))
    speak(Manner(catalogue_))
    try:
        assert tr("Feed.") != "Feed."
        assert trn("{count} label", "{count} labels", 1) != "{count} label"
    finally:
        speak()
