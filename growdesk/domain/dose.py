"""How much of one product makes a wanted strength in a volume of solution.

Plain arithmetic on a label: 1 g/L of a product with x % of a nutrient gives 10 x mg/L.
The volume is that of the finished solution; its EC is the product's alone, in pure
water. What the water itself brings, and what a scale can weigh, are not known here.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.chemistry import oxide_view
from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import expected_ec
from growdesk.domain.product import Product
from growdesk.domain.recipe import made, single
from growdesk.domain.speech import fixed, mark, tr
from growdesk.domain.tidy import tidied, tidy
from growdesk.domain.water_analysis import WaterAnalysis

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.analysis import Analysis
    from growdesk.domain.units import Target

MOST_PRODUCT_G_PER_L: Final = 10.0
"""Above this a feed ready for use is hardly meant; the dose then says so."""

LEAST_WEIGHED_G: Final = 0.1
LEAST_DRAWN_ML: Final = 0.1
TOO_LITTLE_TO_WEIGH: Final = mark(
    "A scale that reads 0.1 g cannot weigh so little; weigh on one that reads 0.01 g, "
    "or mix more."
)
TOO_LITTLE_TO_DRAW: Final = mark(
    "A syringe that reads 0.1 mL cannot draw so little; mix more."
)
MOST_FEED_PPM_N: Final = 400.0
"""The strongest feed the house gives any plant."""
MOST_EC_MS_PER_CM: Final = 10.0
"""About as much as 0.1 mol/L carries, which is as far as EC is reckoned here."""


class Dose(Struct, frozen=True):
    """What to measure, and what the finished solution then holds.

    ``volume_ml`` is None for a dry product. ``nitrogen_forms_mg_per_l`` holds only the
    shares the label tells. ``warnings`` are whole sentences, empty for a sane dose.
    """

    target: Target
    volume_l: float
    mass_g: float
    volume_ml: float | None
    elements_mg_per_l: Mapping[str, float]
    oxides_mg_per_l: Mapping[str, float]
    nitrogen_forms_mg_per_l: Mapping[str, float]
    strength_ppm_n: float
    ec_range_ms_per_cm: tuple[float, float] | None
    warnings: tuple[str, ...] = ()


def dose(
    analysis: Analysis, target: Target, volume_l: float, target_field: str = "target"
) -> Dose:
    """Give the mass, and for a liquid the volume, that makes the target."""
    _check_volume(volume_l)
    _check_strength(target, target_field)
    percent = analysis.percent_of(target.nutrient)
    if percent is None:
        raise _absent(analysis, target.nutrient, target_field)
    product_g_per_l = target.strength_mg_per_l / (10 * percent)
    mass_g = product_g_per_l * volume_l
    elements = elements_from_mass(analysis, mass_g, volume_l)
    density = analysis.density_g_per_ml
    ppm_n = elements.get("N", 0.0)
    forms = analysis.nitrogen_forms_percent()
    return Dose(
        target=target,
        volume_l=volume_l,
        mass_g=mass_g,
        volume_ml=None if density is None else mass_g / density,
        elements_mg_per_l=elements,
        oxides_mg_per_l=oxide_view(elements),
        nitrogen_forms_mg_per_l={
            form: 10 * share * product_g_per_l for form, share in forms.items()
        },
        strength_ppm_n=ppm_n,
        ec_range_ms_per_cm=ec_range_ms_per_cm(analysis, product_g_per_l),
        warnings=(
            *too_strong(product_g_per_l, ppm_n),
            *too_little(mass_g, None if density is None else mass_g / density),
        ),
    )


def elements_from_mass(
    analysis: Analysis, mass_g: float, volume_l: float
) -> dict[str, float]:
    """Give the mg/L of each element when a mass of product is in a volume."""
    _check_volume(volume_l)
    if not math.isfinite(mass_g) or mass_g < 0:
        raise InputError(
            "mass", mass_g, tr("is not a mass"), tr("Give it in grams, from 0.")
        )
    return {
        element: 10 * percent * mass_g / volume_l
        for element, percent in analysis.elements_percent().items()
    }


def ec_range_ms_per_cm(
    analysis: Analysis, product_g_per_l: float
) -> tuple[float, float] | None:
    """Give the least and the most that this much of a product adds to a water's EC.

    In mS/cm at 25 °C, as its label proves it (``expected_ec``); None for nothing, and
    for a concentrate.
    """
    product = Product(analysis.label(), analysis)
    alone = ((product, product_g_per_l),)
    found = expected_ec(made(single(product), WaterAnalysis("ro"), alone))
    if found is None or found.high_ms_per_cm > MOST_EC_MS_PER_CM:
        return None
    return found.low_ms_per_cm, found.high_ms_per_cm


def dose_report(dosed: Dose) -> dict[str, object]:
    """Give the dose under the fixed keys of ``growdesk dose --json``."""
    return {
        "grams": tidy(dosed.mass_g),
        "millilitres": None if dosed.volume_ml is None else tidy(dosed.volume_ml),
        "elements_mg_per_l": tidied(dosed.elements_mg_per_l),
        "oxides_mg_per_l": tidied(dosed.oxides_mg_per_l),
        "nitrogen_forms_mg_per_l": tidied(dosed.nitrogen_forms_mg_per_l),
        "ec_ms_per_cm": None,
        "ec_range_ms_per_cm": (
            [tidy(end) for end in dosed.ec_range_ms_per_cm]
            if dosed.ec_range_ms_per_cm
            else None
        ),
        "volume_l": tidy(dosed.volume_l),
        "warnings": list(dosed.warnings),
    }


def _check_volume(volume_l: float) -> None:
    if not math.isfinite(volume_l) or not 0 < volume_l <= 10_000:
        raise InputError(
            "volume",
            volume_l,
            tr("is not a volume of solution in litres"),
            tr("Give more than 0 and at most 10 000 L."),
        )


def _check_strength(target: Target, field: str) -> None:
    strength = target.strength_mg_per_l
    if not math.isfinite(strength) or not 0 < strength <= 1_000_000:
        raise InputError(
            field,
            strength,
            tr("is not a strength in mg per litre"),
            tr('Write for instance "150 ppm N".'),
        )


def _absent(analysis: Analysis, nutrient: str, field: str) -> InputError:
    if nutrient in {"NO3", "NH4"} and analysis.n_percent:
        problem = tr("is asked for, and {label} does not tell that form of N").format(
            label=analysis.label()
        )
        hint = tr(
            'Add it to the analysis, for instance "nitrate-N 11.8", or ask for N.'
        )
        return InputError(field, nutrient, problem, hint)
    held = ", ".join(analysis.elements_percent())
    problem = tr("is asked for, and {label} holds none of it").format(
        label=analysis.label()
    )
    return InputError(
        field, nutrient, problem, tr("It holds {held}.").format(held=held)
    )


def too_little(mass_g: float, volume_ml: float | None) -> tuple[str, ...]:
    """Say where a dose is less than a kitchen scale or a syringe can measure."""
    if volume_ml is None and mass_g < LEAST_WEIGHED_G:
        return (tr(TOO_LITTLE_TO_WEIGH),)
    if volume_ml is not None and volume_ml < LEAST_DRAWN_ML:
        return (tr(TOO_LITTLE_TO_DRAW),)
    return ()


def too_strong(product_g_per_l: float, ppm_n: float) -> tuple[str, ...]:
    """Say where this is no feed to pour: too much product, or too much nitrogen."""
    found: list[str] = []
    if product_g_per_l > MOST_PRODUCT_G_PER_L:
        found.append(
            tr(
                "This is {product_g_per_l} g of product in each litre, far "
                "above any feed ready for use; check the target and the "
                "analysis."
            ).format(product_g_per_l=fixed(product_g_per_l, 0))
        )
    if ppm_n > MOST_FEED_PPM_N:
        found.append(
            tr(
                "This comes to {ppm_n} ppm N; nothing above "
                "{most_feed_ppm_n} ppm N goes on an orchid here."
            ).format(ppm_n=fixed(ppm_n, 0), most_feed_ppm_n=fixed(MOST_FEED_PPM_N, 0))
        )
    return tuple(found)
