"""Words for stock bottles: what falls out, the way out, ratios, what to weigh."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from growdesk.domain import stock_templates as templates
from growdesk.domain.bottles import Add
from growdesk.domain.day_words import dated_text, day_text
from growdesk.domain.injector import Meaning, apart_percent, meanings
from growdesk.domain.measure_words import amount_text, plain
from growdesk.domain.measuring import GRAMS
from growdesk.domain.phrases import listed, number_word
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.recipe_words import ELEMENT_WORDS
from growdesk.domain.speech import Lines, fixed, tr, trn
from growdesk.domain.wording import number_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence
    from datetime import date

    from growdesk.domain.bottles import Step, WayOut
    from growdesk.domain.injector import Ratio
    from growdesk.domain.keeping_apart import Apart
    from growdesk.domain.measuring import Measured
    from growdesk.domain.solubility import Room
    from growdesk.domain.stock_proposals import Proposed
    from growdesk.domain.stock_solution import Stock

NAMES = Lines("bottle A", "bottle B", "bottle C", "bottle D", "bottle E", "bottle F")
_REAL_SHARE_TOLD = 0.005
_NITROGEN_TOLD_PPM = 0.5


def apart_text(found: Apart) -> str:
    """Give what falls out as a sentence."""
    key = f"{found.rule.value}-{found.severity.value}"
    alone = f"{key}-alone" if len(found.bring) == 1 else key
    template = templates.APART.get(alone, templates.APART[key])
    values = _shown(found.values)
    bring = listed(found.bring) or tr("the water")
    meet = listed(found.meet) or tr("the water")
    return _capital(template.format(bring=bring, meet=meet, **values))


def way_out_texts(way: WayOut) -> tuple[str, ...]:
    """Give the way out in sentences."""
    said = []
    if way.bottles:
        bottles = "; ".join(
            templates.WAY_OUT["bottle"].format(
                products=listed([product.name for product in bottle]), which=name
            )
            for name, bottle in zip(NAMES, way.bottles, strict=False)
        )
        said.append(
            templates.WAY_OUT["bottles"].format(
                count=number_word(len(way.bottles)), bottles=bottles
            )
        )
    if way.litres is not None:
        key = "litres" if way.bottles else "litres-only"
        litres = litres_up(way.litres)
        said.append(templates.WAY_OUT[key].format(litres=litres))
    return tuple(said) or (templates.WAY_OUT["none"],)


def order_texts(steps: Iterable[Step]) -> tuple[str, ...]:
    """Give the order of mixing, a sentence a step."""
    return tuple(
        templates.ORDER[step.add.value].format(
            product="" if step.product is None else step.product.name
        )
        for step in steps
    )


def order_text(steps: Sequence[Step]) -> str:
    """Give the order of mixing in one line; nothing where there is but one product."""
    if len([step for step in steps if step.product is not None]) < 2:
        return ""
    return " ".join(order_texts(step for step in steps if step.add is not Add.FILL_UP))


def ratio_text(ratio: Ratio) -> str:
    """Give one meaning of a ratio with its numbers."""
    return templates.RATIO[ratio.meaning.value].format(
        parts=plain(ratio.parts),
        stock=ml_text(ratio.stock_ml_per_l),
        water=ml_text(ratio.water_ml_per_l),
        percent=number_text(ratio.percent, 2),
    )


def both_texts(parts: float) -> tuple[str, str, str]:
    """Give both meanings of 1:R, and how far they are apart."""
    part_in, part_added = meanings(parts)
    apart = templates.RATIO["apart"].format(
        parts=plain(parts), percent=number_text(apart_percent(parts), 1)
    )
    return ratio_text(part_in), ratio_text(part_added), apart


def meaning_words(meaning: Meaning) -> str:
    """Give a meaning as a choice names it."""
    if meaning is Meaning.PART_IN:
        return tr("1 part in R parts of feed")
    return tr("1 part added to R parts of water")


def weigh_texts(doses: Iterable[Measured], stock: Stock) -> tuple[str, ...]:
    """Give what to weigh and to fill up to, and what the scale makes of it."""
    said = []
    for dose in doses:
        real = dose.given_g / dose.mass_g
        key = "weigh" if dose.unit == GRAMS else "measure"
        key = f"{key}-real" if abs(real - 1) >= _REAL_SHARE_TOLD else key
        said.append(
            templates.MADE[key].format(
                amount=amount_text(dose),
                product=dose.product.name,
                share=number_text(100 * real, 1),
            )
        )
        if dose.too_small and dose.tool is not None:
            off = number_text(100 * dose.half_step_share, 0)
            said.append(templates.MADE["coarse"].format(tool=dose.tool.name, off=off))
    said.append(templates.MADE["fill"].format(volume=bottle_text(stock.volume_l)))
    return tuple(said)


def use_text(stock: Stock, ml_per_l: float) -> str:
    """Give the millilitres for a litre of feed, with the nitrogen they give."""
    ppm_n = ml_per_l / 1000 * nitrogen_mg_per_l(stock)
    key = "use-gives" if ppm_n >= _NITROGEN_TOLD_PPM else "use"
    return templates.MADE[key].format(
        ml=ml_text(ml_per_l), strength=number_text(ppm_n, 0)
    )


def ml_texts(stock: Stock) -> tuple[str, ...]:
    """Give the millilitres that hold a gram of each product."""
    return tuple(
        templates.MADE["gram"].format(ml=ml_text(1000 / g_per_l), product=product.name)
        for product, g_per_l in stock.g_per_l
        if g_per_l > 0
    )


def nitrogen_mg_per_l(stock: Stock) -> float:
    """Give the nitrogen in a litre of a stock."""
    return math.fsum(
        g_per_l * product.mg_per_g().get("N", 0.0) for product, g_per_l in stock.g_per_l
    )


def contents_texts(stock: Stock) -> tuple[str, ...]:
    """Give what is in a bottle, a line a product."""
    return tuple(
        templates.LABEL["contents"].format(
            grams=f"{plain(grams)} g",
            product=product.name,
            volume=bottle_text(stock.volume_l),
            strength=strength_text(grams / stock.volume_l),
        )
        for product, grams in stock.weighed
    )


def days_texts(made_on: date, until: date | None) -> tuple[str, str]:
    """Give when a bottle was made and until when it is used, with their years."""
    made = templates.LABEL["made"].format(day=dated_text(made_on))
    if until is None:
        return made, templates.LABEL["keep-none"]
    return made, templates.LABEL["keep"].format(day=dated_text(until))


def past_its_day_text(name: str, until: date, on: date) -> str:
    """Say that a bottle was to be used by a day that is past."""
    return tr(templates.PAST_ITS_DAY).format(name=name, day=day_text(until, on))


def label_use_texts(stock: Stock) -> tuple[str, ...]:
    """Give what 10 mL of a bottle hold and give."""
    said = [
        templates.LABEL["use"].format(
            grams=f"{plain(grams / stock.volume_l / 100)} g",
            product=product.name,
        )
        for product, grams in stock.weighed
    ]
    ppm_n = nitrogen_mg_per_l(stock) / 100
    if ppm_n >= _NITROGEN_TOLD_PPM:
        strength = number_text(ppm_n, 0)
        said.append(templates.LABEL["use-nitrogen"].format(strength=strength))
    return tuple(said)


def clear_text() -> str:
    """Say how a bottle is used and when it is not."""
    return templates.LABEL["clear"]


def lasts_text(weeks: float | None, feed_l_per_week: float) -> str:
    """Give how long a bottle lasts; nothing where nothing is used."""
    if weeks is None:
        return ""
    whole = math.floor(weeks + 1e-9)
    shown = trn("{count} week", "{count} weeks", whole).format(count=whole)
    return templates.MADE["lasts"].format(
        litres=bottle_text(feed_l_per_week),
        weeks=tr("less than a week") if weeks < 1 else shown,
    )


def proposed_text(made: Proposed) -> str:
    """Give a bottle worth making as a sentence."""
    return templates.PROPOSED["proposed"].format(
        product=made.product.name,
        grams=amount_text(made.weighed),
        volume=bottle_text(made.volume_l),
        strength=strength_text(made.g_per_l),
        ml=ml_text(made.dose.given_ml),
    )


def strength_text(g_per_l: float) -> str:
    """Give the strength of a stock."""
    return f"{plain(g_per_l)} g/L"


def ml_text(volume_ml: float) -> str:
    """Give millilitres no finer than they are read."""
    digits = 0 if volume_ml >= 100 else 1 if volume_ml >= 10 else 2
    return f"{number_text(volume_ml, digits)} mL"


def bottle_text(volume_l: float) -> str:
    """Give what a bottle holds to the millilitre, from a litre on to 10 mL."""
    if volume_l < 1:
        return f"{number_text(1000 * volume_l, 0)} mL"
    return f"{number_text(volume_l, 2)} L"


def litres_up(volume_l: float) -> str:
    """Give litres rounded up, so that what is said stays true."""
    step = 0.05 if volume_l < 1 else 0.1 if volume_l < 10 else 1.0
    return bottle_text(math.ceil(volume_l / step - 1e-9) * step)


def room_text(room: Room) -> str:
    """Say what a bottle is held against."""
    return tr(
        "Judged by {share} % of what dissolves at {temperature}, to be safe."
    ).format(
        share=fixed(room.share * 100, 0), temperature=temperature_text(room.coolest_c)
    )


def _shown(values: Mapping[str, object]) -> dict[str, str]:
    return {_FIELDS.get(name, name): _told(name, each) for name, each in values.items()}


def _told(name: str, value: object) -> str:
    if isinstance(value, tuple):
        return listed([ELEMENT_WORDS[metal] for metal in value])
    if name == "salt":
        return tr(str(value))
    form = _FORMS.get(name)
    return form(value) if form and isinstance(value, (int, float)) else str(value)


def _most_text(g_per_l: float) -> str:
    least = math.floor(g_per_l) if g_per_l >= 10 else math.floor(10 * g_per_l) / 10
    return f"{number_text(least)} g"


def _mg_text(mg_per_l: float) -> str:
    return f"{fixed(mg_per_l, 0)} mg/L"


_FIELDS: Final = {"coolest_c": "coolest", "metals": "metal"}
_FORMS: Final[Mapping[str, Callable[[float], str]]] = {
    "share": lambda share: f"{fixed(share * 100, 0)} %",
    "coolest_c": temperature_text,
    "grams": strength_text,
    "most": _most_text,
    "hco3": _mg_text,
    "ca": _mg_text,
    "ph": lambda ph: number_text(ph, 1),
}


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
