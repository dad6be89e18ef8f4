"""Makes a year in review as a PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output, pdf_file, reading
from growdesk.domain.errors import InputError

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Write a calendar year, or the twelve months to ``--until``, by default today."""
    path = pdf_file.to_write(arguments.pdf, "year.pdf")
    from growdesk.services import year_review  # noqa: PLC0415 -- the store is slow to load

    if arguments.year is None:
        until = reading.day("--until", arguments.until, desk.today)
        within = year_review.twelve_months(until, desk.today, "--until")
    else:
        year = _year(arguments.year)
        within = year_review.calendar_year(year, desk.today, "--year")
    with desk.reading(desk.today) as collection:
        review = collection.years.make(within)
        from growdesk.ui.printing.year_pages import write_year  # noqa: PLC0415 -- Qt is slow to load

        write_year(review, path, arguments.paper)
    days = f"{within[0].isoformat()} to {within[1].isoformat()}"
    output.say(f"Wrote the year in review, {days}, to {path}.")


def _year(text: str) -> int:
    if not (text.isascii() and text.isdigit()):
        raise InputError("--year", text, "is no year", "Give four digits, as 2026.")
    return int(text)
