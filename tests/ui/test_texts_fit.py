"""On a small screen no button and no short text of a dialog is cut, in any language."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QRect
from PySide6.QtWidgets import QAbstractButton, QLabel, QPushButton, QTabWidget, QWidget

from growdesk.domain.speech import Manner, speak
from growdesk.ui.dialogs.on_screen import OnScreen
from tests.ui.test_accessible_names import DIALOGS
from tests.ui.test_letters_in_languages import LANGUAGES, catalogue

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

SMALL = QRect(0, 0, 1024, 700)


@pytest.fixture(params=LANGUAGES, autouse=True)
def spoken(request: pytest.FixtureRequest) -> Iterator[None]:
    speak(Manner(catalogue(request.param), ","))
    yield
    speak()


def cut(root: QWidget) -> list[str]:
    """Give the texts in sight that have less room than they ask for."""
    return [
        each.text()
        for each in root.findChildren(QWidget)
        if isinstance(each, (QAbstractButton, QLabel))
        and each.isVisible()
        and each.text()
        and not (isinstance(each, QLabel) and each.wordWrap())
        and each.width() < each.sizeHint().width()
    ]


@pytest.mark.parametrize("name", list(DIALOGS))
def test_no_text_of_a_dialog_is_cut(
    name: str, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(OnScreen, "free", lambda _self: SMALL)
    dialog = DIALOGS[name](tmp_path)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitUntil(dialog.isVisible)
    assert dialog.width() <= SMALL.width()
    tabs = dialog.findChild(QTabWidget)
    for number in range(tabs.count() if isinstance(tabs, QTabWidget) else 1):
        if isinstance(tabs, QTabWidget):
            tabs.setCurrentIndex(number)
        qtbot.wait(1)
        assert cut(dialog) == []


def test_a_button_too_narrow_for_its_text_is_found(qtbot: QtBot) -> None:
    root = QWidget()
    qtbot.addWidget(root)
    made = QPushButton("a text that asks for room", root)
    made.resize(20, 30)
    root.show()
    assert cut(root) == ["a text that asks for room"]
