"""The text of a logger's file, whatever it is encoded in; no text is told plainly."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr
from growdesk.services import csv_form, files_in
from growdesk.store.regular_files import shown_name

if TYPE_CHECKING:
    from pathlib import Path

_LOOKED_AT = 4096
_MARKS = (b"\xff\xfe", b"\xfe\xff")
_TEXT_CONTROLS = frozenset("\t\n\r\f\x1a")
_HINT = mark(
    "Export it from the logger's program as CSV or text, and choose that file."
)


class LoggerText(Struct, frozen=True):
    """A file's name, its text, and the encoding it was read in."""

    source: str
    text: str
    encoding: str


def read_text(path: Path) -> LoggerText:
    """Give the text of a file; refuse what is empty, too large or no text."""
    raw = files_in.read_bytes(path)
    source = shown_name(path)
    if not raw.strip(b"\x00 \t\r\n"):
        raise InputError(
            "FILE", source, tr("is empty"), tr("Export it from the logger again.")
        )
    csv_form.refuse_others(raw, source)
    text, encoding = _decoded(raw, source)
    if _is_binary(text[:_LOOKED_AT]):
        raise InputError("FILE", source, tr("is not text"), tr(_HINT))
    return LoggerText(source, text, encoding)


def _decoded(raw: bytes, source: str) -> tuple[str, str]:
    begin = raw[:_LOOKED_AT]
    unmarked = "" if raw.startswith(_MARKS) else csv_form.wide_encoding(begin)
    if not unmarked:
        if b"\x00" in begin and not raw.startswith(_MARKS):
            raise InputError("FILE", source, tr("is not text"), tr(_HINT))
        text, encoding = csv_form.decoded(raw, source)
        return text, encoding.removesuffix("-sig")
    try:
        return raw.decode(unmarked), unmarked
    except UnicodeDecodeError:
        raise InputError("FILE", source, tr("is not text"), tr(_HINT)) from None


def _is_binary(begin: str) -> bool:
    return any(ord(sign) < 32 and sign not in _TEXT_CONTROLS for sign in begin)
