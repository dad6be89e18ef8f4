"""Say in words what a litre of feed holds and what was wanted of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.phrases import listed
from growdesk.domain.recipe_words import ELEMENT_WORDS
from growdesk.domain.speech import fixed, tr
from growdesk.ui import recipe_texts

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.recipe_values import ElementRow, MixChart


def mix_title(chart: MixChart) -> str:
    """Give the name of the chart."""
    look = chart.look
    return tr("{name}: a litre at {strength_ppm_n} ppm N in {water}").format(
        name=chart.name, strength_ppm_n=fixed(look.strength_ppm_n, 0), water=look.water
    )


def mix(chart: MixChart) -> Iterator[str]:
    """Give the chart in a few sentences."""
    rows = chart.look.rows
    wanted = [row for row in rows if row.wanted_mg_per_l is not None]
    if wanted:
        yield tr("Of what is wanted, {list}.").format(
            list=listed([_held(row) for row in wanted])
        )
    others = [row for row in rows if row.wanted_mg_per_l is None]
    if others:
        lead = tr("Besides, a litre holds") if wanted else tr("A litre holds")
        told = [f"{recipe_texts.amount(r.got_mg_per_l)} mg {r.element}" for r in others]
        yield f"{lead} {listed(told)}."
    water = [row for row in rows if row.from_water_mg_per_l > 0]
    if water:
        told = [
            f"{recipe_texts.amount(row.from_water_mg_per_l)} mg {row.element}"
            for row in water
        ]
        yield tr("The water brings {list} of that.").format(list=listed(told))
    yield from chart.look.notes


def _held(row: ElementRow) -> str:
    name = ELEMENT_WORDS[row.element]
    got = recipe_texts.amount(row.got_mg_per_l)
    wanted = recipe_texts.amount(row.wanted_mg_per_l or 0.0)
    if got == wanted:
        return tr("{name} is met with {got} mg").format(name=name, got=got)
    return tr("{name} comes to {got} mg for {wanted}").format(
        name=name, got=got, wanted=wanted
    )
