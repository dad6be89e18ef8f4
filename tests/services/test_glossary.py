"""The shipped glossary: complete, plain, and in the language spoken."""

from __future__ import annotations

from collections import Counter
from gettext import NullTranslations

import pytest
from typing_extensions import override

from growdesk.domain import speech, templates
from growdesk.services.glossary import glossary, glossary_page

MOST_WORDS = 32
WANTED = (
    *("lead", "new growth", "back bulb", "keiki", "sheath", "pseudobulb", "velamen"),
    *("rest", "flush", "EC", "ppm N", "DLI", "season share", "band", "jug"),
    *("monopodial", "sympodial", "compot", "quarantine", "runoff", "hardness"),
    *("alkalinity", "RO", "active growth", "root tips", "spike"),
)


def test_every_word_of_the_trade_that_is_used_is_there() -> None:
    assert set(WANTED) <= {each.word for each in glossary().entries}


class Named(NullTranslations):
    """A language that only names its table."""

    def __init__(self, language: str) -> None:
        super().__init__()
        self.language = language

    @override
    def pgettext(self, context: str, message: str) -> str:
        is_name = context.startswith("name of the glossary")
        return self.language if is_name else message


@pytest.mark.parametrize("language", ["en", "de"])
def test_each_word_and_form_is_there_once_and_told_in_one_or_two_sentences(
    language: str, request: pytest.FixtureRequest
) -> None:
    request.addfinalizer(speech.speak)
    speech.speak(speech.Manner(Named(language)))
    entries = glossary().entries
    forms = Counter(f.casefold() for e in entries for f in (e.word, *e.forms))
    assert [form for form, times in forms.items() if times > 1] == []
    assert len({each.key for each in entries}) == len(entries)
    for each in entries:
        assert each.text.endswith("."), each.key
        assert 1 <= each.text.count(". ") + 1 <= 2, each.key
        assert len(each.text.split()) <= MOST_WORDS, each.key


def test_words_of_the_reasons_are_found_in_them() -> None:
    said = " ".join(templates.REASONS.values())
    found = {each.entry.word for each in glossary().found(said, most=99)}
    assert {"new growth", "root tips", "rest", "runoff", "spike", "flush"} <= found


def test_the_page_has_every_word_in_order() -> None:
    words = [each.word.casefold() for each in glossary_page()]
    assert words == sorted(words)
    assert len(words) == len(glossary().entries)


def test_german_explains_the_words_that_english_does(
    request: pytest.FixtureRequest,
) -> None:
    english = {each.key: each.is_marked for each in glossary().entries}
    request.addfinalizer(speech.speak)
    speech.speak(speech.Manner(Named("de")))
    assert {each.key: each.is_marked for each in glossary().entries} == english
    said = "Am 3. Mai streckten sich zwei Neutriebe. Vor der Trockenruhe durchspülen."
    found = [each.entry.key for each in glossary().found(said, most=9)]
    assert found == ["new-growth", "rest", "flush"]


def test_a_language_without_a_table_has_the_words_in_english(
    request: pytest.FixtureRequest,
) -> None:
    request.addfinalizer(speech.speak)
    speech.speak(speech.Manner(Named("xx")))
    assert glossary().entry("lead") is not None
