"""Show the benches of a place in walking order, and the plants along one of them."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from growdesk.domain.speech import mark, tr
from growdesk.ui import sizes, words
from growdesk.ui.name_text import shown_name
from growdesk.ui.widgets.fitted_combo import FittedCombo
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.order_list import OrderList
from growdesk.ui.widgets.parts import button, label, short_label

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.bench_values import BenchView, PlaceBenches

ON_NONE = mark("On no bench")
_BENCHES_PX, _PLANTS_PX, _SIGNS = 104, 130, 16
_NOTE = mark(
    "A round goes along the benches from above, and along each as its plants stand "
    "here. Alt and the arrows move a row."
)


class BenchPage(QWidget):
    """The benches of one place; all that is asked for goes out with their keys."""

    bench_wanted = Signal(object)
    bench_unwanted = Signal(int)
    benches_ordered = Signal(object)
    plants_ordered = Signal(object, object)
    plants_put = Signal(object, object)

    def __init__(self) -> None:
        super().__init__()
        self._views: dict[int | None, BenchView] = {}
        self._place_id: int | None = None
        self.benches = OrderList(tr("Benches in walking order"))
        sizes.high(self.benches, _BENCHES_PX)
        self.plants = OrderList(tr("Plants along the bench"), many=True)
        sizes.least_high(self.plants, _PLANTS_PX)
        self.whose = label("", tone="head")
        self.new_button = button(tr("New bench…"), lambda: self.bench_wanted.emit(None))
        self.change_button = button(tr("Change…"), self.change, tr("Enter on a bench"))
        self.remove_button = button(
            tr("Remove"),
            self._remove,
            tr("Its plants stay in the place; Undo brings it back"),
        )
        self.to = FittedCombo(_SIGNS)
        self.to.setAccessibleName(tr("Put the selected plants on"))
        self.put_button = button(tr("Put there"), self._put)
        self.benches.currentItemChanged.connect(lambda *_items: self._show_plants(()))
        self.benches.ordered.connect(self.benches_ordered)
        self.plants.ordered.connect(
            lambda keys: self.plants_ordered.emit(self.benches.current, keys)
        )
        self._lay_out()
        self.clear()

    # -- what the dialog asks -------------------------------------------------------

    def show_benches(self, place: PlaceBenches, chosen: int | None = None) -> None:
        """Show the benches of a place; what was selected stays so, or ``chosen`` is."""
        same = self._place_id == place.place_id
        now = (self.benches.current,) if same else ()
        now = now if chosen is None else (chosen,)
        selected = self.plants.chosen if same else []
        self._place_id = place.place_id
        self._views = {view.bench_id: view for view in place.benches}
        rows = [(key, _bench_words(view)) for key, view in self._views.items()]
        self.benches.show_rows(rows, now)
        self._show_plants(selected)
        self.new_button.setEnabled(True)

    def clear(self) -> None:
        """Show no place."""
        self._views, self._place_id = {}, None
        self.benches.show_rows((), ())
        self._show_plants(())
        self.new_button.setEnabled(False)

    @property
    def count(self) -> int:
        """Give how many benches there are."""
        return sum(key is not None for key in self._views)

    def stops(self) -> list[QWidget]:
        """Give what the Tab key comes to, in reading order."""
        return [
            self.benches,
            self.new_button,
            self.change_button,
            self.remove_button,
            *self._bench_steps,
            self.plants,
            *self._plant_steps,
            self.to,
            self.put_button,
        ]

    def change(self) -> None:
        """Ask for the bench with the cursor to be changed, or for a new one."""
        self.bench_wanted.emit(self.view)

    @property
    def view(self) -> BenchView | None:
        """Give the bench with the cursor; none where that is no bench."""
        key = self.benches.current
        return None if key is None else self._views.get(key)

    # -- inside ---------------------------------------------------------------------

    def _show_plants(self, selected: tuple[int, ...] | list[int]) -> None:
        key = self.benches.current
        view = self._views.get(key)
        plants = () if view is None else view.plants
        rows = [
            (each.plant_id, f"{each.tag}  {shown_name(each.name)}".strip())
            for each in plants
        ]
        self.plants.show_rows(rows, selected)
        self.whose.setText("" if view is None else _whose(view))
        is_bench = key is not None
        for each in (self.change_button, self.remove_button, *self._bench_steps):
            each.setEnabled(is_bench)
        self._offer(key)
        for control in (self.to, self.put_button):
            control.setEnabled(bool(plants) and self.to.count() > 0)
        for step in self._plant_steps:
            step.setEnabled(len(plants) > 1)

    def _offer(self, key: int | None) -> None:
        """Offer the other benches to put plants on."""
        had, before = self.to.count() > 0, self.to.currentData()
        self.to.clear()
        for other, view in self._views.items():
            if other != key:
                self.to.addItem(view.draft.name or tr(ON_NONE), other)
        if had and self.to.count():
            choose(self.to, before)

    def _put(self) -> None:
        if self.plants.chosen:
            self.plants_put.emit(self.to.currentData(), self.plants.chosen)

    def _remove(self) -> None:
        key = self.benches.current
        if key is not None:
            self.bench_unwanted.emit(key)

    def _lay_out(self) -> None:
        self._bench_steps = steps(
            self.benches.move_by, tr("Move the bench up"), tr("Move the bench down")
        )
        self._plant_steps = steps(
            self.plants.move_by,
            tr("Move the selected plants up"),
            tr("Move the selected plants down"),
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 12, 0, 0)
        column.setSpacing(8)
        column.addWidget(label(tr(_NOTE), tone="muted"))
        column.addWidget(self.benches)
        row = QHBoxLayout()
        for each in (self.new_button, self.change_button, self.remove_button):
            row.addWidget(each)
        row.addStretch(1)
        for step in self._bench_steps:
            row.addWidget(step)
        column.addLayout(row)
        column.addWidget(self.whose)
        column.addWidget(self.plants, 1)
        row = QHBoxLayout()
        row.addWidget(short_label(tr("Put the selected on")))
        row.addWidget(self.to)
        row.addWidget(self.put_button)
        row.addStretch(1)
        for step in self._plant_steps:
            row.addWidget(step)
        column.addLayout(row)


def steps(move: Callable[[int], object], up: str, down: str) -> list[QWidget]:
    """Give the buttons that move what is selected up and down."""
    made: list[QWidget] = []
    for text, step, key, name in (
        (tr("Up"), -1, tr("Alt+Up"), up),
        (tr("Down"), 1, tr("Alt+Down"), down),
    ):
        each = button(text, partial(move, step), key)
        each.setAccessibleName(name)
        made.append(each)
    return made


def _bench_words(view: BenchView) -> str:
    if view.bench_id is None:
        return f"{tr(ON_NONE)} ({len(view.plants)})"
    said = (
        tr("{bench}, at the glass ({count})")
        if view.draft.at_glass
        else "{bench} ({count})"
    )
    return said.format(bench=view.draft.name, count=len(view.plants))


def _whose(view: BenchView) -> str:
    name = view.draft.name or tr(ON_NONE)
    return (
        f"{name}: {words.plants(len(view.plants)) if view.plants else tr('no plant')}"
    )
