"""Kept backups: due once a day, whole, told apart by what they were made for."""

from __future__ import annotations

import shutil
import time
from contextlib import closing
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.domain.errors import DamagedError, StoreError
from growdesk.services import backups
from growdesk.services.backup_values import Why
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

pytestmark = pytest.mark.file

NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)
DAY = timedelta(days=1)


@pytest.fixture
def photo(collection: Collection, tmp_path: Path) -> Path:
    """Give the one photo, of plant A1, in the collection's folder."""
    picture = tmp_path / "picture.jpg"
    Image.new("RGB", (40, 30), (20, 120, 60)).save(picture)
    first = collection.plants.add(PlantDraft("A1", "Cattleya hybrid", "cattleya"))
    assert not collection.photos.add(first.ids[0], [picture]).problems
    (photo,) = (collection.folder / "photos").glob("*/*")
    return photo


def test_a_backup_is_kept_and_told(collection: Collection, photo: Path) -> None:
    folder = collection.folder
    made = backups.make(folder, Why.BY_HAND, NOON)
    assert backups.kept(folder) == (made,)
    assert (made.why, made.made_at, made.problem) == (Why.BY_HAND, NOON, "")
    assert (made.plants, made.photos) == (1, 1)
    assert made.folder.parent == folder / "backups"
    assert backups.prove(made) == ""
    (held,) = (made.folder.parent / "photos").glob("*/*")
    assert held.name == photo.name
    assert held.samefile(photo)
    assert made.length_bytes > photo.stat().st_size


def test_one_is_due_a_day_where_something_was_written(collection: Collection) -> None:
    folder = collection.folder
    collection.plants.add(PlantDraft("A1", "Cattleya hybrid", "cattleya"))
    assert backups.is_due(folder, NOON)
    backups.make(folder, Why.DAILY, NOON)
    assert not backups.is_due(folder, NOON + timedelta(hours=1))
    assert not backups.is_due(folder, NOON + DAY)
    collection.plants.add(PlantDraft("A2", "Vanda hybrid", "vanda"))
    assert not backups.is_due(folder, NOON)
    assert backups.is_due(folder, NOON + DAY)
    assert backups.is_due(folder, NOON - DAY)
    collection.history.undo()
    assert backups.is_due(folder, NOON + DAY)


def test_another_change_in_the_place_of_one_undone_is_backed_up(
    collection: Collection,
) -> None:
    """Number, undone ones and rows are the same; what was written is not."""
    folder = collection.folder
    collection.plants.add(PlantDraft("A1", "Cattleya hybrid", "cattleya"))
    backups.make(folder, Why.DAILY, NOON)
    collection.history.undo()
    collection.plants.add(PlantDraft("B7", "Vanda hybrid", "vanda"))
    assert backups.is_due(folder, NOON + DAY)


def test_a_clock_set_back_among_days_that_have_a_backup_costs_no_backup(
    collection: Collection,
) -> None:
    folder = collection.folder
    for number in range(4):
        collection.plants.add(PlantDraft(f"A{number}", "Cattleya hybrid", "cattleya"))
        backups.make(folder, Why.DAILY, NOON + number * DAY)
    collection.plants.add(PlantDraft("A9", "Cattleya hybrid", "cattleya"))
    back = NOON + DAY
    assert backups.is_due(folder, back)
    backups.make(folder, Why.DAILY, back)
    collection.plants.add(PlantDraft("B1", "Cattleya hybrid", "cattleya"))
    assert not backups.is_due(folder, back)
    assert backups.is_due(folder, back - DAY)


def test_nothing_is_due_where_no_collection_is(tmp_path: Path) -> None:
    assert not backups.is_due(tmp_path, NOON)
    assert backups.kept(tmp_path) == ()
    with pytest.raises(StoreError, match="no collection"):
        backups.make(tmp_path, Why.DAILY, NOON)
    assert list(tmp_path.iterdir()) == []


def test_a_damaged_collection_is_not_backed_up_and_costs_no_backup(
    collection: Collection,
) -> None:
    folder = collection.folder
    for number in range(40):
        collection.plants.add(PlantDraft(f"A{number}", "Vanda hybrid", "vanda"))
    collection.close()
    made = [backups.make(folder, Why.DAILY, NOON + n * DAY) for n in range(30)]
    database = folder / "collection.sqlite"
    content = bytearray(database.read_bytes())
    content[8192:12288] = bytes(4096)
    database.write_bytes(content)
    before = backups.kept(folder)
    with pytest.raises(DamagedError, match="no backup is made"):
        backups.make(folder, Why.DAILY, NOON + 60 * DAY)
    assert backups.kept(folder) == before
    assert made[-1] in before
    assert not list((folder / "backups").glob("*.part"))


def test_a_backup_that_is_gone_is_told(collection: Collection) -> None:
    made = backups.make(collection.folder, Why.DAILY, NOON)
    made.folder.rename(made.folder.with_name("elsewhere"))
    assert "is gone" in backups.prove(made)


def test_a_photo_gone_from_the_collection_is_still_held(
    collection: Collection, photo: Path
) -> None:
    folder = collection.folder
    backups.make(folder, Why.DAILY, NOON)
    content = photo.read_bytes()
    photo.unlink()
    made = backups.make(folder, Why.DAILY, NOON + DAY)
    (line,) = backups.lacking_in(made)
    assert photo.name in line
    assert "gone" in line
    (held,) = (made.folder.parent / "photos").glob("*/*")
    assert held.read_bytes() == content
    assert backups.prove(made) == ""


def test_every_backup_of_a_year_opens_and_holds_what_it_says(
    tmp_path: Path, told: Callable[[str], None]
) -> None:
    folder = tmp_path / "mine"
    with closing(Collection.open(folder, create=True)) as collection:
        for number in range(36):
            collection.plants.add(PlantDraft(f"A{number}", "Vanda hybrid", "vanda"))
            backups.make(folder, Why.DAILY, NOON + 10 * number * DAY)
    found = backups.kept(folder)
    assert 12 < len(found) < 25
    for number, each in enumerate(found):
        assert backups.prove(each) == ""
        again = tmp_path / f"again-{number}"
        again.mkdir()
        shutil.copy(each.folder / "collection.sqlite", again)
        with closing(Collection.open_to_read(again)) as old:
            assert len(old.plants.all()) == each.plants
    told(f"F21 kept backups of a year: {len(found)} opened, 0 with other counts")


@pytest.mark.parametrize(
    ("what", "then"),
    [
        ("back 1 day", NOON - DAY),
        ("back 10 years", NOON - 3652 * DAY),
        ("forward 2 years", NOON + 730 * DAY),
        ("forward 100 years", NOON + 36525 * DAY),
        ("zone ahead", NOON),
        ("zone behind", NOON),
    ],
)
def test_a_clock_that_was_set_costs_no_backup(
    collection: Collection,
    monkeypatch: pytest.MonkeyPatch,
    told: Callable[[str], None],
    what: str,
    then: datetime,
) -> None:
    folder = collection.folder
    for day in range(-11, 1):
        collection.plants.add(PlantDraft(f"B{day}", "Vanda hybrid", "vanda"))
        backups.make(folder, Why.DAILY, NOON + day * DAY)
    before = backups.kept(folder)
    if "zone" in what:
        monkeypatch.setenv("TZ", "XXX-14" if "ahead" in what else "XXX+12")
        time.tzset()
    try:
        for number in range(3):
            collection.plants.add(PlantDraft(f"C{number}", "Vanda hybrid", "vanda"))
            if backups.is_due(folder, then):
                backups.make(folder, Why.DAILY, then)
        after = backups.kept(folder)
        assert set(before) <= set(after)
        assert len(after) - len(before) <= 1
        collection.plants.add(PlantDraft("D1", "Vanda hybrid", "vanda"))
        monkeypatch.undo()
        time.tzset()
        assert backups.is_due(folder, NOON + DAY)
        newest = backups.make(folder, Why.DAILY, NOON + DAY)
        right = backups.kept(folder)
        assert right[0] == newest
        assert len(set(before) - set(right)) <= 1, "as on any day"
    finally:
        monkeypatch.undo()
        time.tzset()
    told(f"F12 clock {what}: {len(before)} kept before, 0 deleted because of it")
