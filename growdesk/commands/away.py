"""Makes the away sheet for a helper as a PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output, pdf_file, reading
from growdesk.domain.errors import InputError

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Write the sheet of the days from ``--from`` until ``--until``."""
    begins = reading.day("--from", arguments.from_day, desk.today)
    ends = reading.day("--until", arguments.until, desk.today)
    path = pdf_file.to_write(arguments.pdf, "away.pdf")
    from growdesk.ui.printing.away import write_away  # noqa: PLC0415 -- Qt is slow to load

    with desk.reading(desk.today) as collection:
        try:
            sheet = collection.away.make(begins, ends, arguments.place)
            write_away(sheet, arguments.call, path, arguments.paper)
        except InputError as error:
            raise InputError(
                f"--{error.field}", error.value, error.problem, error.hint
            ) from None
    days = f"{len(sheet.days)} watering day{'' if len(sheet.days) == 1 else 's'}"
    output.say(f"Wrote the away sheet of {days} to {path}.")
