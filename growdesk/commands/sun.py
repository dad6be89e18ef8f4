"""Tells the day length and the sun's radiation above the air for a latitude and day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import asdict

from growdesk.commands import output, reading
from growdesk.domain.facts_fields import Range
from growdesk.domain.sun import sun

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk

LATITUDE = Range(-90, 90)


def run(arguments: Namespace, desk: Desk) -> None:
    """Print the sun of a day; without ``--on``, of today."""
    latitude = reading.number("--latitude", arguments.latitude, LATITUDE)
    on = reading.day("--on", arguments.on, desk.today)
    answer = asdict(sun(latitude, on))
    if arguments.json:
        output.say_json(answer)
        return
    output.say(f"{on.isoformat()} at latitude {latitude:g}°")
    rows = [
        ("day length (FAO 56)", f"{answer['day_length_h']:.2f} h"),
        ("sunrise to sunset", f"{answer['sunrise_to_sunset_h']:.2f} h"),
        ("sun above the air (Ra)", f"{answer['ra_mj_per_m2_d']:.2f} MJ/m² a day"),
    ]
    for line in output.columns(rows):
        output.say(line)
