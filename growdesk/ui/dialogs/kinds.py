"""Browse the kinds of orchid, and correct any field for a kind or for one plant.

A list with a find line on the left, the kind's fields on the right. A correction goes
out with its kind or plant; the dialog stays open and is shown what came of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDialogButtonBox,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.services.kind_views import matching
from growdesk.ui import kind_texts
from growdesk.ui.dialogs.frame import Framed
from growdesk.ui.dialogs.kind_editor import KindEditor
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.find_line import FindLine
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.kind_page import KindPage
from growdesk.ui.widgets.parts import clear, column, label, link

if TYPE_CHECKING:
    from growdesk.services.kind_values import KindEffect, KindProblem, KindView
    from growdesk.ui.dialogs.held import Held

KEY = Qt.ItemDataRole.UserRole
_LIST_PX = 240
_AROUND_PX = 44
_ABOVE_PX = 12
_KIND, _PLANT = "kind", "plant"

Slot = tuple[str, int | None, str]
"""Where a draft belongs: kind, plant or none, field."""


@dataclass(frozen=True, slots=True)
class Correction:
    """Cells to be kept for a kind, or for one plant of it, with a note."""

    kind_key: str
    plant_id: int | None
    cells: dict[str, str]
    note: str


@dataclass(frozen=True, slots=True)
class Restoring:
    """Fields that shall be as shipped again, or for a plant as its kind has them."""

    kind_key: str
    plant_id: int | None
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class KindsShown:
    """All that the browser shows: kinds, one plant's kind, and what is unused."""

    views: tuple[KindView, ...]
    plant: KindView | None = None
    problems: tuple[KindProblem, ...] = ()


class KindsDialog(Framed):
    """The browser of kinds."""

    saved = Signal(object)
    restore_wanted = Signal(object)
    effect_wanted = Signal(object)

    def __init__(self, parent: QWidget | None, shown: KindsShown) -> None:
        super().__init__(parent, "Kinds", "Keep the correction")
        self._shown = shown
        self._editor: KindEditor | None = None
        self._drafts: dict[Slot, Held] = {}
        self.find_line = FindLine()
        self.find_line.setPlaceholderText("Find: a genus, a name, Rlc.")
        self.find_line.setAccessibleName("Find a kind")
        self.list = QListWidget()
        self.list.setAccessibleName("Kinds")
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.count = label("", tone="muted")
        self.scope = QComboBox()
        self.scope.setAccessibleName("Corrections hold for")
        self.page = KindPage()
        self._problems = column(spacing=2)
        self._lay_out_columns()
        self._connect()
        self._fill_scope()
        self._fill_list("" if shown.plant is None else shown.plant.key)
        self.save_button.setEnabled(False)
        self.save_button.hide()

    # -- what the window asks -------------------------------------------------------

    def show_kinds(self, shown: KindsShown) -> None:
        """Show the kinds anew; the kind and the editor that were open stay so."""
        editing = self._editor
        kept = None if editing is None else (editing.name, editing.changes())
        self._drop_editor()
        self._shown = shown
        self._fill_problems()
        self._fill_list(self.key)
        if kept is not None and kept[1]:
            self._open(kept[0], kept[1])

    def kept_correction(self, title: str) -> None:
        """Close the editor of what was written, and say so."""
        editor = self._editor
        if editor is not None:
            self._drafts.pop(self._slot(editor.name), None)
            name = editor.name
            self._drop_editor()
            self._show_page()
            self._focus(f"correct-{name}")
        self.say(title)

    def show_effect(self, asked: Correction, effect: KindEffect) -> None:
        """Say what a correction would change, while it still stands in the editor."""
        editor = self._editor
        if editor is not None and editor.readable_cells() == asked.cells:
            editor.say_effect(kind_texts.effect_line(effect, self.view))

    def say(self, text: str) -> None:
        """Say what was done."""
        self.said.setText(text)

    @property
    def key(self) -> str:
        """Give the key of the kind shown."""
        row = self.list.currentRow()
        return "" if row < 0 else str(self.list.item(row).data(KEY))

    @property
    def view(self) -> KindView:
        """Give the kind shown, or the plant's own where the correction is for it."""
        plant = self._shown.plant
        if plant is not None and self._for_plant and plant.key == self.key:
            return plant
        return next(each for each in self._shown.views if each.key == self.key)

    # -- Framed ---------------------------------------------------------------------

    @override
    def draft(self) -> Correction:
        """Give the correction as entered."""
        editor = self._editor
        if editor is None:
            raise TypeError("no field is being corrected")
        return self._correction(editor, editor.to_keep())

    @override
    def send(self, draft: Any) -> None:
        if not draft.cells:
            self.complain("There is nothing to keep: nothing was changed.")
            return
        self.save_button.setEnabled(False)
        self.saved.emit(draft)

    @override
    def kept(self) -> dict[Slot, Held]:
        """Give what was typed and not kept, by kind, plant and field."""
        self._keep_draft()
        return dict(self._drafts)

    @override
    def take_draft(self, kept: dict[Slot, Held]) -> None:
        """Go on with a correction that was left."""
        self._drafts.update(kept)
        for key, plant_id, name in kept:
            plant = self._shown.plant
            if plant_id is None or (plant is not None and plant.plant_id == plant_id):
                self.scope.setCurrentIndex(0 if plant_id is None else 1)
                self._choose(key)
                self._open(name)
                return

    @override
    def throw_away(self) -> None:
        editor = self._editor
        if editor is not None:
            self._drafts.pop(self._slot(editor.name), None)
            editor.take(editor.opened_with)
        self.mark_draft(is_one=False)

    @override
    def tab_stops(self) -> list[QWidget]:
        inside = [each for each in super().tab_stops() if each is not self.save_button]
        return [self.find_line, self.list, self.scope, *inside]

    # -- choosing -------------------------------------------------------------------

    @property
    def _for_plant(self) -> bool:
        return bool(self.scope.currentData() == _PLANT)

    def _fill_scope(self) -> None:
        plant = self._shown.plant
        self.scope.addItem("Corrections hold for every plant of the kind", _KIND)
        if plant is not None:
            self.scope.addItem(f"Corrections hold for {plant.tag} only", _PLANT)

    def _fill_list(self, chosen: str) -> None:
        found = matching(self._shown.views, self.find_line.text())
        self.list.blockSignals(True)  # noqa: FBT003 -- Qt's own signature
        self.list.clear()
        for view in found:
            item = QListWidgetItem(kind_texts.row_title(view))
            item.setData(KEY, view.key)
            item.setSizeHint(self._room_for(item.text()))
            self.list.addItem(item)
        keys = [view.key for view in found]
        if found:
            self.list.setCurrentRow(keys.index(chosen) if chosen in keys else 0)
            self.list.scrollToItem(self.list.item(self.list.currentRow()))
        self.list.blockSignals(False)  # noqa: FBT003 -- Qt's own signature
        few = len(found) < len(self._shown.views)
        text = f"{len(found)} of {len(self._shown.views)} kinds" if few else ""
        self.count.setText(text if found else "No kind is called so.")
        self._show_page()

    def _room_for(self, text: str) -> QSize:
        """Give what a row needs so that all of its text is seen."""
        wide = _LIST_PX - _AROUND_PX
        box = QRect(0, 0, wide, 10_000)
        wrapped = Qt.TextFlag.TextWordWrap
        high = self.list.fontMetrics().boundingRect(box, wrapped, text).height()
        return QSize(wide, high + _ABOVE_PX)

    def _choose(self, key: str) -> None:
        for row in range(self.list.count()):
            if self.list.item(row).data(KEY) == key:
                self.list.setCurrentRow(row)
                self.list.scrollToItem(self.list.item(row))

    def _found(self) -> None:
        """Narrow the list; what is found first is shown."""
        self._leave_editor()
        self._fill_list("" if self.find_line.text().strip() else self.key)

    def _chosen(self) -> None:
        self._leave_editor()
        self.say("")
        self._show_page()
        self.area.verticalScrollBar().setValue(0)

    def _show_page(self) -> None:
        there = self.list.count() > 0
        self.page.setVisible(there)
        plant = self._shown.plant
        self.scope.setVisible(there and plant is not None and plant.key == self.key)
        if there:
            editor = self._editor
            editing = "" if editor is None else editor.name
            had = focus.name_within(self.page)
            self.page.show_kind(self.view, editing, editor)
            if had:
                self._focus(had)
        if self.isVisible():
            self._order_tabs()

    # -- correcting -----------------------------------------------------------------

    def _open(self, name: str, given: Held | None = None) -> None:
        """Open the editor of a field, with the draft it was left with."""
        self._leave_editor()
        self.complain("")
        self.say("")
        self._editor = editor = KindEditor(self.view, name)
        self.form, self.forms = editor.form, (editor.form,)
        draft = given if given is not None else self._drafts.get(self._slot(name))
        editor.left.connect(self._leave_it)
        editor.settled.connect(self._ask_effect)
        self.save_button.setParent(editor)
        editor.keep_row.insertWidget(0, self.save_button)
        self.save_button.show()
        self.save_button.setEnabled(True)
        if draft:
            editor.take(draft)
        self.mark_draft(is_one=bool(draft) and given is None)
        self._show_page()
        editor.show()
        editor.take_focus()

    def _leave_it(self) -> None:
        """Close the editor and let what was typed in it go."""
        editor = self._editor
        if editor is None:
            return
        self._drafts.pop(self._slot(editor.name), None)
        name = editor.name
        self._drop_editor()
        self._show_page()
        self._focus(f"correct-{name}")

    def _leave_editor(self) -> None:
        self._keep_draft()
        self._drop_editor()

    def _keep_draft(self) -> None:
        editor = self._editor
        if editor is None:
            return
        changes = editor.changes()
        slot = (editor.view.key, editor.view.plant_id, editor.name)
        if changes:
            self._drafts[slot] = changes
        else:
            self._drafts.pop(slot, None)

    def _drop_editor(self) -> None:
        editor, self._editor = self._editor, None
        if editor is None:
            return
        self.complain("")
        self.mark_draft(is_one=False)
        self.save_button.setEnabled(False)
        self.save_button.hide()
        self.save_button.setParent(self)
        self.form = Form()
        self.forms = ()
        editor.pause.stop()
        editor.setParent(None)
        editor.deleteLater()

    def _slot(self, name: str) -> Slot:
        return (self.view.key, self.view.plant_id, name)

    def _correction(self, editor: KindEditor, cells: dict[str, str]) -> Correction:
        view = editor.view
        return Correction(view.key, view.plant_id, cells, editor.note.text().strip())

    def _ask_effect(self) -> None:
        editor = self._editor
        cells = {} if editor is None else editor.readable_cells()
        if editor is not None and cells:
            self.effect_wanted.emit(self._correction(editor, cells))

    def _restore(self, name: str) -> None:
        view = self.view
        self._leave_editor()
        self.restore_wanted.emit(Restoring(view.key, view.plant_id, (name,)))

    def _focus(self, name: str) -> None:
        """Focus a link of the page; one just made is shown for that at once."""
        near = (name, name.replace("restore-", "correct-"))
        links = (self.page.findChild(QWidget, each) for each in near)
        found = next((each for each in links if each is not None), self.list)
        found.show()
        found.setFocus()

    # -- building -------------------------------------------------------------------

    def _connect(self) -> None:
        self.find_line.textChanged.connect(lambda _text: self._found())
        self.find_line.entered.connect(self.list.setFocus)
        self.find_line.left_empty.connect(self.list.setFocus)
        self.list.currentItemChanged.connect(lambda _now, _was: self._chosen())
        self.scope.currentIndexChanged.connect(lambda _row: self._chosen())
        self.page.correct_wanted.connect(self._open)
        self.page.restore_wanted.connect(self._restore)
        self.save_button.clicked.connect(self.try_save)

    def _lay_out_columns(self) -> None:
        left = QVBoxLayout()
        left.setSpacing(6)
        left.addWidget(self.find_line)
        left.addWidget(self.list, 1)
        left.addWidget(self.count)
        self.find_line.setFixedWidth(_LIST_PX)
        self.list.setFixedWidth(_LIST_PX)
        right = column(spacing=8)
        right.addWidget(self.scope)
        self.middle.removeWidget(self.area)
        right.addWidget(self.area, 1)
        self.said = label("", tone="muted")
        right.addWidget(self.said)
        self.middle.setSpacing(16)
        self.middle.addLayout(left)
        self.middle.addLayout(right, 1)
        self.body.addWidget(self.page)
        self.top.addLayout(self._problems)
        self._fill_problems()
        self.buttons.addButton(QDialogButtonBox.StandardButton.Close)
        self.most_high_px = 720
        self.resize(920, 720)

    def _fill_problems(self) -> None:
        clear(self._problems)
        for each in self._shown.problems:
            self._problems.addWidget(label(each.line, tone="wrong"))
            gone = Restoring(each.kind, each.plant_id, (each.field,))
            drop = link("Throw it away", partial(self.restore_wanted.emit, gone))
            drop.setAccessibleName(f"Throw away: {each.line}")
            self._problems.addWidget(drop, 0, Qt.AlignmentFlag.AlignLeft)
