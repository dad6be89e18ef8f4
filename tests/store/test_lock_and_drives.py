"""Who may write when several want to, and what happens where a drive keeps no locks."""

from __future__ import annotations

import errno
import os
import shutil
import sys
from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import func, select

from growdesk.domain.errors import BusyError, NoLocksError, StoreError
from growdesk.store import drives, lock
from growdesk.store.engine import connect
from growdesk.store.lock import LOCK_NAME, FolderLock
from growdesk.store.schema import PlaceRow
from growdesk.store.seal import SEAL_NAME
from growdesk.store.store import FILE_NAME, Store
from tests.faults.beside_files import add, disk, names, now

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

LINUX = sys.platform == "linux"


def made(folder: Path) -> Store:
    store = Store.open(folder, now, create=True)
    add(store, 1)
    return store


# -- the lock -----------------------------------------------------------------------


def test_a_number_in_the_lock_file_is_not_believed(folder: Path) -> None:
    made(folder).close()
    (folder / LOCK_NAME).write_text(f"{os.getpid()}\n{os.getppid()}\n1\n")
    store = Store.open(folder, now)
    with pytest.raises(BusyError, match="open in another growdesk"):
        FolderLock(folder)
    store.close()
    FolderLock(folder).release()


@pytest.mark.parametrize(
    "number", [errno.ENOLCK, errno.EOPNOTSUPP, errno.ENOSYS, errno.EINVAL]
)
def test_without_locks_a_collection_is_looked_at(
    folder: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    made(folder).close()

    def refuses(_descriptor: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(lock, "_take", refuses)
    with pytest.raises(NoLocksError):
        FolderLock(folder)
    store = Store.open(folder, now)
    assert "cannot keep two programs from writing" in store.looking
    assert "a disk of this computer" in store.looking
    with store.reading() as session:
        assert session.scalar(select(func.count()).select_from(PlaceRow)) == 1
    store.close()


def test_a_lock_that_is_given_twice_is_none(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made(folder).close()
    monkeypatch.setattr(lock, "_take", lambda _descriptor: None)
    store = Store.open(folder, now)
    assert "cannot keep two programs from writing" in store.looking
    store.close()


def test_a_disk_that_fails_at_the_lock_is_a_plain_line(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made(folder).close()

    def fails(_descriptor: int) -> None:
        raise OSError(errno.EIO, "Input/output error")

    monkeypatch.setattr(lock, "_take", fails)
    with pytest.raises(StoreError, match="would not read or write"):
        Store.open(folder, now)


# -- the kind of drive --------------------------------------------------------------

_MOUNTS = """\
22 1 8:1 / / rw,relatime shared:1 - ext4 /dev/sda1 rw
40 22 0:50 / /mnt/nas rw,relatime shared:9 - nfs4 box:/plants rw,vers=4.2
41 22 0:51 / /mnt/nas/old rw shared:9 - nfs box:/old rw,vers=3,nolock,local_lock=all
42 22 0:52 / /mnt/my\\040share rw - cifs //box/plants rw,vers=3.1.1,nobrl
43 22 0:53 / /mnt/far rw,nosuid - fuse.sshfs me@far: rw,user_id=1000
44 22 0:54 / /mnt/stick rw - vfat /dev/sdb1 rw
45 22 0:55 / /mnt/win rw shared:2 master:1 - cifs //box/win rw
a line of another form
"""


@pytest.mark.parametrize(
    ("where", "kind", "is_told"),
    [
        ("/home/anna/collection", "ext4", False),
        ("/mnt/nas/collection", "nfs4", False),
        ("/mnt/nas/old/collection", "nfs", True),
        ("/mnt/nas/older", "nfs4", False),
        ("/mnt/my share/collection", "cifs", True),
        ("/mnt/far", "fuse.sshfs", True),
        ("/mnt/stick/x/y", "vfat", False),
        ("/mnt/win/x", "cifs", False),
    ],
)
def test_drives_are_known_by_what_they_are_mounted_as(
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    where: str,
    kind: str,
    is_told: bool,
) -> None:
    monkeypatch.setattr(drives, "_read_mounts", lambda: _MOUNTS)
    folder = type(tmp_path)(where)
    assert drives.drive_of(folder)[0] == kind
    assert bool(drives.drive_notice(folder)) is is_told


def test_a_drive_that_keeps_other_computers_out_of_nothing_is_told_at_the_opening(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made(folder).close()
    told = f"22 1 0:1 / {folder.anchor} rw - nfs box:/ rw,nolock\n"
    monkeypatch.setattr(drives, "_read_mounts", lambda: told)
    store = Store.open(folder, now)
    assert "does not keep other computers out" in store.notice
    assert store.looking == ""
    store.close()


@pytest.mark.skipif(not LINUX, reason="reads Linux's own list of mounts")
def test_this_machines_own_drive_is_found(tmp_path: Path) -> None:
    assert drives.drive_of(tmp_path)[0]
    assert drives.drive_notice(tmp_path) == ""


def test_every_collection_is_kept_as_a_network_drive_needs_it(folder: Path) -> None:
    made(folder).close()
    with closing(connect(folder / FILE_NAME)) as connection:
        found = {
            name: connection.execute(f"PRAGMA {name}").fetchone()
            for name in ("journal_mode", "synchronous", "cache_spill", "locking_mode")
        }
        mapped = connection.execute("PRAGMA mmap_size").fetchone()
    assert found == {
        "journal_mode": ("truncate",),
        "synchronous": (2,),
        "cache_spill": (0,),
        "locking_mode": ("normal",),
    }
    assert mapped in {(0,), None}


def test_nothing_of_a_change_is_in_the_file_before_its_end(folder: Path) -> None:
    store = made(folder)
    before = (folder / FILE_NAME).read_bytes()
    with store.writing("Many", now) as writing:
        for number in range(400):
            row = {"name": f"Row {number}", "kind": "shelf", "note": "n" * 9000}
            writing.insert(PlaceRow, row)
        assert (folder / FILE_NAME).read_bytes() == before
        reading = Store.open_to_read(folder, now)
        with reading.reading() as session:
            assert session.scalar(select(func.count()).select_from(PlaceRow)) == 1
        reading.close()
    assert (folder / FILE_NAME).stat().st_size > 3_000_000
    store.close()


# -- while it is open ---------------------------------------------------------------


def refused(store: Store, line: str) -> None:
    with pytest.raises(StoreError, match=line) as caught:
        add(store, 50)
    assert "\n" not in caught.value.line()


@pytest.mark.skipif(not LINUX, reason="an open file keeps its name on Windows")
def test_a_file_replaced_while_it_is_open_is_not_written_over(
    folder: Path, tmp_path: Path
) -> None:
    store = made(folder)
    path = folder / FILE_NAME
    shutil.copy(path, tmp_path / "copy")
    add(store, 2)
    (tmp_path / "copy").replace(path)
    before = path.read_bytes()
    refused(store, "was moved or replaced|was changed by another program")
    refused(store, "was moved or replaced|was changed by another program")
    store.close()
    assert path.read_bytes() == before
    assert not (folder / SEAL_NAME).exists(), "what is there was not left by us"
    again = Store.open(folder, now)
    assert again.full_check_due
    again.close()


@pytest.mark.skipif(not LINUX, reason="an open file cannot be laid over on Windows")
def test_an_older_copy_laid_over_it_while_it_is_open_is_not_written_over(
    folder: Path, tmp_path: Path
) -> None:
    store = made(folder)
    path = folder / FILE_NAME
    shutil.copyfile(path, tmp_path / "copy")
    for number in range(2, 6):
        add(store, number)
    before = (tmp_path / "copy").read_bytes()
    path.write_bytes(before)
    refused(store, "was changed by another program")
    refused(store, "was changed by another program")
    store.close()
    assert path.read_bytes() == before
    assert not (folder / SEAL_NAME).exists()


def test_what_was_taken_back_and_made_compact_does_not_look_foreign(
    folder: Path,
) -> None:
    store = made(folder)

    def fails() -> None:
        with store.writing("Taken back", now) as writing:
            writing.insert(PlaceRow, {"name": "Gone", "kind": "shelf"})
            raise RuntimeError

    for number in range(2, 8):
        with pytest.raises(RuntimeError):
            fails()
        add(store, number)
        store.compact()
    store.close()
    assert len(names(folder)) == 7


@pytest.mark.skipif(not LINUX, reason="pulls a disk away by renaming its folder")
def test_a_folder_that_was_away_works_again_when_it_is_back(
    folder: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    store = made(folder)
    folder.rename(tmp_path / "away")
    refused(store, "cannot be opened|moved or replaced|cannot be used")
    with pytest.raises(StoreError), store.reading() as session:
        session.scalar(select(func.count()).select_from(PlaceRow))
    (tmp_path / "away").rename(folder)
    add(store, 2)
    store.close()
    assert names(folder) == ["Shelf 1", "Shelf 2"]
    told("F6 folder away while open: refused in one line, works when it is back")


@pytest.mark.skipif(not LINUX, reason="mounts and unmounts a disk")
def test_a_stick_put_back_is_locked_and_written_anew(
    tmp_path: Path, folder: Path
) -> None:
    made(folder).close()
    kept = tmp_path / "kept"
    with disk(tmp_path / "stick") as at:
        shutil.copytree(folder, at / "c")
        store = Store.open(at / "c", now)
        add(store, 2)
        shutil.copytree(at / "c", kept)
    refused(store, "cannot be opened|moved or replaced|cannot be used")
    (tmp_path / "stick").rmdir()
    with disk(tmp_path / "stick") as at:
        refused(store, "cannot be opened|moved or replaced|cannot be used")
        shutil.copytree(kept, at / "c")
        add(store, 3)
        with pytest.raises(BusyError):
            FolderLock(at / "c")
        store.close()
        assert names(at / "c") == ["Shelf 1", "Shelf 2", "Shelf 3"]
