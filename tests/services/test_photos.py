"""Photos of a plant: many at once as one action, days and notes, stages, doubles."""

from __future__ import annotations

import os
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PIL import Image
from sqlalchemy import event

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.facts import Flowering, Look, NewGrowths
from growdesk.domain.growth_stage import Stage
from growdesk.services.photo_values import PhotoDraft
from growdesk.services.values import Changed, PlantDraft
from growdesk.store import photos as files
from growdesk.store import whole_files

if TYPE_CHECKING:
    from growdesk.services.collection import Collection

Picture = Callable[..., Path]
FLOWERS = frozenset({Flowering.OPEN})


@pytest.fixture
def plant(collection: Collection) -> int:
    return collection.plants.add(PlantDraft("C7", "Cattleya", "cattleya")).ids[0]


def test_many_are_taken_one_by_one_and_written_as_one_undo(
    collection: Collection, plant: int, picture: Picture, tmp_path: Path
) -> None:
    bad = tmp_path / "bad.jpg"
    bad.write_bytes(b"no picture")
    came = [picture("a.jpg", "red"), bad, picture("b.jpg", "blue")]
    parts = list(collection.photos.arriving(came))
    assert collection.photos.of(plant) == ()
    done = collection.photos.keep(plant, parts)
    assert done.title == "2 photos of C7 added"
    assert done.changed == Changed.PHOTOS
    assert [line.split()[0] for line in done.problems] == ["bad.jpg"]
    assert len(collection.photos.of(plant)) == 2
    collection.history.undo()
    assert collection.photos.of(plant) == ()


def test_doubles_are_named_and_added_once(
    collection: Collection, plant: int, picture: Picture
) -> None:
    taken = picture("first.jpg", "red", taken="2025:05:03 10:00:00")
    twin = picture("twin.jpg", "blue")
    again = picture("again.jpg", "blue")
    collection.photos.add(plant, [taken])
    done = collection.photos.add(plant, [taken, twin, again])
    assert done.title == "Photo of C7 added"
    assert done.problems == (
        "first.jpg is a photo of 3 May 2025 that the plant has already.",
        "again.jpg is the same photo as twin.jpg.",
    )
    with pytest.raises(GrowdeskError, match="No photo was added") as caught:
        collection.photos.add(plant, [taken])
    assert "already" in caught.value.hint
    assert len(collection.photos.of(plant)) == 2


def test_a_lost_file_is_brought_back_by_adding_the_photo_again(
    collection: Collection, plant: int, picture: Picture
) -> None:
    path = picture("a.jpg")
    collection.photos.add(plant, [path])
    collection.photos.of(plant)[0].path.unlink()
    done = collection.photos.add(plant, [path])
    assert done.title == "Photos of C7 are whole again"
    assert done.problems == ("a.jpg is a photo that the plant had; its file is back.",)
    assert not done.undoable
    assert done.changed == Changed.PHOTOS
    assert collection.history.view().undo == "Photo of C7 added"


def test_a_photo_that_is_there_is_hung_on_a_look_when_added_to_it(
    collection: Collection, plant: int, today: date, picture: Picture
) -> None:
    path = picture("a.jpg")
    collection.photos.add(plant, [path])
    look_id = collection.looks.record(plant, Look(today)).ids[0]
    collection.photos.add(plant, [path], look_id)
    assert collection.photos.of(plant)[0].look_id == look_id


def test_day_and_note_are_changed_and_come_back(
    collection: Collection, plant: int, today: date, picture: Picture
) -> None:
    photo = collection.photos.add(plant, [picture("a.jpg")]).ids[0]
    day = today - timedelta(days=3)
    done = collection.photos.change(photo, PhotoDraft(day, "  base of the plant "))
    assert done.title == "Photo of C7 changed"
    (view,) = collection.photos.of(plant)
    assert (view.taken_on, view.note) == (day, "base of the plant")
    collection.history.undo()
    (view,) = collection.photos.of(plant)
    assert (view.taken_on, view.note) == (None, "")
    with pytest.raises(InputError, match="still to come") as caught:
        collection.photos.change(photo, PhotoDraft(today + timedelta(days=1)))
    assert caught.value.field == "taken_on"
    collection.photos.remove(photo)
    with pytest.raises(InputError, match="not there any more"):
        collection.photos.change(photo, PhotoDraft(day))


@pytest.mark.parametrize("many", [2, 12])
def test_names_are_on_the_disk_before_the_rows_and_statements_do_not_grow(
    collection: Collection,
    plant: int,
    picture: Picture,
    monkeypatch: pytest.MonkeyPatch,
    many: int,
) -> None:
    parts = list(
        collection.photos.arriving(
            [picture(f"{n}.jpg", f"#{20 * n:02x}8080") for n in range(many)]
        )
    )
    did: list[str] = []
    sync = whole_files.sync_folder

    def synced(folder: Path) -> None:
        did.append("sync")
        sync(folder)

    def asked(*arguments: object) -> None:
        did.append(str(arguments[2]).partition(" ")[0])

    monkeypatch.setattr(files, "sync_folder", synced)
    engine = collection.ledger.store._engine
    event.listen(engine, "before_cursor_execute", asked)
    done = collection.photos.keep(plant, parts)
    event.remove(engine, "before_cursor_execute", asked)
    assert len(done.ids) == many
    assert "sync" in did
    assert "sync" not in did[did.index("INSERT") :]
    assert len([each for each in did if each != "sync"]) < 20


def test_a_photo_that_came_twice_in_one_go_is_one_file(
    collection: Collection, plant: int, picture: Picture
) -> None:
    done = collection.photos.add(plant, [picture(f"{n}.jpg", "red") for n in range(5)])
    assert len(done.ids) == 1
    assert len(done.problems) == 4
    assert len(list((collection.ledger.folder / "photos").glob("*/*"))) == 1


def test_a_files_own_day_is_proposed_and_never_taken(
    collection: Collection, plant: int, picture: Picture
) -> None:
    dated = picture("dated.jpg", "red", taken="2025:05:03 10:00:00")
    plain = picture("plain.jpg", "blue")
    os.utime(plain, (1_750_000_000, 1_750_000_000))
    parts = list(collection.photos.arriving((dated, plain)))
    collection.photos.keep(plant, parts)
    (found,) = collection.photos.without_day(plant, parts)
    assert (found.file_name, found.file_day) == ("plain.jpg", date(2025, 6, 15))
    assert found.photo.taken_on is None
    assert found.file_day is not None
    done = collection.photos.set_days({found.photo.photo_id: found.file_day})
    assert done.title == "Day of a photo of C7 set"
    assert collection.photos.without_day(plant, parts) == ()


def test_days_of_several_photos_are_one_action_and_leave_the_notes(
    collection: Collection, plant: int, today: date, picture: Picture
) -> None:
    files = [picture("a.jpg", "red"), picture("b.jpg", "blue")]
    first, second = collection.photos.add(plant, files).ids
    collection.photos.change(first, PhotoDraft(None, "kept"))
    with pytest.raises(InputError):
        collection.photos.set_days({first: today, second: today + timedelta(days=1)})
    assert {view.taken_on for view in collection.photos.of(plant)} == {None}
    done = collection.photos.set_days({first: today, second: None})
    assert done.title == "Days of photos of C7 set"
    days = {v.photo_id: (v.taken_on, v.note) for v in collection.photos.of(plant)}
    assert days == {first: (today, "kept"), second: (None, "")}
    collection.history.undo()
    assert {view.taken_on for view in collection.photos.of(plant)} == {None}


def test_a_photo_is_hung_on_a_look_and_taken_off(
    collection: Collection, plant: int, today: date, picture: Picture
) -> None:
    photo = collection.photos.add(plant, [picture("a.jpg")]).ids[0]
    look = collection.looks.record(plant, Look(today)).ids[0]
    assert collection.photos.hang([photo], look).title == "Photo of C7 hung on a look"
    (view,) = collection.photos.of(plant)
    assert (view.look_id, view.taken_on, view.shown_on) == (look, None, today)
    done = collection.photos.hang([photo], None)
    assert done.title == "Photo of C7 taken off its look"
    assert collection.photos.of(plant)[0].look_id is None
    other = collection.plants.add(PlantDraft("C8", "", "")).ids[0]
    foreign = collection.looks.record(other, Look(today)).ids[0]
    with pytest.raises(InputError, match="no look of this plant"):
        collection.photos.hang([photo], foreign)


def test_the_same_stage_of_all_years_stands_together(
    collection: Collection, plant: int, today: date, picture: Picture
) -> None:
    shades = iter(range(20, 250, 12))

    def shot(day: date | None) -> Path:
        taken = day.strftime("%Y:%m:%d") if day else ""
        shade = next(shades)
        return picture(f"{shade}.jpg", f"#{shade:02x}0000", taken=taken)

    last_year = today - timedelta(days=365)
    collection.looks.record(plant, Look(last_year, flowering=FLOWERS))
    growing = today - timedelta(days=40)
    collection.looks.record(plant, Look(growing, NewGrowths(extending=1)))
    look = Look(today, flowering=FLOWERS)
    collection.looks.record(plant, look, photos=[shot(None)])
    days = [last_year + timedelta(days=5), growing, today, last_year - timedelta(1)]
    collection.photos.add(plant, [*map(shot, days), shot(None)])
    groups = collection.photos.timeline(plant)
    assert [group.stage for group in groups] == [
        Stage.EXTENDING,
        Stage.IN_FLOWER,
        None,
    ]
    flowers = groups[1]
    assert flowers.years == (today.year, today.year - 1)
    assert [photo.shown_on for photo in flowers.photos] == [today, today, days[0]]
    assert [photo.shown_on for photo in groups[2].photos] == [days[3], None]
    assert groups[2].years == (days[3].year,)


def test_where_a_photo_tells_its_place_that_is_on_record(
    collection: Collection, plant: int, tmp_path: Path, picture: Picture
) -> None:
    placed = tmp_path / "placed.jpg"
    exif = Image.Exif()
    exif.get_ifd(0x8825).update({1: "N", 2: (47.0, 1.0, 2.0)})
    Image.new("RGB", (64, 48), "red").save(placed, exif=exif)
    collection.photos.add(plant, [placed])
    collection.photos.add(plant, [picture("a.jpg")])
    marks = {view.has_location for view in collection.photos.of(plant)}
    assert marks == {True, False}


def test_a_heic_is_given_as_a_file_that_any_window_draws(
    collection: Collection, plant: int, tmp_path: Path
) -> None:
    import pillow_heif

    pillow_heif.register_heif_opener()
    path = tmp_path / "a.heic"
    Image.new("RGB", (640, 480), "red").save(path)
    photo = collection.photos.add(plant, [path]).ids[0]
    drawable = collection.photos.drawable(photo)
    assert drawable is not None
    assert "thumbnails" in drawable.parts
    with Image.open(drawable) as image:
        assert (image.format, image.size) == ("JPEG", (640, 480))
    made = drawable.stat().st_mtime_ns
    assert collection.photos.drawable(photo) == drawable
    assert drawable.stat().st_mtime_ns == made
    collection.photos.of(plant)[0].path.unlink()
    drawable.unlink()
    assert collection.photos.drawable(photo) is None
