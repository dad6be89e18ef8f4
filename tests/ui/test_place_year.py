"""The year of a place: its figure, its words, its dialog and the ways to it."""

from __future__ import annotations

from datetime import timedelta
from io import BytesIO
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget

from growdesk.domain.day_words import MONTHS
from growdesk.domain.errors import InputError
from growdesk.domain.facts import Facing, Glass, Reading
from growdesk.services.chart_values import PlaceChart
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.ui import theme
from growdesk.ui.charts import place_figure, saving
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.summary import summary, title
from growdesk.ui.dialogs.place import PlacesDialog
from growdesk.ui.dialogs.place_year import FAILED, WAITING, PlaceYearDialog
from tests.ui.driving import dialog_of, go_to, open_dialogs, press, settle
from tests.ui.test_charts import CHART, SIZES, across, check_words, fresh_figure, up

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from matplotlib.axes import Axes
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

STYLE = Style(theme.LIGHT, 9.0)
BAY = PlaceDraft("Bay", facing=Facing.EAST, glass=Glass.DOUBLE)


def place_with(collection: Collection, draft: PlaceDraft, *of: str) -> int:
    place = collection.places.add(draft).ids[0]
    for number, kind in enumerate(of):
        plant = PlantDraft(f"P{number}", kind, kind, place_id=place)
        collection.plants.add(plant)
    return place


@pytest.fixture
def bay(collection: Collection, today: date) -> int:
    """Give a window with four kinds, light read of late, and two weeks' warmth."""
    kinds = ("vanda", "vanda", "masdevallia", "phalaenopsis", "catasetum")
    place = place_with(collection, BAY, *kinds)
    for days in range(14):
        light = 5.0 if days < 6 else None
        reading = Reading(today - timedelta(days=days), 15.0, light_mol_per_m2_d=light)
        collection.readings.write(place, reading)
    return place


def drawn(
    chart: PlaceChart, style: Style = STYLE, width_px: int = 760
) -> place_figure.PlaceFigure:
    height_px = round(place_figure.height_pt(chart, style) * 100 / 72)
    made = place_figure.PlaceFigure(fresh_figure(width_px, height_px))
    made.show(chart, style)
    return made


def legend_of(axes: Axes) -> list[str]:
    legend = axes.get_legend()
    return [] if legend is None else [text.get_text() for text in legend.get_texts()]


# -- the figure -----------------------------------------------------------------------


def test_each_panel_draws_its_own_amount(
    collection: Collection, bay: int, today: date
) -> None:
    chart = collection.charts.place(bay, today)
    made = drawn(chart)
    assert up(made._hours) == [day.day_length_h for day in chart.days]
    assert up(made._radiation) == [day.ra_mj_per_m2_d for day in chart.days]
    reckoned, read = up(made._reckoned), up(made._read)
    at = chart.number
    assert read[at] == pytest.approx(5.0)
    assert reckoned[at] != reckoned[at], "no line is reckoned where light was read"
    assert reckoned[0] == chart.days[0].light_mol_per_m2_d
    assert read[0] != read[0]
    assert legend_of(made._panels[2].axes) == ["reckoned", "by readings"]
    assert made._reckoned.get_linestyle() != made._read.get_linestyle()
    for line in made._days:
        assert across(line) == [today.toordinal()] * 2


def test_each_kind_has_a_line_and_a_name_of_its_own(
    collection: Collection, bay: int, today: date
) -> None:
    chart = collection.charts.place(bay, today)
    made = drawn(chart)
    strength = made._panels[3]
    for number, strengths in enumerate(chart.strengths):
        assert up(made._by_light[number]) == list(strengths.by_light)
        now = strengths.read[chart.number]
        assert now is not None
        assert up(made._warm[number])[chart.number] == now
        assert up(made._dots[3])[number] == now
        assert legend_of(strength.axes)[number].endswith(f": {now:.0f}")
    assert legend_of(strength.axes)[0].startswith("Vanda and its hybrids")
    assert "thick: by warmth too" in strength._title.get_text()
    wide = made._warm[0].get_linewidth()
    assert wide >= 2 * made._by_light[0].get_linewidth()


def test_no_two_kinds_are_told_apart_by_colour_alone() -> None:
    patterns = [pattern for _, pattern in place_figure.PATTERNS]
    assert len(set(patterns)) == len(patterns)


@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
def test_every_kinds_line_stands_out_from_its_ground(colours: theme.Colours) -> None:
    for name, _ in place_figure.PATTERNS:
        assert theme.contrast(getattr(colours, name), colours.card) >= 4.5


def test_a_place_without_known_light_or_warmth_has_no_empty_panel(
    collection: Collection, today: date
) -> None:
    place = place_with(collection, PlaceDraft("Hall"), "vanda")
    made = drawn(collection.charts.place(place, today))
    assert [each.axes.get_visible() for each in made._panels] == [
        True,
        True,
        False,
        True,
    ]
    assert not made._warm[0].get_visible()
    assert made._by_light[0].get_linewidth() == place_figure.ALONE_PT
    assert made._panels[3]._title.get_text() == "Strength, ppm N"


def test_a_figure_serves_one_place_after_another(
    collection: Collection, bay: int, today: date
) -> None:
    hall = place_with(collection, PlaceDraft("Hall"))
    made = drawn(collection.charts.place(bay, today))
    made.show(collection.charts.place(hall, today), STYLE)
    assert [line.get_visible() for line in made._by_light] == [True] * 3 + [False]
    assert not any(line.get_visible() for line in made._warm)
    assert len(up(made._dots[3])) == 3
    assert legend_of(made._panels[2].axes) == []
    made.show(collection.charts.place(bay, today), STYLE)
    assert all(line.get_visible() for line in made._warm)


@pytest.mark.parametrize("month", [1, 4, 6, 9, 12])
def test_no_word_of_a_places_year_is_cut_or_covered(
    collection: Collection, bay: int, today: date, month: int
) -> None:
    chart = collection.charts.place(bay, today)
    shown = replace(chart, on=today.replace(month=month, day=28))
    for width_px, size_pt in SIZES:
        style = Style(theme.LIGHT, size_pt)
        check_words(drawn(shown, style, width_px)._figure)


# -- in words -------------------------------------------------------------------------


def test_the_year_is_told_in_words(
    collection: Collection, bay: int, today: date
) -> None:
    chart = collection.charts.place(bay, today)
    said, hours = summary(chart), [day.day_length_h for day in chart.days]
    for words in (
        "Bay at 50° north, which is the program's guess",
        f"On 20 May 2026 the day is {chart.shown.day_length_h:.1f} h long",
        f"the shortest is {min(hours):.1f} h, in December, the longest ",
        f"{max(hours):.1f} h, in June.",
        "By what was read there a leaf has about 5.0 mol m⁻² d⁻¹ of light on 20 May",
        "Vanda and its hybrids (2 plants): ",
        "by light strongest in ",
        "and weakest in December, at ",
        "The thick line counts the temperatures read there too (May",
        "at the house's full strength of 150 ppm N",
        "a curve of the house, not a law of nature.",
    ):
        assert words in said
    assert "{" not in said
    assert title(chart) == "Bay: the year 2026"
    by_month: dict[str, list[float]] = {}
    for day, strength in zip(chart.days, chart.strengths[0].by_light, strict=True):
        by_month.setdefault(MONTHS[day.on.month - 1], []).append(strength)
    means = {month: sum(found) / len(found) for month, found in by_month.items()}
    (strongest, *_), (weakest, *_) = (
        sorted(means, key=lambda month: sign * means[month]) for sign in (-1, 1)
    )
    assert weakest == "December"
    assert (
        f"by light strongest in {strongest}, at {means[strongest]:.0f}, and weakest in "
        f"December, at {means[weakest]:.0f}."
    ) in said


def test_other_places_are_told_as_they_are(collection: Collection, today: date) -> None:
    def told(draft: PlaceDraft, *of: str) -> str:
        place = collection.places.add(draft).ids[0]
        for kind in of:
            tag = collection.plants.next_tag()
            collection.plants.add(PlantDraft(tag, kind, kind, place_id=place))
        return summary(collection.charts.place(place, today))

    empty = told(PlaceDraft("Hall"))
    assert "No plant stands there, so three classes of light do" in empty
    assert "Facing, lamps and light of the place are not recorded" in empty
    assert "Bright light: " in empty
    assert "temperature" not in empty
    steady = told(PlaceDraft("Case", controlled=True), "vanda")
    assert "kept steady, so the season takes nothing off." in steady
    assert "it is the same all year." in steady
    assert "temperature" not in steady
    lamps = told(PlaceDraft("Shelf", lamps_hours=10, lamps_ppfd=100), "vanda")
    assert "By its lamps a leaf has about 3.6 mol m⁻² d⁻¹" in lamps
    assert "(all year)" in lamps
    assert "No temperatures were read at the place" in lamps
    full = told(
        BAY, "vanda", "disa", "cattleya", "masdevallia", "cymbidium", "oncidium"
    )
    assert "2 kinds stand there too and not in the chart." in full
    assert "By its east window a leaf has about" in full


def test_warmth_that_takes_nothing_off_is_said(
    collection: Collection, today: date
) -> None:
    place = place_with(collection, BAY, "vanda")
    collection.readings.write(place, Reading(today, 24.0))
    assert "warmth takes nothing off" in summary(collection.charts.place(place, today))


# -- saving ---------------------------------------------------------------------------


@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
def test_a_year_is_saved_with_its_name_and_words(
    collection: Collection, bay: int, today: date, colours: theme.Colours
) -> None:
    chart = collection.charts.place(bay, today)
    content = saving.picture(chart, Style(colours, 9.0), "png")
    with Image.open(BytesIO(content)) as picture:
        assert picture.info["Title"] == "Bay: the year 2026"
        assert picture.info["Description"] == summary(chart)
    drawing = saving.picture(chart, Style(colours, 9.0), "svg").decode()
    assert "Vanda and its hybrids (2 plants)" in drawing
    assert saving.file_name(chart) == "Bay-year-2026-05-20.png"
    odd = replace(chart, place="South/sill: " + "x" * 90)
    assert saving.file_name(odd) == f"South-sill--{'x' * 28}-year-2026-05-20.png"


# -- the dialog -----------------------------------------------------------------------


@pytest.fixture
def opened(qtbot: QtBot, window: Window) -> PlaceYearDialog:
    """Give the year of the only place, opened from the places."""
    window.commands["places"].trigger()
    settle(qtbot, window)
    places = dialog_of(window, PlacesDialog)
    press(places, "Its &year…")
    settle(qtbot, window)
    return dialog_of(window, PlaceYearDialog)


def test_the_places_lead_to_the_year_of_the_chosen_one(
    opened: PlaceYearDialog, window: Window, today: date
) -> None:
    collection = window.desk.collection
    (place,) = collection.places.all()
    assert opened.shown == collection.charts.place(place.place_id, today)
    assert opened.windowTitle() == "East window: the year 2026"
    assert opened.caption.text() == summary(opened.shown)
    assert not opened.sentence.isVisible()
    assert opened.save_button.isEnabled()


def test_a_new_place_has_no_year_yet(qtbot: QtBot, window: Window) -> None:
    window.commands["places"].trigger()
    settle(qtbot, window)
    places = dialog_of(window, PlacesDialog)
    assert places.year_button.isEnabled()
    places.start_new()
    assert not places.year_button.isEnabled()


def test_the_season_of_a_plant_leads_to_the_year_of_its_place(
    qtbot: QtBot, window: Window, today: date
) -> None:
    go_to(window, "A1")
    window.detail.tabs.setCurrentIndex(CHART)
    settle(qtbot, window)
    tab = window.detail.charts
    assert not tab.place_button.isVisible()
    press(tab, "Its season")
    settle(qtbot, window)
    press(tab, "The year of its place…")
    settle(qtbot, window)
    dialog = dialog_of(window, PlaceYearDialog)
    assert isinstance(dialog.shown, PlaceChart)
    assert (dialog.shown.place, dialog.shown.on) == ("East window", today)
    dialog.accept()
    press(tab, "This plant")
    settle(qtbot, window)
    assert not tab.place_button.isVisible()


def test_a_screen_reader_hears_the_year(opened: PlaceYearDialog) -> None:
    assert opened.canvas is not None
    heard = QAccessible.queryAccessibleInterface(opened.canvas)
    assert heard is not None
    name = heard.text(QAccessible.Text.Name)
    assert name == "Chart, East window: the year 2026"
    assert heard.text(QAccessible.Text.Description) == opened.caption.text()


def test_the_keys_reach_all_of_the_year(opened: PlaceYearDialog) -> None:
    assert opened.canvas is not None
    stops: list[QWidget] = []
    each = opened.nextInFocusChain()
    while each is not None and each is not opened:
        if each.focusPolicy() & Qt.FocusPolicy.TabFocus and each.isVisible():
            stops.append(each)
        each = each.nextInFocusChain()
    assert opened.canvas in stops
    assert opened._words in stops
    assert opened.save_button in stops
    for stop in stops:
        named = isinstance(stop, QPushButton) and stop.text()
        assert stop.accessibleName() or named
    QTest.keyClick(opened, Qt.Key.Key_Escape)
    assert not opened.isVisible()


def test_the_year_turns_with_the_colours(
    qtbot: QtBot, window: Window, opened: PlaceYearDialog
) -> None:
    assert opened.canvas is not None
    for mode, colours in (
        (theme.Mode.DARK, theme.DARK),
        (theme.Mode.LIGHT, theme.LIGHT),
    ):
        theme.current().choose(mode)
        settle(qtbot, window)
        picture = opened.canvas.drawn
        assert picture is not None
        assert picture.pixelColor(1, 1).name() == colours.card


def test_a_year_is_saved_from_its_dialog_and_it_says_so(
    qtbot: QtBot, opened: PlaceYearDialog, window: Window, tmp_path: Path
) -> None:
    press(opened, "&Save chart…")
    (chooser,) = opened.findChildren(QFileDialog)
    assert chooser.selectedFiles()[0].endswith("East-window-year-2026-05-20.png")
    file = tmp_path / "year.svg"
    chooser.fileSelected.emit(str(file))
    qtbot.waitUntil(lambda: opened.message.text() == f"Saved {file}")
    assert file.read_text("utf-8").startswith("<?xml")
    chooser.close()
    assert opened in open_dialogs(window)


def test_a_place_that_is_gone_is_said(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_place_id: int, _on: date) -> PlaceChart:
        raise InputError("place", 7, "is not there any more", "Undo brings it back.")

    monkeypatch.setattr(window.desk.collection.charts, "place", refuse)
    window.shelf.years.open(7)
    dialog = dialog_of(window, PlaceYearDialog)
    assert dialog.sentence.text() == WAITING
    settle(qtbot, window)
    assert dialog.sentence.text() == FAILED
    assert "is not there any more" in dialog.message.text()
    assert not dialog.save_button.isEnabled()
    assert dialog.canvas is None


def test_another_chart_is_not_taken_for_the_year(
    opened: PlaceYearDialog, today: date
) -> None:
    before = opened.shown
    opened.show_chart(Wanted(Which.PLACE, 404, today), None)
    assert opened.shown is before
    assert not opened.sentence.isVisible()
