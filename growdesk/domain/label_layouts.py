"""Where labels stand on paper: sheets of labels, and strips cut off one by one.

Lengths are millimetres from the paper's top left corner. A layout is written as people
say it: ``A4 3x8 70x37 at 0,0.5 gap 0,0`` or ``strip 90x12 cut``. Knows no printer.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.speech import Phrases, fixed, mark, plain, tr

if TYPE_CHECKING:
    from collections.abc import Mapping

PAPERS_MM: Final[Mapping[str, tuple[float, float]]] = {
    "A4": (210.0, 297.0),
    "Letter": (215.9, 279.4),
}
"""ISO 216 for A4, ANSI/ASME Y14.1 for Letter."""
LEAST_MM: Final = (18.0, 8.0)
"""Narrower or lower than this nothing on a label can be read; ours."""
MOST_LABELS: Final = 400
MOST_STRIP_MM: Final = (400.0, 120.0)
_DUST: Final = 0.05
_NUMBER: Final = r"[0-9]+(?:[.][0-9]+)?"
_PAIR: Final = re.compile(rf"({_NUMBER})\s*[x×,;\s]\s*({_NUMBER})")
_TYPED_PAIR: Final = re.compile(
    r"([0-9]+(?:[.,][0-9]+)?)(?:\s*[x×;]\s*|\s+)([0-9]+(?:[.,][0-9]+)?)"
)
"""As people type it, with the decimal comma too."""
_SPEC: Final = re.compile(
    rf"(?P<paper>a4|letter)\s+(?P<cells>[0-9]+\s*[x×]\s*[0-9]+)\s+"
    rf"(?P<label>{_NUMBER}\s*[x×]\s*{_NUMBER})(?:\s*mm)?"
    rf"(?:\s+at\s+(?P<at>{_NUMBER}\s*,\s*{_NUMBER}))?"
    rf"(?:\s+gap\s+(?P<gap>{_NUMBER}\s*,\s*{_NUMBER}))?(?P<cut>\s+cut)?",
    re.IGNORECASE,
)
_STRIP: Final = re.compile(
    rf"strip\s+(?P<label>{_NUMBER}\s*[x×]\s*{_NUMBER})(?:\s*mm)?(?P<cut>\s+cut)?",
    re.IGNORECASE,
)
HINT: Final = mark(
    'Write for instance "A4 3x8 70x37", "Letter 3x10 66.7x25.4 at 4.8,12.7 gap 3.2,0" '
    'or "strip 90x12 cut", in millimetres.'
)

_OVER: Final = Phrases(
    {
        "across": "does not fit on {paper}: {mm} mm too much across",
        "down": "does not fit on {paper}: {mm} mm too much down",
    }
)


class Cell(Struct, frozen=True):
    """Where one label stands, in mm."""

    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float


class Sheet(Struct, frozen=True):
    """A paper of labels in columns and rows; ``cut_marks`` outlines each for scissors.

    Without ``left_mm`` and ``top_mm`` the block of labels stands in the middle.
    """

    paper: str
    columns: int
    rows: int
    width_mm: float
    height_mm: float
    left_mm: float
    top_mm: float
    gap_x_mm: float = 0.0
    gap_y_mm: float = 0.0
    cut_marks: bool = False

    @property
    def page_mm(self) -> tuple[float, float]:
        """Give the width and height of the paper."""
        return PAPERS_MM[self.paper]

    @property
    def cells(self) -> tuple[Cell, ...]:
        """Give the labels of a page, row by row from the top left."""
        return tuple(
            Cell(
                self.left_mm + column * (self.width_mm + self.gap_x_mm),
                self.top_mm + row * (self.height_mm + self.gap_y_mm),
                self.width_mm,
                self.height_mm,
            )
            for row in range(self.rows)
            for column in range(self.columns)
        )

    @property
    def title(self) -> str:
        """Name it by its measures."""
        return tr("{columns} × {rows}, {width_mm} × {height_mm} mm on {paper}").format(
            columns=self.columns,
            rows=self.rows,
            width_mm=plain(self.width_mm),
            height_mm=plain(self.height_mm),
            paper=self.paper,
        )

    @property
    def spec(self) -> str:
        """Give it as it is written."""
        return (
            f"{self.paper} {self.columns}x{self.rows} "
            f"{self.width_mm:g}x{self.height_mm:g} "
            f"at {self.left_mm:g},{self.top_mm:g} "
            f"gap {self.gap_x_mm:g},{self.gap_y_mm:g}{' cut' if self.cut_marks else ''}"
        )


class Strip(Struct, frozen=True):
    """A strip as wide as a label is high: each label is a page, one after another."""

    length_mm: float
    strip_mm: float
    cut_marks: bool = False

    @property
    def page_mm(self) -> tuple[float, float]:
        """Give the length of a label and the width of the strip."""
        return (self.length_mm, self.strip_mm)

    @property
    def cells(self) -> tuple[Cell, ...]:
        """Give the one label of a page."""
        return (Cell(0.0, 0.0, self.length_mm, self.strip_mm),)

    @property
    def title(self) -> str:
        """Name it by its measures."""
        return tr("strip {strip_mm} mm wide, {length_mm} mm a label").format(
            strip_mm=plain(self.strip_mm), length_mm=plain(self.length_mm)
        )

    @property
    def spec(self) -> str:
        """Give it as it is written."""
        cut = " cut" if self.cut_marks else ""
        return f"strip {self.length_mm:g}x{self.strip_mm:g}{cut}"


Layout = Sheet | Strip


def pair(field: str, text: str) -> tuple[float, float]:
    """Read two lengths of a field, as ``70 x 37``, ``66,7 x 25,4`` or ``0,0.5``."""
    bare = text.replace("mm", "").strip()
    found = _TYPED_PAIR.fullmatch(bare) or _PAIR.fullmatch(bare)
    if found is None:
        raise InputError(
            field, text, tr("is not two lengths"), tr('Write "70 x 37", in mm.')
        )
    return _mm(found[1]), _mm(found[2])


def _mm(text: str) -> float:
    return float(text.replace(",", "."))


def read_layout(text: str, field: str = "layout") -> Layout:
    """Read a layout as it is written; raises ``InputError`` where it cannot be."""
    asked = " ".join(text.split())
    if found := _STRIP.fullmatch(asked):
        long, wide = pair(field, found["label"])
        return checked(Strip(long, wide, bool(found["cut"])), field)
    found = _SPEC.fullmatch(asked)
    if found is None:
        raise InputError(field, text, tr("is no layout"), tr(HINT))
    across, down = pair(field, found["cells"])
    wide, high = pair(field, found["label"])
    made = sheet(
        "A4" if found["paper"].casefold() == "a4" else "Letter",
        (int(across), int(down)),
        (wide, high),
        pair(field, found["at"]) if found["at"] else None,
        pair(field, found["gap"]) if found["gap"] else (0.0, 0.0),
    )
    return checked(with_cut(made, marks=bool(found["cut"])), field)


def sheet(
    paper: str,
    cells: tuple[int, int],
    label_mm: tuple[float, float],
    at_mm: tuple[float, float] | None = None,
    gap_mm: tuple[float, float] = (0.0, 0.0),
) -> Sheet:
    """Give a sheet of labels, in the middle of its paper unless told where."""
    left, top = at_mm or tuple(
        round((whole - count * size - (count - 1) * gap) / 2, 2)
        for whole, count, size, gap in zip(
            PAPERS_MM[paper], cells, label_mm, gap_mm, strict=True
        )
    )
    return Sheet(paper, *cells, *label_mm, left, top, *gap_mm)


def with_cut(layout: Sheet, *, marks: bool) -> Sheet:
    """Give a sheet with or without outlines to cut along."""
    return Sheet(
        layout.paper,
        layout.columns,
        layout.rows,
        layout.width_mm,
        layout.height_mm,
        layout.left_mm,
        layout.top_mm,
        layout.gap_x_mm,
        layout.gap_y_mm,
        marks,
    )


def checked(layout: Layout, field: str = "layout") -> Layout:
    """Give a layout that can be printed, or say what is in the way."""
    cell = layout.cells[0] if _has_cells(layout) else None
    if cell is None:
        hint = tr("Give 1 to {most_labels} labels a page.").format(
            most_labels=MOST_LABELS
        )
        raise InputError(
            field, layout.title, tr("has too few or too many labels"), hint
        )
    if cell.width_mm < LEAST_MM[0] or cell.height_mm < LEAST_MM[1]:
        hint = tr("Give at least {width} × {height} mm a label.").format(
            width=plain(LEAST_MM[0]), height=plain(LEAST_MM[1])
        )
        raise InputError(field, layout.title, tr("is too small to be read"), hint)
    if isinstance(layout, Strip):
        most = MOST_STRIP_MM
        if layout.length_mm > most[0] or layout.strip_mm > most[1]:
            hint = tr("Give at most {length} × {width} mm.").format(
                length=plain(most[0]), width=plain(most[1])
            )
            raise InputError(field, layout.title, tr("is too large for a strip"), hint)
        return layout
    _on_paper(layout, field)
    return layout


def _has_cells(layout: Layout) -> bool:
    if isinstance(layout, Strip):
        return True
    return 0 < layout.columns * layout.rows <= MOST_LABELS


def _on_paper(layout: Sheet, field: str) -> None:
    last = layout.cells[-1]
    across, down = layout.page_mm
    over = (
        max(last.left_mm + last.width_mm - across, 0) + max(-layout.left_mm, 0),
        max(last.top_mm + last.height_mm - down, 0) + max(-layout.top_mm, 0),
    )
    mm = max(over)
    if mm > _DUST:
        form = _OVER["across" if over[0] >= over[1] else "down"]
        raise InputError(
            field,
            layout.title,
            form.format(paper=layout.paper, mm=fixed(mm, 1)),
            tr("Give fewer or smaller labels, or smaller margins and gaps."),
        )


def _cut(paper: str, cells: tuple[int, int], label_mm: tuple[float, float]) -> Sheet:
    return with_cut(sheet(paper, cells, label_mm), marks=True)


PRESETS: Final[tuple[Layout, ...]] = (
    sheet("A4", (3, 8), (70.0, 37.0)),
    sheet("A4", (3, 7), (63.5, 38.1), None, (2.5, 0.0)),
    sheet("A4", (2, 7), (99.1, 38.1), None, (2.5, 0.0)),
    sheet("A4", (5, 13), (38.1, 21.2), None, (2.5, 0.0)),
    _cut("A4", (2, 13), (95.0, 21.0)),
    sheet("Letter", (3, 10), (66.7, 25.4), None, (3.2, 0.0)),
    sheet("Letter", (2, 10), (101.6, 25.4), None, (4.8, 0.0)),
    sheet("Letter", (4, 20), (44.5, 12.7), None, (7.6, 0.0)),
    _cut("Letter", (2, 12), (95.0, 21.0)),
    Strip(90.0, 12.0),
    Strip(80.0, 19.0, cut_marks=True),
    Strip(60.0, 24.0),
)
"""Measures that label papers and tapes commonly have; from memory, so that each is to
be held against the pack. Those with outlines are for plain paper and scissors."""


def preset_for(paper: str) -> Sheet:
    """Give what to begin with on a paper."""
    found = [each for each in PRESETS if isinstance(each, Sheet)]
    return next(each for each in found if each.paper == paper)
