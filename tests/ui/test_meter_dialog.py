"""The meter's form, its readings, and the chart of EC predicted and read."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import numpy as np
import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from growdesk.domain import units
from growdesk.domain.meter import Standing
from growdesk.services.meter import jug_of
from growdesk.services.meter_values import MeterDraft
from growdesk.ui import theme
from growdesk.ui.charts import meter_figure, saving
from growdesk.ui.charts.meter_summary import NOTHING as NOTHING_DRAWN
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.summary import summary, title
from growdesk.ui.dialogs.meter import MeterDialog, MeterStart
from growdesk.ui.dialogs.meter_course import MeterCourseDialog
from growdesk.ui.dialogs.meter_readings import NOTHING, MeterReadingsDialog
from tests.ui.driving import dialog_of, press, retype, settle
from tests.ui.meter_values import (
    KNOWN,
    ON,
    WHY,
    meter_chart,
    meter_start,
    meter_view,
    meter_views,
)
from tests.ui.test_charts import fresh_figure

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


@pytest.fixture
def form(qtbot: QtBot) -> MeterDialog:
    dialog = MeterDialog(None, meter_start())
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    return dialog


# -- the form -------------------------------------------------------------------------


def test_what_a_jug_should_read_stands_there_before_anything_is_typed(
    form: MeterDialog,
) -> None:
    assert form.jug.currentText() == "A: 150 ppm N, 1.7 L, Salts"
    assert form.expected.text() == (f"It should read 1.20 (1.14 to 1.26) mS/cm. {WHY}")
    assert not form.right.isVisible()
    assert not form.off.isVisible()


def test_the_answer_stands_there_at_once(form: MeterDialog) -> None:
    retype(form.reading, "1,21")
    assert form.right.text() == (
        "1.21 mS/cm is right: this jug should read 1.14 to 1.26 mS/cm. By this reading "
        "it holds about 152 ppm N."
    )
    assert form.scales.text().startswith("On a meter's ppm scales: 605 ppm (500)")
    assert not form.checks.isVisible()
    retype(form.reading, "0.7")
    assert form.off.text().startswith("0.70 mS/cm is 0.44 mS/cm too low")
    assert not form.right.isVisible()
    checks = form.checks.text().splitlines()
    assert checks[0] == "Check in this order:"
    assert checks[1].startswith("1. It reads as half the feed would")
    assert checks[-1].startswith("8. See that the right tin was taken")
    retype(form.reading, "much")
    assert not form.off.isVisible()
    assert not form.checks.isVisible()


def test_all_of_a_long_answer_is_in_sight(qtbot: QtBot, form: MeterDialog) -> None:
    before = form.height()
    retype(form.reading, "0.5")
    qtbot.waitUntil(lambda: form.height() > before + 100)
    bar = form.area.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() == 0)


def test_a_temperature_brings_the_reading_to_25(form: MeterDialog) -> None:
    retype(form.reading, "1.08")
    assert form.off.isVisible()
    retype(form.temperature, "20")
    assert form.right.text().startswith(
        "The meter shows 1.08 mS/cm at 20 °C; at 25 °C that is 1.20."
    )


def test_a_jug_nothing_is_known_of(form: MeterDialog) -> None:
    form.jug.setCurrentIndex(1)
    retype(form.reading, "0.8")
    assert form.expected.text() == "What this jug should read is not known."
    assert "nothing is known of this jug" in form.right.text()
    assert form.draft() == MeterDraft(ON, "B", 90, 0.8)


def test_a_reading_goes_out_with_what_was_expected(
    qtbot: QtBot, form: MeterDialog
) -> None:
    retype(form.reading, "600 ppm 500")
    retype(form.note, "stirred")
    with qtbot.waitSignal(form.saved) as saved:
        press(form, "Save")
    assert saved.args == [
        MeterDraft(ON, "A", 150, 1.2, None, 1.14, 1.26, None, "stirred")
    ]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "is empty"),
        ("600 ppm", "does not say on which scale"),
        ("1250", "unit is not told"),
    ],
)
def test_a_slip_is_told_beside_its_field(
    qtbot: QtBot, form: MeterDialog, typed: str, says: str
) -> None:
    retype(form.reading, "1")
    form.reading.setText(typed)
    with qtbot.assertNotEmitted(form.saved):
        QTest.keyClick(form.reading, Qt.Key.Key_Return)
    assert says in form.reading.accessibleDescription()


def test_a_reading_comes_back_as_it_was(qtbot: QtBot) -> None:
    for view in meter_views():
        start = MeterStart(view.draft.on, (jug_of(view),), view)
        dialog = MeterDialog(None, start)
        qtbot.addWidget(dialog)
        assert dialog.draft() == view.draft
        assert dialog.changes() == {}
        assert dialog.readings_button not in dialog.buttons.buttons()


# -- the readings ---------------------------------------------------------------------


def test_readings_are_listed_and_asked_for(qtbot: QtBot) -> None:
    dialog = MeterReadingsDialog(None)
    qtbot.addWidget(dialog)
    dialog.show_readings(())
    assert dialog.note.text() == NOTHING
    assert not dialog.chart_button.isEnabled()
    dialog.show_readings(meter_views())
    items = [dialog.table.item(1, column) for column in range(7)]
    assert [item.text() for item in items if item is not None] == [
        "13 May 2026",
        "A, 150 ppm N",
        "1.30",
        "1.30",
        "1.14 to 1.26",
        "0.04 too high",
        "",
    ]
    dialog.table.setCurrentCell(1, 0)
    with qtbot.waitSignal(dialog.remove_wanted) as gone:
        dialog.remove_button.click()
    assert gone.args == [8]
    with qtbot.waitSignal(dialog.change_wanted) as changed:
        dialog.change_button.click()
    assert changed.args == [meter_views()[1]]


# -- in the window --------------------------------------------------------------------


@pytest.mark.parametrize("command", ["meter", "waters", "tins", "measures"])
def test_units_load_beside_the_window_where_amounts_are_typed(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    seen: list[threading.Thread] = []
    monkeypatch.setattr(units, "load", lambda: seen.append(threading.current_thread()))
    window.commands[command].trigger()
    settle(qtbot, window)
    qtbot.waitUntil(lambda: bool(seen))
    assert seen[0] is not threading.main_thread()


def test_reading_a_jug_in_the_window(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    window.commands["meter"].trigger()
    settle(qtbot, window)
    form = dialog_of(window, MeterDialog)
    retype(form.reading, "0.05")
    assert form.checks.isVisible()
    QTest.keyClick(form.reading, Qt.Key.Key_Return)
    settle(qtbot, window)
    settle(qtbot, window)
    (view,) = collection.meter.all()
    assert view.standing is Standing.BELOW
    window.commands["meter"].trigger()
    settle(qtbot, window)
    press(dialog_of(window, MeterDialog), "Rea&dings…")
    settle(qtbot, window)
    listed = dialog_of(window, MeterReadingsDialog)
    press(listed, "Change…")
    again = dialog_of(window, MeterDialog)
    retype(again.reading, "0.06")
    press(again, "Save")
    settle(qtbot, window)
    settle(qtbot, window)
    assert listed.message.text() == "Reading of jug A changed"
    press(listed, "&Over time…")
    chart = dialog_of(window, MeterCourseDialog)
    qtbot.waitUntil(lambda: chart.shown is not None, timeout=20_000)
    assert chart.caption.text().startswith("1 reading, 0 of 1 as predicted.")
    chart.accept()
    press(listed, "Remove")
    settle(qtbot, window)
    settle(qtbot, window)
    assert listed.table.rowCount() == 0
    assert collection.meter.all() == ()


def test_a_card_asks_for_its_jug_dosed_alone_and_the_menu_as_the_plan_has_it(
    qtbot: QtBot,
    window: Window,
    collection: Collection,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    ways = (True, False)
    jugs = [replace(KNOWN, letter=b, is_diluted=way) for way in ways for b in "AB"]
    monkeypatch.setattr(collection.meter, "jugs", lambda _on: tuple(jugs))
    first = {"": "A", "B": "B"}
    for asked, way in (("", "diluted down"), ("B", "dosed alone")):
        window.shelf.meter.open(asked)
        settle(qtbot, window)
        form = dialog_of(window, MeterDialog)
        said = form.jug.currentText()
        assert said == f"{first[asked]}: 150 ppm N, 1.7 L, Salts, {way}"
        form.reject()


def test_without_a_jug_the_readings_open(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    for line in collection.day.view().lines:
        collection.plants.remove([line.plant_id])
    window.commands["meter"].trigger()
    settle(qtbot, window)
    listed = dialog_of(window, MeterReadingsDialog)
    assert listed.first.text().startswith("No jug of feed is to be mixed on")


# -- the chart ------------------------------------------------------------------------


def test_bands_dots_and_crosses() -> None:
    from matplotlib.collections import LineCollection

    figure = fresh_figure(760, 400)
    made = meter_figure.MeterFigure(figure)
    made.show(meter_chart(*meter_views()), Style(theme.LIGHT, 9.0))
    (axes,) = figure.axes
    (bands,) = axes.collections
    assert isinstance(bands, LineCollection)
    assert len(bands.get_segments()) == 3
    drawn = {
        str(line.get_label()): [float(y) for y in np.asarray(line.get_ydata())]
        for line in axes.lines
    }
    assert drawn["read"] == [0.90, 1.16, 1.20]
    assert drawn["read outside what was predicted"] == [1.30]
    legend = axes.get_legend()
    assert legend is not None
    assert len(legend.get_texts()) == 3
    assert axes.get_ylim()[1] > 1.30
    made.show(meter_chart(meter_views()[0]), Style(theme.DARK, 9.0))
    legend = axes.get_legend()
    assert legend is not None
    assert [text.get_text() for text in legend.get_texts()] == ["predicted", "read"]


def test_the_chart_in_words_and_as_a_file() -> None:
    chart = meter_chart(*meter_views())
    assert title(chart) == "EC predicted and read, 20 May 2025 to 20 May 2026"
    assert summary(chart) == (
        "4 readings, 2 of 3 as predicted.\n"
        "Read between 0.90 and 1.30 mS/cm, last 1.20 on 20 May 2026.\n"
        "They lie about the middle of what was predicted.\n"
        "13 May 2026, jug A of 150 ppm N: 1.30 mS/cm, 0.04 too high."
    )
    assert summary(meter_chart()) == NOTHING_DRAWN
    assert saving.file_name(chart) == "meter-readings-2026-05-20.png"
    assert saving.picture(chart, Style(theme.LIGHT, 9.0), "png").startswith(b"\x89PNG")
    assert saving.picture(meter_chart(), Style(theme.DARK, 9.0), "svg")


def test_readings_that_lean_to_one_side_say_so() -> None:
    high = [meter_view(days, 1.25, Standing.IN_BAND) for days in (0, 7, 14)]
    assert summary(meter_chart(*high)) == (
        "3 readings, each as predicted.\n"
        "Each read 1.25 mS/cm, the last on 20 May 2026.\n"
        "They lie 4 % above the middle of what was predicted; if that stays, check the "
        "meter in its standard and read the water alone."
    )
    assert "lie" not in summary(meter_chart(*high[:2]))
    alone = meter_chart(meter_view(0, 0.9, None))
    assert summary(alone) == (
        "1 reading; nothing was predicted to hold against.\n"
        "It read 0.90 mS/cm on 20 May 2026."
    )
