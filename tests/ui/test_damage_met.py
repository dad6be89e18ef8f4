"""Damage met while the window runs: told once, looked at on, nothing written."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QApplication

from growdesk.domain.errors import StoreError
from growdesk.ui.calendaring import CALENDAR
from growdesk.ui.dialogs.damaged import DamagedDialog
from growdesk.ui.dialogs.fault import FaultDialog
from growdesk.ui.dialogs.found import FoundDialog
from growdesk.ui.faces import DAY
from growdesk.ui.field_words import BUG_LINE
from growdesk.ui.rostering import COLLECTION
from tests.ui.driving import settle
from tests.ui.test_damage import wait_for
from tests.ui.test_damage_left import zero

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.values import Written
    from growdesk.ui.window import Window

FILE = "collection.sqlite"
SQL = """
import sqlite3, sys
with sqlite3.connect(sys.argv[1]) as connection:
    connection.execute(sys.argv[2])
"""


def by_another(window: Window, statement: str) -> None:
    """Change the live file by a statement of another process."""
    file = window.desk.collection.folder / FILE
    subprocess.run([sys.executable, "-c", SQL, str(file), statement], check=True)


def in_sight(*kinds: type) -> int:
    return sum(
        isinstance(each, kinds) and each.isVisible()
        for each in QApplication.topLevelWidgets()
    )


def read_on(qtbot: QtBot, window: Window) -> None:
    """Read much of what a window reads, several times over."""
    for _ in range(3):
        window.desk.show_day()
        window.desk.show_plant(1)
        window.desk.show_week()
        for key in (COLLECTION, CALENDAR, DAY):
            window.faces.go(key)
            settle(qtbot, window)


def test_pages_zeroed_under_the_window_are_told_once(
    qtbot: QtBot, window: Window, told: Callable[[str], None]
) -> None:
    hurt: list[object] = []
    lines: list[str] = []
    window.tasks.hurt.connect(hurt.append)
    window.desk.told.connect(lines.append)
    folder = window.desk.collection.folder
    tags = {draft.tag for _, draft in window.desk.collection.plants.all()}
    zero(folder / FILE, "look", "care")
    harmed = (folder / FILE).read_bytes()
    read_on(qtbot, window)
    dialog = wait_for(qtbot, DamagedDialog)
    read_on(qtbot, window)
    assert len(hurt) > 3
    assert in_sight(DamagedDialog, FoundDialog, FaultDialog) == 1
    dialog.reject()
    read_on(qtbot, window)
    assert in_sight(DamagedDialog, FoundDialog, FaultDialog) == 0

    refused: list[Exception] = []
    kept: list[Written] = []
    window.desk.write(
        lambda: window.desk.collection.day.tick([1], window.desk.today),
        kept.append,
        refused.append,
    )
    settle(qtbot, window)
    assert not kept
    assert isinstance(refused[0], StoreError)
    assert BUG_LINE not in lines
    assert {draft.tag for _, draft in window.desk.collection.plants.all()} == tags
    assert (folder / FILE).read_bytes() == harmed
    told(
        f"F7 met while running: {len(hurt)} readings of zeroed pages, 1 dialog, 1 write"
        " refused in a line, 0 faults of ours"
    )


def test_a_senseless_value_met_while_running_is_damage_with_its_plant(
    qtbot: QtBot, window: Window
) -> None:
    by_another(window, "UPDATE look SET day = '2026-13-45' WHERE plant_id = 1")
    read_on(qtbot, window)
    found = wait_for(qtbot, FoundDialog)
    assert isinstance(found, FoundDialog)
    assert "Plant A1" in found.text.toPlainText()
    assert "2026-13-45" in found.text.toPlainText()
    assert found.first_way is not None
    read_on(qtbot, window)
    assert in_sight(DamagedDialog, FoundDialog, FaultDialog) == 1
    found.reject()
    read_on(qtbot, window)
    assert in_sight(DamagedDialog, FoundDialog, FaultDialog) == 0
