"""Tells how much of one product makes a strength in a volume; no collection needed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.dose import Dose, dose, dose_report
from growdesk.domain.units import (
    PPM_MEANS,
    parse_density_g_per_ml,
    parse_target,
    parse_volume_l,
)

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:  # noqa: ARG001 -- commands share one form
    """Print what to measure, and what the finished solution then holds."""
    density = arguments.density
    density_g_per_ml = (
        None if density is None else parse_density_g_per_ml(density, "--density")
    )
    made = dose(
        parse_analysis(arguments.analysis, density_g_per_ml, "--analysis"),
        parse_target(arguments.target, "--target"),
        parse_volume_l(arguments.water, "--water"),
        "--target",
    )
    if arguments.json:
        output.say_json(dose_report(made))
        return
    for line in _lines(made):
        output.say(line)


def _lines(made: Dose) -> list[str]:
    millilitres = "" if made.volume_ml is None else f" or {made.volume_ml:.3g} mL"
    lines = [f"{made.mass_g:.3g} g{millilitres} in {made.volume_l:g} L of solution."]
    rows = [
        (element, f"{strength_mg_per_l:.1f} mg/L")
        for element, strength_mg_per_l in made.elements_mg_per_l.items()
    ]
    lines.extend(output.columns(rows))
    if made.ec_range_ms_per_cm is not None:
        low, high = made.ec_range_ms_per_cm
        lines.append(
            f"Expect {low:.2f} to {high:.2f} mS/cm at 25 °C more than the water has."
        )
    return [*lines, *made.warnings, PPM_MEANS]
