"""Give what is mixed in words, the same on the screen and on the sheet.

A jug is told by all that goes into it, its spare included, since that is what its
grams are for. The ladder is told as another way to mix the same jugs, never as a
second dose. Knows no widget, no paper and no arithmetic beyond a sum.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import measure_words
from growdesk.domain.mix_words import order
from growdesk.domain.phrases import listed, number_word
from growdesk.domain.speech import mark, tr
from growdesk.domain.volume_words import volume_text
from growdesk.domain.water_words import spoken as said_water
from growdesk.ui import dose_words, jug_measuring

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.domain.measuring import Measured
    from growdesk.services.jug_values import JugFill, LadderJug
    from growdesk.services.values import Jug, MixPlan

NO_FEED = mark("No feed to mix this round.")
_LADDER = mark("Or mix once and dilute down, jug by jug")
_LADDER_FIRST = mark("Mix once and dilute down, jug by jug")
_ONE_STEP = mark("Step by step")
_JUGS = mark("Mix in this order")
_JUGS_OTHER = mark("Or dose each jug on its own")
ORDER = mark(
    "Most of the water first, then each product as listed, the next when the one "
    "before is dissolved; what holds calcium goes in last. Then fill up."
)
_INSTEAD_BELOW = mark("This is instead of the weights below, never on top of them.")
_INSTEAD_ABOVE = mark("This is instead of the weights above, never on top of them.")


def mixed_l(jug: Jug) -> float:
    """Give the litres that are mixed in a jug: what is poured, and its spare."""
    return jug.volume_l + jug.spare_l


def volume(jug: Jug) -> str:
    """Say how much is mixed in a jug, or that nobody knows."""
    return litres_text(mixed_l(jug))


def litres_text(litres: float) -> str:
    """Say how much is mixed, or that nobody knows while no pot has its volume."""
    return volume_text(litres) if litres > 0 else tr("litres not known")


def spare(jug: Jug) -> str:
    """Say how much of a jug is to spare; nothing where what stays over is told."""
    if jug.over_l > 0:
        return ""
    return (
        tr("{spare_l} of it to spare").format(spare_l=volume_text(jug.spare_l))
        if jug.spare_l
        else ""
    )


def water_name(mix: MixPlan) -> str:
    """Give the water in use as it is spoken of, or that it is whatever is at hand."""
    if mix.water is None:
        return tr("your water")
    return said_water("", mix.water.strip())


def recipe(jug: Jug, mix: MixPlan) -> str:
    """Name a jug's recipe where the round has several, or nothing."""
    return _recipe(jug) if len({_recipe(each) for each in mix.jugs}) > 1 else ""


def recipe_of_all(mix: MixPlan) -> str:
    """Name the recipe that all jugs of a round are of, or nothing."""
    names = {_recipe(jug) for jug in mix.jugs}
    return names.pop() if len(names) == 1 else ""


def _recipe(jug: Jug) -> str:
    """Name a jug's recipe where its products do not name it already."""
    names = [each.product.name for each in jug.doses]
    return "" if names == [jug.recipe] else jug.recipe


def in_parts(jug: Jug) -> bool:
    """Tell whether a jug is mixed in several parts, each with its own dose."""
    several = sum(each.how_many for each in jug.fills) > 1
    return several and all(each.doses for each in jug.fills)


def mixes(fill: JugFill) -> str:
    """Count the mixes of a size: "Two mixes of 4 L, each"."""
    litres = volume_text(fill.volume_l)
    if fill.how_many > 1:
        word = number_word(fill.how_many)
        return tr("{number} mixes of {litres}, each").format(
            number=word[:1].upper() + word[1:], litres=litres
        )
    return tr("One mix of {litres}").format(litres=litres)


def part(fill: JugFill) -> str:
    """Tell one mix with its doses: "Two mixes of 4 L, each 6.6 g of Tin"."""
    doses = ", ".join(dose_words.dose_line(each) for each in fill.doses)
    return f"{mixes(fill)}{' ' if fill.how_many > 1 else ': '}{doses}"


def how_mixed(jug: Jug) -> tuple[str, ...]:
    """Say how a jug is mixed: its parts, the order, cans; not what goes without."""
    return jug.mixing if len(jug.doses) != 1 else beside_order(jug)


def beside_order(jug: Jug) -> tuple[str, ...]:
    """Say how a jug is mixed but for the order, where the list has it already."""
    plain = {order(each, litres) for each, litres in _mixes(jug)}
    return tuple(sentence for sentence in jug.mixing if sentence not in plain)


def order_of_all(mix: MixPlan) -> str:
    """Say once in which order products go in, where a jug has more than one."""
    return tr(ORDER) if any(len(jug.doses) > 1 for jug in mix.jugs) else ""


def _mixes(jug: Jug) -> Iterator[tuple[Sequence[Measured], float | None]]:
    """Give the doses and litres that an order of mixing may be told of."""
    yield jug.doses, None
    yield jug.doses, mixed_l(jug)
    for each in jug.fills:
        yield each.doses, None
        yield each.doses, each.volume_l


def missing(jug: Jug, mix: MixPlan) -> str:
    """Say why nothing can be weighed for a jug; nothing where it can."""
    if mixed_l(jug) <= 0:
        return tr("No plant of this jug has its volume on record, so no weight.")
    if jug.doses:
        return ""
    into = into_words(jug, mix)
    name = jug.recipe or mix.tin
    if name is None:
        return tr("Into {into}: no tin is in use, so no weight.").format(into=into)
    return tr("Into {into}: {name} gives no weight.").format(into=into, name=name)


def weigh(jug: Jug, mix: MixPlan) -> str:
    """Say what goes into a jug, or what is missing to say it."""
    doses = ", ".join(dose_words.dose(each) for each in jug.doses)
    return missing(jug, mix) or dose_words.weigh_into(jug.doses).format(
        doses=doses, into=into_words(jug, mix)
    )


def has_weight(jug: Jug) -> bool:
    """Tell whether a jug's doses are known."""
    return bool(jug.doses)


def into_words(jug: Jug, mix: MixPlan) -> str:
    """Say into how much of which water the dose of a jug goes."""
    return f"{volume_text(mixed_l(jug))} {of_water(jug, mix)}"


def of_water(jug: Jug, mix: MixPlan) -> str:
    """Say of which water a jug is: "of rain water"."""
    needs = {need.key: need for need in mix.waters}
    need = needs.get(jug.water_id or 0)
    if need is not None:
        return tr("of {said_water}").format(said_water=said_water(need.name, need.kind))
    return tr("of {value}").format(value=jug.water or water_name(mix))


def gives(jug: Jug) -> str:
    """Say which strength comes out, where that is another than is wanted."""
    given, wanted = jug.gives_ppm_n, jug.strength_ppm_n
    if given is None or round(given) == wanted:
        return ""
    told = measure_words.gives(given, wanted)
    return f"{told[0].upper()}{told[1:]}."


def expected(jug: Jug) -> str:
    """Give the EC to expect: one figure where it is known, and the range around it."""
    return dose_words.ec_text(
        jug.ec_ms_per_cm, jug.ec_low_ms_per_cm, jug.ec_high_ms_per_cm
    )


def expected_diluted(jug: LadderJug) -> str:
    """Give the EC to expect of a jug that is diluted down; nothing if unknown."""
    ec = jug.ec
    if ec is None:
        return ""
    return dose_words.ec_text(ec.ec_ms_per_cm, ec.low_ms_per_cm, ec.high_ms_per_cm)


def meters_diluted(mix: MixPlan) -> str:
    """Say what a meter should read down the ladder, jug by jug, where it goes first."""
    told = [(jug.letter, expected_diluted(jug)) for jug in mix.ladder_jugs]
    each = "; ".join(
        tr("jug {letter} {text} mS/cm").format(letter=letter, text=text)
        for letter, text in told
        if text
    )
    return (
        tr("A meter should read, diluted so: {each}.").format(each=each) if each else ""
    )


def meter(jug: Jug) -> str:
    """Say what a meter should read, or nothing where nobody knows."""
    told = expected(jug)
    return tr("A meter should read {told} mS/cm.").format(told=told) if told else ""


def spoken(jug: Jug, mix: MixPlan) -> str:
    """Give a jug as a screen reader should say it, a sentence for each thing."""
    parts = [
        tr("Jug {letter}, {strength_ppm_n} ppm N, {jug}").format(
            letter=jug.letter, strength_ppm_n=jug.strength_ppm_n, jug=volume(jug)
        ),
        weigh(jug, mix),
        gives(jug),
        spare(jug),
        meter(jug),
        *jug_measuring.to_mind(jug),
        served(jug),
    ]
    return " ".join(f"{part.rstrip('.')}." for part in parts if part)


def served(jug: Jug) -> str:
    """Name the plants of a jug."""
    return tr("For {list}.").format(list=", ".join(jug.tags))


def jugs_heading(mix: MixPlan) -> str:
    """Say what the jugs with their weights are: the way to mix, or the other way."""
    return tr(_JUGS_OTHER) if mix.ladder_first else tr(_JUGS)


def ladder_heading(mix: MixPlan) -> str:
    """Say what the steps of the ladder are: another way to mix the same jugs."""
    if len(mix.jugs) < 2:
        return tr(_ONE_STEP)
    return tr(_LADDER_FIRST) if mix.ladder_first else tr(_LADDER)


def ladder_caution(mix: MixPlan) -> str:
    """Say that the steps take the place of the weights, where there are weights."""
    if len(mix.jugs) < 2 or not any(has_weight(jug) for jug in mix.jugs):
        return ""
    return tr(_INSTEAD_BELOW) if mix.ladder_first else tr(_INSTEAD_ABOVE)


def clear_total_l(mix: MixPlan) -> float:
    """Give the litres of clear water to have ready, without the spare."""
    return mix.clear_l + mix.flush_l


def outside_band(mix: MixPlan) -> str:
    """Name the plants whose jug is further from their strength than the band."""
    if not mix.outside_band:
        return ""
    tags = ", ".join(mix.outside_band)
    return tr("Weaker or stronger than the band allows: {tags}.").format(tags=tags)


def remarks(mix: MixPlan) -> tuple[str, ...]:
    """Say what else is to be known of a round's mixing, but for what runs short."""
    told = (*mix.remarks, outside_band(mix), volume_unknown(mix))
    return tuple(each for each in told if each)


def one_more(mix: MixPlan) -> str:
    """Say what one jug more would do for the plants outside their band."""
    more = mix.one_more
    if more is None:
        return ""
    count = len(more.strengths_ppm_n)
    strengths = listed([str(each) for each in more.strengths_ppm_n])
    left, now = len(more.outside_band), len(mix.outside_band)
    if not left:
        said = tr(
            "One jug more, {count} in all, of {strengths} ppm N, would serve every "
            "plant within its band."
        )
    elif left >= now:
        said = tr(
            "One jug more, {count} in all, of {strengths} ppm N, would leave as many "
            "outside; within its band every plant is served by {fewest} jugs."
        )
    else:
        said = tr(
            "One jug more, {count} in all, of {strengths} ppm N, would leave {left} of "
            "these {now} outside; within its band every plant is served by {fewest} "
            "jugs."
        )
    return said.format(
        count=count, strengths=strengths, left=left, now=now, fewest=more.fewest
    )


def volume_unknown(mix: MixPlan) -> str:
    """Name the plants that are not in the litres."""
    if not mix.volume_unknown:
        return ""
    return tr("Not in the litres above, no volume known: {list}.").format(
        list=", ".join(mix.volume_unknown)
    )
