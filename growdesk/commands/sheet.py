"""Makes the weekly mixing sheet as a PDF, with or without a screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output, pdf_file, reading

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Write the sheet of the week that holds a day; without ``--week``, of today."""
    on = reading.day("--week", arguments.week, desk.today)
    path = pdf_file.to_write(arguments.pdf, "sheet.pdf")
    with desk.reading(on) as collection:
        sheet = collection.sheet.week(on)
    from growdesk.ui.printing.sheet_pdf import write_pdf  # noqa: PLC0415 -- Qt is slow to load

    write_pdf(sheet, path, arguments.paper)
    output.say(f"Wrote the sheet of the week of {on.isoformat()} to {path}.")
