"""Prepares what may lie in a collection's folder when it is opened: files, journals.

A journal is written by SQLite's own form (sqlite.org/fileformat2.html, section 3), so
that it takes a file from one version back to the one before.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import sqlite3
import subprocess
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from growdesk.store.schema import PlaceRow
from growdesk.store.seal import SEAL_NAME
from growdesk.store.store import FILE_NAME, Store

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

_MAGIC = b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7"
_NONCE = 0x1234567
_SECTOR = 512


def now() -> datetime:
    return datetime(2026, 5, 20, 12, tzinfo=UTC)


def add(store: Store, number: int, note: str = "") -> None:
    row = {"name": f"Shelf {number}", "kind": "shelf", "note": note}
    with store.writing("Place added", now) as writing:
        writing.insert(PlaceRow, row)


def names(folder: Path) -> list[str]:
    """Give the places on record, read by the plain library."""
    uri = f"{(folder / FILE_NAME).as_uri()}?mode=ro&immutable=1"
    with closing(sqlite3.connect(uri, uri=True)) as connection:
        rows = connection.execute("SELECT name FROM place ORDER BY id").fetchall()
    return [row[0] for row in rows]


def versions(folder: Path, many: int) -> list[bytes]:
    """Make a collection, and give its file after each of many changes, oldest first."""
    path = folder / FILE_NAME
    store = Store.open(folder, now, create=True)
    found = [path.read_bytes()]
    for number in range(1, many):
        add(store, number, "cool " * 200 * (number % 3))
        found.append(path.read_bytes())
    store.close()
    return found


def laid(folder: Path, content: bytes, *, sealed_as: bytes | None = None) -> Path:
    """Lay a file into a folder of its own; sealed as some content, or not at all."""
    path = folder / FILE_NAME
    folder.mkdir()
    if sealed_as is not None:
        path.write_bytes(sealed_as)
        store = Store.open(folder, now)
        store.note_full_check(now())
        store.close()
        assert path.read_bytes() == sealed_as
    path.write_bytes(content)
    return path


def journal(before: bytes, after: bytes) -> bytes:
    """Give the journal of the change that made ``after`` of ``before``."""
    size = int.from_bytes(before[16:18], "big")
    pages = len(before) // size
    records = []
    for number in range(1, pages + 1):
        was = before[(number - 1) * size : number * size]
        if was != after[(number - 1) * size : number * size]:
            check = _NONCE + sum(was[at] for at in range(size - 200, 0, -200))
            word = (check & 0xFFFFFFFF).to_bytes(4, "big")
            records.append(number.to_bytes(4, "big") + was + word)
    head = [len(records), _NONCE, pages, _SECTOR, size]
    begins = _MAGIC + b"".join(each.to_bytes(4, "big") for each in head)
    return begins.ljust(_SECTOR, b"\x00") + b"".join(records)


def digests(folder: Path) -> dict[str, str]:
    """Give every file below a folder with its SHA-256."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(
            path.read_bytes()
        ).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def aside(folder: Path) -> list[Path]:
    return sorted(folder.glob(f"{FILE_NAME}.aside-*"))


def unsealed(folder: Path) -> None:
    (folder / SEAL_NAME).unlink(missing_ok=True)


@contextmanager
def read_only(path: Path) -> Iterator[None]:
    """Let nobody write a folder or file: by a mount for root, else by its mode."""
    if hasattr(os, "geteuid") and os.geteuid() != 0:
        mode = path.stat().st_mode
        path.chmod(0o555 if path.is_dir() else 0o444)
        try:
            yield
        finally:
            path.chmod(mode)
        return
    _mount("--bind", str(path), str(path))
    try:
        _mount("-o", "remount,bind,ro", str(path))
        yield
    finally:
        subprocess.run([_tool("umount"), "-l", str(path)], check=True)


@contextmanager
def disk(at: Path, megabytes: int = 4) -> Iterator[Path]:
    """Mount a small disk, gone again at the end."""
    at.mkdir()
    _mount("-t", "tmpfs", "-o", f"size={megabytes}m", "tmpfs", str(at))
    try:
        yield at
    finally:
        subprocess.run([_tool("umount"), "-l", str(at)], check=True)


def remount(at: Path, how: str) -> None:
    _mount("-o", f"remount,{how}", str(at))


def _mount(*arguments: str) -> None:
    tried = subprocess.run(
        [_tool("mount"), *arguments], check=False, capture_output=True
    )
    if tried.returncode:
        pytest.skip(f"may not mount here: {tried.stderr.decode().strip()}")


def _tool(name: str) -> str:
    found = shutil.which(name)
    if found is None:
        pytest.skip(f"there is no {name} here")
    return found
