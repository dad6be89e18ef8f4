"""All of a collection: sent out as tables, taken back in, looked through, rescued.

They take minutes at 10 000 plants, so they run only when they are named: ``whole``.
"""

from __future__ import annotations

import csv
import json
import os
import shutil
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

from growdesk.services import full_check, rescuing
from growdesk.services.collection import Collection
from growdesk.services.transfer import export, read_folder, take_folder
from growdesk.store.folder_names import FILE_NAME, PHOTOS
from growdesk.store.regular_files import sha256_of
from tests.bench.bars import Bar, Limit, Pair

if TYPE_CHECKING:
    from pathlib import Path

    from tests.bench.ground import Ground


def sent(ground: Ground) -> Pair:
    """Send everything out; the floor writes all rows as they are, and the photos."""
    folder, into = ground.copy(), ground.tmp / f"sent-{ground.plants}"
    collection = Collection.open(folder, ground.clock())

    def base() -> None:
        into.mkdir()
        with closing(sqlite3.connect(folder / FILE_NAME)) as read:
            for name in _tables(read):
                rows = read.execute(f'SELECT * FROM "{name}"')  # noqa: S608
                with (into / f"{name}.csv").open("w", encoding="utf-8") as file:
                    csv.writer(file).writerows(rows)
                    os.fsync(file.fileno())
        for photo in (folder / PHOTOS).glob("*/*"):
            with (into / photo.name).open("wb") as file:
                file.write(photo.read_bytes())
                os.fsync(file.fileno())

    def ours() -> None:
        export(collection, into)

    return Pair(
        ours,
        base,
        lambda: shutil.rmtree(into, ignore_errors=True),
        collection.close,
    )


def taken_in(ground: Ground) -> Pair:
    """Take everything back in; the floor writes the same file by executemany."""
    out, into = _sent_out(ground), ground.tmp / f"taken-{ground.plants}"
    first = _taken(ground, out, ground.tmp / f"first-{ground.plants}")

    def ours() -> None:
        _taken(ground, out, into)

    return Pair(
        ours,
        lambda: _copied_by_rows(first / FILE_NAME, ground.tmp / "rows.sqlite"),
        lambda: shutil.rmtree(into, ignore_errors=True),
    )


def looked_through(ground: Ground) -> Pair:
    """Look through a collection with all its history; the floor reads all of it."""
    folder = _with_history(ground)

    def ours() -> None:
        found = full_check.look_through(folder)
        assert not found.damage
        assert found.changes > found.entries > ground.plants

    def base() -> None:
        with closing(sqlite3.connect(folder / FILE_NAME)) as read:
            assert read.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            for name in _tables(read):
                read.execute(f'SELECT * FROM "{name}"').fetchall()  # noqa: S608
            for (image,) in read.execute("SELECT after FROM change"):
                json.loads(image or "null")
        for photo in (folder / PHOTOS).glob("*/*"):
            assert sha256_of(photo) == photo.stem

    return Pair(ours, base)


def rescued(ground: Ground) -> Pair:
    """Rescue a collection with all its history; the floor copies it row by row."""
    folder, into = _with_history(ground), ground.tmp / f"rescued-{ground.plants}"

    def ours() -> None:
        assert not rescuing.rescue(folder, into, ground.clock().now()).lines

    return Pair(
        ours,
        lambda: _copied_by_rows(folder / FILE_NAME, ground.tmp / "rows.sqlite"),
        lambda: shutil.rmtree(into, ignore_errors=True),
    )


def _with_history(ground: Ground) -> Path:
    """Give a collection of this size whose every row is in its history, made once."""
    folder = ground.tmp / f"history-{ground.plants}"
    return folder if folder.exists() else _taken(ground, _sent_out(ground), folder)


def _sent_out(ground: Ground) -> Path:
    out = ground.tmp / f"out-{ground.plants}"
    if not out.exists():
        with closing(Collection.open(ground.copy(), ground.clock())) as collection:
            export(collection, out)
    return out


def _taken(ground: Ground, out: Path, into: Path) -> Path:
    with closing(Collection.open(into, ground.clock(), create=True)) as collection:
        take_folder(collection, read_folder(out))
    return into


def _copied_by_rows(source: Path, target: Path) -> None:
    """Copy a file's tables and indexes row by row, as safe as ours."""
    target.unlink(missing_ok=True)
    with closing(sqlite3.connect(source)) as read, closing(_made(target)) as into:
        laws = read.execute("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL")
        for (law,) in laws.fetchall():
            into.execute(law)
        with into:
            for name in _tables(read):
                rows = read.execute(f'SELECT * FROM "{name}"')  # noqa: S608
                marks = ", ".join("?" for _ in rows.description)
                into.executemany(f'INSERT INTO "{name}" VALUES ({marks})', rows)  # noqa: S608


def _made(target: Path) -> sqlite3.Connection:
    made = sqlite3.connect(target)
    made.executescript(
        "PRAGMA journal_mode=TRUNCATE; PRAGMA synchronous=FULL; PRAGMA cache_spill=OFF"
    )
    return made


def _tables(read: sqlite3.Connection) -> list[str]:
    found = read.execute(
        "SELECT name FROM sqlite_master"
        " WHERE type = 'table' AND name NOT LIKE 'sqlite%'"
    )
    return [name for (name,) in found]


BY_ROWS = "its file copied row by row"
BARS = (
    Bar(
        "whole-export",
        "Everything exported: tables, facts and photos",
        "rows as they are, and photos, written and synced",
        Limit.times(6),
        sent,
        grows=True,
        slow=True,
    ),
    Bar(
        "whole-import",
        "An export taken back in, checked",
        BY_ROWS,
        Limit.times(10),
        taken_in,
        grows=True,
        slow=True,
    ),
    Bar(
        "whole-check",
        "A collection looked through, entries held against the history",
        "SQLite's full check, all rows and photos read",
        Limit.times(10),
        looked_through,
        grows=True,
        slow=True,
    ),
    Bar(
        "whole-rescue",
        "A collection rescued, read page by page, and looked through",
        BY_ROWS,
        Limit.times(25),
        rescued,
        grows=True,
        slow=True,
    ),
)
