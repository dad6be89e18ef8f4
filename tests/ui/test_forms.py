"""Forms for plants, places, tins, waters and rules: drafts out, slips beside fields."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLineEdit

from growdesk.domain.facts import Medium, Overrule, Size, Verdict, Water
from growdesk.services.recipe_values import PartDraft, RecipeDraft
from growdesk.services.values import PlantDraft
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.plant import PlantDialog, PlantStart
from growdesk.ui.dialogs.rule_editors import WeekdaysEdit
from growdesk.ui.dialogs.settings import SettingsDialog
from growdesk.ui.dialogs.tin import TinsDialog
from growdesk.ui.dialogs.water import WatersDialog
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.month_day import MonthDayEdit
from tests.ui.driving import (
    dialog_of,
    go_to,
    line_of,
    open_dialogs,
    press,
    retype,
    settle,
    status,
)

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtWidgets import QWidget
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

FULL = PlantDraft(
    tag="A7",
    name="Cattleya labiata 'Harbour'",
    kind="cattleya",
    place_id=None,
    bench=4,
    hybrid=True,
    pot_volume_l=1.5,
    volume_l=0.3,
    medium=Medium.BARK,
    mounted=False,
    size=Size.BLOOMING,
    under_cover=True,
    repotted_on=date(2026, 4, 2),
    slow_release_until=date(2026, 7, 1),
    full_strength_ppm_n=120,
    feed_ceiling_ppm_n=200,
    feed_interval_days=7,
    ignores_rest=True,
    overrule=Overrule(
        Verdict.KEEP_DRY, "just divided", date(2026, 6, 1), Water.NONE, date(2026, 5, 1)
    ),
    acquired_on=date(2024, 3, 9),
    source="a friend",
    note="by the door",
)
KINDS = (("cattleya", "Cattleya"), ("vanda", "Vanda"))


def errors(widget: QWidget) -> list[str]:
    return [
        label.text()
        for label in widget.findChildren(QLabel)
        if label.property("tone") == "wrong" and label.isVisible() and label.text()
    ]


def plant_form(qtbot: QtBot, draft: PlantDraft, plant_id: int | None) -> PlantDialog:
    start = PlantStart(plant_id, draft, KINDS, ())
    dialog = PlantDialog(None, start, lambda name: "vanda" if "Van" in name else "")
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    return dialog


def test_a_plant_form_hands_out_what_it_was_given(qtbot: QtBot) -> None:
    assert plant_form(qtbot, FULL, 3).draft() == FULL


def test_the_kind_is_guessed_until_it_is_chosen(qtbot: QtBot) -> None:
    dialog = plant_form(qtbot, PlantDraft("A1", "", ""), None)
    QTest.keyClicks(dialog.name, "Vanda")
    qtbot.waitUntil(lambda: dialog.draft().kind == "vanda")
    dialog.kind.setFocus()
    QTest.keyClicks(dialog.kind, "Catt")
    dialog.kind.activated.emit(dialog.kind.currentIndex())
    QTest.keyClicks(dialog.name, " Van")
    with qtbot.waitSignal(dialog.guess_pause.timeout):
        pass
    assert dialog.draft().kind == "cattleya"


@pytest.mark.parametrize(
    ("field", "typed", "said", "tab"),
    [
        ("pot_volume_l", "1.5", "has no unit", 0),
        ("pot_volume_l", "-1 L", "must be more than nothing", 0),
        ("full_strength_ppm_n", "strong", "is not a number", 1),
        ("feed_interval_days", "6.5", "is not a whole number", 1),
        ("until", "soon", "is not a day", 1),
        ("reason", "", "is empty", 1),
        ("acquired_on", "2026-13-01", "is not a day", 2),
    ],
)
def test_a_slip_opens_its_tab_and_stands_beside_its_field(
    qtbot: QtBot, field: str, typed: str, said: str, tab: int
) -> None:
    dialog = plant_form(qtbot, FULL, 3)
    got: list[object] = []
    dialog.saved.connect(got.append)
    edit = dialog.forms[tab].editor(field)
    assert isinstance(edit, QLineEdit)
    edit.setText(typed)
    dialog.try_save()
    assert got == []
    assert dialog.tabs.currentIndex() == tab
    (error,) = errors(dialog)
    assert said in error
    assert edit.text() == typed


def test_a_tag_that_is_taken_is_told_beside_it(qtbot: QtBot, window: Window) -> None:
    window.commands["add-plant"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, PlantDialog)
    assert dialog.tag.text() == "A4"
    retype(dialog.tag, "A1")
    QTest.keyClicks(dialog.name, "Brassavola nodosa")
    dialog.try_save()
    settle(qtbot, window)
    assert dialog.isVisible()
    (error,) = errors(dialog)
    assert "is on another plant already" in error
    assert dialog.name.text() == "Brassavola nodosa"
    retype(dialog.tag, "A4")
    dialog.try_save()
    settle(qtbot, window)
    assert line_of(window, "A4").name == "Brassavola nodosa"
    assert window.day_list.chosen == line_of(window, "A4").plant_id
    assert len(open_dialogs(window)) == 1, "its first look is offered right away"


def test_an_overrule_turns_the_verdict(qtbot: QtBot, window: Window) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    window.commands["change-plant"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, PlantDialog)
    choose(dialog.rules.overrule, Verdict.KEEP_DRY)
    dialog.rules.reason.setText("just divided")
    dialog.rules.until.setText("2026-06-01")
    dialog.try_save()
    settle(qtbot, window)
    assert line_of(window, "A1").verdict is Verdict.KEEP_DRY
    assert window.desk.detail is not None
    assert "just divided" in window.desk.detail.told[0].sentence


def test_places_are_added_changed_read_and_removed(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    window.commands["places"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, PlacesDialog)
    press(dialog, "New place")
    retype(dialog.name, "Lamp shelf")
    retype(dialog.hours, "12")
    dialog.try_save()
    settle(qtbot, window)
    (error,) = errors(dialog)
    assert dialog.name.text() == "Lamp shelf"
    retype(dialog.ppfd, "150")
    dialog.try_save()
    settle(qtbot, window)
    assert [view.draft.name for view in collection.places.all()] == [
        "East window",
        "Lamp shelf",
    ]
    dialog.pages.setCurrentIndex(1)
    retype(dialog.mean, "70 °F")
    press(dialog, "Save the reading")
    settle(qtbot, window)
    shelf = collection.places.all()[1]
    assert shelf.mean_7_days_c == pytest.approx(21.1, abs=0.05)
    assert dialog.mean.text() == ""
    dialog.pages.setCurrentIndex(0)
    press(dialog, "Remove")
    settle(qtbot, window)
    assert len(collection.places.all()) == 1
    press(dialog, "Remove")
    settle(qtbot, window)
    (error,) = errors(dialog)
    assert "A1" in error
    assert len(collection.places.all()) == 1


def test_a_temperature_that_is_none_is_told_and_kept_as_typed(
    qtbot: QtBot, window: Window
) -> None:
    window.commands["places"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, PlacesDialog)
    dialog.pages.setCurrentIndex(1)
    retype(dialog.mean, "warm")
    press(dialog, "Save the reading")
    (error,) = errors(dialog)
    assert "is not a temperature" in error
    assert dialog.mean.text() == "warm"


def test_another_tin_changes_the_dose_and_an_analysis_over_the_top_is_refused(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    window.commands["tins"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, TinsDialog)
    press(dialog, "New tin")
    dialog.in_use.setChecked(True)
    retype(dialog.name, "Bottle")
    retype(dialog.analysis, "60-60-60")
    dialog.try_save()
    settle(qtbot, window)
    (error,) = errors(dialog)
    assert "60-60-60" in error
    retype(dialog.analysis, "7-5-6")
    retype(dialog.density, "1.2 g/mL")
    dialog.try_save()
    settle(qtbot, window)
    assert [tin.draft.in_use for tin in collection.mixing.tins()].count(True) == 1
    dose = window.mixing.findChild(QLabel, "amount")
    assert isinstance(dose, QLabel)
    assert dose.text().endswith(" mL")
    assert "Bottle" in [each.text() for each in window.mixing.findChildren(QLabel)]
    press(dialog, "Close")
    window.mixing.recipe.setFocus()
    QTest.keyClicks(window.mixing.recipe, "Blue")
    window.mixing.recipe.activated.emit(window.mixing.recipe.currentIndex())
    settle(qtbot, window)
    dose = window.mixing.findChild(QLabel, "amount")
    assert isinstance(dose, QLabel)
    assert dose.text().endswith(" g")
    assert "Blue tin" in [each.text() for each in window.mixing.findChildren(QLabel)]


def test_a_recipe_or_a_tin_alone_is_chosen_over_the_jugs(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    (tin,) = collection.mixing.tins()
    draft = RecipeDraft("Growth", parts=(PartDraft(tin.tin_id, 1.0),))
    recipe_id = collection.recipes.add(draft).ids[0]
    window.desk.show_day()
    settle(qtbot, window)
    chooser = window.mixing.recipe
    assert [chooser.itemText(row) for row in range(chooser.count())] == [
        "Growth",
        "Blue tin alone",
    ]
    assert chooser.currentText() == "Blue tin alone"
    chooser.setCurrentText("Growth")
    chooser.activated.emit(chooser.currentIndex())
    settle(qtbot, window)
    (view,) = collection.recipes.all()
    assert (view.recipe_id, view.draft.in_use) == (recipe_id, True)
    assert chooser.currentText() == "Growth"
    assert {jug.recipe for jug in collection.day.view().mix.jugs} == {"Growth"}
    chooser.setCurrentText("Blue tin alone")
    chooser.activated.emit(chooser.currentIndex())
    settle(qtbot, window)
    assert chooser.currentText() == "Blue tin alone"
    assert [each.draft.in_use for each in collection.recipes.all()] == [False]
    collection.history.undo()
    assert [each.draft.in_use for each in collection.recipes.all()] == [True]


def test_the_shelf_s_button_leads_to_all_that_is_mixed_with(window: Window) -> None:
    offered = {each.objectName() for each in window.mixing.shelf_menu.actions()}
    assert {"tins", "waters", "recipes", "measures"} <= offered
    assert not offered & {"places", "logger", "kinds", "quick-mix"}
    assert window.mixing.shelf.menu() is window.mixing.shelf_menu
    with_keys = [
        each.shortcut().toString() for each in window.mixing.shelf_menu.actions()
    ]
    assert all(with_keys)


def test_waters_are_kept_with_their_conductivity(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    window.commands["waters"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, WatersDialog)
    press(dialog, "New water")
    dialog.in_use.setChecked(True)
    choose(dialog.kind, "tap")
    retype(dialog.conductivity, "0.6")
    dialog.try_save()
    settle(qtbot, window)
    used = [w.draft for w in collection.waters.all() if w.draft.in_use]
    assert [(each.kind, each.ec_ms_per_cm) for each in used] == [("tap", 0.6)]
    assert window.mixing.water.currentText() == "Tap, 0.6 mS/cm"


def test_house_rules_are_built_from_their_declarations_and_kept(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    window.commands["settings"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, SettingsDialog)
    for setting in collection.settings.declared():
        assert dialog.form.editor(setting.key) is not None
    before = collection.settings.house()
    assert dialog.draft() == before
    days = dialog.form.editor("watering_weekdays")
    assert isinstance(days, WeekdaysEdit)
    days.set_days((0, 3))
    green = dialog.form.editor("still_green_after")
    assert isinstance(green, MonthDayEdit)
    green.set_month_day((12, 1))
    jugs = dialog.form.editor("jugs")
    assert isinstance(jugs, QLineEdit)
    retype(jugs, "many")
    dialog.try_save()
    (error,) = errors(dialog)
    assert "is not a number" in error
    retype(jugs, "2")
    QTest.keyClick(jugs, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    settle(qtbot, window)
    assert open_dialogs(window) == []
    house = collection.settings.house()
    assert house.watering_weekdays == (0, 3)
    assert house.still_green_after == (12, 1)
    assert house.jugs == 2


def test_a_rule_out_of_its_range_is_told_beside_it(
    qtbot: QtBot, window: Window
) -> None:
    window.commands["settings"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, SettingsDialog)
    latitude = dialog.form.editor("latitude")
    assert isinstance(latitude, QLineEdit)
    retype(latitude, "95")
    dialog.try_save()
    settle(qtbot, window)
    assert dialog.isVisible()
    assert len(errors(dialog)) == 1
    assert latitude.text() == "95"


def test_photos_are_added_and_a_bad_one_is_named(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    nowhere = tmp_path / "nowhere.jpg"
    window.photos.take(line_of(window, "A1").plant_id, [nowhere])
    settle(qtbot, window)
    assert "nowhere.jpg" in status(window)
