"""Whatever fails or is cancelled once a window let go of its file, it has one open."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
import time
from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QLineEdit

from growdesk.domain.errors import LookOnlyError, StoreError
from growdesk.services import backups, rescuing, restoring, ways_out
from growdesk.services.backup_values import Why
from growdesk.services.long_work import StoppedError
from growdesk.services.values import PlantDraft
from growdesk.store import switching
from growdesk.store.store import Store
from growdesk.ui.checking import CheckForms
from growdesk.ui.dialogs.damaged import DamagedDialog
from growdesk.ui.dialogs.found import FoundDialog
from tests.ui.driving import settle
from tests.ui.test_backups import agree, opened
from tests.ui.test_damage import press, text_of, wait_for

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

SAVE, BACK = "Save what can be read", "Bring back this backup"
ERRORS: dict[str, tuple[Callable[[], Exception], str]] = {
    "the disk": (lambda: OSError(5, "Input/output error"), "would not read or write"),
    "a refusal": (lambda: StoreError("There is no room."), "There is no room."),
    "a fault of ours": (ZeroDivisionError, "Something went wrong inside growdesk"),
    "a cancel": (lambda: StoppedError("Stopped."), "the damaged collection is as it"),
}
STEPS: dict[str, list[tuple[object, str]]] = {
    SAVE: [(ways_out, "rescue"), (rescuing, "salvage"), (switching, "switch")],
    BACK: [(ways_out, "restore"), (restoring, "_sync"), (switching, "switch")],
}
ZEROS = """
import sys
file = open(sys.argv[1], "r+b")
for page in sys.argv[2:]:
    file.seek((int(page) - 1) * 4096)
    file.write(bytes(4096))
file.seek(27)
byte = file.read(1)[0]
file.seek(27)
file.write(bytes([(byte + 1) % 256]))
"""


def zero(file: Path, *tables: str) -> None:
    """Zero the pages of tables, and say it was written, by another process."""
    with sqlite3.connect(f"file:{file}?mode=ro", uri=True) as connection:
        found = [
            connection.execute(
                "SELECT rootpage FROM sqlite_master WHERE name = ?", (table,)
            ).fetchone()[0]
            for table in tables
        ]
    connection.close()
    pages = [str(page) for page in found]
    subprocess.run([sys.executable, "-c", ZEROS, str(file), *pages], check=True)


def begun(qtbot: QtBot, window: Window) -> DamagedDialog:
    """Let the window lead on from its own collection."""
    (forms,) = window.findChildren(CheckForms)
    forms._lead_on()
    dialog = wait_for(qtbot, DamagedDialog)
    assert isinstance(dialog, DamagedDialog)
    return dialog


def gone_on(qtbot: QtBot, window: Window, dialog: DamagedDialog, way: str) -> None:
    """Take a way, and wait until it ended and the window stands on something."""
    was = window.desk.collection
    press(dialog, way)
    qtbot.waitUntil(lambda: window.desk.collection is not was, timeout=20_000)
    settle(qtbot, window)


def typed(window: Window) -> QLineEdit:
    """Give a field of the window with something typed into it."""
    field = next(
        each
        for each in window.findChildren(QLineEdit)
        if each.isVisible() and not each.isReadOnly()
    )
    field.setText("A")
    return field


def tags(window: Window) -> set[str]:
    return {draft.tag for _, draft in window.desk.collection.plants.all()}


@pytest.mark.parametrize("way", STEPS)
def test_it_stands_on_its_collection_again_wherever_it_failed(
    qtbot: QtBot,
    window: Window,
    monkeypatch: pytest.MonkeyPatch,
    way: str,
    told: Callable[[str], None],
) -> None:
    collection = window.desk.collection
    backups.make(collection.folder, Why.BY_HAND, collection.clock.now())
    field, want, failures = typed(window), tags(window), 0
    dialog = begun(qtbot, window)
    for place, name in STEPS[way]:
        for what, (make, line) in ERRORS.items():
            with monkeypatch.context() as patch:

                def fail(*_given: object, **_named: object) -> object:
                    raise make()  # noqa: B023 -- called in this turn

                patch.setattr(place, name, fail)
                gone_on(qtbot, window, dialog, way)
            assert line in text_of(dialog), (name, what)
            assert dialog.rescue_button.isEnabled()
            assert tags(window) == want, (name, what)
            assert field.text() == "A"
            failures += 1
            window.desk.collection.plants.add(PlantDraft(f"N{failures}", "Kept", ""))
            want.add(f"N{failures}")
    told(f"F7 way out ({way}): {failures} failures, 0 closed collections, 0 lost")
    dialog.reject()


@pytest.mark.parametrize("way", STEPS)
def test_a_cancel_of_the_grower_and_a_closed_dialog_leave_it_open(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch, way: str
) -> None:
    collection = window.desk.collection
    backups.make(collection.folder, Why.BY_HAND, collection.clock.now())

    def slow(*given: object) -> object:
        step = given[-1]
        assert callable(step)
        for _ in range(2000):
            time.sleep(0.01)
            step(1, 2)
        raise AssertionError

    monkeypatch.setattr(ways_out, "rescue" if way == SAVE else "restore", slow)
    for is_closed in (False, True):
        dialog = begun(qtbot, window)
        was = window.desk.collection
        press(dialog, way)
        qtbot.waitUntil(lambda: window.desk.long.now is not None)
        if is_closed:
            dialog.reject()
        else:
            window.desk.long.cancel()
        qtbot.waitUntil(lambda was=was: window.desk.collection is not was)  # type: ignore[misc]
        settle(qtbot, window)
        window.desk.collection.plants.add(PlantDraft(f"N{is_closed}", "Kept", ""))
        if not is_closed:
            dialog.reject()


def test_a_file_that_will_not_be_sealed_is_saved_all_the_same(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_given: object, **_named: object) -> object:
        raise OSError(5, "Input/output error")

    want = tags(window)
    dialog = begun(qtbot, window)
    with monkeypatch.context() as patch:
        patch.setattr(Store, "_rest", fail)
        gone_on(qtbot, window, dialog, SAVE)
    wait_for(qtbot, FoundDialog).accept()
    assert tags(window) == want
    assert not window.desk.collection.looking


def test_a_damaged_one_is_looked_at_and_the_ways_stay_open(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The Backups dialog and the damage dialog alike, over a file that is damaged."""
    folder = window.desk.collection.folder
    backups.make(folder, Why.BY_HAND, window.desk.collection.clock.now())
    zero(folder / "collection.sqlite", "tool")

    def fail(*_given: object, **_named: object) -> object:
        raise OSError(5, "Input/output error")

    def looks_on() -> None:
        assert "It can be looked at" in window.desk.collection.looking
        assert {"A1", "A2", "A3"} <= tags(window)
        with pytest.raises(LookOnlyError):
            window.desk.collection.plants.add(PlantDraft("N1", "Not kept", ""))

    with monkeypatch.context() as patch:
        patch.setattr(switching, "switch", fail)
        window.desk.collection.note_damage()
        kept = opened(qtbot, window)
        agree(qtbot, window, kept)
        kept.reject()
        looks_on()
        dialog = begun(qtbot, window)
        gone_on(qtbot, window, dialog, SAVE)
        looks_on()
    gone_on(qtbot, window, dialog, BACK)
    assert not window.desk.collection.looking
