"""Save a chart as a picture file, with its name on it and its words inside.

It is drawn anew at a size fit for paper, apart from the window, so it may run on
another thread. The file is there whole or not at all.
"""

from __future__ import annotations

import io
import textwrap
from html import escape
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import InputError, StoreError
from growdesk.domain.speech import Lines, tr
from growdesk.services.bloom_values import WhoBlooms
from growdesk.services.chart_values import PlaceChart, PlantChart, UsedChart
from growdesk.services.long_work import quietly
from growdesk.services.meter_values import MeterChart
from growdesk.services.recipe_values import MixChart
from growdesk.store.whole_files import write_whole
from growdesk.ui.charts.glyphs import drawable
from growdesk.ui.charts.summary import summary, title
from growdesk.ui.charts.turns import in_turn
from growdesk.ui.theme import LIGHT

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.long_work import Step
    from growdesk.ui.charts.drawing import Chart
    from growdesk.ui.charts.panel import Style

KINDS = Lines(
    "PNG picture on white, for print (*.png)",
    "SVG drawing on white, for print (*.svg)",
    "PNG picture in the window's colours (*.png)",
    "SVG drawing in the window's colours (*.svg)",
)
ON_WHITE = 2
"""How many of the kinds, the first ones, are on white."""

WHITE = "#ffffff"
WIDTH_IN = 8.0
DOTS_PER_INCH = 192
"""Twice the dots of a plain screen, so that it is sharp on a dense one and on paper."""

HEADING_SIGNS = 84
PLACE_SIGNS = 40
_PARTS = 2


def file_name(chart: Chart) -> str:
    """Give a name for the file of a chart, safe on any system."""
    if isinstance(chart, PlaceChart):
        of, what = chart.place[:PLACE_SIGNS], "year"
    elif isinstance(chart, UsedChart):
        of, what = "feed", "used"
    elif isinstance(chart, MixChart):
        of, what = chart.name[:PLACE_SIGNS], "litre"
    elif isinstance(chart, MeterChart):
        of, what = "meter", "readings"
    elif isinstance(chart, WhoBlooms):
        of, what = "who", "blooms"
    else:
        of, what = chart.tag, "plant" if isinstance(chart, PlantChart) else "season"
    safe = "".join(each if each.isalnum() else "-" for each in of)
    return f"{safe}-{what}-{chart.on.isoformat()}.png"


def style_of_kind(style: Style, kind: str) -> Style:
    """Give the style of a file by the kind chosen for it: light on white, or as is."""
    if kind not in KINDS[:ON_WHITE]:
        return style
    return replace(style, colours=replace(LIGHT, page=WHITE, card=WHITE))


def save(chart: Chart, style: Style, file: Path, step: Step = quietly) -> None:
    """Save a chart as PNG or SVG, by the ending of the name.

    ``step`` may stop the work before anything is written.
    """
    form = file.suffix.lower().lstrip(".")
    if form not in {"png", "svg"}:
        raise InputError(
            "the chart's file",
            file.name,
            tr("is neither PNG nor SVG"),
            tr("Give a name that ends in .png or .svg."),
        )
    step(0, _PARTS)
    content = picture(chart, style, form)
    step(1, _PARTS)
    try:
        write_whole(file, content)
    except OSError as error:
        reason = error.strerror or str(error)
        raise StoreError(
            tr("The chart cannot be saved as {file}: {reason}.").format(
                file=file, reason=reason
            ),
            tr("Choose another folder or name."),
        ) from error


@in_turn
def picture(chart: Chart, style: Style, form: str) -> bytes:
    """Give a chart as the content of a file; ``form`` is ``png`` or ``svg``."""
    import matplotlib as mpl
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    from growdesk.ui.charts import drawing  # noqa: PLC0415

    figure = Figure(dpi=DOTS_PER_INCH, facecolor=style.colours.card)
    FigureCanvasAgg(figure)
    height_pt = drawing.height_pt(chart, style)
    figure.set_size_inches(WIDTH_IN, height_pt * 1.3 / 72 + 0.4)
    drawn = drawing.draw(figure, chart, style, None)
    drawn.fit(heading_pt=style.size_pt * 1.8)
    figure.text(
        0.012,
        0.988,
        drawable(textwrap.shorten(title(chart), HEADING_SIGNS, placeholder="…")),
        parse_math=False,
        ha="left",
        va="top",
        fontsize=style.size_pt * 1.2,
        fontweight="bold",
        color=style.colours.ink,
    )
    said = {"Title": title(chart), "Description": summary(chart)}
    maker = {"Software": "growdesk"} if form == "png" else {"Creator": "growdesk"}
    buffer = io.BytesIO()
    if form == "png":
        figure.savefig(buffer, format=form, metadata={**said, **maker})
        return buffer.getvalue()
    with mpl.rc_context({"svg.fonttype": "none", "svg.hashsalt": "growdesk"}):
        undated = {**said, **maker, "Date": None}
        figure.savefig(buffer, format=form, metadata=undated)
    return _told(buffer.getvalue().decode(), said["Title"], said["Description"])


def _told(svg: str, name: str, text: str) -> bytes:
    """Put the name and the words of a drawing where a reader of SVG looks for them."""
    begins = svg.index("<svg")
    ends = svg.index(">", begins)
    inner = f"\n <title>{_plain_xml(name)}</title>\n <desc>{_plain_xml(text)}</desc>"
    head = f'{svg[:ends]} role="img"{svg[ends : ends + 1]}'
    return f"{head}{inner}{svg[ends + 1 :]}".encode()


def _plain_xml(text: str) -> str:
    """Escape a text, and leave out the signs that XML cannot hold."""
    return escape("".join(each for each in text if each >= " " or each in "\n\t"))
