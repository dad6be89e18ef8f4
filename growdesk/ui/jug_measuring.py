"""Say with what a jug's doses are measured, and what is to be minded of that."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import measure_words
from growdesk.domain.measuring import SPOONS
from growdesk.domain.phrases import listed
from growdesk.domain.speech import mark, tr

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.domain.measuring import Measured
    from growdesk.services.jug_values import BottleToMake
    from growdesk.services.values import Jug, MixPlan

_TOO_SMALL = mark(
    "Too small to measure well: {names}. A bottle of stock solution, or more litres at "
    "once, measures them better."
)


def to_mind(jug: Jug) -> tuple[str, ...]:
    """Give a jug's warnings, all doses too small to measure well in one sentence."""
    small = _too_small(jug)
    if len(small) < 2:
        return jug.warnings
    rest = tuple(each for each in jug.warnings if not _is_of(each, small))
    names = dict.fromkeys(each.taken_from for each in small)
    return (*rest, tr(_TOO_SMALL).format(names=listed(tuple(names))))


def too_small(mix: MixPlan) -> str:
    """Name all of a round that is too small to measure well; nothing where all is."""
    small = (each for jug in mix.jugs for each in _too_small(jug))
    names = dict.fromkeys(each.taken_from for each in small)
    return tr(_TOO_SMALL).format(names=listed(tuple(names))) if names else ""


def bottles_for(jug: Jug, mix: MixPlan) -> tuple[BottleToMake, ...]:
    """Give the bottles worth making for what is too small in a jug."""
    keys = {each.product.key for each in _too_small(jug)}
    return tuple(each for each in mix.bottles if each.tin_id in keys)


def make_it(bottle: BottleToMake) -> str:
    """Say what is pressed to make a bottle."""
    return tr("Make a bottle of {product}…").format(product=bottle.product)


def in_full(jug: Jug) -> tuple[str, ...]:
    """Give the warnings that ``to_mind`` puts in one, each with its way out."""
    small = _too_small(jug)
    if len(small) < 2:
        return ()
    return tuple(each for each in jug.warnings if _is_of(each, small))


def measured_with(jug: Jug) -> tuple[str, ...]:
    """Say with which tools, and how where it takes more than one load or a spoon."""
    doses = [dose for dose in _each_dose(jug) if dose.tool is not None]
    named = dict.fromkeys(measure_words.named(d.tool.name) for d in doses if d.tool)
    told = (
        [tr("Measured with the {list}.").format(list=listed(tuple(named)))]
        if named
        else []
    )
    hard = (d for d in doses if d.loads > 1 or d.unit == SPOONS)
    return tuple(dict.fromkeys((*told, *(f"{measure_words.how(d)}." for d in hard))))


def _each_dose(jug: Jug) -> tuple[Measured, ...]:
    """Give the doses of each mix, or of the jug that is one."""
    return tuple(dose for each in jug.fills for dose in each.doses) or jug.doses


def _too_small(jug: Jug) -> tuple[Measured, ...]:
    return tuple(dose for dose in _each_dose(jug) if dose.too_small)


def _is_of(warning: str, doses: Iterable[Measured]) -> bool:
    return any(warning.startswith(measure_words.what_is_wrong(d)) for d in doses)
