"""Show what a litre of a recipe holds while it is typed: element by element."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QLabel,
    QLineEdit,
    QSizePolicy,
    QTableWidgetItem,
    QWidget,
)

from growdesk.domain.errors import InputError
from growdesk.domain.speech import Lines, mark, plain, tr
from growdesk.services.recipes import STRENGTH
from growdesk.ui import recipe_texts, sizes, typed
from growdesk.ui.field_words import plain_line
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.form import beside, choose
from growdesk.ui.widgets.parts import button, clear, column, label
from growdesk.ui.widgets.told_table import ToldTable

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.recipe_values import RecipeLook

COLUMNS = Lines(
    "mg/L", "wanted", "comes to", "water", "off", "off, %", context="in a litre"
)
_STRENGTH = "100"
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_WIDE_PX = 380
_NOT_YET = mark("Choose the tins, and it shows here what a litre holds.")


class RecipeLookPanel(QWidget):
    """A litre of the recipe in the form, at a strength and with a water to look at."""

    changed = Signal()
    chart_wanted = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._look: RecipeLook | None = None
        self.strength = QLineEdit(_STRENGTH)
        self.water = FittedCombo(20)
        self.oxides = QCheckBox(tr("as P2O5, K2O, CaO, MgO"))
        self.oxides.setToolTip(tr("Tell the table in the oxides that labels print"))
        self.table = ToldTable(
            tr("What a litre holds"),
            COLUMNS[:],
            wide=(0,),
            numbers=range(1, len(COLUMNS)),
        )
        self.table.only_tell()
        for number, name in enumerate(COLUMNS[1:], 1):
            head = QTableWidgetItem(name)
            head.setTextAlignment(_RIGHT)
            self.table.setHorizontalHeaderItem(number, head)
        self.said = label(tr(_NOT_YET), tone="muted")
        self.doses, self.forms = label(), label()
        self.notes = column(spacing=6)
        self.advice = label(tone="muted")
        self.chart_button = button(tr("As a &chart…"), self._want_chart)
        self._lay_out()
        self.offer(())
        self.strength.textChanged.connect(lambda _text: self.changed.emit())
        self.water.currentIndexChanged.connect(lambda _row: self.changed.emit())
        self.oxides.toggled.connect(lambda _on: self._fill())
        self._fill()

    def offer(self, waters: Sequence[tuple[int, str]]) -> None:
        """Offer waters to look at; the first is the one the recipe is mixed with."""
        chosen = self.water.currentData()
        self.water.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        self.water.clear()
        self.water.addItem(tr("the recipe's water"), None)
        for key, text in waters:
            self.water.addItem(text, key)
        choose(self.water, chosen)
        self.water.blockSignals(False)  # noqa: FBT003 -- Qt's own signature

    def asked(self) -> tuple[float, int | None]:
        """Give strength and water to look at; ``InputError`` on a slip."""
        found = typed.number(self.strength.text(), "strength", _STRENGTH)
        if found is None or not STRENGTH.holds(found):
            hint = tr("Give {low} to {high} ppm N.").format(
                low=plain(STRENGTH.low), high=plain(STRENGTH.high)
            )
            text = self.strength.text()
            raise InputError("strength", text, tr("is no strength to look at"), hint)
        return found, self.water.currentData()

    def show_look(self, look: RecipeLook) -> None:
        """Show what a litre holds."""
        self._look = look
        self._say("")
        self._fill()

    def show_problem(self, error: Exception) -> None:
        """Say why nothing can be shown."""
        self._look = None
        is_input = isinstance(error, InputError)
        self._say(beside(error) if is_input else plain_line(error))
        self._fill()

    def show_nothing(self) -> None:
        """Wait for tins to be chosen."""
        self._look = None
        self._say(tr(_NOT_YET))
        self._fill()

    def stops(self) -> list[QWidget]:
        """Give what the Tab key comes to."""
        return [
            self.strength,
            self.water,
            self.chart_button,
            self.oxides,
            self.table,
        ]

    def _want_chart(self) -> None:
        if self._look is not None:
            self.chart_wanted.emit(self._look)

    def _say(self, text: str) -> None:
        self.said.setText(text)

    def _fill(self) -> None:
        look = self._look
        rows = () if look is None else look.rows
        as_oxides = self.oxides.isChecked()
        is_solved = any(row.wanted_mg_per_l is not None for row in rows)
        for column_of_wanted in (1, 4, 5):
            self.table.setColumnHidden(column_of_wanted, not is_solved)
        self.table.show_rows(
            [recipe_texts.cells(row, oxides=as_oxides) for row in rows]
        )
        self._fit_table(len(rows))
        lines = {
            self.doses: "" if look is None else recipe_texts.doses_line(look),
            self.forms: "" if look is None else recipe_texts.forms_line(look),
            self.advice: "" if look is None else look.advice,
        }
        for each, text in lines.items():
            each.setText(text)
            each.setVisible(bool(text))
        clear(self.notes)
        for note in () if look is None else look.notes:
            self.notes.addWidget(label(note))
        self.said.setVisible(bool(self.said.text()))
        self.table.setVisible(look is not None)
        self.chart_button.setEnabled(look is not None)

    def _fit_table(self, rows: int) -> None:
        """Let the table be as high as its rows, so that only the page scrolls."""
        header = self.table.horizontalHeader().sizeHint().height()
        row = self.table.verticalHeader().defaultSectionSize()
        self.table.setFixedHeight(header + rows * row + 4)

    def _lay_out(self) -> None:
        self.table.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        sizes.least_wide(self.table, _WIDE_PX)
        sizes.most_wide(self.strength, 90)
        head = QGridLayout()
        head.setHorizontalSpacing(12)
        for row, (title, editor) in enumerate(
            ((tr("&Strength, ppm N"), self.strength), (tr("Mixed &with"), self.water))
        ):
            name = QLabel(title)
            name.setBuddy(editor)
            editor.setAccessibleName(title.replace("&", ""))
            head.addWidget(name, row, 0)
            head.addWidget(editor, row, 1)
        head.addWidget(self.chart_button, 2, 0)
        head.addWidget(self.oxides, 2, 1)
        head.setColumnStretch(1, 1)
        page = column(spacing=10)
        page.addLayout(head)
        for each in (self.said, self.table, self.doses, self.forms):
            page.addWidget(each)
        page.addLayout(self.notes)
        page.addWidget(self.advice)
        page.addStretch(1)
        self.setLayout(page)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
