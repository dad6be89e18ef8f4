"""Lead each chart to the figure that draws it, for the canvas and for files alike."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services.chart_values import PlaceChart, PlantChart, UsedChart
from growdesk.ui.charts import place_figure, plant_figure, season_figure, used_figure

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from growdesk.services.chart_values import SeasonChart
    from growdesk.ui.charts.panel import Style

    Chart = PlantChart | SeasonChart | PlaceChart | UsedChart

Drawn = (
    plant_figure.PlantFigure
    | season_figure.SeasonFigure
    | place_figure.PlaceFigure
    | used_figure.UsedFigure
)


def height_pt(chart: Chart, style: Style) -> float:
    """Give the least height at which a chart is legible."""
    if isinstance(chart, PlantChart):
        return plant_figure.height_pt(chart, style)
    if isinstance(chart, PlaceChart):
        return place_figure.height_pt(chart, style)
    if isinstance(chart, UsedChart):
        return used_figure.height_pt(style)
    return season_figure.height_pt(style)


def draw(figure: Figure, chart: Chart, style: Style, before: Drawn | None) -> Drawn:
    """Draw a chart on a figure; what was drawn before serves for its like again."""
    if isinstance(chart, PlantChart):
        if not isinstance(before, plant_figure.PlantFigure):
            figure.clear()
            before = plant_figure.PlantFigure(figure)
        before.show(chart, style)
    elif isinstance(chart, PlaceChart):
        if not isinstance(before, place_figure.PlaceFigure):
            figure.clear()
            before = place_figure.PlaceFigure(figure)
        before.show(chart, style)
    elif isinstance(chart, UsedChart):
        if not isinstance(before, used_figure.UsedFigure):
            figure.clear()
            before = used_figure.UsedFigure(figure)
        before.show(chart, style)
    else:
        if not isinstance(before, season_figure.SeasonFigure):
            figure.clear()
            before = season_figure.SeasonFigure(figure)
        before.show(chart, style)
    return before
