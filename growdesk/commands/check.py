"""Looks the collection through for damage, and sets back what the history knows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import DamagedError, InputError

if TYPE_CHECKING:
    from argparse import Namespace
    from pathlib import Path

    from growdesk.commands.desk import Desk
    from growdesk.services.check_values import FullCheck


def run(arguments: Namespace, desk: Desk) -> None:
    """Say that all is sound, or name what is not and end as bad input does."""
    from growdesk.services.full_check import look_through  # noqa: PLC0415 -- the store is slow to load

    if arguments.quick and arguments.mend:
        hint = "A quick check finds nothing that can be set back: leave --quick out."
        raise InputError("--mend", "", "stands beside --quick", hint)
    with desk.folder_at_rest(desk.today) as folder:
        found = look_through(folder, quick=arguments.quick)
        for each in found.damage:
            output.say(each.sentence)
        if arguments.mend and (found.mendable or found.photos_kept):
            _mend(desk, folder, found)
            found = look_through(folder)
        if found.damage:
            raise _damaged(folder, found)
        _say_sound(folder, found, quick=arguments.quick)
        if not arguments.quick:
            _say_clock(desk)


def _say_clock(desk: Desk) -> None:
    from growdesk.services.clock_doubt import clock_doubt  # noqa: PLC0415 -- ditto

    with desk.reading(desk.today) as collection:
        doubt = clock_doubt(collection.ledger)
    if doubt:
        output.say(doubt)


def _mend(desk: Desk, folder: Path, found: FullCheck) -> None:
    from growdesk.services.mending import set_back  # noqa: PLC0415 -- ditto
    from growdesk.services.photos_back import put_back  # noqa: PLC0415 -- ditto

    with desk.changing(desk.today) as collection:
        if found.photos_kept:
            output.say(f"{put_back(folder, found.photos_kept).title}.")
        if not found.mendable:
            return
        done = set_back(collection.ledger, found.mendable)
    output.say(f"{done.title}. Undo in the window takes it back.")


def _damaged(folder: Path, found: FullCheck) -> DamagedError:
    first = found.damage[0].sentence
    more = len(found.damage) - 1
    said = output.counted(more, "more problem")
    rest = f" There {'is' if more == 1 else 'are'} {said} above." if more else ""
    ways = "Bring back a backup with: growdesk restore FILE."
    if found.photos_kept:
        ways = f"Put photos back out of the backups with: growdesk check --mend. {ways}"
    elif found.mendable:
        ways = f"Set back what the history knows with: growdesk check --mend. {ways}"
    return DamagedError(
        f"The collection in {folder} is damaged. {first}{rest}",
        f"{ways} Or save what can be read with: growdesk rescue --into DIR.",
    )


def _say_sound(folder: Path, found: FullCheck, *, quick: bool) -> None:
    if quick:
        output.say(
            f"The collection in {folder} is sound at a quick look: "
            f"{output.counted(found.plants, 'plant')}."
        )
        return
    output.say(
        f"The collection in {folder} is sound: "
        f"{output.counted(found.plants, 'plant')}, "
        f"{output.counted(found.photos, 'photo')}, "
        f"{output.counted(found.entries, 'entry', 'entries')} held against "
        f"{output.counted(found.changes, 'change')} of the history."
    )
