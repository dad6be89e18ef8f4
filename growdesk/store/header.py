"""What a file says about itself before any table of it is read.

A foreign, empty, damaged or newer file gets one plain line and stays as it is: this
module opens files for reading only.
"""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import (
    DamagedError,
    ForeignError,
    StoreError,
    TooNewError,
)
from growdesk.domain.speech import mark, tr
from growdesk.store.folder_names import PHOTOS
from growdesk.store.regular_files import StrangeFileError, read_beginning

if TYPE_CHECKING:
    from pathlib import Path

APPLICATION_ID = 0x4772446B
_MAGIC = b"SQLite format 3\x00"
_HEADER_BYTES = 100
_BEGINNING_BYTES = 1 << 18
_TABLES = b"CREATE TABLE plant", b"CREATE TABLE care", b"CREATE TABLE change"
_BESIDE = "collection.seal", "backups", PHOTOS
"""What lies beside a collection's file, and beside no other of its name."""
_UNKNOWN = 1_000_000
_VERSION = re.compile(r"[0-9A-Za-z.+-]{1,20}")
RESTORE = mark("Bring back a backup with: growdesk restore FILE.")
_MAY_NOT_READ = mark("Ask for it whoever may, or choose another folder.")
OTHER = mark("Choose another folder; this file was left as it is.")


class Header(Struct, frozen=True):
    """The two numbers in a file's header: whose it is, and which schema."""

    application_id: int
    schema: int


def read_header(path: Path) -> Header:
    """Give the header of a collection file, or say in one line why it is none."""
    try:
        head = read_beginning(path, _HEADER_BYTES)
    except StrangeFileError as error:
        message = tr("{path} is not a growdesk collection.").format(path=path)
        raise ForeignError(message, tr(OTHER)) from error
    except PermissionError as error:
        message = tr("{path} may not be read.").format(path=path)
        raise StoreError(message, tr(_MAY_NOT_READ)) from error
    if not head:
        message = tr("{path} is empty (0 bytes).").format(path=path)
        raise DamagedError(message, tr(RESTORE))
    if _is_damaged(path, head):
        message = tr("{path} is damaged: its beginning is not as it was written.")
        raise DamagedError(message.format(path=path), tr(RESTORE))
    if not head.startswith(_MAGIC):
        message = tr("{path} is not a growdesk collection.").format(path=path)
        raise ForeignError(message, tr(OTHER))
    if len(head) < _HEADER_BYTES:
        message = tr("{path} is cut short.").format(path=path)
        raise DamagedError(message, tr(RESTORE))
    header = Header(
        application_id=int.from_bytes(head[68:72], "big"),
        schema=int.from_bytes(head[60:64], "big"),
    )
    if header.application_id != APPLICATION_ID:
        message = tr("{path} belongs to another program.").format(path=path)
        raise ForeignError(message, tr(OTHER))
    return header


def _is_damaged(path: Path, head: bytes) -> bool:
    """Tell whether a beginning that is none of ours was once, in a folder of ours."""
    is_ours = head[68:72] == APPLICATION_ID.to_bytes(4, "big")
    if is_ours and head.startswith(_MAGIC):
        return False
    if not any(path.with_name(name).exists() for name in _BESIDE):
        return False
    said = read_beginning(path, _BEGINNING_BYTES)
    return is_ours or all(mark in said for mark in _TABLES)


def check_not_newer(path: Path, header: Header, schema: int) -> None:
    """Refuse a file whose newer program says that this one may not open it."""
    if header.schema <= schema:
        return
    compatible_from, program = _said_of(path)
    if compatible_from <= schema:
        return
    raise too_new(path, header.schema, program, schema)


def too_new(place: Path | str, form: int, program: object, schema: int) -> TooNewError:
    """Give the line for what a newer program, if it is named so, wrote."""
    if _is_version(program):
        message = tr(
            "{path} was written by growdesk {program}"
            " (form {form}; this one reads up to form {most})."
        )
        hint = tr(
            "Open it with growdesk {program} or a newer one;"
            " the file was left as it is."
        )
    else:
        message = tr(
            "{path} was written by a newer growdesk"
            " (form {form}; this one reads up to form {most})."
        )
        hint = tr("Open it with the newer growdesk; the file was left as it is.")
    said = {"path": place, "program": program, "form": form, "most": schema}
    return TooNewError(message.format(**said), hint.format(**said))


def _is_version(program: object) -> bool:
    """Tell whether it is a program's version that can be told."""
    return isinstance(program, str) and _VERSION.fullmatch(program) is not None


def _said_of(path: Path) -> tuple[int, object]:
    """Give the oldest schema that may open the file, and what program made its form.

    A high number and nothing where that is not told.
    """
    found: object = None
    program: object = ""
    try:
        uri = f"{path.absolute().as_uri()}?mode=ro"
        with closing(sqlite3.connect(uri, uri=True)) as connection:
            found = connection.execute(
                "SELECT max(compatible_from) FROM migration"
            ).fetchone()[0]
            program = connection.execute(
                "SELECT program FROM migration ORDER BY id DESC LIMIT 1"
            ).fetchone()[0]
    except (sqlite3.Error, TypeError):
        program = ""
    return found if isinstance(found, int) else _UNKNOWN, program
