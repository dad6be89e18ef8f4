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
from growdesk.services.whereabouts import home_of

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.services.whereabouts import OnServer


def run(arguments: Namespace, desk: Desk) -> None:
    """Restore into the collection's folder, or a new one, and say what was done."""
    if desk.demo:
        hint = "Leave --demo out, or name a folder with --collection DIR."
        raise InputError("--demo", arguments.file, "cannot be restored into", hint)
    now = SystemClock().now()
    with desk.where(desk.today) as where:
        if arguments.into is not None:
            new = Path(arguments.into)
            back = restore_into(arguments.file, home_of(where), new, now)
        elif isinstance(where, Path):
            back = restore(arguments.file, where, now)
        else:
            raise _not_onto_a_server(where)
    output.say(
        f"Restored {back.folder} as of {back.made_at} with "
        f"{output.counted(back.plants, 'plant')} and "
        f"{output.counted(back.photos, 'photo')}."
    )
    for problem in back.problems:
        output.say(problem)
    if back.set_aside is not None:
        output.say(f"The collection that was there is kept in {back.set_aside}.")


def _not_onto_a_server(where: OnServer) -> InputError:
    """Say how a backup comes onto a server: what others see is not changed at once."""
    hint = (
        "Restore into a new folder with --into DIR; then carry that over into an empty "
        "database with: growdesk --collection DIR carry-over --to URL."
    )
    problem = "lies on a server, whose collection is not replaced while others use it"
    return InputError("--collection", where.address.bare, problem, hint)
