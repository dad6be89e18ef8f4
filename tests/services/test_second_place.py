"""A second place gets a copy when it is there, and is never made up for."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.domain.errors import BusyError, InputError, StoreError
from growdesk.services import backups, daily_backup, second_place
from growdesk.services.backup_values import Why
from growdesk.services.values import PlantDraft

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection import Collection

pytestmark = pytest.mark.file

NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)
DAY = timedelta(days=1)


@pytest.fixture
def mine(collection: Collection, tmp_path: Path) -> Path:
    """Give the folder of a collection with a plant and its photo."""
    picture = tmp_path / "picture.jpg"
    Image.new("RGB", (40, 30), (20, 120, 60)).save(picture)
    first = collection.plants.add(PlantDraft("A1", "Cattleya hybrid", "cattleya"))
    assert not collection.photos.add(first.ids[0], [picture]).problems
    return collection.folder


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    stick = tmp_path / "stick"
    stick.mkdir()
    return stick


def add(collection: Collection, tag: str) -> None:
    collection.plants.add(PlantDraft(tag, "Vanda hybrid", "vanda"))


def test_no_second_place_unless_chosen(mine: Path) -> None:
    assert second_place.second_place(mine) is None
    assert second_place.copy_last(mine, NOON) is None
    assert not second_place.is_overdue(mine, NOON.date())


def test_the_last_backup_is_copied_whole(mine: Path, stick: Path) -> None:
    place = second_place.choose(mine, stick, NOON)
    assert place is not None
    assert place.is_there
    made = backups.make(mine, Why.DAILY, NOON)
    copied = second_place.copy_last(mine, NOON)
    assert copied is not None
    assert copied.copied_at == NOON
    assert second_place.second_place(mine) == copied
    (there,) = backups.kept_in(copied.backups)
    assert (there.made_at, there.plants, there.photos) == (made.made_at, 1, 1)
    assert backups.prove(there) == ""


def test_a_stick_that_is_not_plugged_in_is_never_made_up(
    collection: Collection, mine: Path, stick: Path
) -> None:
    place = second_place.choose(mine, stick, NOON)
    assert place is not None
    drawer = stick.with_name("drawer")
    stick.rename(drawer)
    daily_backup.keep(mine, NOON)
    assert not stick.exists()
    stick.mkdir()  # as an empty mount point lies there
    add(collection, "A2")
    assert daily_backup.keep(mine, NOON + DAY).problems == ()
    assert list(stick.iterdir()) == []
    stick.rmdir()
    drawer.rename(stick)
    add(collection, "A3")
    daily_backup.keep(mine, NOON + 2 * DAY)
    assert [each.plants for each in backups.kept_in(place.backups)] == [3]


def test_a_stick_plugged_in_later_gets_the_last_backup(mine: Path, stick: Path) -> None:
    place = second_place.choose(mine, stick, NOON)
    assert place is not None
    drawer = stick.with_name("drawer")
    stick.rename(drawer)
    assert daily_backup.keep(mine, NOON).made is not None
    drawer.rename(stick)
    assert daily_backup.keep(mine, NOON).made is None
    assert len(backups.kept_in(place.backups)) == 1


def test_after_fourteen_days_without_it_is_said(
    collection: Collection, mine: Path, stick: Path
) -> None:
    second_place.choose(mine, stick, NOON)
    assert daily_backup.keep(mine, NOON).waiting == ""
    stick.rename(stick.with_name("drawer"))
    assert daily_backup.keep(mine, NOON + 20 * DAY).waiting == "", "nothing is new"
    add(collection, "A2")
    assert daily_backup.keep(mine, NOON + 13 * DAY).waiting == ""
    said = daily_backup.keep(mine, NOON + 14 * DAY).waiting
    assert said == f"For 14 days no backup has gone to {stick}: plug it in."


def test_the_copies_are_thinned_by_the_same_schedule(
    collection: Collection, mine: Path, stick: Path
) -> None:
    place = second_place.choose(mine, stick, NOON)
    assert place is not None
    for day in range(24):
        add(collection, f"B{day}")
        daily_backup.keep(mine, NOON + day * DAY)
    here = [each.made_at for each in backups.kept(mine)]
    assert [each.made_at for each in backups.kept_in(place.backups)] == here
    assert len(here) < 14


def test_a_place_that_cannot_be_meant_is_refused(mine: Path, tmp_path: Path) -> None:
    with pytest.raises(InputError, match="is not there"):
        second_place.choose(mine, tmp_path / "nowhere", NOON)
    with pytest.raises(InputError, match="inside the collection"):
        second_place.choose(mine, mine / "photos", NOON)
    assert second_place.second_place(mine) is None


def test_two_collections_share_a_stick_without_meeting(
    mine: Path, stick: Path, tmp_path: Path
) -> None:
    other = tmp_path / "deep" / "mine"
    other.mkdir(parents=True)
    first = second_place.choose(mine, stick, NOON)
    second = second_place.choose(other, stick, NOON)
    assert first is not None
    assert second is not None
    assert first.backups != second.backups
    assert second_place.choose(mine, stick, NOON + DAY) == first
    assert second_place.choose(mine, None, NOON) is None
    assert second_place.second_place(mine) is None
    assert first.backups.is_dir()


@pytest.mark.parametrize(
    "told",
    [
        "",
        "[]",
        '{"folder": "/tmp"}',
        {"folder": "relative"},
        {"name": "../.."},
        {"name": "growdesk-x/../y-0a0a0a0a"},
        {"since": "2026-05-20"},
        {"copied_at": "yesterday"},
    ],
)
def test_a_note_that_was_tampered_with_sends_nothing_anywhere(
    mine: Path, stick: Path, told: str | dict[str, str]
) -> None:
    second_place.choose(mine, stick, NOON)
    note = mine / "backups" / "also-in.json"
    if isinstance(told, dict):
        told = json.dumps(json.loads(note.read_bytes()) | told)
    note.write_text(told)
    assert second_place.second_place(mine) is None
    assert daily_backup.keep(mine, NOON).problems == ()


def test_what_goes_wrong_is_told_and_stops_nothing(
    mine: Path, stick: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    second_place.choose(mine, stick, NOON)

    def full(*_: object, **_more: object) -> None:
        raise StoreError("The disk is full: x.", "Free some space.")

    monkeypatch.setattr("growdesk.store.backup_sets.make", full)
    daily = daily_backup.keep(mine, NOON)
    assert daily.problems == (
        "No backup was made today. The disk is full: x. Free some space.",
    )

    def busy(*_: object, **_more: object) -> None:
        raise BusyError("Another growdesk is busy.")

    monkeypatch.setattr("growdesk.store.backup_sets.make", busy)
    assert daily_backup.keep(mine, NOON).problems == ()
    monkeypatch.undo()
    monkeypatch.setattr("growdesk.store.backup_sets.copy", full)
    daily = daily_backup.keep(mine, NOON)
    assert daily.made is not None
    (line,) = daily.problems
    assert line.startswith("The backup could not be copied to the second place.")
