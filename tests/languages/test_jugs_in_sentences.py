"""A jug's letter is found in every language's sentences, for the week to change it."""

from __future__ import annotations

import io
import re
from gettext import GNUTranslations
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.speech import Manner, speak
from growdesk.services.sheet_jugs import named_in_sentence
from tests.languages.catalogue import FOLDER, compiled, said

if TYPE_CHECKING:
    from collections.abc import Iterator

LANGUAGES = sorted(path.name for path in FOLDER.iterdir() if path.is_dir())
NAMED = re.compile(r"\b[Jj]ug \{(name|letter|followed)\}")


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    yield
    speak()


def found(sentence: str) -> list[str]:
    return [each[1] for each in named_in_sentence().findall(sentence)]


def test_in_english_a_jug_is_found_at_the_begin_and_within() -> None:
    assert found("Jug C then gives less than jug AB, not jugs or a jug.") == ["C", "AB"]


@pytest.mark.parametrize("language", LANGUAGES)
def test_each_letter_named_in_english_is_found_in_the_language(language: str) -> None:
    catalogue = GNUTranslations(io.BytesIO(compiled(language)))
    speak(Manner(catalogue))
    told = 0
    for text, string in said(language).items():
        fields = NAMED.findall(text.one)
        if not fields or not isinstance(string, str) or not string:
            continue
        told += 1
        lettered = re.sub(r"\{(name|letter|followed)\}", "QX", string)
        assert found(lettered).count("QX") >= len(fields), string
    assert told > 3
