"""Looks the collection through for damage, and sets back what the history knows."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import DamagedError, InputError
from growdesk.services.whereabouts import called

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.services.check_values import FullCheck
    from growdesk.services.whereabouts import Where


def run(arguments: Namespace, desk: Desk) -> None:
    """Say that all is sound, or name what is not and end as bad input does."""
    from growdesk.services.full_check import look_through  # noqa: PLC0415 -- the store is slow to load

    if arguments.quick and arguments.mend:
        hint = "A quick check finds nothing that can be set back: leave --quick out."
        raise InputError("--mend", "", "stands beside --quick", hint)
    with desk.where_at_rest(desk.today) as where:
        if arguments.mend and not isinstance(where, Path):
            hint = (
                "Bring a backup back into a new folder with: growdesk restore --into."
            )
            problem = "sets back in a collection's own file, and this is on a server"
            raise InputError("--mend", "", problem, hint)
        found = look_through(where, quick=arguments.quick)
        for each in found.damage:
            output.say(each.sentence)
        if (
            isinstance(where, Path)
            and arguments.mend
            and (found.mendable or found.photos_kept)
        ):
            _mend(desk, where, found)
            found = look_through(where)
        if found.damage:
            raise _damaged(where, found)
        _say_sound(where, found, quick=arguments.quick)
        if not arguments.quick:
            _say_clock(desk)


def _say_clock(desk: Desk) -> None:
    with desk.reading(desk.today) as collection:
        doubt = collection.clock_doubt.line()
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


def _damaged(where: Where, found: FullCheck) -> DamagedError:
    first = found.damage[0].sentence
    more = len(found.damage) - 1
    said = output.counted(more, "more problem")
    rest = f" There {'is' if more == 1 else 'are'} {said} above." if more else ""
    named = called(where)
    if not isinstance(where, Path):
        way = "Bring a backup back into a new folder with: growdesk restore --into DIR."
        told = f"The collection {named} is damaged. {first}{rest}"
        return DamagedError(told, way)
    ways = "Bring back a backup with: growdesk restore FILE."
    if found.photos_kept:
        ways = f"Put photos back out of the backups with: growdesk check --mend. {ways}"
    elif found.mendable:
        ways = f"Set back what the history knows with: growdesk check --mend. {ways}"
    return DamagedError(
        f"The collection in {named} is damaged. {first}{rest}",
        f"{ways} Or save what can be read with: growdesk rescue --into DIR.",
    )


def _say_sound(where: Where, found: FullCheck, *, quick: bool) -> None:
    folder = called(where)
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
