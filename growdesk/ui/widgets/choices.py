"""Give rows of choices for the signs of a look, all in sight, quick by keyboard.

"Not recorded" is a choice of its own in each row and never the same as none. In a row
the arrow keys move, digits choose by position and letters by the word's beginning.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSpinBox,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import sizes

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from enum import StrEnum

UNRECORDED = -1
BY_LETTER = Qt.FocusPolicy.TabFocus
"""Without it Alt and the letter of its label would not reach a row."""


class ChoiceRow(QWidget):
    """One sign: exactly one of its values, or not recorded."""

    def __init__(self, name: str, choices: Sequence[tuple[StrEnum, str]]) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setFocusPolicy(BY_LETTER)
        self._group = QButtonGroup(self)
        self._values: list[StrEnum | None] = [None]
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(4)
        self._add(tr("not recorded", "choice"), name)
        for value, text in choices:
            self._values.append(value)
            self._add(text, name)
        self._row.addStretch(1)
        self.set_value(None)

    @property
    def value(self) -> StrEnum | None:
        """Give the value chosen; None is not recorded."""
        return self._values[self._group.checkedId()]

    def set_value(self, value: StrEnum | None) -> None:
        """Choose a value."""
        position = self._values.index(value)
        self._group.button(position).setChecked(True)
        self.setFocusProxy(self._group.button(position))

    def held(self) -> StrEnum | None:
        """Give what a kept draft needs of the row."""
        return self.value

    def hold(self, value: StrEnum | None) -> None:
        """Put back what a kept draft had."""
        self.set_value(value)

    def take_focus(self) -> None:
        """Put the focus on the chosen button."""
        self._group.button(self._group.checkedId()).setFocus(
            Qt.FocusReason.TabFocusReason
        )

    def _add(self, text: str, name: str) -> None:
        made = _choice_button(text, f"{name}: {text}")
        made.installEventFilter(self)
        position = len(self._group.buttons())
        self._group.addButton(made, position)
        made.toggled.connect(
            lambda on, button=made: self.setFocusProxy(button) if on else None
        )
        self._row.addWidget(made)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            position = _position_typed(event, self._texts(), self._group.checkedId())
            if position is not None:
                self._group.button(position).setChecked(True)
                self._group.button(position).setFocus()
                return True
        return super().eventFilter(watched, event)

    def _texts(self) -> list[str]:
        return [self._group.button(n).text() for n in range(len(self._values))]


class ManyRow(QWidget):
    """One sign of which several may hold at once, none of them, or not recorded."""

    changed = Signal()

    def __init__(
        self, name: str, choices: Sequence[tuple[StrEnum, str]], none: StrEnum | None
    ) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setFocusPolicy(BY_LETTER)
        self._none = none
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        self._unrecorded = self._add(row, tr("not recorded", "choice"), name)
        self._nothing = self._add(row, tr("none"), name)
        self._buttons: dict[StrEnum, QPushButton] = {}
        for value, text in choices:
            if value != none:
                self._buttons[value] = self._add(row, text, name)
        row.addStretch(1)
        self._unrecorded.clicked.connect(lambda: self.set_value(None))
        self._nothing.clicked.connect(lambda: self.set_value(frozenset()))
        for made in self._buttons.values():
            made.clicked.connect(self._one_clicked)
        self.set_value(None)

    @property
    def value(self) -> frozenset[StrEnum] | None:
        """Give the values that hold; None is not recorded."""
        if self._unrecorded.isChecked():
            return None
        held = frozenset(v for v, made in self._buttons.items() if made.isChecked())
        if not held and self._none is not None:
            return frozenset({self._none})
        return held

    def set_value(self, held: frozenset[StrEnum] | None) -> None:
        """Choose the values that hold."""
        real = frozenset() if held is None else held - {self._none}
        for value, made in self._buttons.items():
            made.setChecked(value in real)
        self._unrecorded.setChecked(held is None)
        self._nothing.setChecked(held is not None and not real)
        on = (each for each in self._every() if each.isChecked())
        self._only_stop(next(on, self._unrecorded))
        self.changed.emit()

    def held(self) -> frozenset[StrEnum] | None:
        """Give what a kept draft needs of the row."""
        return self.value

    def hold(self, value: frozenset[StrEnum] | None) -> None:
        """Put back what a kept draft had."""
        self.set_value(value)

    def _add(self, row: QHBoxLayout, text: str, name: str) -> QPushButton:
        made = _choice_button(text, f"{name}: {text}")
        made.installEventFilter(self)
        row.addWidget(made)
        return made

    def _every(self) -> list[QPushButton]:
        return [self._unrecorded, self._nothing, *self._buttons.values()]

    def _rove(self, target: QPushButton) -> None:
        """Move the focus inside the row, which stays one stop for the Tab key."""
        self._only_stop(target)
        target.setFocus(Qt.FocusReason.TabFocusReason)

    def _only_stop(self, target: QPushButton) -> None:
        for each in self._every():
            is_stop = each is target
            each.setFocusPolicy(
                Qt.FocusPolicy.StrongFocus if is_stop else Qt.FocusPolicy.ClickFocus
            )
        self.setFocusProxy(target)

    def _one_clicked(self) -> None:
        held = any(made.isChecked() for made in self._buttons.values())
        self._unrecorded.setChecked(False)
        self._nothing.setChecked(not held)
        self.changed.emit()

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            every = self._every()
            focused = next((n for n, b in enumerate(every) if b.hasFocus()), 0)
            step = _arrow(event)
            if step:
                self._rove(every[(focused + step) % len(every)])
                return True
            texts = [each.text() for each in every]
            position = _position_typed(event, texts, focused)
            if position is not None:
                every[position].click()
                self._rove(every[position])
                return True
        return super().eventFilter(watched, event)


class GrowthCounts(QWidget):
    """The new growths by stage as counts; an empty stage is not recorded."""

    def __init__(self, stages: Mapping[str, str]) -> None:
        super().__init__()
        self.setAccessibleName(tr("New growths by stage"))
        self.setFocusPolicy(BY_LETTER)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(1)
        self.boxes: dict[str, QSpinBox] = {}
        for column, (stage, said) in enumerate(stages.items()):
            box = QSpinBox()
            box.setRange(UNRECORDED, 30)
            box.setSpecialValueText("–")
            box.setValue(UNRECORDED)
            sizes.wide(box, 68)
            box.setToolTip(tr("– means not recorded"))
            box.setAccessibleName(tr("New growths {stage}").format(stage=said))
            box.lineEdit().setAccessibleName(box.accessibleName())
            box.setAccessibleDescription(tr("a dash is not recorded"))
            box.installEventFilter(self)
            name = QLabel(said)
            name.setBuddy(box)
            grid.addWidget(name, 0, column)
            grid.addWidget(box, 1, column)
            self.boxes[stage] = box
        none = QPushButton(tr("None seen"))
        none.setAutoDefault(False)
        none.setToolTip(
            tr("Somebody looked and there is no new growth: all stages are 0")
        )
        none.clicked.connect(self._none_seen)
        self.none_seen_button = none
        grid.addWidget(none, 1, len(stages))
        unrecorded = QPushButton(tr("Not recorded", "choice"))
        unrecorded.setAccessibleName(tr("New growths: not recorded"))
        unrecorded.setAutoDefault(False)
        unrecorded.clicked.connect(lambda: self.set_counts({}))
        self.unrecorded_button = unrecorded
        grid.addWidget(unrecorded, 1, len(stages) + 1)
        grid.setColumnStretch(len(stages) + 2, 1)
        self.setFocusProxy(next(iter(self.boxes.values())))

    @property
    def counts(self) -> dict[str, int | None]:
        """Give the count of each stage; None is not recorded."""
        return {
            stage: None if box.value() == UNRECORDED else box.value()
            for stage, box in self.boxes.items()
        }

    def set_counts(self, counts: dict[str, int | None]) -> None:
        """Show counts; a stage left out is not recorded."""
        for stage, box in self.boxes.items():
            count = counts.get(stage)
            box.setValue(UNRECORDED if count is None else count)

    def held(self) -> dict[str, int | None]:
        """Give what a kept draft needs of the row."""
        return self.counts

    def hold(self, value: dict[str, int | None]) -> None:
        """Put back what a kept draft had."""
        self.set_counts(value)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let a letter go to the next stage that begins with it."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            stages = list(self.boxes)
            now = next((n for n, s in enumerate(stages) if self.boxes[s] is watched), 0)
            if event.text().isalpha():
                position = _position_typed(event, stages, now)
                if position is not None:
                    box = self.boxes[stages[position]]
                    box.setFocus(Qt.FocusReason.TabFocusReason)
                    return True
        return super().eventFilter(watched, event)

    def _none_seen(self) -> None:
        for stage, box in self.boxes.items():
            if stage != "matured" or box.value() == UNRECORDED:
                box.setValue(0)


def _choice_button(text: str, name: str) -> QPushButton:
    made = QPushButton(text)
    made.setCheckable(True)
    made.setAutoDefault(False)
    made.setProperty("choice", "true")
    made.setAccessibleName(name)
    return made


def _arrow(event: QKeyEvent) -> int:
    if event.key() in {Qt.Key.Key_Right, Qt.Key.Key_Down}:
        return 1
    return -1 if event.key() in {Qt.Key.Key_Left, Qt.Key.Key_Up} else 0


def _position_typed(event: QKeyEvent, texts: list[str], now: int) -> int | None:
    """Give the position a digit or a first letter asks for."""
    if event.modifiers() not in {
        Qt.KeyboardModifier.NoModifier,
        Qt.KeyboardModifier.KeypadModifier,
    }:
        return None
    typed = event.text().casefold()
    if typed.isdigit() and int(typed) < len(texts):
        return int(typed)
    if not typed.isalpha():
        return None
    order = [(now + step) % len(texts) for step in range(1, len(texts) + 1)]
    return next((n for n in order if texts[n].casefold().startswith(typed)), None)
