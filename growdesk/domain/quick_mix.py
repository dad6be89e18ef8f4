"""A mix worked out for itself, free of any plan.

Each product has an amount of its own (so much of a nutrient, or so many grams in a
litre), or a share of what is then scaled together until the whole mix, its water
included, has the strength that is asked for.
"""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Final, TypeAlias

from msgspec import Struct

from growdesk.domain.chemistry import element_factor
from growdesk.domain.errors import InputError
from growdesk.domain.phrases import listed
from growdesk.domain.recipe import Part, Recipe, made
from growdesk.domain.speech import mark, plain, tr
from growdesk.domain.typed_numbers import NUMBER, plain_text, read_number
from growdesk.domain.units import Target, parse_strength_mg_per_l, parse_target

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.product import Product
    from growdesk.domain.recipe import Mixture
    from growdesk.domain.water_analysis import WaterAnalysis

_PARTS: Final = re.compile(rf"({NUMBER})\s*(?:parts?)?", re.IGNORECASE)
_WEIGHT: Final = re.compile(rf"{NUMBER}\s*(?:g|kg|oz|lb)\s*(?:/|per\b)", re.IGNORECASE)
"""Of the product itself; mg and ppm are asked back for the nutrient they are of."""
_MOST_PARTS: Final = 1000.0
_AMOUNT_HINT: Final = mark(
    'Write a strength such as "20 ppm Mg", a weight such as "0.5 g/L", or parts such '
    'as "2".'
)


class Parts(Struct, frozen=True):
    """A share by weight of the products that are scaled together."""

    share: float = 1.0


class PerLitre(Struct, frozen=True):
    """So many grams of the product in a litre, whatever else is in it."""

    g_per_l: float


Wish: TypeAlias = "Parts | PerLitre | Target"


class QuickPart(Struct, frozen=True):
    """A product with its wish; ``field`` is what a slip in the wish is told beside."""

    product: Product
    wish: Wish
    field: str = "amount"


def parse_wish(text: str, field: str = "amount") -> Wish:
    """Give the amount typed for one product; nothing typed is one part."""
    if not text.strip():
        return Parts()
    clean = plain_text(text, field)
    parts = _PARTS.fullmatch(clean)
    if parts is not None:
        share = read_number(parts[1], field, text, asks_groups=True)
        if 0 < share <= _MOST_PARTS:
            return Parts(share)
        problem = tr("is not a number of parts from above 0 to {most_parts}").format(
            most_parts=plain(_MOST_PARTS)
        )
        raise InputError(field, text, problem, tr(_AMOUNT_HINT))
    if _WEIGHT.match(clean):
        return PerLitre(parse_strength_mg_per_l(clean, field) / 1000)
    return _target(text, field)


def quick_mixture(
    parts: Sequence[QuickPart], target: Target | None, water: WaterAnalysis
) -> Mixture:
    """Give what makes a litre; slips name ``target`` or the part's own field."""
    scaled = [part for part in parts if isinstance(part.wish, Parts)]
    fixed = {
        number: _fixed_g_per_l(part)
        for number, part in enumerate(parts)
        if not isinstance(part.wish, Parts)
    }
    recipe = Recipe(listed([p.product.name for p in parts]), _shares(parts))
    alone = [(parts[number].product, grams) for number, grams in fixed.items()]
    scale = _scale(scaled, target, made(recipe, water, tuple(alone)))
    return made(
        recipe,
        water,
        tuple(
            (part.product, fixed.get(number, _share(part) * scale))
            for number, part in enumerate(parts)
        ),
    )


def amount_of(nutrient: str, mixture: Mixture) -> float:
    """Give the mg/L of an element, oxide or form of nitrogen in a mixture."""
    element, factor = element_factor(nutrient)
    if nutrient in _FORMS:
        return mixture.nitrogen_forms_mg_per_l.get(_FORMS[nutrient], 0.0) / factor
    return mixture.elements_mg_per_l.get(element, 0.0) / factor


_FORMS: Final = {"NO3": "nitrate", "NH4": "ammonium"}


def _target(text: str, field: str) -> Target:
    try:
        return parse_target(text, field)
    except InputError as problem:
        raise InputError(field, text, problem.problem, tr(_AMOUNT_HINT)) from None


def _shares(parts: Sequence[QuickPart]) -> tuple[Part, ...]:
    return tuple(Part(part.product, _share(part)) for part in parts)


def _share(part: QuickPart) -> float:
    return part.wish.share if isinstance(part.wish, Parts) else 0.0


def _fixed_g_per_l(part: QuickPart) -> float:
    if isinstance(part.wish, PerLitre):
        return part.wish.g_per_l
    if not isinstance(part.wish, Target):
        return 0.0
    percent = _percent(part.product, part.wish.nutrient)
    if percent <= 0:
        raise _absent([part.product], part.wish.nutrient, part.field)
    return part.wish.strength_mg_per_l / (10 * percent)


def _percent(product: Product, nutrient: str) -> float:
    return product.analysis.percent_of(nutrient) or 0.0


def _scale(
    scaled: Sequence[QuickPart], target: Target | None, without: Mixture
) -> float:
    """Give the grams in a litre of one part, so that the mix has its target."""
    if target is None:
        if not scaled:
            return 0.0
        hint = tr(
            'Write for instance "150 ppm N", or give each product its own amount.'
        )
        raise InputError("target", "", tr("is needed where products go by parts"), hint)
    if not scaled:
        problem = tr("cannot be reached: every product has an amount of its own")
        hint = tr("Leave one amount empty, or leave this empty.")
        raise InputError("target", _told(target), problem, hint)
    per_part = 10 * math.fsum(
        _share(part) * _percent(part.product, target.nutrient) for part in scaled
    )
    if per_part <= 0:
        raise _absent([part.product for part in scaled], target.nutrient, "target")
    there = amount_of(target.nutrient, without)
    if there >= target.strength_mg_per_l:
        problem = tr("is there already: without these it holds {there} mg/L").format(
            there=plain(float(f"{there:.3g}"))
        )
        hint = tr("Ask for more, or take a water that brings less.")
        raise InputError("target", _told(target), problem, hint)
    return (target.strength_mg_per_l - there) / per_part


def _told(target: Target) -> str:
    return f"{plain(target.strength_mg_per_l)} ppm {target.nutrient}"


def _absent(products: Sequence[Product], nutrient: str, field: str) -> InputError:
    names = listed([product.name for product in products])
    held = {each for p in products for each in p.analysis.elements_percent()}
    if nutrient in _FORMS and "N" in held:
        problem = tr(
            "is asked for, and {names} does not tell that form of its nitrogen"
        ).format(names=names)
        hint = tr(
            'Add it to the analysis, for instance "nitrate-N 11.8", or ask for N.'
        )
        return InputError(field, nutrient, problem, hint)
    problem = tr("is asked for, and {names} holds none of it").format(names=names)
    return InputError(
        field,
        nutrient,
        problem,
        tr("It holds {list}.").format(list=", ".join(sorted(held))),
    )
