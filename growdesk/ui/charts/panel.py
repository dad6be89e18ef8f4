"""One panel of a chart: axes in the scheme in force, with a head of words above them.

Panels are laid out to the point here, once per size, since the solver of matplotlib
costs more than the drawing. Nothing of plants is known.
"""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from matplotlib.backend_bases import RendererBase
    from matplotlib.container import BarContainer
    from matplotlib.figure import Figure
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch
    from matplotlib.text import Annotation

    from growdesk.ui.theme import Colours

LINE = 1.45
"""Height of one line of text, in font sizes."""

KEY_LINE = 1.9
"""Length of a line in a key, in font sizes."""

GAP_PT = 8.0
PAD_PT = 4.0


class Style(Struct, frozen=True):
    """The colours in force and the size of the window's type."""

    colours: Colours
    size_pt: float


class Panel:
    """Axes with a title on the left above them, and a note or a key on the right."""

    def __init__(self, axes: Axes) -> None:
        self.axes = axes
        self._named: tuple[Line2D | BarContainer | Patch, ...] = ()
        self._key_line = KEY_LINE
        self._above_pt = 0.0
        self.names_pt = 0.0
        """Room that names beside the axes take, where they are no tick labels."""
        self._title = _words(axes, 0.0, "left")
        self._note = _words(axes, 1.0, "right")

    def dress(self, style: Style, title: str, note: str = "") -> None:
        """Give the axes their colours, their type and their title with its unit."""
        c = style.colours
        axes = self.axes
        axes.set_facecolor(c.card)
        for side in ("top", "right"):
            axes.spines[side].set_visible(False)
        for side in ("left", "bottom"):
            axes.spines[side].set_color(c.edge)
        axes.tick_params(
            which="both", color=c.edge, labelcolor=c.ink, labelsize=style.size_pt
        )
        axes.grid(visible=True, axis="y", color=c.line, linewidth=0.8)
        axes.set_axisbelow(True)
        for text, said in ((self._title, title), (self._note, note)):
            text.set_text(said)
            text.set_fontsize(style.size_pt)
            text.set_color(c.ink)

    def hide_months(self) -> None:
        """Leave the names of the months to the panel at the foot."""
        self.axes.tick_params(axis="x", which="both", labelbottom=False)

    def name_lines(
        self,
        style: Style,
        lines: Sequence[Line2D | BarContainer | Patch],
        key_line: float = KEY_LINE,
    ) -> None:
        """Show what each line or layer of bars is, above the axes on the right.

        For no lines there is nothing.
        ``key_line`` is how much of a line the key shows, in font sizes.
        """
        self._named, self._key_line = tuple(lines), key_line
        self._put_key(style, len(lines))

    def _put_key(self, style: Style, columns: int) -> None:
        old = self.axes.get_legend()
        if old is not None:
            old.remove()
        if not self._named:
            return
        from matplotlib.transforms import ScaledTranslation

        scale = self.axes.figure.dpi_scale_trans
        raised = ScaledTranslation(0, self._above_pt / 72, scale)
        self.axes.legend(
            handles=list(self._named),
            loc="lower right",
            bbox_to_anchor=(1.0, 1.0),
            bbox_transform=self.axes.transAxes + raised,
            ncols=columns,
            frameon=False,
            fontsize=style.size_pt,
            labelcolor=style.colours.ink,
            borderpad=0,
            borderaxespad=0.15,
            labelspacing=0.3,
            handlelength=self._key_line,
            handletextpad=0.4,
            columnspacing=1.0,
        )

    def head_pt(self, style: Style, wide_pt: float, above_pt: float = 0.0) -> float:
        """Give the height of the head: more lines where its words do not fit one.

        The key has as few rows as it can. ``above_pt`` is left free above the axes.
        """
        self._above_pt = above_pt
        renderer = _renderer(self.axes)
        per_pt = _per_pt(self.axes)
        rows = 1
        self._put_key(style, len(self._named))
        while rows < len(self._named) and self._key_size_pt()[0] > wide_pt:
            rows += 1
            self._put_key(style, -(-len(self._named) // rows))
        if self._key_size_pt()[0] > wide_pt:
            self._wrap_key(style, wide_pt)
        wide, high = self._key_size_pt()
        if not self._named:
            wide = self._note.get_window_extent(renderer).width / per_pt
        title = self._title.get_window_extent(renderer).width / per_pt
        line_pt = style.size_pt * LINE
        is_tight = wide + title + style.size_pt > wide_pt or rows > 1
        raised_pt = max(line_pt, high + PAD_PT) if is_tight and wide > 0 else 0.0
        self._title.set_position((0, PAD_PT + above_pt + raised_pt))
        self._note.set_position((0, PAD_PT + above_pt))
        return line_pt + above_pt + raised_pt + GAP_PT

    def _wrap_key(self, style: Style, wide_pt: float) -> None:
        """Break the names of a key over lines, where one of them is too wide."""
        key = self.axes.get_legend()
        if key is None:
            return
        renderer, per_pt = _renderer(self.axes), _per_pt(self.axes)
        room = wide_pt - style.size_pt * (self._key_line + 0.8)
        for text in key.get_texts():
            wide = text.get_window_extent(renderer).width / per_pt
            signs = len(text.get_text())
            if wide > room > 0:
                fitting = max(int(signs * room / wide) - 1, 6)
                text.set_text(textwrap.fill(text.get_text(), fitting))

    def _key_size_pt(self) -> tuple[float, float]:
        key = self.axes.get_legend()
        if key is None:
            return 0.0, 0.0
        box = key.get_window_extent(_renderer(self.axes))
        return box.width / _per_pt(self.axes), box.height / _per_pt(self.axes)

    def labels_pt(self) -> float:
        """Give the room that the names and numbers of the upright axis take."""
        renderer = _renderer(self.axes)
        labels = self.axes.get_yticklabels()
        widths = [each.get_window_extent(renderer).width for each in labels]
        ticks_pt = float(max(widths, default=0.0)) / _per_pt(self.axes) + 8.0
        return max(ticks_pt, self.names_pt)


class Placed(Struct, frozen=True):
    """A panel in a layout: its height in points, or its share of what is left."""

    panel: Panel
    height_pt: float = 0.0
    share: float = 0.0


def lay_out(
    figure: Figure,
    placed: Sequence[Placed],
    style: Style,
    *,
    heading_pt: float,
    foot_lines: int,
    above_pt: float = 0.0,
) -> float:
    """Place panels under one another; give how wide each is, in points.

    ``above_pt`` is the room left between a panel's head and its axes.
    """
    per_pt = figure.dpi / 72
    width, height = figure.bbox.width / per_pt, figure.bbox.height / per_pt
    left = GAP_PT + max(each.panel.labels_pt() for each in placed)
    wide = max(width - GAP_PT - style.size_pt * 0.7 - left, 1.0)
    heads = [each.panel.head_pt(style, wide, above_pt) for each in placed]
    top = height - heading_pt
    below = style.size_pt * LINE * foot_lines + GAP_PT
    fixed = sum(each.height_pt for each in placed) + sum(heads) + below
    shares = sum(each.share for each in placed)
    free = max(0.0, top - fixed) / shares if shares else 0.0
    for each, head in zip(placed, heads, strict=True):
        high = max(each.height_pt + free * each.share, 1.0)
        top -= head + high
        box = (left / width, top / height, wide / width, high / height)
        each.panel.axes.set_position(box)
    return wide


def _words(axes: Axes, side: float, align: str) -> Annotation:
    return axes.annotate(
        "",
        (side, 1.0),
        (0, PAD_PT),
        xycoords="axes fraction",
        textcoords="offset points",
        horizontalalignment=align,
        annotation_clip=False,
    )


def _renderer(axes: Axes) -> RendererBase:
    canvas = axes.figure.canvas
    renderer: RendererBase = canvas.get_renderer()  # type: ignore[attr-defined]
    return renderer


def _per_pt(axes: Axes) -> float:
    """Give the dots of a point."""
    return float(axes.figure.dpi) / 72
