"""The collection in the window: found, filtered, sorted, selected, by keyboard."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog

from growdesk.domain.facts import Flowering, Look
from growdesk.domain.holding import Status
from growdesk.services.values import PlantDraft
from growdesk.store.schema import SavedViewRow
from growdesk.ui import actions, sizes, theme
from growdesk.ui.dialogs.care import CareDialog
from growdesk.ui.dialogs.columns import ColumnsDialog
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.plant import PlantDialog
from growdesk.ui.dialogs.view_name import ViewNameDialog
from tests.ui.driving import (
    dialog_of,
    front,
    go_to,
    key,
    line_of,
    open_dialogs,
    press,
    settle,
    status,
    take_focus,
    typed,
)
from tests.ui.test_accessible_names import mnemonics, nameless, unlabelled

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.panes.roster import RosterPane
    from growdesk.ui.window import Window

CTRL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def full(stocked: Collection, today: date) -> Collection:
    """Give the stocked collection one plant more that was sold."""
    sold = PlantDraft(
        "B1",
        "Vanda coerulea",
        "vanda",
        status=Status.SOLD,
        left_on=today - timedelta(days=30),
        left_why="grew too tall",
        note="from the señora",
    )
    stocked.plants.add(sold)
    return stocked


@pytest.fixture
def window(full: Collection, show: Callable[[Collection], Window]) -> Window:
    return show(full)


def open_it(qtbot: QtBot, window: Window) -> RosterPane:
    """Bring the collection into sight by its key."""
    front(qtbot, window)
    window.commands["collection"].trigger()
    settle(qtbot, window)
    return window.roster.pane


def tags(pane: RosterPane) -> list[str]:
    return [entry.line.tag for entry in pane.model.rows]


def here(pane: RosterPane) -> str:
    return pane.model.rows[pane.table.currentIndex().row()].line.tag


def picked(pane: RosterPane) -> list[str]:
    return [line.tag for line in pane.picked()]


def take(window: Window, name: str) -> None:
    pane = window.roster.pane
    pane.take(next(each for each in pane.views if each.draft.name == name))


def shown(window: Window) -> str:
    assert window.detail.detail is not None
    return window.detail.detail.draft.tag


# -- in sight --------------------------------------------------------------------------


def test_the_key_shows_all_that_grows_and_goes_back(
    qtbot: QtBot, window: Window
) -> None:
    window.resize(1280, 800)
    go_to(window, "A2")
    settle(qtbot, window)
    widths = window.split.sizes()
    pane = open_it(qtbot, window)
    assert window.head.modes.buttons["collection"].isChecked()
    assert tags(pane) == ["A1", "A2", "A3"]
    assert (here(pane), picked(pane), shown(window)) == ("A2", ["A2"], "A2")
    assert pane.count.text() == "3 plants"
    assert pane.table.hasFocus()
    assert pane.table.horizontalScrollBar().maximum() == 0
    assert status(window).startswith("Enter changes the plant")
    key(Qt.Key.Key_Down)
    settle(qtbot, window)
    assert shown(window) == "A3"
    window.commands["collection"].trigger()
    settle(qtbot, window)
    assert window.split.sizes() == widths
    assert window.day_list.chosen == line_of(window, "A3").plant_id
    assert shown(window) == "A3"


def test_every_control_has_a_name_and_a_letter_of_its_own(
    qtbot: QtBot, window: Window
) -> None:
    open_it(qtbot, window)
    assert nameless(window) == []
    assert unlabelled(window) == []
    menus = [title[title.index("&") + 1].casefold() for title in actions.MENUS.values()]
    found = menus + mnemonics(window)
    assert sorted(found) == sorted(set(found))


def test_an_empty_collection_says_what_will_stand_here(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    pane = open_it(qtbot, window)
    assert pane.first.isVisible()
    assert pane.first.hasFocus()
    assert not pane.find_line.isVisible()
    key(Qt.Key.Key_Space)
    settle(qtbot, window)
    dialog_of(window, PlantDialog).reject()


def test_the_colours_turn_with_the_window(qtbot: QtBot, window: Window) -> None:
    pane = open_it(qtbot, window)
    light = pane.table.grab().toImage()
    window.theme.choose(theme.Mode.DARK)
    settle(qtbot, window)
    assert pane.table.grab().toImage() != light


# -- found -----------------------------------------------------------------------------


def test_a_letter_starts_a_find_and_escape_ends_it(
    qtbot: QtBot, window: Window
) -> None:
    pane = open_it(qtbot, window)
    typed("oncid")
    assert (pane.find_line.text(), tags(pane)) == ("oncid", ["A2"])
    assert pane.count.text() == "1 of 3 plants"
    settle(qtbot, window)
    assert shown(window) == "A2"
    key(Qt.Key.Key_Return)
    assert pane.table.hasFocus()
    key(Qt.Key.Key_Escape)
    assert tags(pane) == ["A1", "A2", "A3"]
    assert here(pane) == "A2"


def test_what_is_not_here_is_said_and_cleared(qtbot: QtBot, window: Window) -> None:
    pane = open_it(qtbot, window)
    typed("senora")
    assert pane.nothing.isVisible()
    assert "“senora”" in pane.nothing.text()
    assert "Without this view's filters 1 plant has it." in pane.nothing.text()
    press(pane, "Clear find and filters")
    assert (pane.find_line.text(), tags(pane)) == ("", ["A1", "A2", "A3"])
    assert pane.table.hasFocus()


def test_find_in_the_menu_goes_to_the_find_in_sight(
    qtbot: QtBot, window: Window
) -> None:
    pane = open_it(qtbot, window)
    window.commands["find"].trigger()
    assert pane.find_line.hasFocus()
    key(Qt.Key.Key_Escape)
    assert pane.table.hasFocus()


# -- filtered and sorted ---------------------------------------------------------------


def test_the_choosers_filter_and_what_left_is_shown_when_asked(
    qtbot: QtBot, window: Window
) -> None:
    pane = open_it(qtbot, window)
    QTest.keyClick(pane.filters.whose, Qt.Key.Key_Down)
    settle(qtbot, window)
    assert tags(pane) == ["B1"]
    assert shown(window) == "B1"
    QTest.keyClick(pane.filters.whose, Qt.Key.Key_Down)
    assert len(tags(pane)) == 4
    QTest.keyClick(pane.filters.kind, Qt.Key.Key_Down)
    first = pane.filters.kind.currentText()
    assert [e.line.kind_title for e in pane.model.rows] == [first]
    assert pane.filters.named() == (f"kind {first}",)
    settle(qtbot, window)


def test_the_only_menu_keeps_what_flowers(
    qtbot: QtBot, window: Window, full: Collection, today: date
) -> None:
    plant = full.plants.find("A2")
    assert plant is not None
    full.looks.record(plant, Look(today, flowering=frozenset({Flowering.OPEN})))
    window.desk.show_day()
    pane = open_it(qtbot, window)
    assert pane.count.text() == "3 plants; 1 in flower"
    menu = pane.filters.only.menu()
    next(a for a in menu.actions() if a.text() == "In flower or bud").trigger()
    assert tags(pane) == ["A2"]
    assert pane.filters.only.text() == "Only… (1)"
    take(window, "All plants")
    assert pane.filters.only.text() == "Only…"
    settle(qtbot, window)


def test_sorting_by_heading_and_by_key(qtbot: QtBot, window: Window) -> None:
    pane = open_it(qtbot, window)
    head = pane.table.horizontalHeader()
    name = [column.key for column in pane.model.columns].index("name")
    where = head.sectionViewportPosition(name) + 20
    spot = head.viewport().rect().center()
    spot.setX(where)
    QTest.mouseClick(head.viewport(), Qt.MouseButton.LeftButton, pos=spot)
    assert tags(pane) == ["A1", "A3", "A2"]
    assert head.sortIndicatorSection() == name
    pane.table.setFocus()
    key(Qt.Key.Key_Home)
    key(Qt.Key.Key_F3)
    assert pane.arrangement.order == ("tag", False)
    key(Qt.Key.Key_F3)
    assert tags(pane) == ["A3", "A2", "A1"]
    settle(qtbot, window)


def test_a_column_is_dragged_widened_and_all_is_remembered(
    qtbot: QtBot, window: Window, full: Collection, show: Callable[[Collection], Window]
) -> None:
    pane = open_it(qtbot, window)
    head = pane.table.horizontalHeader()
    head.moveSection(0, 2)
    qtbot.waitUntil(lambda: pane.model.columns[2].key == "tag")
    assert [head.logicalIndex(n) for n in range(head.count())] == list(
        range(head.count())
    )
    keys = [column.key for column in pane.model.columns]
    assert keys[:3] == ["name", "place", "tag"]
    pane.table.setColumnWidth(0, 222)
    pane.sort_by("name")
    settle(qtbot, window)
    again = open_it(qtbot, show(full))
    assert [column.key for column in again.model.columns] == keys
    assert again.table.columnWidth(0) == 222
    assert again.arrangement.order == ("name", False)


def test_columns_are_chosen_and_moved_by_keyboard(qtbot: QtBot, window: Window) -> None:
    pane = open_it(qtbot, window)
    window.commands["columns"].trigger()
    dialog = dialog_of(window, ColumnsDialog)
    take_focus(dialog.list)
    key(Qt.Key.Key_Space)
    key(Qt.Key.Key_Down)
    key(Qt.Key.Key_Down, ALT)
    assert dialog.keys()[:2] == ("place", "name")
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert [c.key for c in pane.model.columns][:3] == ["place", "name", "verdict"]


def test_no_column_at_all_is_refused_and_the_usual_ones_come_back(
    qtbot: QtBot, window: Window
) -> None:
    pane = open_it(qtbot, window)
    before = pane.model.columns
    window.commands["columns"].trigger()
    dialog = dialog_of(window, ColumnsDialog)
    for row in range(dialog.list.count()):
        dialog.list.item(row).setCheckState(Qt.CheckState.Unchecked)
    key(Qt.Key.Key_Return)
    assert dialog.isVisible()
    press(dialog, "Usual &columns")
    press(dialog, "Show these")
    settle(qtbot, window)
    assert pane.model.columns == before


# -- views -----------------------------------------------------------------------------


def name_it(qtbot: QtBot, window: Window, name: str) -> None:
    dialog = dialog_of(window, ViewNameDialog)
    dialog.name.setText(name)
    QTest.keyClick(dialog, Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)


def test_a_view_is_kept_changed_named_forgotten_and_undone(
    qtbot: QtBot, window: Window, full: Collection
) -> None:
    pane = open_it(qtbot, window)
    typed("sill")
    pane.find_line.setText("laelia")
    window.commands["keep-view"].trigger()
    name_it(qtbot, window, "Mexicans")
    assert pane.chooser.currentText() == "Mexicans"
    kept = full.views.all()[-1]
    assert (kept.draft.find, kept.draft.order) == ("laelia", "place")
    assert kept.draft.columns == tuple(column.key for column in pane.model.columns)
    take(window, "All plants")
    assert tags(pane) == ["A1", "A2", "A3"]
    take(window, "Mexicans")
    assert (pane.find_line.text(), tags(pane)) == ("laelia", ["A3"])
    pane.sort_by("name")
    window.commands["keep-view"].trigger()
    dialog = dialog_of(window, ViewNameDialog)
    assert dialog.name.text() == "Mexicans"
    name_it(qtbot, window, "mexicans")
    assert [v.draft.order for v in full.views.all() if v.view_id] == ["name"]
    window.commands["rename-view"].trigger()
    name_it(qtbot, window, "From Mexico")
    assert pane.chooser.currentText() == "From Mexico"
    window.commands["remove-view"].trigger()
    settle(qtbot, window)
    assert pane.chooser.currentText() == "All plants"
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert pane.views[-1].draft.name == "From Mexico"


def test_views_that_came_along_stay(qtbot: QtBot, window: Window) -> None:
    open_it(qtbot, window)
    window.commands["remove-view"].trigger()
    assert status(window) == "This view came with growdesk and stays."
    window.commands["rename-view"].trigger()
    assert status(window).startswith("This view came with growdesk; keep it")
    window.commands["keep-view"].trigger()
    name_it(qtbot, window, "all plants")
    dialog = dialog_of(window, ViewNameDialog)
    assert dialog.isVisible()
    dialog.reject()


def test_a_damaged_view_is_told_when_it_is_chosen(
    qtbot: QtBot, window: Window, full: Collection
) -> None:
    with full.ledger.writing("damage") as writing:
        writing.insert(SavedViewRow, {"name": "Broken", "what": "{"})
    pane = open_it(qtbot, window)
    take(window, "Broken")
    assert status(window).startswith("The view Broken cannot be read any more.")
    assert tags(pane) == ["A1", "A2", "A3"]
    settle(qtbot, window)


# -- what commands act on --------------------------------------------------------------


def test_enter_changes_the_plant_under_the_cursor_also_one_that_left(
    qtbot: QtBot, window: Window
) -> None:
    pane = open_it(qtbot, window)
    take(window, "Left the collection")
    settle(qtbot, window)
    assert (here(pane), shown(window)) == ("B1", "B1")
    pane.table.setFocus()
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    dialog = dialog_of(window, PlantDialog)
    assert dialog.windowTitle() == "Plant B1"
    dialog.reject()


def test_what_left_is_still_changed_when_nothing_grows_here_any_more(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    sold = PlantDraft("B1", "Vanda coerulea", "vanda", status=Status.SOLD)
    collection.plants.add(replace(sold, left_on=collection.clock.today()))
    window = show(collection)
    assert not window.commands["change-plant"].isEnabled()
    pane = open_it(qtbot, window)
    take(window, "Left the collection")
    settle(qtbot, window)
    assert shown(window) == "B1"
    pane.table.setFocus()
    key(Qt.Key.Key_Return)
    settle(qtbot, window)
    dialog_of(window, PlantDialog).reject()
    window.faces.show_day()
    assert not window.commands["change-plant"].isEnabled()


def test_a_look_is_of_the_plant_under_the_cursor(qtbot: QtBot, window: Window) -> None:
    open_it(qtbot, window)
    key(Qt.Key.Key_Down)
    key(Qt.Key.Key_Down)
    key(Qt.Key.Key_L, CTRL)
    settle(qtbot, window)
    dialog = dialog_of(window, LookDialog)
    assert dialog.windowTitle().startswith("Look at A3")
    dialog.reject()


def test_many_are_repotted_at_once_from_the_table(qtbot: QtBot, window: Window) -> None:
    pane = open_it(qtbot, window)
    key(Qt.Key.Key_Down, SHIFT)
    assert picked(pane) == ["A1", "A2"]
    assert pane.count.text().endswith("; 2 selected")
    window.commands["repot"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, CareDialog)
    QTest.keyClick(dialog, Qt.Key.Key_Return, CTRL)
    settle(qtbot, window)
    assert open_dialogs(window) == []
    repotted = {line.tag for line in window.roster.pane.model.lines if line.repotted_on}
    assert repotted == {"A1", "A2"}
    assert picked(pane) == ["A1", "A2"]


def test_space_ticks_and_delete_removes_what_is_selected_here(
    qtbot: QtBot, window: Window, full: Collection
) -> None:
    pane = open_it(qtbot, window)
    key(Qt.Key.Key_Space)
    settle(qtbot, window)
    assert line_of(window, "A1").done is not None
    take(window, "Left the collection")
    settle(qtbot, window)
    pane.table.setFocus()
    key(Qt.Key.Key_Space)
    settle(qtbot, window)
    assert status(window) == "What is selected is not growing here any more."
    key(Qt.Key.Key_Delete)
    settle(qtbot, window)
    assert full.plants.find("B1") is None
    assert pane.nothing.isVisible()


def test_the_cursor_of_the_table_holds_the_detail_through_a_write(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A1")
    pane = open_it(qtbot, window)
    key(Qt.Key.Key_Down)
    settle(qtbot, window)
    key(Qt.Key.Key_Space)
    settle(qtbot, window)
    assert (here(pane), shown(window)) == ("A2", "A2")


def test_a_new_plant_gets_the_cursor(
    qtbot: QtBot, window: Window, full: Collection
) -> None:
    pane = open_it(qtbot, window)
    made = full.plants.add(PlantDraft("A4", "Brassavola nodosa", "")).ids[0]
    window.forms.plant_added.emit(made)
    window.desk.show_day()
    settle(qtbot, window)
    assert here(pane) == "A4"
    assert shown(window) == "A4"


def test_ten_thousand_lines_keep_their_selection_in_one_stroke(
    qtbot: QtBot, window: Window
) -> None:
    pane = open_it(qtbot, window)
    some = pane.model.rows[0].line
    many = [
        replace(some, plant_id=n, tag=f"T{n}", walk=(0, "", 0, n, n))
        for n in range(10_000)
    ]
    pane.show_plants(many, {}, window.desk.on)
    pane.table.selectAll()
    strokes: list[int] = []
    selection = pane.table.selectionModel()
    selection.selectionChanged.connect(lambda *_both: strokes.append(1))
    pane.sort_by("tag")
    assert len(selection.selectedRows()) == 10_000
    assert len(strokes) <= 2
    every = QItemSelectionModel.SelectionFlag.Clear
    selection.select(pane.model.index(0, 0), every)
    settle(qtbot, window)


# -- to other programs -----------------------------------------------------------------


def test_selected_rows_are_copied(qtbot: QtBot, window: Window) -> None:
    open_it(qtbot, window)
    key(Qt.Key.Key_Down, SHIFT)
    key(Qt.Key.Key_C, CTRL)
    copied = QGuiApplication.clipboard().text().splitlines()
    assert copied[0].startswith("Tag\tName\tPlace\tVerdict\tLast look")
    assert [row.split("\t")[0] for row in copied[1:]] == ["A1", "A2"]
    assert status(window) == "Copied 2 plants, as the columns are."
    settle(qtbot, window)


def test_the_table_is_saved_as_it_is_shown(
    qtbot: QtBot, window: Window, tmp_path: object
) -> None:
    pane = open_it(qtbot, window)
    pane.find_line.setText("laelia")
    window.commands["save-table"].trigger()
    dialog = dialog_of(window, QFileDialog)
    name = f"{tmp_path}/mine.csv"
    dialog.fileSelected.emit(name)
    dialog.reject()
    settle(qtbot, window)
    with open(name, encoding="utf-8-sig") as file:  # noqa: PTH123 -- a plain name
        rows = file.read().splitlines()
    assert [row.split(",")[0] for row in rows] == ["Tag", "A3"]
    assert status(window) == f"Saved {name}"


def test_the_filters_are_read_however_narrow_the_window(
    qtbot: QtBot, window: Window
) -> None:
    window.resize(1024, 700)
    window.faces.go("collection")
    settle(qtbot, window)
    for per_cent in (100, 150):
        sizes.current().choose(per_cent)
        settle(qtbot, window)
        QApplication.processEvents()
        for combo in window.roster.pane.filters.combos:
            assert combo.shown_text() == combo.currentText(), per_cent
    sizes.current().choose(100)
