"""Killed in the middle: what was acknowledged is there, and nothing is half."""

from __future__ import annotations

import random
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from sqlalchemy import func, select

from growdesk.domain.errors import StoreError
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.store import whole_files
from growdesk.store.schema import ActionRow, PhotoRow, PlantRow
from growdesk.store.store import FILE_NAME, Store

KILLS = 6
_ADD_PLANTS = """
import sys
from datetime import date
from pathlib import Path
from PIL import Image
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft

folder, scratch = Path(sys.argv[1]), Path(sys.argv[2])
collection = Collection.open(folder, FixedClock(date(2026, 5, 20)))
print("open", flush=True)
while True:
    tag = collection.plants.next_tag()
    plant = collection.plants.add(PlantDraft(tag, "", "", note="x" * 3000)).ids[0]
    picture = scratch / f"{tag}.jpg"
    Image.effect_noise((64, 64), 90).save(picture)
    collection.photos.add(plant, [picture])
    print(tag, flush=True)
"""


def acknowledged(folder: Path, scratch: Path, seconds: float) -> list[str]:
    """Let a program add plants, kill it, and give the tags it said were kept."""
    program = subprocess.Popen(
        [sys.executable, "-c", _ADD_PLANTS, str(folder), str(scratch)],
        stdout=subprocess.PIPE,
        cwd=Path(__file__).parents[2],
        text=True,
    )
    with program:
        assert program.stdout is not None
        assert program.stdout.readline() == "open\n"
        time.sleep(seconds)
        program.kill()
        return program.stdout.read().split()


def test_killed_while_writing_keeps_every_acknowledged_plant(tmp_path: Path) -> None:
    folder, clock = tmp_path / "collection", FixedClock(date(2026, 5, 20))
    Collection.open(folder, clock, create=True).close()
    told: list[str] = []
    chance = random.Random(7)  # noqa: S311 -- moments, not secrets
    for _ in range(KILLS):
        told += acknowledged(folder, tmp_path, chance.uniform(0.02, 0.3))
        collection = Collection.open(folder, clock)
        tags = [draft.tag for _, draft in collection.plants.all()]
        assert set(told) <= set(tags)
        with collection.ledger.reading() as session:
            plants = session.scalar(select(func.count()).select_from(PlantRow))
            photos = session.scalar(select(func.count()).select_from(PhotoRow))
            actions = session.scalar(select(func.count()).select_from(ActionRow))
        assert actions == (plants or 0) + (photos or 0)
        for plant_id, _ in collection.plants.all():
            for photo in collection.photos.of(plant_id):
                assert photo.problem is None
        assert not list(folder.rglob("*.part"))
        collection.close()
    assert told
    with closing(sqlite3.connect(folder / FILE_NAME)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


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


@pytest.mark.parametrize("name", ["sync_file", "sync_folder"])
def test_a_photo_whose_writing_fails_is_told_and_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    from PIL import Image  # noqa: PLC0415 -- only here

    clock = FixedClock(date(2026, 5, 20))
    collection = Collection.open(tmp_path / "collection", clock, create=True)
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    picture = tmp_path / "a.jpg"
    Image.new("RGB", (20, 20)).save(picture)
    monkeypatch.setattr(
        whole_files, name, Refusing(getattr(whole_files, name), failing=1)
    )
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
