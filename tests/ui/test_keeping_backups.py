"""The window makes the day's backup by itself, quietly, and says what goes wrong."""

from __future__ import annotations

import threading
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QFileDialog

from growdesk.domain.errors import StoreError
from growdesk.services import backups, daily_backup, second_place
from growdesk.services.backup_values import Why
from growdesk.services.values import PlantDraft
from growdesk.ui import keeping_backups
from growdesk.ui.backup_place_forms import ALSO_IN, CHOOSE, NOWHERE
from growdesk.ui.dialogs.backups import BackupsDialog
from growdesk.ui.widgets.form import choose
from growdesk.ui.window import Window
from tests.ui.driving import dialog_of, settle

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import datetime
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.services.collection import Collection
    from growdesk.services.daily_backup import Daily
    from growdesk.services.long_work import Step

    Show = Callable[[Collection], Window]


@pytest.fixture
def soon(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have the backup made as soon as the day stands."""
    monkeypatch.setattr(keeping_backups, "SOON_MS", 0)


def kept(qtbot: QtBot, window: Window, many: int) -> None:
    folder = window.desk.collection.folder
    qtbot.waitUntil(lambda: len(backups.kept(folder)) == many, timeout=20_000)
    settle(qtbot, window)


@pytest.mark.usefixtures("soon")
def test_the_days_backup_is_made_without_a_word(
    qtbot: QtBot, show: Show, stocked: Collection
) -> None:
    told: list[str] = []
    window = show(stocked)
    window.desk.told.connect(told.append)
    kept(qtbot, window, 1)
    (made,) = backups.kept(stocked.folder)
    assert (made.why, made.plants) == (Why.DAILY, 3)
    assert backups.prove(made) == ""
    assert told == []
    assert not window.head.backups.isVisible()
    assert window.desk.long.now is None
    window.keeping.ask()
    settle(qtbot, window)
    assert len(backups.kept(stocked.folder)) == 1


def test_a_window_that_just_opened_has_made_none(
    qtbot: QtBot, show: Show, stocked: Collection
) -> None:
    window = show(stocked)
    settle(qtbot, window)
    assert backups.kept(stocked.folder) == ()


@pytest.mark.usefixtures("soon")
def test_over_midnight_another_is_made(
    qtbot: QtBot, show: Show, stocked: Collection, clock: FixedClock
) -> None:
    window = show(stocked)
    kept(qtbot, window, 1)
    stocked.plants.add(PlantDraft("B1", "Vanda hybrid", "vanda"))
    clock.day += timedelta(1)
    window.keeping._often.timeout.emit()
    kept(qtbot, window, 2)
    assert backups.kept(stocked.folder)[0].plants == 4


@pytest.mark.usefixtures("soon")
def test_a_failure_is_told_once_and_stands_in_the_head(
    qtbot: QtBot, show: Show, stocked: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **_more: object) -> None:
        raise StoreError("The disk is full: x.", "Free some space.")

    monkeypatch.setattr("growdesk.store.backup_sets.make", full)
    told: list[str] = []
    window = show(stocked)
    window.desk.told.connect(told.append)
    qtbot.waitUntil(window.head.backups.isVisible, timeout=20_000)
    window.keeping.ask()
    settle(qtbot, window)
    line = "No backup was made today. The disk is full: x. Free some space."
    assert window.head.backups.told.text() == line
    assert told.count(line) <= 1
    monkeypatch.undo()
    window.keeping.ask()
    kept(qtbot, window, 1)
    assert not window.head.backups.isVisible()


def test_what_takes_long_is_told_with_its_end(
    qtbot: QtBot, show: Show, stocked: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keeping_backups, "LONG_MS", 0)
    told: list[str] = []
    keep = daily_backup.keep

    def slowly(folder: Path, now: datetime, step: Step) -> Daily:
        while not told:
            step(0, 0)
        return keep(folder, now, step)

    monkeypatch.setattr(daily_backup, "keep", slowly)
    window = show(stocked)
    window.desk.told.connect(told.append)
    window.keeping.ask()
    kept(qtbot, window, 1)
    assert told == [
        "Today's backup is being made; go on as usual.",
        "Today's backup is made.",
    ]


@pytest.mark.usefixtures("soon")
def test_a_closing_window_does_not_wait_for_all_of_it(
    qtbot: QtBot, stocked: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun: list[int] = []

    def keep(_folder: Path, _now: datetime, step: Step) -> None:
        begun.append(1)
        while True:
            step(0, 0)

    monkeypatch.setattr(daily_backup, "keep", keep)
    window = Window(stocked)
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: bool(begun), timeout=20_000)
    assert window.close()
    assert backups.kept(stocked.folder) == ()


def test_a_second_place_is_chosen_among_the_preferences(
    qtbot: QtBot, show: Show, stocked: Collection, tmp_path: Path
) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    window = show(stocked)
    dialog = window.preferences.open()
    combo = dialog.combos[ALSO_IN]
    assert combo.currentData() == NOWHERE
    choose(combo, CHOOSE)
    (chooser,) = dialog.findChildren(QFileDialog)
    chooser.fileSelected.emit(str(stick))
    chooser.close()
    kept(qtbot, window, 1)
    qtbot.waitUntil(lambda: combo.currentData() == str(stick))
    place = second_place.second_place(stocked.folder)
    assert place is not None
    qtbot.waitUntil(lambda: len(backups.kept_in(place.backups)) == 1)
    choose(combo, NOWHERE)
    qtbot.waitUntil(lambda: second_place.second_place(stocked.folder) is None)
    settle(qtbot, window)
    dialog.accept()


def test_a_stick_is_looked_for_beside_the_window(
    qtbot: QtBot,
    show: Show,
    stocked: Collection,
    clock: FixedClock,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A disk that sleeps answers late: the window's thread never asks it."""
    stick = tmp_path / "stick"
    stick.mkdir()
    second_place.choose(stocked.folder, stick, clock.now())
    stick.rename(tmp_path / "drawer")
    asked: list[threading.Thread] = []

    def is_there(place: second_place.SecondPlace) -> bool:
        asked.append(threading.current_thread())
        return place.backups.is_dir()

    monkeypatch.setattr(second_place.SecondPlace, "is_there", property(is_there))
    window = show(stocked)
    dialog = window.preferences.open()
    combo = dialog.combos[ALSO_IN]
    assert combo.currentText() == str(stick)
    qtbot.waitUntil(lambda: combo.currentText() == f"{stick} (not plugged in)")
    assert asked
    assert threading.main_thread() not in asked
    settle(qtbot, window)
    dialog.accept()


def test_a_folder_that_cannot_be_is_put_back_and_told(
    qtbot: QtBot, show: Show, stocked: Collection
) -> None:
    window = show(stocked)
    dialog = window.preferences.open()
    combo = dialog.combos[ALSO_IN]
    choose(combo, CHOOSE)
    (chooser,) = dialog.findChildren(QFileDialog)
    chooser.fileSelected.emit(str(stocked.folder / "photos"))
    chooser.close()
    qtbot.waitUntil(dialog.refusal.isVisible, timeout=20_000)
    assert combo.currentData() == NOWHERE
    choose(combo, CHOOSE)
    (chooser, *_) = [c for c in dialog.findChildren(QFileDialog) if c.isVisible()]
    chooser.reject()
    assert combo.currentData() == NOWHERE
    settle(qtbot, window)
    dialog.accept()


def test_the_head_says_that_the_stick_was_long_away(
    qtbot: QtBot,
    show: Show,
    stocked: Collection,
    clock: FixedClock,
    tmp_path: Path,
) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    second_place.choose(stocked.folder, stick, clock.now())
    stick.rename(tmp_path / "drawer")
    clock.day += timedelta(15)
    window = show(stocked)
    window.keeping.ask()
    qtbot.waitUntil(window.head.backups.isVisible, timeout=20_000)
    said = window.head.backups.told.text()
    assert said.startswith("For 15 days no backup has gone to")
    window.head.backups.go.click()
    settle(qtbot, window)
    assert dialog_of(window, BackupsDialog).isVisible()
