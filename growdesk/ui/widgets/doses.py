"""Lay doses out to be read at arm's length: strong amounts, products beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel

from growdesk.domain.speech import fixed
from growdesk.ui import dose_words, words
from growdesk.ui.widgets.parts import enlarge, label, short_label

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.domain.measuring import Measured

_ORDER = {name: place for place, name in enumerate(("N", "P", "K", "Ca", "Mg", "S"))}
_LONGEST_AMOUNT = 9
_WIDEST = "880 mL"
"""Amounts up to this keep the names of all cards in one line below another."""


def dose_grid(doses: Iterable[Measured], litres: str, water: str) -> QGridLayout:
    """Give what is measured, a product a line, and under it the litres."""
    grid = QGridLayout()
    grid.setHorizontalSpacing(8)
    grid.setVerticalSpacing(2)
    grid.setColumnStretch(1, 1)
    grid.setColumnMinimumWidth(0, _strong(_WIDEST, "").sizeHint().width())
    for dose, name in dose_words.named_doses(tuple(doses)):
        _add(grid, _strong(dose_words.amount(dose), "amount"), name)
    _add(grid, _strong(litres, "litres"), water)
    return grid


def elements(given: Iterable[tuple[str, float]]) -> str:
    """Give the elements in mg/L as labels order them: N, P, K, then the rest."""
    seen = [(name, value) for name, value in given if value >= 0.005]
    seen.sort(key=lambda each: _ORDER.get(each[0], len(_ORDER)))
    told = (f"{name}\u00a0{_milligrams(value)}" for name, value in seen)
    return words.unbroken(" · ".join(told) + " mg/L")


def _add(grid: QGridLayout, amount: QLabel, name: str) -> None:
    """Add an amount and its name; level spoons have a line of their own."""
    row, beside = grid.rowCount(), label(name)
    if len(amount.text()) <= _LONGEST_AMOUNT:
        to_the_right = Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignRight
        grid.addWidget(amount, row, 0, to_the_right)
        grid.addWidget(beside, row, 1, Qt.AlignmentFlag.AlignVCenter)
        return
    amount.setWordWrap(True)
    grid.addWidget(amount, row, 0, 1, 2)
    grid.addWidget(beside, row + 1, 0, 1, 2)


def _milligrams(value: float) -> str:
    return (
        f"{fixed(value, 0)}"
        if value >= 10
        else words.number(value, 1 if value >= 1 else 2)
    )


def _strong(text: str, name: str) -> QLabel:
    made = short_label(text)
    made.setObjectName(name)
    enlarge(made, 1.2, strong=True)
    return made
