"""The recipes: made and looked at while typed, saved, copied, said where they hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from growdesk.domain.recipe import Wanted
from growdesk.services.recipe_values import (
    ElementRow,
    PartDraft,
    RecipeDraft,
    RecipeLook,
    UseDraft,
)
from growdesk.services.values import TinDraft
from growdesk.ui import recipe_texts
from growdesk.ui.dialogs.recipe import SOLVED, RecipesDialog
from growdesk.ui.widgets.form import choose
from tests.ui.driving import dialog_of, focused, key, open_dialogs, press, settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


@pytest.fixture
def tins(stocked: Collection) -> dict[str, int]:
    stocked.mixing.add_tin(TinDraft("Calcium nitrate", "15.5-0-0 Ca 19", in_use=False))
    return {view.draft.name: view.tin_id for view in stocked.mixing.tins()}


@pytest.fixture
def dialog(tins: dict[str, int], window: Window, qtbot: QtBot) -> RecipesDialog:
    assert len(tins) == 2
    return opened(window, qtbot)


def opened(window: Window, qtbot: QtBot) -> RecipesDialog:
    window.commands["recipes"].trigger()
    settle(qtbot, window)
    found = dialog_of(window, RecipesDialog)
    found.activateWindow()
    qtbot.waitUntil(found.isActiveWindow)
    return found


def told(dialog: RecipesDialog) -> dict[str, list[str]]:
    """Give the rows of the table by element."""
    table = dialog.look.table
    rows = [
        [item.text() for c in range(table.columnCount()) if (item := table.item(r, c))]
        for r in range(table.rowCount())
    ]
    return {row[0]: row[1:] for row in rows}


def notes(dialog: RecipesDialog) -> str:
    return "\n".join(
        each.text() for each in dialog.look.findChildren(QLabel) if each.isVisible()
    )


def test_a_litre_is_shown_while_a_recipe_is_typed(
    dialog: RecipesDialog, tins: dict[str, int], window: Window, qtbot: QtBot
) -> None:
    assert "Choose the tins" in notes(dialog)
    dialog.parts.boxes[tins["Calcium nitrate"]].setChecked(True)
    assert "has no parts" in notes(dialog)
    dialog.parts.lines[tins["Calcium nitrate"]].setText("1")
    settle(qtbot, window)
    assert told(dialog)["Ca"] == ["–", "123", "0", "–", "–"]
    assert dialog.look.table.isColumnHidden(1)
    assert "Into a litre: 0.645 g of Calcium nitrate." in notes(dialog)
    dialog.look.strength.setText("50")
    settle(qtbot, window)
    assert told(dialog)["Ca"][1] == "61"
    dialog.look.oxides.setChecked(True)
    assert told(dialog)["CaO"][1] == "86"
    dialog.look.strength.setText("0")
    assert "is no strength to look at" in notes(dialog)
    assert not dialog.look.table.isVisible()


def test_what_is_wanted_is_held_against_what_comes(
    dialog: RecipesDialog, tins: dict[str, int], window: Window, qtbot: QtBot
) -> None:
    for box in dialog.parts.boxes.values():
        box.setChecked(True)
    choose(dialog.how, SOLVED)
    assert not dialog.parts.lines[tins["Blue tin"]].isVisible()
    assert "is no N:P:K:Ca:Mg" in notes(dialog)
    dialog.wanted.setText("3:x:x:1:0.5")
    settle(qtbot, window)
    rows = told(dialog)
    assert rows["N"] == ["100", "100", "0", "0", "0"]
    assert rows["Ca"] == ["33", "33", "0", "0", "0"]
    assert rows["Mg"] == ["17", "0", "0", "−17", "−100"]
    assert "With Epsom salt as well, magnesium would come out as wanted." in notes(
        dialog
    )
    choose(dialog.told, "oxides")
    settle(qtbot, window)
    assert told(dialog)["Ca"][0] == "24"


def test_a_recipe_is_saved_with_where_it_holds(
    dialog: RecipesDialog,
    tins: dict[str, int],
    window: Window,
    qtbot: QtBot,
    stocked: Collection,
) -> None:
    plants = {tag: i for i, tag in stocked.recipes.board().plants}
    QTest.keyClicks(dialog.name, "Winter")
    dialog.parts.boxes[tins["Blue tin"]].setChecked(True)
    dialog.parts.lines[tins["Blue tin"]].setText("2,5")
    dialog.uses.plants.setText("a1, A2")
    dialog.uses.season.setChecked(True)
    dialog.uses.plants.setFocus()
    QTest.keyClick(dialog.uses.plants, Qt.Key.Key_Return)
    assert dialog.uses.rows.count() == 2
    assert dialog.uses.rows.item(0).text() == "A1, from 1 November to 28 February"
    choose(dialog.uses.place, stocked.recipes.board().places[0][0])
    dialog.try_save()
    settle(qtbot, window)
    season = ((11, 1), (2, 28))
    (view,) = stocked.recipes.all()
    assert view.draft == RecipeDraft(
        "Winter",
        (PartDraft(tins["Blue tin"], 2.5),),
        uses=(
            UseDraft(plants["A1"], None, season),
            UseDraft(plants["A2"], None, season),
            UseDraft(None, stocked.recipes.board().places[0][0]),
        ),
    )
    assert dialog.message.text() == "Recipe Winter added"
    assert dialog.list.item(0).text() == "Winter"
    dialog.try_save()
    assert "nothing was changed" in dialog.message.text()
    dialog.uses.rows.setCurrentRow(2)
    press(dialog, "Take o&ut")
    dialog.try_save()
    settle(qtbot, window)
    assert len(stocked.recipes.all()[0].draft.uses) == 2


def test_slips_stand_beside_their_fields_and_nothing_is_lost(
    dialog: RecipesDialog,
    tins: dict[str, int],
    window: Window,
    qtbot: QtBot,
    stocked: Collection,
) -> None:
    dialog.parts.boxes[tins["Blue tin"]].setChecked(True)
    dialog.parts.lines[tins["Blue tin"]].setText("two")
    dialog.try_save()
    assert "“two” is not a number" in dialog.parts.accessibleDescription()
    dialog.parts.lines[tins["Blue tin"]].setText("2")
    dialog.uses.plants.setText("Z9")
    dialog.name.setText("Winter")
    dialog.try_save()
    assert "“Z9” is no plant's tag" in dialog.uses.accessibleDescription()
    assert dialog.uses.plants.text() == "Z9"
    dialog.uses.plants.clear()
    dialog.name.clear()
    dialog.try_save()
    settle(qtbot, window)
    assert dialog.name.accessibleDescription() != ""
    assert dialog.parts.boxes[tins["Blue tin"]].isChecked()
    assert stocked.recipes.all() == ()


def test_a_draft_of_a_recipe_survives_being_left(
    dialog: RecipesDialog, tins: dict[str, int], window: Window, qtbot: QtBot
) -> None:
    dialog.name.setText("Winter")
    choose(dialog.how, SOLVED)
    dialog.parts.boxes[tins["Blue tin"]].setChecked(True)
    dialog.wanted.setText("3:1")
    dialog.uses.plants.setText("A1")
    dialog.uses.add()
    dialog.uses.plants.setText("A2")
    dialog.reject()
    assert open_dialogs(window) == []
    again = opened(window, qtbot)
    assert again.name.text() == "Winter"
    assert again.how.currentData() == SOLVED
    assert again.wanted.text() == "3:1"
    assert again.parts.held() == {tins["Blue tin"]: ""}
    assert again.uses.rows.item(0).text() == "A1"
    assert again.uses.plants.text() == "A2"
    again.throw_away()
    assert again.uses.rows.count() == 0
    again.reject()
    assert window.unsaved_line() == ""


def test_a_recipe_is_copied_and_removed(
    stocked: Collection, tins: dict[str, int], window: Window, qtbot: QtBot
) -> None:
    parts = tuple(PartDraft(tin_id) for tin_id in tins.values())
    stocked.recipes.add(RecipeDraft("Growth", parts, Wanted(3, 1, 2)))
    dialog = opened(window, qtbot)
    assert dialog.wanted.text() == "3:1:2"
    press(dialog, "Cop&y")
    settle(qtbot, window)
    assert dialog.name.text() == "Growth, copy"
    press(dialog, "Remove")
    settle(qtbot, window)
    assert [view.draft.name for view in stocked.recipes.all()] == ["Growth"]


def test_a_recipe_that_lacks_a_tin_says_so_and_can_be_mended(
    stocked: Collection, tins: dict[str, int], window: Window, qtbot: QtBot
) -> None:
    parts = tuple(PartDraft(tin_id, 1.0) for tin_id in tins.values())
    stocked.recipes.add(RecipeDraft("Growth", parts))
    stocked.mixing.remove_tin(tins["Calcium nitrate"])
    dialog = opened(window, qtbot)
    assert dialog.list.item(0).text() == "Growth, lacks a tin"
    assert "Calcium nitrate went off the shelf" in dialog.lacking.text()
    gone = dialog.parts.boxes[tins["Calcium nitrate"]]
    assert gone.accessibleName() == "Calcium nitrate (off the shelf)"
    assert "not on the shelf any more" in notes(dialog)
    gone.setChecked(False)
    dialog.try_save()
    settle(qtbot, window)
    assert stocked.recipes.all()[0].lacking == ()
    assert not dialog.lacking.isVisible()


@pytest.mark.parametrize(
    ("row", "oxides", "expected"),
    [
        (ElementRow("N", 100, 100, 2.71), False, ("N", "100", "100", "2.7", "0", "0")),
        (ElementRow("P", 10, 4.2, 0), True, ("P2O5", "23", "9.6", "0", "−13", "−58")),
        (ElementRow("K", 0, 8, 0), False, ("K", "0", "8", "0", "+8", "–")),
        (ElementRow("Fe", None, 0.213, 0), True, ("Fe", "–", "0.21", "0", "–", "–")),
    ],
)
def test_cells(row: ElementRow, oxides: bool, expected: tuple[str, ...]) -> None:
    assert recipe_texts.cells(row, oxides=oxides) == expected


def test_nitrogen_not_told_is_said() -> None:
    look = RecipeLook(100, "rain", (), (), (("nitrate", 40.0),), ())
    assert recipe_texts.forms_line(look) == (
        "Nitrogen: 40 mg/L nitrate and 60 mg/L in a form not told."
    )
    assert recipe_texts.doses_line(look) == "Nothing goes into this water."
    bare = RecipeLook(100, "rain", (), (), (), ())
    assert "do not tell" in recipe_texts.forms_line(bare)


def test_tab_goes_round_the_whole_form_and_by_what_is_wanted(
    dialog: RecipesDialog, window: Window, qtbot: QtBot
) -> None:
    choose(dialog.how, SOLVED)
    for box in dialog.parts.boxes.values():
        box.setChecked(True)
    dialog.wanted.setText("3:1:2:1:1")
    settle(qtbot, window)
    dialog.name.setFocus()
    seen = [focused()]
    for _ in range(60):
        key(Qt.Key.Key_Tab)
        if focused() is seen[0]:
            break
        seen.append(focused())
    else:
        raise AssertionError("Tab does not come back to the name")
    boxes = list(dialog.parts.boxes.values())
    told = [dialog.name, dialog.how, *boxes, dialog.wanted, dialog.told, dialog.water]
    assert seen[: len(told)] == told
    for stop in (dialog.uses.rows, dialog.save_button, dialog.new_button):
        assert stop in seen
