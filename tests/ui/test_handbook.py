"""The handbook beside the window: read, found in, followed, asked for from a form."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QRect, Qt, QUrl
from PySide6.QtGui import QDesktopServices, QGuiApplication, QTextDocument
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QPushButton, QWidget

from growdesk.domain.speech import Manner, speak
from growdesk.services import catalogues
from growdesk.services.handbook import handbook
from growdesk.services.program import program
from growdesk.ui import actions, handbook_asking, handbook_text, sizes, theme
from growdesk.ui.dialogs import about, on_screen
from growdesk.ui.dialogs.handbook import HandbookDialog
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.plant import PlantDialog
from growdesk.ui.dialogs.rule import RulesDialog
from growdesk.ui.dialogs.shortcuts import ShortcutsDialog
from growdesk.ui.dialogs.tabbing import stops
from growdesk.ui.handbook_asking import FACES, PAGES
from tests.ui.driving import dialog_of, settle
from tests.ui.test_accessible_names import DIALOGS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.handbook import HandbookPage
    from growdesk.ui.window import Window

PAGES_EN = handbook()
KEYS = {page.key for page in PAGES_EN}
BARE = {
    "OnScreen",
    "Framed",
    "FormDialog",
    "RowsDialog",
    "ChartDialog",
    "EntryList",
    "QuestionDialog",
}
WITHOUT = {"HandbookDialog", "ToldDialog"}


@pytest.fixture
def dialog(qtbot: QtBot) -> HandbookDialog:
    made = HandbookDialog(PAGES_EN, "looks")
    qtbot.addWidget(made)
    made.show()
    return made


def opened(window: Window) -> HandbookDialog:
    found = window.handbook.dialog
    assert found is not None
    assert found.isVisible()
    return found


def text_of(dialog: HandbookDialog) -> str:
    return dialog.page.toPlainText()


def listed(dialog: HandbookDialog) -> list[str]:
    rows = (dialog.list.item(row) for row in range(dialog.list.count()))
    return [row.text() for row in rows if not row.isHidden()]


def kinds_below(kind: type[QDialog]) -> Iterator[type[QDialog]]:
    for each in kind.__subclasses__():
        yield each
        yield from kinds_below(each)


# -- what is read ---------------------------------------------------------------------


@pytest.mark.parametrize("page", PAGES_EN, ids=lambda page: page.key)
@pytest.mark.usefixtures("qapp")
def test_a_page_is_read_without_a_mark(page: HandbookPage) -> None:
    text = handbook_text.filled(page.text)
    document = QTextDocument()
    handbook_text.set_page(document, text)
    shown = document.toPlainText()
    assert shown.strip()
    assert not re.search(r"\]\(|command:|key:|\*\*|<!--|^#", shown, re.MULTILINE)


def test_keys_and_words_come_from_the_commands(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    page = "[old](command:look) by [old](key:look), [old](command:tick)"
    assert handbook_text.filled(page) == (
        "[Record a look](command:look) by **Ctrl+L**, *Done, or not done*"
    )
    other = actions.Command("look", "plant", "See the *&plant*…", ("Ctrl+F7",))
    monkeypatch.setattr(actions, "declared", lambda: (other,))
    assert handbook_text.filled("[](command:look) [](key:look)") == (
        r"[See the \*plant\*](command:look) **Ctrl+F7**"
    )


def test_the_words_of_the_menus_are_said_in_the_language() -> None:
    catalogue = catalogues.catalogue("de")
    assert catalogue is not None
    speak(Manner(catalogue, ","))
    try:
        said = catalogue.gettext("Record a &look…").replace("&", "").rstrip("…")
        assert said != "Record a look"
        shown = handbook_text.filled("[](command:look)")
    finally:
        speak()
    assert shown == f"[{said}](command:look)"


def test_a_page_of_the_handbook_changes_nothing_by_a_link() -> None:
    for command in actions.declared():
        if handbook_text.opens(command):
            assert command.key not in {"tick", "pass-by", "bin", "undo", "redo", "quit"}


def test_the_text_is_in_the_colours_and_the_size_in_force(
    dialog: HandbookDialog,
) -> None:
    def heading() -> str:
        block = dialog.page.document().begin()
        while block.blockFormat().headingLevel() != 2:
            block = block.next()
        return block.begin().fragment().charFormat().foreground().color().name()

    assert heading() == theme.LIGHT.accent
    theme.current().choose(theme.Mode.DARK)
    assert heading() == theme.DARK.accent
    assert dialog.shown == "looks"
    before = dialog.page.document().size().height()
    sizes.current().choose(200)
    settle_events()
    assert dialog.page.document().size().height() > 1.8 * before


def settle_events() -> None:
    for _ in range(3):
        QApplication.processEvents()


def test_nothing_is_loaded_from_anywhere(
    dialog: HandbookDialog, tmp_path: Path
) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("secret")
    image = QTextDocument.ResourceType.ImageResource
    assert (
        dialog.page.loadResource(image.value, QUrl.fromLocalFile(str(secret))) is None
    )
    shown, text = dialog.shown, text_of(dialog)
    for address in ("https://example.org/looks.md", f"file://{secret}", "x.html"):
        dialog.page.anchorClicked.emit(QUrl(address))
    assert (dialog.shown, text_of(dialog)) == (shown, text)


# -- going about ----------------------------------------------------------------------


def test_back_and_forward_go_where_one_was(dialog: HandbookDialog) -> None:
    assert not dialog.back.isEnabled()
    dialog.page.anchorClicked.emit(QUrl("strength.md"))
    dialog.go_to("mixing")
    assert dialog.list.currentItem().text() == "Mixing"
    QTest.keyClick(dialog, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    assert dialog.shown == "strength"
    dialog.back.click()
    assert (dialog.shown, dialog.back.isEnabled()) == ("looks", False)
    QTest.keyClick(dialog, Qt.Key.Key_Right, Qt.KeyboardModifier.AltModifier)
    assert dialog.shown == "strength"
    dialog.go_to("shelf")
    assert not dialog.forward.isEnabled()
    dialog.step(-1)
    assert dialog.shown == "strength"


def test_the_list_leads_by_keys_and_passes_headings_over(
    dialog: HandbookDialog,
) -> None:
    seen = [dialog.shown]
    for _ in range(6):
        QTest.keyClick(dialog.list, Qt.Key.Key_Down)
        seen.append(dialog.shown)
    assert seen == ["looks", "reasons", "strength", "mixing", "waters", "shelf", "week"]
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert dialog.isVisible()
    assert dialog.focusWidget() is dialog.page
    bar = dialog.page.verticalScrollBar()
    dialog.resize(700, 300)
    QTest.keyClick(dialog.page, Qt.Key.Key_PageDown)
    assert bar.value() > 0


def test_a_find_narrows_marks_and_goes_on_to_the_next_page(
    dialog: HandbookDialog,
) -> None:
    every = listed(dialog)
    QTest.keyClicks(dialog.find_line, "sphagnum")
    assert 0 < len(dialog.found()) < len(PAGES_EN)
    assert dialog.shown in dialog.found()
    assert "Words" in listed(dialog)
    marks = dialog.page.extraSelections()
    assert len(marks) == text_of(dialog).casefold().count("sphagnum") > 0
    came = []
    for _ in range(12):
        came.append(dialog.shown)
        QTest.keyClick(dialog.find_line, Qt.Key.Key_Return)
        assert dialog.page.textCursor().selectedText().casefold() == "sphagnum"
    assert set(came) == set(dialog.found())
    QTest.keyClicks(dialog.find_line, " tulip")
    assert listed(dialog) == []
    QTest.keyClick(dialog.find_line, Qt.Key.Key_Escape)
    assert listed(dialog) == every
    assert dialog.page.extraSelections() == []
    assert dialog.isVisible()


def test_a_key_is_found_too(dialog: HandbookDialog) -> None:
    dialog.find_line.setText("ctrl+shift+w")
    assert "waters" in dialog.found()


# -- beside the window ----------------------------------------------------------------


def test_it_stands_beside_the_window_and_blocks_nothing(
    qtbot: QtBot, window: Window
) -> None:
    window.commands["handbook"].trigger()
    dialog = opened(window)
    assert dialog.shown == PAGES_EN[0].key
    assert not dialog.isModal()
    assert dialog.parent() is None
    dialog.go_to("waters")
    dialog.reject()
    settle(qtbot, window)
    window.commands["handbook"].trigger()
    assert opened(window).shown == "waters", "the page last read"
    window.close()
    assert QApplication.activeModalWidget() is None
    settle_events()
    assert not any(
        isinstance(each, HandbookDialog) and each.isVisible()
        for each in QApplication.topLevelWidgets()
    )


@pytest.mark.parametrize(
    ("left", "wide", "edge", "at"),
    [
        (0, 900, "left", 900),
        (1000, 900, "right", 999),
        (200, 1500, "right", 1919),
        (0, 1920, "right", 1919),
    ],
)
def test_it_takes_the_side_that_has_room(
    left: int,
    wide: int,
    edge: str,
    at: int,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    free = QRect(0, 0, 1920, 1080)
    monkeypatch.setattr(on_screen.OnScreen, "free", lambda _self: free)
    window = QWidget()
    qtbot.addWidget(window)
    window.setGeometry(left, 100, wide, 700)
    made = HandbookDialog(PAGES_EN)
    qtbot.addWidget(made)
    made.show()
    made.resize(900, 680)
    made.stand_beside(window)
    assert getattr(made.frameGeometry(), edge)() == at


@pytest.mark.parametrize("face", list(FACES))
def test_a_face_opens_its_page(qtbot: QtBot, window: Window, face: str) -> None:
    window.commands[face].trigger()
    settle(qtbot, window)
    window.commands["handbook"].trigger()
    assert opened(window).shown == FACES[face]


def test_a_form_opens_its_page_and_stays_as_it_is(qtbot: QtBot, window: Window) -> None:
    settle(qtbot, window)
    window.commands["look"].trigger()
    settle(qtbot, window)
    form = dialog_of(window, LookDialog)
    QTest.keyClick(form.area, Qt.Key.Key_F1)
    assert opened(window).shown == "looks"
    assert form.isVisible()
    handle = opened(window).windowHandle()
    assert handle is not None
    opened(window).list.setFocus()
    QTest.keyClick(handle, Qt.Key.Key_Down)
    assert opened(window).shown == "reasons", "the form does not block it"
    opened(window).command_wanted.emit("tins")
    assert "A form is open" in opened(window)._message.text()
    form.reject()
    window.commands["add-plant"].trigger()
    settle(qtbot, window)
    plant = dialog_of(window, PlantDialog)
    QTest.keyClick(plant, Qt.Key.Key_F1)
    assert opened(window).shown == "plants"
    plant.reject()


def test_a_link_opens_a_rule_and_a_form(qtbot: QtBot, window: Window) -> None:
    settle(qtbot, window)
    window.commands["handbook"].trigger()
    dialog = opened(window)
    dialog.page.anchorClicked.emit(QUrl("command:shortcuts"))
    settle(qtbot, window)
    dialog_of(window, ShortcutsDialog).reject()
    dialog.page.anchorClicked.emit(QUrl("rule:strength"))
    settle(qtbot, window)
    rules = dialog_of(window, RulesDialog)
    assert rules.shown.rule == "strength"
    rules.reject()
    window.commands["cancel"].setEnabled(False)
    dialog.command_wanted.emit("cancel")
    assert dialog._message.text() == "There is nothing to open it for now."
    dialog.go_to("rules")
    assert dialog._message.text() == ""


def test_every_dialog_has_its_page_and_every_page_exists() -> None:
    names = {
        each.__name__
        for each in kinds_below(on_screen.OnScreen)
        if each.__module__.startswith("growdesk.")
    }
    ours = {name for name in names if not name.startswith("_")} - BARE - WITHOUT
    assert ours - set(PAGES) == set()
    assert set(PAGES.values()) <= KEYS
    assert set(FACES.values()) <= KEYS
    assert set(FACES) <= {command.key for command in actions.declared()}


@pytest.mark.parametrize("name", sorted(set(DIALOGS) - {"handbook"}))
def test_every_control_of_a_dialog_lets_the_key_through(
    name: str, qtbot: QtBot, tmp_path: Path
) -> None:
    host = QWidget()
    qtbot.addWidget(host)
    asking = handbook_asking.HandbookAsking(host)
    asked: list[str] = []
    asking.wanted.connect(asked.append)
    dialog = DIALOGS[name](tmp_path)
    dialog.setParent(host, dialog.windowFlags())
    dialog.show()
    reached = stops(dialog)
    assert reached
    for number, each in enumerate(reached, 1):
        QTest.keyClick(each, Qt.Key.Key_F1)
        assert len(asked) == number, each
    assert set(asked) <= {*KEYS, ""}
    dialog.hide()


def test_nobody_there_to_ask_is_no_slip(qtbot: QtBot) -> None:
    lone = on_screen.OnScreen()
    qtbot.addWidget(lone)
    assert not handbook_asking.ask(lone)


# -- about ----------------------------------------------------------------------------


def test_about_copies_versions_and_places_and_nothing_else(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    made = about.about(None, tmp_path / "orchids", tmp_path / "growdesk.log")
    qtbot.addWidget(made)
    copy = next(b for b in made.findChildren(QPushButton) if "Copy" in b.text())
    copy.click()
    text = QGuiApplication.clipboard().text()
    what = program()
    for part in (what.growdesk, what.python, what.sqlite, "LGPL-3.0", "~/orchids"):
        assert part in text
    assert str(tmp_path) not in text


def test_about_opens_the_folder_or_says_that_it_cannot(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def opens(url: QUrl) -> bool:
        asked.append(url.toLocalFile())
        return False

    monkeypatch.setattr(QDesktopServices, "openUrl", opens)
    made = about.about(None, tmp_path, None)
    qtbot.addWidget(made)
    buttons = made.findChildren(QPushButton)
    next(b for b in buttons if "folder" in b.text()).click()
    assert asked == [str(tmp_path)]
    said = [each.text() for each in made.findChildren(QLabel)]
    assert "No program of this machine shows folders." in said
