"""Stopped by the disk in the middle: it is told, and nothing is half.

What a kill leaves is held by ``tests/faults``.
"""

from __future__ import annotations

import errno
import os
import sys
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.domain.errors import StoreError
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.store import photos, whole_files
from growdesk.store.store import Store

if TYPE_CHECKING:
    from pathlib import Path
    from types import ModuleType


class Refusing:
    """Stands in for one call of the system, which fails from the n-th time on."""

    def __init__(self, real: object, failing: int) -> None:
        self._real, self._failing, self.calls = real, failing, 0

    def __call__(self, *arguments: object) -> object:
        self.calls += 1
        if self.calls == self._failing:
            raise OSError(28, "No space left on device")
        assert callable(self._real)
        return self._real(*arguments)


def test_a_file_that_may_only_be_read_is_synced_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A photo copied back from a disc is one, and a restore syncs all it lays."""
    real = os.open
    synced: list[int] = []

    def may_not_write(path: Path, flags: int) -> int:
        if flags & os.O_RDWR:
            raise PermissionError(errno.EACCES, "Permission denied", str(path))
        return real(path, flags)

    monkeypatch.setattr(os, "open", may_not_write)
    monkeypatch.setattr(os, "fsync", synced.append)
    (tmp_path / "photo.jpg").write_bytes(b"photo")
    whole_files.sync_file(tmp_path / "photo.jpg")
    assert len(synced) == (sys.platform != "win32")


@pytest.mark.parametrize(
    ("at", "name"), [(whole_files, "sync_file"), (photos, "sync_folder")]
)
def test_a_photo_whose_writing_fails_is_told_and_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: ModuleType, name: str
) -> None:
    clock = FixedClock(date(2026, 5, 20))
    collection = Collection.open(tmp_path / "collection", clock, create=True)
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    picture = tmp_path / "a.jpg"
    Image.new("RGB", (20, 20)).save(picture)
    monkeypatch.setattr(at, name, Refusing(getattr(whole_files, name), failing=1))
    with pytest.raises(StoreError, match="disk is full"):
        collection.photos.add(plant, [picture])
    assert collection.photos.of(plant) == ()
    assert not list(collection.folder.rglob("*.part"))
    collection.photos.add(plant, [picture])
    assert collection.photos.of(plant)[0].problem is None
    collection.close()


def test_a_creation_that_fails_can_be_done_again(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def now() -> datetime:
        return datetime(2026, 5, 20, tzinfo=UTC)

    refusing = Refusing(whole_files.sync_file, failing=1)
    monkeypatch.setattr(whole_files, "sync_file", refusing)
    with pytest.raises(StoreError, match="disk is full"):
        Store.open(folder, now, create=True)
    assert [found.name for found in folder.iterdir()] == ["collection.lock"]
    Store.open(folder, now, create=True).close()
    assert refusing.calls == 3, "the second time the file, and its seal"


def test_a_file_is_not_written_into_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        whole_files.write_whole(tmp_path / "stick" / "a.zip", b"content")
    assert list(tmp_path.iterdir()) == []


def test_a_copy_that_fails_leaves_no_journal_either(tmp_path: Path) -> None:
    def fail() -> None:
        with whole_files.whole(tmp_path / "copy.sqlite") as part:
            part.write_bytes(b"half")
            part.with_name(f"{part.name}-journal").write_bytes(b"half")
            raise OSError(28, "No space left on device")

    with pytest.raises(OSError, match="No space"):
        fail()
    assert list(tmp_path.iterdir()) == []
