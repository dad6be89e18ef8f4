"""Keep the recipes: what each is made of, what it makes, and where it holds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QDialogButtonBox,
    QHBoxLayout,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.phrases import listed
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.domain.wanted_text import parse_wanted, wanted_text
from growdesk.services.recipe_values import RecipeBoard, RecipeDraft, RecipeView
from growdesk.ui import sizes
from growdesk.ui.dialogs.rows import RowsDialog
from growdesk.ui.shelf_words import water_words
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.parts import button, label, scrolled
from growdesk.ui.widgets.recipe_look import RecipeLookPanel
from growdesk.ui.widgets.recipe_parts import PartsEditor
from growdesk.ui.widgets.recipe_uses import UsesEditor

if TYPE_CHECKING:
    from growdesk.services.recipe_values import RecipeLook

FIXED, SOLVED = "fixed", "solved"
_HOW = Phrases({FIXED: "in parts I give", SOLVED: "solved for what is wanted"})
_ELEMENTS, _OXIDES = "elements", "oxides"
_TOLD = Phrases({_ELEMENTS: "as elements", _OXIDES: "as P2O5, K2O, CaO, MgO"})
_WANTED_NOTE = mark(
    "Only the proportions count. Write x where an element does not matter. Nitrogen is "
    "met exactly, the rest as nearly as these tins can."
)
_NO_NAME = mark("This recipe")
_LIST_PX, _MOST_LIST_PX = 150, 210
_EMPTY = RecipeBoard((), (), (), (), ())


class RecipesDialog(RowsDialog):
    """All recipes, one of them in the form, with a litre of it beside."""

    look_wanted = Signal(object, float, object)
    copy_wanted = Signal(int)
    chart_wanted = Signal(str, object)

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent, tr("Recipes"), tr("New recipe"))
        self._views: dict[int, RecipeView] = {}
        self._board = _EMPTY
        self._is_showing = False
        sizes.least_wide(self.list, _LIST_PX)
        sizes.most_wide(self.list, _MOST_LIST_PX)
        self.name = self.form.line("name", tr("&Name"), tr("say winter feed"))
        self.how = self.form.combo("how", tr("&Made"), tuple(_HOW.items()))
        self.parts = PartsEditor()
        self.form.add("parts", tr("&Of"), self.parts)
        self.wanted = self.form.line(
            "wanted", tr("N:P:&K:Ca:Mg"), tr("say 3:1:2:1:0.5")
        )
        self.form.note(tr(_WANTED_NOTE))
        self.told = self.form.combo("told", tr("To&ld"), tuple(_TOLD.items()))
        self.water = self.form.combo(
            "water", tr("Wa&ter"), [(None, tr("the one in use"))], 22
        )
        self.in_use = QCheckBox(tr("wherever nothing else is said"))
        self.form.add("in_use", tr("In us&e"), self.in_use)
        self.uses = UsesEditor()
        self.form.add("uses", tr("&Holds for"), self.uses)
        self.note = self.form.line("note", tr("Note"))
        self.lacking = label("", tone="wrong")
        self.form.wide(self.lacking)
        self.form.end()
        self._foot.addWidget(self.message, 1)
        self.look = RecipeLookPanel()
        self._look_area = scrolled(self.look, tr("What a litre holds"))
        self.middle.addWidget(self._look_area, 1)
        self.copy_button = button(
            tr("Cop&y"), self._copy, tr("A new recipe like this one")
        )
        self.buttons.addButton(self.copy_button, QDialogButtonBox.ButtonRole.ActionRole)
        self._connect()
        self.resize(sizes.area(1090, 640))

    def show_board(self, board: RecipeBoard, chosen: int | None) -> None:
        """Show the recipes there are, with what they can be made of."""
        self._board = board
        self._views = {view.recipe_id: view for view in board.recipes}
        waters = [(view.water_id, water_words(view)) for view in board.waters]
        self.water.clear()
        for key, text in [(None, tr("the one in use")), *waters]:
            self.water.addItem(text, key)
        self.look.offer(waters)
        self.uses.offer(board.plants, board.places)
        self.show_rows([(v.recipe_id, _row(v)) for v in board.recipes], chosen)

    def show_look(self, look: RecipeLook) -> None:
        """Show what a litre of the recipe in the form holds."""
        self.look.show_look(look)

    def look_refused(self, error: Exception) -> None:
        """Say why a litre of it cannot be shown."""
        self.look.show_problem(error)

    @override
    def draft(self) -> RecipeDraft:
        """Give the recipe as entered."""
        return replace(
            self._made_of(),
            name=self.name.text().strip(),
            in_use=self.in_use.isChecked(),
            note=self.note.text().strip(),
            uses=self.uses.uses(),
        )

    @override
    def show_key(self, key: int | None) -> None:
        view = self._views.get(key) if key is not None else None
        draft = view.draft if view is not None else RecipeDraft("")
        gone = () if view is None else view.lacking
        self._is_showing = True
        self.parts.offer(_offered(self._board, view))
        self.name.setText(draft.name)
        choose(self.how, FIXED if draft.wanted is None else SOLVED)
        self.parts.put(draft.parts)
        self.wanted.setText("" if draft.wanted is None else wanted_text(draft.wanted))
        choose(self.told, _ELEMENTS)
        choose(self.water, draft.water_id)
        self.in_use.setChecked(draft.in_use)
        self.uses.put(draft.uses)
        self.note.setText(draft.note)
        self.lacking.setText(_lacking(gone))
        self.lacking.setVisible(bool(gone))
        self.copy_button.setEnabled(view is not None)
        self._is_showing = False
        self._how_chosen()
        if view is None:
            self.name.setFocus()

    @override
    def put_page(self, page: QVBoxLayout) -> None:
        """Put the form where it scrolls, and its buttons under it, always in sight."""
        super().put_page(page)
        self._foot = QHBoxLayout()
        self._foot.addWidget(self.save_button)
        self._foot.addWidget(self.remove_button)
        self.below.addLayout(self._foot)

    @override
    def enter(self, focused: QWidget | None) -> None:
        """Add where it holds from that line's own field, else do as any dialog."""
        if focused is self.uses.plants and self.uses.plants.text().strip():
            self.uses.add()
        elif isinstance(focused, QLineEdit) and focused is self.look.strength:
            self.look_anew()
        else:
            super().enter(focused)

    @override
    def tab_stops(self) -> list[QWidget]:
        form = self.form.editors.values()
        inner = {
            self.parts: self.parts.stops(),
            self.uses: self.uses.stops(),
        }
        editors = [stop for each in form for stop in inner.get(each, [each])]
        return [
            self.list,
            self.new_button,
            *editors,
            self._look_area,
            *self.look.stops(),
            self.save_button,
            self.remove_button,
        ]

    def look_anew(self) -> None:
        """Ask for a litre of what stands in the form."""
        if self._is_showing:
            return
        if not any(box.isChecked() for box in self.parts.boxes.values()):
            self.look.show_nothing()
            return
        try:
            draft, (strength, water_id) = self._made_of(), self.look.asked()
        except InputError as error:
            self.look.show_problem(error)
            return
        self.look_wanted.emit(draft, strength, water_id)

    def _made_of(self) -> RecipeDraft:
        """Give what it is made of alone; a slip is an ``InputError``."""
        is_solved = self.how.currentData() == SOLVED
        is_oxides = self.told.currentData() == _OXIDES
        return RecipeDraft(
            name=self._called(),
            parts=self.parts.parts(),
            wanted=parse_wanted(self.wanted.text(), oxides=is_oxides)
            if is_solved
            else None,
            water_id=self.water.currentData(),
        )

    def _called(self) -> str:
        return self.name.text().strip() or tr(_NO_NAME)

    def _how_chosen(self) -> None:
        is_solved = self.how.currentData() == SOLVED
        self.form.show_field("wanted", shown=is_solved)
        self.form.show_field("told", shown=is_solved)
        self.parts.set_solved(solved=is_solved)
        self.look_anew()

    def _copy(self) -> None:
        if self.key is not None:
            self.copy_wanted.emit(self.key)

    def _connect(self) -> None:
        self.how.currentIndexChanged.connect(lambda _row: self._how_chosen())
        self.parts.changed.connect(self.look_anew)
        self.wanted.textChanged.connect(lambda _text: self.look_anew())
        self.told.currentIndexChanged.connect(lambda _row: self.look_anew())
        self.water.currentIndexChanged.connect(lambda _row: self.look_anew())
        self.look.changed.connect(self.look_anew)
        self.look.chart_wanted.connect(
            lambda look: self.chart_wanted.emit(self._called(), look)
        )
        self.uses.refused.connect(self.refused)


def _offered(board: RecipeBoard, view: RecipeView | None) -> list[tuple[int, str]]:
    """Give the tins to choose from; those gone that the recipe still names come too."""
    there = [(t.tin_id, f"{t.draft.name} ({t.draft.analysis})") for t in board.tins]
    if view is None:
        return there
    known = {tin_id for tin_id, _ in there}
    gone = [part.tin_id for part in view.draft.parts if part.tin_id not in known]
    named = zip(gone, view.lacking, strict=True)
    return [
        *((i, tr("{name} (off the shelf)").format(name=name)) for i, name in named),
        *there,
    ]


def _row(view: RecipeView) -> str:
    text = view.draft.name
    if view.draft.in_use:
        text = tr("{name}, in use").format(name=text)
    return tr("{name}, lacks a tin").format(name=text) if view.lacking else text


def _lacking(names: tuple[str, ...]) -> str:
    return (
        tr(
            "{tins} went off the shelf; this recipe is not mixed until "
            "that tin is back or taken out here."
        ).format(tins=listed(names))
        if names
        else ""
    )
