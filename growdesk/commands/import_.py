"""Takes plants from a CSV file, or a whole collection from an exported folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import GrowdeskError
from growdesk.services.transfer import (
    read_folder,
    read_plants,
    take_folder,
    take_in,
)

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.services.transfer import FolderTaken, ImportReport


class BadRowsError(GrowdeskError):
    """A CSV file has rows that cannot be taken; nothing was written."""

    reference = "bad-rows"


def run(arguments: Namespace, desk: Desk) -> None:
    """Take the plants in, or on a dry run say what would be taken."""
    dry_run: bool = arguments.dry_run
    path = Path(arguments.file)
    if path.is_dir():
        _take_folder(path, desk, dry_run=dry_run)
        return
    table = read_plants(path)
    if not table.rows:
        output.say(f"No plants in {path.name}; nothing was written.")
        return
    opening = desk.rehearsal if dry_run else desk.founding
    with opening(desk.today) as collection:
        report = take_in(collection, table, path.name, dry_run=dry_run)
        for notice in (*report.notices, *report.problems):
            output.say(notice)
        if report.problems:
            raise _bad_rows(report)
    output.say(_told(report))


def _take_folder(folder: Path, desk: Desk, *, dry_run: bool) -> None:
    found = read_folder(folder)
    opening = desk.rehearsal if dry_run else desk.founding
    with opening(desk.today) as collection:
        taken = take_folder(collection, found, dry_run=dry_run)
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


def _told(report: ImportReport) -> str:
    count = len(report.tags)
    plants = output.counted(count, "plant")
    places = "; ".join(report.new_places)
    if report.written:
        new = f" New places: {places}." if places else ""
        return f"Took in {plants} from {report.source}; one undo takes them back.{new}"
    new = f" These places would be new: {places}." if places else ""
    return f"{plants} could be taken in from {report.source}. Nothing was written.{new}"


def _bad_rows(report: ImportReport) -> BadRowsError:
    count = len(report.problems)
    rows = "1 row is bad" if count == 1 else f"{count} rows are bad"
    others = {1: "", 2: "The other one is listed above."}
    return BadRowsError(
        f"{report.source}: {rows}, so nothing was written. {report.problems[0]}",
        others.get(count, f"The other {count - 1} are listed above."),
    )
