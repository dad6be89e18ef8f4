"""Places in their dialog: what they look to, and the table of what was read there."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QWidget

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Facing, Glass, Reading
from growdesk.services.values import PlaceDraft, PlaceView, ReadingView
from growdesk.ui import typed
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.reading import ReadingDialog
from growdesk.ui.models.reading_model import COLUMNS, ReadingModel, spoken
from growdesk.ui.widgets.form import choose
from tests.ui.driving import dialog_of, press, retype, settle

if TYPE_CHECKING:
    from pytestqt.modeltest import ModelTester
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

ON = date(2026, 5, 20)
WINDOW = PlaceDraft(
    "Bay",
    lamps_hours=12.0,
    lamps_ppfd=90.0,
    facing=Facing.SOUTH_WEST,
    glass=Glass.TRIPLE,
    shaded=0.25,
    note="by the bench",
)
WHOLE = Reading(ON, 18.5, 15.0, 22.25, 7.54, 62.4)


def bay(draft: PlaceDraft = WINDOW) -> PlacesDialog:
    dialog = PlacesDialog(None, ON)
    view = PlaceView(1, draft, 3, 20.04, 61.6, "By its window it has light.")
    dialog.show_places((view,), None)
    return dialog


def errors(widget: QWidget) -> list[str]:
    """Give the error lines that show."""
    return [
        each.text()
        for each in widget.findChildren(QLabel)
        if each.property("tone") == "wrong" and each.text() and each.isVisible()
    ]


def open_places(qtbot: QtBot, window: Window) -> PlacesDialog:
    window.commands["places"].trigger()
    settle(qtbot, window)
    return dialog_of(window, PlacesDialog)


@pytest.fixture
def place(collection: Collection) -> int:
    return collection.places.all()[0].place_id


# -- the place --------


def test_a_place_goes_out_as_it_came_in(qtbot: QtBot) -> None:
    dialog = bay()
    qtbot.addWidget(dialog)
    assert dialog.draft() == WINDOW
    assert dialog.shaded.text() == "25 %"
    assert dialog.facing.currentText() == "south-west"
    assert dialog.glass.currentText() == "three panes"
    assert dialog.changes() == {}


def test_a_place_of_which_nothing_is_known_says_so(qtbot: QtBot) -> None:
    dialog = bay(PlaceDraft("Bay"))
    qtbot.addWidget(dialog)
    assert dialog.draft() == PlaceDraft("Bay")
    assert dialog.facing.currentText() == "not recorded"
    assert dialog.glass.currentText() == "not recorded"


def test_every_facing_and_glass_can_be_chosen(qtbot: QtBot) -> None:
    dialog = bay()
    qtbot.addWidget(dialog)
    for facing in Facing:
        choose(dialog.facing, facing)
        assert dialog.draft().facing is facing
    for glass in Glass:
        choose(dialog.glass, glass)
        assert dialog.draft().glass is glass


def test_the_place_is_told_in_a_line(qtbot: QtBot) -> None:
    dialog = bay()
    qtbot.addWidget(dialog)
    assert dialog.stand.text() == (
        "3 plants here. By its window it has light. Mean of the last 7 days: 20.0 °C, "
        "humidity 62 %."
    )
    dialog.start_new()
    assert dialog.stand.text() == "Add the place first, then its readings."


def test_the_window_of_a_place_is_written_and_told(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    dialog = open_places(qtbot, window)
    choose(dialog.facing, Facing.SOUTH)
    choose(dialog.glass, Glass.DOUBLE)
    retype(dialog.shaded, "25 %")
    press(dialog, "Save")
    settle(qtbot, window)
    draft = collection.places.all()[0].draft
    assert (draft.facing, draft.glass, draft.shaded) == (
        Facing.SOUTH,
        Glass.DOUBLE,
        0.25,
    )
    assert "By its south window it has about" in dialog.stand.text()
    assert "mol of light today" in dialog.stand.text()


def test_a_slip_in_the_place_is_told_on_its_own_tab(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    dialog = open_places(qtbot, window)
    retype(dialog.shaded, "120")
    dialog.pages.setCurrentIndex(1)
    dialog.try_save()
    assert dialog.pages.currentIndex() == 0
    (error,) = errors(dialog)
    assert "0 to 95" in error
    assert collection.places.all()[0].draft.shaded is None


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("", None),
        ("none", 0.0),
        ("0", 0.0),
        ("25 %", 0.25),
        ("25%", 0.25),
        ("95", 0.95),
    ],
)
def test_shade_is_typed_in_per_cent(text: str, share: float | None) -> None:
    assert typed.share(text, "shaded") == (
        None if share is None else pytest.approx(share)
    )


@pytest.mark.parametrize("text", ["96", "-1", "half", "25 % or so"])
def test_what_is_no_shade_is_refused(text: str) -> None:
    with pytest.raises(InputError) as caught:
        typed.share(text, "shaded")
    assert caught.value.field == "shaded"


# -- the table --------


def test_the_model_is_sound(qtmodeltester: ModelTester) -> None:
    model = ReadingModel()
    model.show((ReadingView(2, WHOLE), ReadingView(1, Reading(ON, None, 10.0, 20.0))))
    qtmodeltester.check(model)  # type: ignore[no-untyped-call]
    cells = [
        [model.data(model.index(row, column)) for column in range(len(COLUMNS))]
        for row in range(model.rowCount())
    ]
    assert cells == [
        ["20 May 2026", "18.5", "15.0", "22.2", "7.5", "62"],
        ["20 May 2026", "", "10.0", "20.0", "", ""],
    ]
    role = Qt.ItemDataRole.AccessibleTextRole
    assert model.data(model.index(1, 3), role) == (
        "20 May 2026, low 10.0 °C, high 20.0 °C"
    )
    assert spoken(WHOLE).endswith("light 7.5 mol, humidity 62 %")


def test_all_that_was_read_is_written_down_and_shown(
    qtbot: QtBot, window: Window, collection: Collection, place: int
) -> None:
    collection.readings.write(place, Reading(ON - timedelta(days=3), 19.0))
    dialog = open_places(qtbot, window)
    dialog.pages.setCurrentIndex(1)
    retype(dialog.mean, "70 °F")
    retype(dialog.low, "18")
    retype(dialog.high, "24")
    retype(dialog.light, "6.5")
    retype(dialog.humidity, "60 %")
    press(dialog, "Save the reading")
    settle(qtbot, window)
    (new, old) = collection.readings.of_place(place)
    assert old.reading == Reading(ON - timedelta(days=3), 19.0)
    assert new.reading.mean_c == pytest.approx(21.1, abs=0.05)
    assert new.reading.low_c == 18.0
    assert new.reading.light_mol_per_m2_d == 6.5
    assert new.reading.humidity_percent == 60.0
    assert dialog.table.model.views == (new, old)
    assert dialog.pages.tabText(1) == "&Readings (2)"
    assert [dialog.mean.text(), dialog.light.text(), dialog.humidity.text()] == [""] * 3


@pytest.mark.parametrize(
    ("field", "text"), [("light", "bright"), ("humidity", "101"), ("low", "99")]
)
def test_a_slip_in_a_reading_is_told_and_kept_as_typed(
    field: str, text: str, qtbot: QtBot, window: Window, collection: Collection
) -> None:
    dialog = open_places(qtbot, window)
    dialog.pages.setCurrentIndex(1)
    edit = getattr(dialog, field)
    retype(edit, text)
    press(dialog, "Save the reading")
    settle(qtbot, window)
    assert len(errors(dialog)) == 1
    assert edit.property("wrong") is True
    assert edit.text() == text
    assert dialog.pages.currentIndex() == 1
    assert collection.readings.of_place(1) == ()


def test_a_reading_is_put_right_by_keyboard(
    qtbot: QtBot, window: Window, collection: Collection, place: int
) -> None:
    collection.readings.write(place, WHOLE)
    dialog = open_places(qtbot, window)
    dialog.pages.setCurrentIndex(1)
    dialog.table.rows.setFocus()
    dialog.table.rows.selectRow(0)
    QTest.keyClick(dialog.table.rows, Qt.Key.Key_Return)
    settle(qtbot, window)
    form = dialog_of(window, ReadingDialog)
    assert form.fields.lines["light_mol_per_m2_d"].text() == "7.54"
    retype(form.fields.lines["mean_c"], "17")
    form.fields.lines["humidity_percent"].clear()
    press(form, "Save")
    settle(qtbot, window)
    (view,) = collection.readings.of_place(place)
    assert view.reading == Reading(ON, 17.0, 15.0, 22.25, 7.54)
    assert dialog.table.model.views == (view,)
    assert "corrected" in dialog.message.text()


def test_a_slip_while_putting_right_keeps_the_form(
    qtbot: QtBot, window: Window, collection: Collection, place: int
) -> None:
    collection.readings.write(place, WHOLE)
    dialog = open_places(qtbot, window)
    dialog.pages.setCurrentIndex(1)
    dialog.table.rows.selectRow(0)
    press(dialog, "Change…")
    settle(qtbot, window)
    form = dialog_of(window, ReadingDialog)
    retype(form.fields.lines["on"], "2026-05-21")
    press(form, "Save")
    settle(qtbot, window)
    (error,) = errors(form)
    assert "still to come" in error
    assert form.isVisible()
    assert collection.readings.of_place(place)[0].reading == WHOLE


def test_readings_are_removed_by_delete_and_come_back_by_undo(
    qtbot: QtBot, window: Window, collection: Collection, place: int
) -> None:
    for days in range(3):
        collection.readings.write(place, Reading(ON - timedelta(days=days), 20.0))
    dialog = open_places(qtbot, window)
    dialog.pages.setCurrentIndex(1)
    rows = dialog.table.rows
    chosen = rows.selectionModel()
    for row in (0, 2):
        chosen.select(
            dialog.table.model.index(row, 0),
            QItemSelectionModel.SelectionFlag.Select
            | QItemSelectionModel.SelectionFlag.Rows,
        )
    assert not dialog.table.change_button.isEnabled()
    QTest.keyClick(rows, Qt.Key.Key_Delete)
    settle(qtbot, window)
    left = collection.readings.of_place(place)
    assert [view.reading.on for view in left] == [ON - timedelta(days=1)]
    assert dialog.table.model.views == left
    assert not dialog.table.remove_button.isEnabled()
    dialog.reject()
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert len(collection.readings.of_place(place)) == 3


def test_readings_belong_to_the_place_in_the_form(
    qtbot: QtBot, window: Window, collection: Collection, place: int
) -> None:
    other = collection.places.add(PlaceDraft("West window")).ids[0]
    collection.readings.write(place, Reading(ON, 20.0))
    collection.readings.write(other, Reading(ON, 5.0))
    dialog = open_places(qtbot, window)
    dialog.list.setCurrentRow(1)
    settle(qtbot, window)
    assert [view.reading for view in dialog.table.model.views] == [Reading(ON, 5.0)]
    dialog.show_readings(place, ())
    assert dialog.table.model.rowCount() == 1, "an answer that came too late"
    dialog.start_new()
    assert dialog.table.model.rowCount() == 0
    assert not dialog.table.isVisibleTo(dialog)
