"""The quick mix in the window: typed, answered, slips beside their fields."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from growdesk.domain import units
from growdesk.domain.errors import InputError
from growdesk.services.quick_values import Concentrate, QuickMix
from growdesk.services.values import TinDraft
from growdesk.ui.widgets.quick import MOST_PRODUCTS, QuickCalculator
from tests.ui.driving import press, settle
from tests.ui.test_accessible_names import mnemonics, nameless, unlabelled

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.services.quick_values import QuickAsk
    from growdesk.ui.window import Window


def slips(quick: QuickCalculator) -> list[str]:
    """Give the slips that are told."""
    return [
        each.text()
        for each in quick.findChildren(QLabel)
        if each.property("tone") == "wrong" and each.text() and each.isVisible()
    ]


def alone(qtbot: QtBot) -> QuickCalculator:
    quick = QuickCalculator()
    qtbot.addWidget(quick)
    quick.show()
    return quick


def opened(window: Window) -> QuickCalculator:
    window.commands["quick-mix"].trigger()
    return window.mixing.quick


def test_it_answers_while_typing_and_tells_a_missing_unit(
    qtbot: QtBot, window: Window
) -> None:
    quick = opened(window)
    QTest.keyClicks(quick.analysis, "20-20-20")
    QTest.keyClicks(quick.target, "150 ppm N")
    QTest.keyClicks(quick.volume, "5")
    qtbot.waitUntil(lambda: bool(slips(quick)), timeout=20_000)
    assert "has no unit" in slips(quick)[0]
    assert quick.volume.accessibleDescription() == slips(quick)[0]
    QTest.keyClicks(quick.volume, " L")
    qtbot.waitUntil(lambda: "3.75 g" in quick.said(), timeout=20_000)
    assert quick.volume.accessibleDescription() == ""
    said = quick.said().split("\n")
    assert said.index("3.75 g") < said.index("5 L")
    assert "Gives 150 ppm N." in said
    assert any("N\u00a0150" in line for line in said)
    assert any("milligrams per litre" in line for line in said)
    assert quick.answer.accessibleName().startswith(
        "3.75 g (20-20-20), made up to 5 L. Gives 150 ppm N."
    )


def test_a_key_reads_no_unit_and_asks_only_once_one_rests(
    qtbot: QtBot, window: Window
) -> None:
    """Of a text that has not changed no unit is read again."""
    quick = opened(window)
    asked: list[QuickAsk] = []
    quick.asked.connect(asked.append)
    units._converted.cache_clear()

    def read() -> int:
        return units._converted.cache_info().misses

    QTest.keyClicks(quick.analysis, "20-20-20")
    QTest.keyClicks(quick.target, "150 ppm N")
    QTest.keyClicks(quick.volume, "5 L")
    assert (read(), len(asked)) == (0, 0)
    qtbot.waitUntil(lambda: "3.75 g" in quick.said(), timeout=20_000)
    first = read()
    assert (first, len(asked)) == (2, 1), "the strength and the volume"
    QTest.keyClick(quick.volume, Qt.Key.Key_Home)
    QTest.keyClicks(quick.volume, "1")
    qtbot.waitUntil(lambda: "11.3 g" in quick.said(), timeout=20_000)
    assert (read() - first, len(asked)) == (1, 2), "the volume alone"
    QTest.keyClicks(quick.volume, "0")
    QTest.keyClick(quick.volume, Qt.Key.Key_Backspace)
    quick._pause.stop()
    quick.ask()
    assert len(asked) == 2, "the question as it was"


def test_a_second_product_is_mixed_in_and_taken_away_again(
    qtbot: QtBot, window: Window
) -> None:
    quick = opened(window)
    QTest.keyClicks(quick.analysis, "20-20-20")
    QTest.keyClicks(quick.target, "150 ppm N")
    QTest.keyClicks(quick.volume, "5 L")
    press(quick, "Add a product")
    added = quick.products[1]
    assert QApplication.focusWidget() is added.pick
    QTest.keyClicks(added.analysis, "Mg 9.86 S 13")
    QTest.keyClicks(added.amount, "twenty ppm Mg")
    qtbot.waitUntil(lambda: bool(slips(quick)), timeout=20_000)
    assert added.amount.accessibleDescription() == slips(quick)[0]
    added.amount.clear()
    QTest.keyClicks(added.amount, "20 ppm Mg")
    qtbot.waitUntil(lambda: "1.01 g" in quick.said(), timeout=20_000)
    assert "3.75 g" in quick.said()
    press(quick, "Take it away")
    qtbot.waitUntil(lambda: "1.01 g" not in quick.said(), timeout=20_000)
    assert quick.analysis.text() == "20-20-20"
    settle(qtbot, window)


def test_the_shelf_is_offered_and_a_choice_outlives_a_new_tin(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    quick = opened(window)
    pick = quick.products[0].pick
    assert pick.findText("Blue tin") > 0
    assert quick.water.findText("Rain, 0.05 mS/cm") > 0
    pick.setCurrentText("Blue tin")
    assert not quick.analysis.isVisible()
    quick.water.setCurrentText("Rain, 0.05 mS/cm")
    assert not quick.water_ec.isVisible()
    collection.mixing.add_tin(TinDraft("Another", "10-10-10", in_use=False))
    window.desk.show_day()
    settle(qtbot, window)
    assert pick.findText("Another") > 0
    assert pick.currentText() == "Blue tin"
    assert quick.water.currentText() == "Rain, 0.05 mS/cm"
    QTest.keyClicks(quick.target, "150 ppm N")
    QTest.keyClicks(quick.volume, "5 L")
    qtbot.waitUntil(lambda: "3.75 g" in quick.said(), timeout=20_000)
    assert "Blue tin" in quick.said()


def test_a_slip_in_a_folded_field_unfolds_it(qtbot: QtBot) -> None:
    quick = alone(qtbot)
    assert not quick.step.isVisible()
    quick.show_error(InputError("step", "x", "is no weight", "Write 0.1 g."))
    assert quick.step.isVisible()
    assert slips(quick) == ["“x” is no weight. Write 0.1 g."]


def test_enter_asks_and_says_what_is_missing(qtbot: QtBot) -> None:
    quick = alone(qtbot)
    asked: list[QuickAsk] = []
    quick.asked.connect(asked.append)
    QTest.keyClick(quick.target, Qt.Key.Key_Return)
    assert asked == []
    assert slips(quick) == [
        "Give the product, the strength and the volume; the rest may stay empty."
    ]
    QTest.keyClicks(quick.analysis, "20-20-20")
    QTest.keyClicks(quick.volume, "5 L")
    QTest.keyClicks(quick.products[0].amount, "0.5 g/L")
    QTest.keyClick(quick.products[0].amount, Qt.Key.Key_Return)
    (ask,) = asked
    assert (ask.target, ask.volume) == ("", "5 L")
    assert ask.lines[0].amount == "0.5 g/L"
    QTest.keyClick(quick.products[0].amount, Qt.Key.Key_Return)
    assert len(asked) == 2, "Enter asks again"


def test_every_field_of_every_product_is_named_and_reached_once(
    qtbot: QtBot,
) -> None:
    quick = alone(qtbot)
    quick.fold.turn()
    for _ in range(MOST_PRODUCTS - 1):
        quick.add_product()
    QApplication.processEvents()
    assert nameless(quick) == []
    assert unlabelled(quick) == []
    found = mnemonics(quick)
    assert sorted(found) == sorted(set(found))
    names = [each.analysis.accessibleName() for each in quick.products]
    assert names == [f"Analysis of {n}" for n in range(1, MOST_PRODUCTS + 1)]
    more = [b for b in (quick.findChildren(type(quick.fold.button))) if b.isVisible()]
    assert "Add a product" not in [each.text() for each in more]


def test_a_refused_stock_is_told_a_line_for_each_thing(
    qtbot: QtBot, window: Window
) -> None:
    quick = opened(window)
    answer = Concentrate(
        0.05, 10.0, "1 in 100", refused=("It falls out.",), way_out=("Make two.",)
    )
    window.mixing.quick.answer.show_mix(
        QuickMix(
            doses=(),
            volume_l=5.0,
            target=None,
            gives_mg_per_l=None,
            elements_mg_per_l=(),
            oxides_mg_per_l=(),
            nitrogen_forms_mg_per_l=(),
            ec_ms_per_cm=None,
            ec_low_ms_per_cm=None,
            ec_high_ms_per_cm=None,
            ec_why="",
            warnings=(),
            understood="",
            concentrate=answer,
        )
    )
    settle(qtbot, window)
    assert slips(quick) == [
        "Not as one bottle of stock solution.",
        "It falls out.",
        "Make two.",
    ]
