"""The shipped glossary: complete, plain, and in the language spoken."""

from __future__ import annotations

from collections import Counter
from gettext import NullTranslations
from typing import TYPE_CHECKING

from typing_extensions import override

from growdesk.domain import speech, templates
from growdesk.services.glossary import glossary, glossary_page

if TYPE_CHECKING:
    import pytest

MOST_WORDS = 32
WANTED = (
    *("lead", "new growth", "back bulb", "keiki", "sheath", "pseudobulb", "velamen"),
    *("rest", "flush", "EC", "ppm N", "DLI", "season share", "band", "jug"),
    *("monopodial", "sympodial", "compot", "quarantine", "runoff", "hardness"),
    *("alkalinity", "RO", "active growth", "root tips", "spike"),
)


def test_every_word_of_the_trade_that_is_used_is_there() -> None:
    assert set(WANTED) <= {each.word for each in glossary().entries}


def test_each_word_and_form_is_there_once_and_told_in_one_or_two_sentences() -> None:
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


class Elsewhere(NullTranslations):
    """A language whose table is not shipped."""

    @override
    def pgettext(self, context: str, message: str) -> str:
        return "xx" if context.startswith("name of the glossary") else message


def test_a_language_without_a_table_has_the_words_in_english(
    request: pytest.FixtureRequest,
) -> None:
    request.addfinalizer(speech.speak)
    speech.speak(speech.Manner(Elsewhere()))
    assert glossary().entry("lead") is not None
