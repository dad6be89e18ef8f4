"""Every chart of the program, held to what each of them must have."""

from __future__ import annotations

from datetime import date
from io import BytesIO
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET

import pytest
from PIL import Image

from growdesk.domain.speech import Manner, speak
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui import theme
from growdesk.ui.charts import drawing, saving
from growdesk.ui.charts.asking import Wanted, Which, read
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.summary import nothing_of, summary, title
from tests.ui.test_charts import check_words, fresh_figure
from tests.ui.test_mix_chart import CHART

if TYPE_CHECKING:
    from collections.abc import Iterator

    from matplotlib.figure import Figure

    from growdesk.ui.charts.drawing import Chart

ON = date(2026, 11, 25)
SVG = "{http://www.w3.org/2000/svg}"
TITLES: dict[Which, tuple[str, ...]] = {
    Which.PLANT: (
        "Feed given, ppm N",
        "Length, mm",
        "Growth, mm a week",
        "Seen at looks, and done",
    ),
    Which.SEASON: ("Day length, h", "Radiation, MJ m⁻² d⁻¹", "Strength, ppm N"),
    Which.PLACE: (
        "Day length, h",
        "Radiation above the air, MJ m⁻² d⁻¹",
        "Light at the leaf, mol m⁻² d⁻¹",
        "Strength, ppm N",
    ),
    Which.USED: ("Nitrogen used, g a month",),
    Which.MIX: ("In a litre, mg",),
    Which.METER: ("EC at 25 °C, mS/cm",),
    Which.BLOOMS: ("In flower, by month",),
}
TOLD: dict[Which, tuple[str, ...]] = {
    Which.PLANT: ("between 60 and 90 ppm N", "last on 18 Nov 2026", "before it"),
    Which.SEASON: ("the longest 16.1 h, in June", "(94 to 133)", "25 Nov 2026"),
    Which.PLACE: ("the longest 16.1 h, in June", "strongest in April, at 133"),
    Which.USED: ("the most in July 2026: 2.8 g", "November 2026 0."),
    Which.MIX: ("nitrogen is met with 100 mg", "20 mg P"),
    Which.METER: ("Read between 0.66 and 1.62 mS/cm, last", "25 Jun 2026"),
    Which.BLOOMS: ("In flower now: A1", "last from 11 Jan 2026 to 3 Mar 2026"),
}
"""What a sighted person takes from each: range, trend, the last, its day."""

EACH = pytest.mark.parametrize("which", list(Which))
SCHEMES = pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK])


@pytest.fixture(scope="module")
def charts(tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[Which, Chart]]:
    folder = lay_demo(tmp_path_factory.mktemp("demo") / "collection", ON)
    demo = Collection.open(folder, FixedClock(ON))
    plant_id = demo.plants.find("A1")
    place = demo.places.all()[0].place_id
    assert plant_id is not None
    of = {Which.PLANT: plant_id, Which.SEASON: plant_id, Which.PLACE: place}
    found: dict[Which, Chart] = {
        which: read(demo, Wanted(which, of.get(which, 0), ON))
        for which in Which
        if which is not Which.MIX
    }
    yield {**found, Which.MIX: CHART}
    demo.close()


def to_hex(colour: object, *, keep_alpha: bool = False) -> str:
    from matplotlib.colors import to_hex as as_hex

    return as_hex(colour, keep_alpha=keep_alpha)  # type: ignore[arg-type]


def drawn(chart: Chart, style: Style, wide_px: int = 760) -> Figure:
    figure = fresh_figure(wide_px, round(drawing.height_pt(chart, style) * 100 / 72))
    figure.set_facecolor(style.colours.card)
    drawing.draw(figure, chart, style, None)
    return figure


def seen_axes(figure: Figure) -> list[Any]:
    return [axes for axes in figure.axes if axes.get_visible()]


def look_of(handle: Any) -> tuple[object, ...]:
    """Give how a sign of a key looks to one who sees no colours."""
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    if isinstance(handle, Line2D):
        dashes = str(getattr(handle, "_unscaled_dash_pattern", ""))
        shape = str(handle.get_marker())
        return (dashes, shape, handle.get_linewidth(), handle.get_linestyle())
    assert isinstance(handle, Patch)
    return (
        handle.get_hatch(),
        handle.get_linewidth(),
        to_hex(handle.get_facecolor(), keep_alpha=True),
    )


@EACH
def test_each_panel_has_a_title_with_its_unit(
    which: Which, charts: dict[Which, Chart]
) -> None:
    figure = drawn(charts[which], Style(theme.LIGHT, 9.0))
    heads = [
        next((t.get_text() for t in axes.texts if t.get_text() in TITLES[which]), None)
        or next(t.get_text() for t in axes.texts if t.get_text().strip())
        for axes in seen_axes(figure)
    ]
    assert len(heads) == len(TITLES[which])
    for head, wanted in zip(heads, TITLES[which], strict=True):
        assert head.startswith(wanted)


@EACH
@pytest.mark.parametrize(("wide_px", "size_pt"), [(420, 9.0), (760, 13.5), (760, 18.0)])
def test_no_word_is_cut_or_covered_at_any_size_of_type(
    which: Which, wide_px: int, size_pt: float, charts: dict[Which, Chart]
) -> None:
    style = Style(theme.LIGHT, size_pt)
    check_words(drawn(charts[which], style, wide_px))


@EACH
@SCHEMES
def test_ground_and_words_are_the_themes(
    which: Which, colours: theme.Colours, charts: dict[Which, Chart]
) -> None:
    figure = drawn(charts[which], Style(colours, 9.0))
    for axes in seen_axes(figure):
        assert to_hex(axes.get_facecolor()) == colours.card
        legend = axes.get_legend()
        words = [*axes.texts, *axes.get_xticklabels(), *axes.get_yticklabels()]
        words += [] if legend is None else legend.get_texts()
        for word in words:
            if word.get_text().strip():
                assert to_hex(word.get_color()) == colours.ink, word.get_text()


@EACH
def test_a_figure_turns_with_the_theme(
    which: Which, charts: dict[Which, Chart]
) -> None:
    chart, light = charts[which], Style(theme.LIGHT, 9.0)
    figure = fresh_figure(760, round(drawing.height_pt(chart, light) * 100 / 72))
    made = drawing.draw(figure, chart, light, None)
    again = drawing.draw(figure, chart, Style(theme.DARK, 9.0), made)
    assert again is made
    assert {to_hex(axes.get_facecolor()) for axes in seen_axes(figure)} == {
        theme.DARK.card
    }


@EACH
def test_a_key_stands_off_its_data_and_needs_no_colour(
    which: Which, charts: dict[Which, Chart]
) -> None:
    figure = drawn(charts[which], Style(theme.LIGHT, 9.0))
    figure.canvas.draw()
    for axes in seen_axes(figure):
        legend = axes.get_legend()
        if legend is None:
            continue
        assert legend.get_window_extent().y0 >= axes.bbox.y1 - 0.5
        looks = [look_of(handle) for handle in legend.legend_handles]
        assert len(set(looks)) == len(looks), looks


@EACH
def test_the_words_say_range_trend_last_and_day(
    which: Which, charts: dict[Which, Chart]
) -> None:
    chart = charts[which]
    said = summary(chart)
    for each in TOLD[which]:
        assert each in said
    assert title(chart)
    assert nothing_of(chart) == ""


@EACH
@SCHEMES
def test_a_drawing_has_its_name_and_its_words_as_text(
    which: Which, colours: theme.Colours, charts: dict[Which, Chart]
) -> None:
    chart = charts[which]
    svg = ET.fromstring(saving.picture(chart, Style(colours, 9.0), "svg"))  # noqa: S314 -- our own drawing
    assert svg.findtext(f"{SVG}title") == title(chart)
    assert svg.findtext(f"{SVG}desc") == summary(chart)
    assert svg.get("role") == "img"
    told = " ".join("".join(each.itertext()) for each in svg.iter(f"{SVG}text"))
    for head in TITLES[which]:
        assert head in told


@EACH
@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK])
def test_a_picture_for_print_is_dark_on_white(
    which: Which, colours: theme.Colours, charts: dict[Which, Chart]
) -> None:
    chart, style = charts[which], Style(colours, 9.0)
    white = saving.style_of_kind(style, saving.KINDS[0])
    with Image.open(BytesIO(saving.picture(chart, white, "png"))) as picture:
        assert picture.width == saving.WIDTH_IN * 2 * 96
        assert picture.convert("RGB").getpixel((2, 2)) == (255, 255, 255)
    assert saving.style_of_kind(style, saving.KINDS[2]) == style


def test_names_of_files_are_plain_and_tell_charts_apart(
    charts: dict[Which, Chart],
) -> None:
    names = [saving.file_name(chart) for chart in charts.values()]
    assert len(set(names)) == len(names)
    for name in names:
        assert name.endswith(".png")
        assert not {*name} & {*'\\/:*?"<>| '}, name


@EACH
def test_amounts_have_the_decimal_sign_of_the_place(
    which: Which, charts: dict[Which, Chart]
) -> None:
    speak(Manner(decimal=","))
    try:
        figure = drawn(charts[which], Style(theme.LIGHT, 9.0))
        figure.canvas.draw()
        amounts = [
            label.get_text()
            for axes in seen_axes(figure)
            for label in axes.get_yticklabels()
            if label.get_text()[:1].isdecimal()
        ]
        assert not any("." in amount for amount in amounts)
    finally:
        speak()
