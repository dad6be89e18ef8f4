"""A checked copy of a collection's database, made while it may be in use.

The copy is made page by page by SQLite itself, opened and checked, and only then given
its name; a copy that fails leaves nothing behind.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

from growdesk.domain.errors import DamagedError
from growdesk.domain.speech import tr
from growdesk.store.whole_files import whole

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

_PAGES_AT_ONCE = 512


def quick_check(connection: sqlite3.Connection, path: Path) -> None:
    """Refuse a database that SQLite finds damaged."""
    found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    if found != "ok":
        raise DamagedError(
            tr("{path} is damaged: a part of it cannot be read.").format(path=path),
            tr("Bring back a backup with: growdesk restore FILE."),
        )


def copy_database(
    source: sqlite3.Connection,
    target: Path,
    between: Callable[[], object] = lambda: None,
    *,
    checked: bool = True,
) -> None:
    """Write a whole copy of an open database to ``target``.

    It is checked, unless the caller proves it in more depth. ``between`` is called
    after some pages each, and may raise to stop the copy.
    """
    with whole(target) as part:
        with closing(sqlite3.connect(part)) as copy:
            copy.execute("PRAGMA journal_mode = MEMORY").fetchall()
            source.backup(
                copy, pages=_PAGES_AT_ONCE, progress=lambda *_pages: between()
            )
        if checked:
            with closing(sqlite3.connect(part)) as copy:
                quick_check(copy, target)
