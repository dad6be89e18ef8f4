"""Tells what a recipe makes at a strength: grams, elements, what is missed, EC."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output, reading
from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import expected_ec
from growdesk.domain.recipe import mixture
from growdesk.domain.recipe_file import RECIPE_EXAMPLE, mix_report, parse_recipe
from growdesk.domain.recipe_words import nitrogen_advice
from growdesk.domain.speech import tr
from growdesk.domain.units import PPM_MEANS, parse_target

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.domain.recipe import Mixture


def run(arguments: Namespace, desk: Desk) -> None:  # noqa: ARG001 -- commands share one form
    """Print what goes into a litre of a recipe from a file, and what it then holds."""
    target = parse_target(arguments.strength, "--strength")
    if target.nutrient != "N":
        hint = 'Give it in nitrogen, for instance "120 ppm N".'
        raise InputError("--strength", arguments.strength, "is not of nitrogen", hint)
    recipe, water = parse_recipe(
        reading.json_file("--recipe", arguments.recipe, f"Write {RECIPE_EXAMPLE}.")
    )
    mixed = mixture(recipe, target.strength_mg_per_l, water)
    if arguments.json:
        output.say_json(mix_report(mixed))
        return
    for line in _lines(mixed):
        output.say(line)


def _lines(mixed: Mixture) -> list[str]:
    grams = [(product.name, f"{g:.4g} g") for product, g in mixed.g_per_l if g > 0]
    wanted = mixed.misfit_mg_per_l
    rows = [
        (
            element,
            f"{got:.1f} mg/L",
            f"wanted {got - wanted[element]:.1f}" if element in wanted else "",
        )
        for element, got in mixed.elements_mg_per_l.items()
    ]
    ec = expected_ec(mixed)
    advice = nitrogen_advice(mixed.nitrogen_forms_mg_per_l, mixed.strength_ppm_n)
    return [
        f"{mixed.recipe.name}, a litre at {mixed.strength_ppm_n:.0f} ppm N:",
        *output.columns(grams),
        "It then holds:",
        *output.columns(rows),
        *([] if ec is None else [_ec(ec.low_ms_per_cm, ec.high_ms_per_cm), *ec.notes]),
        *mixed.notes,
        *([advice] if advice else []),
        tr(PPM_MEANS),
    ]


def _ec(low: float, high: float) -> str:
    return f"Expect {low:.2f} to {high:.2f} mS/cm at 25 °C."
