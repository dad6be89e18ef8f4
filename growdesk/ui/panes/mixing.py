"""Show what to mix: tin and water in use, the jugs of the day, and the cautions.

Knows ``MixPlan``, tins and waters; choices and questions go out as signals.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QGridLayout,
    QLabel,
    QMenu,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain import cautions
from growdesk.domain.speech import tr
from growdesk.ui import icons, looking, theme
from growdesk.ui.shelf_words import water_words
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.fold import Fold
from growdesk.ui.widgets.jugs import Jugs
from growdesk.ui.widgets.parts import (
    button,
    frame,
    label,
    link,
    out_of_sight,
    scrolled,
)
from growdesk.ui.widgets.quick import QuickCalculator

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QAction, QShowEvent

    from growdesk.services.recipe_values import RecipeView
    from growdesk.services.values import DayView, TinView, WaterView

    _Row = tuple[str, str, bool]


class MixingPane(QFrame):
    """The right pane."""

    tin_chosen = Signal(int)
    recipe_chosen = Signal(int)
    water_chosen = Signal(int)
    tins_wanted = Signal()
    meter_wanted = Signal(str)
    bottle_wanted = Signal(object)
    cautions_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("pane", "true")
        self.setAccessibleName(tr("Mixing"))
        self.quick = QuickCalculator()
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName(tr("Mixing"))
        self.setFocusProxy(self.tabs)
        self.recipe = FittedCombo()
        self.water = FittedCombo()
        self.shelf = link(tr("Shelf"), lambda: None)
        self.shelf_menu = QMenu(self.shelf)
        self._jugs = Jugs()
        self._jugs.tins_wanted.connect(self.tins_wanted)
        self._jugs.meter_wanted.connect(self.meter_wanted)
        self._jugs.bottle_wanted.connect(self.bottle_wanted)
        self._empty = label("", tone="muted")
        self.to_quick = button(tr("To the quick mix"), self._to_quick)
        self.to_quick.setToolTip(tr("Any strength of any tin (Ctrl+M)"))
        self._view: DayView | None = None
        self._is_old = False
        self._lay_out()

    def show_begun(self) -> None:
        """Say that there are no jugs before all plants of the day are judged."""
        self._view = None
        self._jugs.setVisible(False)
        self.to_quick.setVisible(True)
        self._empty.setVisible(True)
        self._empty.setText(
            tr(
                "The jugs stand here once all plants are judged. "
                "The quick mix beside works at once."
            )
        )

    def show_day(self, view: DayView) -> None:
        """Show the jugs of a day; out of sight they wait until the pane is shown."""
        self._view = view
        self._is_old = out_of_sight(self)
        if self._is_old:
            return
        has_plants = bool(view.lines)
        self._empty.setVisible(not has_plants)
        self.to_quick.setVisible(not has_plants)
        self._empty.setText(
            tr(
                "With the first plant on feed the jugs stand here. "
                "The quick mix beside works at once."
            )
        )
        self._jugs.setVisible(has_plants)
        if has_plants:
            self._jugs.show_plan(view.mix, is_today=view.is_today)
            focus.chain([self.water, *self._jugs.stops()])

    def show_shelf(
        self,
        tins: Sequence[TinView],
        waters: Sequence[WaterView],
        recipes: Sequence[RecipeView] = (),
    ) -> None:
        """Show what is on the shelf, with what is in use chosen."""
        self.quick.offer(tins, waters)
        by_recipe = any(each.draft.in_use for each in recipes)
        alone = tr("{name} alone") if recipes else "{name}"
        rows: list[_Row] = [
            (f"recipe:{each.recipe_id}", each.draft.name, each.draft.in_use)
            for each in recipes
        ]
        rows += [
            (
                f"tin:{each.tin_id}",
                alone.format(name=each.draft.name),
                each.draft.in_use and not by_recipe,
            )
            for each in tins
        ]
        _fill(self.recipe, rows, tr("No tin yet"))
        _fill(
            self.water,
            [
                (f"water:{each.water_id}", water_words(each), each.draft.in_use)
                for each in waters
            ],
            tr("No water yet"),
        )

    def offer(self, commands: Sequence[QAction]) -> None:
        """Offer these under the shelf's button, each with its shortcut."""
        self.shelf_menu.addActions(commands)

    def refresh_colours(self) -> None:
        """Draw the jugs again in the scheme now in force."""
        self._draw_shelf_mark()
        for fold in self.quick.findChildren(Fold):
            fold.refresh_colours()
        if self._view is not None:
            self.show_day(self._view)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._is_old and self._view is not None:
            self.show_day(self._view)

    def _lay_out(self) -> None:
        outer = QVBoxLayout(self)
        outer.setContentsMargins(1, 6, 1, 1)
        outer.addWidget(self.tabs)
        plan = QWidget()
        self.tabs.addTab(scrolled(plan, tr("To mix")), tr("To mix"))
        self.tabs.addTab(scrolled(self.quick, tr("Quick mix")), tr("Quick mix"))
        self.tabs.setCornerWidget(self._shelf_button(), Qt.Corner.TopRightCorner)
        column = QVBoxLayout(plan)
        column.setContentsMargins(12, 12, 12, 12)
        column.setSpacing(10)
        column.addLayout(self._choosers())
        column.addWidget(self._empty)
        column.addWidget(self.to_quick, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self._jugs)
        column.addWidget(self._cautions())
        column.addStretch(1)

    def _shelf_button(self) -> QWidget:
        """Give the one button that leads to all that is mixed with."""
        self.shelf.setMenu(self.shelf_menu)
        self._draw_shelf_mark()
        self.shelf.setToolTip(tr("Tins, waters, and all else that is mixed with"))
        self.shelf.setAccessibleName(tr("What is on the shelf"))
        return self.shelf

    def _draw_shelf_mark(self) -> None:
        self.shelf.setIcon(icons.icon("down", theme.colours().accent))

    def _to_quick(self) -> None:
        self.tabs.setCurrentIndex(1)
        self.quick.analysis.setFocus(Qt.FocusReason.OtherFocusReason)

    def _choosers(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(6)
        grid.setColumnStretch(1, 1)
        rows = (
            (tr("Re&cipe"), self.recipe, tr("Recipe or tin in use")),
            (tr("&Water", "mixing"), self.water, tr("Water in use")),
        )
        for row, (title, combo, told) in enumerate(rows):
            name = QLabel(title)
            name.setBuddy(combo)
            combo.setAccessibleName(told)
            combo.activated.connect(partial(self._send, combo))
            grid.addWidget(name, row, 0)
            grid.addWidget(combo, row, 1)
        return grid

    def _send(self, combo: QComboBox, _row: int) -> None:
        sort, _, key = (combo.currentData() or "").partition(":")
        told = {
            "recipe": self.recipe_chosen,
            "tin": self.tin_chosen,
            "water": self.water_chosen,
        }
        if sort:
            told[sort].emit(int(key))

    def _cautions(self) -> QFrame:
        box = frame("card")
        rows = QVBoxLayout(box)
        rows.setContentsMargins(12, 8, 12, 8)
        rows.addWidget(label(tr("Cautions"), tone="head"))
        for caution in cautions.SHORT:
            rows.addWidget(label(caution, tone="muted"))
        rows.addWidget(link(tr("All cautions"), self.cautions_wanted.emit))
        return box


def _fill(combo: QComboBox, rows: Sequence[_Row], none: str) -> None:
    """Fill a chooser with keys, their words, and which is in use."""
    combo.clear()
    combo.setEnabled(bool(rows) and not looking.current().reason)
    if not rows:
        combo.addItem(none)
    for key, text, in_use in rows:
        combo.addItem(text, key)
        if in_use:
            combo.setCurrentIndex(combo.count() - 1)
