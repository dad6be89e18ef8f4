"""The waters' form: any unit in, flags told while typing, blends with their answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QLabel

from growdesk.domain.water_limits import GREENHOUSE
from growdesk.services.values import WaterDraft
from growdesk.services.water_told import told
from growdesk.ui.dialogs.water import WatersDialog
from growdesk.ui.widgets.form import choose
from tests.ui.driving import dialog_of, press, retype, settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


@pytest.fixture
def dialog(qtbot: QtBot, window: Window) -> WatersDialog:
    window.commands["waters"].trigger()
    settle(qtbot, window)
    return dialog_of(window, WatersDialog)


def test_a_tap_is_kept_in_whatever_unit_it_was_typed(
    qtbot: QtBot, window: Window, collection: Collection, dialog: WatersDialog
) -> None:
    press(dialog, "New water")
    choose(dialog.kind, "tap")
    retype(dialog.name, "kitchen")
    retype(dialog.conductivity, "620 µS/cm")
    retype(dialog.alkalinity, "4 meq/L")
    retype(dialog.hardness, "14 °dH")
    retype(dialog.lines["NO3"], "5 mg/L NO3-N")
    retype(dialog.lines["Na"], "60")
    retype(dialog.capacity, "20 L")
    dialog.try_save()
    settle(qtbot, window)
    view = next(v for v in collection.waters.all() if v.draft.name == "kitchen")
    draft = view.draft
    assert draft.ec_ms_per_cm == pytest.approx(0.62)
    assert draft.alkalinity_mg_per_l == pytest.approx(200.17, abs=0.01)
    assert draft.hardness_mg_per_l == pytest.approx(249.87, abs=0.01)
    assert draft.no3_mg_per_l == pytest.approx(22.13, abs=0.01)
    assert draft.na_mg_per_l == 60
    assert draft.capacity_l == 20


def test_what_is_too_much_is_told_while_it_is_typed(dialog: WatersDialog) -> None:
    press(dialog, "New water")
    choose(dialog.kind, "tap")
    assert dialog.told.texts() == []
    retype(dialog.alkalinity, "160 mg/L")
    first, over, *_rest = dialog.told.texts()
    assert first == "alkalinity 160 mg/L CaCO3."
    assert over.startswith("Alkalinity 160 mg/L is over 150")
    shown = [each for each in dialog.told.findChildren(QLabel) if each.text() == over]
    assert shown[0].toolTip() == GREENHOUSE
    assert shown[0].accessibleDescription() == GREENHOUSE
    assert shown[0].property("tone") == "wrong"
    assert dialog.told.texts()[-1].startswith("Where this is from: ")
    assert dialog.told.texts()[-1].count(GREENHOUSE) == 1
    retype(dialog.alkalinity, "160")
    assert dialog.told.texts()[0].startswith("Alkalinity: “160” has no unit.")


def test_a_slip_stands_beside_its_field_among_the_ions_too(
    dialog: WatersDialog,
) -> None:
    press(dialog, "New water")
    retype(dialog.lines["Cl"], "4 °dH")
    dialog.try_save()
    errors = [
        each.text() for each in dialog.ions.findChildren(QLabel) if each.isVisible()
    ]
    assert any("is a hardness, not an amount of an ion" in text for text in errors)
    assert dialog.lines["Cl"].text() == "4 °dH"


def test_an_ion_alone_is_a_change_that_is_saved(
    qtbot: QtBot, window: Window, collection: Collection, dialog: WatersDialog
) -> None:
    retype(dialog.lines["Ca"], "3")
    dialog.try_save()
    settle(qtbot, window)
    assert collection.waters.all()[0].draft.ca_mg_per_l == 3


def test_a_blend_answers_at_once_and_is_kept(
    qtbot: QtBot, window: Window, collection: Collection, dialog: WatersDialog
) -> None:
    rain = collection.waters.all()[0].water_id
    tap = collection.waters.add(
        WaterDraft("tap", 0.6, in_use=False, alkalinity_mg_per_l=200)
    ).ids[0]
    dialog.show_waters(collection.waters.all(), None)
    press(dialog, "New water")
    choose(dialog.kind, "blend")
    assert not dialog.alkalinity.isVisible()
    assert dialog.first.isVisible()
    assert dialog.told.texts() == ["Choose the two waters it is made of."]
    choose(dialog.first, rain)
    choose(dialog.second, tap)
    assert dialog.told.texts() == ["Say what the blend is to have."]
    retype(dialog.aim_value, "50 mg/L")
    assert (
        dialog.told.texts()[0] == "For 6 L: 4.5 L of rain water and 1.5 L of tap water."
    )
    retype(dialog.volume, "10 L")
    assert (
        dialog.told.texts()[0]
        == "For 10 L: 7.5 L of rain water and 2.5 L of tap water."
    )
    retype(dialog.aim_value, "300 mg/L")
    assert "cannot be had from these two" in dialog.told.texts()[0]
    dialog.try_save()
    settle(qtbot, window)
    assert len(collection.waters.all()) == 2
    assert dialog.aim_value.text() == "300 mg/L"
    retype(dialog.aim_value, "50 mg/L")
    retype(dialog.name, "soft")
    assert not dialog.in_use.isChecked()
    dialog.in_use.setChecked(True)
    dialog.try_save()
    settle(qtbot, window)
    made = collection.waters.all()[0]
    assert made.draft.name == "soft"
    assert made.draft.in_use
    assert made.draft.first_share == pytest.approx(0.75)
    assert window.mixing.water.currentText() == "soft, 0.19 mS/cm"
    assert dialog.aim_value.text() == "50 mg/L"


@pytest.mark.parametrize(
    ("aim", "typed", "value"), [("ec", "0.3", 0.3), ("share", "30 %", 0.3)]
)
def test_each_aim_is_typed_in_its_own_way(
    collection: Collection, dialog: WatersDialog, aim: str, typed: str, value: float
) -> None:
    rain = collection.waters.all()[0].water_id
    tap = collection.waters.add(WaterDraft("tap", 0.6, in_use=False)).ids[0]
    dialog.show_waters(collection.waters.all(), None)
    press(dialog, "New water")
    choose(dialog.kind, "blend")
    choose(dialog.first, tap)
    choose(dialog.second, rain)
    choose(dialog.aim, aim)
    retype(dialog.aim_value, typed)
    draft = dialog.draft()
    assert draft.aim == aim
    assert draft.aim_value == pytest.approx(value)
    blend_id = collection.waters.add(draft).ids[0]
    dialog.show_waters(collection.waters.all(), blend_id)
    assert dialog.aim_value.text() == typed


def test_a_kind_of_the_growers_own_is_not_lost(
    collection: Collection, dialog: WatersDialog
) -> None:
    well = collection.waters.add(WaterDraft("well", 0.4, in_use=False)).ids[0]
    dialog.show_waters(collection.waters.all(), well)
    assert dialog.draft().kind == "well"


def test_told_says_what_does_not_fit_before_what_is_too_much() -> None:
    odd = WaterDraft("tap", 0.3, hardness_mg_per_l=40, ca_mg_per_l=80)
    lines = [flag.text for flag in told(odd, (), 6).flags]
    assert lines[0].startswith("Ca alone makes a hardness of 200 mg/L")
    assert told(WaterDraft("rain"), (), 6).lines == ()
