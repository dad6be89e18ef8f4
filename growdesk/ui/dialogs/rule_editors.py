"""Give each sort of house rule its editor, and read what stands in it.

An editor tells when it changes, and a number is read as people write it: a share in
per cent. What a rule does is not known here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLineEdit,
    QWidget,
)

from growdesk.domain import day_words
from growdesk.domain.day_words import SHORT_WEEKDAYS
from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range
from growdesk.domain.quantity_words import kept_of, shown_in, turns, unit_shown
from growdesk.domain.speech import manner, plain, tr
from growdesk.services.values import SettingKind
from growdesk.ui import rule_words, sizes, typed
from growdesk.ui.widgets.month_day import MonthDayEdit

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from growdesk.services.values import Setting

_NUMBER_PX = 110
_DAY_GAP_PX = 8


class WeekdaysEdit(QWidget):
    """The days of the week on which the grower waters."""

    changed = Signal()

    def __init__(self, title: str) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(_DAY_GAP_PX)
        self._boxes = [QCheckBox(name) for name in SHORT_WEEKDAYS]
        for number, box in enumerate(self._boxes):
            box.setAccessibleName(f"{title}: {day_words.WEEKDAYS[number]}")
            box.toggled.connect(lambda _is_on: self.changed.emit())
        begins = manner().week_begins
        for box in (*self._boxes[begins:], *self._boxes[:begins]):
            row.addWidget(box)
        self.setFocusProxy(self._boxes[begins])

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


_KEPT = "kept"


def editor_of(setting: Setting, changed: Callable[[], object]) -> QWidget:
    """Give an empty editor for a rule, which calls ``changed`` whenever it does."""
    if setting.kind is SettingKind.WEEKDAYS:
        days = WeekdaysEdit(setting.title)
        days.changed.connect(changed)
        return days
    if setting.kind is SettingKind.DAY:
        day = MonthDayEdit(setting.title)
        day.changed.connect(changed)
        return day
    if setting.kind is SettingKind.BOOL:
        box = QCheckBox(tr("yes"))
        box.setAccessibleName(setting.title)
        box.toggled.connect(lambda _is_on: changed())
        return box
    line = QLineEdit()
    sizes.wide(line, _NUMBER_PX)
    unit = f", {unit_shown(setting.unit)}" if setting.unit else ""
    line.setAccessibleName(f"{setting.title}{unit}")
    line.textChanged.connect(lambda _text: changed())
    return line


def put(setting: Setting, editor: QWidget, value: Any) -> None:
    """Show a rule's value in its editor."""
    if isinstance(editor, WeekdaysEdit):
        editor.set_days(value)
    elif isinstance(editor, MonthDayEdit):
        editor.set_month_day(value)
    elif isinstance(editor, QCheckBox):
        editor.setChecked(bool(value))
    elif isinstance(editor, QLineEdit):
        editor.setText(rule_words.typed(setting, value))
        editor.setProperty(_KEPT, (editor.text(), value))


def read(setting: Setting, editor: QWidget) -> object:
    """Give the value that stands in an editor; a slip is an ``InputError``."""
    if isinstance(editor, WeekdaysEdit):
        return editor.days()
    if isinstance(editor, MonthDayEdit):
        return editor.month_day()
    if isinstance(editor, QCheckBox):
        return editor.isChecked()
    if not isinstance(editor, QLineEdit):
        raise TypeError(f"no editor for {setting.key}")
    kept = editor.property(_KEPT)
    if kept is not None and kept[0] == editor.text() and turns(setting.unit):
        return cast("float | None", kept[1])
    return _number(setting, editor.text())


def _number(setting: Setting, text: str) -> float | None:
    usual: Any = setting.default
    example = rule_words.typed(setting, usual) or "80"
    reading = typed.whole if setting.kind is SettingKind.INT else typed.number
    found = reading(text, setting.key, example)
    if found is None:
        if setting.optional:
            return None
        raise InputError(
            setting.key,
            "",
            tr("is empty"),
            tr("Write say {example}.").format(example=example),
        )
    is_share = setting.kind is SettingKind.SHARE
    low, high = setting.minimum or 0.0, setting.maximum or 0.0
    scale = 100.0 if is_share else 1.0
    if turns(setting.unit):
        found = _kept(setting, found)
    allowed = Range(low * scale, high * scale, setting.above)
    if not allowed.holds(found):
        raise InputError(
            setting.key,
            text,
            tr("cannot be meant"),
            (tr("Give {range} per cent.") if is_share else tr("Give {range}.")).format(
                range=_range(setting, allowed)
            ),
        )
    return round(found / 100, 6) if is_share else found


def _kept(setting: Setting, shown: float) -> float:
    """Give a figure as typed in the unit that the rule is kept in."""
    apart = rule_words.is_apart(setting)
    found = round(kept_of(shown, setting.unit, apart=apart), 6)
    return round(found) if setting.kind is SettingKind.INT else found


def _range(setting: Setting, allowed: Range) -> str:
    apart = rule_words.is_apart(setting)
    low, high = (
        shown_in(each, setting.unit, apart=apart)
        for each in (allowed.low, allowed.high)
    )
    if allowed.above:
        return tr("more than {low} and at most {high}").format(
            low=plain(low), high=plain(high)
        )
    return tr("{low} to {high}").format(low=plain(low), high=plain(high))
