"""Saves the bad rows of a trial as a table, to be mended beside the file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services import csv_form
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import write_whole

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.intake_values import DryRun

COLUMNS = ("row", "field", "value", "why", "way_out")


def save(found: DryRun, path: Path) -> None:
    """Write all bad rows, each with its number in the file, why, and a way out."""
    lines = [
        (bad.row, bad.field, bad.value, bad.reason, bad.way_out) for bad in found.bad
    ]
    with plainly(path):
        write_whole(path, csv_form.write_table(COLUMNS, lines))
