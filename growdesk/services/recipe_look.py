"""What a litre of a recipe holds, for a form that shows it while it is typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.chemistry import ELEMENTS
from growdesk.domain.dose import too_strong
from growdesk.domain.errors import InputError
from growdesk.domain.recipe import Part, Recipe, mixture
from growdesk.domain.recipe_words import nitrogen_advice
from growdesk.domain.speech import tr
from growdesk.services.recipe_values import ElementRow, RecipeLook
from growdesk.services.shelf import product_of
from growdesk.services.water_rows import water_analysis

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.recipe import Mixture
    from growdesk.services.recipe_values import RecipeDraft
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import TinView

SHOWN = frozenset({"N", "P", "K", "Ca", "Mg"})
"""Elements that have a row though a feed holds none of them."""

_LEAST_MG_PER_L = 5e-4


def recipe_of(draft: RecipeDraft, shelf: Shelf) -> Recipe:
    """Give a recipe as it is mixed; ``InputError`` on what cannot be mixed."""
    tins = {view.tin_id: view for view in shelf.tins}
    known = {
        part.product.key: part.product.name
        for recipe in shelf.recipes
        for part in recipe.parts
    }
    if not draft.parts:
        raise InputError(
            "parts", "", tr("names no product"), tr("Choose one tin at least.")
        )
    return Recipe(
        name=draft.name,
        parts=tuple(
            Part(
                product_of(_tin(tins, part.tin_id, known).draft, part.tin_id),
                1.0 if part.share is None else part.share,
            )
            for part in draft.parts
        ),
        wanted=draft.wanted,
        water_key=draft.water_id,
    )


def look_at(
    draft: RecipeDraft, shelf: Shelf, strength_ppm_n: float, water_id: int | None
) -> RecipeLook:
    """Give what a litre of this strength holds, mixed with a water.

    Without ``water_id`` it is the recipe's own water, else the one in use.
    """
    recipe = recipe_of(draft, shelf)
    chosen = shelf.water_view(water_id)
    water = (
        shelf.water_for(recipe)
        if chosen is None
        else water_analysis(chosen.draft, chosen.water_id)
    )
    try:
        mixed = mixture(recipe, strength_ppm_n, water)
    except InputError as error:
        if error.field != "recipe":
            raise
        name = draft.name or tr("This")
        raise InputError("parts", name, error.problem, error.hint) from None
    nitrogen = mixed.strength_ppm_n
    g_per_l = sum(grams for _, grams in mixed.g_per_l)
    return RecipeLook(
        strength_ppm_n=nitrogen,
        water=water.called,
        doses=tuple((product.name, grams) for product, grams in mixed.g_per_l),
        rows=_rows(mixed),
        forms=tuple(mixed.nitrogen_forms_mg_per_l.items()),
        notes=(*mixed.notes, *too_strong(g_per_l, nitrogen)),
        advice=nitrogen_advice(mixed.nitrogen_forms_mg_per_l, nitrogen) or "",
    )


def _rows(mixed: Mixture) -> tuple[ElementRow, ...]:
    got, misfit = mixed.elements_mg_per_l, mixed.misfit_mg_per_l
    return tuple(
        ElementRow(
            element=element,
            wanted_mg_per_l=got.get(element, 0.0) - misfit[element]
            if element in misfit
            else None,
            got_mg_per_l=got.get(element, 0.0),
            from_water_mg_per_l=mixed.from_water_mg_per_l.get(element, 0.0),
        )
        for element in ELEMENTS
        if element in SHOWN or got.get(element, 0.0) >= _LEAST_MG_PER_L
    )


def _tin(
    tins: Mapping[int, TinView], tin_id: int, known: Mapping[int | None, str]
) -> TinView:
    view = tins.get(tin_id)
    if view is None:
        hint = tr("Take it out of the recipe, or put the tin back with Undo.")
        name = known.get(tin_id, tr("A tin"))
        raise InputError("parts", name, tr("is not on the shelf any more"), hint)
    return view
