"""Browse the kinds of orchid, and correct any field for a kind or for one plant.

A list with a find line on the left, the kind's fields on the right. A correction goes
out with its kind or plant; the dialog stays open and is shown what came of it.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDialogButtonBox,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import kind_texts, sizes
from growdesk.ui.dialogs.frame import Framed
from growdesk.ui.dialogs.kind_asks import Correction, Restoring
from growdesk.ui.dialogs.kind_editor import KindEditor
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.form import Form
from growdesk.ui.widgets.kind_list import KindList
from growdesk.ui.widgets.kind_page import KindPage
from growdesk.ui.widgets.parts import clear, column, label, link

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

    from growdesk.services.kind_values import KindEffect, KindView
    from growdesk.ui.dialogs.held import Held
    from growdesk.ui.dialogs.kind_asks import KindsShown, Slot

_KIND, _PLANT = "kind", "plant"


class KindsDialog(Framed):
    """The browser of kinds."""

    saved = Signal(object)
    restore_wanted = Signal(object)
    effect_wanted = Signal(object)

    def __init__(self, parent: QWidget | None, shown: KindsShown) -> None:
        super().__init__(parent, tr("Kinds"), tr("Save"))
        self._shown = shown
        self._editor: KindEditor | None = None
        self._drafts: dict[Slot, Held] = {}
        self.kinds = KindList()
        self.scope = QComboBox()
        self.scope.setAccessibleName(tr("Corrections hold for"))
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

    def kept_correction(self, asked: Correction, title: str) -> None:
        """Close the editor of what was written, where it is still open, and say so."""
        editor = self._editor
        for name in asked.cells:
            self._drafts.pop((asked.kind_key, asked.plant_id, name), None)
        if editor is not None and _is_of(editor, asked):
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
        return self.kinds.key

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
            self.complain(tr("There is nothing to save: nothing was changed."))
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
                self.kinds.choose(key)
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
        return [self.kinds.find_line, self.kinds.rows, self.scope, *inside]

    # -- choosing -------------------------------------------------------------------

    @property
    def _for_plant(self) -> bool:
        return bool(self.scope.currentData() == _PLANT)

    def _fill_scope(self) -> None:
        plant = self._shown.plant
        self.scope.addItem(tr("Corrections hold for every plant of the kind"), _KIND)
        if plant is not None:
            self.scope.addItem(
                tr("Corrections hold for {tag} only").format(tag=plant.tag), _PLANT
            )
            self.scope.setCurrentIndex(int(self._shown.for_plant))

    def _fill_list(self, chosen: str) -> None:
        self.kinds.show_kinds(self._shown.views, chosen)
        self._show_page()

    def _found(self) -> None:
        """Narrow the list; what is found first is shown."""
        self._leave_editor()
        self._fill_list("" if self.kinds.is_narrowed else self.key)

    def _chosen(self) -> None:
        self._leave_editor()
        self.say("")
        self._show_page()
        self.area.verticalScrollBar().setValue(0)

    def _show_page(self) -> None:
        there = bool(self.key)
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

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Escape close an open editor first; what was typed in it is kept."""
        if event.key() == Qt.Key.Key_Escape and self._editor is not None:
            self._close_editor()
        else:
            super().keyPressEvent(event)

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
        self.save_button.setText(kind_texts.save(editor.view))
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
        editor.take(editor.opened_with)
        self._close_editor()

    def _close_editor(self) -> None:
        editor = self._editor
        if editor is None:
            return
        is_draft = bool(editor.changes())
        self._leave_editor()
        self._show_page()
        self._focus(f"correct-{editor.name}")
        self.say(tr("What you typed waits there; nothing of it is saved.") * is_draft)

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
        found = next((each for each in links if each is not None), self.kinds.rows)
        found.show()
        found.setFocus()

    # -- building -------------------------------------------------------------------

    def _connect(self) -> None:
        self.kinds.narrowed.connect(self._found)
        self.kinds.chosen.connect(self._chosen)
        self.scope.currentIndexChanged.connect(lambda _row: self._chosen())
        self.page.correct_wanted.connect(self._open)
        self.page.restore_wanted.connect(self._restore)
        self.save_button.clicked.connect(self.try_save)

    def _lay_out_columns(self) -> None:
        right = column(spacing=8)
        right.addWidget(self.scope)
        self.middle.removeWidget(self.area)
        right.addWidget(self.area, 1)
        self.said = label("", tone="muted")
        right.addWidget(self.said)
        self.middle.setSpacing(16)
        self.middle.addWidget(self.kinds)
        self.middle.addLayout(right, 1)
        self.body.addWidget(self.page)
        self.top.addLayout(self._problems)
        self._fill_problems()
        self.buttons.addButton(QDialogButtonBox.StandardButton.Close)
        self.most_high_px = 720
        self.resize(sizes.area(920, 720))

    def _fill_problems(self) -> None:
        clear(self._problems)
        for each in self._shown.problems:
            self._problems.addWidget(label(each.line, tone="wrong"))
            gone = Restoring(each.kind, each.plant_id, (each.field,))
            drop = link(tr("Remove"), partial(self.restore_wanted.emit, gone))
            drop.setAccessibleName(tr("Remove: {line}").format(line=each.line))
            self._problems.addWidget(drop, 0, Qt.AlignmentFlag.AlignLeft)


def _is_of(editor: KindEditor, asked: Correction) -> bool:
    """Tell whether an editor is the one that a correction came from."""
    view = editor.view
    same = (view.key, view.plant_id) == (asked.kind_key, asked.plant_id)
    return same and asked.cells.keys() <= set(editor.names)
