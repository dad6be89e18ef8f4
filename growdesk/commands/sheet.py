"""Makes the weekly mixing sheet as a PDF, with or without a screen."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output, reading
from growdesk.domain.errors import InputError

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


_PDF_MAGIC = b"%PDF-"


def run(arguments: Namespace, desk: Desk) -> None:
    """Write the sheet of the week that holds a day; without ``--week``, of today."""
    on = reading.day("--week", arguments.week, desk.today)
    path = Path(arguments.pdf)
    if path.is_dir():
        hint = "Name the file to write, for example sheet.pdf."
        raise InputError("--pdf", arguments.pdf, "is a folder", hint)
    if path.exists() and not _is_pdf_or_empty(path):
        hint = "Choose another name; it was left as it is."
        raise InputError("--pdf", arguments.pdf, "is there and is no PDF", hint)
    if not path.absolute().parent.is_dir():
        hint = "Make the folder first, or choose another."
        raise InputError("--pdf", arguments.pdf, "lies in no folder", hint)
    with desk.reading(on) as collection:
        sheet = collection.sheet.week(on)
    from growdesk.ui.printing.sheet_pdf import write_pdf  # noqa: PLC0415 -- Qt is slow to load

    write_pdf(sheet, path, arguments.paper)
    output.say(f"Wrote the sheet of the week of {on.isoformat()} to {path}.")


def _is_pdf_or_empty(path: Path) -> bool:
    """Tell whether a file that is there may be written over."""
    if not path.is_file():
        return False
    with path.open("rb") as file:
        head = file.read(len(_PDF_MAGIC))
    return head in {b"", _PDF_MAGIC}
