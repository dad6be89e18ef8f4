"""Take in the coldest and the hottest of a day, side by side in one row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from growdesk.domain.night import Expected
from growdesk.domain.quantity_words import temperature_unit
from growdesk.domain.speech import tr
from growdesk.ui import measured_lines, sizes
from growdesk.ui.tips import as_typed
from growdesk.ui.widgets.parts import short_label

if TYPE_CHECKING:
    from typing import Any


class LowHigh(QWidget):
    """Two temperatures, either of which may be left empty."""

    changed = Signal()

    def __init__(self, name: str, expected: Expected, beside: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        unit = temperature_unit()
        self.low = _line(
            tr("{name}: night, coldest, {unit}").format(name=name, unit=unit),
            expected.low_c,
        )
        self.high = _line(
            tr("{name}: day, hottest, {unit}").format(name=name, unit=unit),
            expected.high_c,
        )
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        for text, line in ((tr("night"), self.low), (tr("day"), self.high)):
            row.addWidget(short_label(text, tone="muted"))
            row.addWidget(line)
            line.textChanged.connect(lambda _text: self.changed.emit())
        row.addWidget(short_label(beside, tone="muted"))
        row.addStretch(1)
        self.setFocusProxy(self.low)

    def expected(self, field: str) -> Expected:
        """Give what is typed, or tell the slip under the row's field."""
        return Expected(
            measured_lines.temperature_c(self.low, field),
            measured_lines.temperature_c(self.high, field),
        )

    def held(self) -> Any:
        """Give what stands in the two lines."""
        return self.low.text(), self.high.text()

    def hold(self, value: Any) -> None:
        """Put back what stood in the two lines."""
        self.low.setText(value[0])
        self.high.setText(value[1])


def _line(name: str, shown_c: float | None) -> QLineEdit:
    made = QLineEdit()
    measured_lines.show_temperature(made, shown_c)
    made.setAccessibleName(name)
    made.setPlaceholderText(temperature_unit())
    made.setToolTip(as_typed(name))
    sizes.wide(made, 72)
    return made
