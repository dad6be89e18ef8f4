"""The walk: from plant to plant in bench order by keyboard, and nothing typed lost."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QKeySequence
from PySide6.QtTest import QTest

from growdesk.domain.errors import StoreError
from growdesk.domain.facts import Look, NewGrowths, Pot, RootTips
from growdesk.services.bench_values import BenchDraft
from growdesk.services.values import Changed, PlaceDraft, PlantDraft
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.walk import NOTHING_SEEN, WalkDialog
from growdesk.ui.dialogs.walk_choice import WalkChoiceDialog
from growdesk.ui.walk import NO_PLANTS
from tests.ui.driving import (
    dialog_of,
    focused,
    go_to,
    line_of,
    open_dialogs,
    settle,
    status,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


@pytest.fixture
def benched(stocked: Collection, today: date) -> Collection:
    """Give the stocked plants on two benches, A3 first, and one in a tent."""
    east = stocked.places.all()[0].place_id
    ids = {tag: stocked.plants.find(tag) for tag in ("A1", "A2", "A3")}
    for name, tags in (("Top", ("A3",)), ("Low", ("A2", "A1"))):
        bench = stocked.benches.add(east, BenchDraft(name)).ids[0]
        stocked.benches.put(east, bench, [ids[tag] or 0 for tag in tags])
    tent = stocked.places.add(PlaceDraft("Tent")).ids[0]
    stocked.plants.add(PlantDraft("B1", "Vanda", "vanda", tent))
    look = Look(
        today - timedelta(days=5),
        new_growths=NewGrowths(extending=1),
        root_tips=RootTips.NONE,
    )
    stocked.looks.record(ids["A1"] or 0, look, "sticky\nleaf")
    return stocked


@pytest.fixture
def window(benched: Collection, show: Callable[[Collection], Window]) -> Window:
    return show(benched)


def begin(qtbot: QtBot, window: Window, place: str = "") -> WalkDialog:
    """Open the walk by its key, choose by keyboard, and start."""
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    QTest.keySequence(window, QKeySequence("F5"))
    settle(qtbot, window)
    chooser = dialog_of(window, WalkChoiceDialog)
    qtbot.waitUntil(chooser.isActiveWindow)
    if place:
        QTest.keyClicks(focused(), place)
    QTest.keySequence(focused(), QKeySequence("Ctrl+Return"))
    settle(qtbot, window)
    return front(qtbot, window)


def front(qtbot: QtBot, window: Window) -> WalkDialog:
    dialog = dialog_of(window, WalkDialog)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    return dialog


def press(qtbot: QtBot, window: Window, *keys: str) -> None:
    for each in keys:
        QTest.keySequence(focused(), QKeySequence(each))
        settle(qtbot, window)


def at(dialog: WalkDialog) -> tuple[str, str]:
    assert dialog.shown is not None
    tag = dialog.shown.stop.tag
    assert f"<b>{tag}</b>" in dialog.plant.text()
    return dialog.where.text(), tag


def looks_of(collection: Collection, tag: str) -> list[Look]:
    on = collection.clock.today()
    plant = collection.plants.find(tag)
    assert plant is not None
    return [view.look for view in collection.day.detail(plant, on).looks]


def test_a_walk_by_keyboard_from_end_to_end(
    qtbot: QtBot, window: Window, benched: Collection, today: date
) -> None:
    dialog = begin(qtbot, window)
    assert at(dialog) == ("1 of 4 · East window · Top", "A3")
    assert dialog.last.text() == "Not looked at before."
    press(qtbot, window, "Alt+R", "R", "Ctrl+Return")
    assert at(dialog) == ("2 of 4 · East window · Low", "A2")
    assert dialog.message.text() == "A3: saved."
    press(qtbot, window, "F6")
    assert at(dialog) == ("3 of 4 · East window · Low", "A1")
    assert dialog.last.text() == (
        "Last look, 20 May 2026: New growths: 1 extending; root tips running."
    )
    press(qtbot, window, "PgDown")
    assert at(dialog) == ("4 of 4 · Tent", "B1")
    assert dialog.message.text() == "A1: nothing recorded."
    press(qtbot, window, "Alt+F", "E", "Ctrl+Return")
    assert open_dialogs(window) == []
    assert status(window) == "The walk is done: 3 looked at, 1 passed by."
    assert looks_of(benched, "A3") == [Look(today, root_tips=RootTips.RUNNING)]
    assert len(looks_of(benched, "A2")) == 2
    assert len(looks_of(benched, "A1")) == 2
    titles: list[str] = []
    while (done := benched.history.undo()) is not None and len(titles) < 3:
        titles.append(done.title)
    assert titles == ["Undone: Look at B1", "Undone: Look at A2", "Undone: Look at A3"]


def test_enter_without_a_change_records_nothing(
    qtbot: QtBot, window: Window, benched: Collection
) -> None:
    dialog = begin(qtbot, window)
    press(qtbot, window, "Ctrl+Return")
    assert at(dialog)[1] == "A2"
    assert looks_of(benched, "A3") == []
    dialog.reject()


def test_unchanged_needs_something_to_be_unchanged(
    qtbot: QtBot, window: Window, benched: Collection
) -> None:
    dialog = begin(qtbot, window)
    press(qtbot, window, "F6")
    assert at(dialog)[1] == "A3"
    assert dialog.message.text() == NOTHING_SEEN
    assert looks_of(benched, "A3") == []
    dialog.reject()


def test_back_shows_what_was_saved_and_changes_it(
    qtbot: QtBot, window: Window, benched: Collection, today: date
) -> None:
    dialog = begin(qtbot, window)
    press(qtbot, window, "Alt+P", "D", "Ctrl+Return", "PgUp")
    assert at(dialog)[1] == "A3"
    assert dialog.rows.pot.value is Pot.DRY
    assert dialog.last.text().startswith("The form shows what was saved on this walk.")
    press(qtbot, window, "Alt+P", "W", "Ctrl+Return")
    assert looks_of(benched, "A3") == [Look(today, pot=Pot.WET)]
    dialog.reject()


def test_half_a_look_is_never_lost(
    qtbot: QtBot, window: Window, benched: Collection
) -> None:
    dialog = begin(qtbot, window)
    press(qtbot, window, "Alt+L", "8", "PgDown", "PgUp")
    assert dialog.rows.measure("longest_new_root_mm").text() == "8"
    press(qtbot, window, "PgDown", "Alt+T", "P", "Esc")
    assert open_dialogs(window) == []
    assert status(window) == "0 looked at, 4 left; F5 goes on."
    assert "Look at A3" in window.unsaved_line()
    assert "Look at A2" in window.unsaved_line()
    go_to(window, "A3")
    settle(qtbot, window)
    window.commands["look"].trigger()
    settle(qtbot, window)
    form = dialog_of(window, LookDialog)
    assert form.measure("longest_new_root_mm").text() == "8"
    form.try_save()
    settle(qtbot, window)
    assert [look.longest_new_root_mm for look in looks_of(benched, "A3")] == [8.0]


def test_f5_goes_on_where_the_walk_was_left(qtbot: QtBot, window: Window) -> None:
    press_all = ("Alt+P", "D", "Ctrl+Return")
    dialog = begin(qtbot, window)
    press(qtbot, window, *press_all, *press_all, "Esc")
    assert status(window) == "2 looked at, 2 left; F5 goes on."
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    QTest.keySequence(window, QKeySequence("F5"))
    settle(qtbot, window)
    dialog = front(qtbot, window)
    assert at(dialog) == ("3 of 4 · East window · Low", "A1")
    dialog.others_button.click()
    settle(qtbot, window)
    chooser = dialog_of(window, WalkChoiceDialog)
    assert open_dialogs(window) == [chooser]
    chooser.reject()


def test_a_look_taken_back_counts_no_more(
    qtbot: QtBot, window: Window, benched: Collection
) -> None:
    dialog = begin(qtbot, window)
    press(qtbot, window, "Alt+P", "D", "Ctrl+Return", "Esc")
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert looks_of(benched, "A3") == []
    window.commands["walk"].trigger()
    settle(qtbot, window)
    dialog = front(qtbot, window)
    press(qtbot, window, "PgUp")
    assert dialog.rows.pot.value is None
    press(qtbot, window, "Alt+P", "W", "Ctrl+Return")
    assert [look.pot for look in looks_of(benched, "A3")] == [Pot.WET]
    dialog.reject()


def test_a_slip_stays_at_its_stop_and_is_told(qtbot: QtBot, window: Window) -> None:
    dialog = begin(qtbot, window)
    for typed, said in (("eighty", "is not a length"), ("4000", "4000")):
        dialog.rows.measure("longest_new_root_mm").setText(typed)
        press(qtbot, window, "Ctrl+Return")
        assert at(dialog)[1] == "A3"
        described = dialog.rows.measure("longest_new_root_mm").accessibleDescription()
        assert said in described
    dialog.rows.measure("longest_new_root_mm").setText("40")
    press(qtbot, window, "Ctrl+Return")
    assert at(dialog)[1] == "A2"
    dialog.reject()


def test_one_place_is_walked_alone_and_those_due_alone(
    qtbot: QtBot, window: Window
) -> None:
    dialog = begin(qtbot, window, "Tent")
    assert at(dialog) == ("1 of 1 · Tent", "B1")
    assert dialog.windowTitle() == "Walk: Tent"
    assert dialog.rows.leaf.isAncestorOf(focused()), "a vanda is asked for its leaf"
    dialog.others_button.click()
    settle(qtbot, window)
    chooser = dialog_of(window, WalkChoiceDialog)
    assert chooser.count.text() == (
        "4 plants, in the order of the benches. 2 due for a look."
    )
    chooser.due.setChecked(True)
    assert chooser.count.text().startswith("2 plants")
    chooser.try_save()
    settle(qtbot, window)
    assert at(dialog_of(window, WalkDialog)) == ("1 of 2 · East window · Top", "A3")
    dialog_of(window, WalkDialog).reject()


def test_a_list_filled_in_on_paper_is_typed_under_its_own_day(
    qtbot: QtBot, window: Window, benched: Collection, today: date
) -> None:
    window.commands["walk"].trigger()
    settle(qtbot, window)
    chooser = dialog_of(window, WalkChoiceDialog)
    chooser.day.setText((today + timedelta(days=1)).isoformat())
    chooser.try_save()
    assert "is still to come" in chooser.day.accessibleDescription()
    evening = today - timedelta(days=2)
    chooser.day.setText(evening.isoformat())
    chooser.try_save()
    settle(qtbot, window)
    dialog = front(qtbot, window)
    assert dialog.windowTitle() == "Walk: All places, looks of 18 May 2026"
    press(qtbot, window, "Alt+P", "D", "Ctrl+Return", "PgDown")
    assert dialog.last.text().startswith("Last look, 15 May 2026:")
    assert dialog.last.text().endswith("Note: sticky leaf")
    assert looks_of(benched, "A3") == [Look(evening, pot=Pot.DRY)]
    dialog.reject()


def test_a_plant_removed_meanwhile_is_passed_on(
    qtbot: QtBot, window: Window, benched: Collection
) -> None:
    dialog = begin(qtbot, window)
    benched.plants.remove((benched.plants.find("A2") or 0,))
    press(qtbot, window, "PgDown")
    assert at(dialog) == ("2 of 3 · East window · Low", "A1")
    dialog.reject()


def test_the_last_photo_stands_beside_the_name(
    qtbot: QtBot, window: Window, benched: Collection, tmp_path: Path
) -> None:
    file = tmp_path / "leaf.png"
    picture = QImage(600, 300, QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.darkGreen)
    assert picture.save(str(file))
    benched.photos.add(benched.plants.find("A3") or 0, (file,))
    dialog = begin(qtbot, window)
    qtbot.waitUntil(lambda: not dialog.photo.pixmap().isNull())
    size = dialog.photo.pixmap().size()
    assert (size.width(), size.height()) == (96, 48)
    press(qtbot, window, "PgDown")
    assert not dialog.photo.isVisible()
    dialog.reject()


def test_the_name_is_typeset_and_never_taken_for_markup(
    qtbot: QtBot, window: Window, benched: Collection
) -> None:
    plant = benched.plants.find("A3") or 0
    draft = benched.plants.get(plant)
    benched.plants.change(plant, replace(draft, name="Laelia anceps <b>'X'</b>"))
    dialog = begin(qtbot, window)
    assert "<b>'" not in dialog.plant.text()
    assert "&lt;b&gt;" in dialog.plant.text()
    press(qtbot, window, "PgDown")
    assert "<i>Oncidium sphacelatum</i>" in dialog.plant.text()
    dialog.reject()


def test_the_day_is_read_anew_once_the_walk_is_left(
    qtbot: QtBot, window: Window, benched: Collection
) -> None:
    del benched
    told: list[object] = []
    window.bus.changed.connect(told.append)
    dialog = begin(qtbot, window)
    press(qtbot, window, "Alt+P", "D", "Ctrl+Return", "F6")
    assert told == [], "what stands behind the walk is not shown after each look"
    dialog.reject()
    settle(qtbot, window)
    assert told == [Changed.LOOKS]
    assert line_of(window, "A3").looked_on == window.desk.today
    window.bus.release()
    assert told == [Changed.LOOKS]


def test_a_walk_that_cannot_be_read_lets_go_of_the_window(
    qtbot: QtBot,
    window: Window,
    benched: Collection,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def broken(*_given: object) -> None:
        raise StoreError("The collection cannot be read.", "Look at the disk.")

    monkeypatch.setattr(benched.walks, "at", broken)
    window.commands["walk"].trigger()
    settle(qtbot, window)
    dialog_of(window, WalkChoiceDialog).try_save()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    told: list[object] = []
    window.bus.changed.connect(told.append)
    window.bus.tell(Changed.PLACES)
    assert told == [Changed.PLACES]


def test_no_plant_is_no_walk(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    window.commands["walk"].trigger()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert status(window) == NO_PLANTS
