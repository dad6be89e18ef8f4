"""Tells which backups are kept, here and in the second place, and proves them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.commands import output
from growdesk.domain.errors import DamagedError
from growdesk.services import backups, second_place
from growdesk.services.backup_values import Why
from growdesk.services.whereabouts import home_of

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Sequence

    from growdesk.commands.desk import Desk
    from growdesk.services.backup_values import KeptBackup

_MEGABYTE = 1_000_000
_WORDS = {
    Why.DAILY: "of the day",
    Why.BY_HAND: "by hand",
    Why.BEFORE_FORM: "before a new form",
    Why.BEFORE_RESTORE: "before a restore",
    Why.BEFORE_EMPTYING: "before the bin was emptied",
}


def run(arguments: Namespace, desk: Desk) -> None:
    """List the backups, newest first; end as damage does where one is not whole."""
    with desk.where_at_rest(desk.today) as where:
        folder = home_of(where)
        found = list(backups.kept(folder))
        place = second_place.second_place(folder)
        if place is not None and place.is_there:
            found += backups.kept_in(place.backups)
        if arguments.prove:
            found = [replace(each, problem=backups.prove(each)) for each in found]
        if arguments.json:
            output.say_json([_report(each) for each in found])
        else:
            for line in _lines(found):
                output.say(line)
            if place is not None and not place.is_there:
                output.say(f"The second place, {place.chosen}, is not there now.")
    broken = [each for each in found if each.problem]
    if broken:
        many = output.counted(len(broken), "backup is", "backups are")
        raise DamagedError(
            f"{many} not whole. {broken[0].problem}",
            "The others can be brought back.",
        )


def _report(backup: KeptBackup) -> dict[str, object]:
    return {
        "made_at": backup.made_at.isoformat(timespec="seconds"),
        "why": backup.why.value,
        "plants": backup.plants,
        "photos": backup.photos,
        "bytes": backup.length_bytes,
        "form": backup.form,
        "whole": not backup.problem,
        "problem": backup.problem,
        "folder": str(backup.folder),
    }


def _lines(found: Sequence[KeptBackup]) -> list[str]:
    if not found:
        return ["No backup is kept yet."]
    return [*output.columns([_cells(each) for each in found], indent="")]


def _cells(backup: KeptBackup) -> tuple[str, ...]:
    return (
        f"{backup.made_at.astimezone():%Y-%m-%d %H:%M}",
        _WORDS[backup.why],
        output.counted(backup.plants, "plant"),
        output.counted(backup.photos, "photo"),
        f"{backup.length_bytes / _MEGABYTE:.1f} MB",
        backup.problem or "whole",
        str(backup.folder),
    )
