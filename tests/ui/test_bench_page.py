"""Benches in the place's dialog: order by keyboard, plants put from bench to bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest

from growdesk.domain.errors import InputError
from growdesk.services.bench_values import BenchDraft
from growdesk.services.values import PlaceDraft
from growdesk.ui.dialogs.bench import BenchDialog
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.plant import PlantDialog
from growdesk.ui.widgets.bench_page import ON_NONE
from growdesk.ui.widgets.order_list import OrderList, shifted
from tests.ui.driving import dialog_of, focused, retype, settle, take_focus

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


@pytest.fixture
def east(stocked: Collection) -> int:
    return stocked.places.all()[0].place_id


@pytest.fixture
def benched(stocked: Collection, east: int) -> Collection:
    """Give two benches: A1 and A2 on top, A3 on none."""
    top, _low = (
        stocked.benches.add(east, BenchDraft(name)).ids[0] for name in ("Top", "Low")
    )
    stocked.benches.put(east, top, [number(stocked, tag) for tag in ("A1", "A2")])
    return stocked


def number(collection: Collection, tag: str) -> int:
    found = collection.plants.find(tag)
    assert found is not None
    return found


def opened(qtbot: QtBot, window: Window) -> PlacesDialog:
    window.commands["places"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, PlacesDialog)
    dialog.pages.setCurrentIndex(2)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    return dialog


def texts(rows: OrderList) -> list[str]:
    return [rows.item(row).text() for row in range(rows.count())]


def stands(collection: Collection, place: int) -> dict[str, list[str]]:
    views = collection.benches.of_place(place).benches
    return {v.draft.name: [each.tag for each in v.plants] for v in views}


def press(qtbot: QtBot, window: Window, key: str) -> None:
    QTest.keySequence(focused(), QKeySequence(key))
    settle(qtbot, window)


@pytest.mark.parametrize(
    ("chosen", "step", "after"),
    [
        ((2,), -1, [2, 1, 3, 4]),
        ((1,), -1, [1, 2, 3, 4]),
        ((4,), 1, [1, 2, 3, 4]),
        ((2, 3), 1, [1, 4, 2, 3]),
        ((1, 3), -1, [1, 3, 2, 4]),
        ((3, 4), 1, [1, 2, 3, 4]),
        ((), 1, [1, 2, 3, 4]),
    ],
)
def test_rows_move_by_one_and_stop_at_the_ends(
    chosen: tuple[int, ...], step: int, after: list[int]
) -> None:
    assert shifted([1, 2, 3, 4], chosen, step) == after


def test_benches_are_shown_in_order_with_their_plants(
    qtbot: QtBot, benched: Collection, window: Window
) -> None:
    del benched
    dialog = opened(qtbot, window)
    page = dialog.benches
    assert texts(page.benches) == ["Top (2)", "Low (0)", f"{ON_NONE} (1)"]
    assert [text.split()[0] for text in texts(page.plants)] == ["A1", "A2"]
    assert dialog.pages.tabText(2) == "&Benches (2)"
    page.benches.setCurrentRow(2)
    assert [text.split()[0] for text in texts(page.plants)] == ["A3"]
    assert page.whose.text() == f"{ON_NONE}: 1 plant"
    assert not page.remove_button.isEnabled()
    dialog.reject()


def test_alt_and_the_arrows_put_benches_and_plants_in_order(
    qtbot: QtBot, benched: Collection, window: Window, east: int
) -> None:
    dialog = opened(qtbot, window)
    page = dialog.benches
    take_focus(page.plants)
    press(qtbot, window, "Alt+Down")
    assert stands(benched, east)["Top"] == ["A2", "A1"]
    assert dialog.message.text() == "Plants along Top put in order"
    take_focus(page.benches)
    press(qtbot, window, "Alt+Down")
    assert list(stands(benched, east)) == ["Low", "Top", ""]
    assert page.benches.currentItem().text() == "Top (2)", "the cursor goes along"
    press(qtbot, window, "Alt+Down")
    assert list(stands(benched, east)) == ["Low", "Top", ""], "none comes after loose"
    assert [line.tag for line in benched.day.week(window.desk.today).lines] == [
        "A2",
        "A1",
        "A3",
    ]
    dialog.reject()
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert list(stands(benched, east)) == ["Top", "Low", ""]


def test_many_keys_at_once_lose_no_step(
    qtbot: QtBot, benched: Collection, window: Window, east: int
) -> None:
    dialog = opened(qtbot, window)
    for name in ("Third", "Fourth"):
        benched.benches.add(east, BenchDraft(name))
    dialog.place_shown.emit(east)
    settle(qtbot, window)
    take_focus(dialog.benches.benches)
    for _ in range(3):
        QTest.keySequence(focused(), QKeySequence("Alt+Down"))
    settle(qtbot, window)
    assert list(stands(benched, east)) == ["Low", "Third", "Fourth", "Top", ""]
    assert texts(dialog.benches.benches)[3] == "Top (2)"
    dialog.reject()


def test_plants_are_put_on_another_bench(
    qtbot: QtBot, benched: Collection, window: Window, east: int
) -> None:
    dialog = opened(qtbot, window)
    page = dialog.benches
    page.plants.selectAll()
    assert [page.to.itemText(n) for n in range(page.to.count())] == ["Low", ON_NONE]
    page.put_button.click()
    settle(qtbot, window)
    assert stands(benched, east) == {"Top": [], "Low": ["A1", "A2"], "": ["A3"]}
    assert texts(page.benches)[:2] == ["Top (0)", "Low (2)"]
    assert not page.put_button.isEnabled()
    dialog.reject()


def test_a_bench_is_added_changed_and_removed(
    qtbot: QtBot, benched: Collection, window: Window, east: int
) -> None:
    dialog = opened(qtbot, window)
    page = dialog.benches
    page.new_button.click()
    form = dialog_of(window, BenchDialog)
    retype(form.name, "top")
    form.try_save()
    settle(qtbot, window)
    assert "is a bench here already" in form.name.accessibleDescription()
    retype(form.name, "Pane")
    form.at_glass.setChecked(True)
    form.try_save()
    settle(qtbot, window)
    assert texts(page.benches)[2] == "Pane, at the glass (0)"
    assert page.benches.currentRow() == 2
    take_focus(page.benches)
    QTest.keyClick(focused(), Qt.Key.Key_Return)
    form = dialog_of(window, BenchDialog)
    assert (form.name.text(), form.at_glass.isChecked()) == ("Pane", True)
    retype(form.name, "Window pane")
    form.try_save()
    settle(qtbot, window)
    assert texts(page.benches)[2] == "Window pane, at the glass (0)"
    page.benches.setCurrentRow(0)
    page.remove_button.click()
    settle(qtbot, window)
    assert stands(benched, east) == {
        "Low": [],
        "Window pane": [],
        "": ["A3", "A1", "A2"],
    }
    dialog.reject()


def test_a_half_named_bench_is_kept(
    qtbot: QtBot, benched: Collection, window: Window
) -> None:
    del benched
    dialog = opened(qtbot, window)
    dialog.benches.new_button.click()
    form = dialog_of(window, BenchDialog)
    retype(form.name, "Rack")
    form.reject()
    dialog.benches.new_button.click()
    again = dialog_of(window, BenchDialog)
    assert again.name.text() == "Rack"
    again.throw_away()
    again.reject()
    dialog.reject()


def test_places_are_put_in_the_order_of_the_round(
    qtbot: QtBot, stocked: Collection, window: Window, east: int
) -> None:
    attic = stocked.places.add(PlaceDraft("Attic")).ids[0]
    dialog = opened(qtbot, window)
    assert [dialog.list.item(row).text() for row in range(2)] == [
        "Attic",
        "East window",
    ]
    take_focus(dialog.list)
    press(qtbot, window, "Alt+Down")
    assert [view.place_id for view in stocked.places.all()] == [east, attic]
    assert dialog.key == attic, "the place in the form stays"
    assert dialog.list.currentRow() == 1
    dialog.shaded.setText("25 %")
    dialog.try_save()
    settle(qtbot, window)
    assert [view.place_id for view in stocked.places.all()] == [east, attic]
    dialog.start_new()
    assert not dialog.benches.new_button.isEnabled()
    assert dialog.pages.tabText(2) == "&Benches"
    dialog.reject()


def test_benches_changed_elsewhere_are_refused_and_shown_anew(
    qtbot: QtBot, benched: Collection, window: Window, east: int
) -> None:
    dialog = opened(qtbot, window)
    benched.benches.add(east, BenchDraft("New"))
    take_focus(dialog.benches.benches)
    press(qtbot, window, "Alt+Down")
    assert list(stands(benched, east)) == ["Top", "Low", "New", ""]
    assert texts(dialog.benches.benches)[2] == "New (0)"
    with pytest.raises(InputError):
        benched.benches.order(east, ())
    dialog.reject()


def test_a_drag_is_an_order_too(qtbot: QtBot) -> None:
    rows = OrderList("Benches")
    qtbot.addWidget(rows)
    rows.show_rows(((1, "a"), (2, "b"), (None, "loose")), ())
    flags = [rows.item(row).flags() for row in range(3)]
    drag, drop = Qt.ItemFlag.ItemIsDragEnabled, Qt.ItemFlag.ItemIsDropEnabled
    assert [bool(each & drag) for each in flags] == [True, True, False]
    assert not any(each & drop for each in flags), "a row is put between, not onto"


def test_a_bench_made_from_the_plant_form_can_be_chosen_there(
    qtbot: QtBot, stocked: Collection, window: Window
) -> None:
    window.forms.change_plant(number(stocked, "A1"))
    settle(qtbot, window)
    plant = dialog_of(window, PlantDialog)
    window.shelf.places(plant)
    settle(qtbot, window)
    dialog = dialog_of(window, PlacesDialog)
    dialog.list.setCurrentRow(0)
    settle(qtbot, window)
    dialog.benches.new_button.click()
    form = dialog_of(window, BenchDialog)
    retype(form.name, "Rack")
    form.try_save()
    settle(qtbot, window)
    offered = plant.plant.where.bench
    assert [offered.itemText(row) for row in range(offered.count())][1:] == ["Rack"]
    dialog.reject()
    plant.reject()
