"""The trade's words explain themselves: under the pointer, and by a command."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QToolTip

from growdesk.services.glossary import glossary
from growdesk.ui.dialogs.words import WordsDialog
from growdesk.ui.widgets.gloss import Glossed
from tests.ui.driving import settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window


def raw(line: Glossed) -> str:
    return QLabel.text(line)


def test_a_word_has_a_dotted_line_and_says_what_it_means(qtbot: QtBot) -> None:
    line = Glossed("Its lead stands still.")
    qtbot.addWidget(line)
    line.show()
    assert line.keys == ("lead",)
    assert 'href="lead"' in raw(line)
    assert "text-underline-style: dotted" in raw(line)
    assert line.text() == line.accessibleName() == "Its lead stands still."
    line.linkHovered.emit("lead")
    entry = glossary().entry("lead")
    assert entry is not None
    assert entry.text in QToolTip.text()
    line.linkHovered.emit("")


def test_what_a_grower_typed_is_never_markup(qtbot: QtBot) -> None:
    line = Glossed("<b>lead</b> & <img src=x>\nnext")
    qtbot.addWidget(line)
    assert "<b>" not in raw(line)
    assert "<img" not in raw(line)
    assert "&lt;b&gt;" in raw(line)
    assert "<br>next" in raw(line)


@pytest.mark.parametrize("told", [("lead",), ()])
def test_a_word_told_above_or_in_a_name_is_left_plain(
    told: tuple[str, ...], qtbot: QtBot
) -> None:
    name = "Cattleya 'Lead'"
    line = Glossed(f"{name} has a lead.", told, (name,))
    qtbot.addWidget(line)
    assert line.keys == (() if told else ("lead",))
    assert f"{name.replace(chr(39), '&#x27;')} has" in raw(line)


def test_the_pane_marks_each_word_once(qtbot: QtBot, window: Window) -> None:
    settle(qtbot, window)
    lines = window.detail.findChildren(Glossed)
    keys = [key for line in lines for key in line.keys]
    assert keys
    assert len(keys) == len(set(keys))
    assert set(window.detail.words) == set(keys)
    assert all(len(line.keys) <= 2 for line in lines)


def test_the_command_lists_the_words_shown_and_then_all(
    qtbot: QtBot, window: Window
) -> None:
    settle(qtbot, window)
    window.commands["explain-word"].trigger()
    dialog = window.findChild(WordsDialog)
    assert dialog is not None
    shown = window.detail.words
    rows = [dialog.list.item(row) for row in range(dialog.list.count())]
    keys = [row.data(Qt.ItemDataRole.UserRole) for row in rows]
    assert rows[0].text() == "In what is shown"
    assert set(shown) <= set(keys[1 : len(keys) - len(glossary().entries) - 1])
    first = glossary().entry(keys[1])
    assert first is not None
    assert dialog.word.text() == first.word
    assert dialog.meaning.text() == first.text
    dialog.reject()


def test_a_find_narrows_the_words_and_says_when_none_is_left(qtbot: QtBot) -> None:
    dialog = WordsDialog(None)
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.sought.setText("keik")
    assert [dialog.list.item(r).text() for r in range(dialog.list.count())] == ["keiki"]
    assert dialog.word.text() == "keiki"
    dialog.sought.setText("zebra")
    assert dialog.list.count() == 0
    assert dialog.meaning.text() == "No word of that spelling stands here."
    assert dialog.word.text() == ""


def test_a_word_followed_opens_at_it(qtbot: QtBot, window: Window) -> None:
    settle(qtbot, window)
    window.detail.word_wanted.emit("velamen")
    dialog = window.findChild(WordsDialog)
    assert dialog is not None
    assert dialog.word.text() == "velamen"
    dialog.reject()
