"""Choose what goes into a stock bottle: a product and an amount a line.

The next line shows once the one before it is used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QWidget
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import short_label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QFocusEvent

    from growdesk.services.values import TinView

Line = tuple[int | None, str]

MOST: Final = 6
_AMOUNT_PX: Final = 90


class StockParts(QWidget):
    """Lines of a product and its amount, as typed."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(0, 1)
        self.products = [FittedCombo(20) for _ in range(MOST)]
        self.amounts = [QLineEdit() for _ in range(MOST)]
        self._units = [short_label("g", tone="muted") for _ in range(MOST)]
        self._liquid: frozenset[int] = frozenset()
        for row in range(MOST):
            self._lay_out(row)
        self._show_lines()

    def show_tins(
        self, tins: Sequence[TinView], gone: Sequence[tuple[int, str]]
    ) -> None:
        """Offer the tins on the shelf, and what a bottle holds that is gone from it."""
        kept = self.held()
        self._liquid = frozenset(
            view.tin_id for view in tins if view.draft.density_g_per_ml is not None
        )
        for combo in self.products:
            combo.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
            combo.clear()
            combo.addItem("", None)
            for view in tins:
                combo.addItem(view.draft.name, view.tin_id)
            for tin_id, name in gone:
                combo.addItem(tr("{name}, off the shelf").format(name=name), tin_id)
            combo.blockSignals(False)  # noqa: FBT003 -- ditto
        self.hold(kept)

    def held(self) -> tuple[Line, ...]:
        """Give the lines that are used, as typed."""
        return tuple(
            (combo.currentData(), amount.text().strip())
            for combo, amount in zip(self.products, self.amounts, strict=True)
            if combo.currentData() is not None or amount.text().strip()
        )

    def hold(self, value: Sequence[Line]) -> None:
        """Put back what stood in the lines."""
        lines = [*value, *[(None, "")] * MOST][:MOST]
        for row, (tin_id, text) in enumerate(lines):
            choose(self.products[row], tin_id)
            self.amounts[row].setText(text)
        self._show_lines()

    def stops(self) -> list[QWidget]:
        """Give what the Tab key comes to, line by line."""
        return [
            editor
            for pair in zip(self.products, self.amounts, strict=True)
            for editor in pair
        ]

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        """Hand the focus on to the first line."""
        super().focusInEvent(event)
        self.products[0].setFocus(event.reason())

    def _lay_out(self, row: int) -> None:
        combo, amount = self.products[row], self.amounts[row]
        combo.setAccessibleName(tr("Product {row}").format(row=row + 1))
        amount.setAccessibleName(tr("Amount of product {row}").format(row=row + 1))
        sizes.wide(amount, _AMOUNT_PX)
        combo.addItem("", None)
        self._grid.addWidget(combo, row, 0)
        self._grid.addWidget(amount, row, 1)
        self._grid.addWidget(self._units[row], row, 2)
        combo.currentIndexChanged.connect(lambda _now: self._line_changed())
        amount.textChanged.connect(lambda _text: self._line_changed())

    def _line_changed(self) -> None:
        self._show_lines()
        self.changed.emit()

    def _show_lines(self) -> None:
        """Show the lines used and one more."""
        used = [
            combo.currentData() is not None or bool(amount.text())
            for combo, amount in zip(self.products, self.amounts, strict=True)
        ]
        last = max((row for row in range(MOST) if used[row]), default=-1)
        for row in range(MOST):
            shown = row <= last + 1
            liquid = self.products[row].currentData() in self._liquid
            self._units[row].setText("mL" if liquid else "g")
            for part in (self.products[row], self.amounts[row], self._units[row]):
                part.setVisible(shown)
