"""The window on a server: opened by its dialog, and shown what others write."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QTimer

from growdesk.domain.server_address import ServerAddress
from growdesk.services import servers_known
from growdesk.services.collection import Collection
from growdesk.services.servers import find_server
from growdesk.services.values import PlantDraft
from growdesk.services.whereabouts import OnServer
from growdesk.ui.dialogs.plant import PlantDialog
from growdesk.ui.dialogs.server import ServerDialog
from growdesk.ui.dialogs.undo_others import UndoOthersDialog
from growdesk.ui.server_start import reach
from growdesk.ui.window import Window
from tests.server.between import line_to
from tests.ui.driving import dialog_of, go_to, line_of, settle

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtWidgets import QApplication
    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock


@pytest.fixture(autouse=True)
def machine(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Let what a machine remembers lie in a folder of the test's own."""
    for name in ("CONFIG", "DATA", "STATE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / name.lower()))


@pytest.fixture
def where(address: str, tmp_path: Path) -> OnServer:
    shared = tmp_path / "shared"
    shared.mkdir()
    return find_server(address, str(shared))


def test_a_server_is_opened_by_the_dialog_and_others_are_shown(
    qtbot: QtBot, where: OnServer, folder: Path, clock: FixedClock
) -> None:
    window = Window(Collection.open(folder, clock, create=True))
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: window.desk.view is not None)
    window.commands["open-server"].trigger()
    (dialog,) = window.findChildren(ServerDialog)
    dialog.host.setText(where.address.host)
    dialog.port.setText(str(where.address.port))
    dialog.database.setText(where.address.database)
    dialog.user.setText(where.address.user)
    dialog.password.setText(where.address.password)
    dialog.photos.setText(str(where.folder))
    dialog.save_button.click()  # nothing is there yet, and none is to be made
    qtbot.waitUntil(dialog.save_button.isEnabled)
    assert window.desk.collection.called == str(folder)
    dialog.make_new.setChecked(True)
    with qtbot.waitSignal(window.desk.switched):
        dialog.save_button.click()
    assert window.desk.collection.called == where.address.called
    assert where.address.password not in window.windowTitle()
    assert where.address.database in window.windowTitle()
    assert servers_known.known().next_start
    qtbot.waitUntil(lambda: window.desk.view is not None)
    other = Collection.open(where, clock)
    other.ledger.store.who = lambda: "mia"
    window.others.ask()
    other.plants.add(PlantDraft("Z9", "Cattleya walkeriana", ""))
    lines: list[str] = []
    window.desk.told.connect(lines.append)
    window.others.ask()

    def tags() -> list[str]:
        window.others.ask()
        view = window.desk.view
        return [] if view is None else [line.tag for line in view.lines]

    qtbot.waitUntil(lambda: tags() == ["Z9"])
    assert any("mia" in line for line in lines)
    window.commands["undo"].trigger()
    qtbot.waitUntil(lambda: bool(window.findChildren(UndoOthersDialog)))
    (question,) = window.findChildren(UndoOthersDialog)
    question.go_button.click()
    qtbot.waitUntil(lambda: tags() == [])
    other.close()
    window.close()


def test_a_server_that_is_away_at_the_start_leads_to_the_folder_here(
    qapp: QApplication, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    away = OnServer(ServerAddress("127.0.0.1", "orchids", port=9), tmp_path)
    seen: list[str] = []

    def choose(dialog: ServerDialog) -> None:
        seen.append(dialog.windowTitle())
        QTimer.singleShot(0, dialog, dialog.folder_wanted.emit)

    monkeypatch.setattr(ServerDialog, "open", choose)
    collection = reach(qapp, away)
    assert seen
    assert collection is not None
    assert isinstance(collection.where, type(tmp_path))
    collection.close()


def form_of(qtbot: QtBot, window: Window) -> PlantDialog:
    """Open the form of the plant A1."""
    settle(qtbot, window)
    go_to(window, "A1")
    settle(qtbot, window)
    window.forms.change_plant(line_of(window, "A1").plant_id)
    settle(qtbot, window)
    return dialog_of(window, PlantDialog)


def error_in(form: PlantDialog) -> str:
    """Give the line above the buttons."""
    return form._message.text() if form._message.isVisible() else ""


def test_a_server_cut_off_under_a_form_loses_nothing_and_goes_on_when_it_is_back(
    qtbot: QtBot, where: OnServer, clock: FixedClock
) -> None:
    address = where.address
    with line_to(address.host, address.port or 5432) as line:
        through = dataclasses.replace(address, port=line.port)
        made = Collection.open(OnServer(through, where.folder), clock, create=True)
        plant = made.plants.add(PlantDraft("A1", "Cattleya walkeriana", "")).ids[0]
        window = Window(made)
        qtbot.addWidget(window)
        window.show()
        told: list[str] = []
        window.desk.told.connect(told.append)
        qtbot.waitUntil(lambda: window.desk.stands_on is not None)
        form = form_of(qtbot, window)
        form.name.setText("Cattleya maxima")
        line.cut()
        form.save_button.click()
        qtbot.waitUntil(lambda: "cannot be reached" in error_in(form))
        assert address.password not in error_in(form)
        for _ in range(3):
            window.others.ask()
            qtbot.waitUntil(lambda: not window.desk.tasks.is_busy)
        assert [each for each in told if "cannot be reached" in each] == told[-1:]
        assert form.name.text() == "Cattleya maxima"
        line.mend()
        window.others.ask()
        qtbot.waitUntil(lambda: told[-1] == "The server answers again.")
        form.save_button.click()
        qtbot.waitUntil(lambda: not window.findChildren(PlantDialog))
        qtbot.waitUntil(lambda: not window.desk.tasks.is_busy)
        assert made.plants.get(plant).name == "Cattleya maxima"
        window.close()


def test_a_form_writes_over_what_another_changed_meanwhile_only_when_told_twice(
    qtbot: QtBot, where: OnServer, clock: FixedClock
) -> None:
    made = Collection.open(where, clock, create=True)
    plant = made.plants.add(PlantDraft("A1", "Cattleya walkeriana", "")).ids[0]
    other = Collection.open(where, clock)
    window = Window(made)
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: window.desk.stands_on is not None)
    form = form_of(qtbot, window)
    form.name.setText("Cattleya maxima")
    other.plants.change(plant, replace(other.plants.get(plant), note="Repotted."))
    window.others.ask()
    qtbot.waitUntil(lambda: not window.desk.tasks.is_busy)
    form.save_button.click()
    qtbot.waitUntil(lambda: "on another computer meanwhile" in error_in(form))
    assert other.plants.get(plant).note == "Repotted."
    form.save_button.click()
    qtbot.waitUntil(lambda: not window.findChildren(PlantDialog))
    kept = other.plants.get(plant)
    assert (kept.name, kept.note) == ("Cattleya maxima", "")
    other.close()
    window.close()
