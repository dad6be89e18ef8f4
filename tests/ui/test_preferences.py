"""Preferences take effect as they are chosen; the window is built anew where needed."""

from __future__ import annotations

import os
import stat
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QLocale, QSettings
from PySide6.QtGui import QPageSize

from growdesk.domain.speech import manner, speak
from growdesk.ui import eye_forms, preferences, theme
from growdesk.ui.backup_place_forms import ALSO_IN
from growdesk.ui.dialogs.preferences import PreferencesDialog
from growdesk.ui.drafts import Drafts
from growdesk.ui.preferences import COMMA, CUSTOMARY, keep_regional, kept_regional
from growdesk.ui.printing import printer
from growdesk.ui.standing import Standing
from growdesk.ui.widgets.form import choose
from growdesk.ui.window import Window
from tests.ui.driving import dialog_of, settle

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PySide6.QtWidgets import QApplication
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection

MOST = 12


@pytest.fixture
def standing(
    qapp: QApplication, qtbot: QtBot, stocked: Collection
) -> Iterator[Standing]:
    before = QLocale()
    made = Standing(qapp, Window)
    settle(qtbot, made.show(stocked))
    yield made
    if made.window is not None:
        for dialog in made.window.findChildren(PreferencesDialog):
            dialog.reject()
        made.window.close()
    speak()
    QLocale.setDefault(before)


def now(standing: Standing) -> Window:
    assert standing.window is not None
    return standing.window


def test_a_choice_builds_the_window_anew_where_it_was(
    standing: Standing, qtbot: QtBot
) -> None:
    old = now(standing)
    folder = old.desk.collection.folder
    old.day_list.go_to(plant_id := old.day_list.model.lines[1].plant_id)
    settle(qtbot, old)
    old.faces.go("week")
    settle(qtbot, old)
    dialog = old.preferences.open()
    choose(dialog.combos["decimal"], COMMA)
    qtbot.waitUntil(lambda: standing.window is not old)
    new = now(standing)
    settle(qtbot, new)
    assert manner().decimal == ","
    assert kept_regional().decimal == COMMA
    assert (new.faces.shown, new.faces.chosen) == ("week", plant_id)
    assert new.desk.collection.folder == folder
    assert new.desk.collection.day.view().lines
    open_again = dialog_of(new, PreferencesDialog)
    assert open_again.combos["decimal"].currentData() == COMMA
    choose(open_again.combos["units"], CUSTOMARY)
    qtbot.waitUntil(lambda: standing.window is not new)
    assert manner().customary
    assert "°F" in dialog_of(now(standing), PreferencesDialog).example.text()


def test_a_form_left_unsaved_is_told_and_the_choice_put_back(
    standing: Standing, qtbot: QtBot
) -> None:
    window = now(standing)
    Drafts.of(window).keep(("look", 1), "Look at A1", {"note": "new root"})
    dialog = window.preferences.open()
    choose(dialog.combos["units"], CUSTOMARY)
    qtbot.wait(10)
    assert standing.window is window
    assert not manner().customary
    assert kept_regional().units == "system"
    assert dialog.combos["units"].currentData() == "system"
    assert "Look at A1" in dialog.refusal.text()
    choose(dialog.combos["paper"], "letter")
    assert kept_regional().paper == "letter"
    assert dialog.refusal.isHidden()
    Drafts.of(window).let_go(("look", 1))


def test_a_choice_that_cannot_be_kept_is_told_and_put_back(
    standing: Standing, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = now(standing)
    dialog = window.preferences.open()
    form = QSettings.Format.IniFormat

    a_folder = partial(QSettings, str(tmp_path), form)
    monkeypatch.setattr(preferences, "preferences", a_folder)
    choose(dialog.combos["decimal"], COMMA)
    assert dialog.combos["decimal"].currentData() == "system"
    assert str(tmp_path) in dialog.refusal.text()
    assert standing.window is window
    assert manner().decimal == "."


def test_light_and_paper_need_no_new_window(standing: Standing) -> None:
    window = now(standing)
    dialog = window.preferences.open()
    choose(dialog.combos["light"], "dark")
    assert theme.current().is_dark
    assert window.commands["light-dark"].isChecked()
    choose(dialog.combos["paper"], "letter")
    assert standing.window is window
    assert dialog.isVisible()


@pytest.mark.parametrize(
    ("name", "size"),
    [("letter", QPageSize.PageSizeId.Letter), ("a4", QPageSize.PageSizeId.A4)],
)
def test_a_paper_that_was_chosen_is_printed_on_whatever_the_printer_holds(
    name: str, size: QPageSize.PageSizeId, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Held:
        """A printer there is."""

        @staticmethod
        def defaultPrinter() -> Held:  # noqa: N802 -- Qt's own
            return Held()

        @staticmethod
        def isNull() -> bool:  # noqa: N802 -- Qt's own
            return False

    monkeypatch.setattr(printer, "QPrinterInfo", Held)
    keep_regional("paper", name)
    assert printer.upright_printer("Sheet").pageLayout().pageSize().id() == size


def test_they_are_few_and_each_says_what_the_machine_gives(
    standing: Standing,
) -> None:
    dialog = now(standing).preferences.open()
    assert 0 < len(dialog.combos) <= MOST
    for key, combo in dialog.combos.items():
        first = combo.itemText(0)
        if key == eye_forms.TEXT:
            assert first == "100 %"
            continue
        if key == ALSO_IN:
            assert first == "No other place"
            continue
        assert first.startswith(("As the system", "As the printer")), key
        assert key in {"light", eye_forms.MOTION} or ": " in first


@pytest.mark.skipif(os.name != "posix", reason="modes of files are POSIX's")
def test_the_folder_of_preferences_is_made_for_its_owner_alone() -> None:
    folder = Path(preferences.preferences().fileName()).parent
    assert not folder.exists()
    preferences.keep_private()
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
