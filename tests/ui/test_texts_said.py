"""Every text in sight is said through the catalogue.

A made-up language puts each text it says between brackets, so that letters outside of
them were never asked for. What stands there is either data of the collection or a text
that no translator can reach.
"""

from __future__ import annotations

import re
from gettext import NullTranslations
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QAbstractListModel, QModelIndex, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QGroupBox,
    QLabel,
    QLineEdit,
    QTabWidget,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.speech import Manner, speak
from growdesk.services.handbook import handbook
from growdesk.services.program import program
from tests.ui.driving import settle
from tests.ui.test_accessible_names import DIALOGS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtCore import QAbstractItemModel
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

OPEN, SHUT = "⟦", "⟧"
INNERMOST = re.compile(f"{OPEN}[^{OPEN}{SHUT}]*{SHUT}")
MARKUP = re.compile(r"<[^>]*>|&\w+;|&(?=\w)")
WORD = re.compile(r"[A-Za-zÀ-ÿ]{3,}")
FORMULA = re.compile(r"(?:[A-Z][a-z]?){2,}")
UNITS = frozenset({"ppm", "mol", "CaCO", "HCO", "PPFD", "meq", "mmol", "Clark", "gpg"})
KEYS = re.compile(r"\b(?:Ctrl|Alt|Shift|Esc|Enter|Ins|Del|Return|Space|Tab)(?:\+\w+)*")
QTS_OWN = frozenset(
    {
        "OK",
        "Cancel",
        "&Cancel",
        "Close",
        "&Close",
        "Save",
        "&Save",
        "Scroll Left",
        "Scroll Right",
    }
)
SHOWN_ROWS = 60


class Bracketed(NullTranslations):
    """Says each text between brackets."""

    @override
    def gettext(self, message: str) -> str:
        return f"{OPEN}{message}{SHUT}"

    @override
    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)

    @override
    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)


@pytest.fixture(autouse=True)
def bracketed() -> Iterator[None]:
    speak(Manner(Bracketed()))
    yield
    speak()


def unsaid(text: str, data: frozenset[str] = frozenset()) -> list[str]:
    """Give the words of a text that no catalogue was asked for."""
    rest = text
    while (shorter := INNERMOST.sub(" ", rest)) != rest:
        rest = shorter
    rest = rest.partition(OPEN)[0]  # what a narrow field cut off the end of
    words = WORD.findall(KEYS.sub(" ", MARKUP.sub(" ", rest)))
    known = UNITS | data
    return [w for w in words if w not in known and not FORMULA.fullmatch(w)]


def texts_of(root: QWidget) -> Iterator[tuple[str, str]]:
    """Give each text of a widget and of all in it, with whose it is."""
    for widget in (root, *root.findChildren(QWidget)):
        who = f"{type(widget).__name__} {widget.objectName()}".strip()
        yield who, widget.toolTip()
        yield who, widget.accessibleName()
        yield who, widget.accessibleDescription()
        yield who, widget.windowTitle()
        for text in _own(widget):
            yield who, text
    for action in root.findChildren(QAction):
        yield "action", action.text()
        yield "action", action.toolTip()


def _own(widget: QWidget) -> Iterator[str]:
    if isinstance(widget, (QLabel, QAbstractButton)):
        yield widget.text()
    elif isinstance(widget, QGroupBox):
        yield widget.title()
    elif isinstance(widget, QLineEdit):
        yield widget.placeholderText()
    elif isinstance(widget, QComboBox):
        yield from (widget.itemText(at) for at in range(widget.count()))
    elif isinstance(widget, QTabWidget):
        yield from (widget.tabText(at) for at in range(widget.count()))
    elif isinstance(widget, QAbstractItemView) and widget.model() is not None:
        yield from _cells(widget.model())


def _cells(model: QAbstractItemModel) -> Iterator[str]:
    is_list = isinstance(model, QAbstractListModel)
    columns = range(1 if is_list else model.columnCount(QModelIndex()))
    for column in columns:
        yield _shown(model.headerData(column, Qt.Orientation.Horizontal))
    for row in range(min(model.rowCount(), SHOWN_ROWS)):
        for column in columns:
            index = model.index(row, column)
            for role in (
                Qt.ItemDataRole.DisplayRole,
                Qt.ItemDataRole.ToolTipRole,
                Qt.ItemDataRole.AccessibleTextRole,
            ):
                yield _shown(index.data(role))


def _shown(value: object) -> str:
    return value if isinstance(value, str) else ""


def found(root: QWidget, data: frozenset[str]) -> str:
    """Give the texts in sight that were not said, each once, a line each."""
    told = {
        f"{who}: {text}"
        for who, text in texts_of(root)
        if text not in QTS_OWN and unsaid(text, data)
    }
    return "\n".join(sorted(told))


def test_words_outside_of_brackets_are_found() -> None:
    assert unsaid(f"{OPEN}Fed {OPEN}today{SHUT}{SHUT} A1") == []
    assert unsaid(f"{OPEN}Fed{SHUT} <b>today</b>") == ["today"]
    assert unsaid(f"&Fed {OPEN}today{SHUT}", frozenset({"Fed"})) == []


DATA = frozenset(
    WORD.findall(
        "growdesk Cattleya Laelia Oncidium Phalaenopsis Dendrobium intermedia "
        "sphacelatum anceps East window Sill Yard Warm Green Blue tin rain Soft soap "
        "kitchen scale barrel Salts Apache English Deutsch csv jpg Shelf waking lost "
        "Yours Look"
    )
)
"""Names of plants, places and goods of the collections that tests make."""
GIVEN = {
    "server": "bench.local orchids",
    "bin": "Plant",
    "history": "Feed given",
    "night": "day night",
    "take in": "plants csv Vanda acquired name tag",
    "walk": "Walk top PgDown PgUp",
    "walk-choice": "Walk the benches",
    "shelf": "Green tin runs short the round needs and hand Counted today before round "
    "week last eight weeks Lasts until about May days from now Epsom bottle Rain",
    "pages": "Pages",
    "shelf-entries": "with the kitchen scale",
    "bloom": "Filled from look",
    "measures": "teaspoon",
    "photo": "the file missing",
    "photos beside": "Left Right the file missing",
    "recipes": "Both",
    "logger": "Temp Time",
    "view name": "Keep this view",
}
"""Texts that a test hands to a form as they are to stand in it."""
OF_A_LANGUAGE = ("words",)
"""Forms that show a file of each language."""


def _libraries() -> str:
    """Give what About tells in the words of others: names, licences, the system."""
    what = program()
    told = (f"{each.name} {each.licence}" for each in what.libraries)
    return " ".join((what.system, "preferences window.ini growdesk.log backups", *told))


def _contents() -> str:
    """Give the titles of the handbook, which has files of its own in each language."""
    return " ".join(f"{page.part} {page.title}" for page in handbook())


OWN = {"about": _libraries, "handbook": _contents}
"""What stands in a dialog and is said elsewhere than in the catalogues."""


@pytest.mark.parametrize("name", list(DIALOGS))
def test_a_dialog_says_all_its_texts(name: str, qtbot: QtBot, tmp_path: Path) -> None:
    dialog = DIALOGS[name](tmp_path)
    qtbot.addWidget(dialog)
    if name in OF_A_LANGUAGE:
        assert unsaid(dialog.windowTitle()) == []
        return
    given = f"{tmp_path} {GIVEN.get(name, '')} {OWN.get(name, lambda: '')()}"
    assert found(dialog, DATA | frozenset(WORD.findall(given))) == ""


@pytest.mark.parametrize("face", ["day", "week", "calendar", "collection"])
def test_the_window_says_all_its_texts(face: str, window: Window, qtbot: QtBot) -> None:
    window.faces.turn(face)
    settle(qtbot, window)
    for number in range(window.detail.tabs.count()):
        window.detail.tabs.setCurrentIndex(number)
        settle(qtbot, window)
    folder = frozenset(WORD.findall(str(window.desk.collection.folder)))
    assert found(window, DATA | folder) == ""
