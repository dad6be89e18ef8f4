"""Writes the collection out as CSV tables and as a facts file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.services.transfer import export

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Write the folder and say what is in it."""
    with desk.reading(desk.today) as collection:
        made = export(collection, Path(arguments.folder))
    counts = (
        f"{output.counted(made.plants, 'plant')}, {output.counted(made.looks, 'look')} "
        f"and {output.counted(made.care, 'piece of care', 'pieces of care')}"
    )
    output.say(f"Wrote {counts} to {made.folder}.")
    output.say("Photos are in a backup: growdesk backup FILE.")
