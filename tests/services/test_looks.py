"""Looks and photos: recorded whole, begun from the last one, never lost to one slip."""

from __future__ import annotations

import hashlib
import struct
import zlib
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PIL import Image

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.facts import (
    Bulbs,
    Flowering,
    Health,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Pot,
    RootTips,
)
from growdesk.services.look_words import signs_line
from growdesk.services.values import Changed, PlantDraft
from growdesk.store import photos as files
from growdesk.store import pictures

if TYPE_CHECKING:
    from growdesk.services.collection import Collection

Picture = Callable[..., Path]


@pytest.fixture
def plant(collection: Collection) -> int:
    return collection.plants.add(PlantDraft("C7", "Cattleya", "cattleya")).ids[0]


def full(on: date) -> Look:
    return Look(
        on=on,
        new_growths=NewGrowths(0, 1, 2, 3, 0),
        root_tips=RootTips.RUNNING,
        longest_new_root_mm=35.5,
        lead_length_mm=120.0,
        new_leaf=NewLeaf.STARTING,
        flowering=frozenset({Flowering.BUDS, Flowering.OPEN}),
        leaves=Leaves.YELLOWING,
        bulbs=Bulbs.WRINKLED,
        pot=Pot.NEARLY_DRY,
        health=frozenset({Health.PESTS, Health.VIRUS_SUSPECT}),
        runoff_ec_ms_per_cm=1.25,
    )


def seen(collection: Collection, plant: int, on: date) -> tuple[Look, ...]:
    return tuple(v.look for v in collection.day.detail(plant, on).looks)


def test_a_look_comes_back_as_it_was_recorded(
    collection: Collection, plant: int, today: date
) -> None:
    done = collection.looks.record(plant, full(today), "a note\non two lines")
    assert done.changed == Changed.LOOKS
    (view,) = collection.day.detail(plant, today).looks
    assert view.look == full(today)
    assert view.note == "a note\non two lines"
    assert view.look_id == done.ids[0]


def test_not_recorded_is_kept_apart_from_looked_and_none(
    collection: Collection, plant: int, today: date
) -> None:
    nothing = Look(today)
    none = Look(
        today, health=frozenset(), flowering=frozenset(), root_tips=RootTips.NONE
    )
    collection.looks.record(plant, nothing)
    collection.looks.record(plant, none)
    assert seen(collection, plant, today) == (none, nothing)


def test_a_new_look_starts_from_the_last_ones_signs(
    collection: Collection, plant: int, today: date
) -> None:
    assert collection.looks.start(plant, today) == Look(today)
    before = today - timedelta(days=10)
    collection.looks.record(plant, full(before))
    collection.looks.record(plant, Look(before - timedelta(days=5), leaves=Leaves.FIRM))
    begun = collection.looks.start(plant, today)
    measures = {
        "longest_new_root_mm": None,
        "lead_length_mm": None,
        "runoff_ec_ms_per_cm": None,
        "pot": None,
    }
    assert begun == replace(full(today), **measures)
    assert (
        collection.looks.start(plant, before - timedelta(days=1)).leaves is Leaves.FIRM
    )


def test_a_look_can_be_changed_deleted_and_had_back(
    collection: Collection, plant: int, today: date, picture: Picture
) -> None:
    look_id = collection.looks.record(
        plant, full(today), "old", [picture("a.jpg")]
    ).ids[0]
    later = replace(full(today), root_tips=RootTips.NONE)
    collection.looks.change(look_id, later, "new")
    assert seen(collection, plant, today) == (later,)
    collection.looks.delete(look_id)
    detail = collection.day.detail(plant, today)
    assert detail.looks == ()
    assert [photo.look_id for photo in detail.photos] == [None]
    with pytest.raises(InputError, match="not there any more"):
        collection.looks.change(look_id, later, "")
    collection.history.undo()
    collection.history.undo()
    (view,) = collection.day.detail(plant, today).looks
    assert (view.look, view.note) == (full(today), "old")
    assert [photo.look_id for photo in view.photos] == [look_id]


def test_a_look_is_changed_with_its_new_photos_in_one_undo(
    collection: Collection, plant: int, today: date, picture: Picture, tmp_path: Path
) -> None:
    look_id = collection.looks.record(plant, full(today), "old").ids[0]
    bad = tmp_path / "bad.jpg"
    bad.write_bytes(b"no picture")
    photos = [picture("a.jpg"), bad]
    done = collection.looks.change(look_id, full(today), "new", photos)
    (problem,) = done.problems
    assert "bad.jpg" in problem
    (view,) = collection.day.detail(plant, today).looks
    assert view.note == "new"
    assert [photo.look_id for photo in view.photos] == [look_id]
    collection.history.undo()
    (view,) = collection.day.detail(plant, today).looks
    assert (view.note, view.photos) == ("old", ())


def test_the_day_of_the_look_that_a_new_one_starts_from(
    collection: Collection, plant: int, today: date
) -> None:
    assert collection.looks.last_on(plant, today) is None
    before = today - timedelta(days=10)
    collection.looks.record(plant, full(before))
    collection.looks.record(plant, full(today))
    assert collection.looks.last_on(plant, today) == today
    assert collection.looks.last_on(plant, today - timedelta(days=1)) == before


def test_where_no_photo_could_be_taken_nothing_is_written(
    collection: Collection, plant: int, tmp_path: Path
) -> None:
    before = collection.history.view().undo
    with pytest.raises(GrowdeskError) as caught:
        collection.photos.add(plant, [tmp_path / "nowhere.jpg"])
    assert "nowhere.jpg" in caught.value.line()
    assert collection.history.view().undo == before


@pytest.mark.parametrize(
    ("field", "change"),
    [
        ("on", {"on": date(2026, 5, 21)}),
        ("on", {"on": date(26, 5, 20)}),
        ("emerging", {"new_growths": NewGrowths(emerging=-1)}),
        ("extending", {"new_growths": NewGrowths(extending=10_000)}),
        ("lead_length_mm", {"lead_length_mm": -1.0}),
        ("longest_new_root_mm", {"longest_new_root_mm": float("nan")}),
        ("runoff_ec_ms_per_cm", {"runoff_ec_ms_per_cm": 500.0}),
    ],
)
def test_an_impossible_look_is_named_and_not_written(
    collection: Collection,
    plant: int,
    today: date,
    field: str,
    change: dict[str, object],
) -> None:
    slip = replace(full(today), **change)
    with pytest.raises(InputError) as caught:
        collection.looks.record(plant, slip)
    assert caught.value.field == field
    assert seen(collection, plant, today) == ()


def test_a_look_at_a_plant_that_is_gone_is_told(
    collection: Collection, plant: int, today: date
) -> None:
    collection.plants.remove([plant])
    with pytest.raises(InputError, match="not there any more"):
        collection.looks.record(plant, full(today))


def test_the_verdict_follows_a_look_at_once(
    collection: Collection, plant: int, today: date
) -> None:
    def verdict() -> str:
        return collection.day.view().lines[0].verdict.value

    assert verdict() == "look-first"
    still = NewGrowths(0, 0, 0, 2)
    collection.looks.record(
        plant, Look(today, new_growths=still, root_tips=RootTips.NONE)
    )
    assert verdict() == "clear-water"
    growing = Look(
        today, new_growths=NewGrowths(extending=1), root_tips=RootTips.RUNNING
    )
    collection.looks.record(plant, growing)
    assert verdict() == "feed"


@pytest.mark.parametrize(
    ("look", "line"),
    [
        (Look(date(2026, 5, 20)), "Nothing recorded."),
        (
            Look(
                date(2026, 5, 20),
                new_growths=NewGrowths(0, 0, 0, 0),
                root_tips=RootTips.NONE,
                flowering=frozenset(),
                health=frozenset(),
            ),
            "No new growth; no root tips seen; no flowers; no trouble.",
        ),
        (
            full(date(2026, 5, 20)),
            (
                "New growths: 1 extending, 2 maturing, 3 matured; new leaf starting;"
                " lead 120 mm; root tips running; longest new root 35.5 mm; buds and"
                " flowers open; leaves yellowing; bulbs wrinkled; pot nearly dry;"
                " pests, virus suspected; runoff EC 1.25 mS/cm."
            ),
        ),
        (Look(date(2026, 5, 20), new_leaf=NewLeaf.NONE), "No new leaf."),
        (
            Look(
                date(2026, 5, 20),
                flowering=frozenset({Flowering.SPIKE}),
                spike_mm=120.0,
                pods=1,
                keikis=2,
                keiki_root_mm=30.0,
            ),
            "Spike 120 mm long; 1 pod; 2 keikis, longest root 30 mm.",
        ),
        (Look(date(2026, 5, 20), pods=0, keikis=1), "No pods; 1 keiki."),
        (
            Look(
                date(2026, 5, 20),
                flowering=frozenset({Flowering.BUDS}),
                spike_mm=90.0,
                keiki_root_mm=5.0,
            ),
            "Buds; spike 90 mm long; longest root of a keiki 5 mm.",
        ),
    ],
)
def test_signs_are_one_plain_line_that_claims_no_more_than_was_seen(
    look: Look, line: str
) -> None:
    assert signs_line(look) == line


def test_every_sign_has_its_words() -> None:
    on = date(2026, 5, 20)
    looks = [
        *(Look(on, root_tips=word) for word in RootTips),
        *(Look(on, new_leaf=word) for word in NewLeaf),
        *(Look(on, flowering=frozenset({word})) for word in Flowering),
        *(Look(on, leaves=word) for word in Leaves),
        *(Look(on, bulbs=word) for word in Bulbs),
        *(Look(on, pot=word) for word in Pot),
        *(Look(on, health=frozenset({word})) for word in Health),
    ]
    lines = [signs_line(look) for look in looks]
    assert len(set(lines)) == len(lines)
    assert "Nothing recorded." not in lines


def test_a_photo_is_copied_by_its_content(
    collection: Collection, plant: int, picture: Picture
) -> None:
    source = picture("blüte.jpg", taken="2026:05:17 09:30:00", turned=6)
    done = collection.photos.add(plant, [source])
    digest = hashlib.sha256(source.read_bytes()).hexdigest()
    (view,) = collection.photos.of(plant)
    assert view.photo_id == done.ids[0]
    kept = collection.folder / "photos" / digest[:2] / f"{digest}.jpg"
    assert view.path == kept
    assert kept.read_bytes() == source.read_bytes()
    assert view.taken_on == date(2026, 5, 17)
    assert view.problem is None
    assert view.thumbnail is None
    assert done.problems == ()
    assert done.title == "Photo of C7 added"


def test_thumbnails_are_small_upright_and_may_be_deleted(
    collection: Collection, plant: int, picture: Picture
) -> None:
    collection.photos.add(plant, [picture("a.jpg", turned=6)])
    (photo,) = collection.photos.of(plant)
    for _ in range(2):
        thumbnail = collection.photos.thumbnail(photo)
        assert thumbnail is not None
        with Image.open(thumbnail) as small:
            assert small.size == (240, 320)
            assert len(small.getexif()) == 0
        assert collection.photos.of(plant)[0].thumbnail == thumbnail
        thumbnail.unlink()


@pytest.mark.parametrize("mode", ["RGBA", "P", "L", "I;16", "CMYK", "1", "LA"])
def test_pictures_of_any_mode_have_a_thumbnail(
    collection: Collection, plant: int, tmp_path: Path, mode: str
) -> None:
    ending = "tif" if mode == "CMYK" else "png"
    path = tmp_path / f"picture.{ending}"
    Image.new(mode, (700, 500)).save(path)
    done = collection.photos.add(plant, [path])
    assert done.problems == ()
    thumbnail = collection.photos.thumbnail(collection.photos.of(plant)[0])
    assert thumbnail is not None
    with Image.open(thumbnail) as small:
        assert (small.mode, small.size) == ("RGB", (320, 229))


def png_header(width: int, height: int) -> bytes:
    """Give a PNG that claims a size, and nothing behind the claim."""
    head = b"IHDR" + struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    crc = struct.pack(">I", zlib.crc32(head))
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + head + crc


def unreadable(tmp_path: Path, picture: Picture) -> dict[str, Path]:
    """Give files that are no photos, each in its own way."""
    whole = picture("whole.jpg").read_bytes()
    contents = {
        "cut.jpg": whole[: len(whole) * 2 // 3],
        "empty.jpg": b"",
        "words.jpg": b"these are words",
        "bomb.png": b"",
        "warned.png": png_header(20_000, 20_000),
        "bombed.png": png_header(40_000, 40_000),
    }
    for name, content in contents.items():
        (tmp_path / name).write_bytes(content)
    Image.new("1", (9000, 9000)).save(tmp_path / "bomb.png")
    found = {name: tmp_path / name for name in contents}
    return {**found, "gone.jpg": tmp_path / "gone.jpg", "folder.jpg": tmp_path}


def test_an_unreadable_photo_is_one_line_and_all_else_is_kept(
    collection: Collection, plant: int, today: date, tmp_path: Path, picture: Picture
) -> None:
    bad = unreadable(tmp_path, picture)
    good = picture("good.jpg", "red")
    done = collection.looks.record(plant, full(today), "kept", [*bad.values(), good])
    assert len(done.problems) == len(bad)
    for path, problem in zip(bad.values(), done.problems, strict=True):
        assert problem.startswith(path.name)
        assert problem.endswith("It was left out.")
        assert "\n" not in problem
    (view,) = collection.day.detail(plant, today).looks
    assert view.note == "kept"
    assert len(view.photos) == 1
    assert not list(collection.folder.rglob("*.part"))


def test_a_huge_file_or_picture_is_refused_before_it_is_decoded(
    collection: Collection,
    plant: int,
    picture: Picture,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = picture("large.jpg")
    monkeypatch.setattr(pictures, "MOST_PIXELS_JPEG", 640 * 480 - 1)
    with pytest.raises(GrowdeskError, match="No photo was added") as caught:
        collection.photos.add(plant, [path])
    problem = caught.value.hint
    assert "too many pixels" in problem
    monkeypatch.undo()
    monkeypatch.setattr(files, "MOST_BYTES", 100)
    with pytest.raises(GrowdeskError, match="No photo was added") as caught:
        collection.photos.add(plant, [path])
    problem = caught.value.hint
    assert "MB" in problem
    assert collection.photos.of(plant) == ()


def test_a_very_large_jpeg_is_still_decoded_to_its_end(
    collection: Collection,
    plant: int,
    picture: Picture,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(pictures, "MOST_PIXELS", 1000)
    whole = picture("large.jpg")
    cut = tmp_path / "cut.jpg"
    cut.write_bytes(whole.read_bytes()[:-700])
    done = collection.photos.add(plant, [whole, cut])
    assert len(done.ids) == 1
    assert [problem.split()[0] for problem in done.problems] == ["cut.jpg"]


@pytest.mark.parametrize("taken", ["2031:01:01 00:00:00", "0000:00:00", "1970:01:01"])
def test_a_cameras_wrong_clock_is_not_believed(
    collection: Collection, plant: int, picture: Picture, taken: str
) -> None:
    collection.photos.add(plant, [picture("a.jpg", taken=taken)])
    assert collection.photos.of(plant)[0].taken_on is None


def test_the_same_photo_is_kept_once_a_plant(
    collection: Collection, plant: int, today: date, picture: Picture
) -> None:
    path = picture("a.jpg")
    first = collection.photos.add(plant, [path, path]).ids
    look_id = collection.looks.record(plant, Look(today), photos=[path]).ids[0]
    other = collection.plants.add(PlantDraft("C8", "", "")).ids[0]
    collection.photos.add(other, [path])
    (view,) = collection.photos.of(plant)
    assert (view.photo_id,) == first
    assert view.look_id == look_id
    assert len(collection.photos.of(other)) == 1
    assert len(list((collection.folder / "photos").rglob("*.jpg"))) == 1


def test_a_missing_file_is_a_problem_and_no_exception(
    collection: Collection, plant: int, picture: Picture
) -> None:
    collection.photos.add(plant, [picture("a.jpg")])
    collection.photos.of(plant)[0].path.unlink()
    (view,) = collection.photos.of(plant)
    assert view.problem is not None
    assert "a.jpg" in view.problem
    assert collection.photos.thumbnail(view) is None
    collection.photos.add(plant, [picture("a.jpg")])
    assert collection.photos.of(plant)[0].problem is None


def test_a_rotten_file_is_written_anew_when_added_again(
    collection: Collection, plant: int, picture: Picture
) -> None:
    source = picture("a.jpg")
    collection.photos.add(plant, [source])
    path = collection.photos.of(plant)[0].path
    path.write_bytes(b"rot")
    collection.photos.add(plant, [source])
    assert path.read_bytes() == source.read_bytes()


def test_a_removed_photo_comes_back_by_undo(
    collection: Collection, plant: int, picture: Picture
) -> None:
    photo_id = collection.photos.add(plant, [picture("a.jpg")]).ids[0]
    collection.photos.remove(photo_id)
    assert collection.photos.of(plant) == ()
    with pytest.raises(InputError, match="not there any more"):
        collection.photos.drawable(photo_id)
    collection.history.undo()
    (view,) = collection.photos.of(plant)
    assert view.problem is None


def test_photos_are_shown_newest_first(
    collection: Collection, plant: int, picture: Picture
) -> None:
    for number, taken in enumerate(["2026:01:02", "", "2026:03:04", "2025:12:31"]):
        picture_path = picture(f"{number}.jpg", f"#0{number}0", taken=taken)
        collection.photos.add(plant, [picture_path])
    days = [view.taken_on for view in collection.photos.of(plant)]
    assert days == [date(2026, 3, 4), date(2026, 1, 2), date(2025, 12, 31), None]


def test_a_photo_hangs_only_on_a_look_of_its_plant(
    collection: Collection, plant: int, today: date, picture: Picture
) -> None:
    other = collection.plants.add(PlantDraft("C8", "", "")).ids[0]
    look_id = collection.looks.record(other, Look(today)).ids[0]
    with pytest.raises(InputError, match="no look of this plant"):
        collection.photos.add(plant, [picture("a.jpg")], look_id)
    assert collection.photos.of(plant) == ()
