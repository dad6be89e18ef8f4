"""Give a choice that is no wider than its place, however long the names in it are."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QStyle, QStyleOptionComboBox, QStylePainter
from typing_extensions import override

from growdesk.ui.tips import as_typed

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

_SIGNS = 8
_BESIDE_PX = 32


class FittedCombo(QComboBox):
    """A combo that ends a name it has no room for in …; its list shows it whole."""

    def __init__(self, signs: int = _SIGNS) -> None:
        super().__init__()
        self.setMinimumContentsLength(signs)
        self.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )

    def shown_text(self) -> str:
        """Give the chosen name as far as there is room for it."""
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        room = self.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox,
            option,
            QStyle.SubControl.SC_ComboBoxEditField,
            self,
        )
        end = Qt.TextElideMode.ElideRight
        return self.fontMetrics().elidedText(self.currentText(), end, room.width())

    @override
    def showPopup(self) -> None:
        wide = self.view().sizeHintForColumn(0) + _BESIDE_PX
        self.view().setMinimumWidth(max(wide, self.width()))
        super().showPopup()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        option.currentText = self.shown_text()
        painter = QStylePainter(self)
        painter.drawComplexControl(QStyle.ComplexControl.CC_ComboBox, option)
        painter.drawControl(QStyle.ControlElement.CE_ComboBoxLabel, option)
        painter.end()
        is_cut = option.currentText != self.currentText()
        self.setToolTip(as_typed(self.currentText()) if is_cut else "")
