"""Give the table of all plants to other programs: rows for a spreadsheet, or a file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.services.csv_form import tabbed, write_table
from growdesk.services.long_work import quietly
from growdesk.store.whole_files import write_whole

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from growdesk.services.long_work import Step
    from growdesk.ui.roster_columns import Column, Entry


def as_text(columns: Sequence[Column], rows: Sequence[Entry]) -> str:
    """Give rows as they are shown, with their headings, set apart by tabs."""
    return tabbed(_titles(columns), [[each.text(e) for each in columns] for e in rows])


def save(
    file: Path,
    columns: Sequence[Column],
    rows: Sequence[Entry],
    step: Step = quietly,
) -> None:
    """Save rows as CSV: days as ISO, numbers plain, their unit in the heading.

    ``step`` is told of each row, and may stop the work before anything is written.
    """
    heads = [f"{each.title}, {each.unit}".removesuffix(", ") for each in columns]
    cells = []
    for number, entry in enumerate(rows):
        step(number, len(rows))
        cells.append([each.cell(entry) for each in columns])
    try:
        write_whole(file, write_table(heads, cells))
    except OSError as error:
        reason = error.strerror or str(error)
        raise StoreError(
            tr("The table cannot be saved as {file}: {reason}.").format(
                file=file, reason=reason
            ),
            tr("Choose another folder or name."),
        ) from error


def _titles(columns: Sequence[Column]) -> list[str]:
    return [column.title for column in columns]
