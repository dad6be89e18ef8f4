"""Choose which plants get tags, on which paper, how many, and what stands on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtWidgets import QCheckBox, QDialogButtonBox
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.label_layouts import (
    PAPERS_MM,
    PRESETS,
    Sheet,
    Strip,
    checked,
    pair,
    sheet,
    with_cut,
)
from growdesk.domain.speech import Phrases, mark, plain, tr
from growdesk.services.tags import TagChoice
from growdesk.ui import sizes, typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.printing.tag_labels import Shown
from growdesk.ui.printing.tag_pages import TagWish
from growdesk.ui.printing.tag_pages import checked as checked_wish
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.label_layouts import Layout
    from growdesk.ui.dialogs.held import Held

SELECTED, ALL, SINCE = "selected", "all", "since"
STRIP = "strip"
_FIELD_PX = 340
_OWN = mark("own measures")
_SHOWN = Phrases(
    {
        "code": "a code of the tag to scan",
        "day": "the day it was repotted, or came",
        "parentage": "parentage",
        "source": "where it is from",
        "where": "place and bench",
    }
)
_SHOWN_AT_FIRST = frozenset({"code", "day"})


class TagsStart(Struct, frozen=True):
    """What the form opens with."""

    selected: tuple[int, ...]
    places: tuple[str, ...]
    today: date
    layout: Layout


class TagsDraft(Struct, frozen=True):
    """Which plants, and how their tags are wanted."""

    choice: TagChoice
    wish: TagWish


class TagsDialog(FormDialog):
    """Tags to print: plants, paper, measures, copies, and what stands on a label."""

    def __init__(self, parent: QWidget | None, start: TagsStart) -> None:
        super().__init__(parent, tr("Print tags"), tr("Preview"))
        self._start = start
        form = self.form
        self.which = form.combo("place", tr("&Plants"), self._plants(), signs=32)
        self.since = form.line("since", tr("&Since"), figures(start.today))
        self.since.setText(figures(start.today))
        presets = [(each.spec, each.title) for each in PRESETS]
        self.preset = form.combo(
            "layout", tr("&Labels"), [*presets, ("", tr(_OWN))], signs=32
        )
        papers = [
            (paper, tr("{paper} sheet").format(paper=paper)) for paper in PAPERS_MM
        ]
        self.paper = form.combo(
            "paper", tr("Pap&er"), [*papers, (STRIP, tr("continuous strip"))]
        )
        self.cells = form.line("cells", tr("Across and &down"), "3 x 8")
        self.measure = form.line(
            "label", tr("La&bel, mm"), tr("70 x 37: width, then height")
        )
        self.margins = form.line(
            "at", tr("&Margins, mm"), tr("0 x 0.5: left, then top")
        )
        self.gaps = form.line("gap", tr("&Gaps, mm"), tr("2.5 x 0: across, then down"))
        self.cut = QCheckBox(tr("marks to cut along"))
        form.add("cut", tr("C&utting"), self.cut)
        self.copies = form.line("copies", tr("Labels a plan&t"), "2")
        self.copies.setText("2")
        self.first = form.line("first", tr("&First free label"), "1")
        self.first.setText("1")
        form.note(tr("Counted along the rows of a page that was begun."))
        self.shown = {key: self._box(key, text) for key, text in _SHOWN.items()}
        form.end()
        form.keep_narrow(_FIELD_PX)
        self.body.addWidget(form)
        self.told = label("", tone="muted")
        self.body.addWidget(self.told)
        self.body.addStretch(1)
        sizes.least_wide(self, 540)
        self._fill(start.layout)
        self._connect()
        self._follow()
        self.which.setFocus()
        self.begin()

    @override
    def draft(self) -> TagsDraft:
        """Give the choice and the wish; raises ``InputError`` on a slip."""
        boxes = {key: box.isChecked() for key, box in self.shown.items()}
        is_sheet = self.paper.currentData() != STRIP
        first = typed.whole(self.first.text(), "first", "1") if is_sheet else 1
        copies = typed.whole(self.copies.text(), "copies", "2")
        wish = TagWish(self.layout_(), copies or 0, first or 0, Shown(**boxes))
        return TagsDraft(self.choice(), checked_wish(wish))

    @override
    def kept(self) -> Held:
        """Keep nothing: the measures are remembered once they are used."""
        return {}

    def choice(self) -> TagChoice:
        """Give which plants are chosen."""
        which = self.which.currentData()
        if which == SELECTED:
            return TagChoice(plant_ids=self._start.selected)
        if which == SINCE:
            return TagChoice(since=typed.needed_day(self.since.text(), "since"))
        return TagChoice() if which == ALL else TagChoice(place=which[1])

    def layout_(self) -> Layout:
        """Give the layout as its fields have it; raises ``InputError`` on a slip."""
        size = pair("label", self.measure.text())
        paper = self.paper.currentData()
        if paper == STRIP:
            return checked(Strip(*size, self.cut.isChecked()), "label")
        across, down = pair("cells", self.cells.text())
        if across % 1 or down % 1:
            hint = tr('Write "3 x 8".')
            raise InputError(
                "cells", self.cells.text(), tr("is no number of labels"), hint
            )
        made = sheet(
            paper,
            (int(across), int(down)),
            size,
            pair("at", self.margins.text()),
            pair("gap", self.gaps.text()),
        )
        return checked(with_cut(made, marks=self.cut.isChecked()), "label")

    def add_way(self, text: str, pressed: Callable[[], object]) -> None:
        """Add another button at the foot."""
        role = QDialogButtonBox.ButtonRole.ActionRole
        self.buttons.addButton(button(text, pressed), role)

    def _plants(self) -> list[tuple[object, str]]:
        count = len(self._start.selected)
        selected = (
            [(SELECTED, tr("The {plants} selected").format(plants=words.plants(count)))]
            if count
            else []
        )
        return [
            *selected,
            (ALL, tr("All plants")),
            (SINCE, tr("Repotted or come since a day")),
            *((("place", name), name) for name in self._start.places),
        ]

    def _box(self, key: str, text: str) -> QCheckBox:
        box = QCheckBox(text)
        box.setChecked(key in _SHOWN_AT_FIRST)
        box.setAccessibleName(text)
        self.form.add(f"shown_{key}", tr("With") if key == "code" else "", box)
        return box

    def _connect(self) -> None:
        self.which.currentIndexChanged.connect(self._follow)
        self.preset.activated.connect(self._take_preset)
        self.paper.currentIndexChanged.connect(self._follow)
        self.cut.toggled.connect(self._follow)
        for line in (self.cells, self.measure, self.margins, self.gaps):
            line.textChanged.connect(self._follow)

    def _take_preset(self) -> None:
        spec = self.preset.currentData()
        for each in PRESETS:
            if each.spec == spec:
                self._fill(each)

    def _fill(self, layout: Layout) -> None:
        cell = layout.cells[0]
        choose(self.paper, layout.paper if isinstance(layout, Sheet) else STRIP)
        self.measure.setText(f"{plain(cell.width_mm)} x {plain(cell.height_mm)}")
        self.cut.setChecked(layout.cut_marks)
        if isinstance(layout, Sheet):
            self.cells.setText(f"{layout.columns} x {layout.rows}")
            self.margins.setText(f"{plain(layout.left_mm)} x {plain(layout.top_mm)}")
            self.gaps.setText(f"{plain(layout.gap_x_mm)} x {plain(layout.gap_y_mm)}")

    def _follow(self) -> None:
        """Show what the choice needs, and name the measures as they stand."""
        self.form.show_field("since", shown=self.which.currentData() == SINCE)
        is_sheet = self.paper.currentData() != STRIP
        for field in ("cells", "at", "gap", "first"):
            self.form.show_field(field, shown=is_sheet)
        try:
            made = self.layout_()
        except InputError as error:
            self.told.setText(error.line())
            choose(self.preset, "")
            return
        specs = {each.spec for each in PRESETS}
        choose(self.preset, made.spec if made.spec in specs else "")
        self.told.setText(
            tr(
                "{title}. Print at full size, never fitted to the "
                "page, and hold the first page against the label paper."
            ).format(title=made.title[:1].upper() + made.title[1:])
        )
