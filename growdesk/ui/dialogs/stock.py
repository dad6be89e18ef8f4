"""Make and keep bottles of stock solution, with the answer while one types.

What a bottle comes to is asked for by a signal and comes back, since reading units and
weighing what falls out takes longer than a frame.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QLineEdit
from typing_extensions import override

from growdesk.domain import stock_words
from growdesk.domain.day_words import figures
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.speech import mark, tr, trn
from growdesk.services.stock_values import AmountOf
from growdesk.ui import sizes, words
from growdesk.ui.dialogs.rows import RowsDialog
from growdesk.ui.shelf_words import water_words
from growdesk.ui.stock_typed import (
    AMOUNTS,
    TYPED,
    is_enough,
    meaning_text,
    meanings,
    places_offered,
    wanted_of,
)
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import button
from growdesk.ui.widgets.stock_answer import StockAnswerBox
from growdesk.ui.widgets.stock_parts import StockParts

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QVBoxLayout, QWidget

    from growdesk.services.jug_values import BottleToMake
    from growdesk.services.stock_values import (
        StockAnswer,
        StockBench,
        StockView,
        StockWanted,
    )
    from growdesk.ui.dialogs.held import Held

_PAUSE_MS = 350
_LIST_PX = 240
_TITLE = mark("Stock bottles")
_BEGUN = mark(
    "A bottle you began stands here. Save it or throw it away, then press again."
)
_OF_FEED = ("recipe", "strength_ppm_n", "ratio", "meaning", "feed_l_per_week")


class StocksDialog(RowsDialog):
    """All stock bottles, one of them in the form, with what it comes to."""

    asked = Signal(object)
    recipe_wanted = Signal(int, str)
    label_wanted = Signal(object)
    label_file_wanted = Signal(object)

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent, tr(_TITLE), tr("New bottle"))
        self._views: dict[int, StockView] = {}
        self._water_id: int | None = None
        self._asked: Held = {}
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE_MS)
        self._pause.timeout.connect(self.ask)
        self._make_form()
        self.answer = StockAnswerBox()
        self.middle.addWidget(self.answer)
        sizes.wide(self.list, _LIST_PX)
        self.remove_button.setText(tr("&Emptied"))
        self.remove_button.setToolTip(tr("The bottle is empty; Undo brings it back"))
        for field, editor in self.form.editors.items():
            if isinstance(editor, QLineEdit) and field not in {"name", "note"}:
                editor.textChanged.connect(lambda _text: self._pause.start())
            elif isinstance(editor, QComboBox):
                editor.currentIndexChanged.connect(lambda _row: self._pause.start())
        self.parts.changed.connect(self._pause.start)
        for combo in (self.amount_of, self.kept_in):
            combo.currentIndexChanged.connect(lambda _row: self._show_fields())
        self.ratio.textChanged.connect(lambda _text: self._tell_meanings())
        self.meaning.currentIndexChanged.connect(lambda _row: self._tell_meanings())
        self.recipe.activated.connect(lambda _row: self._want_recipe())
        self.strength.editingFinished.connect(self._want_recipe)
        self._show_fields()

    # -- what the window asks -------------------------------------------------------

    def show_bench(self, bench: StockBench, chosen: int | None) -> None:
        """Show the bottles there are, and what new ones are made of."""
        self._views = {view.stock_id: view for view in bench.bottles}
        self._water_id = bench.water_id
        on_shelf = {view.tin_id for view in bench.tins}
        gone = {
            product.key: product.name
            for view in bench.bottles
            for product, _ in view.stock.weighed
            if product.key is not None and product.key not in on_shelf
        }
        self.parts.show_tins(bench.tins, tuple(gone.items()))
        self.water.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        self.water.clear()
        self.water.addItem(tr("not told"), None)
        for water in bench.waters:
            self.water.addItem(water_words(water), water.water_id)
        self.water.blockSignals(False)  # noqa: FBT003 -- ditto
        self._offer_recipes(bench)
        self._tell_rules(bench)
        self.all_labels.setVisible(len(self._views) > 1)
        rows = [(key, _row(view)) for key, view in self._views.items()]
        self.show_rows(rows, chosen)

    def ask(self) -> None:
        """Ask what the bottle comes to, where enough is typed and it is new."""
        held = self.held()
        if not is_enough(held):
            self.answer.clear()
            self._asked = {}
        elif held != self._asked:
            self._asked = held
            self.asked.emit(held)

    def show_answer(self, held: Held, answer: StockAnswer) -> None:
        """Show the answer to what was asked last."""
        if held == self._asked:
            self.form.clear_errors()
            self.answer.show_answer(answer)

    def show_recipe(self, lines: Sequence[tuple[int, float]]) -> None:
        """Put the products of a recipe in, with what a litre of its feed takes."""
        self.form.clear_errors()
        self.parts.hold([(key, words.number(amount, 4)) for key, amount in lines])

    def propose(self, wanted: BottleToMake, earlier: Held) -> Held:
        """Put a proposed bottle in; one that was begun by hand is left as it is.

        ``earlier`` is what an earlier proposal put in; the newest is given.
        """
        begun = self.parts.held() or self.volume.text().strip()
        if begun and self.held() != earlier:
            self.say(tr(_BEGUN))
            return earlier
        amount = words.number(wanted.amount, 3)
        choose(self.amount_of, AmountOf.BOTTLE)
        self.parts.hold([(wanted.tin_id, amount)])
        self.volume.setText(stock_words.bottle_text(wanted.volume_l))
        self.save_button.setFocus()
        return self.held()

    def show_slip(self, held: Held, error: Exception) -> None:
        """Tell a slip beside its field; the focus stays where one types."""
        if held != self._asked:
            return
        self.answer.clear()
        focused = self.focusWidget()
        self.refused(error)
        if focused is not None:
            focused.setFocus()

    # -- RowsDialog -----------------------------------------------------------------

    @override
    def draft(self) -> StockWanted:
        """Give the bottle as entered."""
        return wanted_of(self.held())

    @override
    def show_key(self, key: int | None) -> None:
        view = self._views.get(key) if key is not None else None
        self.answer.clear()
        self._asked = {}
        self.label_button.setEnabled(view is not None)
        self.file_button.setEnabled(view is not None)
        if view is None:
            self._empty()
            self.parts.products[0].setFocus()
            return
        self.name.setText(view.name)
        self.parts.hold(_lines(view))
        choose(self.amount_of, AmountOf.BOTTLE)
        self.volume.setText(stock_words.bottle_text(view.stock.volume_l))
        choose(self.water, view.water_id)
        self.made_on.setText(figures(view.made_on))
        self.keep_by.setText("" if view.keep_by is None else figures(view.keep_by))
        self.note.setText(view.note)
        choose(self.recipe, None)
        choose(self.kept_in, None)
        for field in (self.strength, self.ratio, self.per_week, self.coolest):
            field.clear()

    @override
    def put_page(self, page: QVBoxLayout) -> None:
        """Put the answer between the form and its buttons, and the labels below."""
        self.label_button = button(tr("&Print the label…"), self._print)
        self.file_button = button(tr("Label as P&DF…"), self._save_label)
        self.all_labels = QCheckBox(tr("with those of a&ll bottles"))
        row = QHBoxLayout()
        row.addWidget(self.label_button)
        row.addWidget(self.file_button)
        row.addWidget(self.all_labels)
        row.addStretch(1)
        page.addLayout(row)
        self.body.addLayout(page)

    @override
    def tab_stops(self) -> list[QWidget]:
        form: list[QWidget] = []
        for editor in self.form.editors.values():
            form += self.parts.stops() if editor is self.parts else [editor]
        return [
            self.list,
            self.new_button,
            *form,
            self.save_button,
            self.remove_button,
            self.label_button,
            self.file_button,
            self.all_labels,
        ]

    # -- inside ---------------------------------------------------------------------

    def _make_form(self) -> None:
        form = self.form
        self.parts = StockParts()
        form.add("parts", tr("&Holds"), self.parts)
        self.amount_of = form.combo(
            "amount_of", tr("&Amounts are"), tuple(AMOUNTS.items())
        )
        self.recipe = form.combo("recipe", tr("&From a recipe"), (), 26)
        self.strength = form.line(
            "strength_ppm_n", tr("at &strength"), tr("ppm N, say 100")
        )
        self.ratio = form.line(
            "ratio", tr("D&iluted 1:R"), tr("as on the injector, say 1:100")
        )
        self.meaning = form.combo("meaning", tr("R &counts"), meanings())
        self._both = form.note("")
        self.per_week = form.line(
            "feed_l_per_week", tr("Feed a wee&k"), tr("if you like, say 5 L")
        )
        self.volume = form.line(
            "volume_l", tr("&Volume"), tr("filled up to, say 500 mL")
        )
        self.water = form.combo("water_id", tr("&Water"), (), 26)
        self.kept_in = form.combo("kept_in", tr("Kep&t in"), (), 26)
        self.coolest = form.line(
            "coolest_c",
            tr("Coolest the&re"),
            tr("say {warm}").format(warm=temperature_text(12)),
        )
        self.name = form.line("name", tr("&Name"), tr("by what it holds"))
        self.made_on = form.line("made_on", tr("&Made on"), tr("today"))
        self.keep_by = form.line("keep_by", tr("&Use by"))
        self.note = form.line("note", tr("N&ote"))
        form.end()

    def _empty(self) -> None:
        choose(self.recipe, None)
        choose(self.kept_in, None)
        for line in (
            self.name,
            self.strength,
            self.ratio,
            self.per_week,
            self.volume,
            self.coolest,
            self.made_on,
            self.keep_by,
            self.note,
        ):
            line.clear()
        self.parts.hold(())
        choose(self.amount_of, AmountOf.STOCK)
        choose(self.meaning, None)
        choose(self.water, self._water_id)

    def _show_fields(self) -> None:
        """Show the ratio where amounts are told of the feed."""
        of_feed = self.amount_of.currentData() == AmountOf.FEED
        for field in _OF_FEED:
            self.form.show_field(field, shown=of_feed)
        is_typed = self.kept_in.currentData() == TYPED
        self.form.show_field("coolest_c", shown=is_typed)
        self._tell_meanings()

    def _tell_meanings(self) -> None:
        """Give what the ratio typed means in numbers: both ways until one is chosen."""
        text = meaning_text(self.ratio.text(), self.meaning.currentData())
        self._both.setText(text)
        self._both.setVisible(
            bool(text) and self.amount_of.currentData() == AmountOf.FEED
        )

    def _offer_recipes(self, bench: StockBench) -> None:
        chosen = self.recipe.currentData()
        self.recipe.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        self.recipe.clear()
        self.recipe.addItem(tr("none: amounts as typed above"), None)
        for recipe in bench.recipes:
            self.recipe.addItem(recipe.name, recipe.key)
        choose(self.recipe, chosen)
        self.recipe.blockSignals(False)  # noqa: FBT003 -- ditto

    def _want_recipe(self) -> None:
        """Ask for the amounts of a recipe once it and a strength are given."""
        key, text = self.recipe.currentData(), self.strength.text().strip()
        if key is not None and text:
            self.recipe_wanted.emit(key, text)

    def _tell_rules(self, bench: StockBench) -> None:
        chosen = self.kept_in.currentData()
        self.kept_in.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        self.kept_in.clear()
        for value, text in places_offered(bench):
            self.kept_in.addItem(text, value)
        choose(self.kept_in, chosen)
        self.kept_in.blockSignals(False)  # noqa: FBT003 -- ditto
        self.keep_by.setPlaceholderText(
            trn(
                "{months} month on: common practice, no source",
                "{months} months on: common practice, no source",
                bench.keep_months,
            ).format(months=bench.keep_months)
        )

    def _print(self) -> None:
        self.label_wanted.emit(self._label_keys())

    def _save_label(self) -> None:
        self.label_file_wanted.emit(self._label_keys())

    def _label_keys(self) -> tuple[int, ...]:
        """Give the bottles whose labels are wanted."""
        if self.all_labels.isChecked():
            return tuple(self._views)
        return () if self.key is None else (self.key,)


def _row(view: StockView) -> str:
    """Give a bottle as a line of the list."""
    left = stock_words.bottle_text(view.left_ml / 1000)
    if view.is_past:
        return tr("{name}, {left}, past its day").format(name=view.name, left=left)
    return f"{view.name}, {left}"


def _lines(view: StockView) -> tuple[tuple[int | None, str], ...]:
    return tuple(
        (product.key, words.number(product.volume_ml(grams) or grams, 3))
        for product, grams in view.stock.weighed
    )
