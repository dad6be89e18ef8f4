"""Set names beside the rows of a chart with their italics, cut where room is short.

Each stretch of one face is a text of its own, so that a saved drawing keeps its words.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.ui.charts.glyphs import drawable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from matplotlib.text import Annotation

    from growdesk.domain.name_runs import Run
    from growdesk.ui.charts.panel import Style

ASIDE_PT = 7.0
ELLIPSIS = "…"
OPENING = " \u2018\u201c'("
"""Signs that no cut name ends with."""

_STOP = "|"


class RowName(Struct, frozen=True):
    """The name of a row; ``after`` is never cut, as how many plants it stands for."""

    runs: tuple[Run, ...]
    after: str = ""

    @property
    def text(self) -> str:
        """Give the name without its faces."""
        return "".join(run.text for run in self.runs) + self.after


class RowNames:
    """The names of rows, on the left of their axes."""

    def __init__(self, axes: Axes) -> None:
        self._axes = axes
        self._names: tuple[RowName, ...] = ()
        self._style: Style | None = None
        self._widths: dict[tuple[str, bool, float, float], float] = {}
        self.texts: list[Annotation] = []

    def show(self, names: Sequence[RowName], style: Style) -> None:
        """Take the names of the rows, the first at 0."""
        self._names, self._style = tuple(names), style

    def fit(self, most_pt: float) -> float:
        """Set the names in no more than a width; give what they take with their gap."""
        for text in self.texts:
            text.remove()
        self.texts = []
        style = self._style
        if style is None:
            return 0.0
        widest = 0.0
        for row, name in enumerate(self._names):
            widest = max(widest, self._set(row, self._cut(name, most_pt), style))
        return widest + ASIDE_PT + 1.0

    def said(self) -> list[str]:
        """Give the names as they stand, cut ones with their ellipsis."""
        rows: dict[float, str] = {}
        for text in self.texts:
            rows[text.xy[1]] = rows.get(text.xy[1], "") + text.get_text()
        return [rows[row] for row in sorted(rows)]

    def _set(self, row: int, runs: Sequence[Run], style: Style) -> float:
        widths = [self._width_pt(run) for run in runs]
        at = -ASIDE_PT - sum(widths)
        for run, width in zip(runs, widths, strict=True):
            made = self._axes.annotate(
                run.text,
                (0.0, row),
                (at, 0),
                xycoords=("axes fraction", "data"),
                textcoords="offset points",
                horizontalalignment="left",
                verticalalignment="center_baseline",
                fontsize=style.size_pt,
                fontstyle="italic" if run.italic else "normal",
                color=style.colours.ink,
                annotation_clip=False,
                parse_math=False,
            )
            self.texts.append(made)
            at += width
        return sum(widths)

    def _cut(self, name: RowName, most_pt: float) -> list[Run]:
        """Give the runs of a name as far as they have room."""
        runs = [replace(run, text=drawable(run.text)) for run in name.runs]
        after = [type(runs[0])(drawable(name.after))] if name.after and runs else []
        if self._wide(runs + after) <= most_pt:
            return runs + after
        while runs:
            last = runs.pop()
            kept = last.text[:-1].rstrip(OPENING)
            if not kept:
                continue
            runs.append(replace(last, text=kept))
            shown = [*runs[:-1], replace(last, text=kept + ELLIPSIS), *after]
            if self._wide(shown) <= most_pt:
                return shown
        return after

    def _wide(self, runs: Sequence[Run]) -> float:
        return sum(self._width_pt(run) for run in runs)

    def _width_pt(self, run: Run) -> float:
        """Give the width of a run in points, its outer spaces counted."""
        stops = self._measured(_STOP + _STOP, italic=run.italic)
        return self._measured(f"{_STOP}{run.text}{_STOP}", italic=run.italic) - stops

    def _measured(self, text: str, *, italic: bool) -> float:
        from matplotlib.font_manager import FontProperties

        size = self._style.size_pt if self._style is not None else 0.0
        dpi = float(self._axes.figure.dpi)
        key = (text, italic, size, dpi)
        if key not in self._widths:
            face = FontProperties(size=size, style="italic" if italic else "normal")
            renderer = self._axes.figure.canvas.get_renderer()  # type: ignore[attr-defined]
            wide, _, _ = renderer.get_text_width_height_descent(
                text, face, ismath=False
            )
            self._widths[key] = float(wide) * 72 / dpi
        return self._widths[key]
