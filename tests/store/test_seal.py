"""What the seal tells of a file at its opening, and when a check in depth is due."""

from __future__ import annotations

import hashlib
import json
import shutil
from contextlib import closing
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from growdesk.store.engine import connect
from growdesk.store.schema import PlaceRow
from growdesk.store.seal import SEAL_NAME, read_seal
from growdesk.store.store import FILE_NAME, Store

if TYPE_CHECKING:
    from pathlib import Path

NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)


def now() -> datetime:
    return NOON


def in_days(days: float) -> datetime:
    return NOON + timedelta(days=days)


def add(store: Store, name: str) -> None:
    with store.writing("Place added", now) as writing:
        writing.insert(PlaceRow, {"name": name, "kind": "sill", "note": "cool"})


def made(folder: Path) -> Path:
    store = Store.open(folder, now, create=True)
    add(store, "Sill")
    store.close()
    return folder / FILE_NAME


def told(folder: Path, at: datetime = NOON) -> tuple[str, bool]:
    """Open and close a folder, and give what was told and whether a check is due."""
    store = Store.open(folder, lambda: at)
    given = store.notice, store.full_check_due
    store.close()
    return given


def test_a_seal_says_what_was_left(folder: Path) -> None:
    path = made(folder)
    said = json.loads((folder / SEAL_NAME).read_bytes())
    assert said["sha256"] == hashlib.sha256(path.read_bytes()).hexdigest()
    assert said["bytes"] == path.stat().st_size
    assert said["closed_at"] == "2026-05-20T12:00:00+00:00"
    assert said["fully_checked_at"] == said["closed_at"]


def test_while_it_is_open_there_is_no_seal(folder: Path) -> None:
    made(folder)
    store = Store.open(folder, now)
    assert not (folder / SEAL_NAME).exists()
    store.close()
    store.close()
    assert (folder / SEAL_NAME).exists()


def test_a_file_as_it_was_left_is_not_looked_through_again(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made(folder)
    looked: list[Path] = []
    monkeypatch.setattr(
        "growdesk.store.opening.check_whole", lambda path, **_how: looked.append(path)
    )
    assert told(folder) == ("", False)
    assert looked == []
    (folder / SEAL_NAME).unlink()
    told(folder)
    assert looked == [folder / FILE_NAME]


def test_without_a_seal_the_program_was_stopped(folder: Path) -> None:
    made(folder)
    (folder / SEAL_NAME).unlink()
    assert told(folder) == ("", True)
    assert told(folder) == ("", True), "it stays due until it was made"


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"[]",
        b"[" * 4096,
        b"{}",
        b'{"form": 1}',
        b'{"form": 1, "sha256": "", "bytes": "many", "schema": 4, "closed_at": 1}',
        b"\xff\xfe\x00",
        b'{"form": 9}',
    ],
)
def test_a_seal_that_says_nothing_is_none(folder: Path, content: bytes) -> None:
    made(folder)
    (folder / SEAL_NAME).write_bytes(content)
    assert read_seal(folder) is None
    assert told(folder) == ("", True)


def test_a_noted_check_is_kept_for_a_week(folder: Path) -> None:
    made(folder)
    (folder / SEAL_NAME).unlink()
    store = Store.open(folder, now)
    store.note_full_check(NOON)
    assert not store.full_check_due
    store.close()
    assert told(folder, in_days(6.9)) == ("", False)
    assert told(folder, in_days(7.1)) == ("", True)
    assert told(folder, in_days(-4000)) == ("", True), "a clock set back asks for one"


def test_an_older_copy_laid_over_it_is_told(folder: Path, tmp_path: Path) -> None:
    path = made(folder)
    shutil.copy(path, tmp_path / "old")
    store = Store.open(folder, now)
    add(store, "Shelf")
    store.close()
    shutil.copy(tmp_path / "old", path)
    notice, due = told(folder)
    assert notice.startswith(
        f"The collection in {folder} is not as growdesk left it on 20 May 2026:"
    )
    assert due
    assert told(folder) == ("", True), "told once, checked until it is done"


def test_one_changed_bit_is_told(folder: Path) -> None:
    path = made(folder)
    content = bytearray(path.read_bytes())
    at = content.index(b"cool")
    content[at] ^= 16
    path.write_bytes(content)
    notice, due = told(folder)
    assert "is not as growdesk left it" in notice
    assert due
    with closing(connect(path, reading=True)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("SELECT note FROM place").fetchone() == ("sool",)


def test_reading_leaves_the_seal_alone(folder: Path) -> None:
    made(folder)
    before = (folder / SEAL_NAME).read_bytes()
    store = Store.open_to_read(folder, now)
    store.close()
    assert (folder / SEAL_NAME).read_bytes() == before


def test_no_seal_is_written_where_the_disk_refuses_it(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made(folder)
    store = Store.open(folder, now)

    def full(_folder: Path, _seal: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("growdesk.store.store.put_seal", full)
    store.close()
    monkeypatch.undo()
    assert told(folder) == ("", True)
