"""Tells how much of one product makes a strength in a volume; no collection needed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.dose import Dose, dose, dose_report
from growdesk.domain.dose_measured import (
    DoseMeasured,
    as_tool_gives,
    measured_report,
    tool_of,
    with_tool,
)
from growdesk.domain.measure_words import plain
from growdesk.domain.speech import tr
from growdesk.domain.units import (
    PPM_MEANS,
    parse_density_g_per_ml,
    parse_target,
    parse_volume_l,
)

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


_NARROWER = (
    "With the label's nitrate, ammonium and urea behind it that is narrower, as in "
    '"20-20-20 nitrate-N 5.9 ammonium-N 3.9 urea-N 10.2".'
)
_WIDE = 1.5


def run(arguments: Namespace, desk: Desk) -> None:  # noqa: ARG001 -- commands share one form
    """Print what to measure, and what the finished solution then holds."""
    density = arguments.density
    density_g_per_ml = (
        None if density is None else parse_density_g_per_ml(density, "--density")
    )
    analysis = parse_analysis(arguments.analysis, density_g_per_ml, "--analysis")
    made = dose(
        analysis,
        parse_target(arguments.target, "--target"),
        parse_volume_l(arguments.water, "--water"),
        "--target",
    )
    scale = arguments.scale
    told = None
    if scale is not None:
        tool = tool_of(scale, analysis, "--scale")
        told = as_tool_gives(made, analysis, tool)
    made = with_tool(made, told)
    if arguments.json:
        output.say_json({**dose_report(made), "measured": measured_report(told)})
        return
    for line in _lines(made, told):
        output.say(line)


def _lines(made: Dose, told: DoseMeasured | None) -> list[str]:
    millilitres = "" if made.volume_ml is None else f" or {plain(made.volume_ml)} mL"
    grams, litres = plain(made.mass_g), f"{made.volume_l:g}"
    lines = [f"{grams} g{millilitres} in {litres} L of solution."]
    if told is not None:
        lines.append(told.sentence)
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
        if high > _WIDE * low and not made.nitrogen_forms_mg_per_l:
            lines.append(_NARROWER)
    return [*lines, *made.warnings, tr(PPM_MEANS)]
