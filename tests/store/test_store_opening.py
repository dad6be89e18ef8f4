"""What may lie where a collection should, and the one plain line each of it gets."""

from __future__ import annotations

import hashlib
import os
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import func, select

from growdesk.domain.errors import (
    BusyError,
    DamagedError,
    ForeignError,
    LookOnlyError,
    StoreError,
    TooNewError,
)
from growdesk.store.header import APPLICATION_ID, read_header
from growdesk.store.migrations import SCHEMA
from growdesk.store.schema import PlaceRow
from growdesk.store.store import FILE_NAME, Store


def now() -> datetime:
    return datetime(2026, 5, 20, 12, tzinfo=UTC)


def made(folder: Path) -> Path:
    """Make a collection with one place, and give its file."""
    store = Store.open(folder, now, create=True)
    with store.writing("Place added", now) as writing:
        writing.insert(PlaceRow, {"name": "Sill", "kind": "windowsill"})
    store.close()
    return folder / FILE_NAME


def digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def test_a_new_collection_is_one_file_at_rest(folder: Path) -> None:
    path = made(folder)
    names = {found.name for found in folder.iterdir()}
    assert names == {FILE_NAME, "collection.lock", "collection.seal"}
    header = read_header(path)
    assert (header.application_id, header.schema) == (APPLICATION_ID, SCHEMA)


def test_a_missing_folder_is_not_made_by_looking(folder: Path) -> None:
    with pytest.raises(StoreError, match="no collection"):
        Store.open(folder, now)
    assert not folder.exists()


def test_a_folder_with_other_files_is_left_alone(folder: Path) -> None:
    folder.mkdir()
    (folder / "letters.txt").write_text("dear")
    with pytest.raises(ForeignError, match=r"letters\.txt"):
        Store.open(folder, now, create=True)
    assert [found.name for found in folder.iterdir()] == ["letters.txt"]


def test_what_a_system_scatters_is_no_hindrance(folder: Path) -> None:
    folder.mkdir()
    for name in (".DS_Store", "desktop.ini"):
        (folder / name).write_bytes(b"x")
    assert read_header(made(folder)).schema == SCHEMA


@pytest.mark.parametrize(
    "name", ["with space", "a#b?c=d%20&e", "Gewächshaus ß", "'quoted\"", "x" * 180]
)
def test_a_folder_may_have_any_name(tmp_path: Path, name: str) -> None:
    path = made(tmp_path / name)
    assert path.parent.name == name
    assert path.stat().st_size > 0
    Store.open(tmp_path / name, now).close()
    assert [found.name for found in tmp_path.iterdir()] == [name]


def test_a_file_in_place_of_the_folder_is_named(folder: Path) -> None:
    folder.write_text("a file")
    with pytest.raises(ForeignError, match="not a folder"):
        Store.open(folder, now, create=True)


def test_photos_without_their_file_are_not_overlaid(folder: Path) -> None:
    photo = folder / "photos" / "ab" / "abc.jpg"
    photo.parent.mkdir(parents=True)
    photo.write_bytes(b"x")
    with pytest.raises(DamagedError, match="is gone"):
        Store.open(folder, now, create=True)


@pytest.mark.parametrize(
    ("content", "error", "told"),
    [
        (b"", DamagedError, "empty"),
        (b"just some text, longer than a header " * 20, ForeignError, "not a growdesk"),
        (b"PK\x03\x04" + b"\x00" * 200, ForeignError, "not a growdesk"),
        (b"SQLite format 3\x00" + b"\x00" * 20, DamagedError, "cut short"),
    ],
)
def test_a_foreign_file_gets_one_line_and_stays(
    folder: Path, content: bytes, error: type[StoreError], told: str
) -> None:
    folder.mkdir()
    path = folder / FILE_NAME
    path.write_bytes(content)
    for create in (False, True):
        with pytest.raises(error, match=told) as caught:
            Store.open(folder, now, create=create)
        assert "\n" not in caught.value.line()
    assert path.read_bytes() == content
    assert [found.name for found in folder.iterdir()] == [FILE_NAME]


def test_another_programs_database_stays_untouched(folder: Path) -> None:
    folder.mkdir()
    path = folder / FILE_NAME
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE song (title TEXT)")
    before = digest(path)
    with pytest.raises(ForeignError, match="another program"):
        Store.open(folder, now, create=True)
    assert digest(path) == before


def newer(path: Path, compatible_from: int) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA + 7}")
        connection.execute(
            "INSERT INTO migration (id, name, compatible_from, at_s)"
            " VALUES (?, 'later', ?, 0)",
            (SCHEMA + 7, compatible_from),
        )
        connection.commit()


def test_a_newer_file_is_refused_and_stays(folder: Path) -> None:
    path = made(folder)
    newer(path, SCHEMA + 1)
    before = digest(path)
    with pytest.raises(TooNewError, match="newer growdesk"):
        Store.open(folder, now)
    assert digest(path) == before


def test_a_newer_file_that_allows_it_is_opened(folder: Path) -> None:
    newer(made(folder), SCHEMA)
    store = Store.open(folder, now)
    with store.reading() as session:
        assert session.scalar(select(func.count()).select_from(PlaceRow)) == 1
    store.close()


@pytest.mark.parametrize("cut", [4096, 5000, 20000])
def test_a_cut_file_is_damaged_and_stays(folder: Path, cut: int) -> None:
    path = made(folder)
    path.write_bytes(path.read_bytes()[:cut])
    before = digest(path)
    with pytest.raises(DamagedError, match="damaged") as caught:
        Store.open(folder, now)
    assert "restore" in caught.value.hint
    assert digest(path) == before


def test_overwritten_pages_are_damage_not_a_traceback(folder: Path) -> None:
    path = made(folder)
    content = bytearray(path.read_bytes())
    content[4096:12288] = b"\xa5" * 8192
    path.write_bytes(content)
    with pytest.raises(DamagedError):
        Store.open(folder, now)


def test_a_second_opener_is_told_and_the_first_goes_on(folder: Path) -> None:
    made(folder)
    first = Store.open(folder, now)
    with pytest.raises(BusyError, match="open in another growdesk"):
        Store.open(folder, now)
    with first.writing("Place added", now) as writing:
        writing.insert(PlaceRow, {"name": "Shelf", "kind": "shelf"})
    first.close()
    first.close()
    Store.open(folder, now).close()


_HOLD = """
import sys, time
from datetime import UTC, datetime
from pathlib import Path
from growdesk.store.store import Store
store = Store.open(Path(sys.argv[1]), lambda: datetime.now(tz=UTC))
print("held", flush=True)
time.sleep(60)
"""


def test_a_killed_holder_leaves_no_lock(folder: Path) -> None:
    made(folder)
    holder = subprocess.Popen(
        [sys.executable, "-c", _HOLD, str(folder)],
        stdout=subprocess.PIPE,
        cwd=Path(__file__).parents[2],
    )
    with holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == b"held\n"
        with pytest.raises(BusyError):
            Store.open(folder, now)
        os.kill(holder.pid, signal.SIGKILL if hasattr(signal, "SIGKILL") else 9)
    Store.open(folder, now).close()


def test_leftovers_of_a_stopped_program_are_swept(folder: Path) -> None:
    made(folder)
    left = [
        folder / "collection.sqlite.77.part",
        folder / "collection.sqlite.77.part-journal",
        folder / "photos" / "ab" / "abc.jpg.77.part",
    ]
    for path in left:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"half")
    Store.open(folder, now).close()
    assert not any(path.exists() for path in left)


def test_an_interrupted_creation_is_taken_up(folder: Path) -> None:
    folder.mkdir()
    (folder / f"{FILE_NAME}.9.part").write_bytes(b"half")
    store = Store.open(folder, now, create=True)
    store.close()
    assert read_header(folder / FILE_NAME).schema == SCHEMA


def test_a_place_that_refuses_is_opened_to_look_at(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made(folder)
    real = os.open

    def refusing(path: str | Path, flags: int, mode: int = 0o777) -> int:
        if str(path).endswith("collection.lock"):
            raise PermissionError(13, "Permission denied", str(path))
        return real(path, flags, mode)

    monkeypatch.setattr(os, "open", refusing)
    store = Store.open(folder, now)
    assert store.looking.startswith(f"{folder} may not be written. Copy the collection")
    with store.reading() as session:
        assert session.scalar(select(func.count()).select_from(PlaceRow)) == 1
    with (
        pytest.raises(LookOnlyError, match="may not be written"),
        store.writing("Place added", now),
    ):
        pass
    store.close()
    monkeypatch.undo()
    again = Store.open(folder, now)
    assert (again.looking, again.notice, again.full_check_due) == ("", "", False)
    again.close()


def test_a_place_that_refuses_and_holds_nothing_is_a_plain_line(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refusing(path: str | Path, *_how: int) -> int:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(os, "open", refusing)
    with pytest.raises(StoreError, match="may not be written") as caught:
        Store.open(folder, now, create=True)
    assert "Copy the collection" in caught.value.hint


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="needs a /proc")
def test_a_folder_that_cannot_be_made_is_a_plain_line() -> None:
    with pytest.raises(StoreError) as caught:
        Store.open(Path("/proc/growdesk-collection"), now, create=True)
    assert "/proc/growdesk-collection" in caught.value.line()
