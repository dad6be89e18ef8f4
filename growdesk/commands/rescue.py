"""Saves what can be read of a damaged collection into a new one."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.commands.desk import Desk
from growdesk.domain.errors import InputError

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.services.rescue_values import Rescued

ALL_SAVED, NOT_ALL = 0, 3


def run(arguments: Namespace, desk: Desk) -> int:
    """Rescue, and say what was saved and what was not; 3 where not all was."""
    from growdesk.services.clock import SystemClock  # noqa: PLC0415 -- the store is slow to load
    from growdesk.services.rescuing import free_name, rescue  # noqa: PLC0415 -- ditto

    if desk.demo:
        hint = "Leave --demo out, and name the damaged collection's folder."
        raise InputError("--demo", "", "needs no rescue", hint)
    given = Desk(desk.today, arguments.folder) if arguments.folder else desk
    with given.folder_there(desk.today) as folder:
        into = Path(arguments.into) if arguments.into else free_name(folder)
        return _say(rescue(folder, into, SystemClock().now()))


def _say(made: Rescued) -> int:
    rows = [
        (
            each.called.capitalize(),
            str(each.read),
            str(each.brought_back or ""),
            str(each.lost or ""),
        )
        for each in made.saved
    ]
    head = ("", "read", "from the history", "lost")
    for line in output.columns([head, *rows]):
        output.say(line)
    for line in made.lines:
        output.say(line)
    output.say(
        f"Saved into {made.folder}: {output.counted(made.entries, 'entry', 'entries')} "
        f"and {output.counted(made.photos, 'photo')}; "
        f"{output.counted(made.lost, 'entry is', 'entries are')} known to be lost, "
        f"{output.counted(made.photos_lost, 'photo')} too."
    )
    if not made.keeps_history:
        output.say("Some of the older changes can no longer be undone.")
    output.say("The damaged collection was left as it was.")
    return NOT_ALL if made.lines else ALL_SAVED
