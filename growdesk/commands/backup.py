"""Writes the whole collection, photos included, into one file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.services.care_of_files import backup_folder
from growdesk.services.clock import SystemClock

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Write the backup and say what is in it."""
    with desk.folder_there(desk.today) as folder:
        made = backup_folder(folder, Path(arguments.file), SystemClock().now())
    for problem in made.problems:
        output.say(problem)
    output.say(
        f"Backed up to {made.file} with {output.counted(made.photos, 'photo')}; "
        "it was read back."
    )
