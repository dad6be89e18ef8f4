"""The handbook's files: whole, in every language, leading where they say."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from growdesk.domain import cautions
from growdesk.domain.facts import House
from growdesk.domain.speech import Manner, speak
from growdesk.services import handbook
from growdesk.services.glossary import glossary_page
from growdesk.services.rule_views import rule_views
from growdesk.ui import actions
from tests.languages.handbook import FOLDER, pages, readable

if TYPE_CHECKING:
    from pathlib import Path

LANGUAGES = sorted(folder.name for folder in FOLDER.iterdir())
LINK = re.compile(r"\[(?P<text>[^\]]*)\]\((?P<to>[^)]+)\)")
ALL = [(language, page) for language in LANGUAGES for page in pages(language)]
COMMANDS = {command.key for command in actions.declared()}
RULES = {view.rule for view in rule_views(House())}


class OneFolder:
    """A catalogue that says one thing: the folder of the handbook."""

    def __init__(self, folder: str) -> None:
        self._folder = folder

    def gettext(self, message: str) -> str:
        return message

    def ngettext(self, one: str, many: str, count: int) -> str:
        return one if count == 1 else many

    def pgettext(self, context: str, message: str) -> str:
        return self._folder if "handbook" in context else message


def links(page: Path) -> list[tuple[str, str]]:
    text = page.read_text(encoding="utf-8")
    return [(found["text"], found["to"]) for found in LINK.finditer(text)]


def listed(language: str) -> list[str]:
    """Give the pages that the contents of a language name, in their order."""
    contents = FOLDER / language / handbook.CONTENTS
    return [to for _text, to in links(contents) if to.endswith(".md")]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_page_is_in_the_contents_once(language: str) -> None:
    files = {page.name for page in pages(language)} - {handbook.CONTENTS}
    assert sorted(listed(language)) == sorted(files)


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_page_is_missing_in_a_language(language: str) -> None:
    assert listed(language) == listed("en")


@pytest.mark.parametrize(("language", "page"), ALL, ids=lambda each: str(each)[-30:])
def test_every_link_leads_somewhere(language: str, page: Path) -> None:
    assert page.parent.name == language
    for text, to in links(page):
        assert text.strip(), f"{to} is read as nothing"
        scheme, _, name = to.partition(":")
        if scheme in {"command", "key"}:
            assert name in COMMANDS, to
        elif scheme == "rule":
            assert name in RULES, to
        else:
            assert not name, f"{to} leads out of the handbook"
            assert (page.parent / to).is_file(), to


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_command_is_named_somewhere(language: str) -> None:
    named = {to for page in pages(language) for _text, to in links(page)}
    assert {key for key in COMMANDS if f"command:{key}" not in named} == set()


@pytest.mark.parametrize("page", pages("en"), ids=lambda page: page.stem)
def test_the_files_have_the_words_of_the_menus(page: Path) -> None:
    """``python -m tests.languages.handbook`` writes them anew."""
    text = page.read_text(encoding="utf-8")
    assert readable(text) == text


@pytest.mark.parametrize(("language", "page"), ALL, ids=lambda each: str(each)[-30:])
def test_a_page_is_short_and_begins_with_its_title(language: str, page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    assert page.parent.name == language
    assert text.startswith("# ")
    assert text.count("\n# ") == 0
    words = handbook.LISTS.sub("", LINK.sub(r"\g<text>", text)).split()
    assert 15 <= len(words) <= 420
    assert not re.search(r"https?:|<img|!\[", text), "nothing is loaded from outside"


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_page_in_another_language_leads_to_the_same(language: str) -> None:
    for page in pages(language):
        there = [to.replace(f"{language}.csv", "en.csv") for _text, to in links(page)]
        here = [to for _text, to in links(FOLDER / "en" / page.name)]
        assert sorted(there) == sorted(here), page.name


def test_the_lists_are_made_of_what_the_program_has() -> None:
    shown = {page.key: page.text for page in handbook.handbook()}
    for line in (*cautions.FULL, *cautions.STOCKS):
        assert handbook.escaped(line) in shown["cautions"]
    assert all(f"**{entry.word}**" in shown["words"] for entry in glossary_page())
    assert all(f"(rule:{rule})" in shown["rules"] for rule in RULES)
    assert not any("<!--" in text for text in shown.values())


def test_the_numbers_it_tells_are_those_of_the_house() -> None:
    """A default that moves has to be told anew, in every language."""
    told = {page.key: page.text for page in handbook.handbook()}
    house = House()
    assert f"{house.full_strength_ppm_n:g} ppm N" in told["strength"]
    assert f"step of {house.strength_step_ppm_n:g} ppm N" in told["strength"]
    shares = house.feeder_light_share, house.feeder_heavy_share
    assert shares == (0.5, 1.25), "gets half of that, a heavy one a quarter more"
    assert (house.band_low, house.band_high) == (0.25, 0.10)
    assert house.performance_window_days == 7 * 5, "inside five weeks"
    assert house.look_limit_days == 7 * 3
    assert "holds for three weeks" in told["looks"]
    assert house.jugs == 3
    assert "own three jugs" in told["mixing"]
    assert house.cold_window_days == 7
    assert "A week of them" in told["places"]


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_language_has_its_own_pages_and_any_other_the_english_ones(
    language: str,
) -> None:
    english = handbook.handbook()
    try:
        speak(Manner(OneFolder(language)))
        own = handbook.handbook()
        speak(Manner(OneFolder("xx")))
        unknown = handbook.handbook()
    finally:
        speak()
    assert [page.key for page in own] == [page.key for page in english]
    title = (FOLDER / language / "looks.md").read_text(encoding="utf-8").split("\n")[0]
    assert next(page for page in own if page.key == "looks").text.startswith(title)
    assert unknown == english
