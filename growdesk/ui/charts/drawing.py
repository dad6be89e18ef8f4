"""Lead each chart to the figure that draws it, for the canvas and for files alike."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from growdesk.services.bloom_values import WhoBlooms
from growdesk.services.chart_values import (
    PlaceChart,
    PlantChart,
    SeasonChart,
    UsedChart,
)
from growdesk.services.meter_values import MeterChart
from growdesk.services.recipe_values import MixChart
from growdesk.ui.charts import (
    bloom_figure,
    meter_figure,
    mix_figure,
    place_figure,
    plant_figure,
    season_figure,
    used_figure,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from matplotlib.figure import Figure

    from growdesk.ui.charts.panel import Style

    Chart = (
        PlantChart
        | SeasonChart
        | PlaceChart
        | UsedChart
        | MixChart
        | MeterChart
        | WhoBlooms
    )

Drawn = (
    plant_figure.PlantFigure
    | season_figure.SeasonFigure
    | place_figure.PlaceFigure
    | used_figure.UsedFigure
    | mix_figure.MixFigure
    | meter_figure.MeterFigure
    | bloom_figure.BloomFigure
)


_FIGURES: Mapping[type[Any], type[Any]] = {
    PlantChart: plant_figure.PlantFigure,
    SeasonChart: season_figure.SeasonFigure,
    PlaceChart: place_figure.PlaceFigure,
    UsedChart: used_figure.UsedFigure,
    MixChart: mix_figure.MixFigure,
    MeterChart: meter_figure.MeterFigure,
    WhoBlooms: bloom_figure.BloomFigure,
}
_HEIGHTS: Mapping[type[Any], Callable[[Any, Style], float]] = {
    PlantChart: plant_figure.height_pt,
    SeasonChart: lambda _chart, style: season_figure.height_pt(style),
    PlaceChart: place_figure.height_pt,
    UsedChart: lambda _chart, style: used_figure.height_pt(style),
    MixChart: lambda _chart, style: mix_figure.height_pt(style),
    MeterChart: lambda _chart, style: meter_figure.height_pt(style),
    WhoBlooms: bloom_figure.height_pt,
}


def height_pt(chart: Chart, style: Style) -> float:
    """Give the least height at which a chart is legible."""
    return _HEIGHTS[type(chart)](chart, style)


def draw(figure: Figure, chart: Chart, style: Style, before: Drawn | None) -> Drawn:
    """Draw a chart on a figure; what was drawn before serves for its like again.

    A $ in a name is a letter: no chart of ours holds a formula.
    """
    from matplotlib import rcParams

    rcParams["text.parse_math"] = False
    sort = _FIGURES[type(chart)]
    drawn: Any = before
    if not isinstance(before, sort):
        figure.clear()
        drawn = sort(figure)
    drawn.show(chart, style)
    made: Drawn = drawn
    return made
