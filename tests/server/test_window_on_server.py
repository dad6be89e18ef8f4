"""The window on a server: opened by its dialog, and shown what others write."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QTimer

from growdesk.domain.server_address import ServerAddress
from growdesk.services import servers_known
from growdesk.services.collection import Collection
from growdesk.services.servers import find_server
from growdesk.services.values import PlantDraft
from growdesk.services.whereabouts import OnServer
from growdesk.ui.dialogs.server import ServerDialog
from growdesk.ui.dialogs.undo_others import UndoOthersDialog
from growdesk.ui.server_start import reach
from growdesk.ui.window import Window

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
