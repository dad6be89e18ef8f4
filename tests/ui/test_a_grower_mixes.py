"""Walks of a grower through the window: the first jug, and a shelf put to use."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from growdesk.domain.facts import Look, NewGrowths, RootTips
from growdesk.domain.measuring import ToolKind
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.ui.dialogs.measures import MeasuresDialog
from growdesk.ui.dialogs.meter import MeterDialog
from growdesk.ui.dialogs.shelf import ShelfDialog
from growdesk.ui.dialogs.shelf_entry import EntryDialog
from growdesk.ui.dialogs.stock import StocksDialog
from growdesk.ui.dialogs.tin import TinsDialog
from growdesk.ui.dialogs.water import WatersDialog
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.jugs import Jugs
from tests.ui.driving import dialog_of, press, retype, settle

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


def put_plants(collection: Collection, today: date, count: int = 2) -> None:
    house = collection.settings.house()
    collection.settings.save_house(house, ("latitude",))
    place = collection.places.add(PlaceDraft("East window")).ids[0]
    look = Look(
        on=today, new_growths=NewGrowths(extending=1), root_tips=RootTips.RUNNING
    )
    for tag, kind, pot_l, full in (
        ("A1", "cattleya", 8.0, 150.0),
        ("A2", "masdevallia", 1.0, 40.0),
    )[:count]:
        draft = PlantDraft(
            tag,
            kind,
            kind,
            place_id=place,
            pot_volume_l=pot_l,
            full_strength_ppm_n=full,
        )
        collection.looks.record(collection.plants.add(draft).ids[0], look)


def opened(qtbot: QtBot, window: Window, command: str) -> None:
    window.commands[command].trigger()
    settle(qtbot, window)
    settle(qtbot, window)


def first_tin_and_water(qtbot: QtBot, window: Window) -> None:
    opened(qtbot, window, "tins")
    tins = dialog_of(window, TinsDialog)
    retype(tins.name, "Blue")
    retype(tins.analysis, "20-20-20")
    press(tins, "Save")
    settle(qtbot, window)
    opened(qtbot, window, "waters")
    waters = dialog_of(window, WatersDialog)
    choose(waters.kind, "rain")
    press(waters, "Save")
    settle(qtbot, window)


def said(window: Window) -> str:
    """Give all that the mixing pane says, folded or not."""
    jugs = window.mixing.findChild(Jugs)
    assert isinstance(jugs, Jugs)
    return "\n".join(each.text() for each in jugs.findChildren(QLabel))


def test_a_tin_and_a_water_alone_give_a_jug_and_no_word_of_tools(
    qtbot: QtBot,
    collection: Collection,
    today: date,
    show: Callable[[Collection], Window],
) -> None:
    put_plants(collection, today, 1)
    window = show(collection)
    first_tin_and_water(qtbot, window)
    (first,) = collection.day.view().mix.jugs
    assert first.warnings == ()
    told = said(window)
    # 2.1 L at 150 ppm N of a tin with 20 % N
    assert "1.58 g" in told
    assert "2.1 L" in told
    for word in ("scale", "syringe", "spoon", "runs short", "count"):
        assert word not in told, told


def test_a_shelf_put_to_use_from_the_tin_to_the_tick(
    qtbot: QtBot,
    collection: Collection,
    today: date,
    show: Callable[[Collection], Window],
) -> None:
    put_plants(collection, today)
    window = show(collection)
    first_tin_and_water(qtbot, window)
    _add_tools(qtbot, window)
    assert [tool.kind for tool in collection.measures.tools()] == [
        ToolKind.SCALE,
        ToolKind.SYRINGE,
    ]
    weak = collection.day.view().mix.jugs[-1]
    proposed = re.search(
        r"Make a bottle of Blue once: .+ g in 500 mL, ([\d.]+) g/L", weak.warnings[0]
    )
    assert proposed is not None

    _make_bottle(qtbot, window, proposed[1])
    weak = collection.day.view().mix.jugs[-1]
    (dose,) = weak.doses
    assert (dose.bottle, dose.unit, weak.warnings) == ("Blue", "mL", ())
    assert "Blue stock" in said(window)

    _count_tin(qtbot, window, "1 g")
    (short,) = collection.day.view().mix.short
    assert short.startswith("Blue runs short: the round needs ")
    assert short in said(window)
    _count_tin(qtbot, window, "250 g")
    assert collection.day.view().mix.short == ()

    opened(qtbot, window, "meter")
    meter = dialog_of(window, MeterDialog)
    retype(meter.reading, "9")
    assert meter.checks.text().startswith("Check in this order:\n1. ")
    meter.reject()

    table = window.day_list.table
    table.selectAll()
    window.commands["tick"].trigger()
    settle(qtbot, window)
    rows = {row.name: row for row in collection.stocktaking.view().rows}
    tin, bottle = rows["Blue"], rows["Blue stock"]
    assert tin.hand is not None
    assert bottle.hand is not None
    assert tin.hand.there < 250
    assert bottle.hand.there == 500 - dose.amount


def _add_tools(qtbot: QtBot, window: Window) -> None:
    for kind, name, reads, most in (
        (ToolKind.SCALE, "Kitchen scale", "0,1 g", "500 g"),
        (ToolKind.SYRINGE, "Syringe", "0.5 mL", "10 mL"),
    ):
        opened(qtbot, window, "measures")
        form = dialog_of(window, MeasuresDialog)
        form.start_new()
        choose(form.kind, kind.value)
        retype(form.name, name)
        retype(form.step, reads)
        retype(form.most, most)
        press(form, "Save")
        settle(qtbot, window)
        settle(qtbot, window)
        form.reject()


def _make_bottle(qtbot: QtBot, window: Window, g_per_l: str) -> None:
    opened(qtbot, window, "stocks")
    form = dialog_of(window, StocksDialog)
    form.parts.products[0].setCurrentIndex(1)
    QTest.keyClicks(form.parts.amounts[0], g_per_l)
    retype(form.volume, "500 mL")
    press(form, "Save")
    settle(qtbot, window)
    settle(qtbot, window)
    form.reject()


def _count_tin(qtbot: QtBot, window: Window, amount: str) -> None:
    opened(qtbot, window, "on-shelf")
    shelf = dialog_of(window, ShelfDialog)
    shelf.table.setCurrentCell(0, 0)
    QTest.mouseClick(shelf.count_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    entry = dialog_of(window, EntryDialog)
    retype(entry.amount, amount)
    press(entry, "Save")
    settle(qtbot, window)
    settle(qtbot, window)
    shelf.accept()
    window.desk.show_day()
    settle(qtbot, window)
