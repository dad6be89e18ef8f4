"""What a wanted stock comes to: weighed, held against what falls out, in sentences.

Opens no session: all it needs is the bench that the form was opened with.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain import stock_words
from growdesk.domain.bottles import mixing_order, way_out
from growdesk.domain.errors import InputError
from growdesk.domain.keeping_apart import Severity, Where, findings
from growdesk.domain.recipe import mixture
from growdesk.domain.solubility import Room, check_temperature
from growdesk.domain.speech import plain, tr
from growdesk.domain.stock_solution import (
    check_volume,
    keep_by,
    lasts_weeks,
    stock_for_ratio,
    stock_of_strength,
)
from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.services.shelf import product_of
from growdesk.services.solubilities import solubilities
from growdesk.services.stock_values import AmountOf, StockAnswer
from growdesk.services.water_rows import water_analysis

if TYPE_CHECKING:
    from growdesk.domain.measuring import Measured
    from growdesk.domain.product import Product
    from growdesk.domain.recipe import Mixture
    from growdesk.domain.stock_ions import Parts
    from growdesk.domain.stock_solution import Stock
    from growdesk.services.stock_values import StockBench, StockWanted

_MOST_G = 100_000.0
_MOST_PPM_N = 1000.0
_DIGITS = 4


def answer(wanted: StockWanted, bench: StockBench) -> StockAnswer:
    """Give what a wanted stock comes to; ``InputError`` where too little is said."""
    parts = _parts(wanted, bench)
    volume_l = check_volume(wanted.volume_l)
    stock, doses, ml_per_l = _made(parts, wanted, bench)
    stock = replace(stock, name=wanted.name.strip() or stock.name)
    room, water = _room(wanted, bench), _water(wanted, bench)
    found = findings(stock.g_per_l, water, room)
    refused = [each for each in found if each.severity is Severity.REFUSE]
    warned = [each for each in found if each.severity is Severity.WARN]
    out = way_out(stock.g_per_l, water, room, volume_l) if refused else None
    return StockAnswer(
        stock=stock,
        weigh=stock_words.contents_texts(stock)
        if wanted.amount_of is AmountOf.BOTTLE
        else stock_words.weigh_texts(doses, stock),
        refused=tuple(stock_words.apart_text(each) for each in refused),
        way_out=() if out is None else stock_words.way_out_texts(out),
        beware=tuple(stock_words.apart_text(each) for each in warned),
        order=stock_words.order_text(mixing_order(product for product, _ in parts)),
        use=_use(stock, ml_per_l, wanted),
        held_against=stock_words.room_text(room),
        keep_by=wanted.keep_by
        or keep_by(wanted.made_on or bench.today, bench.keep_months),
    )


def of_recipe(
    recipe_id: int, strength_ppm_n: float, bench: StockBench
) -> tuple[tuple[int, float], ...]:
    """Give the tins of a recipe with g, of a liquid mL, in a litre of its feed."""
    recipe = next((each for each in bench.recipes if each.key == recipe_id), None)
    if recipe is None:
        raise InputError(
            "recipe", recipe_id, tr("is not there any more"), tr("Choose another.")
        )
    if not 0 < strength_ppm_n <= _MOST_PPM_N:
        raise InputError(
            "strength_ppm_n",
            plain(strength_ppm_n),
            tr("is no strength of a feed"),
            tr("Write ppm N up to {most_ppm_n}, for instance 100.").format(
                most_ppm_n=plain(_MOST_PPM_N)
            ),
        )
    key = bench.water_id if recipe.water_key is None else recipe.water_key
    mixed = mixture(recipe, strength_ppm_n, _water_of(key, bench))
    return tuple(
        (product.key, round(product.volume_ml(grams) or grams, _DIGITS))
        for product, grams in mixed.g_per_l
        if product.key is not None and grams > 0
    )


def clouds(mixed: Mixture) -> tuple[str, ...]:
    """Say what falls out of a finished feed; nothing for one that stays clear."""
    room = Room(solubilities())
    found = findings(mixed.g_per_l, mixed.water, room, Where.FEED)
    return tuple(stock_words.apart_text(each) for each in found)


def _parts(wanted: StockWanted, bench: StockBench) -> Parts:
    """Give products with their grams, in whatever the amounts are told of."""
    tins = {view.tin_id: view.draft for view in bench.tins}
    gone = {
        product.key: product
        for bottle in bench.bottles
        for product, _ in bottle.stock.weighed
    }
    if not wanted.parts:
        raise InputError(
            "parts", "", tr("is empty"), tr("Choose a product and an amount.")
        )
    if len({key for key, _ in wanted.parts}) < len(wanted.parts):
        raise InputError(
            "parts", "", tr("names a product twice"), tr("Add the two up.")
        )
    found: list[tuple[Product, float]] = []
    units = wanted.units or ("",) * len(wanted.parts)
    for (tin_id, amount), unit in zip(wanted.parts, units, strict=True):
        draft = tins.get(tin_id)
        product = gone.get(tin_id) if draft is None else product_of(draft, tin_id)
        if product is None:
            raise InputError(
                "parts", tin_id, tr("is not on the shelf"), tr("Choose a tin.")
            )
        _check_unit(amount, unit, product)
        grams = amount * (product.analysis.density_g_per_ml or 1.0)
        if not 0 < grams <= _MOST_G:
            raise InputError(
                "parts",
                plain(amount),
                tr("is no amount of {name}").format(name=product.name),
                tr("Write a number above 0."),
            )
        found.append((product, grams))
    return tuple(found)


def _check_unit(amount: float, unit: str, product: Product) -> None:
    """Take millilitres of a product only where its density is known."""
    if unit == "mL" and not product.is_liquid:
        raise InputError(
            "parts",
            f"{plain(amount)} mL",
            tr("is a volume, and {name} has no density").format(name=product.name),
            tr("Weigh it in g, or give the density with the tin if it is a liquid."),
        )
    if unit == "g" and product.is_liquid:
        raise InputError(
            "parts",
            f"{plain(amount)} g",
            tr("is a weight, and {name} is a liquid").format(name=product.name),
            tr("Give it in mL."),
        )


def _made(
    parts: Parts, wanted: StockWanted, bench: StockBench
) -> tuple[Stock, tuple[Measured, ...], float | None]:
    """Give the bottle as it is weighed, and the mL for a litre where a ratio says."""
    if wanted.amount_of is AmountOf.FEED:
        if wanted.ratio is None:
            raise InputError(
                "ratio",
                "",
                tr("is empty"),
                tr('Write it as on the injector, say "1:100".'),
            )
        made = stock_for_ratio(parts, wanted.ratio, wanted.volume_l, bench.tools)
        return made.stock, made.doses, made.ml_per_l
    tools = bench.tools
    if wanted.amount_of is AmountOf.BOTTLE:
        parts = tuple((product, grams / wanted.volume_l) for product, grams in parts)
        tools = ()
    stock, doses = stock_of_strength(parts, wanted.volume_l, tools)
    return stock, doses, None if wanted.ratio is None else wanted.ratio.stock_ml_per_l


def _use(stock: Stock, ml_per_l: float | None, wanted: StockWanted) -> tuple[str, ...]:
    if ml_per_l is None:
        return stock_words.ml_texts(stock)
    said = [stock_words.use_text(stock, ml_per_l)]
    if wanted.feed_l_per_week:
        weeks = lasts_weeks(1000 * stock.volume_l, ml_per_l, wanted.feed_l_per_week)
        said.append(stock_words.lasts_text(weeks, wanted.feed_l_per_week))
    return tuple(said)


def _room(wanted: StockWanted, bench: StockBench) -> Room:
    if wanted.coolest_c is None:
        return bench.room
    return replace(
        bench.room, coolest_c=check_temperature(wanted.coolest_c, "coolest_c")
    )


def _water(wanted: StockWanted, bench: StockBench) -> WaterAnalysis:
    return _water_of(wanted.water_id, bench)


def _water_of(water_id: int | None, bench: StockBench) -> WaterAnalysis:
    for view in bench.waters:
        if view.water_id == water_id:
            return water_analysis(view.draft, view.water_id)
    return WaterAnalysis(kind="")
