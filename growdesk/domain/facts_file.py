"""Gives the house and the plants of a facts file, read strictly.

A facts file is how others script against the judging, so that nothing in it is
guessed: an unknown field, a wrong word or an impossible number is one plain line. It
takes an already decoded object or a text; it opens no file.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Fields, Shown
from growdesk.domain.facts_house import read_house
from growdesk.domain.facts_plant import read_plant
from growdesk.domain.speech import mark, tr

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import House, Plant

TOP_FIELDS = ("house", "kinds", "plants")
FACTS_HINT = mark("Write it as JSON, as in the example of the README.")


class _NotJsonError(ValueError):
    """JSON that Python would take and no one else: NaN, Infinity, a key twice."""


def parse_json(text: str, source: str, field: str = "facts", hint: str = "") -> object:
    """Give the decoded object of a JSON text; ``source`` names it in errors."""
    try:
        return json.loads(
            text, parse_constant=_refuse_constant, object_pairs_hook=_once
        )
    except json.JSONDecodeError as error:
        spot = tr("line {lineno}, column {colno}").format(
            lineno=error.lineno, colno=error.colno
        )
        problem = tr("is not JSON at {spot}: {msg}").format(spot=spot, msg=error.msg)
    except _NotJsonError as error:
        problem = tr("is not JSON: {error}").format(error=error)
    except RecursionError:
        problem = tr("is nested too deeply")
    except ValueError:
        problem = tr("holds a number that is too long")
    raise InputError(field, source, problem, hint or tr(FACTS_HINT))


def read_facts(value: object) -> tuple[House, tuple[Plant, ...]]:
    """Give the house rules and the plants of a decoded facts file.

    Its corrected kinds need the table: ``growdesk.domain.facts_kinds`` reads them.
    """
    fields = Fields.of("facts", value, tr("a facts file"), TOP_FIELDS)
    fields.require("plants", tr("Give a list of plants, in square brackets."))
    house = read_house(fields.items.get("house"))
    entries = enumerate(fields.entries("plants"), start=1)
    plants = tuple(read_plant(number, entry) for number, entry in entries)
    _refuse_twice(plants)
    for plant in plants:
        _refuse_two_looks(plant)
    return house, plants


def _refuse_twice(plants: tuple[Plant, ...]) -> None:
    seen: set[str] = set()
    for number, plant in enumerate(plants, start=1):
        if plant.tag in seen:
            raise InputError(
                _at(
                    tr("plant number {place_in_list}").format(place_in_list=number),
                    "tag",
                ),
                Shown(plant.tag),
                tr("is already the tag of another plant"),
                tr("Give every plant a tag of its own."),
            )
        seen.add(plant.tag)


def _refuse_two_looks(plant: Plant) -> None:
    """Refuse two looks of one day: which of them holds would hang on their order."""
    seen: set[date] = set()
    for look in plant.looks:
        if look.on in seen:
            raise InputError(
                _at(tr("plant {tag}").format(tag=plant.tag), "looks"),
                Shown(look.on.isoformat()),
                tr("is the day of two looks"),
                tr("Put what was seen that day into one look."),
            )
        seen.add(look.on)


def _at(where: str, name: str) -> str:
    return f"{where}, {name}"


def _refuse_constant(name: str) -> object:
    message = tr("{name} is no number").format(name=name)
    raise _NotJsonError(message)


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    read = dict(pairs)
    if len(read) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        message = tr("the field {twice!r} stands twice in one object").format(
            twice=twice
        )
        raise _NotJsonError(message)
    return read
