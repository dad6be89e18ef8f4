"""Answer a quick mix: texts as typed become products, a mixture and its doses."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from growdesk.domain import measure_words, stock_words
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.as_measured import as_measured
from growdesk.domain.bottles import way_out
from growdesk.domain.chemistry import oxide_view
from growdesk.domain.dose import too_little, too_strong
from growdesk.domain.dose_measured import tool_of
from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import expected_ec
from growdesk.domain.injector import parse_ratio
from growdesk.domain.keeping_apart import Severity, findings
from growdesk.domain.measuring import Tool, ToolKind, measured
from growdesk.domain.product import Product
from growdesk.domain.quick_mix import (
    Parts,
    PerLitre,
    QuickPart,
    amount_of,
    parse_wish,
    quick_mixture,
)
from growdesk.domain.salt_table import analysis_of
from growdesk.domain.speech import mark, plain, tr, trn
from growdesk.domain.typed_numbers import with_unit
from growdesk.domain.units import (
    PPM_MEANS,
    parse_density_g_per_ml,
    parse_ec_ms_per_cm,
    parse_target,
    parse_volume_l,
)
from growdesk.domain.volume_words import volume_text_fine
from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.services.quick_values import Concentrate, QuickMix
from growdesk.services.salts import salt_named
from growdesk.services.shelf import product_of
from growdesk.services.solubilities import room_of
from growdesk.services.water_rows import water_analysis

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.facts import House
    from growdesk.domain.measuring import Measured
    from growdesk.domain.recipe import Mixture
    from growdesk.domain.solubility import Room
    from growdesk.domain.units import Target
    from growdesk.services.quick_values import QuickAsk, QuickLine
    from growdesk.services.shelf import Shelf

_TWO_MEANINGS = mark(
    'Write "1 in 100" for one part in a hundred of feed, or "1 + 100" for one part '
    "added to a hundred of water."
)


def answer(ask: QuickAsk, house: House, shelf: Shelf) -> QuickMix:
    """Give the answer; a slip names its field, of a later product with its number."""
    parts = tuple(
        _part(line, "" if number == 1 else f"_{number}", shelf)
        for number, line in enumerate(ask.lines, 1)
    )
    target = parse_target(ask.target) if ask.target.strip() else None
    volume_l = parse_volume_l(ask.volume)
    water = _water(ask, shelf)
    wanted = quick_mixture(parts, target, water)
    typed = _typed_tool(ask.step, parts)
    doses = tuple(
        measured(
            product,
            grams * volume_l,
            _tools(product, typed, shelf),
            off_limit=house.measure_off_share,
        )
        for product, grams in wanted.g_per_l
    )
    mixed = as_measured(wanted, doses, volume_l)
    ec = expected_ec(mixed)
    elements = mixed.elements_mg_per_l
    return QuickMix(
        doses=doses,
        volume_l=volume_l,
        target=target,
        gives_mg_per_l=None if target is None else amount_of(target.nutrient, mixed),
        elements_mg_per_l=tuple(elements.items()),
        oxides_mg_per_l=tuple(oxide_view(elements).items()),
        nitrogen_forms_mg_per_l=tuple(mixed.nitrogen_forms_mg_per_l.items()),
        ec_ms_per_cm=None if ec is None else ec.ec_ms_per_cm,
        ec_low_ms_per_cm=None if ec is None else ec.low_ms_per_cm,
        ec_high_ms_per_cm=None if ec is None else ec.high_ms_per_cm,
        ec_why="" if ec is None else ec.why,
        warnings=tuple(_warnings(mixed, doses)),
        notes=(*mixed.notes, *(() if ec is None else ec.notes)),
        understood=_understood(parts, target, volume_l, water),
        concentrate=_concentrate(ask.ratio, volume_l, mixed, room_of(house)),
    )


def _part(line: QuickLine, suffix: str, shelf: Shelf) -> QuickPart:
    field = f"amount{suffix}"
    return QuickPart(
        _product(line, suffix, shelf), parse_wish(line.amount, field), field
    )


def _product(line: QuickLine, suffix: str, shelf: Shelf) -> Product:
    sort, _, key = line.pick.partition(":")
    if sort == "tin":
        for view in shelf.tins:
            if str(view.tin_id) == key:
                return product_of(view.draft, view.tin_id)
        hint = tr("Choose another, or give the analysis of its label.")
        raise InputError(f"pick{suffix}", key, tr("is not on the shelf any more"), hint)
    salt = salt_named(key) if sort == "salt" else None
    if salt is not None:
        return Product(salt.name, analysis_of(salt.formula), salt.formula)
    density = line.density.strip()
    density_g_per_ml = (
        parse_density_g_per_ml(with_unit(density, "g/mL"), f"density{suffix}")
        if density
        else None
    )
    label = parse_analysis(line.analysis, density_g_per_ml, f"analysis{suffix}")
    return Product(label.label(), label)


def _water(ask: QuickAsk, shelf: Shelf) -> WaterAnalysis:
    view = shelf.water_view(ask.water_id)
    if view is not None:
        return water_analysis(view.draft, view.water_id)
    typed = ask.water_ec.strip()
    if not typed:
        return WaterAnalysis(kind="")
    ec = parse_ec_ms_per_cm(with_unit(typed, "mS/cm"), "water_ec")
    return WaterAnalysis(kind="", ec_ms_per_cm=ec)


def _typed_tool(step: str, parts: Sequence[QuickPart]) -> Tool | None:
    """Give the scale or syringe as typed; a syringe only where something is liquid."""
    if not step.strip():
        return None
    products = sorted((part.product for part in parts), key=lambda p: not p.is_liquid)
    return tool_of(step, products[0].analysis, "step")


def _tools(product: Product, typed: Tool | None, shelf: Shelf) -> tuple[Tool, ...]:
    """Give what a product is measured with: what was typed, where it suits it."""
    if typed is None:
        return shelf.tools
    if product.is_liquid:
        others = (tool for tool in shelf.tools if tool.kind is not ToolKind.SCALE)
        return (typed,) if typed.kind is ToolKind.SYRINGE else (typed, *others)
    return (typed,) if typed.kind is ToolKind.SCALE else shelf.tools


def _warnings(mixed: Mixture, doses: Sequence[Measured]) -> list[str]:
    g_per_l = math.fsum(grams for _, grams in mixed.g_per_l)
    found = [*too_strong(g_per_l, mixed.strength_ppm_n)]
    for each in doses:
        trouble = measure_words.trouble(each)
        if trouble:
            found.append(trouble)
        elif each.tool is None:
            found += too_little(each.mass_g, each.product.volume_ml(each.mass_g))
    return found


def _concentrate(
    ratio: str, volume_l: float, mixed: Mixture, room: Room
) -> Concentrate | None:
    """Give the stock that is diluted to this feed, or why it is not to be made."""
    if not ratio.strip():
        return None
    read = parse_ratio(ratio, None, "ratio", tr(_TWO_MEANINGS))
    stock_l = volume_l / read.times
    parts = tuple((product, grams * read.times) for product, grams in mixed.g_per_l)
    found = findings(parts, mixed.water, room)
    refused = [each for each in found if each.severity is Severity.REFUSE]
    out = way_out(parts, mixed.water, room, stock_l) if refused else None
    return Concentrate(
        stock_l,
        read.stock_ml_per_l,
        tr("1 part in {times} of finished feed").format(times=plain(read.times)),
        tuple(stock_words.apart_text(each) for each in refused),
        () if out is None else stock_words.way_out_texts(out),
        tuple(stock_words.apart_text(each) for each in found if each not in refused),
    )


def _understood(
    parts: Sequence[QuickPart],
    target: Target | None,
    volume_l: float,
    water: WaterAnalysis,
) -> str:
    """Say back in one line what was understood of the typed texts."""
    alone = len(parts) == 1
    mixed = ", ".join(_told(part, alone=alone) for part in parts)
    if target is not None:
        form = (
            tr("{products} at {strength_mg_per_l} mg {nutrient} per litre")
            if alone
            else tr("{products}, together {strength_mg_per_l} mg {nutrient} per litre")
        )
        mixed = form.format(
            products=mixed,
            strength_mg_per_l=plain(target.strength_mg_per_l),
            nutrient=target.nutrient,
        )
    ec = 0.0 if water.ec_ms_per_cm is None and water.is_pure else water.ec_ms_per_cm
    known = tr("not given") if ec is None else f"{plain(ec)} mS/cm"
    return tr("{mixed} in {volume}; EC of the water {known}. {ppm_means}").format(
        mixed=mixed,
        volume=volume_text_fine(volume_l),
        known=known,
        ppm_means=tr(PPM_MEANS),
    )


def _told(part: QuickPart, *, alone: bool) -> str:
    density = part.product.analysis.density_g_per_ml
    name = part.product.name
    product = name if density is None else f"{name} ({plain(density)} g/mL)"
    wish = part.wish
    if isinstance(wish, Parts):
        if alone:
            return product
        return trn(
            "{share} part {product}", "{share} parts {product}", wish.share
        ).format(share=plain(wish.share), product=product)
    if isinstance(wish, PerLitre):
        return tr("{product} at {g_per_l} g in a litre").format(
            product=product, g_per_l=plain(wish.g_per_l)
        )
    return tr("{product} for {strength_mg_per_l} mg {nutrient} per litre").format(
        product=product,
        strength_mg_per_l=plain(wish.strength_mg_per_l),
        nutrient=wish.nutrient,
    )
