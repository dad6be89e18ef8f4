"""What goes into one jug: its products as they are measured, and the EC to expect."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from growdesk.domain import measure_words
from growdesk.domain.as_measured import as_measured
from growdesk.domain.dose import too_little, too_strong
from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import expected_ec
from growdesk.domain.measuring import measured
from growdesk.domain.recipe import mixture, single
from growdesk.services.shelf import product_of
from growdesk.services.values import Jug

if TYPE_CHECKING:
    from growdesk.domain.batches import Batch
    from growdesk.domain.expected_ec import ExpectedEc
    from growdesk.domain.facts import House
    from growdesk.domain.measuring import Measured
    from growdesk.domain.recipe import Mixture
    from growdesk.domain.water_analysis import WaterAnalysis
    from growdesk.services.shelf import Shelf


@dataclass(frozen=True, slots=True)
class Filled:
    """What a volume of one strength is made of; ``mixture`` is None where it is not."""

    mixture: Mixture | None = None
    doses: tuple[Measured, ...] = ()
    ec: ExpectedEc | None = None
    warnings: tuple[str, ...] = ()


def fill(
    strength_ppm_n: int,
    volume_l: float,
    house: House,
    shelf: Shelf,
    *,
    never_over: bool = False,
) -> Filled:
    """Give what makes a volume of this strength from what is in use on the shelf.

    Its mixture is what the doses really give. With ``never_over`` they are rounded down
    only.
    """
    if shelf.tin is None or volume_l <= 0:
        return Filled()
    try:
        recipe = single(product_of(shelf.tin, shelf.tin_id))
        mixed = mixture(recipe, float(strength_ppm_n), _water(house, shelf))
    except InputError as error:
        return Filled(
            warnings=(f"{shelf.tin.name} cannot make this jug. {error.line()}",)
        )
    doses = tuple(
        measured(
            product,
            grams * volume_l,
            shelf.tools,
            never_over=never_over,
            off_limit=house.measure_off_share,
        )
        for product, grams in mixed.g_per_l
        if grams > 0
    )
    mixed = as_measured(mixed, doses, volume_l)
    ec = expected_ec(mixed)
    g_per_l = math.fsum(grams for _, grams in mixed.g_per_l)
    warnings = [*mixed.notes, *too_strong(g_per_l, mixed.strength_ppm_n)]
    for each in doses:
        warnings += _trouble(each)
    if ec is not None:
        warnings += ec.notes
    return Filled(mixed, doses, ec, tuple(warnings))


def jug_of(batch: Batch, spare_l: float, house: House, shelf: Shelf) -> Jug:
    """Give one jug, dosed with its spare."""
    filled = fill(batch.strength_ppm_n, batch.volume_l + spare_l, house, shelf)
    mixed, ec = filled.mixture, filled.ec
    alone = filled.doses[0] if len(filled.doses) == 1 else None
    return Jug(
        letter=batch.letter,
        strength_ppm_n=batch.strength_ppm_n,
        volume_l=batch.volume_l,
        spare_l=spare_l,
        tags=batch.tags,
        tin=None if shelf.tin is None else shelf.tin.name,
        mass_g=None if alone is None else alone.mass_g,
        volume_ml=None if alone is None else alone.product.volume_ml(alone.mass_g),
        elements_mg_per_l=()
        if mixed is None
        else tuple(mixed.elements_mg_per_l.items()),
        ec_low_ms_per_cm=None if ec is None else ec.low_ms_per_cm,
        ec_high_ms_per_cm=None if ec is None else ec.high_ms_per_cm,
        warnings=filled.warnings,
        recipe="" if mixed is None else mixed.recipe.name,
        recipe_id=None if mixed is None else mixed.recipe.key,
        doses=filled.doses,
        gives_ppm_n=None if mixed is None else mixed.strength_ppm_n,
        ec_ms_per_cm=None if ec is None else ec.ec_ms_per_cm,
        ec_why="" if ec is None else ec.why,
    )


def measured_text(dose: Measured) -> str:
    """Give a dose as short as a step of the ladder needs it."""
    return measure_words.amount_text(dose)


def _trouble(dose: Measured) -> tuple[str, ...]:
    """Say what is wrong with measuring a dose; with no tool known, by common ones."""
    said = measure_words.trouble(dose)
    if said:
        return (said,)
    if dose.tool is None:
        return too_little(dose.mass_g, dose.product.volume_ml(dose.mass_g))
    return ()


def _water(house: House, shelf: Shelf) -> WaterAnalysis:
    """Give the water in use, with the house's EC where its own is not known."""
    water = shelf.water_analysis()
    if water.ec_ms_per_cm is None and not water.is_pure and house.water_ec_ms_per_cm:
        return replace(water, ec_ms_per_cm=house.water_ec_ms_per_cm)
    return water
