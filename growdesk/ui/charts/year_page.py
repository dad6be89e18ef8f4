"""The two charts of a year in review, as SVG for paper: who flowered, what was given.

Drawn dark, white and grey, so that a grey printer tells them apart. What was drawn is
kept a while: a preview asks again each time it is painted.
"""

from __future__ import annotations

import io
import re
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from growdesk.domain.day_words import SHORT_MONTHS
from growdesk.domain.speech import tr
from growdesk.ui.charts.glyphs import drawable
from growdesk.ui.charts.turns import in_turn
from growdesk.ui.theme import LIGHT

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from growdesk.services.year_values import YearBloom, YearMonth

ROW_PT: Final = 15.0
HEAD_PT: Final = 24.0
MOST_ROWS: Final = 40
ROUNDS_PT: Final = 165.0
_TYPE_PT: Final = 9.0
_SIDE_PT: Final = 34.0
_NAMES_PT: Final = 62.0
_TAG_SIGNS: Final = 9
_WHITE: Final = "white"
_KEPT: Final = 8
_LEAST_MONTH_DAYS: Final = 20
_EMPTY_SIGN: Final = re.compile(rb'<path id="([^"]+)" transform="[^"]*"/>')


def blooms_height_pt(blooms: Sequence[YearBloom]) -> float:
    """Give the height of the chart of who flowered when."""
    return HEAD_PT + ROW_PT * min(_rows_of(blooms), MOST_ROWS)


@lru_cache(_KEPT)
@in_turn
def blooms_svg(
    blooms: tuple[YearBloom, ...], within: tuple[date, date], width_pt: float
) -> bytes:
    """Draw who flowered when within the days, a row a plant, by their first flower."""
    height_pt = blooms_height_pt(blooms)
    figure, axes = _figure(width_pt, height_pt, _NAMES_PT, HEAD_PT)
    begins, ends = within
    rows: dict[int, int] = {}
    for bloom in blooms:
        row = rows.setdefault(bloom.who.plant_id, len(rows))
        if row >= MOST_ROWS:
            continue
        first = max(bloom.begins, begins)
        last = min(bloom.ends or ends, ends)
        days = max((last - first).days + 1, 2)
        axes.barh(
            row,
            days,
            left=(first - begins).days,
            height=0.55,
            facecolor=LIGHT.feed if bloom.ends is not None else _WHITE,
            edgecolor=LIGHT.feed,
            linewidth=1.0,
        )
    names = {bloom.who.plant_id: bloom.who.tag for bloom in blooms}
    shown = [names[plant_id] for plant_id in rows][:MOST_ROWS]
    axes.set_yticks([])
    for row, tag in enumerate(shown):
        axes.text(
            -3,
            row,
            drawable(_short(tag)),
            ha="right",
            va="center",
            fontsize=_TYPE_PT,
            parse_math=False,
        )
    axes.set_ylim(len(shown) - 0.4, -0.6)
    span = (ends - begins).days + 1
    axes.set_xlim(0, span)
    starts = _month_starts(within)
    axes.set_xticks([at for at, _ in starts], ["" for _ in starts])
    for number, (at, month) in enumerate(starts):
        until = starts[number + 1][0] if number + 1 < len(starts) else span
        if until - at >= _LEAST_MONTH_DAYS:
            name = SHORT_MONTHS[month - 1]
            axes.text(at + 2, -0.72, name, fontsize=_TYPE_PT, va="bottom")
        axes.axvline(at, color=LIGHT.line, linewidth=0.5, zorder=0)
    axes.tick_params(length=0, labelsize=_TYPE_PT)
    return _saved(figure)


@lru_cache(_KEPT)
@in_turn
def rounds_svg(months: tuple[YearMonth, ...], width_pt: float) -> bytes:
    """Draw how many plants were fed, watered and flushed in each month."""
    from matplotlib.ticker import MaxNLocator

    figure, axes = _figure(width_pt, ROUNDS_PT, _SIDE_PT, 22.0, 18.0)
    at = list(range(len(months)))
    below = [0] * len(months)
    parts = (
        (tr("fed"), [month.fed for month in months], LIGHT.feed),
        (tr("clear water or rain"), _clear(months), _WHITE),
        (tr("flushed"), [month.flushed for month in months], LIGHT.edge),
    )
    for name, counts, colour in parts:
        axes.bar(
            at,
            counts,
            bottom=below,
            width=0.68,
            facecolor=colour,
            edgecolor=LIGHT.ink,
            linewidth=0.6,
            label=name,
        )
        below = [low + count for low, count in zip(below, counts, strict=True)]
    axes.set_xticks(at, [SHORT_MONTHS[month.first.month - 1] for month in months])
    axes.set_ylim(0, max(*below, 1) * 1.08)
    axes.yaxis.set_major_locator(MaxNLocator(nbins=5, integer=True))
    axes.tick_params(length=2, labelsize=_TYPE_PT)
    axes.legend(
        loc="lower left",
        bbox_to_anchor=(0.0, 1.0),
        ncols=3,
        frameon=False,
        fontsize=_TYPE_PT,
        borderaxespad=0.2,
    )
    return _saved(figure)


def _clear(months: Sequence[YearMonth]) -> list[int]:
    return [month.clear + month.rained for month in months]


def _rows_of(blooms: Sequence[YearBloom]) -> int:
    return len({bloom.who.plant_id for bloom in blooms})


def _short(tag: str) -> str:
    return tag if len(tag) <= _TAG_SIGNS else f"{tag[: _TAG_SIGNS - 1]}…"


def _month_starts(within: tuple[date, date]) -> list[tuple[int, int]]:
    """Give how many days into the span each month begins, and which it is."""
    found = []
    first = within[0].replace(day=1)
    while first <= within[1]:
        found.append((max((first - within[0]).days, 0), first.month))
        year, month = divmod(first.year * 12 + first.month, 12)
        first = first.replace(year=year, month=month + 1)
    return found


def _figure(
    width_pt: float,
    height_pt: float,
    left_pt: float,
    top_pt: float,
    bottom_pt: float = 4.0,
) -> tuple[Figure, Axes]:
    from matplotlib.figure import Figure

    figure = Figure(figsize=(width_pt / 72, height_pt / 72), dpi=72)
    axes = figure.add_axes(
        (
            left_pt / width_pt,
            bottom_pt / height_pt,
            1 - (left_pt + 4) / width_pt,
            1 - (top_pt + bottom_pt) / height_pt,
        )
    )
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    return figure, axes


def _saved(figure: Figure) -> bytes:
    import matplotlib as mpl

    buffer = io.BytesIO()
    with mpl.rc_context({"svg.fonttype": "path", "svg.hashsalt": "growdesk"}):
        figure.savefig(buffer, format="svg", metadata={"Date": None})
    return _without_empty_signs(buffer.getvalue())


def _without_empty_signs(svg: bytes) -> bytes:
    """Leave out signs without a shape, as the space: Qt takes them for a fault."""
    for name in set(_EMPTY_SIGN.findall(svg)):
        svg = re.sub(rb'<use xlink:href="#' + re.escape(name) + rb'"[^>]*/>', b"", svg)
    return _EMPTY_SIGN.sub(b"", svg)
