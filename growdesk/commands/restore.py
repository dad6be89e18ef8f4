"""Brings a collection back from a backup: a file, a folder, or a day.

The one that was there is set aside; with ``--into`` it is left alone.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import InputError
from growdesk.services.clock import SystemClock
from growdesk.services.restoring import restore, restore_into

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Restore into the collection's folder, or a new one, and say what was done."""
    if desk.demo:
        hint = "Leave --demo out, or name a folder with --collection DIR."
        raise InputError("--demo", arguments.file, "cannot be restored into", hint)
    now = SystemClock().now()
    with desk.folder(desk.today) as folder:
        if arguments.into is None:
            back = restore(arguments.file, folder, now)
        else:
            back = restore_into(arguments.file, folder, Path(arguments.into), now)
    output.say(
        f"Restored {back.folder} as of {back.made_at} with "
        f"{output.counted(back.plants, 'plant')} and "
        f"{output.counted(back.photos, 'photo')}."
    )
    for problem in back.problems:
        output.say(problem)
    if back.set_aside is not None:
        output.say(f"The collection that was there is kept in {back.set_aside}.")
