"""A backup holds everything, comes back whole, and nothing hostile gets in."""

from __future__ import annotations

import hashlib
import json
import os
import re
import sqlite3
import zipfile
from contextlib import closing
from datetime import UTC, date, datetime
from types import SimpleNamespace
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.domain.errors import (
    BusyError,
    DamagedError,
    ForeignError,
    GrowdeskError,
    InputError,
    StoreError,
    TooNewError,
)
from growdesk.services import backup_zip
from growdesk.services.care_of_files import backup, backup_folder, check, restore
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.store.lock import FolderLock

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

pytestmark = pytest.mark.file

NOW = datetime(2026, 3, 28, 10, 15, 30, tzinfo=UTC)
CLOCK = FixedClock(date(2026, 3, 28))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Give a closed collection of two plants, one of them with a photo."""
    picture = tmp_path / "picture.jpg"
    Image.new("RGB", (40, 30), (20, 120, 60)).save(picture)
    folder = tmp_path / "mine"
    with closing(Collection.open(folder, CLOCK, create=True)) as collection:
        first = collection.plants.add(PlantDraft("A1", "Cattleya hybrid", "cattleya"))
        collection.plants.add(PlantDraft("A2", "Vanda hybrid", "vanda"))
        added = collection.photos.add(first.ids[0], [picture])
        assert not added.problems
    return folder


@pytest.fixture
def backed(folder: Path, tmp_path: Path) -> Path:
    """Give a backup of that collection."""
    return backup_folder(folder, tmp_path / "orchids.zip", NOW).file


def content(folder: Path) -> dict[str, str]:
    """Give what a collection holds, by name."""
    with closing(Collection.open(folder, CLOCK)) as collection:
        plants = {draft.tag: draft.name for _, draft in collection.plants.all()}
    photos = {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest()
        for path in (folder / "photos").glob("*/*")
    }
    return plants | photos


def repacked(
    source: Path, target: Path, change: Callable[[dict[str, bytes]], None]
) -> Path:
    """Give a backup whose files were changed by hand, its manifest made to fit."""
    with zipfile.ZipFile(source) as packed:
        files = {name: packed.read(name) for name in packed.namelist()}
    manifest = json.loads(files.pop("manifest.json"))
    change(files)
    manifest["files"] = [
        {"name": name, "sha256": hashlib.sha256(raw).hexdigest(), "bytes": len(raw)}
        for name, raw in files.items()
    ]
    with zipfile.ZipFile(target, "w") as packed:
        for name, raw in files.items():
            packed.writestr(name, raw)
        packed.writestr("manifest.json", json.dumps(manifest))
    return target


@pytest.fixture
def untouched(tmp_path: Path) -> Iterator[Path]:
    """Give a folder for a restore that must fail, and see that nothing is made."""
    place = tmp_path / "place"
    place.mkdir()
    yield place / "new"
    assert list(place.iterdir()) == []


def test_a_backup_comes_back_whole(folder: Path, backed: Path, tmp_path: Path) -> None:
    new = tmp_path / "deep" / "new"
    back = restore(backed, new, NOW)
    assert content(new) == content(folder)
    assert (back.folder, back.set_aside, back.photos) == (new, None, 1)
    assert back.made_at == "2026-03-28T10:15:30+00:00"
    assert check(new).problems == ()


def test_a_backup_can_be_made_while_the_window_is_open(
    folder: Path, tmp_path: Path
) -> None:
    with closing(Collection.open(folder, CLOCK)) as collection:
        collection.plants.add(PlantDraft("A3", "Lycaste hybrid", "lycaste"))
        made = backup(collection, tmp_path / "open.zip")
        other = backup_folder(folder, tmp_path / "other.zip", NOW)
    assert (made.photos, made.problems) == (1, ())
    assert other.photos == 1
    restore(made.file, tmp_path / "new", NOW)
    assert content(tmp_path / "new")["A3"] == "Lycaste hybrid"


def test_a_backup_leaves_no_half_written_file(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "b").mkdir()
    backup_folder(folder, tmp_path / "b" / "orchids.zip", NOW)
    assert [path.name for path in (tmp_path / "b").iterdir()] == ["orchids.zip"]


def test_a_backup_that_fails_leaves_the_one_before(
    folder: Path, backed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = backed.read_bytes()

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(backup_zip, "pack", fail)
    with pytest.raises(StoreError, match="disk is full"):
        backup_folder(folder, backed, NOW)
    assert backed.read_bytes() == before
    assert not list(backed.parent.glob("*.part"))


def test_an_earlier_backup_is_replaced_and_nothing_else(
    folder: Path, backed: Path, tmp_path: Path
) -> None:
    assert backup_folder(folder, backed, NOW).file == backed
    letter = tmp_path / "letter.txt"
    letter.write_text("dear aunt")
    with pytest.raises(InputError, match="is no backup"):
        backup_folder(folder, letter, NOW)
    assert letter.read_text() == "dear aunt"


def test_a_backup_into_the_collection_or_onto_a_folder_is_refused(
    folder: Path, tmp_path: Path
) -> None:
    with pytest.raises(InputError, match="inside the collection"):
        backup_folder(folder, folder / "b.zip", NOW)
    with pytest.raises(InputError, match="is a folder"):
        backup_folder(folder, tmp_path, NOW)


def test_a_backup_names_photos_that_are_gone_and_takes_the_rest(
    folder: Path, tmp_path: Path
) -> None:
    (photo,) = (folder / "photos").glob("*/*")
    photo.unlink()
    made = backup_folder(folder, tmp_path / "b.zip", NOW)
    assert made.photos == 0
    assert made.problems == (f"A photo of plant A1 is gone: {photo}.",)


def test_the_collection_that_was_there_is_set_aside_whole(
    folder: Path, backed: Path
) -> None:
    with closing(Collection.open(folder, CLOCK)) as collection:
        collection.plants.add(PlantDraft("A9", "Too late", ""))
    later = content(folder)
    back = restore(backed, folder, NOW)
    assert back.set_aside is not None
    assert back.set_aside.name.startswith("mine-before-restore-2026-03-28-")
    assert content(back.set_aside) == later
    assert "A9" not in content(folder)
    again = restore(backed, folder, NOW)
    assert again.set_aside is not None
    assert again.set_aside != back.set_aside


@pytest.mark.parametrize("ending", ["-wal", "-shm", "-journal"])
def test_stale_files_beside_the_old_one_do_not_reach_the_new_one(
    folder: Path, backed: Path, ending: str
) -> None:
    whole = content(folder)
    (folder / f"collection.sqlite{ending}").write_bytes(b"stale" * 1000)
    restore(backed, folder, NOW)
    names = {path.name for path in folder.iterdir()} - {"backups"}
    assert names == {"collection.lock", "collection.sqlite", "photos"}
    assert content(folder) == whole


def test_a_damaged_collection_can_be_restored_over(folder: Path, backed: Path) -> None:
    whole = content(folder)
    (folder / "collection.sqlite").write_bytes(b"")
    assert restore(backed, folder, NOW).set_aside is not None
    assert content(folder) == whole


def test_an_empty_folder_is_restored_into(backed: Path, tmp_path: Path) -> None:
    empty = tmp_path / "empty"
    empty.mkdir()
    assert restore(backed, empty, NOW).set_aside is None
    assert "A1" in content(empty)


def test_a_folder_of_something_else_is_left_alone(backed: Path, tmp_path: Path) -> None:
    other = tmp_path / "letters"
    other.mkdir()
    (other / "letter.txt").write_text("dear aunt")
    with pytest.raises(ForeignError, match=r"letter\.txt"):
        restore(backed, other, NOW)
    with pytest.raises(ForeignError, match="is no growdesk collection"):
        restore(backed, other / "letter.txt", NOW)
    assert [path.name for path in other.iterdir()] == ["letter.txt"]


def test_another_programs_database_is_left_alone(backed: Path, tmp_path: Path) -> None:
    other = tmp_path / "other"
    other.mkdir()
    with closing(sqlite3.connect(other / "collection.sqlite")) as connection:
        connection.execute("CREATE TABLE song (name TEXT)")
        connection.commit()
    with pytest.raises(ForeignError):
        restore(backed, other, NOW)
    assert (other / "collection.sqlite").exists()


def test_an_open_collection_is_not_restored_over(folder: Path, backed: Path) -> None:
    with (
        closing(Collection.open(folder, CLOCK)),
        pytest.raises(BusyError, match="open in another growdesk"),
    ):
        restore(backed, folder, NOW)
    assert "A1" in content(folder)


def test_the_old_one_is_put_back_where_the_new_one_cannot_be_placed(
    folder: Path, backed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = content(folder)
    path_type = type(folder)
    rename = path_type.rename

    def stubborn(self: Path, target: Path) -> Path:
        if "restoring" in str(self):
            raise OSError(5, "Input/output error")
        return rename(self, target)

    monkeypatch.setattr(path_type, "rename", stubborn)
    with pytest.raises(StoreError):
        restore(backed, folder, NOW)
    assert content(folder) == whole
    assert not list(folder.parent.glob(".mine-restoring-*"))


def test_too_little_room_is_said_before_anything_is_written(
    backed: Path, untouched: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    nearly_full = SimpleNamespace(free=3)
    monkeypatch.setattr("shutil.disk_usage", lambda _: nearly_full)
    with pytest.raises(StoreError, match="too little room") as caught:
        restore(backed, untouched, NOW)
    assert re.search(r"needs \d+ kB and 1 kB are free", caught.value.line())
    monkeypatch.setattr("shutil.disk_usage", lambda _: SimpleNamespace(free=0))
    with pytest.raises(StoreError, match="and 0 kB are free"):
        restore(backed, untouched, NOW)


def slip(name: str) -> Callable[[dict[str, bytes]], None]:
    def change(files: dict[str, bytes]) -> None:
        files[name] = b"evil"

    return change


@pytest.mark.parametrize(
    "name",
    [
        "../evil.txt",
        "/evil.txt",
        "C:\\evil.txt",
        "photos/../../evil.png",
        "photos/ab/evil.png",
        f"photos/ab/{'c' * 64}.png",
        f"photos/ab/{'ab' * 32}.png/x",
        "collection.sqlite-wal",
        "readme.txt",
    ],
)
def test_a_name_that_is_not_ours_is_refused(
    backed: Path, tmp_path: Path, untouched: Path, name: str
) -> None:
    hostile = repacked(backed, tmp_path / "hostile.zip", slip(name))
    with pytest.raises(DamagedError):
        restore(hostile, untouched, NOW)


def test_a_file_beyond_the_manifest_is_refused(backed: Path, untouched: Path) -> None:
    with zipfile.ZipFile(backed, "a") as packed:
        packed.writestr(f"photos/ab/{'ab' * 32}.png", b"more")
    with pytest.raises(DamagedError, match="manifest"):
        restore(backed, untouched, NOW)


@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_a_name_that_stands_twice_is_refused(backed: Path, untouched: Path) -> None:
    with zipfile.ZipFile(backed, "a") as packed:
        packed.writestr("collection.sqlite", b"second")
    with pytest.raises(DamagedError, match="manifest"):
        restore(backed, untouched, NOW)


def test_a_bomb_is_refused(backed: Path, tmp_path: Path, untouched: Path) -> None:
    raw = bytes(50_000_000)
    digest = hashlib.sha256(raw).hexdigest()
    name = f"photos/{digest[:2]}/{digest}.png"
    with zipfile.ZipFile(backed) as packed:
        database = packed.read("collection.sqlite")
        manifest = json.loads(packed.read("manifest.json"))
    manifest["files"] = [
        {"name": found, "sha256": hashlib.sha256(data).hexdigest(), "bytes": len(data)}
        for found, data in (("collection.sqlite", database), (name, raw))
    ]
    bomb = tmp_path / "bomb.zip"
    with zipfile.ZipFile(bomb, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("collection.sqlite", database, zipfile.ZIP_STORED)
        packed.writestr(name, raw)
        packed.writestr("manifest.json", json.dumps(manifest))
    with pytest.raises(DamagedError, match="wrong length"):
        restore(bomb, untouched, NOW)


def test_a_changed_byte_is_noticed(backed: Path, untouched: Path) -> None:
    raw = bytearray(backed.read_bytes())
    raw[len(raw) // 2] ^= 1
    backed.write_bytes(raw)
    with pytest.raises(DamagedError, match="damaged"):
        restore(backed, untouched, NOW)
    with pytest.raises(DamagedError, match="damaged"):
        backup_zip.prove(backed)


@pytest.mark.parametrize("kept", [4, 10, 500, 5_000])
def test_a_file_cut_short_is_called_so(
    backed: Path, untouched: Path, kept: int
) -> None:
    backed.write_bytes(backed.read_bytes()[:kept])
    with pytest.raises(DamagedError, match="is cut short or damaged"):
        restore(backed, untouched, NOW)


def test_a_wrong_digest_in_the_manifest_is_noticed(
    backed: Path, tmp_path: Path, untouched: Path
) -> None:
    with zipfile.ZipFile(backed) as packed:
        files = {name: packed.read(name) for name in packed.namelist()}
    manifest = json.loads(files.pop("manifest.json"))
    manifest["files"][0]["sha256"] = "0" * 64
    wrong = tmp_path / "wrong.zip"
    with zipfile.ZipFile(wrong, "w") as packed:
        for name, raw in files.items():
            packed.writestr(name, raw)
        packed.writestr("manifest.json", json.dumps(manifest))
    with pytest.raises(DamagedError, match="has changed"):
        restore(wrong, untouched, NOW)


@pytest.mark.parametrize(
    ("manifest", "error"),
    [
        (None, ForeignError),
        ("{", DamagedError),
        ("[]", DamagedError),
        ('{"program": "other"}', ForeignError),
        ('{"program": "growdesk", "form": 1}', DamagedError),
        (
            '{"program": "growdesk", "form": 9, "made_at": "", "files": []}',
            StoreError,
        ),
        (
            '{"program": "growdesk", "form": 1, "made_at": "", "files": []}',
            DamagedError,
        ),
        (
            (
                '{"program": "growdesk", "form": 1, "made_at": "", "files": '
                '[{"name": "collection.sqlite", "sha256": 1, "bytes": 1}]}'
            ),
            DamagedError,
        ),
        (
            (
                '{"program": "growdesk", "form": 1, "made_at": "", "files": '
                '[{"name": "collection.sqlite", "sha256": "", "bytes": -1}]}'
            ),
            DamagedError,
        ),
    ],
)
def test_a_bad_manifest_is_refused(
    tmp_path: Path, untouched: Path, manifest: str | None, error: type[GrowdeskError]
) -> None:
    file = tmp_path / "bad.zip"
    with zipfile.ZipFile(file, "w") as packed:
        packed.writestr("something", b"")
        if manifest is not None:
            packed.writestr("manifest.json", manifest)
    with pytest.raises(error):
        restore(file, untouched, NOW)


def test_a_manifest_without_a_database_is_refused(
    backed: Path, tmp_path: Path, untouched: Path
) -> None:
    def drop(files: dict[str, bytes]) -> None:
        del files["collection.sqlite"]

    with pytest.raises(DamagedError, match=r"collection\.sqlite"):
        restore(repacked(backed, tmp_path / "x.zip", drop), untouched, NOW)


@pytest.mark.parametrize("text", [b"", b"a text", b"PK but no more"])
def test_what_is_no_zip_is_refused(
    tmp_path: Path, untouched: Path, text: bytes
) -> None:
    file = tmp_path / "no.zip"
    file.write_bytes(text)
    with pytest.raises(ForeignError, match="not a growdesk backup"):
        restore(file, untouched, NOW)
    with pytest.raises(InputError, match="is not there"):
        restore(tmp_path / "nowhere.zip", untouched, NOW)


def test_a_backup_of_another_programs_database_is_refused(
    backed: Path, tmp_path: Path, untouched: Path
) -> None:
    song = tmp_path / "song.sqlite"
    with closing(sqlite3.connect(song)) as connection:
        connection.execute("CREATE TABLE song (name TEXT)")
        connection.commit()

    def swap(files: dict[str, bytes]) -> None:
        files["collection.sqlite"] = song.read_bytes()

    with pytest.raises(DamagedError, match="is no growdesk collection") as caught:
        restore(repacked(backed, tmp_path / "x.zip", swap), untouched, NOW)
    assert "restoring-" not in caught.value.line()
    assert str(tmp_path / "x.zip") in caught.value.line()


def test_a_backup_by_a_newer_growdesk_is_refused(
    backed: Path, tmp_path: Path, untouched: Path
) -> None:
    newer = tmp_path / "newer.sqlite"

    def swap(files: dict[str, bytes]) -> None:
        newer.write_bytes(files["collection.sqlite"])
        with closing(sqlite3.connect(newer)) as connection:
            connection.execute("PRAGMA user_version = 999")
            connection.execute("UPDATE migration SET compatible_from = 999")
            connection.commit()
        files["collection.sqlite"] = newer.read_bytes()

    with pytest.raises(TooNewError) as caught:
        restore(repacked(backed, tmp_path / "x.zip", swap), untouched, NOW)
    assert "restoring-" not in caught.value.line()


def test_a_backup_with_rows_that_point_nowhere_is_refused(
    backed: Path, tmp_path: Path, untouched: Path
) -> None:
    broken = tmp_path / "broken.sqlite"

    def swap(files: dict[str, bytes]) -> None:
        broken.write_bytes(files["collection.sqlite"])
        with closing(sqlite3.connect(broken)) as connection:
            connection.execute("UPDATE plant SET place_id = 77")
            connection.commit()
        files["collection.sqlite"] = broken.read_bytes()

    with pytest.raises(DamagedError, match="damaged collection"):
        restore(repacked(backed, tmp_path / "x.zip", swap), untouched, NOW)


def test_a_sound_collection_is_told_so(folder: Path) -> None:
    found = check(folder)
    assert (found.plants, found.photos, found.problems) == (2, 1, ())


def test_check_finds_rows_that_point_nowhere(folder: Path) -> None:
    with closing(sqlite3.connect(folder / "collection.sqlite")) as connection:
        connection.execute("UPDATE plant SET place_id = 77 WHERE tag = 'A1'")
        connection.commit()
    assert check(folder).problems[0] == (
        "Plant 1 belongs to something that is not there any more: place."
    )


def test_check_finds_a_photo_that_changed(folder: Path) -> None:
    (photo,) = (folder / "photos").glob("*/*")
    photo.write_bytes(photo.read_bytes() + b"x")
    assert check(folder).problems == (f"A photo of plant A1 is damaged: {photo}.",)


def test_check_finds_an_index_that_disagrees(folder: Path) -> None:
    """``quick_check`` does not see this; ``integrity_check`` does."""
    path = folder / "collection.sqlite"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA writable_schema = ON")
        connection.execute(
            "UPDATE sqlite_schema SET sql = replace(sql, '(tag)', '(name)')"
            " WHERE name = 'uq_plant_tag'"
        )
        connection.commit()
    with closing(sqlite3.connect(path)) as connection:
        quick = connection.execute("PRAGMA quick_check").fetchone()[0]
    assert quick == "ok"
    assert check(folder).problems == (
        (
            "What the file finds its entries by is damaged; the entries themselves can"
            " be read."
        ),
    )


def test_check_of_no_collection_says_so(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="no collection"):
        check(tmp_path)
    (tmp_path / "collection.sqlite").write_bytes(b"")
    with pytest.raises(DamagedError, match="empty"):
        check(tmp_path)


def test_a_backup_makes_no_folder_where_a_stick_is_not_plugged_in(
    folder: Path, tmp_path: Path
) -> None:
    with pytest.raises(InputError, match="lies in no folder"):
        backup_folder(folder, tmp_path / "stick" / "deep" / "b.zip", NOW)
    assert not (tmp_path / "stick").exists()


def test_a_backup_into_the_collection_by_another_name_is_refused(
    folder: Path, tmp_path: Path
) -> None:
    (tmp_path / "link").symlink_to(folder)
    with pytest.raises(InputError, match="inside the collection"):
        backup_folder(folder, tmp_path / "link" / "b.zip", NOW)


def test_a_backup_is_not_written_over_what_is_no_file(
    folder: Path, tmp_path: Path
) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with pytest.raises(InputError, match="is no file"):
        backup_folder(folder, pipe, NOW)


def test_a_backup_whose_database_is_none_is_told_by_the_name_given(
    backed: Path, tmp_path: Path, untouched: Path
) -> None:
    for raw in (b"", b"a shopping list", b"SQLite format 3\x00 and no more"):

        def swap(files: dict[str, bytes], raw: bytes = raw) -> None:
            files["collection.sqlite"] = raw

        file = repacked(backed, tmp_path / "x.zip", swap)
        with pytest.raises(DamagedError, match="is no growdesk collection") as caught:
            restore(file, untouched, NOW)
        assert str(file) in caught.value.line()
        assert "restoring-" not in caught.value.line()


@pytest.mark.parametrize("made_at", ['""', '"yesterday"', "7", '"\\u001b[2J"'])
def test_a_backup_without_an_instant_is_refused(
    backed: Path, tmp_path: Path, untouched: Path, made_at: str
) -> None:
    with zipfile.ZipFile(backed) as packed:
        files = {name: packed.read(name) for name in packed.namelist()}
    manifest = json.loads(files["manifest.json"])
    manifest["made_at"] = json.loads(made_at)
    files["manifest.json"] = json.dumps(manifest).encode()
    wrong = tmp_path / "wrong.zip"
    with zipfile.ZipFile(wrong, "w") as packed:
        for name, raw in files.items():
            packed.writestr(name, raw)
    with pytest.raises(DamagedError, match="manifest that is damaged"):
        restore(wrong, untouched, NOW)


def test_a_squeezed_backup_with_a_changed_byte_is_told_as_damaged(
    backed: Path, tmp_path: Path, untouched: Path
) -> None:
    with zipfile.ZipFile(backed) as packed:
        files = {name: packed.read(name) for name in packed.namelist()}
    squeezed = tmp_path / "squeezed.zip"
    with zipfile.ZipFile(squeezed, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, raw in files.items():
            packed.writestr(name, raw)
    raw_zip = bytearray(squeezed.read_bytes())
    raw_zip[60:90] = b"\xff" * 30
    squeezed.write_bytes(raw_zip)
    with pytest.raises(DamagedError, match="is cut short or damaged"):
        restore(squeezed, untouched, NOW)


def test_a_target_that_may_not_be_written_is_told_plainly(
    backed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> str:
        raise PermissionError(13, "Permission denied", str(tmp_path / ".c-restoring-x"))

    monkeypatch.setattr("tempfile.mkdtemp", refuse)
    with pytest.raises(StoreError) as caught:
        restore(backed, tmp_path / "c", NOW)
    assert caught.value.line() == (
        f"{tmp_path} may not be written. Choose another folder with --collection DIR."
    )


def test_a_backup_that_may_not_be_read_is_told_by_its_name(
    backed: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(source: Path) -> None:
        raise PermissionError(13, "Permission denied", str(source))

    monkeypatch.setattr(backup_zip, "read_manifest", refuse)
    with pytest.raises(InputError, match="cannot be read") as caught:
        restore(backed, tmp_path / "c", NOW)
    assert str(backed) in caught.value.line()


def test_what_a_killed_restore_left_is_swept_and_what_runs_is_not(
    backed: Path, tmp_path: Path
) -> None:
    left, running = tmp_path / ".c-restoring-left", tmp_path / ".c-restoring-running"
    other = tmp_path / ".d-restoring-other"
    for made in (left, running, other):
        (made / "unpacked").mkdir(parents=True)
    lock = FolderLock(running)
    with pytest.raises(BusyError, match="being brought back"):
        restore(backed, tmp_path / "c", NOW)
    (tmp_path / "c").mkdir()
    restore(backed, tmp_path / "c", NOW)
    lock.release()
    assert [made.exists() for made in (left, running, other)] == [False, True, True]
    assert "A1" in content(tmp_path / "c")


def test_a_restore_through_a_link_keeps_the_link(
    folder: Path, backed: Path, tmp_path: Path
) -> None:
    link = tmp_path / "link"
    link.symlink_to(folder)
    back = restore(backed, link, NOW)
    assert link.is_symlink()
    assert link.resolve() == folder
    assert back.set_aside is not None
    assert not back.set_aside.is_symlink()
    assert "A1" in content(link)


def change(folder: Path, *statements: str) -> None:
    with closing(sqlite3.connect(folder / "collection.sqlite")) as connection:
        for statement in statements:
            connection.executescript(statement)
        connection.commit()


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ("UPDATE plant SET medium = 'plastic'", ("Plant A1", "medium", "'plastic'")),
        ("UPDATE plant SET size = ''", ("Plant A1", "size", "seedling")),
        ("UPDATE plant SET acquired_on = 'May'", ("A1", "day of acquiring", "'May'")),
        ("UPDATE plant SET pot_volume_l = 'big'", ("pot", "'big'", "number")),
        ("UPDATE plant SET hybrid = 7", ("hybrid", "7", "yes or no")),
        ("UPDATE plant SET name = x'00'", ("name", "text")),
        ("UPDATE plant SET bench = 1.5", ("bench", "1.5", "whole number")),
        (
            (
                "INSERT INTO look (plant_id, day, note, health)"
                " VALUES (1, '2026-03-01', '', 'rot,spots')"
            ),
            ("Plant A1, look of 1 Mar 2026", "health", "'rot,spots'"),
        ),
        (
            (
                "INSERT INTO care (plant_id, day, what, note)"
                " VALUES (1, '2026-03-01', 'beer', '')"
            ),
            ("Plant A1, care of 1 Mar 2026", "what", "'beer'"),
        ),
        (
            (
                "INSERT INTO tin (name, analysis, in_use, note)"
                " VALUES ('T', '90-90', 1, '')"
            ),
            ("Tin T", "analysis", "'90-90'"),
        ),
        (
            (
                "INSERT INTO tin (name, analysis, in_use, note, formula)"
                " VALUES ('T', '20-20-20', 1, '', 'XYZ')"
            ),
            ("Tin T", "formula", "'XYZ'"),
        ),
        (
            (
                "INSERT INTO tin (name, analysis, in_use, note, price)"
                " VALUES ('T', '20-20-20', 1, '', -2)"
            ),
            ("Tin T", "price: -2 cannot be meant"),
        ),
        (
            "INSERT INTO tool (kind, name, step) VALUES ('shovel', 'S', 1)",
            ("Tool S", "kind", "'shovel'", "scale"),
        ),
        (
            "INSERT INTO tool (kind, name, step) VALUES ('scale', 'S', 0)",
            ("Tool S", "step: 0 cannot be meant", "above 0"),
        ),
        (
            "INSERT INTO tool (kind, name, step, most) VALUES ('syringe', 'S', 9, 5)",
            ("Tool S", "step: is more than the most that it holds"),
        ),
        (
            "INSERT INTO recipe (name, in_use, note, wanted_n) VALUES ('R', 1, '', 0)",
            ("Recipe R", "wanted n: 0 cannot be meant"),
        ),
        (
            (
                "INSERT INTO water (kind, in_use, note, aim)"
                " VALUES ('tap', 1, '', 'taste')"
            ),
            ("Water", "aim", "'taste'", "alkalinity"),
        ),
        (
            (
                "INSERT INTO water (id, kind, in_use, note, first_id, second_id)"
                " VALUES (9, 'blend', 1, '', 9, 9)"
            ),
            ("Water 9", "is blended of itself"),
        ),
        (
            (
                "INSERT INTO shelf_entry (day, what, amount, after_round, note)"
                " VALUES ('2026-03-01', 'counted', 5, 1, '')"
            ),
            ("Count of the shelf 1 of 1 Mar 2026", "names nothing, where one tin"),
        ),
        (
            (
                "INSERT INTO recipe (id, name, in_use, note) VALUES (1, 'R', 1, '');"
                "INSERT INTO recipe_use (recipe_id, from_day, until_day)"
                " VALUES (1, '31-12', '02-01')"
            ),
            ("Use of a recipe 1", "from day: '31-12' is no day of the year"),
        ),
        (
            "INSERT INTO setting (key, value) VALUES ('jugs', '99')",
            ("Setting jugs", "'99'", "cannot be meant"),
        ),
        (
            "INSERT INTO setting (key, value) VALUES ('word.collection', '{')",
            ("Setting word.collection", "no JSON"),
        ),
    ],
    ids=lambda value: value[:40] if isinstance(value, str) else "",
)
def test_check_finds_what_no_command_could_read(
    folder: Path, statement: str, told: tuple[str, ...]
) -> None:
    change(folder, statement)
    problems = check(folder).problems
    assert problems
    for part in told:
        assert part in problems[0]


def test_check_tells_an_entry_that_takes_a_count_for_a_purchase(folder: Path) -> None:
    change(
        folder,
        "INSERT INTO tin (id, name, analysis, in_use, note)"
        " VALUES (1, 'T', '20-20-20', 1, '')",
        "INSERT INTO shelf_entry"
        " (tin_id, water_id, day, what, amount, after_round, price, note)"
        " VALUES (1, 1, '2026-03-01', 'weighed', -5, 1, 3, '')",
        "INSERT INTO water (id, kind, in_use, note) VALUES (1, 'rain', 1, '')",
    )
    told = check(folder).problems
    assert [line.split(", ", 1)[1].split(":")[0] for line in told] == [
        "what was done",
        "amount",
        "names tin_id and water_id, where one tin, stock or water belongs.",
        "price",
    ]


def test_check_lists_every_such_row(folder: Path) -> None:
    change(folder, "UPDATE plant SET medium = 'plastic'")
    assert [line.split(":")[0] for line in check(folder).problems] == [
        "Plant A1, medium",
        "Plant A2, medium",
    ]


def test_opening_such_a_row_names_the_plant_and_the_field(folder: Path) -> None:
    change(folder, "UPDATE plant SET medium = 'plastic' WHERE tag = 'A2'")
    with (
        closing(Collection.open(folder, CLOCK)) as collection,
        pytest.raises(DamagedError, match="'plastic' in medium of plant A2"),
    ):
        collection.day.view(CLOCK.today())


def test_such_a_look_is_named_by_its_day(folder: Path) -> None:
    change(
        folder,
        "INSERT INTO look (plant_id, day, note, root_tips)"
        " VALUES (1, '2026-03-01', '', 'gone')",
    )
    with (
        closing(Collection.open(folder, CLOCK)) as collection,
        pytest.raises(DamagedError, match="'gone' in root_tips of the entry of 2026"),
    ):
        collection.day.view(CLOCK.today())
