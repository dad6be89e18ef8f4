"""Answer a quick mix, free of any plan: products, a strength, water, the answer.

The arithmetic is asked for by a signal and comes back; a slip is told beside its field,
and what was typed stays.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr
from growdesk.services.quick_values import QuickAsk
from growdesk.services.salts import salt_table
from growdesk.ui.shelf_words import water_words
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.fold import Fold
from growdesk.ui.widgets.form import Form, choose
from growdesk.ui.widgets.parts import button, label, link
from growdesk.ui.widgets.quick_answer import QuickAnswer
from growdesk.ui.widgets.quick_product import QuickProduct

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QLineEdit

    from growdesk.services.quick_values import QuickMix
    from growdesk.services.values import TinView, WaterView

_PAUSE_MS = 350
MOST_PRODUCTS = 6
_NO_WATER = mark("Any, by its EC")
_ALL_NEEDED = mark(
    "Give the product, the strength and the volume; the rest may stay empty."
)


class QuickCalculator(QWidget):
    """Fields for one product or several, with the answer under them."""

    asked = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.products: list[QuickProduct] = []
        self._picks: tuple[tuple[str, str], ...] = ()
        self._form = Form()
        self.target = self._line(
            "target", tr("St&rength"), tr("say 150 ppm N or 40 ppm Mg")
        )
        self.volume = self._line("volume", tr("Vo&lume"), tr("say 5 L or 1.5 gal"))
        self.water = FittedCombo()
        self.water.addItem(tr(_NO_WATER), None)
        self._form.add("water", tr("&Water", "mixing"), self.water)
        self.water_ec = self._line(
            "water_ec", tr("Water's E&C"), tr("if known, say 0.3 mS/cm")
        )
        self._rare = Form()
        self.fold = Fold(self, tr("Scale and stock"), tr("Your scale, and a stock too"))
        self.step = self._line(
            "step",
            tr("&Your scale"),
            tr("shows 0.1 g, say; else your tools"),
            self._rare,
        )
        self.ratio = self._line(
            "ratio", tr("Stoc&k"), "1 in 100 or 1 + 100", self._rare
        )
        self.answer = QuickAnswer()
        self._products = QVBoxLayout()
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE_MS)
        self._pause.timeout.connect(self.ask)
        self._asked: QuickAsk | None = None
        self._lay_out()
        self.add_product()
        self.water.currentIndexChanged.connect(self._water_chosen)

    @property
    def analysis(self) -> QLineEdit:
        """Give the first field to type in."""
        return self.products[0].analysis

    def typed(self) -> QuickAsk:
        """Give the question as typed."""
        water_id = self.water.currentData()
        return QuickAsk(
            lines=tuple(each.line() for each in self.products),
            target=self.target.text().strip(),
            volume=self.volume.text().strip(),
            water_id=water_id,
            water_ec="" if water_id is not None else self.water_ec.text().strip(),
            step=self.step.text().strip(),
            ratio=self.ratio.text().strip(),
        )

    def said(self) -> str:
        """Give all that the answer says."""
        return self.answer.said()

    def offer(self, tins: Sequence[TinView], waters: Sequence[WaterView]) -> None:
        """Offer what is on the shelf; what is chosen stays chosen."""
        shelf = ((f"tin:{each.tin_id}", each.draft.name) for each in tins)
        salts = ((f"salt:{each.formula}", each.name) for each in salt_table())
        self._picks = (*shelf, *salts)
        for product in self.products:
            product.offer(self._picks)
        chosen = self.water.currentData()
        self.water.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        while self.water.count() > 1:
            self.water.removeItem(1)
        for each in waters:
            self.water.addItem(water_words(each), each.water_id)
        choose(self.water, chosen)
        self.water.blockSignals(False)  # noqa: FBT003 -- Qt's own signature
        self._show_water_ec()

    def ask(self) -> None:
        """Ask for the answer where enough is typed and it is a new question."""
        typed = self.typed()
        if _is_whole(typed) and typed != self._asked:
            self._asked = typed
            self.asked.emit(typed)

    def show_answer(self, mix: QuickMix) -> None:
        """Show what to measure, what comes out, and how the question was understood."""
        self._clear_errors()
        self.answer.show_mix(mix)

    def show_error(self, error: Exception) -> None:
        """Tell a slip beside its field; what was typed stays."""
        self.answer.show_nothing()
        self._clear_errors()
        form, told = self._form_of(error)
        form.show_error(told)
        if form is self._rare and not self.fold.is_open:
            self.fold.turn()

    def _form_of(self, error: Exception) -> tuple[Form, Exception]:
        """Give the form that an error is told in, under that form's own field."""
        if not isinstance(error, InputError):
            return self._form, error
        if error.field in self._rare.editors:
            return self._rare, error
        stem, _, number = error.field.rpartition("_")
        field, at = (stem, int(number)) if number.isdigit() else (error.field, 1)
        product = self.products[min(at, len(self.products)) - 1]
        if field in product.form.editors:
            told = InputError(field, error.value, error.problem, error.hint)
            return product.form, told
        return self._form, error

    def add_product(self) -> None:
        """Add one more product, and go to it."""
        number = len(self.products) + 1
        product = QuickProduct(number, self._picks)
        product.changed.connect(self._pause.start)
        product.wanted_now.connect(self._ask_anew)
        product.taken_away.connect(lambda: self._take_away(product))
        self.products.append(product)
        self._products.addWidget(product)
        self._number()
        if number > 1:
            product.pick.setFocus(Qt.FocusReason.OtherFocusReason)

    def _take_away(self, product: QuickProduct) -> None:
        self.products.remove(product)
        self._products.removeWidget(product)
        product.hide()
        product.deleteLater()
        self._number()
        self.products[-1].amount.setFocus(Qt.FocusReason.OtherFocusReason)
        self._pause.start()

    def _number(self) -> None:
        alone = len(self.products) == 1
        for number, each in enumerate(self.products, 1):
            each.number(number, alone=alone)
        self._more.setVisible(len(self.products) < MOST_PRODUCTS)
        forms = self._forms()
        wide = max(each.labels_px() for each in forms)
        for form in forms:
            form.line_up(wide)

    def _lay_out(self) -> None:
        self._form.end()
        self._rare.end()
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 14, 12, 14)
        column.setSpacing(8)
        column.addWidget(
            label(tr("A mix for any water, free of today's plan."), tone="muted")
        )
        self._products.setSpacing(8)
        column.addLayout(self._products)
        self._more = link(tr("Add a product"), self.add_product)
        column.addWidget(self._more, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self._form)
        self.fold.rows.addWidget(self._rare)
        column.addWidget(self.fold.button, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.fold.body)
        column.addWidget(button(tr("Work it out"), self._ask_anew))
        column.addWidget(self.answer)
        column.addWidget(
            label(
                tr(
                    "Here ppm means milligrams per litre of solution. "
                    "A gallon is the US one; write imp gal for the "
                    "other."
                ),
                tone="muted",
            )
        )
        column.addStretch(1)

    def _line(
        self, field: str, title: str, hint: str, form: Form | None = None
    ) -> QLineEdit:
        edit = (form or self._form).line(field, title, hint)
        edit.textChanged.connect(lambda _text: self._pause.start())
        edit.returnPressed.connect(self._ask_anew)
        return edit

    def _water_chosen(self, _row: int) -> None:
        self._show_water_ec()
        self._pause.start()

    def _show_water_ec(self) -> None:
        by_hand = self.water.currentData() is None
        self._form.show_field("water_ec", shown=by_hand)

    def _clear_errors(self) -> None:
        for form in self._forms():
            form.clear_errors()

    def _forms(self) -> tuple[Form, ...]:
        return (self._form, self._rare, *(each.form for each in self.products))

    def _ask_anew(self) -> None:
        self._asked = None
        if not _is_whole(self.typed()):
            self._form.say(tr(_ALL_NEEDED))
            return
        self._clear_errors()
        self.ask()


def _is_whole(typed: QuickAsk) -> bool:
    """Tell whether enough is typed to be answered, or for a slip to be named."""
    named = all(line.pick or line.analysis for line in typed.lines)
    said = typed.target or any(line.amount for line in typed.lines)
    return bool(named and said and typed.volume)
