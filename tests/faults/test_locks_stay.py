"""What reads an open collection in the same program leaves SQLite's locks standing.

Closing any descriptor of a file lets go of all locks that a POSIX process has on it
(sqlite.org/howtocorrupt.html, 2.2). Another program could then write into a change that
is under way, or play its journal back. So each is done in the midst of a change, and
another process must still be kept out.
"""

from __future__ import annotations

import os
import subprocess
import sys
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from growdesk.services import (
    backup_overview,
    backups,
    bug_report,
    care_of_files,
    daily_backup,
    full_check,
    second_place,
    ways_out,
)
from growdesk.services.backup_look import compare
from growdesk.services.backup_values import Why
from growdesk.services.restoring import preparing
from growdesk.services.values import PlantDraft
from growdesk.store.lock import LOCK_NAME
from growdesk.store.store import FILE_NAME

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.services.collection import Collection

    Work = Callable[[Collection], object]

pytestmark = pytest.mark.skipif(os.name != "posix", reason="such locks are POSIX's")
NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)
_WRITE = """
import sqlite3, sys
connection = sqlite3.connect(sys.argv[1], timeout=0, isolation_level=None)
connection.execute("BEGIN IMMEDIATE")
"""


def prepare(collection: Collection) -> None:
    kept = backups.kept(collection.folder)[0]
    with preparing(kept.folder, collection.folder, NOON):
        pass


def compare_first(collection: Collection) -> None:
    entry = backup_overview.overview(collection.folder, NOON).entries[0]
    compare(entry, collection.folder)


def choose_and_copy(collection: Collection) -> None:
    stick = collection.folder.with_name("stick")
    stick.mkdir()
    second_place.choose(collection.folder, stick, NOON)
    assert not daily_backup.keep(collection.folder, NOON).problems


WORK: dict[str, Work] = {
    "zip": lambda c: care_of_files.backup(c, c.folder.with_name("backup.zip")),
    "backup": lambda c: backups.make(c.folder, Why.BY_HAND, NOON),
    "due": lambda c: backups.is_due(c.folder, NOON),
    "day": choose_and_copy,
    "compare": compare_first,
    "restore": prepare,
    "check": lambda c: full_check.look_through(c.folder, is_open=True),
    "ways out": lambda c: ways_out.ways_out(c.folder),
    "report": lambda c: bug_report.report(c.folder, NOON),
}


def is_kept_out(path: Path) -> bool:
    """Tell whether another process is refused to write a file."""
    done = subprocess.run(
        [sys.executable, "-I", "-S", "-c", _WRITE, path],
        capture_output=True,
        text=True,
        check=False,
    )
    return "database is locked" in done.stderr


@pytest.mark.parametrize("name", WORK)
def test_reading_an_open_collection_keeps_its_locks(
    collection: Collection, name: str
) -> None:
    collection.plants.add(PlantDraft("A1", "Cattleya hybrid", "cattleya"))
    backups.make(collection.folder, Why.DAILY, NOON)
    path = collection.folder / FILE_NAME
    assert not is_kept_out(path)
    with collection.ledger.store.unrecorded() as session:
        session.connection()
        assert is_kept_out(path)
        WORK[name](collection)
        assert is_kept_out(path)


def test_a_lock_file_taken_away_leaves_the_locks(collection: Collection) -> None:
    collection.plants.add(PlantDraft("A1", "Cattleya hybrid", "cattleya"))
    (collection.folder / LOCK_NAME).unlink()
    with collection.ledger.store.unrecorded() as session:
        session.connection()
        assert is_kept_out(collection.folder / FILE_NAME)


def test_a_plain_reading_would_let_go_of_them(collection: Collection) -> None:
    """The control: what is asked for above is lost by one open and close."""
    path = collection.folder / FILE_NAME
    with collection.ledger.store.unrecorded() as session:
        session.connection()
        path.read_bytes()
        assert not is_kept_out(path)
