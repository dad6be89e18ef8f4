"""Finds out whether a PDF may be written under a name, before anything is read."""

from __future__ import annotations

from pathlib import Path

from growdesk.domain.errors import InputError

_PDF_MAGIC = b"%PDF-"


def to_write(name: str, example: str) -> Path:
    """Give the path of a PDF to write; an older PDF may be written over."""
    path = Path(name)
    if path.is_dir():
        hint = f"Name the file to write, for example {example}."
        raise InputError("--pdf", name, "is a folder", hint)
    if path.exists() and not _is_pdf_or_empty(path):
        hint = "Choose another name; it was left as it is."
        raise InputError("--pdf", name, "is there and is no PDF", hint)
    if not path.absolute().parent.is_dir():
        hint = "Make the folder first, or choose another."
        raise InputError("--pdf", name, "lies in no folder", hint)
    return path


def _is_pdf_or_empty(path: Path) -> bool:
    """Tell whether a file that is there may be written over."""
    if not path.is_file():
        return False
    with path.open("rb") as file:
        head = file.read(len(_PDF_MAGIC))
    return head in {b"", _PDF_MAGIC}
