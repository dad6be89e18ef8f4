"""Give the window's tests a real collection, a standing clock and quiet preferences."""

from __future__ import annotations

import gc
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QSettings
from PySide6.QtWidgets import QApplication, QDialog
from shiboken6 import isValid

from growdesk.domain.facts import Look, NewGrowths, RootTips
from growdesk.services.values import (
    PlaceDraft,
    PlantDraft,
    TinDraft,
    WaterDraft,
)
from growdesk.ui import motion, sizes, theme
from growdesk.ui.window import Window
from tests.ui.driving import settle

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import date
    from pathlib import Path

    from PySide6.QtWidgets import QWidget
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection


@pytest.fixture(autouse=True)
def quiet_machine(
    tmp_path: Path, qapp: QApplication, monkeypatch: pytest.MonkeyPatch
) -> Iterator[None]:
    """Keep preferences and logs of a test in its own folder, the theme in force.

    Cycles are collected here, between two tests, as the program does between two
    events; see ``growdesk.ui.collecting``. A theme is put on anew only where a test
    has turned it, and whatever windows a test leaves are gone before the next.
    """
    gc.disable()
    gc.collect(1)
    form, scope = QSettings.Format.IniFormat, QSettings.Scope.UserScope
    QSettings.setPath(form, scope, str(tmp_path / "preferences"))
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    scheme = theme.install(qapp)
    if scheme.mode is not theme.Mode.LIGHT:
        scheme.choose(theme.Mode.LIGHT)
    sizes.current().choose(100)
    motion.current().choose(motion.Motion.USUAL)
    stood = set(QApplication.topLevelWidgets())
    yield
    sweep(stood)


def sweep(stood: set[QWidget]) -> None:
    """Close and destroy the windows that a test has left, those in ``stood`` aside."""
    for each in QApplication.topLevelWidgets():
        if not isValid(each) or each in stood or each.parent() is not None:
            continue
        if isinstance(each, Window):
            let_go(each)
        each.close()
        if isinstance(each, Window):
            each.tasks.stop()
        each.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)


@pytest.fixture
def stocked(collection: Collection, today: date) -> Collection:
    """Give a collection with two plants on feed, one to look at, one at rest."""
    house = collection.settings.house()
    collection.settings.save_house(house, ("latitude",))
    collection.mixing.add_tin(TinDraft("Blue tin", "20-20-20"))
    collection.waters.add(WaterDraft("rain", 0.05))
    place = collection.places.add(PlaceDraft("East window")).ids[0]
    growing = Look(
        on=today, new_growths=NewGrowths(extending=1), root_tips=RootTips.RUNNING
    )
    for tag, name, kind in (
        ("A1", "Cattleya intermedia", "cattleya"),
        ("A2", "Oncidium sphacelatum", "oncidium"),
        ("A3", "Laelia anceps", "laelia"),
    ):
        draft = PlantDraft(tag, name, kind, place_id=place, pot_volume_l=1.0)
        plant_id = collection.plants.add(draft).ids[0]
        if tag != "A3":
            collection.looks.record(plant_id, growing)
    return collection


def let_go(window: Window) -> None:
    """Have a window close at once: its lanes must not outlive a test's unsaved form."""
    for dialog in window.findChildren(QDialog):
        if dialog.isVisible():
            dialog.reject()
    window._reminded = True


@pytest.fixture
def show(qtbot: QtBot) -> Callable[[Collection], Window]:
    """Give a way to show a window on a collection, with its first day read."""

    def show_it(collection: Collection) -> Window:
        window = Window(collection)
        qtbot.addWidget(window, before_close_func=let_go)
        window.show()
        qtbot.waitExposed(window)
        settle(qtbot, window)
        return window

    return show_it


@pytest.fixture
def window(stocked: Collection, show: Callable[[Collection], Window]) -> Window:
    """Give the window on the stocked collection."""
    return show(stocked)
