"""A collection that may only be looked at: said at the head, nothing pretends."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from growdesk.domain.errors import LookOnlyError
from growdesk.services.backup_values import BackupsView
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.store import opening
from growdesk.ui import actions, looking
from growdesk.ui.dialogs.backups import BackupsDialog
from growdesk.ui.dialogs.plant import PlantDialog
from tests.faults.beside_files import disk
from tests.faults.test_reserve import fill
from tests.ui.driving import (
    dialog_of,
    go_to,
    key,
    open_dialogs,
    press,
    retype,
    settle,
    status,
    to_list,
)
from tests.ui.test_accessible_names import BACKUP

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.clock import FixedClock
    from growdesk.ui.window import Window

REASON = "/media/stick may only be read."
WAY_OUT = "Copy the collection to a folder where you may write, and open it there."


@pytest.fixture
def looked_at(
    stocked: Collection,
    folder: Path,
    clock: FixedClock,
    monkeypatch: pytest.MonkeyPatch,
) -> Iterator[Collection]:
    """Give the stocked collection, opened where it may not be written."""
    stocked.close()

    def refuse(_path: Path) -> None:
        raise LookOnlyError(REASON, WAY_OUT)

    monkeypatch.setattr(opening, "_refuse_unwritable", refuse)
    made = Collection.open(folder, clock)
    monkeypatch.undo()
    assert made.looking == f"{REASON} {WAY_OUT}"
    yield made
    made.close()
    looking.current().take("")


@pytest.fixture
def lookout(looked_at: Collection, show: Callable[[Collection], Window]) -> Window:
    return show(looked_at)


def test_the_head_says_why_and_the_way_out(lookout: Window) -> None:
    line = lookout.head.looking
    assert line.isVisible()
    assert line.told.text() == f"You can look, not write: {REASON} {WAY_OUT}"
    assert not lookout.head.notice.isVisible()
    assert lookout.strip.line.text().startswith("Nothing can be written here")


def test_backups_are_read_where_one_only_looks_and_nothing_is_brought_back(
    lookout: Window, qtbot: QtBot
) -> None:
    lookout.commands["backups"].trigger()
    settle(qtbot, lookout)
    dialog = dialog_of(lookout, BackupsDialog)
    dialog.show_view(BackupsView((BACKUP,), BACKUP.made_at))
    assert REASON in dialog.message.text()
    assert dialog.look_button.isEnabled()
    for dead in (dialog.back_button, dialog.make_button, dialog.file_button):
        assert not dead.isEnabled()
    dialog.table.activated.emit(dialog.table.model().index(0, 0))
    settle(qtbot, lookout)
    assert open_dialogs(lookout) == [dialog]
    dialog.reject()


def test_what_may_be_written_says_nothing(window: Window) -> None:
    assert not window.head.looking.isVisible()
    assert not window.head.notice.isVisible()
    for name in ("look", "add-plant", "walk", "undo"):
        assert window.commands[name].isEnabled()
    assert window.detail.look_button.isEnabled()


def test_every_command_that_writes_is_declared_and_not_offered(
    qtbot: QtBot, lookout: Window
) -> None:
    declared = {command.key for command in actions.declared()}
    assert declared >= actions.WRITING
    for face in ("day", "collection", "calendar", "week"):
        lookout.faces.go(face)
        settle(qtbot, lookout)
        offered = {
            name for name in actions.WRITING if lookout.commands[name].isEnabled()
        }
        assert offered == set()
    for name in ("find", "settings", "places", "export", "backup", "history", "week"):
        assert lookout.commands[name].isEnabled()


WRITING_BUTTONS = {
    "Record a look…",
    "Give something else…",
    "Change…",
    "Change the plant…",
    "Add photos…",
    "New bloom…",
    "Add a plant…",
    "It is here again",
}


def test_no_button_that_writes_can_be_pressed(qtbot: QtBot, lookout: Window) -> None:
    met = set()
    go_to(lookout, "A1")
    settle(qtbot, lookout)
    for tab in range(lookout.detail.tabs.count()):
        lookout.detail.tabs.setCurrentIndex(tab)
        settle(qtbot, lookout)
        for each in lookout.findChildren(QPushButton):
            if each.text() in WRITING_BUTTONS:
                met.add(each.text())
                assert not each.isEnabled(), each.text()
    assert met >= WRITING_BUTTONS - {"It is here again"}
    assert not lookout.mixing.recipe.isEnabled()
    assert not lookout.mixing.water.isEnabled()


def test_a_tick_is_refused_in_one_line(qtbot: QtBot, lookout: Window) -> None:
    lines = lookout.day_list.model.lines
    lookout.day_list.tick_wanted.emit((lines[0].plant_id,))
    settle(qtbot, lookout)
    assert status(lookout) == f"{REASON} {WAY_OUT}"
    assert all(line.done is None for line in lookout.day_list.model.lines)
    to_list(qtbot, lookout)
    key(Qt.Key.Key_Space)
    settle(qtbot, lookout)
    assert all(line.done is None for line in lookout.day_list.model.lines)


def test_dropped_photos_are_refused_and_stay_outside(
    qtbot: QtBot, lookout: Window, tmp_path: Path
) -> None:
    lookout.day_list.photos.dropped.emit(1, (tmp_path / "a.jpg",))
    settle(qtbot, lookout)
    assert status(lookout) == f"{REASON} {WAY_OUT}"
    assert not (lookout.desk.collection.folder / "photos").exists()


def test_a_form_that_is_saved_says_why_and_keeps_what_was_typed(
    qtbot: QtBot, lookout: Window
) -> None:
    lookout.forms.add_plant()
    settle(qtbot, lookout)
    dialog = dialog_of(lookout, PlantDialog)
    retype(dialog.plant.tag, "Z9")
    press(dialog, dialog.save_button.text())
    settle(qtbot, lookout)
    assert dialog.isVisible()
    assert dialog._message.isVisible()
    assert dialog._message.text() == f"{REASON} {WAY_OUT}"
    assert dialog.plant.tag.text() == "Z9"
    assert dialog.save_button.isEnabled()
    dialog.reject()


def test_another_collection_may_be_written_again(
    qtbot: QtBot, lookout: Window, tmp_path: Path
) -> None:
    other = Collection.open(tmp_path / "other", create=True)
    other.plants.add(PlantDraft("B1", "", ""))
    lookout.desk.switch(other)
    settle(qtbot, lookout)
    assert not lookout.head.looking.isVisible()
    assert lookout.commands["add-plant"].isEnabled()
    assert lookout.commands["look"].isEnabled()
    assert lookout.commands["undo"].isEnabled()
    assert lookout.detail.look_button.isEnabled()
    lookout.desk.write(lambda: other.plants.add(PlantDraft("B2", "", "")))
    settle(qtbot, lookout)
    assert len(lookout.day_list.model.lines) == 2


def test_what_the_file_met_stands_in_the_head_until_it_is_hidden(
    stocked: Collection, folder: Path, show: Callable[..., Window]
) -> None:
    stocked.close()
    path = folder / "collection.sqlite"
    path.write_bytes(path.read_bytes() + bytes(4096 * 2))
    again = Collection.open(folder, stocked.clock)
    window = show(again)
    line = window.head.notice
    assert line.isVisible()
    assert "is not as growdesk left it" in line.told.text()
    press(line, "Hide this")
    assert not line.isVisible()
    again.close()


def test_a_folder_pulled_away_is_a_plain_line_and_works_when_it_is_back(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    folder = window.desk.collection.folder
    lines = window.day_list.model.lines
    ids = (lines[0].plant_id,)
    folder.rename(tmp_path / "pulled")
    window.day_list.tick_wanted.emit(ids)
    settle(qtbot, window)
    assert str(folder) in status(window)
    assert "\n" not in status(window)
    assert window.day_list.model.lines == lines, "what stood there stands there still"
    (tmp_path / "pulled").rename(folder)
    window.day_list.tick_wanted.emit(ids)
    settle(qtbot, window)
    assert window.day_list.model.lines[0].done is not None


def test_what_is_typed_outlives_a_folder_pulled_away(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    folder = window.desk.collection.folder
    window.forms.add_plant()
    settle(qtbot, window)
    dialog = dialog_of(window, PlantDialog)
    retype(dialog.plant.tag, "Z9")
    folder.rename(tmp_path / "pulled")
    press(dialog, dialog.save_button.text())
    settle(qtbot, window)
    assert dialog.isVisible()
    assert str(folder) in dialog._message.text()
    (tmp_path / "pulled").rename(folder)
    press(dialog, dialog.save_button.text())
    settle(qtbot, window)
    left = open_dialogs(window)
    assert not [each for each in left if isinstance(each, PlantDialog)]
    for each in left:
        each.reject()  # the look that a new plant is asked for
    assert any(line.tag == "Z9" for line in window.day_list.model.lines)


def test_what_is_typed_outlives_a_full_disk(
    qtbot: QtBot,
    show: Callable[[Collection], Window],
    stocked: Collection,
    clock: FixedClock,
    tmp_path: Path,
) -> None:
    stocked.close()
    with disk(tmp_path / "stick", 2) as at:
        shutil.copytree(stocked.folder, at / "mine")
        window = show(Collection.open(at / "mine", clock))
        settle(qtbot, window)
        lines = window.day_list.model.lines
        window.forms.add_plant()
        settle(qtbot, window)
        dialog = dialog_of(window, PlantDialog)
        retype(dialog.plant.tag, "Z9")
        fill(at)
        press(dialog, dialog.save_button.text())
        settle(qtbot, window)
        assert dialog.isVisible()
        assert "The disk is full" in dialog._message.text()
        window.desk.show_day()
        settle(qtbot, window)
        assert window.day_list.model.lines == lines, "reading goes on"
        (at / "others").unlink()
        press(dialog, dialog.save_button.text())
        settle(qtbot, window)
        for each in open_dialogs(window):
            assert not isinstance(each, PlantDialog)
            each.reject()
        assert any(line.tag == "Z9" for line in window.day_list.model.lines)
        window.close()
        window.tasks.stop()
