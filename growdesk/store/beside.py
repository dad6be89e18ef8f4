"""Journals that lie beside a collection's file, and whether they are its own.

SQLite plays any journal that has the right name back into the file beside it, without
asking whose it is: an older copy laid over a file whose journal stayed is turned into
neither. So before SQLite sees a file, what lies beside it is held against it.

A journal is the file's own if it could have been written by the transaction that was
stopped: its pages are of the file's size, and the file's count of changes is the one
its first page had before, or that plus one. One that names a further file is nobody's
of ours. We keep no write-ahead log, so that a ``-wal`` is never ours.
"""

from __future__ import annotations

import os
from contextlib import suppress
from itertools import count
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.store.regular_files import is_regular
from growdesk.store.whole_files import sync_folder

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime
    from pathlib import Path

_MAGIC = b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7"
_HEADER_BYTES = 28
_WRITE_AHEAD = 2
_PAGE_SIZES = {1 << power for power in range(9, 17)}


class _Head(Struct, frozen=True):
    """What the first page of a file says: page size in bytes, pages, changes."""

    page_bytes: int
    pages: int
    changes: int
    content: bytes


def journal_of(path: Path) -> Path:
    """Give where the journal of a file lies."""
    return path.with_name(f"{path.name}-journal")


def is_in_use(path: Path) -> bool:
    """Tell whether a transaction is under way, or was when its program stopped."""
    journal = journal_of(path)
    return _is_strange(journal) or _length(journal) > 0


def is_foreign(journal: Path) -> bool:
    """Tell whether a journal is a link, a pipe, or ends with the name of a file.

    Ours are none of these. Playing back the last, SQLite takes that file for one of its
    own and deletes it (sqlite.org/fileformat2.html, the super-journal), whatever it is.
    """
    if _is_strange(journal):
        return True
    with suppress(FileNotFoundError), journal.open("rb") as file:
        length = file.seek(0, os.SEEK_END)
        file.seek(max(0, length - len(_MAGIC)))
        return file.read() == _MAGIC
    return False


def is_write_ahead(path: Path) -> bool:
    """Tell whether another program has the file kept with a write-ahead log."""
    with path.open("rb") as file:
        file.seek(18)
        return _WRITE_AHEAD in file.read(2)


def strays(path: Path, *, as_left: bool) -> list[Path]:
    """Give what lies beside a file, would be played back into it, and is not its own.

    ``as_left`` says that the file is proved to be as it was at a clean close: then no
    journal at all can be its own.
    """
    found = []
    journal = journal_of(path)
    if is_foreign(journal) or (
        _length(journal) > 0 and (as_left or not _is_own(path, journal))
    ):
        found.append(journal)
    logs = [path.with_name(f"{path.name}{end}") for end in ("-wal", "-shm")]
    found += [each for each in logs if _is_strange(each)]
    there = [each for each in logs if each.exists() and each not in found]
    if there and is_write_ahead(path):
        if _length(logs[0]) > 0:
            raise StoreError(
                tr(
                    "Another program has written to {path}, and part of it lies in"
                    " {name} beside it."
                ).format(path=path, name=logs[0].name),
                tr(
                    "Close that program, or open and close the collection in it once;"
                    " nothing was changed here."
                ),
            )
        return found
    return found + there


def is_anothers(path: Path) -> bool:
    """Tell whether a journal lies beside a readable file and is not its own."""
    journal = journal_of(path)
    if is_foreign(journal):
        return True
    with path.open("rb") as file:
        head = _head(file.read(100))
    return head is not None and _length(journal) > 0 and not _is_own(path, journal)


def set_aside(found: list[Path], now: datetime) -> list[str]:
    """Rename strays so that nothing plays them back; give their new names."""
    targets = [_free_name(each, now) for each in found]
    for each, target in zip(found, targets, strict=True):
        each.rename(target)
    if found:
        sync_folder(found[0].parent)
    return [target.name for target in targets]


def _free_name(path: Path, now: datetime) -> Path:
    stem, end = path.name.rsplit("-", 1)
    stamp = now.strftime("%Y%m%dT%H%M%SZ")
    target = path.with_name(f"{stem}.aside-{stamp}-{end}")
    for number in count(2):
        if not target.exists():
            break
        target = path.with_name(f"{stem}.aside-{stamp}-{number}-{end}")
    return target


def _is_strange(path: Path) -> bool:
    """Tell whether something is there that is no ordinary file: a link, a pipe.

    SQLite would write through the one into another file, and wait for the other.
    """
    return os.path.lexists(path) and not is_regular(path)


def _length(path: Path) -> int:
    try:
        return path.stat().st_size
    except FileNotFoundError:
        return 0


def _is_own(path: Path, journal: Path) -> bool:
    """Tell whether a journal could have been written by a stopped change of a file."""
    with path.open("rb") as file:
        ours = _head(file.read(100))
    with journal.open("rb") as file:
        begins = file.read(_HEADER_BYTES)
    if ours is None or not begins.startswith(_MAGIC):
        return ours is not None  # without a header SQLite does not play it back
    number = [int.from_bytes(begins[at : at + 4], "big") for at in range(8, 28, 4)]
    if number[4] != ours.page_bytes:
        return False
    first = next(
        (page for at, page in _pages(journal, ours.page_bytes) if at == 1), None
    )
    if first is None:
        return number[2] * ours.page_bytes == path.stat().st_size
    before = _head(first)
    if before is None or before.pages != number[2]:
        return False
    if ours.changes == before.changes:
        return ours.content == before.content
    return ours.changes == (before.changes + 1) % (1 << 32)


def _head(content: bytes) -> _Head | None:
    page_bytes = int.from_bytes(content[16:18], "big")
    page_bytes = 1 << 16 if page_bytes == 1 else page_bytes
    if len(content) < 100 or page_bytes not in _PAGE_SIZES:
        return None
    return _Head(
        page_bytes,
        int.from_bytes(content[28:32], "big"),
        int.from_bytes(content[24:28], "big"),
        content[:100],
    )


def _pages(journal: Path, page_bytes: int) -> Iterator[tuple[int, bytes]]:
    """Give the pages a journal holds, in its order, as long as it makes sense."""
    length = _length(journal)
    with journal.open("rb") as file:
        at = 0
        while at + _HEADER_BYTES <= length:
            file.seek(at)
            begins = file.read(_HEADER_BYTES)
            sector = int.from_bytes(begins[20:24], "big") or 512
            if not begins.startswith(_MAGIC):
                return
            file.seek(at + sector)
            records = int.from_bytes(begins[8:12], "big")
            for _ in range(min(records, length // page_bytes + 1)):
                found = file.read(page_bytes + 8)
                if len(found) < page_bytes + 8:
                    return
                yield int.from_bytes(found[:4], "big"), found[4:-4]
            end = at + sector + records * (page_bytes + 8)
            at = -(-end // sector) * sector
