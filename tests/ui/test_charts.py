"""The Chart tab: built when opened, drawn in the theme, said in words, saved."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from datetime import date, timedelta
from io import BytesIO
from typing import TYPE_CHECKING

import numpy as np
import pytest
from msgspec.structs import replace
from PIL import Image
from PySide6.QtCore import QPoint, QPointF, QSize, Qt
from PySide6.QtGui import QAccessible, QWheelEvent
from PySide6.QtWidgets import QApplication, QFileDialog

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.facts import (
    CareKind,
    Facing,
    Flowering,
    Look,
    NewGrowths,
    Reading,
    RootTips,
)
from growdesk.domain.performance import Part
from growdesk.services import kinds
from growdesk.services.care_values import CareDraft
from growdesk.services.chart_values import Basis, Course
from growdesk.services.values import PlantDraft
from growdesk.ui import theme
from growdesk.ui.charts import plant_figure, saving, season_figure, ticks
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.plate import Plate, Sitting
from growdesk.ui.charts.summary import nothing, summary, title
from growdesk.ui.charts.tab import FAILED, ROOM_PX
from tests.ui.driving import go_to, press, settle, status

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D
    from matplotlib.text import Text
    from PySide6.QtGui import QImage
    from pytestqt.qtbot import QtBot

    from growdesk.services.chart_values import PlantChart, SeasonChart
    from growdesk.services.collection import Collection
    from growdesk.ui.charts.canvas import ChartCanvas
    from growdesk.ui.charts.tab import ChartTab
    from growdesk.ui.window import Window

CHART = 4
STYLE = Style(theme.LIGHT, 9.0)

FRESH = """
import sys, pathlib, tempfile
from datetime import date
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui.start import application
from growdesk.ui.window import Window
on = date(2026, 3, 28)
app = application()
heavy = ("matplotlib",)
def loaded():
    return [name for name in heavy if name in sys.modules]
def settle():
    app.processEvents()
    while window.tasks.is_busy:
        app.processEvents()
    app.processEvents()
with tempfile.TemporaryDirectory() as made:
    folder = lay_demo(pathlib.Path(made) / "c", on)
    window = Window(Collection.open(folder, FixedClock(on)))
    window.show()
    settle()
    for number in range(4):
        window.detail.tabs.setCurrentIndex(number)
        settle()
    before = loaded()
    built = bool(window.detail.charts.choices)
    window.detail.tabs.setCurrentIndex(4)
    settle()
    after = loaded()
    drawn = window.detail.charts.shown is not None
    window.close()
print(before, built, after, drawn)
"""


def test_the_drawing_library_waits_for_the_first_chart(tmp_path: Path) -> None:
    given = {"QT_QPA_PLATFORM": "offscreen", "XDG_CONFIG_HOME": str(tmp_path)}
    ended = subprocess.run(
        [sys.executable, "-W", "error", "-c", FRESH],
        env={**os.environ, **given},
        capture_output=True,
        text=True,
        timeout=180,
        check=False,
    )
    assert ended.returncode == 0, ended.stderr
    assert ended.stdout.strip() == "[] False ['matplotlib'] True"


# -- what is shown ------------------------------------------------------------------


@pytest.fixture
def recorded(stocked: Collection, today: date) -> Collection:
    """Give the stocked collection with half a year of A1 and one feed of A2."""
    a1, a2 = stocked.plants.find("A1"), stocked.plants.find("A2")
    assert a1 is not None
    assert a2 is not None
    give = stocked.day.give
    for days, ppm in ((120, 60.0), (90, 80.0), (30, 140.0)):
        give([a1], today - timedelta(days=days), CareKind.FEED, ppm)
    give([a1], today - timedelta(days=60), CareKind.FLUSH, None)
    give([a1], today - timedelta(days=150), CareKind.REPOT, None)
    give([a2], today - timedelta(days=9), CareKind.FEED, None)
    for days, mm in ((80, 12.0), (50, 48.0), (20, 90.0)):
        look = Look(
            today - timedelta(days=days),
            new_growths=NewGrowths(emerging=0, extending=1),
            lead_length_mm=mm,
            longest_new_root_mm=mm / 2,
            root_tips=RootTips.RUNNING,
            flowering=frozenset({Flowering.OPEN if days < 60 else Flowering.BUDS}),
        )
        stocked.looks.record(a1, look)
    return stocked


@pytest.fixture
def charted(
    qtbot: QtBot, recorded: Collection, show: Callable[[Collection], Window]
) -> Window:
    """Give the window with the chart of A1 open."""
    window = show(recorded)
    go_to(window, "A1")
    window.detail.tabs.setCurrentIndex(CHART)
    settle(qtbot, window)
    assert tab_of(window).shown is not None
    return window


def tab_of(window: Window) -> ChartTab:
    return window.detail.charts


def canvas_of(window: Window) -> ChartCanvas:
    canvas = tab_of(window).canvas
    assert canvas is not None
    return canvas


def figure_of(window: Window) -> Figure:
    figure = canvas_of(window).plate.figure
    assert figure is not None
    return figure


def plant_drawn(window: Window) -> plant_figure.PlantFigure:
    drawn = canvas_of(window).plate.drawn
    assert isinstance(drawn, plant_figure.PlantFigure)
    return drawn


def to_season(qtbot: QtBot, window: Window) -> season_figure.SeasonFigure:
    press(tab_of(window), "Its season")
    settle(qtbot, window)
    drawn = canvas_of(window).plate.drawn
    assert isinstance(drawn, season_figure.SeasonFigure)
    return drawn


def across(line: Line2D) -> list[float]:
    return [float(each) for each in np.asarray(line.get_xdata())]


def up(line: Line2D) -> list[float]:
    return [float(each) for each in np.asarray(line.get_ydata())]


def head_words(figure: Figure) -> list[str]:
    return [
        text.get_text()
        for axes in figure.axes
        for text in axes.texts
        if axes.get_visible() and text.get_text()
    ]


def test_nothing_is_built_before_the_tab_is_opened(window: Window) -> None:
    tab = tab_of(window)
    assert tab.choices == {}
    assert tab.canvas is None
    assert tab.asked is None


def test_feeds_are_stems_at_their_strength(charted: Window, today: date) -> None:
    drawn = plant_drawn(charted)
    days = [(today - timedelta(days=d)).toordinal() for d in (120, 90, 30)]
    stems = drawn._stems.get_segments()
    assert [float(stem[1][0]) for stem in stems] == days
    assert [(float(s[0][1]), float(s[1][1])) for s in stems] == [
        (0.0, 60.0),
        (0.0, 80.0),
        (0.0, 140.0),
    ]
    assert drawn._feed.axes.get_ylim()[1] > 140


def test_lengths_are_two_lines_of_their_own_style(charted: Window) -> None:
    drawn = plant_drawn(charted)
    lead, root = (drawn._length.lines[part] for part in Part)
    assert up(lead)[:3] == [12.0, 48.0, 90.0]
    assert up(root)[:3] == [6.0, 24.0, 45.0]
    assert lead.get_linestyle() != root.get_linestyle()
    assert lead.get_marker() != root.get_marker()
    legend = drawn._length.panel.axes.get_legend()
    assert legend is not None
    said = [text.get_text() for text in legend.get_texts()]
    assert said == ["lead", "longest new root"]


def test_rates_of_growth_are_dots_under_a_named_yardstick(charted: Window) -> None:
    """By hand: 36 mm in 30 days are 8.4 a week, then 42 in 30 are 9.8; roots half."""
    drawn = plant_drawn(charted)
    lead, roots = (drawn._growth.lines[part] for part in Part)
    assert across(lead)[:-1] == across(drawn._length.lines[Part.LEAD])[1:-1]
    assert up(lead)[:2] == pytest.approx([8.4, 9.8])
    assert up(roots)[:2] == pytest.approx([4.2, 4.9])
    for part in Part:
        length, rate = drawn._length.lines[part], drawn._growth.lines[part]
        assert length.get_linestyle() == rate.get_linestyle()
        assert length.get_marker() == rate.get_marker()
    yardsticks = [drawn._growth.yardsticks[part] for part in Part]
    kind = kinds.table().kinds["cattleya"]
    assert up(yardsticks[0]) == [kind.lead_rate_mm_per_week] * 2
    assert kind.root_rate_mm_per_week is None
    assert [line.get_visible() for line in yardsticks] == [True, False]
    legend = drawn._growth.panel.axes.get_legend()
    assert legend is not None
    assert [text.get_text() for text in legend.get_texts()] == ["usual for a lead"]
    assert "Growth, mm a week" in head_words(figure_of(charted))
    low, high = drawn._growth.panel.axes.get_ylim()
    assert low == 0.0
    assert high > 10.0


def test_an_own_best_is_named_as_such(qtbot: QtBot, charted: Window) -> None:
    collection, today = charted.desk.collection, charted.desk.today
    a1 = collection.plants.find("A1")
    assert a1 is not None
    for days, mm in ((400, 10.0), (379, 64.0)):
        look = Look(
            today - timedelta(days=days),
            new_growths=NewGrowths(extending=1),
            lead_length_mm=mm,
            longest_new_root_mm=mm,
            root_tips=RootTips.RUNNING,
        )
        charted.desk.write(lambda look=look: collection.looks.record(a1, look))  # type: ignore[misc]
    settle(qtbot, charted)
    growth = plant_drawn(charted)._growth
    legend = growth.panel.axes.get_legend()
    assert legend is not None
    said = [text.get_text() for text in legend.get_texts()]
    assert said == ["lead's own best", "roots' own best"]
    lines = [growth.yardsticks[part] for part in Part]
    assert [up(line)[0] for line in lines] == pytest.approx([18.0, 18.0])
    assert len({line.get_linestyle() for line in lines} | {"-"}) >= 2
    caption = tab_of(charted).caption.text()
    assert "against 18 mm (its own best season, the dashed line)" in caption
    assert "against 18 mm (its own best season, the dash-dotted line)" in caption


def test_a_shrinking_length_is_drawn_under_nothing() -> None:
    axes = fresh_figure(600, 200).subplots()
    ticks.rates(axes, [-2.0, 8.0])
    low, high = axes.get_ylim()
    assert (low, high) == pytest.approx((-3.0, 9.0))
    ticks.rates(axes, [])
    assert axes.get_ylim()[0] == 0.0
    assert axes.get_ylim()[1] > 0.0


def test_each_row_stands_beside_its_name(charted: Window, today: date) -> None:
    drawn = plant_drawn(charted)
    names = [label.get_text() for label in drawn._rows.axes.get_yticklabels()]
    assert names == [
        "in flower",
        "spike, buds",
        "extending",
        "root tips",
        "flushed",
        "repotted",
    ]
    flush = drawn._marks[plant_figure.FLUSHED]
    assert across(flush) == [(today - timedelta(days=60)).toordinal()]
    assert up(flush) == [names.index("flushed")]
    assert not drawn._marks[Course.EMERGING].get_visible()


def test_treatments_and_moves_are_marked_and_said(
    stocked: Collection, today: date
) -> None:
    plant = stocked.plants.find("A1")
    assert plant is not None
    treated, moved = today - timedelta(days=30), today - timedelta(days=12)
    stocked.care.add(
        [plant], CareDraft(treated, CareKind.TREAT, note="wiped", product="by hand")
    )
    stocked.care.add([plant], CareDraft(moved, CareKind.MOVE, to_place="Balcony"))
    chart = stocked.charts.plant(plant, today)
    made = plant_figure.PlantFigure(fresh_figure(760, 500))
    made.show(chart, STYLE)
    names = [label.get_text() for label in made._rows.axes.get_yticklabels()]
    for name, day in ((plant_figure.TREATED, treated), (plant_figure.MOVED, moved)):
        assert across(made._marks[name]) == [day.toordinal()]
        assert up(made._marks[name]) == [names.index(name)]
    told = summary(chart)
    assert "Treated on 20 Apr 2026. Moved on 8 May 2026." in told


def test_the_day_shown_is_marked_in_every_panel(charted: Window, today: date) -> None:
    drawn = plant_drawn(charted)
    for line in drawn._days:
        assert across(line) == [today.toordinal()] * 2
    assert "dotted: 20 May 2026" in head_words(figure_of(charted))


def test_a_feed_of_unknown_strength_is_crossed_and_said(
    qtbot: QtBot, charted: Window, today: date
) -> None:
    go_to(charted, "A2")
    settle(qtbot, charted)
    drawn = plant_drawn(charted)
    cross = (today - timedelta(days=9)).toordinal()
    assert across(drawn._unknown) == [cross]
    assert "Feed given, ppm N (× unknown)" in head_words(figure_of(charted))
    assert "no strength was recorded" in tab_of(charted).caption.text()
    assert not drawn._length.panel.axes.get_visible()
    assert not drawn._growth.panel.axes.get_visible()
    assert "No lead and no root was measured." in tab_of(charted).caption.text()


def test_one_canvas_serves_every_plant_and_both_charts(
    qtbot: QtBot, charted: Window
) -> None:
    canvas, first = canvas_of(charted), plant_drawn(charted)
    go_to(charted, "A2")
    settle(qtbot, charted)
    assert plant_drawn(charted) is first
    to_season(qtbot, charted)
    press(tab_of(charted), "This plant")
    settle(qtbot, charted)
    assert canvas_of(charted) is canvas
    assert plant_drawn(charted) is not first


def test_the_season_has_three_panels_with_their_units(
    qtbot: QtBot, charted: Window, today: date
) -> None:
    drawn = to_season(qtbot, charted)
    shown = tab_of(charted).shown
    assert shown == season_of(charted.desk.collection, "A1", today)
    said = head_words(figure_of(charted))
    for words in (
        "Day length, h",
        "Radiation, MJ m⁻² d⁻¹",
        "Strength, ppm N",
        "dotted: 20 May 2026",
    ):
        assert words in said
    assert len(up(drawn._hours)) == 365
    assert [across(line)[0] for line in drawn._days] == [today.toordinal()] * 3


def test_warmth_is_a_line_only_where_it_was_read(
    qtbot: QtBot, charted: Window, today: date
) -> None:
    drawn = to_season(qtbot, charted)
    strength = drawn._panels[2].axes
    legend = strength.get_legend()
    assert legend is not None
    assert [text.get_text() for text in legend.get_texts()] == ["by light"]
    assert "temperature is left out" in tab_of(charted).caption.text()
    (place,) = charted.desk.collection.places.all()
    readings = charted.desk.collection.readings
    charted.desk.write(lambda: readings.write(place.place_id, Reading(today, 16.0)))
    settle(qtbot, charted)
    legend = strength.get_legend()
    assert legend is not None
    said = [text.get_text() for text in legend.get_texts()]
    assert said == ["by light", "and by warmth"]
    assert drawn._light.get_linestyle() != drawn._read.get_linestyle()
    assert "The dashed line counts the temperatures" in tab_of(charted).caption.text()


def test_a_write_is_drawn_at_once(qtbot: QtBot, charted: Window, today: date) -> None:
    plant_id = charted.desk.collection.plants.find("A1")
    assert plant_id is not None
    give = charted.desk.collection.day.give
    charted.desk.write(lambda: give([plant_id], today, CareKind.FEED, 150.0))
    settle(qtbot, charted)
    assert len(plant_drawn(charted)._stems.get_segments()) == 4
    assert "at 150 ppm N" in tab_of(charted).caption.text()


def test_a_plant_without_records_is_a_sentence(qtbot: QtBot, charted: Window) -> None:
    go_to(charted, "A3")
    settle(qtbot, charted)
    tab = tab_of(charted)
    assert tab.sentence.isVisible()
    assert "nothing is on record of A3" in tab.sentence.text()
    assert not canvas_of(charted).isVisible()
    assert not tab.caption.isVisible()
    assert not tab.save_button.isEnabled()
    go_to(charted, "A1")
    settle(qtbot, charted)
    assert canvas_of(charted).isVisible()
    assert not tab.sentence.isVisible()
    assert tab.save_button.isEnabled()


def test_a_chart_that_cannot_be_read_is_a_sentence(
    qtbot: QtBot, charted: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_plant_id: int, _on: date) -> SeasonChart:
        raise InputError("the place", "x", "cannot be read", "Look at the file.")

    monkeypatch.setattr(charted.desk.collection.charts, "season", refuse)
    press(tab_of(charted), "Its season")
    settle(qtbot, charted)
    assert tab_of(charted).sentence.text() == FAILED
    assert "cannot be read" in status(charted)
    assert not tab_of(charted).save_button.isEnabled()


def test_an_answer_nobody_waits_for_any_more_is_dropped(
    charted: Window, today: date
) -> None:
    tab = tab_of(charted)
    before = tab.shown
    late = Wanted(Which.PLANT, 404, today)
    tab.show_chart(late, None)
    assert tab.shown is before
    assert not tab.sentence.isVisible()


def test_the_words_below_are_what_a_screen_reader_hears(charted: Window) -> None:
    tab = tab_of(charted)
    canvas = canvas_of(charted)
    heard = QAccessible.queryAccessibleInterface(canvas)
    assert heard is not None
    assert heard.text(QAccessible.Text.Name).startswith("Chart, A1 Cattleya intermedia")
    assert heard.text(QAccessible.Text.Description) == tab.caption.text()
    assert "Fed 3 times, last on 20 Apr 2026 at 140 ppm N" in tab.caption.text()
    assert canvas.focusPolicy() == Qt.FocusPolicy.TabFocus


def edge_of(canvas: ChartCanvas) -> str:
    return canvas.grab().toImage().pixelColor(1, canvas.height() // 2).name()


def test_the_focus_is_seen_on_the_chart(qtbot: QtBot, charted: Window) -> None:
    charted.activateWindow()
    qtbot.waitUntil(charted.isActiveWindow)
    canvas = canvas_of(charted)
    ring = theme.colours().focus
    assert edge_of(canvas) != ring
    canvas.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(lambda: edge_of(canvas) == ring)
    tab_of(charted).save_button.setFocus()
    qtbot.waitUntil(lambda: edge_of(canvas) != ring)


def test_no_chart_is_drawn_on_the_windows_thread(
    qtbot: QtBot, charted: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    drew: list[int] = []
    draw = Plate.draw

    def told(plate: Plate, sitting: Sitting) -> QImage:
        drew.append(threading.get_ident())
        return draw(plate, sitting)

    monkeypatch.setattr(Plate, "draw", told)
    to_season(qtbot, charted)
    charted.commands["light-dark"].trigger()
    settle(qtbot, charted)
    assert len(drew) >= 2
    assert threading.get_ident() not in drew


def test_a_picture_is_stretched_until_its_size_rests_and_is_drawn(
    qtbot: QtBot, charted: Window
) -> None:
    canvas = canvas_of(charted)
    before = canvas.drawn
    assert before is not None
    dots = canvas.devicePixelRatioF()
    assert before.size() == canvas.size() * dots
    charted.resize(charted.width() + 160, charted.height() + 160)
    QApplication.processEvents()
    assert canvas.size() * dots != before.size()
    assert canvas.drawn is before
    qtbot.waitUntil(
        lambda: (
            canvas.drawn is not None and canvas.drawn.size() == canvas.size() * dots
        ),
        timeout=20_000,
    )


def test_a_picture_has_the_dots_of_its_screen(charted: Window) -> None:
    chart = tab_of(charted).shown
    assert chart is not None
    picture = Plate().draw(Sitting(chart, STYLE, 401, 307, 96, 1.5))
    assert (picture.width(), picture.height()) == (602, 460)
    assert picture.deviceIndependentSize().toSize() == QSize(401, 307)


def test_a_chart_that_cannot_be_drawn_is_a_sentence(
    qtbot: QtBot, charted: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_plate: Plate, _sitting: Sitting) -> QImage:
        raise InputError("the chart", "x", "cannot be drawn", "Look at the file.")

    monkeypatch.setattr(Plate, "draw", refuse)
    press(tab_of(charted), "Its season")
    settle(qtbot, charted)
    assert tab_of(charted).sentence.text() == FAILED
    assert "cannot be drawn" in status(charted)


def test_the_wheel_over_a_chart_is_left_to_what_scrolls(charted: Window) -> None:
    middle = QPoint(60, 60)
    canvas = canvas_of(charted)
    event = QWheelEvent(
        QPointF(middle),
        QPointF(canvas.mapToGlobal(middle)),
        QPoint(0, 0),
        QPoint(0, -240),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    assert event.isAccepted(), "an event is taken unless somebody leaves it"
    QApplication.sendEvent(canvas, event)
    assert not event.isAccepted()


def test_the_first_chart_is_given_room(charted: Window) -> None:
    """All that the pane has, but for the least that the reasons keep."""
    split = charted.detail._split
    reasons = split.widget(0)
    assert reasons is not None
    upper, lower = split.sizes()
    assert lower >= ROOM_PX or upper == reasons.minimumSizeHint().height()
    assert lower > upper


def test_a_closed_window_begins_no_thread_for_a_chart(
    qtbot: QtBot, charted: Window
) -> None:
    go_to(charted, "A3")
    settle(qtbot, charted)
    charted.close()
    theme.current().choose(theme.Mode.DARK)
    assert not charted.tasks.is_busy
    assert charted.tasks._workers == {}


# -- how it looks -------------------------------------------------------------------


def colour_of(value: object) -> str:
    from matplotlib.colors import to_hex

    return to_hex(value)  # type: ignore[arg-type]


def test_a_chart_turns_with_the_theme(qtbot: QtBot, charted: Window) -> None:
    figure = figure_of(charted)
    for key, colours in (("light-dark", theme.DARK), ("light-light", theme.LIGHT)):
        charted.commands[key].trigger()
        settle(qtbot, charted)
        drawn = plant_drawn(charted)
        assert colour_of(figure.get_facecolor()) == colours.card
        assert colour_of(drawn._heads.get_color()) == colours.feed
        labels = drawn._rows.axes.get_yticklabels()
        assert {colour_of(each.get_color()) for each in labels} == {colours.ink}
    season = to_season(qtbot, charted)
    charted.commands["light-dark"].trigger()
    settle(qtbot, charted)
    assert colour_of(season._read.get_color()) == theme.DARK.feed


@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
def test_every_mark_stands_out_from_its_ground(colours: theme.Colours) -> None:
    used = {mark.colour for mark in plant_figure.MARKS.values()}
    for name in used | {"feed", "ink", "accent", "clear_water", "look_first"}:
        assert theme.contrast(getattr(colours, name), colours.card) >= 4.5


def test_no_two_rows_are_told_apart_by_colour_alone() -> None:
    marks = plant_figure.MARKS.values()
    shapes = {(mark.shape, mark.filled, mark.thick_pt) for mark in marks}
    assert len(shapes) == len(plant_figure.MARKS)
    assert len({mark.title for mark in marks}) == len(plant_figure.MARKS)
    assert set(plant_figure.MARKS) >= set(Course)


def fresh_figure(width_px: int, height_px: int) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure as MadeFigure

    figure = MadeFigure(figsize=(width_px / 100, height_px / 100), dpi=100)
    FigureCanvasAgg(figure)
    return figure


def labels_in_sight(axes: Axes) -> list[Text]:
    """Give the names along the upright axis, without those beyond its ends."""
    low, high = sorted(axes.get_ylim())
    pairs = zip(axes.get_yticks(), axes.get_yticklabels(), strict=True)
    return [label for at, label in pairs if low <= at <= high]


def boxes(figure: Figure) -> list[tuple[str, tuple[float, float, float, float]]]:
    """Give every word that is drawn, with its edges in dots."""
    figure.canvas.draw()
    found = []
    for axes in figure.axes:
        if not axes.get_visible():
            continue
        legend = axes.get_legend()
        texts = [*axes.texts, *labels_in_sight(axes)]
        if axes is figure.axes[-1]:
            texts += axes.get_xticklabels()
        if legend is not None:
            texts += legend.get_texts()
        for text in texts:
            if text.get_text().strip():
                box = text.get_window_extent()
                found.append((text.get_text(), (box.x0, box.y0, box.x1, box.y1)))
    return found


def check_words(figure: Figure) -> None:
    """Hold every word to lie inside the picture and on no other word."""
    found = boxes(figure)
    assert found
    wide, high = figure.bbox.width, figure.bbox.height
    for text, (left, low, right, top) in found:
        assert left >= -0.5, text
        assert low >= -0.5, text
        assert right <= wide + 0.5, text
        assert top <= high + 0.5, text
    for number, (text, one) in enumerate(found):
        for other_text, other in found[number + 1 :]:
            apart = (
                one[2] <= other[0] + 1
                or other[2] <= one[0] + 1
                or one[3] <= other[1] + 1
                or other[3] <= one[1] + 1
            )
            assert apart, (text, other_text)


def chart_of(collection: Collection, tag: str, on: date) -> PlantChart:
    plant_id = collection.plants.find(tag)
    assert plant_id is not None
    return collection.charts.plant(plant_id, on)


def season_of(collection: Collection, tag: str, on: date) -> SeasonChart:
    plant_id = collection.plants.find(tag)
    assert plant_id is not None
    return collection.charts.season(plant_id, on)


SIZES = ((340, 8.0), (360, 9.0), (420, 11.0), (500, 13.0), (1200, 8.0), (1200, 13.0))
"""Widths in dots at 100 to the inch, each with a size of type that a pane has there."""


def test_no_word_of_a_plants_chart_is_cut_or_covered(
    recorded: Collection, today: date
) -> None:
    charts = [chart_of(recorded, tag, today) for tag in ("A1", "A2")]
    for width_px, size_pt in SIZES:
        style = Style(theme.LIGHT, size_pt)
        for chart in charts:
            height_px = round(plant_figure.height_pt(chart, style) * 100 / 72)
            figure = fresh_figure(width_px, height_px)
            plant_figure.PlantFigure(figure).show(chart, style)
            check_words(figure)


@pytest.mark.parametrize("month", [1, 4, 6, 9, 12])
def test_no_word_of_a_season_is_cut_or_covered(
    recorded: Collection, today: date, month: int
) -> None:
    (place,) = recorded.places.all()
    recorded.readings.write(place.place_id, Reading(today, 16.0))
    season = season_of(recorded, "A1", today)
    chart = replace(season, on=date(2026, month, 28))
    for width_px, size_pt in SIZES:
        style = Style(theme.LIGHT, size_pt)
        height_px = round(season_figure.height_pt(style) * 100 / 72)
        figure = fresh_figure(width_px, height_px)
        season_figure.SeasonFigure(figure).show(chart, style)
        check_words(figure)


def test_the_check_of_words_has_teeth() -> None:
    for x, y in ((0.95, 0.5), (0.1, 0.5)):
        figure = fresh_figure(300, 300)
        axes = figure.subplots()
        axes.set_yticks([0.5], ["a name"])
        axes.annotate("a long word", (x, y), xycoords="figure fraction")
        axes.annotate("another", (0.2, 0.5), xycoords="figure fraction")
        with pytest.raises(AssertionError):
            check_words(figure)


# -- ticks --------------------------------------------------------------------------


def test_months_are_named_with_the_year_where_it_begins() -> None:
    axes = fresh_figure(600, 200).subplots()
    ticks.months(axes, date(2024, 9, 28), date(2026, 3, 28), 18.0)
    said = [label.get_text() for label in axes.get_xticklabels()]
    assert said == ["Oct\n2024", "Jan\n2025", "Apr\n ", "Jul\n ", "Oct\n ", "Jan\n2026"]
    assert len(axes.get_xticks(minor=True)) + len(said) >= 18


def test_one_year_of_months_needs_no_year() -> None:
    axes = fresh_figure(600, 200).subplots()
    ticks.months(axes, date(2026, 1, 1), date(2026, 12, 31), 40.0)
    said = [label.get_text() for label in axes.get_xticklabels()]
    assert said[0] == "Jan"
    assert len(said) == 12


@pytest.mark.parametrize(("least", "most"), [(12.05, 12.2), (8.0, 16.4), (0.0, 24.0)])
def test_hours_are_all_seen_and_never_magnified(least: float, most: float) -> None:
    axes = fresh_figure(600, 200).subplots()
    ticks.hours(axes, least, most)
    low, high = axes.get_ylim()
    assert low < least
    assert high > most
    assert high - low >= ticks.LEAST_HOURS_SHOWN


# -- in words -----------------------------------------------------------------------


def test_a_plants_chart_is_told_in_words(recorded: Collection, today: date) -> None:
    said = summary(chart_of(recorded, "A1", today))
    for sentence in (
        "20 Nov 2024 to 20 May 2026.",
        "Fed 3 times, last on 20 Apr 2026 at 140 ppm N; between 60 and 140 ppm N.",
        "Flushed 1 time, last on 21 Mar 2026.",
        "Repotted on 21 Dec 2025.",
        "Lead: from 12 mm on 1 Mar 2026 to 90 mm on 30 Apr 2026.",
        "Longest new root: from 6 mm on 1 Mar 2026 to 45 mm on 30 Apr 2026.",
        "Newest rate of the lead: 9.8 mm a week on 30 Apr 2026, against 10 mm (usual",
        "Newest rate of the roots: 4.9 mm a week on 30 Apr 2026; there is no yardstick",
        "No strength goes by these rates now.",
        "In flower from 31 Mar 2026 to 30 Apr 2026.",
        "Spike or buds on 1 Mar 2026.",
        "an extending growth on 20 May 2026 and root tips on the move on 20 May 2026.",
    ):
        assert sentence in said
    assert "{" not in said


def test_a_rate_that_counts_and_one_that_cannot_be_told_are_said(
    recorded: Collection, today: date
) -> None:
    chart = chart_of(recorded, "A1", today)
    (lead, roots) = chart.growth
    counting = replace(chart, growth=(replace(lead, counts=True), roots))
    assert "The strength goes by the lead now." in summary(counting)
    assert "No strength goes by" not in summary(counting)
    untold = summary(replace(chart, growth=()))
    assert "No rate can be told: that takes two lengths" in untold
    assert "Newest rate" not in untold


def test_a_window_and_its_readings_are_said_in_the_season(
    recorded: Collection, today: date
) -> None:
    (place,) = recorded.places.all()
    draft = replace(place.draft, facing=Facing.EAST)
    recorded.places.change(place.place_id, draft)
    said = summary(season_of(recorded, "A1", today))
    assert "By its east window a leaf has about" in said
    assert "through the year)." in said
    assert "stands in for its light" not in said
    for days in (1, 3, 5):
        reading = Reading(today - timedelta(days=days), light_mol_per_m2_d=6.5)
        recorded.readings.write(place.place_id, reading)
    said = summary(season_of(recorded, "A1", today))
    assert "By what was read there a leaf has about 6.5 mol m⁻² d⁻¹" in said
    assert "Light was read there (May to June; for the days to come" in said
    steady = replace(draft, controlled=True)
    recorded.places.change(place.place_id, steady)
    said = summary(season_of(recorded, "A1", today))
    assert "kept steady" in said
    assert "mol m" not in said


def test_a_season_says_what_it_goes_by(recorded: Collection, today: date) -> None:
    season = season_of(recorded, "A1", today)
    said = summary(season)
    assert "at 50° north" in said
    assert f"{season.shown.day_length_h:.1f} h long" in said
    assert "By light alone the strength is" in said
    assert "temperature is left out" in said
    assert "not a law of nature" in said
    guessed = replace(season, latitude=-33.5, latitude_given=False)
    assert "at 33.5° south, which is the program's guess" in summary(guessed)
    for basis, words in (
        (Basis.LAMPS, "Under lamps the strength goes by them"),
        (Basis.CONTROLLED, "The place is kept steady"),
    ):
        other = summary(replace(season, basis=basis))
        assert words in other
        assert "By light alone" not in other


def test_nothing_on_record_is_told_with_the_way_out(
    stocked: Collection, today: date
) -> None:
    said = nothing(chart_of(stocked, "A3", today))
    assert "20 Nov 2024 and 20 May 2026" in said
    assert "once they are written down" in said


def test_titles_name_plant_and_place(recorded: Collection, today: date) -> None:
    plant = chart_of(recorded, "A1", today)
    assert title(plant) == "A1 Cattleya intermedia: 18 months to 20 May 2026"
    season = season_of(recorded, "A1", today)
    assert title(season) == "A1 Cattleya intermedia: the year 2026 at East window"
    assert "a place without a name" in title(replace(season, place=""))


# -- saving -------------------------------------------------------------------------


def test_a_chart_is_saved_as_png_and_as_svg(
    qtbot: QtBot, charted: Window, tmp_path: Path
) -> None:
    tab = tab_of(charted)
    for name in ("chart.png", "chart.SVG"):
        file = tmp_path / name
        charted.files.save_chart_to(tab.shown, STYLE, file)  # type: ignore[arg-type]
        qtbot.waitUntil(lambda file=file: status(charted) == f"Saved {file}")  # type: ignore[misc]
    with Image.open(tmp_path / "chart.png") as picture:
        assert picture.size[0] == 1536
        assert picture.info["Description"] == tab.caption.text()
        assert picture.getpixel((2, 2))[:3] == (0xFB, 0xFA, 0xF4)  # type: ignore[index]
    drawing = (tmp_path / "chart.SVG").read_text("utf-8")
    assert drawing.startswith("<?xml")
    assert "Fed 3 times" in drawing


def test_both_charts_are_saved_with_their_names_in_both_schemes(
    recorded: Collection, today: date
) -> None:
    seen = set()
    for chart in (chart_of(recorded, "A1", today), season_of(recorded, "A1", today)):
        for colours in (theme.LIGHT, theme.DARK):
            content = saving.picture(chart, Style(colours, 9.0), "png")
            with Image.open(BytesIO(content)) as picture:
                picture.load()
                assert picture.info["Title"] == title(chart)
            seen.add(content)
    assert len(seen) == 4


@pytest.mark.parametrize(
    "name", ["Cattleya $x$ $\\frac$", "蘭 \U0001f33a ×", "a" * 120, "<b>&amp;</b>"]
)
@pytest.mark.parametrize("form", ["png", "svg"])
def test_any_name_can_be_saved(
    collection: Collection, today: date, name: str, form: str
) -> None:
    plant_id = collection.plants.add(PlantDraft("Z/9", name, "cattleya")).ids[0]
    chart = collection.charts.season(plant_id, today)
    assert len(saving.picture(chart, STYLE, form)) > 1000
    assert saving.file_name(chart) == "Z-9-season-2026-05-20.png"


def test_another_ending_is_refused_in_one_line(
    recorded: Collection, today: date, tmp_path: Path
) -> None:
    chart = chart_of(recorded, "A1", today)
    with pytest.raises(GrowdeskError) as refused:
        saving.save(chart, STYLE, tmp_path / "chart.pdf")
    assert "chart.pdf" in refused.value.line()
    assert ".png or .svg" in refused.value.line()
    assert list(tmp_path.glob("chart*")) == []


def test_a_folder_that_cannot_be_is_one_line(
    qtbot: QtBot, charted: Window, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("x")
    file = tmp_path / "file" / "chart.png"
    charted.files.save_chart_to(tab_of(charted).shown, STYLE, file)  # type: ignore[arg-type]
    qtbot.waitUntil(lambda: "cannot be saved" in status(charted))
    assert "\n" not in status(charted)


def test_the_button_opens_a_chooser_with_both_kinds(charted: Window) -> None:
    press(tab_of(charted), "Save chart…")
    (chooser,) = charted.findChildren(QFileDialog)
    assert chooser.nameFilters() == list(saving.KINDS)
    assert chooser.selectedFiles()[0].endswith("A1-plant-2026-05-20.png")
    assert chooser.defaultSuffix() == "png"
    chooser.filterSelected.emit(saving.KINDS[1])
    assert chooser.defaultSuffix() == "svg"
    chooser.close()
