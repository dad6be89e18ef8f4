"""Tells the conductivity that salts give to water."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output, reading
from growdesk.domain.conductivity import Prediction, ec_report, predict
from growdesk.domain.salts import SALTS_EXAMPLE, parse_salts

if TYPE_CHECKING:
    from argparse import Namespace

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
    rows = [
        (ion, f"{amount:.3f} mmol/L")
        for ion, amount in predicted.ions_mmol_per_l.items()
    ]
    return [*lines, *output.columns(rows), *predicted.notes]
