"""Open the form for recipes, look at litres for it, and write what it hands out."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from shiboken6 import isValid

from growdesk.services.recipe_values import MixChart
from growdesk.ui.chart_over import open_chart
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.dialogs.mix_chart import MixChartDialog
from growdesk.ui.dialogs.recipe import RecipesDialog
from growdesk.ui.tasks import Job
from growdesk.ui.thing_forms import ThingForms, refuse

if TYPE_CHECKING:
    from growdesk.services.recipe_values import RecipeBoard, RecipeDraft, RecipeLook
    from growdesk.services.values import Written


class RecipeForms(ThingForms):
    """The forms of recipes, and the chart of a litre of one."""

    save_wanted = Signal(object, object, object)

    def recipes(self) -> None:
        """Open the recipes."""
        self._desk.read(self._now.recipes.board, self._open)

    def _open(self, board: RecipeBoard) -> None:
        dialog = RecipesDialog(self._window)
        dialog.look_wanted.connect(partial(self._look, dialog))
        dialog.show_board(board, None)
        self._attend(dialog, "recipes")
        dialog.saved.connect(partial(self._save_recipe, dialog))
        dialog.remove_wanted.connect(partial(self._remove_recipe, dialog))
        dialog.copy_wanted.connect(partial(self._copy, dialog))
        dialog.chart_wanted.connect(partial(self._chart, dialog))
        dialog.open()

    def _look(
        self,
        dialog: RecipesDialog,
        draft: RecipeDraft,
        strength_ppm_n: float,
        water_id: int | None,
    ) -> None:
        work = partial(self._now.recipes.look, draft, strength_ppm_n, water_id)
        job = Job(work, dialog.show_look, dialog.look_refused, "recipe-look")
        self._desk.tasks.ask(dialog, job)

    def _chart(self, parent: RecipesDialog, name: str, look: RecipeLook) -> None:
        """Draw the litre that is shown, over the recipes."""
        on = self._desk.today
        wanted = Wanted(Which.MIX, 0, on, MixChart(on, name, look))
        dialog = MixChartDialog(parent, wanted)
        open_chart(dialog, self._desk, self.save_wanted)

    def _save_recipe(
        self, dialog: RecipesDialog, key: int | None, draft: RecipeDraft
    ) -> None:
        recipes = self._now.recipes
        work = partial(recipes.add, draft)
        if key is not None:
            work = partial(recipes.change, key, draft)
        self._save(dialog, work, key, partial(self._again, dialog))

    def _remove_recipe(self, dialog: RecipesDialog, key: int) -> None:
        work = partial(self._now.recipes.remove, key)
        self._remove(dialog, key, work, partial(self._again, dialog))

    def _copy(self, dialog: RecipesDialog, key: int) -> None:
        def copied(done: Written) -> None:
            if isValid(dialog):
                dialog.say(done.title)
            self._again(dialog, done.ids[0])

        work = partial(self._now.recipes.copy, key)
        self._desk.write(work, copied, partial(refuse, dialog))

    def _again(self, dialog: RecipesDialog, chosen: int | None) -> None:
        """Read the recipes anew and show them, where the dialog is still there."""

        def show(board: RecipeBoard) -> None:
            if isValid(dialog):
                dialog.show_board(board, chosen)

        self._desk.read(self._now.recipes.board, show)
