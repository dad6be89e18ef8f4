"""Several products mixed together, and what a litre of the finished feed then holds.

A recipe is of fixed shares by mass, scaled so that the feed has its nitrogen, or of
shares that are solved for what is wanted. What the water brings of its own is counted
in. Jugs and measures are not known here.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from msgspec import Struct, field
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.phrases import listed
from growdesk.domain.recipe_misses import misses, not_needed
from growdesk.domain.recipe_solving import solve_g_per_l
from growdesk.domain.recipe_words import (
    hardness_sentence,
    left_out_sentence,
    miss_sentences,
)
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.domain.product import Product
    from growdesk.domain.water_analysis import WaterAnalysis


class Part(Struct, frozen=True):
    """A product of a recipe; ``share`` is its part of the mass, to any scale."""

    product: Product
    share: float = 1.0


class Wanted(Struct, frozen=True):
    """A wanted N:P:K:Ca:Mg as elements, to any scale; None where it does not matter."""

    n: float
    p: float | None = None
    k: float | None = None
    ca: float | None = None
    mg: float | None = None

    def mg_per_l(self, strength_ppm_n: float) -> dict[str, float]:
        """Give what is wanted in a litre of this strength, in mg/L by element."""
        told = {"P": self.p, "K": self.k, "Ca": self.ca, "Mg": self.mg}
        times = strength_ppm_n / self.n
        return {"N": strength_ppm_n} | {
            element: part * times for element, part in told.items() if part is not None
        }


class Recipe(Struct, frozen=True):
    """Products in fixed shares, or with shares that are solved for what is wanted.

    ``lacking`` names products it cannot be mixed without and that are not on the shelf
    any more. ``water_key`` is the water it is mixed with; None for the one in use.
    """

    name: str
    parts: tuple[Part, ...]
    wanted: Wanted | None = None
    key: int | None = None
    lacking: tuple[str, ...] = ()
    water_key: int | None = None


class Mixture(Struct, frozen=True):
    """What goes into a litre of feed, and what that litre then holds.

    ``elements_mg_per_l`` is all of it, ``from_water_mg_per_l`` the water's part.
    ``strength_ppm_n`` is the nitrogen that comes out, the water's included.
    ``misfit_mg_per_l`` is what comes out less what was wanted, by element; empty for
    fixed shares. ``notes`` are whole sentences.
    """

    recipe: Recipe
    water: WaterAnalysis
    strength_ppm_n: float
    g_per_l: tuple[tuple[Product, float], ...]
    elements_mg_per_l: Mapping[str, float]
    from_water_mg_per_l: Mapping[str, float]
    nitrogen_forms_mg_per_l: Mapping[str, float]
    misfit_mg_per_l: Mapping[str, float] = field(default_factory=dict)
    notes: tuple[str, ...] = ()


def single(product: Product) -> Recipe:
    """Give the recipe of one product alone."""
    return Recipe(product.name, (Part(product),), key=None)


def mixture(recipe: Recipe, strength_ppm_n: float, water: WaterAnalysis) -> Mixture:
    """Give what makes a litre of this strength with this water.

    Raises ``InputError`` where the recipe brings no nitrogen or lacks a product.
    """
    if recipe.lacking:
        raise InputError(
            "recipe",
            recipe.name,
            tr("needs {list}, not on the shelf any more").format(
                list=listed(recipe.lacking)
            ),
            tr("Change the recipe, or put the tin back with Undo."),
        )
    if recipe.wanted is None:
        return _of_shares(recipe, strength_ppm_n, water)
    return _of_wanted(recipe, recipe.wanted.mg_per_l(strength_ppm_n), water)


def _of_wanted(
    recipe: Recipe, wanted: Mapping[str, float], water: WaterAnalysis
) -> Mixture:
    products = tuple(part.product for part in recipe.parts)
    if not any(product.mg_per_g().get("N") for product in products):
        raise _no_nitrogen(recipe)
    from_water = water.elements_mg_per_l()
    grams = solve_g_per_l(products, wanted, from_water)
    g_per_l = tuple(zip(products, grams, strict=True))
    mixed = made(recipe, water, g_per_l)
    return replace(
        mixed,
        misfit_mg_per_l={
            element: mixed.elements_mg_per_l.get(element, 0.0) - mg
            for element, mg in wanted.items()
        },
        notes=(
            *miss_sentences(misses(g_per_l, wanted, from_water)),
            *left_out_sentence(not_needed(g_per_l)),
            *_uncounted(wanted, water),
        ),
    )


def _uncounted(wanted: Mapping[str, float], water: WaterAnalysis) -> Iterator[str]:
    """Say what may be wanted and come with a water of which the hardness alone is told.

    What one of the two metals makes of the hardness is the other's no more.
    """
    most = water.most_of_hardness_mg_per_l()
    matters = {element: mg for element, mg in most.items() if wanted.get(element)}
    if matters and water.hardness_mg_per_l:
        yield hardness_sentence(water.hardness_mg_per_l, matters)


def _of_shares(recipe: Recipe, strength_ppm_n: float, water: WaterAnalysis) -> Mixture:
    total = math.fsum(part.share for part in recipe.parts)
    mg_n_per_g = math.fsum(
        part.share * part.product.mg_per_g().get("N", 0.0) for part in recipe.parts
    )
    if total <= 0 or mg_n_per_g <= 0:
        raise _no_nitrogen(recipe)
    from_water = water.elements_mg_per_l()
    needed = max(strength_ppm_n - from_water.get("N", 0.0), 0.0)
    scale = needed / mg_n_per_g
    g_per_l = tuple((part.product, part.share * scale) for part in recipe.parts)
    return made(recipe, water, g_per_l)


def _no_nitrogen(recipe: Recipe) -> InputError:
    return InputError(
        "recipe",
        recipe.name,
        tr("brings no nitrogen, so no strength in ppm N can be made of it"),
        tr("Add a product that holds nitrogen."),
    )


def made(
    recipe: Recipe,
    water: WaterAnalysis,
    g_per_l: tuple[tuple[Product, float], ...],
    misfit_mg_per_l: Mapping[str, float] | None = None,
    notes: tuple[str, ...] = (),
) -> Mixture:
    """Give the mixture that these grams in a litre make."""
    from_water = water.elements_mg_per_l()
    elements = dict(from_water)
    nitrate = from_water.get("N", 0.0)
    forms: dict[str, float] = {"nitrate": nitrate} if nitrate else {}
    for product, grams in g_per_l:
        for element, mg in product.mg_per_g().items():
            elements[element] = elements.get(element, 0.0) + mg * grams
        for form, percent in product.nitrogen_forms_percent().items():
            forms[form] = forms.get(form, 0.0) + 10 * percent * grams
    return Mixture(
        recipe=recipe,
        water=water,
        strength_ppm_n=elements.get("N", 0.0),
        g_per_l=g_per_l,
        elements_mg_per_l=elements,
        from_water_mg_per_l=from_water,
        nitrogen_forms_mg_per_l=forms,
        misfit_mg_per_l=misfit_mg_per_l or {},
        notes=notes,
    )
