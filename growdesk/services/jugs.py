"""What makes a volume of feed: products as they are measured, and the EC to expect."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import measure_words
from growdesk.domain.as_measured import as_measured
from growdesk.domain.dose import too_little, too_strong
from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import expected_ec
from growdesk.domain.measuring import measured
from growdesk.domain.mixing_order import in_order
from growdesk.domain.recipe import mixture, single
from growdesk.domain.speech import fixed, tr
from growdesk.services.shelf import product_of
from growdesk.services.small_doses import from_bottles
from growdesk.services.stock_answers import clouds

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.expected_ec import ExpectedEc
    from growdesk.domain.facts import House
    from growdesk.domain.measuring import Measured
    from growdesk.domain.recipe import Mixture, Recipe
    from growdesk.domain.water_analysis import WaterAnalysis
    from growdesk.services.shelf import Shelf


_DUST = 1e-9


class Filled(Struct, frozen=True):
    """What a volume of one strength is made of; ``mixture`` is None where it is not.

    ``notes`` are worth knowing and change nothing at the bench, as ``warnings`` may.
    """

    mixture: Mixture | None = None
    doses: tuple[Measured, ...] = ()
    ec: ExpectedEc | None = None
    warnings: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def recipe_of(shelf: Shelf, key: int | None) -> Recipe | None:
    """Give a recipe by its number; for None what is in use, a tin alone if need be.

    Raises ``InputError`` where the tin in use cannot be read.
    """
    kept = shelf.recipe_by(key)
    if kept is not None or shelf.tin is None:
        return kept
    return single(product_of(shelf.tin, shelf.tin_id))


def reckoned(
    strength_ppm_n: float, house: House, shelf: Shelf, recipe: int | None = None
) -> Mixture | None:
    """Give a mixture before it is measured; None where nothing is in use.

    Raises ``InputError`` where the recipe cannot make it, or the water is stronger.
    """
    found = recipe_of(shelf, recipe)
    if found is None:
        return None
    made = mixture(found, float(strength_ppm_n), water_of(house, shelf, found))
    of_water = made.from_water_mg_per_l.get("N", 0.0)
    if of_water > strength_ppm_n + _DUST:
        raise InputError(
            "water",
            made.water.called,
            tr(
                "brings {of_water} ppm N by itself, more than the "
                "{strength_ppm_n} of this jug"
            ).format(
                of_water=fixed(of_water, 0), strength_ppm_n=fixed(strength_ppm_n, 0)
            ),
            tr("Blend it with rain or RO water."),
        )
    return made


def fill(
    strength_ppm_n: int,
    volume_l: float,
    house: House,
    shelf: Shelf,
    recipe: int | None = None,
    *,
    most_ppm_n: float = math.inf,
) -> Filled:
    """Give what makes a volume of this strength by a recipe, or by what is in use.

    Its mixture is what the doses really give. Where they would give more than
    ``most_ppm_n`` they are rounded down only.
    """
    return with_ec(
        dosed(strength_ppm_n, volume_l, house, shelf, recipe, most_ppm_n=most_ppm_n)
    )


def dosed(
    strength_ppm_n: int,
    volume_l: float,
    house: House,
    shelf: Shelf,
    recipe: int | None = None,
    *,
    most_ppm_n: float = math.inf,
) -> Filled:
    """Give what ``fill`` gives but the EC, which takes longer than all the rest."""
    if volume_l <= 0:
        return Filled()
    try:
        mixed = reckoned(strength_ppm_n, house, shelf, recipe)
    except InputError as error:
        name = named(shelf, recipe) or ("" if shelf.tin is None else shelf.tin.name)
        why = tr("{name} cannot make this jug. “{value}” {problem}. {hint}").format(
            name=name, value=error.value, problem=error.problem, hint=error.hint
        )
        return Filled(warnings=(why.strip(),))
    if mixed is None:
        return Filled()
    doses = _doses(mixed, volume_l, house, shelf)
    given = as_measured(mixed, doses, volume_l)
    if given.strength_ppm_n > most_ppm_n + _DUST:
        doses = _doses(mixed, volume_l, house, shelf, never_over=True)
        given = as_measured(mixed, doses, volume_l)
    told = [each for dose in doses for each in _trouble(dose)]
    return Filled(given, doses, warnings=_warnings(given, told), notes=given.notes)


def with_ec(filled: Filled) -> Filled:
    """Give what is filled with its EC, and what is to be said of that or clouds it."""
    if filled.mixture is None:
        return filled
    ec = expected_ec(filled.mixture)
    notes = (*filled.notes, *(() if ec is None else ec.notes))
    told = (*filled.warnings, *clouds(filled.mixture))
    return replace(filled, ec=ec, warnings=told, notes=notes)


def _doses(
    mixed: Mixture,
    volume_l: float,
    house: House,
    shelf: Shelf,
    *,
    never_over: bool = False,
) -> tuple[Measured, ...]:
    """Give the doses in mixing order, as they are measured."""
    doses = [
        measured(
            product,
            grams * volume_l,
            shelf.tools,
            never_over=never_over,
            off_limit=house.measure_off_share,
        )
        for product, grams in mixed.g_per_l
        if grams > 0
    ]
    return in_order(from_bottles(doses, shelf, never_over=never_over))


def _warnings(mixed: Mixture, of_doses: Sequence[str]) -> tuple[str, ...]:
    g_per_l = math.fsum(grams for _, grams in mixed.g_per_l)
    return (*too_strong(g_per_l, mixed.strength_ppm_n), *of_doses)


def _trouble(dose: Measured) -> tuple[str, ...]:
    """Say what is wrong with measuring a dose; with no tool known, by common ones."""
    said = measure_words.trouble(dose)
    if said:
        return (said,)
    if dose.tool is None and not dose.bottle:
        return too_little(dose.mass_g, dose.product.volume_ml(dose.mass_g))
    return ()


def named(shelf: Shelf, key: int | None) -> str:
    """Give the name of a recipe; empty where a tin alone is in use, or nothing."""
    kept = shelf.recipe_by(key)
    return "" if kept is None else kept.name


def water_of(house: House, shelf: Shelf, recipe: Recipe) -> WaterAnalysis:
    """Give a recipe's water.

    The one in use has the house's EC where its own is not known; no other water has it.
    """
    water = shelf.water_for(recipe)
    known = water.is_pure or water.ec_ms_per_cm is not None
    is_other = water.key is not None and water.key != shelf.water_id
    if known or is_other or not house.water_ec_ms_per_cm:
        return water
    return replace(water, ec_ms_per_cm=house.water_ec_ms_per_cm)
