"""Say where a recipe holds: plants by tag, a place, a season, or these together."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.day_words import month_day_text
from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr
from growdesk.services.recipe_values import UseDraft
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.month_day import MonthDayEdit
from growdesk.ui.widgets.parts import button, column, label, short_label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QFocusEvent

    from growdesk.domain.seasons import MonthDay

_LIST_ROWS = 4
_PLACE_LETTERS = 10
_FIRST, _LAST = (11, 1), (2, 28)
_SAY_FIRST = mark("Name plants, choose a place or tick a season first.")
SEASON_NOTE = mark(
    "Days are written for the north and turn by half a year in the south."
)


class UsesEditor(QWidget):
    """The list of where a recipe holds, and a line to add to it."""

    changed = Signal()
    refused = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(tr("Where the recipe holds"))
        self._uses: list[UseDraft] = []
        self._tags: dict[int, str] = {}
        self._places: dict[int, str] = {}
        self.rows = QListWidget()
        self.rows.setAccessibleName(tr("Where the recipe holds"))
        self.plants = QLineEdit()
        self.plants.setAccessibleName(tr("Plants by tag"))
        self.plants.setPlaceholderText(tr("plants by tag, say A1, A3"))
        self.place = FittedCombo(14)
        self.place.setAccessibleName(tr("Place"))
        self.place.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        self.place.setMinimumContentsLength(_PLACE_LETTERS)
        self.season = QCheckBox(tr("only from"))
        self.season.setAccessibleName(tr("Only in a season"))
        self.first = MonthDayEdit(tr("First day of the season"))
        self.last = MonthDayEdit(tr("Last day of the season"))
        self.add_button = button(
            tr("A&dd"), self.add, tr("Let the recipe hold there too")
        )
        self.take_button = button(tr("Take o&ut"), self._take_out)
        self._lay_out()
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.season.toggled.connect(lambda _on: self._enable())
        self.rows.currentRowChanged.connect(lambda _row: self._enable())
        self.offer((), ())
        self._clear_line()

    def offer(
        self, plants: Sequence[tuple[int, str]], places: Sequence[tuple[int, str]]
    ) -> None:
        """Offer plants and places by number and tag or name."""
        self._tags, self._places = dict(plants), dict(places)
        self.place.clear()
        self.place.addItem(tr("at any place"), None)
        for key, name in places:
            self.place.addItem(tr("at {name}").format(name=name), key)

    def uses(self) -> tuple[UseDraft, ...]:
        """Give where it holds, the line that was begun taken along.

        Raises ``InputError`` where that line cannot be read.
        """
        self._take_line()
        return tuple(self._uses)

    def put(self, uses: Sequence[UseDraft]) -> None:
        """Show where a recipe holds, with nothing begun."""
        self._uses = list(uses)
        self._clear_line()
        self._show()

    def add(self) -> None:
        """Add what the line says, or tell the slip in it."""
        try:
            said = self._take_line()
        except InputError as error:
            self.refused.emit(error)
            return
        if not said:
            self.refused.emit(
                InputError("uses", "", tr("says nowhere"), tr(_SAY_FIRST))
            )
            return
        self.changed.emit()
        self.plants.setFocus()

    def held(self) -> dict[str, Any]:
        """Give what a kept draft needs."""
        return {"uses": tuple(self._uses), "line": self._line()}

    def hold(self, value: dict[str, Any]) -> None:
        """Put back what a kept draft had."""
        self._uses = list(value["uses"])
        tags, place, is_season, first, last = value["line"]
        self.plants.setText(tags)
        choose(self.place, place)
        self.season.setChecked(is_season)
        self.first.set_month_day(first)
        self.last.set_month_day(last)
        self._show()

    def stops(self) -> list[QWidget]:
        """Give what the Tab key comes to."""
        return [
            self.rows,
            self.plants,
            self.place,
            self.season,
            *self.first.stops(),
            *self.last.stops(),
            self.add_button,
            self.take_button,
        ]

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        """Hand the focus on to what is listed; a proxy would catch the Tab key."""
        super().focusInEvent(event)
        self.rows.setFocus(event.reason())

    def _line(self) -> tuple[str, object, bool, MonthDay, MonthDay]:
        return (
            self.plants.text(),
            self.place.currentData(),
            self.season.isChecked(),
            self.first.month_day(),
            self.last.month_day(),
        )

    def _take_line(self) -> bool:
        """Add what the line says; tell whether it said anything."""
        tags, place, is_season, first, last = self._line()
        season = (first, last) if is_season else None
        keys: list[int | None] = [*self._keys(tags)]
        if not keys and place is None and season is None:
            return False
        at = place if isinstance(place, int) else None
        for key in keys or [None]:
            use = UseDraft(key, at, season)
            if use not in self._uses:
                self._uses.append(use)
        self._clear_line()
        self._show()
        return True

    def _keys(self, typed: str) -> list[int]:
        by_tag = {tag.casefold(): key for key, tag in self._tags.items()}
        found = []
        for tag in filter(None, re.split(r"[\s,;]+", typed.strip())):
            if tag.casefold() not in by_tag:
                hint = tr("Write tags as in the list of plants, for instance A1, A3.")
                raise InputError("uses", tag, tr("is no plant's tag"), hint)
            found.append(by_tag[tag.casefold()])
        return found

    def _take_out(self) -> None:
        row = self.rows.currentRow()
        if row >= 0:
            del self._uses[row]
            self._show()
            self.rows.setCurrentRow(min(row, len(self._uses) - 1))
            self.changed.emit()

    def _show(self) -> None:
        self.rows.clear()
        self.rows.addItems([self._words(use) for use in self._uses])
        self._enable()

    def _words(self, use: UseDraft) -> str:
        said = []
        if use.plant_id is not None:
            said.append(self._tags.get(use.plant_id, tr("a plant that is gone")))
        if use.place_id is not None:
            place = self._places.get(use.place_id, tr("a place that is gone"))
            said.append(tr("at {place}").format(place=place))
        if use.season is not None:
            first, last = (month_day_text(*each) for each in use.season)
            said.append(tr("from {first} to {last}").format(first=first, last=last))
        text = ", ".join(said)
        return text[:1].upper() + text[1:]

    def _clear_line(self) -> None:
        self.plants.clear()
        self.place.setCurrentIndex(0)
        self.season.setChecked(False)
        self.first.set_month_day(_FIRST)
        self.last.set_month_day(_LAST)
        self._enable()

    def _enable(self) -> None:
        for each in (self.first, self.last):
            each.setEnabled(self.season.isChecked())
        self.take_button.setEnabled(self.rows.currentRow() >= 0)

    def _lay_out(self) -> None:
        line = self.rows.fontMetrics().height() + 8
        self.rows.setFixedHeight(_LIST_ROWS * line)
        page = column(spacing=6)
        page.setContentsMargins(0, 0, 0, 0)
        page.addWidget(self.rows)
        where, when, buttons = QHBoxLayout(), QGridLayout(), QHBoxLayout()
        where.addWidget(self.plants, 1)
        where.addWidget(self.place, 1)
        when.addWidget(self.season, 0, 0)
        when.addWidget(self.first, 0, 1)
        when.addWidget(short_label(tr("to")), 1, 0, Qt.AlignmentFlag.AlignRight)
        when.addWidget(self.last, 1, 1)
        when.setColumnStretch(1, 1)
        buttons.addWidget(self.add_button)
        buttons.addWidget(self.take_button)
        buttons.addStretch(1)
        page.addLayout(where)
        page.addLayout(when)
        page.addLayout(buttons)
        page.addWidget(label(tr(SEASON_NOTE), tone="muted"))
        self.setLayout(page)
