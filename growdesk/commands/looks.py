"""Tells which looks are worth taking on a day: where one may turn the verdict."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import answer, output, reading
from growdesk.domain.errors import InputError

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Sequence
    from datetime import date

    from growdesk.commands.desk import Desk
    from growdesk.services.look_values import WorthLine

MOST_PLANTS = 10_000
DIGITS = 3


def run(arguments: Namespace, desk: Desk) -> None:
    """Print the looks worth taking; without ``--on``, today."""
    on = reading.day("--on", arguments.on, desk.today)
    count = _count(arguments.count)
    with desk.reading(on) as collection:
        lines = collection.day.worth(on)[:count]
    if arguments.json:
        output.say_json([_report(line) for line in lines])
        return
    for text in _lines(lines, on):
        output.say(text)


def _count(text: str) -> int:
    hint = f"Give a whole number from 1 to {MOST_PLANTS}."
    if not (text.isascii() and text.isdigit()):
        raise InputError("--count", text, "is not a number of plants", hint)
    fits = len(text) <= len(str(MOST_PLANTS)) and 1 <= int(text) <= MOST_PLANTS
    if not fits:
        raise InputError("--count", text, "is out of range", hint)
    return int(text)


def _report(line: WorthLine) -> dict[str, object]:
    return {
        "tag": line.tag,
        "name": line.name,
        "place": line.place,
        "likelihood": round(line.likelihood, DIGITS),
        "verdict": line.verdict_now.value,
        "would_turn_to": line.would_turn_to.value,
        "why": line.why,
    }


def _lines(lines: Sequence[WorthLine], on: date) -> list[str]:
    told = [f"Looks worth taking on {on:%A} {on.isoformat()}"]
    if not lines:
        told.append("No look is likely to turn a verdict.")
    for number, line in enumerate(lines, start=1):
        where = f", {line.place}" if line.place else ""
        now = answer.VERDICT_WORDS[line.verdict_now]
        told.append(f"{number:>3}. {line.tag}  {line.name}{where}: {now}")
        told.append(f"      {line.why}")
    return told
