"""Reads a plant's name: how it is shown, its parts, what is doubtful, how it sorts.

No collection is needed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import InputError
from growdesk.services import names

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.domain.plant_name import PlantName
    from growdesk.services.name_values import NameView

_HINT = "Write it as on the label, in quotes: \"Phal. amabilis 'Snow'\"."


def run(arguments: Namespace, _desk: Desk) -> None:
    """Print a name's parts."""
    asked: str = arguments.text
    view = names.told(asked)
    if not view.text:
        raise InputError("name", asked, "is empty", _HINT)
    if arguments.json:
        output.say_json(_report(view))
        return
    output.say(view.shown)
    for line in output.columns(view.parts):
        output.say(line)
    for doubt in view.doubts:
        output.say(f"{doubt.said} {doubt.settles}")
        for proposal in doubt.proposals:
            output.say(f"  it may be: {proposal}")


def _report(view: NameView) -> dict[str, object]:
    return {
        "typed": view.text,
        "shown": view.shown,
        "runs": [{"text": run.text, "italic": run.italic} for run in view.runs],
        "parts": _parts(view.name),
        "doubts": [
            {
                "doubt": doubt.sort,
                "said": doubt.said,
                "settles": doubt.settles,
                "proposals": list(doubt.proposals),
                "keeps_it_plain": not doubt.is_gentle,
            }
            for doubt in view.doubts
        ],
        "sort_key": list(view.sort_key),
    }


def _parts(name: PlantName) -> dict[str, object]:
    """Give a name's parts under their own keys, its parents within it."""
    return {
        "genus": name.genus,
        "nothogenus": name.is_nothogenus,
        "former_genus": name.former,
        "species": name.species,
        "natural_hybrid": name.is_natural_hybrid,
        "ranks": [{"rank": rank, "epithet": word} for rank, word in name.ranks],
        "grex": name.grex,
        "trade": name.trade,
        "clone": name.clone,
        "awards": [{"code": a.code, "society": a.society} for a in name.awards],
        "qualifiers": list(name.qualifiers),
        "no_id": name.no_id,
        "notes": list(name.notes),
        "pod": None if name.pod is None else _parts(name.pod),
        "pollen": None if name.pollen is None else _parts(name.pollen),
    }
