"""Takes plants in from a CSV file: all of its rows, or none.

Rows are checked as ``plant_taking`` does it, then added in one action; a dry run checks
exactly as the import does. The file is read before a collection is opened, so
that a file that is no list of plants touches none.
"""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.services import csv_form, files_in
from growdesk.services.plant_taking import PLANT_COLUMNS, Taking
from growdesk.services.table_forms import FORMS

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection import Collection

_EXPORTED = {head for form in FORMS if form.name == "plant" for head in form.heads}


@dataclass(frozen=True, slots=True)
class ImportReport:
    """What an import took in, or would take in on a dry run.

    ``problems`` has a line for each bad row; with any, nothing was written.
    """

    source: str
    tags: tuple[str, ...]
    new_places: tuple[str, ...]
    problems: tuple[str, ...]
    notices: tuple[str, ...]
    written: bool


def read_plants(path: Path) -> csv_form.Table:
    """Give the rows of a file of plants, its header checked; no collection needed."""
    table = csv_form.read_table(files_in.read_bytes(path), path.name)
    kept = _known(table)
    _check_header(kept.header)
    return kept


def _known(table: csv_form.Table) -> csv_form.Table:
    """Give a table without the columns of an export that only its folder brings."""
    extra = _EXPORTED - set(PLANT_COLUMNS)
    kept = [at for at, name in enumerate(table.header) if name not in extra]
    if len(kept) == len(table.header):
        return table
    width = len(table.header)
    out = ", ".join(name for name in table.header if name in extra)
    rows = tuple(
        (number, (*(row[at] for at in kept if at < len(row)), *row[width:]))
        for number, row in table.rows
    )
    notice = f"Left out, since only the whole folder brings it: {out}."
    header = tuple(table.header[at] for at in kept)
    return csv_form.Table(header, rows, (*table.notices, notice))


def import_csv(collection: Collection, path: Path, *, dry_run: bool) -> ImportReport:
    """Add the plants of a CSV file in one action, or say which rows are bad."""
    return take_in(collection, read_plants(path), path.name, dry_run=dry_run)


def take_in(
    collection: Collection, table: csv_form.Table, source: str, *, dry_run: bool
) -> ImportReport:
    """Add the plants of rows read before, all or none."""
    with collection.ledger.reading() as session:
        taking = Taking(session, collection.clock.today())
    for number, row in table.rows:
        taking.take(number, table.header, row)
    written = bool(taking.tags) and not taking.problems and not dry_run
    if written:
        title = f"Plants taken in from {source}"
        with collection.ledger.writing(title) as writing:
            taking.write(writing)
    return ImportReport(
        source=source,
        tags=tuple(taking.tags),
        new_places=tuple(taking.new_places),
        problems=tuple(taking.problems),
        notices=(*table.notices, *taking.notices),
        written=written,
    )


def _check_header(header: tuple[str, ...]) -> None:
    for name in header:
        if name not in PLANT_COLUMNS:
            close = difflib.get_close_matches(name.casefold(), PLANT_COLUMNS, n=1)
            hint = (
                f"Did you mean {close[0]}?"
                if close
                else f"Take the column out, or use {', '.join(PLANT_COLUMNS)}."
            )
            raise InputError("row 1", name, "is not a field of a plant", hint)
        if header.count(name) > 1:
            raise InputError("row 1", name, "stands twice", "Take one column out.")
    if "tag" not in header:
        hint = "Add a column tag with the number on each label."
        raise InputError("row 1", ", ".join(header), "names no tag", hint)
