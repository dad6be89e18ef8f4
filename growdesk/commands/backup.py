"""Keeps a backup with the collection, or writes all of it into one file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import InputError
from growdesk.services.clock import SystemClock

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.services.whereabouts import Where


def run(arguments: Namespace, desk: Desk) -> None:
    """Make the backup and say what is in it."""
    if desk.demo and arguments.file is None:
        hint = "Name the FILE to write, or leave --demo out."
        raise InputError("--demo", "backup", "is thrown away with its backups", hint)
    with desk.where_at_rest(desk.today) as where:
        if arguments.file is None:
            _keep(where)
        else:
            _write(where, Path(arguments.file))


def _keep(where: Where) -> None:
    from growdesk.services import backups, second_place  # noqa: PLC0415 -- one of two
    from growdesk.services.backup_values import Why  # noqa: PLC0415 -- ditto
    from growdesk.services.whereabouts import home_of  # noqa: PLC0415 -- ditto

    now, folder = SystemClock().now(), home_of(where)
    made = backups.make(where, Why.BY_HAND, now)
    for line in backups.lacking_in(made):
        output.say(line)
    output.say(
        f"Backup kept in {made.folder}: {output.counted(made.plants, 'plant')}, "
        f"{output.counted(made.photos, 'photo')}; it was read back."
    )
    place = second_place.second_place(folder)
    if place is None:
        return
    if not place.is_there:
        output.say(f"It was not copied to {place.chosen}, which is not there now.")
        return
    second_place.copy_last(folder, now)
    output.say(f"A copy is in {place.backups}.")


def _write(where: Where, file: Path) -> None:
    from growdesk.services.care_of_files import backup_folder  # noqa: PLC0415 -- ditto

    made = backup_folder(where, file, SystemClock().now())
    for problem in made.problems:
        output.say(problem)
    output.say(
        f"Backed up to {made.file} with {output.counted(made.photos, 'photo')}; "
        "it was read back."
    )
