"""One batch made into a jug: split into mixes, each with its own dose, and told."""

from __future__ import annotations

import math
from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import mix_words, pouring
from growdesk.domain.as_measured import as_measured
from growdesk.domain.fills import carrying_can, fills_at_once
from growdesk.services.drawing_down import water_of_recipe
from growdesk.services.jug_values import JugFill
from growdesk.services.jugs import Filled, dosed, named, with_ec
from growdesk.services.values import Jug

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from growdesk.domain.batches import Batch
    from growdesk.domain.facts import House
    from growdesk.domain.fills import Fill
    from growdesk.domain.measuring import Measured
    from growdesk.services.shelf import Shelf

_TOLD_OVER_L = pouring.STEP_L
"""Less than a plant is given stays untold."""


class _Part(Struct, frozen=True):
    """Mixes of a jug that are alike, with what makes one of them."""

    how_many: int
    volume_l: float
    filled: Filled
    mix: Fill | None = None


def jugs_of(
    batches: Sequence[tuple[Batch, float]], house: House, shelf: Shelf
) -> tuple[Jug, ...]:
    """Give the jugs of a round, of batches with the litres to spare of each."""
    planned = [batch.volume_l + spare_l for batch, spare_l in batches]
    mixes = fills_at_once(planned, shelf.vessels)
    return tuple(
        _jug(batch, spare_l, each, house, shelf)
        for (batch, spare_l), each in zip(batches, mixes, strict=True)
    )


def _jug(
    batch: Batch, spare_l: float, mixes: Sequence[Fill], house: House, shelf: Shelf
) -> Jug:
    """Give one jug, dosed with its spare and with what a jug's scale asks for."""
    planned_l = batch.volume_l + spare_l
    parts = _parts(batch, planned_l, mixes, house, shelf)
    mixed_l = math.fsum(part.how_many * part.volume_l for part in parts)
    over_l = round(max(0.0, mixed_l - planned_l), 6)
    whole = with_ec(_whole(parts, mixed_l))
    made, ec = whole.mixture, whole.ec
    return Jug(
        letter=batch.letter,
        strength_ppm_n=batch.strength_ppm_n,
        volume_l=batch.volume_l,
        spare_l=round(spare_l + over_l, 6),
        tags=batch.tags,
        elements_mg_per_l=() if made is None else tuple(made.elements_mg_per_l.items()),
        ec_low_ms_per_cm=None if ec is None else ec.low_ms_per_cm,
        ec_high_ms_per_cm=None if ec is None else ec.high_ms_per_cm,
        warnings=whole.warnings,
        notes=whole.notes,
        recipe=named(shelf, batch.recipe) if made is None else made.recipe.name,
        recipe_id=batch.recipe,
        doses=whole.doses,
        gives_ppm_n=None if made is None else made.strength_ppm_n,
        ec_ms_per_cm=None if ec is None else ec.ec_ms_per_cm,
        ec_why="" if ec is None else ec.why,
        ec_water_ms_per_cm=None if ec is None else ec.water_ms_per_cm,
        fills=tuple(_shown(part) for part in parts if part.mix is not None),
        over_l=over_l,
        mixing=_told(
            parts, mixes, 0.0 if over_l < _TOLD_OVER_L else spare_l + over_l, shelf
        ),
        water_id=water_of_recipe(batch.recipe, shelf)
        if made is None
        else made.water.key,
        water="" if made is None else made.water.name,
    )


def _parts(
    batch: Batch, planned_l: float, mixes: Sequence[Fill], house: House, shelf: Shelf
) -> tuple[_Part, ...]:
    def made(volume_l: float) -> Filled:
        return dosed(
            batch.strength_ppm_n,
            volume_l,
            house,
            shelf,
            batch.recipe,
            most_ppm_n=batch.ceiling_ppm_n,
        )

    if not mixes:
        return (_Part(1, planned_l, made(planned_l)),)
    alike = [tuple(group) for _, group in groupby(mixes)]
    return tuple(
        _Part(len(group), group[0].volume_l, made(group[0].volume_l), group[0])
        for group in alike
    )


def _whole(parts: Sequence[_Part], mixed_l: float) -> Filled:
    """Give all mixes of a jug as one, with what its doses come to together."""
    first = parts[0].filled
    if len(parts) == 1 and parts[0].how_many == 1:
        return first
    warnings = tuple(dict.fromkeys(w for part in parts for w in part.filled.warnings))
    if first.mixture is None:
        return replace(first, warnings=warnings)
    doses = tuple(
        _summed([(part.how_many, part.filled.doses[index]) for part in parts])
        for index in range(len(first.doses))
    )
    mixture = as_measured(first.mixture, doses, mixed_l)
    return Filled(mixture, doses, warnings=warnings, notes=first.notes)


def _summed(counted: Sequence[tuple[int, Measured]]) -> Measured:
    """Add up the doses of one product; in g or mL where their tools are not one."""
    first = counted[0][1]
    wanted_g = math.fsum(count * dose.mass_g for count, dose in counted)
    given_g = math.fsum(count * dose.given_g for count, dose in counted)
    off_g = math.fsum(
        count * dose.half_step_share * dose.mass_g for count, dose in counted
    )
    bottle, bottle_key = first.bottle, first.bottle_key
    same = (first.tool, bottle_key)
    if all((dose.tool, dose.bottle_key) == same for _, dose in counted):
        tool, unit, g_per_unit = first.tool, first.unit, first.g_per_unit
    else:
        density = first.product.analysis.density_g_per_ml
        tool, unit = None, "g" if density is None else "mL"
        bottle, bottle_key = "", None
        g_per_unit = 1.0 if density is None else density
    return replace(
        first,
        mass_g=wanted_g,
        given_g=given_g,
        amount=given_g / g_per_unit,
        unit=unit,
        tool=tool,
        bottle=bottle,
        bottle_key=bottle_key,
        g_per_unit=g_per_unit,
        half_step_share=off_g / wanted_g if wanted_g > 0 else 0.0,
        loads=sum(count * dose.loads for count, dose in counted),
        trouble=next((dose.trouble for _, dose in counted if dose.trouble), None),
    )


def _shown(part: _Part) -> JugFill:
    made, mix = part.filled.mixture, part.mix
    return JugFill(
        how_many=part.how_many,
        volume_l=part.volume_l,
        vessel="" if mix is None else mix.vessel.name,
        doses=part.filled.doses,
        gives_ppm_n=None if made is None else made.strength_ppm_n,
        cans=1 if mix is None else mix.cans,
        is_read=mix is None or mix.is_read,
    )


def _told(
    parts: Sequence[_Part], mixes: Sequence[Fill], over_l: float, shelf: Shelf
) -> tuple[str, ...]:
    """Tell how a jug is mixed; nothing of one without litres."""
    can = carrying_can(shelf.vessels)
    sentences: Iterable[str] = (
        mix_words.several(mixes),
        mix_words.order(
            parts[0].filled.doses, parts[0].volume_l if len(parts) == 1 else None
        ),
        *mix_words.remarks(mixes, over_l, "" if can is None else can.name),
    )
    return tuple(sentence for sentence in sentences if sentence)
