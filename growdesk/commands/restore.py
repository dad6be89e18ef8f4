"""Brings a collection back from a backup; the one that was there is set aside."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import InputError
from growdesk.services.care_of_files import restore
from growdesk.services.clock import SystemClock

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Restore into the collection's folder and say where the old one went."""
    if desk.demo:
        hint = "Leave --demo out, or name a folder with --collection DIR."
        raise InputError("--demo", arguments.file, "cannot be restored into", hint)
    with desk.folder(desk.today) as folder:
        back = restore(Path(arguments.file), folder, SystemClock().now())
    output.say(
        f"Restored {back.folder} as of {back.made_at} with "
        f"{output.counted(back.photos, 'photo')}."
    )
    if back.set_aside is not None:
        output.say(f"The collection that was there is kept in {back.set_aside}.")
