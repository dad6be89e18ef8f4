"""A damaged collection in the window: told once, and every way out leads somewhere."""

from __future__ import annotations

import hashlib
import sqlite3
import threading
from contextlib import closing
from datetime import timedelta
from functools import partial
from typing import TYPE_CHECKING

import pytest
from PIL import Image
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton

from growdesk.domain.errors import DamagedError, StoreError
from growdesk.services import backups
from growdesk.services.backup_values import Why
from growdesk.services.collection import Collection
from growdesk.services.ways_out import ways_out
from growdesk.store.seal import read_seal
from growdesk.ui import damage
from growdesk.ui.checking import CheckForms
from growdesk.ui.dialogs.backups import BackupsDialog
from growdesk.ui.dialogs.damaged import DamagedDialog
from growdesk.ui.dialogs.found import FoundDialog
from tests.ui.driving import settle
from tests.ui.test_accessible_names import make_damaged

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtWidgets import QDialog
    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.ui.window import Window

FILE = "collection.sqlite"


def shown(kind: type[QDialog]) -> QDialog:
    """Give the dialog of a kind that is in sight; fails where none is."""
    found = [
        each
        for each in QApplication.topLevelWidgets()
        if isinstance(each, kind) and each.isVisible()
    ]
    assert found
    return found[0]


def wait_for(qtbot: QtBot, kind: type[QDialog]) -> QDialog:
    qtbot.waitUntil(lambda: bool(shown(kind)), timeout=20_000)
    return shown(kind)


def press(dialog: QDialog, text: str) -> None:
    (found,) = [
        each
        for each in dialog.findChildren(QPushButton)
        if each.text().replace("&", "") == text and each.isVisibleTo(dialog)
    ]
    found.click()


def buttons_of(dialog: QDialog) -> list[str]:
    found = dialog.findChildren(QPushButton)
    return [each.text() for each in found if each.isVisibleTo(dialog)]


def harm(folder: Path) -> str:
    """Spoil the first page's table of contents; give the file's digest then."""
    path = folder / FILE
    data = bytearray(path.read_bytes())
    data[4096 * 3 : 4096 * 3 + 64] = bytes(range(64))
    path.write_bytes(data)
    return hashlib.sha256(data).hexdigest()


@pytest.fixture
def harmed(stocked: Collection) -> tuple[Path, str]:
    folder = stocked.folder
    stocked.close()
    digest = harm(folder)
    with pytest.raises(DamagedError, match="a part of it cannot be read"):
        Collection.open(folder)
    return folder, digest


def test_the_start_saves_what_can_be_read_and_opens_it(
    qtbot: QtBot, qapp: QApplication, harmed: tuple[Path, str]
) -> None:
    folder, digest = harmed
    steps: list[str] = []

    def drive() -> None:
        if not steps:
            dialog = wait_for(qtbot, DamagedDialog)
            assert "There is no whole backup" in text_of(dialog)
            assert buttons_of(dialog) == ["&Save what can be read", "Close"]
            press(dialog, "Save what can be read")
            result = wait_for(qtbot, FoundDialog)
            assert "kept as it was in" in text_of(result)
            steps.append("saved")
            result.accept()

    QTimer.singleShot(0, qapp, drive)
    opened = damage.lead_on(qapp, folder)
    assert opened is not None
    assert opened.folder == folder.resolve()
    assert len(opened.plants.all()) >= 3
    opened.close()
    (aside,) = folder.parent.glob(f"{folder.name}-before-restore-*")
    assert hashlib.sha256((aside / FILE).read_bytes()).hexdigest() == digest


def test_the_start_brings_the_newest_whole_backup_back(
    qtbot: QtBot, qapp: QApplication, stocked: Collection, clock: FixedClock
) -> None:
    folder = stocked.folder
    backups.make(folder, Why.BY_HAND, clock.now())
    plants = len(stocked.plants.all())
    stocked.close()
    harm(folder)

    def drive() -> None:
        dialog = wait_for(qtbot, DamagedDialog)
        assert "The newest whole backup is of 20 May 2026 at" in text_of(dialog)
        press(dialog, "Bring back this backup")

    QTimer.singleShot(0, qapp, drive)
    opened = damage.lead_on(qapp, folder)
    assert opened is not None
    assert len(opened.plants.all()) == plants
    opened.close()


@pytest.mark.parametrize("has_backup", [True, False])
def test_enter_takes_the_first_way_and_never_closes(
    qtbot: QtBot, tmp_path: Path, *, has_backup: bool
) -> None:
    dialog = (
        make_damaged(tmp_path)
        if has_backup
        else DamagedDialog(None, ways_out(tmp_path))
    )
    assert isinstance(dialog, DamagedDialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    first = dialog.back_button if has_backup else dialog.rescue_button
    asked = dialog.back_wanted if has_backup else dialog.rescue_wanted
    assert dialog.focusWidget() is first
    assert first.isDefault()
    with qtbot.waitSignal(asked):
        QTest.keyClick(first, Qt.Key.Key_Return)
    assert dialog.isVisible()
    dialog.reject()


def test_closing_the_dialog_leaves_all_as_it_was(
    qtbot: QtBot, qapp: QApplication, harmed: tuple[Path, str]
) -> None:
    folder, digest = harmed
    QTimer.singleShot(0, qapp, lambda: wait_for(qtbot, DamagedDialog).reject())
    assert damage.lead_on(qapp, folder) is None
    assert hashlib.sha256((folder / FILE).read_bytes()).hexdigest() == digest
    assert not list(folder.parent.glob(f"{folder.name}-before-*"))


def test_a_damaged_collection_from_the_menu_shows_the_ways(
    qtbot: QtBot, window: Window, tmp_path: Path, clock: FixedClock
) -> None:
    other = Collection.open(tmp_path / "other", clock, create=True)
    other.close()
    harm(other.folder)
    window.files.open_folder(other.folder)
    dialog = wait_for(qtbot, DamagedDialog)
    press(dialog, "Save what can be read")
    wait_for(qtbot, FoundDialog).accept()
    qtbot.waitUntil(lambda: window.desk.collection.folder.name == "other")


def test_the_command_shows_what_is_whole_and_what_is_not(
    qtbot: QtBot, window: Window
) -> None:
    folder = window.desk.collection.folder
    window.commands["check-collection"].trigger()
    whole = wait_for(qtbot, FoundDialog)
    assert "All is whole: 3 plants, 0 photos and " in text_of(whole)
    whole.accept()
    settle(qtbot, window)
    with closing(sqlite3.connect(folder / FILE)) as connection:
        connection.execute("UPDATE plant SET note = 'odd' WHERE id = 1")
        connection.commit()
    window.commands["check-collection"].trigger()
    found = wait_for(qtbot, FoundDialog)
    assert isinstance(found, FoundDialog)
    lines = found.text.toPlainText().splitlines()
    assert lines[0] == "Plant A1"
    assert lines[1].startswith("Note: “odd” stands there; the history says")
    assert "1 thing is damaged" in text_of(found)
    assert any(each.text() == "&Set back" for each in found.findChildren(QPushButton))
    found.accept()


def test_a_photo_that_a_backup_has_is_put_back(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    collection = window.desk.collection
    picture = tmp_path / "picture.png"
    Image.new("RGB", (40, 30), (20, 120, 60)).save(picture)
    collection.photos.add(1, [picture])
    (photo,) = (collection.folder / "photos").glob("*/*")
    backups.make(collection.folder, Why.BY_HAND, collection.clock.now())
    content = photo.read_bytes()
    photo.unlink()
    window.commands["check-collection"].trigger()
    found = wait_for(qtbot, FoundDialog)
    assert "1 photo lies whole in a backup" in text_of(found)
    press(found, "Put photos back")
    qtbot.waitUntil(photo.exists, timeout=20_000)
    assert photo.read_bytes() == content
    settle(qtbot, window)


def is_due(collection: Collection) -> bool:
    return collection.full_check_due


@pytest.mark.parametrize("why", ["asked for", "a week open"])
def test_the_weekly_look_begins_by_itself_is_noted_and_says_nothing(
    qtbot: QtBot, window: Window, clock: FixedClock, why: str
) -> None:
    collection = window.desk.collection
    collection.note_full_check()
    (forms,) = window.findChildren(CheckForms)
    forms._timer.setInterval(0)
    window.desk.show_day()
    settle(qtbot, window)
    assert not forms._timer.isActive()
    assert not is_due(collection)
    if why == "asked for":
        collection.ledger.store.full_check_due = True
    else:
        clock.day += timedelta(days=8)
    assert is_due(collection)
    window.desk.show_day()
    qtbot.waitUntil(lambda: not collection.full_check_due, timeout=20_000)
    assert not [
        each
        for each in QApplication.topLevelWidgets()
        if isinstance(each, FoundDialog) and each.isVisible()
    ]
    folder = collection.folder
    settle(qtbot, window)
    window.close()
    collection.close()
    seal = read_seal(folder)
    assert seal is not None
    assert seal.fully_checked_at == clock.now()


def lead_on_over(qtbot: QtBot, window: Window) -> DamagedDialog:
    """Show the ways out of the collection that the window stands on."""
    forms = next(each for each in window.children() if isinstance(each, CheckForms))
    forms._lead_on()
    dialog = wait_for(qtbot, DamagedDialog)
    assert isinstance(dialog, DamagedDialog)
    return dialog


def stands_again(window: Window, before: Collection) -> bool:
    now = window.desk.collection
    return now is not before and now.is_open and now.folder == before.folder


def test_the_collection_is_let_go_of_after_what_is_asked_of_it(
    qtbot: QtBot, window: Window
) -> None:
    before, over = window.desk.collection, threading.Event()
    dialog = lead_on_over(qtbot, window)
    window.desk.read(partial(over.wait, 60), lambda _none: None)
    press(dialog, "Save what can be read")
    assert window.desk.long.now is None
    assert before.is_open
    dialog.reject()
    over.set()
    qtbot.waitUntil(lambda: stands_again(window, before), timeout=20_000)
    settle(qtbot, window)


def test_a_rescue_that_fails_leaves_the_window_its_collection(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_given: object) -> None:
        raise StoreError("The disk is full.")

    monkeypatch.setattr("growdesk.services.ways_out.rescue_in_place", fails)
    before = window.desk.collection
    dialog = lead_on_over(qtbot, window)
    press(dialog, "Save what can be read")
    qtbot.waitUntil(lambda: "The disk is full." in text_of(dialog), timeout=20_000)
    assert not before.is_open
    dialog.reject()
    qtbot.waitUntil(lambda: stands_again(window, before), timeout=20_000)
    settle(qtbot, window)
    assert window.desk.view is not None


def text_of(dialog: QDialog) -> str:
    return " ".join(each.text() for each in dialog.findChildren(QLabel))


def test_what_is_ticked_alone_is_set_back(
    qtbot: QtBot, stocked: Collection, show: Callable[[Collection], Window]
) -> None:
    folder = stocked.folder
    stocked.close()
    with closing(sqlite3.connect(folder / FILE)) as connection:
        connection.execute("UPDATE plant SET note = 'odd' WHERE id IN (1, 2)")
        connection.commit()
    window = show(Collection.open(folder, stocked.clock))
    window.commands["check-collection"].trigger()
    found = wait_for(qtbot, FoundDialog)
    assert isinstance(found, FoundDialog)
    assert found.list.count() == 2
    for row in range(2):
        found.list.item(row).setCheckState(Qt.CheckState.Unchecked)
    way = found.first_way
    assert way is not None
    assert not way.isEnabled()
    found.list.item(1).setCheckState(Qt.CheckState.Checked)
    assert way.isEnabled()
    way.click()
    settle(qtbot, window)
    notes = {d.tag: d.note for _, d in window.desk.collection.plants.all()}
    assert (notes["A1"], notes["A2"]) == ("odd", "")


def test_the_backups_are_a_button_away(qtbot: QtBot, window: Window) -> None:
    folder = window.desk.collection.folder
    with closing(sqlite3.connect(folder / FILE)) as connection:
        connection.execute("UPDATE plant SET note = 'odd' WHERE id = 1")
        connection.commit()
    window.commands["check-collection"].trigger()
    press(wait_for(qtbot, FoundDialog), "Backups…")
    wait_for(qtbot, BackupsDialog).reject()
