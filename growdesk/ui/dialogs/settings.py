"""Show the house rules as a page built from their declarations.

Knows how each sort of rule is edited and nothing of what a rule does.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QSpinBox,
    QWidget,
)
from typing_extensions import override

from growdesk.domain import wording
from growdesk.domain.errors import InputError
from growdesk.services.values import SettingKind
from growdesk.ui import typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.facts import House
    from growdesk.services.values import Setting


class WeekdaysEdit(QWidget):
    """The days of the week on which the grower waters."""

    def __init__(self, title: str) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        self._boxes = [QCheckBox(name[:3]) for name in words.DAYS]
        for box, name in zip(self._boxes, words.DAYS, strict=True):
            box.setAccessibleName(f"{title}: {name}")
            row.addWidget(box)
        row.addStretch(1)
        self.setFocusProxy(self._boxes[0])

    def days(self) -> tuple[int, ...]:
        """Give the days ticked, Monday first as 0."""
        return tuple(n for n, box in enumerate(self._boxes) if box.isChecked())

    def held(self) -> tuple[int, ...]:
        """Give what a kept draft needs."""
        return self.days()

    def hold(self, value: tuple[int, ...]) -> None:
        """Put back what a kept draft had."""
        self.set_days(value)

    def set_days(self, days: Sequence[int]) -> None:
        """Tick days."""
        for number, box in enumerate(self._boxes):
            box.setChecked(number in days)


class MonthDayEdit(QWidget):
    """A day of the year without a year."""

    def __init__(self, title: str) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        self._day = QSpinBox()
        self._day.setRange(1, 31)
        self._day.setAccessibleName(f"{title}: day")
        self._month = QComboBox()
        self._month.addItems(list(wording.MONTHS))
        self._month.setAccessibleName(f"{title}: month")
        row.addWidget(self._day)
        row.addWidget(self._month)
        row.addStretch(1)
        self.setFocusProxy(self._day)

    def month_day(self) -> tuple[int, int]:
        """Give month and day."""
        return self._month.currentIndex() + 1, self._day.value()

    def held(self) -> tuple[int, int]:
        """Give what a kept draft needs."""
        return self.month_day()

    def hold(self, value: tuple[int, int]) -> None:
        """Put back what a kept draft had."""
        self.set_month_day(value)

    def set_month_day(self, month_day: tuple[int, int]) -> None:
        """Show month and day."""
        self._month.setCurrentIndex(month_day[0] - 1)
        self._day.setValue(month_day[1])


class SettingsDialog(FormDialog):
    """All house rules, one row each."""

    most_high_px = 640

    def __init__(
        self,
        parent: QWidget | None,
        declared: Sequence[Setting],
        house: House,
        first: str = "",
    ) -> None:
        super().__init__(parent, "House rules", "Save the rules")
        self._declared = tuple(declared)
        self._house = house
        for setting in self._declared:
            self._add(setting)
        self.form.end()
        self.top.addWidget(
            label(
                "What holds for every plant that has no rule of its own.", tone="muted"
            )
        )
        self.body.addWidget(self.form)
        self.resize(800, self.most_high_px)
        self.begin()
        self.go_to(first or self._declared[0].key)

    def go_to(self, key: str) -> None:
        """Put the focus on a rule and bring it into sight."""
        editor = self.form.editor(key)
        if editor is None:
            return
        editor.setFocus(Qt.FocusReason.OtherFocusReason)
        self.area.ensureWidgetVisible(editor)
        if isinstance(editor, QLineEdit):
            editor.selectAll()

    @override
    def draft(self) -> House:
        """Give the house as entered."""
        given: dict[str, Any] = {s.key: self._value(s) for s in self._declared}
        return replace(self._house, **given)

    @override
    def show_beside(self, error: Exception) -> bool:
        field = self.form.show_error(error)
        if field:
            self.go_to(field)
            return True
        self.form.say("")
        return False

    def _add(self, setting: Setting) -> None:
        value = getattr(self._house, setting.key)
        editor: QWidget
        if setting.kind is SettingKind.WEEKDAYS:
            editor = WeekdaysEdit(setting.title)
            editor.set_days(value)
        elif setting.kind is SettingKind.DAY:
            editor = MonthDayEdit(setting.title)
            editor.set_month_day(value)
        elif setting.kind is SettingKind.BOOL:
            editor = QCheckBox("yes")
            editor.setChecked(bool(value))
        else:
            editor = QLineEdit(_typed(setting, value))
            editor.setAccessibleName(_title(setting))
        editor.setToolTip(setting.text)
        self.form.add(setting.key, _title(setting), editor)
        self.form.note(setting.text)

    def _value(self, setting: Setting) -> object:
        editor = self.form.editor(setting.key)
        if isinstance(editor, WeekdaysEdit):
            return editor.days()
        if isinstance(editor, MonthDayEdit):
            return editor.month_day()
        if isinstance(editor, QCheckBox):
            return editor.isChecked()
        if not isinstance(editor, QLineEdit):
            raise TypeError(f"no editor for {setting.key}")
        example = _typed(setting, getattr(self._house, setting.key)) or "80"
        read = typed.whole if setting.kind is SettingKind.INT else typed.number
        found = read(editor.text(), setting.key, example)
        if found is None and not setting.optional:
            raise InputError(setting.key, "", "is empty", f"Write say {example}.")
        if found is None or setting.kind is not SettingKind.SHARE:
            return found
        return _share(setting, found, editor.text())


def _typed(setting: Setting, value: float | None) -> str:
    """Give a number as it is written on the page: a share in per cent."""
    if value is not None and setting.kind is SettingKind.SHARE:
        return words.number(value * 100, 2)
    return words.number(value, 4)


def _share(setting: Setting, per_cent: float, text: str) -> float:
    """Give a share of one from per cent; its range is told in per cent too."""
    low, high = (setting.minimum or 0) * 100, (setting.maximum or 1) * 100
    if not low <= per_cent <= high:
        raise InputError(
            setting.key, text, "cannot be meant", f"Give {low:g} to {high:g} per cent."
        )
    return round(per_cent / 100, 6)


def _title(setting: Setting) -> str:
    return f"{setting.title}, {setting.unit}" if setting.unit else setting.title
