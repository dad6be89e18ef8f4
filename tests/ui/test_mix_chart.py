"""The chart of a litre of feed: what comes beside what was wanted, bars and words."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtWidgets import QApplication, QScrollBar

from growdesk.domain.recipe import Wanted as WantedMix
from growdesk.services.recipe_values import (
    ElementRow,
    MixChart,
    PartDraft,
    RecipeDraft,
    RecipeLook,
)
from growdesk.ui import theme
from growdesk.ui.charts import mix_figure, saving
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.summary import summary, title
from growdesk.ui.dialogs.mix_chart import MixChartDialog
from growdesk.ui.dialogs.recipe import RecipesDialog
from tests.ui.driving import dialog_of, press, settle
from tests.ui.test_charts import fresh_figure

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

ON = date(2026, 5, 20)
ROWS = (
    ElementRow("N", 100, 100, 5),
    ElementRow("P", None, 20, 0),
    ElementRow("K", 60, 72, 0),
    ElementRow("Ca", 0, 30, 30),
    ElementRow("Mg", 12, 0, 0),
    ElementRow("S", None, 16, 16),
    ElementRow("Fe", None, 0.2, 0),
)
LOOK = RecipeLook(100, "tap", (("Tin", 0.5),), ROWS, (), ("Mind the calcium.",))
CHART = MixChart(ON, "Growth", LOOK)


def tops(chart: MixChart) -> dict[str, list[float]]:
    """Give the top of each named layer's bars."""
    from matplotlib.container import BarContainer

    figure = fresh_figure(760, 400)
    mix_figure.MixFigure(figure).show(chart, Style(theme.LIGHT, 9.0))
    (axes,) = figure.axes
    return {
        str(bars.get_label()): [p.get_y() + p.get_height() for p in bars.patches]
        for bars in axes.containers
        if isinstance(bars, BarContainer)
    }


def test_bars_are_what_comes_and_what_was_wanted() -> None:
    found = tops(CHART)
    assert found["wanted"] == [100, 0, 60, 0, 12, 0]
    assert found["from the water"] == [5, 0, 0, 30, 0, 16]
    assert found["from the products"] == [100, 20, 72, 30, 0, 16]


def test_fixed_shares_have_no_wanted_and_pure_water_no_layer() -> None:
    rows = tuple(
        replace(row, wanted_mg_per_l=None, from_water_mg_per_l=0) for row in ROWS
    )
    found = tops(MixChart(ON, "Winter", replace(LOOK, rows=rows)))
    assert found == {"from the products": [100, 20, 72, 30, 0, 16]}


def test_the_figure_serves_again_and_its_layers_differ_by_pattern() -> None:
    figure = fresh_figure(760, 400)
    made = mix_figure.MixFigure(figure)
    made.show(CHART, Style(theme.LIGHT, 9.0))
    (axes,) = figure.axes
    count = len(axes.patches)
    made.show(CHART, Style(theme.DARK, 9.0))
    assert len(axes.patches) == count
    looks = {(p.get_hatch(), p.get_facecolor()) for p in axes.patches}
    assert len(looks) == 3


def test_the_chart_in_words_and_as_a_file() -> None:
    assert title(CHART) == "Growth: a litre at 100 ppm N in tap"
    assert summary(CHART) == (
        "Of what is wanted, nitrogen is met with 100 mg, potassium comes to 72 mg for"
        " 60, calcium comes to 30 mg for 0 and magnesium comes to 0 mg for 12.\n"
        "Besides, a litre holds 20 mg P, 16 mg S and 0.2 mg Fe.\n"
        "The water brings 5 mg N, 30 mg Ca and 16 mg S of that.\n"
        "Mind the calcium."
    )
    assert saving.file_name(CHART) == "Growth-litre-2026-05-20.png"
    picture = saving.picture(CHART, Style(theme.LIGHT, 9.0), "png")
    assert picture.startswith(b"\x89PNG")


def test_the_chart_opens_from_what_stands_in_the_form(
    stocked: Collection, window: Window, qtbot: QtBot
) -> None:
    tin = stocked.mixing.tins()[0].tin_id
    stocked.recipes.add(RecipeDraft("Growth", (PartDraft(tin),), WantedMix(3, 1)))
    window.commands["recipes"].trigger()
    settle(qtbot, window)
    recipes = dialog_of(window, RecipesDialog)
    recipes.name.setText("Growth, stronger")
    recipes.look.strength.setText("150")
    settle(qtbot, window)
    press(recipes, "As a &chart…")
    dialog = dialog_of(window, MixChartDialog)
    qtbot.waitUntil(lambda: dialog.shown is not None, timeout=20_000)
    assert dialog.windowTitle() == "Growth, stronger: a litre at 150 ppm N in rain"
    shown = dialog.shown
    assert isinstance(shown, MixChart)
    assert shown.look.rows[0].got_mg_per_l == pytest.approx(150)
    QApplication.processEvents()
    room = dialog.height() - dialog.caption.height()
    assert dialog.canvas is not None
    assert dialog.canvas.height() > room - 120, "the figure has what its words leave"
    words = dialog.caption.parentWidget()
    assert words is not None
    assert words.height() >= dialog.caption.heightForWidth(dialog.caption.width())
    bars = dialog.findChildren(QScrollBar)
    assert not [bar for bar in bars if bar.isVisible() and bar.maximum() > 0]
    recipes.parts.boxes[tin].setChecked(False)
    assert not recipes.look.chart_button.isEnabled()
