"""Takes rows from a CSV file, or a whole collection from an exported folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import GrowdeskError
from growdesk.services import transfer
from growdesk.services.logger_times import DayOrder
from growdesk.services.transfer import Sort

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.services.transfer import DryRun, FolderTaken

_SHOWN = 200
_ONE: dict[Sort, str] = {
    Sort.PLANTS: "plant",
    Sort.LOOKS: "look",
    Sort.CARE: "piece of care",
    Sort.BLOOMS: "bloom",
}
_MANY: dict[Sort, str] = {
    Sort.PLANTS: "plants",
    Sort.LOOKS: "looks",
    Sort.CARE: "pieces of care",
    Sort.BLOOMS: "blooms",
}


class BadRowsError(GrowdeskError):
    """A CSV file has rows that cannot be taken; nothing was written."""

    reference = "bad-rows"


def run(arguments: Namespace, desk: Desk) -> None:
    """Take the rows in, or on a dry run say what would be taken."""
    dry_run: bool = arguments.dry_run
    path = Path(arguments.file)
    if path.is_dir():
        _take_folder(path, desk, dry_run=dry_run)
        return
    survey = transfer.survey_of(path)
    choices = transfer.choose(
        survey,
        sort=arguments.sort,
        columns=arguments.columns,
        day_order=DayOrder(arguments.dates) if arguments.dates else None,
        changes=arguments.change,
    )
    if not survey.rows:
        output.say(f"No {_MANY[choices.sort]} in {path.name}; nothing was written.")
        return
    for notice in survey.notices[len(survey.table.notices) :]:
        output.say(notice)
    opening = desk.rehearsal if dry_run else desk.founding
    work = transfer.dry_run if dry_run else transfer.take
    with opening(desk.today) as collection:
        found = work(collection.ledger, survey, choices)
        for notice in found.notices:
            output.say(notice)
        for bad in found.bad[:_SHOWN]:
            output.say(bad.line())
        if found.bad:
            raise _bad_rows(found)
    output.say(_told(found))


def _told(found: DryRun) -> str:
    things, new = _counted(found), ""
    for names, noun in ((found.new_places, "places"), (found.new_benches, "benches")):
        if names:
            said = f"New {noun}" if found.written else f"These {noun} would be new"
            new += f" {said}: {'; '.join(names)}."
    if found.same:
        new += f" On record already: {output.counted(found.same, 'row')}."
    if found.written:
        return f"Took in {things} from {found.source}; one undo takes them back.{new}"
    if not found.would_write:
        return f"Nothing new in {found.source}; nothing was written.{new}"
    said = f"{things} could be taken in from {found.source}."
    return f"{said} Nothing was written.{new}"


def _counted(found: DryRun) -> str:
    one, many = _ONE[found.sort], _MANY[found.sort]
    added = output.counted(found.added, one, many)
    if not found.changed_count:
        return added
    changed = output.counted(found.changed_count, "changed plant")
    return f"{added} and {changed}"


def _bad_rows(found: DryRun) -> BadRowsError:
    count = len(found.bad)
    rows = "1 row is bad" if count == 1 else f"{count} rows are bad"
    first = found.bad[0].line()
    others = {1: "", 2: "The other one is listed above."}
    rest = f"The other {count - 1} are listed above."
    if count > _SHOWN:
        rest = f"The first {_SHOWN} are listed above."
    return BadRowsError(
        f"{found.source}: {rows}, so nothing was written. {first}",
        others.get(count, rest),
    )


def _take_folder(folder: Path, desk: Desk, *, dry_run: bool) -> None:
    found = transfer.read_folder(folder)
    opening = desk.rehearsal if dry_run else desk.founding
    with opening(desk.today) as collection:
        taken = transfer.take_folder(collection, found, dry_run=dry_run)
    for notice in taken.notices:
        output.say(notice)
    output.say(_told_folder(taken))


def _told_folder(taken: FolderTaken) -> str:
    counts = (
        f"{output.counted(taken.plants, 'plant')}, "
        f"{output.counted(taken.looks, 'look')}, "
        f"{output.counted(taken.care, 'piece of care', 'pieces of care')} and "
        f"{output.counted(taken.photos, 'photo')}"
    )
    if taken.written is None:
        return f"{counts} could be taken from {taken.folder}. Nothing was written."
    return f"Took in {counts} from {taken.folder}; one undo takes them back."
