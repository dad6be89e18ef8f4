"""In every language with a catalogue the letters of menus and forms are their own.

A letter that two entries share is reached by neither at once, and a translator does
not see it happen.
"""

from __future__ import annotations

import io
from functools import cache
from gettext import GNUTranslations
from typing import TYPE_CHECKING

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenu, QTabWidget

from growdesk.domain.speech import Manner, speak, tr
from growdesk.ui import actions
from tests.languages.catalogue import FOLDER, compiled
from tests.ui.driving import settle
from tests.ui.test_accessible_names import DIALOGS, mnemonics

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

LANGUAGES = sorted({path.parent.name for path in FOLDER.glob("*/*.po")})


@cache
def catalogue(language: str) -> GNUTranslations:
    """Give the texts of a language, compiled once for all tests."""
    return GNUTranslations(io.BytesIO(compiled(language)))


@pytest.fixture(params=LANGUAGES, autouse=True)
def spoken(request: pytest.FixtureRequest) -> Iterator[None]:
    speak(Manner(catalogue(request.param), ","))
    yield
    speak()


def letter(text: str) -> str:
    """Give the letter of a menu or an entry; nothing where it has none."""
    return text[text.index("&") + 1].casefold() if "&" in text else ""


def test_there_is_a_language_to_hold_this_for() -> None:
    assert "de" in LANGUAGES


def test_titles_of_menus_have_a_letter_each() -> None:
    letters = [letter(title) for title in actions.MENUS.values()]
    assert "" not in letters
    assert sorted(letters) == sorted(set(letters))


@pytest.mark.parametrize("menu", list(actions.MENUS))
def test_entries_of_a_menu_have_a_letter_each(menu: str) -> None:
    texts = [tr(each.text) for each in actions.declared() if each.menu == menu]
    letters = [letter(text) for text in texts]
    assert "" not in letters
    assert sorted(letters) == sorted(set(letters)), texts


def test_menus_are_said_and_keys_stay_the_same(window: Window) -> None:
    declared = {command.key: command for command in actions.declared()}
    seen = set()
    for bar_action in window.menuBar().actions():
        menu = bar_action.menu()
        assert isinstance(menu, QMenu)
        for action in menu.actions():
            if not action.isSeparator():
                command = declared[action.objectName()]
                assert action.text().startswith(tr(command.text))
                portable = QKeySequence.SequenceFormat.PortableText
                assert [each.toString(portable) for each in action.shortcuts()] == [
                    each.toString(portable) for each in actions.first_keys(command)
                ]
                seen.add(command.key)
    assert seen == set(declared)


@pytest.mark.parametrize("face", ["day", "week", "calendar", "collection"])
def test_alt_reaches_one_part_or_menu_each_in_the_window(
    face: str, window: Window, qtbot: QtBot
) -> None:
    menus = [letter(title) for title in actions.MENUS.values()]
    window.faces.turn(face)
    settle(qtbot, window)
    for number in range(window.mixing.tabs.count()):
        window.mixing.tabs.setCurrentIndex(number)
        found = menus + mnemonics(window)
        assert sorted(found) == sorted(set(found))


@pytest.mark.parametrize("name", list(DIALOGS))
def test_alt_reaches_one_control_each_in_a_dialog(
    name: str, qtbot: QtBot, tmp_path: Path
) -> None:
    dialog = DIALOGS[name](tmp_path)
    qtbot.addWidget(dialog)
    dialog.show()
    tabs = dialog.findChild(QTabWidget)
    for number in range(tabs.count() if isinstance(tabs, QTabWidget) else 1):
        if isinstance(tabs, QTabWidget):
            tabs.setCurrentIndex(number)
        found = mnemonics(dialog)
        assert sorted(found) == sorted(set(found))
