"""The report of a fault: whole and useful, and without a word of the grower's."""

from __future__ import annotations

import getpass
import logging
import re
import socket
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import InputError, StoreError
from growdesk.services import bug_report, log_file, trail
from growdesk.services.log_file import log
from growdesk.store.engine import connect
from growdesk.store.schema import Base
from growdesk.store.store import FILE_NAME

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable, Iterator

    from growdesk.services.collection import Collection

pytestmark = pytest.mark.file

AT = datetime(2026, 11, 26, 16, 49, tzinfo=UTC)


@pytest.fixture
def logs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    place = tmp_path / "log"
    monkeypatch.setattr("platformdirs.user_log_path", lambda *_, **__: place)
    trail.forget()
    yield place
    log_file.stop()
    log.setLevel(logging.NOTSET)


def filled(connection: sqlite3.Connection, table: str) -> list[str]:
    """Put a row with a word of its own in every text into a table; give the words."""
    row: dict[str, object] = {}
    said: list[str] = []
    for _, column, kind, *_rest in connection.execute(f"PRAGMA table_info({table})"):
        row[column] = 1
        if "CHAR" in kind or "TEXT" in kind:
            row[column] = f"zq{table}xq{column}wort".replace("_", "")
            said.append(str(row[column]))
        elif kind == "DATE":
            row[column] = "2026-05-20"
    names, marks = ", ".join(row), ", ".join("?" * len(row))
    connection.execute(
        f"INSERT OR REPLACE INTO {table} ({names}) VALUES ({marks})",  # noqa: S608
        tuple(row.values()),
    )
    return said


@pytest.fixture
def words(collection: Collection) -> list[str]:
    """Fill every table, whatever the words mean, and give all words."""
    with closing(connect(collection.folder / FILE_NAME)) as connection:
        connection.execute("PRAGMA foreign_keys = OFF")
        connection.execute("PRAGMA ignore_check_constraints = ON")
        return [
            word for table in Base.metadata.tables for word in filled(connection, table)
        ]


def owner_s() -> list[str]:
    """Give what tells whose machine this is, where it is long enough to be a name."""
    names = [getpass.getuser(), socket.gethostname(), str(Path.home())]
    return [name for name in names if len(name) > 5]


def test_no_word_of_any_table_is_in_the_report_or_the_log(
    collection: Collection,
    words: list[str],
    logs: Path,
    told: Callable[[str], None],
) -> None:
    log_file.start()
    for word in words:
        for error in (
            ValueError(word),
            KeyError(word),
            StoreError(word, word),
            OSError(2, word, word),
            InputError(word, word, word, word),
        ):
            log.error("failed", exc_info=error)
            log.warning("of %s and %s", word, error)
    text = bug_report.report(collection.folder, AT)
    written = (logs / log_file.NAME).read_text(encoding="utf-8")
    assert len(words) >= 80
    assert not [word for word in words if word in text]
    assert not [word for word in words if word in written]
    for name in (*owner_s(), str(collection.folder), collection.folder.parent.name):
        assert name not in text
        assert name not in written
    told(
        f"F20 report and log: {len(words)} words in the texts of "
        f"{len(Base.metadata.tables)} tables, 0 found in either"
    )


def test_the_report_tells_versions_counts_and_the_log(
    collection: Collection, words: list[str], logs: Path
) -> None:
    log_file.start()
    assert logs.is_dir()
    trail.note("command", "look")
    text = bug_report.report(collection.folder, AT, ("screen: 800 x 600",))
    assert "written at 2026-11-26 16:49 UTC" in text
    assert "rows of plant: 1" in text
    assert re.search(r"rows that cannot be read: ([1-9]|\w+Error)", text)
    assert "photos that are gone: 1" in text
    assert "screen: 800 x 600" in text
    assert "command:look" in text
    assert "INFO growdesk: started: growdesk" in text
    for table in Base.metadata.tables:
        assert f"rows of {table}: " in text
    assert words


@pytest.mark.parametrize(
    "content", [b"", b"no database at all", b"SQLite format 3\0" + b"\xff" * 5_000]
)
def test_a_damaged_collection_is_reported_too(
    tmp_path: Path, logs: Path, content: bytes
) -> None:
    (tmp_path / "collection.sqlite").write_bytes(content)
    text = bug_report.report(tmp_path, AT)
    assert "it could not be read: " in text
    assert logs.parent.name not in text


def test_without_a_collection_it_says_so(tmp_path: Path, logs: Path) -> None:
    assert "There is no collection yet." in bug_report.report(tmp_path, AT)
    assert not logs.exists()


def test_a_file_that_is_there_is_left_as_it_is(tmp_path: Path) -> None:
    file = tmp_path / "report.txt"
    bug_report.save("first", file)
    with pytest.raises(InputError, match="is there already"):
        bug_report.save("second", file)
    assert file.read_text(encoding="utf-8") == "first"
    with pytest.raises(InputError, match="lies in no folder"):
        bug_report.save("third", tmp_path / "nowhere" / "report.txt")
