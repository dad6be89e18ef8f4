"""Tells each plant's verdict on a day: for the collection, or for facts from a file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import answer, output, reading
from growdesk.domain.errors import InputError

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Sequence
    from datetime import date

    from growdesk.commands.answer import Answer
    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Print the verdicts; without ``--on``, of today."""
    on = reading.day("--on", arguments.on, desk.today)
    tags: list[str] | None = arguments.tag
    if arguments.facts is None:
        with desk.reading(on) as collection:
            house, plants, table = collection.day.facts(on)
    else:
        house, plants, table = reading.facts(arguments.facts)
    wanted = _wanted([plant.tag for plant in plants], tags)
    answers = [
        answer.from_facts(house, plant, on, table)
        for plant in plants
        if plant.tag in wanted
    ]
    if arguments.json:
        output.say_json([found.report() for found in answers])
        return
    for line in _lines(answers, on):
        output.say(line)


def _wanted(there: list[str], tags: list[str] | None) -> set[str]:
    """Give the tags asked for, or all; an unknown one is a slip."""
    if tags is None:
        return set(there)
    for tag in tags:
        if tag not in there:
            hint = "Look at the label, or leave --tag out to see all tags."
            raise InputError("--tag", tag, "is not the tag of any plant here", hint)
    return set(tags)


def _lines(answers: Sequence[Answer], on: date) -> list[str]:
    lines = [f"Verdicts for {on:%A} {on.isoformat()}"]
    if not answers:
        lines.append("There are no plants.")
    for verdict, words in answer.VERDICT_WORDS.items():
        group = [found for found in answers if found.verdict is verdict]
        if group:
            lines.extend(["", f"{words} ({len(group)})"])
            for found in group:
                lines.extend(_of_plant(found))
    return lines


def _of_plant(found: Answer) -> list[str]:
    facts = (
        output.ppm_n(found.strength_ppm_n),
        output.litres(found.pour_l),
        answer.WATER_WORDS[found.water],
    )
    head = f"  {found.tag}  {found.name}".rstrip()
    told = [
        *(reason.sentence for reason in found.told),
        found.strength_sentence,
        *found.would_change,
    ]
    lines = [f"{head}: {', '.join(fact for fact in facts if fact)}"]
    return [*lines, *(f"      {sentence}" for sentence in told if sentence)]
