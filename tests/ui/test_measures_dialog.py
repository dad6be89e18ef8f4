"""Measures and jugs in their dialog: kinds, spoons weighed tin by tin, drafts."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QWidget

from growdesk.domain.errors import InputError
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services.measures import MeasuresView
from growdesk.services.values import TinDraft, TinView
from growdesk.ui import typed
from growdesk.ui.dialogs.measures import EMPTY, UNWEIGHED, MeasuresDialog
from growdesk.ui.widgets.form import choose
from tests.ui.driving import dialog_of, press, retype, settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

TINS = (
    TinView(1, TinDraft("Blue tin", "20-20-20")),
    TinView(2, TinDraft("Green tin", "15-5-15")),
)
SCALE = Tool(ToolKind.SCALE, "Pocket scale", 0.1, 500, key=1)
SPOON = Tool(ToolKind.SPOON, "Teaspoon", 0.5, None, ((1, 4.1),), key=2)
SYRINGE = Tool(ToolKind.SYRINGE, "Syringe", 0.5, 20, key=3)
CYLINDER = Tool(ToolKind.CYLINDER, "Glass cylinder", 2, 250, key=4)
JUG = Vessel(VesselKind.JUG, "White jug", 5, 2, 100, key=1)
CAN = Vessel(VesselKind.CAN, "Can", 2.5, key=2)
MUG = Vessel(VesselKind.MUG, "Blue mug", 0.35, key=3)
ALL = MeasuresView((SCALE, SPOON, SYRINGE, CYLINDER), (JUG, CAN, MUG), TINS, 0.05)


def shown(qtbot: QtBot, view: MeasuresView = ALL) -> MeasuresDialog:
    dialog = MeasuresDialog(None)
    qtbot.addWidget(dialog)
    dialog.show_all(view, None)
    dialog.show()
    qtbot.waitExposed(dialog)
    return dialog


def rows(dialog: MeasuresDialog) -> list[str]:
    return [dialog.list.item(row).text() for row in range(dialog.list.count())]


def errors(widget: QWidget) -> list[str]:
    """Give the error lines that show."""
    return [
        each.text()
        for each in widget.findChildren(QLabel)
        if each.property("tone") == "wrong" and each.text() and each.isVisible()
    ]


def fields(dialog: MeasuresDialog) -> set[str]:
    """Give the fields that can be seen."""
    return {f for f, editor in dialog.form.editors.items() if editor.isVisible()}


def open_measures(qtbot: QtBot, window: Window) -> MeasuresDialog:
    window.commands["measures"].trigger()
    settle(qtbot, window)
    return dialog_of(window, MeasuresDialog)


def test_the_list_has_two_parts(qtbot: QtBot) -> None:
    dialog = shown(qtbot)
    assert rows(dialog) == [
        "Measures",
        "Pocket scale, 0.1 g",
        "Teaspoon, 1 tin weighed",
        "Syringe, 0.5 mL",
        "Glass cylinder, 2 mL",
        "Jugs, cans, mugs",
        "White jug, 5 L",
        "Can, 2.5 L",
        "Blue mug, 0.35 L",
    ]
    assert dialog.key == 1, "the first measure, not its heading"
    for heading in (0, 5):
        assert dialog.list.item(heading).flags() == Qt.ItemFlag.NoItemFlags


def test_the_keys_pass_over_a_heading(qtbot: QtBot) -> None:
    dialog = shown(qtbot)
    dialog.list.setFocus()
    for _ in range(4):
        QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    assert dialog.key == -1
    QTest.keyClick(dialog.list, Qt.Key.Key_Up)
    assert dialog.key == 4


@pytest.mark.parametrize("thing", [*ALL.tools, *ALL.vessels], ids=lambda t: t.name)
def test_a_thing_goes_out_as_it_came_in(qtbot: QtBot, thing: Tool | Vessel) -> None:
    dialog = shown(qtbot)
    key = thing.key or 0
    dialog.show_all(ALL, key if isinstance(thing, Tool) else -key)
    assert dialog.draft() == replace(thing, key=None)
    assert dialog.changes() == {}


@pytest.mark.parametrize(
    ("kind", "seen"),
    [
        (ToolKind.SCALE, {"step", "most"}),
        (ToolKind.SYRINGE, {"step", "most"}),
        (ToolKind.CYLINDER, {"step", "most"}),
        (ToolKind.SPOON, {"filled", "g_per_level"}),
        (VesselKind.JUG, {"volume_l", "how_many", "step_ml"}),
        (VesselKind.CAN, {"volume_l", "how_many", "step_ml"}),
        (VesselKind.BOTTLE, {"volume_l", "how_many", "step_ml"}),
        (VesselKind.MUG, {"volume_l"}),
    ],
)
def test_a_new_thing_is_asked_what_its_kind_has(
    qtbot: QtBot, kind: ToolKind | VesselKind, seen: set[str]
) -> None:
    dialog = shown(qtbot)
    dialog.start_new()
    choose(dialog.kind, kind)
    assert fields(dialog) == {"kind", "name", *seen}


def test_a_measure_never_becomes_a_jug(qtbot: QtBot) -> None:
    dialog = shown(qtbot)
    assert [dialog.kind.itemData(row) for row in range(dialog.kind.count())] == list(
        ToolKind
    )
    dialog.show_all(ALL, -1)
    assert [dialog.kind.itemData(row) for row in range(dialog.kind.count())] == list(
        VesselKind
    )


def test_a_spoon_filled_in_an_unusual_way_stays_so(qtbot: QtBot) -> None:
    odd = replace(SPOON, step=0.2)
    dialog = shown(qtbot, replace(ALL, tools=(odd,)))
    assert dialog.draft() == replace(odd, key=None)


def test_nothing_recorded_is_said_in_words(qtbot: QtBot) -> None:
    dialog = shown(qtbot, MeasuresView((), (), (), 0.05))
    assert dialog.stand.text() == EMPTY
    choose(dialog.kind, ToolKind.SPOON)
    said = [each.text() for each in dialog.weights.findChildren(QLabel)]
    assert said == [
        "No tin is on the shelf yet; add one there first, then weigh a spoon of it."
    ]


def test_it_says_from_what_amount_a_measure_is_fine_enough(qtbot: QtBot) -> None:
    dialog = shown(qtbot)
    assert dialog.stand.text().startswith(
        "A dose under 1 g may be off by more than 5 %"
    )
    dialog.show_all(ALL, -1)
    assert not dialog.stand.isVisible()


def test_a_spoon_never_weighed_measures_nothing(qtbot: QtBot) -> None:
    bare = replace(SPOON, g_per_level=())
    dialog = shown(qtbot, replace(ALL, tools=(bare,)))
    assert dialog.stand.text() == UNWEIGHED
    assert rows(dialog)[1] == "Teaspoon, not weighed"


def test_a_spoon_says_how_to_weigh_it_and_why(qtbot: QtBot) -> None:
    dialog = shown(qtbot)
    dialog.show_all(ALL, 2)
    said = " ".join(each.text() for each in dialog.weights.findChildren(QLabel))
    assert "Weigh ten level spoons of it and divide by ten" in said
    assert "3 g" in said
    assert "6 g" in said
    names = [line.accessibleName() for line in dialog.weights.lines.values()]
    assert names == [
        "Grams of Blue tin in one level spoon",
        "Grams of Green tin in one level spoon",
    ]


def test_the_tab_key_comes_to_each_tin(qtbot: QtBot) -> None:
    dialog = shown(qtbot)
    stops = dialog.tab_stops()
    at = [stops.index(line) for line in dialog.weights.lines.values()]
    assert at == [at[0], at[0] + 1]
    assert dialog.weights not in stops


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("4.1 g", 4.1),
        ("4,1", 4.1),
        ("41/10", 4.1),
        ("0.2 oz", 5.67),
        ("4100 mg", 4.1),
        (" ", None),
    ],
)
def test_a_spoon_is_weighed_in_any_unit(text: str, grams: float | None) -> None:
    got = typed.mass_g(text, "g_per_level")
    assert got == (None if grams is None else pytest.approx(grams, abs=0.001))


@pytest.mark.parametrize(
    ("text", "ml"), [("0.5", 0.5), ("1 tsp", 4.929), ("1/2 cup", 118.29), ("", None)]
)
def test_marks_are_typed_in_any_unit(text: str, ml: float | None) -> None:
    got = typed.volume_ml(text, "step_ml")
    assert got == (None if ml is None else pytest.approx(ml, abs=0.01))


def test_a_slip_in_a_weight_names_its_tin(qtbot: QtBot) -> None:
    dialog = shown(qtbot)
    dialog.show_all(ALL, 2)
    dialog.weights.lines[2].setText("a pinch")
    with pytest.raises(InputError, match="for Green tin is not a mass"):
        dialog.draft()
    dialog.try_save()
    (said,) = errors(dialog)
    assert said.startswith("“a pinch” for Green tin is not a mass.")


@pytest.mark.parametrize(
    ("kind", "field"), [(ToolKind.SCALE, "step"), (VesselKind.JUG, "volume_l")]
)
def test_what_may_not_be_empty_says_so(
    qtbot: QtBot, kind: ToolKind | VesselKind, field: str
) -> None:
    dialog = shown(qtbot)
    dialog.start_new()
    choose(dialog.kind, kind)
    dialog.name.setText("New one")
    with pytest.raises(InputError, match="is empty") as refused:
        dialog.draft()
    assert refused.value.field == field


# -- in the window --------------------------------------------------------------------


def test_a_scale_is_recorded_and_the_jugs_follow(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    before = collection.day.view().mix.jugs
    assert all(dose.tool is None for jug in before for dose in jug.doses)
    dialog = open_measures(qtbot, window)
    assert dialog.stand.text() == EMPTY
    retype(dialog.name, "Pocket scale")
    retype(dialog.step, "0.1 g")
    press(dialog, "Save")
    settle(qtbot, window)
    assert rows(dialog) == ["Measures", "Pocket scale, 0.1 g"]
    (tool,) = collection.measures.tools()
    assert (tool.kind, tool.step, tool.most) == (ToolKind.SCALE, 0.1, None)
    after = collection.day.view().mix.jugs
    assert after
    assert all(dose.tool == tool for jug in after for dose in jug.doses)


def test_vessels_are_written_changed_and_removed(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    dialog = open_measures(qtbot, window)
    choose(dialog.kind, VesselKind.CAN)
    retype(dialog.name, "Can")
    retype(dialog.volume, "1 gal")
    press(dialog, "Save")
    settle(qtbot, window)
    (can,) = collection.measures.vessels()
    assert can.volume_l == pytest.approx(3.785, abs=0.001)
    assert (can.how_many, can.step_ml) == (1, None)
    assert dialog.key == -(can.key or 0)
    retype(dialog.how_many, "2")
    retype(dialog.marks, "250")
    press(dialog, "Save")
    settle(qtbot, window)
    assert collection.measures.vessels() == (replace(can, how_many=2, step_ml=250),)
    press(dialog, "Remove")
    settle(qtbot, window)
    assert collection.measures.vessels() == ()
    assert dialog.stand.text() == EMPTY


def test_a_spoon_is_weighed_and_removed(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    dialog = open_measures(qtbot, window)
    choose(dialog.kind, ToolKind.SPOON)
    retype(dialog.name, "Teaspoon")
    (tin_id,) = dialog.weights.lines
    retype(dialog.weights.lines[tin_id], "41/10")
    press(dialog, "Save")
    settle(qtbot, window)
    (spoon,) = collection.measures.tools()
    assert dict(spoon.g_per_level) == {tin_id: 4.1}
    assert dialog.weights.lines[tin_id].text() == "4.1 g"
    press(dialog, "Remove")
    settle(qtbot, window)
    assert collection.measures.tools() == ()


def test_what_was_typed_and_left_is_there_again(qtbot: QtBot, window: Window) -> None:
    dialog = open_measures(qtbot, window)
    choose(dialog.kind, ToolKind.SPOON)
    retype(dialog.name, "Teaspoon")
    (tin_id,) = dialog.weights.lines
    retype(dialog.weights.lines[tin_id], "4.")
    dialog.reject()
    settle(qtbot, window)
    again = open_measures(qtbot, window)
    assert again.kind.currentData() == "spoon"
    assert again.name.text() == "Teaspoon"
    assert again.weights.lines[tin_id].text() == "4."
    assert "g_per_level" in fields(again)
    press(again, "Throw th&is draft away")
    assert again.weights.lines[tin_id].text() == ""
    assert "g_per_level" not in fields(again)
    again.reject()


def test_a_refusal_stands_beside_its_field(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    dialog = open_measures(qtbot, window)
    choose(dialog.kind, ToolKind.SYRINGE)
    retype(dialog.name, "Syringe")
    retype(dialog.step, "5 mL")
    retype(dialog.most, "2 mL")
    press(dialog, "Save")
    settle(qtbot, window)
    (said,) = errors(dialog)
    assert "is less than the least it shows" in said
    assert dialog.most.text() == "2 mL"
    assert collection.measures.tools() == ()
    dialog.throw_away()
    dialog.reject()


def test_an_amount_not_touched_stays_to_the_last_digit(qtbot: QtBot) -> None:
    gallon = replace(CAN, volume_l=3.785411784)
    dialog = shown(qtbot, replace(ALL, vessels=(gallon,)))
    dialog.show_all(replace(ALL, vessels=(gallon,)), -2)
    assert dialog.volume.text() == "3.7854 L"
    assert dialog.draft() == replace(gallon, key=None)
    dialog.volume.setText("3.7 L")
    assert dialog.draft() == replace(gallon, key=None, volume_l=3.7)


def test_an_amount_of_another_kind_is_read_anew(qtbot: QtBot) -> None:
    dialog = shown(qtbot)
    choose(dialog.kind, ToolKind.SYRINGE)
    with pytest.raises(InputError, match="is not a volume"):
        dialog.draft()
