"""The bin: what lies in it, put back at any time, and gone for good when emptied."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import date
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.facts import CareKind, Look
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.services import backups, emptying
from growdesk.services.backup_values import Why
from growdesk.services.bin_values import BinKey, BinSort
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.care_of_files import check
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.services.values import PlaceDraft, PlantDraft, TinDraft
from growdesk.store.store import FILE_NAME

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench


def first(collection: Collection) -> BinKey:
    return collection.bin.view().entries[0].key


def sound(collection: Collection) -> None:
    assert check(collection.folder).problems == ()


def photo_files(collection: Collection) -> set[str]:
    return {file.stem for file in (collection.folder / "photos").glob("*/*.*")}


def test_a_plant_goes_in_and_comes_back_at_any_later_time(
    collection: Collection, bench: Bench
) -> None:
    collection.plants.remove([bench.feed])
    (entry,) = collection.bin.view().entries
    assert entry.key == BinKey(BinSort.PLANT, bench.feed)
    assert entry.title == "Plant A1 cattleya A1"
    assert entry.removed_on == collection.clock.today()
    assert entry.count == 1
    collection.places.add(PlaceDraft("Shelf"))
    done = collection.bin.put_back(entry.key)
    assert done.title == "Plant A1 put back from the bin"
    assert collection.plants.find("A1") == bench.feed
    assert collection.bin.view().entries == ()
    collection.history.undo()
    assert first(collection) == entry.key


def test_a_tag_given_anew_meanwhile_is_told(
    collection: Collection, bench: Bench
) -> None:
    collection.plants.remove([bench.feed])
    collection.plants.add(PlantDraft("a1", "", "cattleya"))
    with pytest.raises(InputError) as caught:
        collection.bin.put_back(first(collection))
    assert caught.value.field == "tag"


def test_a_look_comes_back_with_its_photos_hung_on_it_again(
    collection: Collection, bench: Bench, picture: Callable[..., Path], today: date
) -> None:
    look = collection.looks.record(
        bench.feed, Look(today), "fat roots", [picture("a.jpg")]
    ).ids[0]
    collection.looks.delete(look)
    collection.places.add(PlaceDraft("Shelf"))
    (entry,) = collection.bin.view().entries
    assert entry.title == "Look at A1 of 20 May deleted"
    assert entry.tags == ("A1",)
    done = collection.bin.put_back(entry.key)
    assert done.ids == (bench.feed,)
    detail = collection.day.detail(bench.feed, today)
    back = next(each for each in detail.looks if each.note == "fat roots")
    assert [photo.look_id for photo in detail.photos] == [back.look_id]
    assert collection.bin.view().entries == ()
    with pytest.raises(InputError, match="not in the bin any more"):
        collection.bin.put_back(entry.key)
    collection.history.undo()
    assert first(collection) == entry.key
    collection.history.redo()
    assert collection.bin.view().entries == ()


@pytest.mark.file
def test_a_record_whose_number_was_given_out_again_comes_back_beside_it(
    collection: Collection, bench: Bench, today: date
) -> None:
    opened = BloomDraft(None, date(2025, 5, 1), date(2025, 6, 1), 3)
    bloom = collection.blooms.add(bench.feed, opened).ids[0]
    collection.blooms.remove(bloom)
    other = collection.blooms.add(bench.clear, replace(opened, flowers=7)).ids[0]
    assert other == bloom
    collection.bin.put_back(first(collection))
    told = [
        [
            bloom.draft.flowers
            for bloom in collection.day.detail(plant, today).blooms.blooms
        ]
        for plant in (bench.feed, bench.clear)
    ]
    assert told == [[3], [7]]
    assert collection.bin.view().entries == ()
    while collection.history.undo():
        sound(collection)


def test_care_comes_back_with_what_it_took_but_not_beside_another_watering(
    collection: Collection, bench: Bench, today: date
) -> None:
    good = Good(Sort.TIN, 1)
    collection.stocktaking.write(EntryDraft(good, date(2026, 5, 1), What.COUNTED, 5.0))
    collection.day.give([bench.feed], today, CareKind.FEED, 100.0)
    taken = collection.stocktaking.of_tins()
    (fed,) = collection.day.detail(bench.feed, today).care
    collection.care.remove([fed.care_id])
    assert collection.stocktaking.of_tins() != taken
    key = first(collection)
    collection.day.give([bench.feed], today, CareKind.CLEAR_WATER, None)
    with pytest.raises(InputError, match="another watering"):
        collection.bin.put_back(key)
    collection.history.undo()
    collection.bin.put_back(key)
    assert collection.stocktaking.of_tins() == taken


def test_what_a_tick_takes_the_place_of_is_no_removal(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.give([bench.feed], today, CareKind.CLEAR_WATER, None)
    collection.day.give([bench.feed], today, CareKind.FEED, 100.0)
    assert collection.bin.view().entries == ()


def test_a_name_that_is_taken_by_now_is_told_and_nothing_is_written(
    collection: Collection,
) -> None:
    place = collection.places.add(PlaceDraft("Shelf")).ids[0]
    collection.places.remove(place)
    collection.places.add(PlaceDraft("Shelf"))
    with pytest.raises(InputError, match="of that name or day"):
        collection.bin.put_back(first(collection))
    assert collection.history.view().undo == "Place Shelf added"


def test_a_tin_comes_back_and_is_not_emptied(collection: Collection) -> None:
    collection.mixing.add_tin(TinDraft("Salt", "0-0-0 + 9.8 Mg + 13 S"))
    collection.mixing.remove_tin(1)
    view = collection.bin.view()
    assert [each.title for each in view.entries] == ["Tin Salt"]
    assert not view.can_empty
    with pytest.raises(InputError, match="is empty"):
        emptying.empty(collection)
    collection.bin.put_back(view.entries[0].key)
    assert [each.draft.name for each in collection.mixing.tins()][-1] == "Salt"


def filled(collection: Collection, bench: Bench, picture: Callable[..., Path]) -> None:
    """Put a plant with all that hangs on it, a look and a photo into the bin."""
    today = collection.clock.today()
    shared = picture("shared.jpg", "red")
    collection.photos.add(bench.feed, [shared, picture("own.jpg", "blue")])
    collection.photos.add(bench.clear, [shared, picture("lone.jpg", "white")])
    collection.day.give([bench.feed, bench.clear], today, CareKind.FEED, 100.0)
    child = collection.plants.get(bench.clear)
    collection.plants.change(bench.clear, replace(child, parent_id=bench.feed))
    lone = collection.day.detail(bench.clear, today).photos
    (photo,) = [p for p in lone if p.path.stem not in _hashes(collection, bench.feed)]
    collection.photos.remove(photo.photo_id)
    collection.plants.remove([bench.feed])


def _hashes(collection: Collection, plant_id: int) -> set[str]:
    return {each.path.stem for each in collection.photos.of(plant_id)}


@pytest.mark.file
def test_emptying_says_before_what_goes_and_does_just_that(
    collection: Collection, bench: Bench, picture: Callable[..., Path], tmp_path: Path
) -> None:
    filled(collection, bench, picture)
    files = photo_files(collection)
    raw = (collection.folder / FILE_NAME).read_bytes()
    view = collection.bin.view()
    assert (view.plants, view.photos) == (1, 2)
    assert view.records == 1 + 1 + 1 + 2
    done = emptying.empty(collection)
    assert (done.photos, done.photo_bytes) == (view.photos, view.photo_bytes)
    assert not done.written.undoable
    assert photo_files(collection) == _hashes(collection, bench.clear)
    assert len(files) == 3
    assert collection.bin.view().entries == ()
    assert collection.plants.get(bench.clear).parent_id is None
    assert collection.history.view().undo is None
    sound(collection)
    after = (collection.folder / FILE_NAME).read_bytes()
    (gone, *_more) = files - photo_files(collection)
    assert gone.encode() in raw
    assert gone.encode() not in after
    assert b"cattleya A2" in after
    (kept,) = backups.kept(collection.folder)
    assert (kept.folder, kept.why) == (done.backup, Why.BEFORE_EMPTYING)
    assert backups.prove(kept) == ""
    assert kept.photos == 3
    back = tmp_path / "back"
    back.mkdir()
    shutil.copy(kept.folder / FILE_NAME, back)
    shutil.copytree(kept.folder.parent / "photos", back / "photos")
    assert check(back).problems == ()


@pytest.mark.file
def test_what_is_on_the_shelf_stays_as_counted(
    collection: Collection, bench: Bench, picture: Callable[..., Path]
) -> None:
    good = Good(Sort.TIN, 1)
    collection.stocktaking.write(EntryDraft(good, date(2026, 5, 1), What.COUNTED, 5.0))
    filled(collection, bench, picture)
    before = on_hand(collection)
    emptying.empty(collection)
    assert on_hand(collection) == before
    assert 0 < before[good] < 5.0


def on_hand(collection: Collection) -> dict[Good, float]:
    rows = collection.stocktaking.view().rows
    return {row.good: row.hand.amount for row in rows if row.hand is not None}


@pytest.mark.file
def test_what_was_done_after_the_last_removal_can_still_be_undone(
    collection: Collection, bench: Bench, picture: Callable[..., Path]
) -> None:
    filled(collection, bench, picture)
    collection.places.add(PlaceDraft("Shelf"))
    collection.places.add(PlaceDraft("Porch"))
    collection.history.undo()
    emptying.empty(collection)
    assert collection.history.redo() is None
    done = collection.history.undo()
    assert done is not None
    assert done.title == "Undone: Place Shelf added"
    assert collection.history.undo() is None
    note, shelf, gone = collection.history.page().actions[:3]
    assert (note.title, note.is_note, note.is_kept) == ("Bin emptied", True, False)
    assert (shelf.title, shelf.undone, shelf.steps) == ("Place Shelf added", True, 1)
    assert (gone.title, gone.is_kept) == ("Plant A1 removed", False)
    with pytest.raises(InputError, match="last emptied"):
        collection.history.undo_to(gone.action_id)
    collection.history.redo()
    assert collection.places.all()[-1].draft.name == "Shelf"


@pytest.mark.file
def test_a_file_on_its_way_in_is_left_alone(
    collection: Collection, bench: Bench, picture: Callable[..., Path]
) -> None:
    (taken,) = collection.photos.arriving([picture("new.jpg", "yellow")])
    filled(collection, bench, picture)
    emptying.empty(collection)
    assert taken.stored[0].sha256 in photo_files(collection)
    collection.photos.keep(bench.clear, [taken])
    sound(collection)


@pytest.mark.file
def test_without_a_backup_nothing_is_emptied(
    collection: Collection,
    bench: Bench,
    picture: Callable[..., Path],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    filled(collection, bench, picture)
    before = collection.bin.view()

    def fail(*_given: object) -> None:
        raise InputError("FILE", "x", "lies in no folder")

    monkeypatch.setattr("growdesk.services.backups.make", fail)
    with pytest.raises(GrowdeskError):
        emptying.empty(collection)
    assert collection.bin.view() == before
    with closing(sqlite3.connect(collection.folder / FILE_NAME)) as connection:
        assert connection.execute("SELECT count(*) FROM change").fetchone()[0] > 0


@pytest.mark.file
def test_many_removals_are_counted_and_the_newest_listed(
    collection: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("growdesk.services.bin._NAMED", 2)
    for name in ("One", "Two", "Three"):
        place = collection.places.add(PlaceDraft(name)).ids[0]
        collection.places.remove(place)
    view = collection.bin.view()
    assert [each.title for each in view.entries] == [
        "Place Three removed",
        "Place Two removed",
    ]
    assert view.records == 3
    emptying.empty(collection)
    assert not collection.bin.view().can_empty


@pytest.mark.file
def test_what_is_removed_while_the_backup_is_made_does_not_go_without_one(
    collection: Collection, bench: Bench
) -> None:
    collection.plants.remove([bench.feed])
    late = collection.plants.add(PlantDraft("Z9", "", "cattleya")).ids[0]

    def meanwhile(_done: int, of: int) -> None:
        if not of and collection.plants.find("Z9") is not None:
            collection.looks.record(late, Look(collection.clock.today()))
            collection.plants.remove([late])

    with pytest.raises(InputError, match="while its backup was made"):
        emptying.empty(collection, meanwhile)
    assert collection.bin.view().plants == 2
    assert emptying.empty(collection).written.undoable is False
    assert collection.bin.view().plants == 0
    sound(collection)
