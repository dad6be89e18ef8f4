"""A recipe and its water from the JSON of ``growdesk mix``, and the answer's keys.

Products are told by their analysis, or by the formula of a single salt alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import expected_ec
from growdesk.domain.facts_fields import Fields, Range
from growdesk.domain.product import Product
from growdesk.domain.recipe import Part, Recipe
from growdesk.domain.recipe_words import nitrogen_advice
from growdesk.domain.salt_table import analysis_of
from growdesk.domain.salts import known_formula
from growdesk.domain.same_salt import check_salt
from growdesk.domain.speech import tr
from growdesk.domain.tidy import tidied, tidy
from growdesk.domain.wanted_text import parse_wanted
from growdesk.domain.water_analysis import WaterAnalysis

if TYPE_CHECKING:
    from growdesk.domain.recipe import Mixture

RECIPE_EXAMPLE: Final = (
    '{"wanted": "3:1:2:1", "products": [{"formula": "KNO3"},'
    ' {"name": "Green tin", "analysis": "20-20-20"}]}'
)
_RECIPE: Final = ("name", "products", "wanted", "oxides", "water")
_PRODUCT: Final = (
    "name",
    "analysis",
    "formula",
    "share",
    "density_g_per_ml",
    "ec_per_100_ppm_n_ms_per_cm",
)
_AMOUNTS: Final = tuple(
    field for field in WaterAnalysis.__struct_fields__ if "_per_" in field
)
_MOST_PRODUCTS: Final = 40


def parse_recipe(data: object) -> tuple[Recipe, WaterAnalysis]:
    """Give the recipe and the water it is mixed with; RO water where none is told."""
    read = Fields.of("recipe", data, tr("a recipe"), _RECIPE)
    entries = read.entries("products")
    if not 0 < len(entries) <= _MOST_PRODUCTS:
        hint = tr("Give 1 to {most_products}, as in {recipe_example}.").format(
            most_products=_MOST_PRODUCTS, recipe_example=RECIPE_EXAMPLE
        )
        raise InputError("products", len(entries), tr("cannot be mixed"), hint)
    wanted = read.text("wanted", 60)
    oxides = read.flag("oxides")
    return (
        Recipe(
            name=read.text("name", 120) or tr("The recipe"),
            parts=tuple(_part(n, entry) for n, entry in enumerate(entries, 1)),
            wanted=parse_wanted(wanted, oxides=oxides) if wanted else None,
        ),
        _water(read.items.get("water")),
    )


def mix_report(mixed: Mixture) -> dict[str, object]:
    """Give a mixture under the fixed keys of ``growdesk mix --json``."""
    ec = expected_ec(mixed)
    forms = mixed.nitrogen_forms_mg_per_l
    got = mixed.elements_mg_per_l
    return {
        "strength_ppm_n": tidy(mixed.strength_ppm_n),
        "products": [
            {"name": product.name, "g_per_l": tidy(grams)}
            for product, grams in mixed.g_per_l
        ],
        "elements_mg_per_l": tidied(got),
        "from_water_mg_per_l": tidied(mixed.from_water_mg_per_l),
        "wanted_mg_per_l": {
            element: tidy(got.get(element, 0.0) - off)
            for element, off in mixed.misfit_mg_per_l.items()
        },
        "misfit_mg_per_l": tidied(mixed.misfit_mg_per_l),
        "nitrogen_forms_mg_per_l": tidied(forms),
        "ec_ms_per_cm": None
        if ec is None or ec.ec_ms_per_cm is None
        else tidy(ec.ec_ms_per_cm),
        "ec_range_ms_per_cm": None
        if ec is None
        else [tidy(ec.low_ms_per_cm), tidy(ec.high_ms_per_cm)],
        "notes": [*mixed.notes, *(() if ec is None else ec.notes)],
        "advice": nitrogen_advice(forms, mixed.strength_ppm_n),
    }


def _part(number: int, entry: object) -> Part:
    read = Fields.of(
        tr("product {number}").format(number=number), entry, tr("a product"), _PRODUCT
    )
    share = read.number("share", Range(0.0001, 100_000))
    return Part(_product(read), 1.0 if share is None else share)


def _product(read: Fields) -> Product:
    formula = read.text("formula", 60) or None
    if formula is not None:
        formula = known_formula(formula, read.at("formula"))
    text = read.text("analysis", 160)
    density = read.number("density_g_per_ml", Range(0.5, 3))
    if text:
        analysis = parse_analysis(text, density, read.at("analysis"))
        if formula is not None:
            check_salt(analysis, formula, read.at("formula"))
    elif formula is not None:
        analysis = analysis_of(formula)
    else:
        hint = tr('Give its analysis, say "20-20-20", or the formula of a salt.')
        raise InputError(read.at("analysis"), "", tr("is not told"), hint)
    return Product(
        name=read.text("name", 120) or formula or text,
        analysis=analysis,
        formula=formula,
        ec_per_100_ppm_n_ms_per_cm=read.number(
            "ec_per_100_ppm_n_ms_per_cm", Range(0, 5)
        ),
    )


def _water(entry: object) -> WaterAnalysis:
    if entry is None:
        return WaterAnalysis("ro")
    read = Fields.of("water", entry, tr("a water"), ("kind", "name", *_AMOUNTS))
    allowed = Range(0, 5000)
    amounts: dict[str, Any] = {name: read.number(name, allowed) for name in _AMOUNTS}
    return WaterAnalysis(
        read.text("kind", 40) or "tap", read.text("name", 120), **amounts
    )
