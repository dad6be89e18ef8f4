"""Stock bottles in their dialog: the answer while one types, refusals, labels."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pypdf
import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from growdesk.domain.facts import Reading
from growdesk.domain.injector import Meaning
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.services.recipe_values import PartDraft, RecipeDraft
from growdesk.services.stock_labels import StockLabel, labels_of
from growdesk.services.stock_values import AmountOf, StockWanted
from growdesk.services.values import PlaceDraft, TinDraft
from growdesk.ui.dialogs.stock import StocksDialog
from growdesk.ui.printing.labels import lay_out_labels
from growdesk.ui.printing.marks import (
    FACES,
    Drawing,
    Frame,
    Modules,
    Picture,
    Rule,
    Words,
)
from growdesk.ui.printing.setting import width_pt
from growdesk.ui.stock_typed import TYPED
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.jugs import Jugs
from tests.ui.driving import dialog_of, press, settle

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

A4 = (595.0, 842.0)


@pytest.fixture
def salts(stocked: Collection) -> dict[str, int]:
    """Give three salts on the shelf and a scale to 0.1 g."""
    stocked.measures.add_tool(Tool(ToolKind.SCALE, "fine scale", 0.1, 200.0))
    return {
        name: stocked.mixing.add_tin(
            TinDraft(name, analysis, in_use=False, formula=formula)
        ).ids[0]
        for name, analysis, formula in (
            ("Calcium nitrate", "11.9-0-0 + 17 Ca", "Ca(NO3)2.4H2O"),
            ("Epsom salt", "0-0-0 + 9.9 Mg + 13 S", "MgSO4.7H2O"),
            ("Potassium nitrate", "13.8-0-46.6", "KNO3"),
        )
    }


@pytest.fixture
def opened(
    qtbot: QtBot,
    stocked: Collection,
    salts: dict[str, int],
    show: Callable[[Collection], Window],
) -> Callable[[], tuple[Window, StocksDialog]]:
    """Give a way to open the stock bottles from the menu."""

    def open_them() -> tuple[Window, StocksDialog]:
        assert salts
        window = show(stocked)
        window.commands["stocks"].trigger()
        settle(qtbot, window)
        return window, dialog_of(window, StocksDialog)

    return open_them


def fill(
    dialog: StocksDialog,
    lines: list[tuple[int, str]],
    volume: str,
    amount_of: AmountOf = AmountOf.STOCK,
) -> None:
    choose(dialog.amount_of, amount_of)
    dialog.parts.hold(tuple(lines))
    dialog.volume.setText(volume)


def ask(qtbot: QtBot, window: Window, dialog: StocksDialog) -> str:
    dialog.ask()
    settle(qtbot, window)
    return dialog.answer.said()


def errors(widget: QWidget) -> list[str]:
    return [
        each.text()
        for each in widget.findChildren(QLabel)
        if each.property("tone") == "wrong" and each.text() and each.isVisible()
    ]


def test_where_there_is_none_a_new_bottle_is_asked_for(
    opened: Callable[[], tuple[Window, StocksDialog]],
) -> None:
    _, dialog = opened()
    assert dialog.key is None
    assert dialog.parts.products[0].hasFocus()
    assert not dialog.label_button.isEnabled()
    assert dialog.kept_in.currentText() == "15 °C at the coolest, the house rule"
    assert not dialog.coolest.isVisible()
    assert "no source" in dialog.keep_by.placeholderText()


def test_a_proposed_bottle_is_made_from_the_jug_with_one_press(
    qtbot: QtBot,
    stocked: Collection,
    salts: dict[str, int],
    show: Callable[[Collection], Window],
) -> None:
    assert salts
    stocked.measures.add_tool(Tool(ToolKind.SYRINGE, "syringe", 0.1, 10.0))
    window = show(stocked)
    (jug,) = stocked.day.view().mix.jugs
    assert jug.doses[0].too_small
    press(window.mixing, "Make a bottle of Blue tin…")
    settle(qtbot, window)
    dialog = dialog_of(window, StocksDialog)
    ((_, amount),) = dialog.parts.held()
    assert f"{amount} g in {dialog.volume.text()}" in "".join(jug.warnings).replace(
        ".0 g", " g"
    )
    assert dialog.save_button.hasFocus()
    dialog.reject()
    (proposed,) = stocked.day.view().mix.bottles
    window.mixing.bottle_wanted.emit(replace(proposed, volume_l=0.7))
    settle(qtbot, window)
    dialog = dialog_of(window, StocksDialog)
    assert dialog.volume.text() == "700 mL", "a proposal left as it was makes room"
    dialog.volume.setText("250 mL")
    dialog.reject()
    press(window.mixing, "Make a bottle of Blue tin…")
    settle(qtbot, window)
    dialog = dialog_of(window, StocksDialog)
    assert dialog.volume.text() == "250 mL", "what was begun is not typed over"
    press(dialog, "Save")
    settle(qtbot, window)
    dialog.reject()
    (dose,) = stocked.day.view().mix.jugs[0].doses
    assert dose.bottle == "Blue tin"
    assert not [
        each
        for each in window.mixing.findChildren(QPushButton)
        if each.text().startswith("Make a bottle")
    ]


def test_where_the_ladder_goes_first_what_is_too_small_is_in_sight(
    qtbot: QtBot, stocked: Collection
) -> None:
    stocked.measures.add_tool(Tool(ToolKind.SCALE, "scale", 0.1, 200.0))
    stocked.measures.add_tool(Tool(ToolKind.SYRINGE, "syringe", 0.1, 10.0))
    mix = stocked.day.view().mix
    (jug,) = mix.jugs
    two = (jug, replace(jug, letter="B"))
    steps = ("Mix it.", "Thin it.")
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(replace(mix, jugs=two, ladder=steps, ladder_first=True))
    jugs.show()
    assert any(
        each.startswith("Too small to measure well: Blue") for each in errors(jugs)
    )
    with qtbot.waitSignal(jugs.bottle_wanted) as sent:
        press(jugs, "Make a bottle of Blue tin…")
    assert sent.args == [mix.bottles[0]]


def test_a_bottle_is_answered_made_changed_and_emptied(
    qtbot: QtBot,
    stocked: Collection,
    salts: dict[str, int],
    opened: Callable[[], tuple[Window, StocksDialog]],
) -> None:
    window, dialog = opened()
    fill(dialog, [(salts["Epsom salt"], "51,33 ml")], "500 mL")
    assert "Weigh" not in ask(qtbot, window, dialog)
    press(dialog, "Save")
    settle(qtbot, window)
    assert stocked.stocks.bench().bottles == ()
    fill(dialog, [(salts["Epsom salt"], "51,33 g")], "500 mL")
    said = ask(qtbot, window, dialog)
    assert "Weigh 25.7 g of Epsom salt." in said
    assert "Judged by 80 % of what dissolves at 15 °C, to be safe." in said
    press(dialog, "Save")
    settle(qtbot, window)
    (view,) = stocked.stocks.bench().bottles
    assert view.weighed == ((salts["Epsom salt"], 25.7),)
    assert dialog.list.item(0).text() == "Epsom salt, 500 mL"
    assert dialog.key == view.stock_id
    assert dialog.parts.held() == ((salts["Epsom salt"], "25.7"),)
    assert dialog.amount_of.currentData() == AmountOf.BOTTLE
    dialog.note.setText("blue cap")
    press(dialog, "Save")
    settle(qtbot, window)
    (view,) = stocked.stocks.bench().bottles
    assert (view.note, view.weighed[0][1]) == ("blue cap", 25.7)
    press(dialog, "&Emptied")
    settle(qtbot, window)
    assert stocked.stocks.bench().bottles == ()
    assert dialog.list.count() == 0
    stocked.history.undo()
    assert stocked.stocks.bench().bottles[0].note == "blue cap"


def test_a_refusal_stands_with_its_way_out_and_nothing_to_weigh(
    qtbot: QtBot,
    stocked: Collection,
    salts: dict[str, int],
    opened: Callable[[], tuple[Window, StocksDialog]],
) -> None:
    window, dialog = opened()
    lines = [(salts["Calcium nitrate"], "90"), (salts["Epsom salt"], "50")]
    fill(dialog, lines, "1 L")
    said = ask(qtbot, window, dialog)
    assert "fall out as gypsum in one bottle." in said
    assert "Make two bottles: Calcium nitrate in bottle A" in said
    assert "Weigh" not in said
    press(dialog, "Save")
    settle(qtbot, window)
    assert any("would not stay clear" in each for each in errors(dialog))
    assert stocked.stocks.bench().bottles == ()
    assert dialog.parts.held() == tuple(lines)


def test_the_ratio_is_asked_back_until_its_meaning_is_chosen(
    qtbot: QtBot,
    salts: dict[str, int],
    opened: Callable[[], tuple[Window, StocksDialog]],
) -> None:
    window, dialog = opened()
    assert not dialog.ratio.isVisible()
    fill(dialog, [(salts["Potassium nitrate"], "0.5")], "1 L", AmountOf.FEED)
    assert dialog.ratio.isVisible()
    assert dialog.meaning.currentData() is None
    dialog.ratio.setText("1:15")
    note = next(
        each.text() for each in dialog.findChildren(QLabel) if "6.7 %" in each.text()
    )
    assert "1 part in 15: 66.7 mL" in note
    assert "1 part added to 15: 62.5 mL" in note
    assert ask(qtbot, window, dialog) == ""
    assert any("can be meant in two ways" in each for each in errors(dialog))
    choose(dialog.meaning, Meaning.PART_IN)
    assert "Weigh 7.5 g of Potassium nitrate." in ask(qtbot, window, dialog)
    assert errors(dialog) == []
    choose(dialog.meaning, Meaning.PART_ADDED)
    assert "Weigh 8.0 g of Potassium nitrate." in ask(qtbot, window, dialog)


def test_a_recipe_fills_the_lines_for_its_strength(
    qtbot: QtBot,
    stocked: Collection,
    salts: dict[str, int],
    opened: Callable[[], tuple[Window, StocksDialog]],
) -> None:
    nitrate = salts["Potassium nitrate"]
    draft = RecipeDraft("Winter", (PartDraft(nitrate, 1.0),))
    recipe_id = stocked.recipes.add(draft).ids[0]
    window, dialog = opened()
    assert not dialog.recipe.isVisible()
    choose(dialog.amount_of, AmountOf.FEED)
    choose(dialog.recipe, recipe_id)
    dialog.strength.setFocus()
    QTest.keyClicks(dialog.strength, "69 ppm N")
    dialog.volume.setFocus()
    settle(qtbot, window)
    assert dialog.parts.held() == ((nitrate, "0.5"),)
    dialog.strength.setFocus()
    dialog.strength.setText("5000")
    dialog.volume.setFocus()
    settle(qtbot, window)
    assert any("is no strength of a feed" in each for each in errors(dialog))
    assert dialog.parts.held() == ((nitrate, "0.5"),)


def test_where_a_bottle_is_kept_goes_by_what_was_read_there(
    qtbot: QtBot,
    stocked: Collection,
    salts: dict[str, int],
    today: date,
    opened: Callable[[], tuple[Window, StocksDialog]],
) -> None:
    place = stocked.places.all()[0].place_id
    shed = stocked.places.add(PlaceDraft("Shed")).ids[0]
    stocked.readings.write(place, Reading(today, mean_c=15.0, low_c=11.5))
    stocked.readings.write(shed, Reading(today, mean_c=2.0, low_c=-3.0))
    window, dialog = opened()
    offered = [dialog.kept_in.itemText(row) for row in range(dialog.kept_in.count())]
    assert offered == [
        "15 °C at the coolest, the house rule",
        "East window: 11.5 °C at the coolest",
        "elsewhere: type the coolest",
    ]
    fill(dialog, [(salts["Potassium nitrate"], "170")], "1 L")
    assert "Weigh 170.0 g" in ask(qtbot, window, dialog)
    choose(dialog.kept_in, 11.5)
    assert "kept at 11.5 °C, a litre holds 167 g" in ask(qtbot, window, dialog)
    choose(dialog.kept_in, TYPED)
    assert dialog.coolest.isVisible()
    dialog.coolest.setText("20")
    assert "of what dissolves at 20 °C" in ask(qtbot, window, dialog)
    dialog.coolest.setText("-3")
    ask(qtbot, window, dialog)
    assert any("a stock that freezes falls out" in each for each in errors(dialog))


def test_a_label_goes_to_the_printer_that_is_chosen(
    qtbot: QtBot,
    stocked: Collection,
    salts: dict[str, int],
    opened: Callable[[], tuple[Window, StocksDialog]],
    tmp_path: Path,
) -> None:
    stocked.stocks.make(StockWanted(parts=((salts["Epsom salt"], 50.0),), volume_l=0.5))
    window, dialog = opened()
    press(dialog, "&Print the label…")
    settle(qtbot, window)
    chooser = dialog.findChild(QPrintDialog)
    assert chooser is not None
    file = tmp_path / "printed.pdf"
    chooser.printer().setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    chooser.printer().setOutputFileName(str(file))
    chooser.accepted.emit(chooser.printer())
    settle(qtbot, window)
    assert dialog.message.text() == "Sent to the printer"
    (page,) = pypdf.PdfReader(file).pages
    assert "Epsom salt" in " ".join(page.extract_text().split())
    chooser.close()


def test_the_answer_comes_by_itself_and_a_slip_leaves_the_focus(
    qtbot: QtBot,
    salts: dict[str, int],
    opened: Callable[[], tuple[Window, StocksDialog]],
) -> None:
    window, dialog = opened()
    fill(dialog, [(salts["Epsom salt"], "50")], "")
    dialog.volume.setFocus()
    with qtbot.waitSignal(dialog.asked):
        QTest.keyClicks(dialog.volume, "500")
    settle(qtbot, window)
    assert any("500" in each for each in errors(dialog)), "its unit is asked for"
    assert dialog.volume.hasFocus()
    with qtbot.waitSignal(dialog.asked):
        QTest.keyClicks(dialog.volume, " mL")
    settle(qtbot, window)
    assert "Weigh 25.0 g of Epsom salt." in dialog.answer.said()
    assert errors(dialog) == []


def test_lines_show_as_they_are_used(
    opened: Callable[[], tuple[Window, StocksDialog]], salts: dict[str, int]
) -> None:
    _, dialog = opened()

    def seen() -> int:
        return sum(combo.isVisible() for combo in dialog.parts.products)

    assert seen() == 1
    choose(dialog.parts.products[0], salts["Epsom salt"])
    assert seen() == 2
    dialog.parts.hold(tuple((key, "1") for key in salts.values()) * 2)
    assert seen() == 6
    dialog.parts.hold(())
    assert seen() == 1


def test_an_old_bottle_says_so_in_the_list(
    stocked: Collection,
    salts: dict[str, int],
    today: date,
    opened: Callable[[], tuple[Window, StocksDialog]],
) -> None:
    made_on = today - timedelta(days=200)
    stocked.stocks.make(
        StockWanted(parts=((salts["Epsom salt"], 50.0),), volume_l=1.0, made_on=made_on)
    )
    _, dialog = opened()
    assert dialog.list.item(0).text() == "Epsom salt, 1 L, past its day"


# -- labels -------------------------------------------------------------------------


def test_labels_of_one_or_all_bottles_become_a_pdf(
    qtbot: QtBot,
    stocked: Collection,
    salts: dict[str, int],
    opened: Callable[[], tuple[Window, StocksDialog]],
    tmp_path: Path,
) -> None:
    for name in ("Epsom salt", "Potassium nitrate"):
        stocked.stocks.make(StockWanted(parts=((salts[name], 50.0),), volume_l=0.5))
    window, dialog = opened()
    asked: list[tuple[int, ...]] = []
    dialog.label_file_wanted.disconnect()
    dialog.label_file_wanted.connect(asked.append)
    press(dialog, "Label as P&DF…")
    dialog.all_labels.click()
    press(dialog, "Label as P&DF…")
    assert [len(keys) for keys in asked] == [1, 2]
    file = tmp_path / "labels.pdf"
    window.shelf.stock_forms.save_labels_to(dialog, asked[1], file)
    settle(qtbot, window)
    (page,) = pypdf.PdfReader(file).pages
    text = " ".join(page.extract_text().split())
    assert "25 g of Epsom salt in 500 mL (50 g/L)" in text
    assert "10 mL made up to a litre give 69 ppm N." in text
    assert text.count("Keep from children, pets and food.") == 2
    assert text.count("Never in a bottle that held food or drink.") == 2
    assert text.count("gloves and eye protection") == 2
    assert text.count("Use by") == 2


def test_a_place_that_cannot_be_written_is_told(
    qtbot: QtBot,
    stocked: Collection,
    salts: dict[str, int],
    opened: Callable[[], tuple[Window, StocksDialog]],
    tmp_path: Path,
) -> None:
    made = stocked.stocks.make(
        StockWanted(parts=((salts["Epsom salt"], 50.0),), volume_l=0.5)
    )
    window, dialog = opened()
    nowhere = tmp_path / "no" / "such" / "labels.pdf"
    window.shelf.stock_forms.save_labels_to(dialog, made.ids, nowhere)
    settle(qtbot, window)
    assert any("The label cannot be saved" in each for each in errors(dialog))


def test_every_mark_of_many_labels_stands_inside_the_page(
    stocked: Collection, salts: dict[str, int], today: date
) -> None:
    long = "A bottle of the long-named concentrate for the far shed"
    for number in range(7):
        stocked.stocks.make(
            StockWanted(
                f"{long} {number}",
                tuple((key, 5.0) for key in list(salts.values())[1:]),
                volume_l=1.0,
                made_on=today,
            )
        )
    bench = stocked.stocks.bench()
    labels: tuple[StockLabel, ...] = labels_of(
        bench, [view.stock_id for view in bench.bottles]
    )
    assert len(labels) == 7
    pages = lay_out_labels(labels, *A4)
    assert len(pages) > 1
    names = 0
    for page in pages:
        for placed in page.placed:
            for mark in placed.marks:
                right, bottom = placed.x_pt, placed.y_pt
                assert not isinstance(mark, Modules | Drawing | Picture)
                match mark:
                    case Words():
                        right += mark.x_pt + width_pt(mark.text, mark.face)
                        bottom += mark.y_pt
                        assert mark.face in FACES
                        names += mark.text.startswith("A bottle of")
                    case Rule():
                        right += mark.x2_pt
                        bottom += mark.y2_pt
                    case Frame():
                        right += mark.width_pt
                        bottom += mark.height_pt
                assert right <= A4[0] - 20
                assert bottom <= A4[1] - 20
    assert names == 7


def test_the_keys_come_to_every_line_in_order(
    opened: Callable[[], tuple[Window, StocksDialog]], salts: dict[str, int]
) -> None:
    _, dialog = opened()
    choose(dialog.parts.products[0], salts["Epsom salt"])
    dialog.parts.products[0].setFocus()
    for editor in (
        dialog.parts.amounts[0],
        dialog.parts.products[1],
        dialog.parts.amounts[1],
        dialog.amount_of,
        dialog.volume,
    ):
        focused = dialog.focusWidget()
        assert focused is not None
        QTest.keyClick(focused, Qt.Key.Key_Tab)
        assert editor.hasFocus()
