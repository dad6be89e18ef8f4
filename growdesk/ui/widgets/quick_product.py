"""Ask for one product of a quick mix: by its label, off the shelf, or a single salt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from growdesk.domain.speech import mark, tr
from growdesk.services.quick_values import QuickLine
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.form import Form, choose
from growdesk.ui.widgets.parts import label, link

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QLineEdit

BY_LABEL = mark("By its label")


class QuickProduct(QWidget):
    """One product; the first has the letters that Alt reaches."""

    changed = Signal()
    wanted_now = Signal()
    taken_away = Signal()

    def __init__(self, number: int, picks: Sequence[tuple[str, str]]) -> None:
        super().__init__()
        self.form = Form()
        self._head = label("", tone="head")
        self._away = link(tr("Take it away"), self.taken_away.emit)
        is_first = number == 1
        self.pick = FittedCombo()
        self.pick.addItem(tr(BY_LABEL), "")
        self.form.add("pick", tr("Prod&uct") if is_first else tr("Product"), self.pick)
        self.analysis = self._line(
            "analysis",
            tr("&Analysis", "mixing") if is_first else tr("Analysis"),
            tr("N-P2O5-K2O as on the label, say 20-20-20"),
        )
        self.density = self._line(
            "density",
            tr("De&nsity") if is_first else tr("Density"),
            tr("liquids only, say 1.2 g/mL"),
        )
        self.amount = self._line(
            "amount",
            tr("A&mount") if is_first else tr("Amount"),
            tr("say 2 parts, 20 ppm Mg, 0.5 g/L"),
        )
        self.form.end()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        top = QHBoxLayout()
        top.addWidget(self._head, 1)
        top.addWidget(self._away)
        column.addLayout(top)
        column.addWidget(self.form)
        self._away.setVisible(not is_first)
        self.offer(picks)
        self.pick.currentIndexChanged.connect(self._picked)
        self.number(number, alone=True)

    def number(self, number: int, *, alone: bool) -> None:
        """Say which product it is; one alone has no number."""
        told = "" if alone else tr("Product {number}").format(number=number)
        self._head.setText(told)
        self._head.setVisible(bool(told))
        self._away.setAccessibleName(
            tr("Take product {number} away").format(number=number)
        )
        for title, editor in (
            (tr("Product"), self.pick),
            (tr("Analysis"), self.analysis),
            (tr("Density"), self.density),
            (tr("Amount"), self.amount),
        ):
            editor.setAccessibleName(
                title
                if alone
                else tr("{title} of {number}").format(title=title, number=number)
            )

    def offer(self, picks: Sequence[tuple[str, str]]) -> None:
        """Offer these of the shelf and the salts; what is chosen stays chosen."""
        chosen = self.pick.currentData()
        self.pick.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        while self.pick.count() > 1:
            self.pick.removeItem(1)
        for key, name in picks:
            self.pick.addItem(name, key)
        choose(self.pick, chosen)
        self.pick.blockSignals(False)  # noqa: FBT003 -- Qt's own signature
        self._show_label()

    def line(self) -> QuickLine:
        """Give what is asked for, as typed."""
        pick = self.pick.currentData() or ""
        amount = self.amount.text().strip()
        if pick:
            return QuickLine(amount=amount, pick=pick)
        return QuickLine(
            self.analysis.text().strip(), self.density.text().strip(), amount
        )

    def _line(self, field: str, title: str, hint: str) -> QLineEdit:
        edit = self.form.line(field, title, hint)
        edit.textChanged.connect(lambda _text: self.changed.emit())
        edit.returnPressed.connect(self.wanted_now)
        return edit

    def _picked(self, _row: int) -> None:
        self._show_label()
        self.changed.emit()

    def _show_label(self) -> None:
        by_label = not self.pick.currentData()
        self.form.show_field("analysis", shown=by_label)
        self.form.show_field("density", shown=by_label)
