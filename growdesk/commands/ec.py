"""Tells the conductivity that salts give to water."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output, reading
from growdesk.domain.ec_prediction import Prediction, ec_report, predict
from growdesk.domain.salts import SALTS_EXAMPLE, parse_salts

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Mapping

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:  # noqa: ARG001 -- commands share one form
    """Print the EC at 25 °C and the ions the salts bring."""
    salts = parse_salts(
        reading.json_file("--salts", arguments.salts, f"Write {SALTS_EXAMPLE}.")
    )
    predicted = predict(salts)
    if arguments.json:
        output.say_json(ec_report(predicted))
        return
    for line in _lines(predicted):
        output.say(line)


def _lines(predicted: Prediction) -> list[str]:
    lines = [f"{predicted.ec_ms_per_cm:.2f} mS/cm at 25 °C, the water's own included."]
    if predicted.temperature_c != 25:
        lines.append(
            f"A meter without compensation reads "
            f"{predicted.ec_at_temperature_ms_per_cm:.2f} mS/cm "
            f"at {predicted.temperature_c:g} °C."
        )
    lines += _ions(predicted.ions_mmol_per_l)
    if predicted.water_ions_mmol_per_l:
        lines += ["Taken for the water:", *_ions(predicted.water_ions_mmol_per_l)]
    return [*lines, *predicted.notes]


def _ions(ions_mmol_per_l: Mapping[str, float]) -> list[str]:
    rows = [(ion, f"{amount:.3f} mmol/L") for ion, amount in ions_mmol_per_l.items()]
    return output.columns(rows)
