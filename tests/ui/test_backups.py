"""Backups in the window: listed, made, looked into, and brought back."""

from __future__ import annotations

import threading
import time
from contextlib import closing
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt

from growdesk.domain.errors import StoreError
from growdesk.services import backups, restoring
from growdesk.services.backup_values import Why
from growdesk.services.collection import Collection
from growdesk.services.long_work import StoppedError
from growdesk.services.values import PlantDraft
from growdesk.store import switching
from growdesk.store.seal import SEAL_NAME
from growdesk.ui.backup_forms import BackupForms
from growdesk.ui.dialogs.backup_look import BackupLookDialog
from growdesk.ui.dialogs.backups import BackupsDialog, BringBackDialog
from growdesk.ui.tasks import is_ending
from tests.ui.driving import dialog_of, open_dialogs, settle, status

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from PySide6.QtWidgets import QTableWidget
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window


@pytest.fixture
def kept(stocked: Collection) -> Path:
    """Give a backup of three plants; a fourth has come since."""
    made = backups.make(stocked.folder, Why.BY_HAND, stocked.clock.now())
    stocked.plants.add(PlantDraft("A4", "Vanda coerulea", "vanda"))
    return made.folder


def tags(window: Window) -> set[str]:
    return {draft.tag for _, draft in window.desk.collection.plants.all()}


def column(table: QTableWidget, number: int) -> list[str]:
    items = [table.item(row, number) for row in range(table.rowCount())]
    return [item.text() for item in items if item is not None]


def opened(qtbot: QtBot, window: Window) -> BackupsDialog:
    window.commands["backups"].trigger()
    settle(qtbot, window)
    return dialog_of(window, BackupsDialog)


def forms_of(window: Window) -> BackupForms:
    (found,) = window.findChildren(BackupForms)
    return found


def agree(qtbot: QtBot, window: Window, dialog: BackupsDialog) -> None:
    """Ask for the chosen one, and say yes."""
    dialog.back_button.click()
    settle(qtbot, window)
    question = dialog_of(window, BringBackDialog)
    question.go_button.click()
    qtbot.waitUntil(lambda: window.desk.long.now is None)
    settle(qtbot, window)
    settle(qtbot, window)


def test_the_backups_are_listed_in_the_growers_words(
    qtbot: QtBot, stocked: Collection, window: Window
) -> None:
    now = stocked.clock.now()
    for days, why in ((60, Why.DAILY), (1, Why.BEFORE_FORM), (0, Why.BY_HAND)):
        backups.make(stocked.folder, why, now - timedelta(days=days))
    file = backups.kept(stocked.folder)[0].folder / "collection.sqlite"
    file.write_bytes(file.read_bytes()[:-100])
    dialog = opened(qtbot, window)
    when = column(dialog.table, 0)
    assert when[0].startswith("today ")
    assert when[1].startswith("yesterday ")
    assert when[2].startswith("Saturday 21 March, ")
    assert column(dialog.table, 1)[:2] == ["made by hand", "before a newer growdesk"]
    assert column(dialog.table, 2) == ["not whole", "whole", "whole"]
    assert column(dialog.table, 3) == ["3", "3", "3"]
    assert "is not what it was" in dialog.chosen.text()
    assert dialog.first.text().startswith("The last backup was made today ")
    assert "on this disk alone" in dialog.first.text()
    dialog.reject()


def test_one_is_made_now_and_goes_to_the_second_place(
    qtbot: QtBot, stocked: Collection, window: Window, tmp_path: Path
) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    dialog = opened(qtbot, window)
    assert not dialog.back_button.isEnabled()
    assert dialog.focusWidget() is dialog.make_button
    assert dialog.first.text() == (
        "There is no backup yet. growdesk makes one by itself each day that something"
        " is written."
    )
    dialog.make_button.click()
    qtbot.waitUntil(lambda: dialog.table.rowCount() == 1)
    assert "The backup is made" in dialog.message.text()
    forms_of(window).choose_second(dialog, stick)
    qtbot.waitUntil(lambda: dialog.table.rowCount() == 2)
    assert column(dialog.table, 1)[1] != column(dialog.table, 1)[0]
    assert any("second place" in why for why in column(dialog.table, 1))
    assert list(stick.glob("*/*-by-hand/collection.sqlite"))
    assert len(backups.kept(stocked.folder)) == 1
    dialog.prove_button.click()
    qtbot.waitUntil(lambda: dialog.message.text().startswith("The backup is whole"))
    dialog.reject()


def test_a_backup_is_looked_into_and_told_by_plant(
    qtbot: QtBot, kept: Path, window: Window
) -> None:
    dialog = opened(qtbot, window)
    dialog.look_button.click()
    settle(qtbot, window)
    look = dialog_of(window, BackupLookDialog)
    assert look.first.text() == "1 plant differs; it stands first."
    assert column(look.table, 0) == ["A4", "A1", "A2", "A3"]
    assert column(look.table, 2)[:2] == ["not there", "1 look"]
    assert column(look.table, 3)[:2] == ["no records yet", "the same"]
    assert look.chosen.text() == (
        "A4 Vanda coerulea. In the backup: not there. Now: no records yet."
    )
    look.reject()
    dialog.reject()
    assert kept.is_dir()


def test_the_window_stands_on_what_was_brought_back_and_can_go_back_again(
    qtbot: QtBot, kept: Path, window: Window, folder: Path
) -> None:
    before = window.desk.collection
    lines: list[str] = []
    window.desk.told.connect(lines.append)
    dialog = opened(qtbot, window)
    dialog.back_button.click()
    settle(qtbot, window)
    question = dialog_of(window, BringBackDialog)
    assert question.keep_button.isDefault()
    assert "with 4 plants, is kept whole" in question.text.text()
    assert "It holds 3 plants" in question.text.text()
    question.reject()
    assert tags(window) == {"A1", "A2", "A3", "A4"}
    agree(qtbot, window, dialog)
    assert window.desk.collection is not before
    assert tags(window) == {"A1", "A2", "A3"}
    (line,) = [each for each in lines if "Brought back as of " in each]
    (aside,) = switching.set_asides(folder)
    assert str(aside.folder) in line
    assert open_dialogs(window) == []
    assert (folder / "backups" / kept.name).is_dir()
    assert {each.why for each in backups.kept(folder)} == {
        Why.BY_HAND,
        Why.BEFORE_RESTORE,
    }
    with pytest.raises(StoreError, match="no longer open here"):
        before.plants.add(PlantDraft("X1", "Too late", ""))
    assert window.desk.collection.history.view().undo is not None
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert any("Undone" in each for each in (*lines, status(window)))

    dialog = opened(qtbot, window)
    whys = column(dialog.table, 1)
    row = whys.index("what was here before, set aside")
    assert column(dialog.table, 2)[row] == "not read through"
    dialog.table.selectRow(row)
    agree(qtbot, window, dialog)
    assert tags(window) == {"A1", "A2", "A3", "A4"}
    assert len(switching.set_asides(folder)) == 2
    assert (folder / "backups" / kept.name).is_dir()


def test_a_damaged_backup_is_refused_and_nothing_is_changed(
    qtbot: QtBot, kept: Path, window: Window, folder: Path
) -> None:
    file = kept / "collection.sqlite"
    raw = bytearray(file.read_bytes())
    raw[len(raw) // 2] ^= 1
    file.write_bytes(raw)
    before = window.desk.collection
    dialog = opened(qtbot, window)
    agree(qtbot, window, dialog)
    assert "its records have changed" in dialog.message.text()
    assert window.desk.collection is before
    assert tags(window) == {"A1", "A2", "A3", "A4"}
    assert switching.set_asides(folder) == ()
    assert not list(folder.parent.glob(".collection-restoring-*"))
    before.plants.add(PlantDraft("A5", "Still open", ""))
    dialog.reject()


def test_a_cancel_leaves_all_as_it_was(
    qtbot: QtBot,
    kept: Path,
    window: Window,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def stop(*_: object) -> None:
        raise StoppedError("Stopped.")

    monkeypatch.setattr(restoring, "_refuse_damaged", stop)
    before = window.desk.collection
    dialog = opened(qtbot, window)
    agree(qtbot, window, dialog)
    assert dialog.message.text() == "Cancelled: the collection is as it was."
    assert window.desk.collection is before
    assert tags(window) == {"A1", "A2", "A3", "A4"}
    assert not list(folder.parent.glob(".collection-restoring-*"))
    assert kept.is_dir()
    dialog.reject()


def test_a_switch_that_fails_opens_the_old_one_again(
    qtbot: QtBot,
    kept: Path,
    window: Window,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fail(*_: object) -> None:
        raise OSError(5, "Input/output error", str(folder))

    monkeypatch.setattr(switching, "switch", fail)
    dialog = opened(qtbot, window)
    agree(qtbot, window, dialog)
    assert "would not read or write" in dialog.message.text()
    assert tags(window) == {"A1", "A2", "A3", "A4"}
    window.desk.collection.plants.add(PlantDraft("A5", "Open again", ""))
    assert kept.is_dir()
    dialog.reject()


def test_closing_while_the_two_change_places_leaves_it_sealed(
    qtbot: QtBot,
    kept: Path,
    window: Window,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    real, begun = switching.switch, threading.Event()

    def slowly(new: Path, old: Path, now: datetime) -> switching.Switched:
        begun.set()
        deadline = time.monotonic() + 20
        while not is_ending() and time.monotonic() < deadline:
            time.sleep(0.01)
        return real(new, old, now)

    monkeypatch.setattr(switching, "switch", slowly)
    dialog = opened(qtbot, window)
    forms_of(window).bring_back(dialog, kept)
    qtbot.waitUntil(begun.is_set, timeout=20_000)
    dialog.reject()
    window.close()
    assert len(switching.set_asides(folder)) == 1
    assert (folder / SEAL_NAME).exists()
    with closing(Collection.open(folder)) as again:
        assert len(again.plants.all()) == 3


def test_a_file_from_elsewhere_is_asked_about_by_its_name(
    qtbot: QtBot, kept: Path, window: Window, tmp_path: Path
) -> None:
    dialog = opened(qtbot, window)
    forms_of(window).ask_file(dialog, tmp_path / "letter.txt")
    settle(qtbot, window)
    question = dialog_of(window, BringBackDialog)
    assert "becomes as it is in" in question.text.text()
    assert "letter.txt. What was entered since is not in it." in question.text.text()
    question.go_button.click()
    qtbot.waitUntil(lambda: bool(dialog.message.text()))
    assert "is not there" in dialog.message.text()
    assert kept.is_dir()
    dialog.reject()


def test_a_number_stands_under_its_head(qtbot: QtBot, window: Window) -> None:
    dialog = opened(qtbot, window)
    heads = [dialog.table.horizontalHeaderItem(n) for n in range(6)]
    right = [bool(h and h.textAlignment() & Qt.AlignmentFlag.AlignRight) for h in heads]
    assert right == [False, False, False, True, True, True]
    dialog.reject()
