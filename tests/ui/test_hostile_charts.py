"""Names in charts are letters, never formulas, and none is left out of the key."""

from __future__ import annotations

from datetime import date
from xml.etree import ElementTree as ET

import pytest

from growdesk.services.chart_values import ProductUsed, UsedChart
from growdesk.ui import theme
from growdesk.ui.charts import drawing, saving
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.summary import summary, title
from tests.faults.hostile_names import COMBINED, NAMES
from tests.ui.test_charts import fresh_figure

SVG = "{http://www.w3.org/2000/svg}"
STYLE = Style(theme.LIGHT, 9.0)
FEW = [name for name in NAMES.values() if {*name} & {*"$_\\&<{"}][:9]
MEANT = ("$x$", "$\\frac{1", "_hidden", "a_b^2", COMBINED, "$\\alpha", "%s {x}")


def chart_of(name: str) -> UsedChart:
    months = tuple(date(2025, month, 1) for month in range(1, 13))
    grams = (("N", (1.0,) * 12),)
    return UsedChart(
        date(2025, 12, 31), months, (ProductUsed(name, "g", (9.0,) * 12, grams),)
    )


@pytest.mark.filterwarnings("ignore:Glyph")  # the fonts have no such picture
@pytest.mark.parametrize("name", [*MEANT, *FEW])
def test_a_tins_name_stands_in_the_key_as_it_is(name: str) -> None:
    figure = fresh_figure(760, 400)
    drawing.draw(figure, chart_of(name), STYLE, None)
    figure.canvas.draw()
    (key,) = filter(None, (axes.get_legend() for axes in figure.axes))
    (text,) = [each.get_text().strip() for each in key.get_texts()]
    begun = " ".join(text.removesuffix("\u2026").split())
    assert " ".join(name.split()).startswith(begun)
    assert len(begun) >= min(len(name.strip()), 10)
    assert not any(each.get_parse_math() for each in key.get_texts())


def test_a_drawing_in_a_file_tells_a_name_as_text() -> None:
    chart = chart_of(COMBINED)
    svg = ET.fromstring(saving.picture(chart, STYLE, "svg"))  # noqa: S314 -- our own
    assert svg.findtext(f"{SVG}title") == title(chart)
    assert svg.findtext(f"{SVG}desc") == summary(chart)
    assert COMBINED in summary(chart)
    assert not [each for each in svg.iter() if each.tag.endswith("script")]
