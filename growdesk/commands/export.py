"""Writes the collection out: CSV tables, photos, and a facts file."""

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
    keep_location: bool = arguments.keep_location
    with desk.reading(desk.today) as collection:
        made = export(collection, Path(arguments.folder), keep_location=keep_location)
    counts = (
        f"{output.counted(made.plants, 'plant')}, "
        f"{output.counted(made.looks, 'look')}, "
        f"{output.counted(made.care, 'piece of care', 'pieces of care')} and "
        f"{output.counted(made.photos, 'photo')}"
    )
    output.say(f"Wrote {counts} to {made.folder}.")
    for notice in made.notices:
        output.say(notice)
    if made.photos:
        kept = "They tell where they were taken: keep the folder to yourself."
        output.say(
            kept if keep_location else "The photos do not tell where they were taken."
        )
    output.say(f"It comes back with: growdesk import {made.folder}")
