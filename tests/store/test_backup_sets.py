"""Kept backups are whole or not there, and one fault never costs another backup."""

from __future__ import annotations

import errno
import json
import os
import shutil
import sqlite3
import threading
from contextlib import closing, suppress
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain.errors import BusyError, DamagedError, StoreError
from growdesk.domain.thinning import Why
from growdesk.store import backup_copy, backup_manifest, backup_pool, backup_sets
from growdesk.store.backup_listing import kept_in, prove
from growdesk.store.backup_manifest import read_manifest
from growdesk.store.engine import connect
from growdesk.store.lock import FolderLock
from growdesk.store.migrating import create_database
from growdesk.store.migrations import SCHEMA
from growdesk.store.store import Store

if TYPE_CHECKING:
    from collections.abc import Callable

NOW = datetime(2026, 5, 20, 12, tzinfo=UTC)
DAY = timedelta(days=1)


def photo(folder: Path, content: bytes) -> Path:
    digest = sha256(content).hexdigest()
    path = folder / "photos" / digest[:2] / f"{digest}.jpg"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    return path


@pytest.fixture
def database(tmp_path: Path) -> Path:
    """Give a collection's database with a place, and two photos beside it."""
    folder = tmp_path / "mine"
    folder.mkdir()
    path = folder / "collection.sqlite"
    create_database(path, NOW)
    with closing(connect(path)) as connection:
        connection.execute(
            "INSERT INTO place (id, name, kind, controlled, outdoors, note)"
            " VALUES (1, 'Sill', 'windowsill', 0, 0, '')"
        )
    photo(folder, b"one")
    photo(folder, b"two" * 1000)
    return path


@pytest.fixture
def root(database: Path) -> Path:
    return database.parent / "backups"


def make(database: Path, days: int = 0, why: Why = Why.DAILY) -> Path:
    return backup_sets.make(database, why, NOW + days * DAY).path


def readings(connection: sqlite3.Connection, count: int) -> None:
    connection.execute("BEGIN IMMEDIATE")
    connection.executemany(
        "INSERT INTO reading (place_id, day, mean_c) VALUES (1, ?, 20)",
        [
            (f"{2000 + n // 360}-{1 + n % 12:02}-{1 + n % 28:02}-{n}",)
            for n in range(count)
        ],
    )
    connection.execute("COMMIT")


def names(root: Path) -> set[str]:
    return {path.name for path in root.iterdir()} - {"collection.lock"}


def test_a_backup_is_a_folder_of_database_and_manifest(
    database: Path, root: Path
) -> None:
    made = make(database)
    manifest = read_manifest(made)
    assert {path.name for path in made.iterdir()} == {
        "collection.sqlite",
        "manifest.json",
    }
    assert (manifest.number, manifest.made_at, manifest.why) == (1, NOW, Why.DAILY)
    assert (manifest.schema, manifest.rows["place"]) == (SCHEMA, 1)
    assert len(manifest.photos) == 2
    assert (manifest.database.sha256) == sha256(
        (made / "collection.sqlite").read_bytes()
    ).hexdigest()
    assert names(root) == {made.name, "photos"}
    assert made.name.endswith("-daily")


def test_photos_take_no_room_of_their_own(database: Path, root: Path) -> None:
    make(database)
    make(database, 1)
    for path in (database.parent / "photos").glob("*/*"):
        assert path.stat().st_nlink == 2
        assert (root / path.relative_to(database.parent)).samefile(path)


def test_where_no_second_name_can_be_photos_are_copied_and_read_back(
    database: Path, root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise OSError(errno.EXDEV, "Invalid cross-device link")

    monkeypatch.setattr(Path, "hardlink_to", refuse)
    made = make(database)
    (kept,) = kept_in(root)
    assert kept.path == made
    assert prove(kept) == ""
    for path in (database.parent / "photos").glob("*/*"):
        assert path.stat().st_nlink == 1
        assert (root / path.relative_to(database.parent)).read_bytes() == (
            path.read_bytes()
        )


def test_what_is_written_meanwhile_is_all_in_or_all_out(
    database: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Others write between the pages twice; the third time they wait."""
    monkeypatch.setattr("growdesk.store.backups._PAGES_AT_ONCE", 2)
    with closing(connect(database)) as connection:
        readings(connection, 2000)
    written = 0

    def write(*_: object) -> None:
        nonlocal written
        if written < 2:
            written += 1
            with closing(connect(database)) as connection:
                connection.execute(
                    "INSERT INTO place (name, kind, controlled, outdoors, note)"
                    " VALUES (?, 'windowsill', 0, 0, '')",
                    (f"P{written}",),
                )

    made = backup_sets.make(database, Why.DAILY, NOW, write)
    assert written == 2
    assert made.manifest.rows["place"] == 3
    assert prove(made) == ""


def test_writers_wait_while_the_last_try_is_made(
    database: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("growdesk.store.backups._PAGES_AT_ONCE", 2)
    monkeypatch.setattr(backup_copy, "_TRIES_BESIDE_WRITERS", 0)
    with closing(connect(database)) as connection:
        readings(connection, 2000)
    refused = []

    def write(*_: object) -> None:
        with closing(sqlite3.connect(database, timeout=0)) as connection:
            try:
                connection.execute("DELETE FROM reading")
                connection.commit()
            except sqlite3.OperationalError as error:
                refused.append(error)

    made = backup_sets.make(database, Why.DAILY, NOW, write)
    assert refused
    assert made.manifest.rows["reading"] == 2000


def test_writing_threads_and_backups_do_not_disturb_each_other(
    tmp_path: Path, told: Callable[[str], None]
) -> None:
    folder = tmp_path / "mine"
    store = Store.open(folder, lambda: NOW, create=True)
    done = threading.Event()
    counts: list[int] = []

    def write() -> None:
        from growdesk.store.schema import PlaceRow  # noqa: PLC0415 -- here alone

        while not done.is_set():
            with store.writing("write", lambda: NOW) as writing:
                values = {"name": f"P{len(counts)}", "kind": "windowsill"}
                writing.insert(PlaceRow, values)
            counts.append(1)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        made = [
            backup_sets.make(folder / "collection.sqlite", Why.BY_HAND, NOW)
            for _ in range(3)
        ]
    finally:
        done.set()
        writer.join()
        store.close()
    assert [prove(each) for each in made] == [""] * 3
    places = [each.manifest.rows["place"] for each in made]
    assert places == sorted(places)
    assert all(
        each.manifest.rows["place"] == each.manifest.rows["action"] for each in made
    )
    told(f"backups beside a writer: {len(made)} made, {len(counts)} writes, 0 wrong")


@pytest.mark.parametrize("at", range(1, 12))
def test_a_fault_at_any_step_leaves_all_as_it_was(
    database: Path, root: Path, monkeypatch: pytest.MonkeyPatch, at: int
) -> None:
    """The n-th sync says that the disk is full."""
    before = kept_in_after(database, root)
    photo(database.parent, b"three")
    calls = 0
    real = os.fsync

    def full(descriptor: int) -> None:
        nonlocal calls
        calls += 1
        if calls == at:
            raise OSError(errno.ENOSPC, "No space left on device")
        real(descriptor)

    monkeypatch.setattr(os, "fsync", full)
    try:
        made = make(database, 1)
    except StoreError as error:
        assert "full" in error.message  # noqa: PT017 -- both ends are right
        listed = [each for each in kept_in(root) if each.manifest.number == 2]
        assert all(prove(each) == "" for each in listed)
    else:
        assert calls < at
        assert made.is_dir()
    monkeypatch.undo()
    assert not list(root.glob("*.part"))
    assert [prove(each) for each in kept_in(root)[-1:]] == [""]
    assert kept_in(root)[-1] == before
    backup_sets.make(database, Why.DAILY, NOW + 2 * DAY)


def kept_in_after(database: Path, root: Path) -> object:
    make(database)
    (kept,) = kept_in(root)
    return kept


def test_a_stopped_backup_leaves_no_part(database: Path, root: Path) -> None:
    class StopError(Exception):
        pass

    def stop(_done: int, of: int) -> None:
        if of:
            raise StopError

    with pytest.raises(StopError):
        backup_sets.make(database, Why.DAILY, NOW, stop)
    assert kept_in(root) == ()
    assert names(root) <= {"photos"}


def test_leftovers_are_swept_but_not_while_another_is_at_it(
    database: Path, root: Path
) -> None:
    made = make(database)
    part = root / f"{made.name}-2.4711.part"
    part.mkdir()
    (part / "collection.sqlite").write_bytes(b"half")
    (root / "photos" / "ab").mkdir(exist_ok=True)
    half = root / "photos" / "ab" / "x.jpg.4711.part"
    half.write_bytes(b"half")
    lock = FolderLock(root)
    Store.open(database.parent, lambda: NOW).close()
    assert part.exists()
    lock.release()
    Store.open(database.parent, lambda: NOW).close()
    assert not part.exists()
    assert not half.exists()
    assert [each.path for each in kept_in(root)] == [made]


def test_two_at_once_do_not_clash(database: Path, root: Path) -> None:
    make(database)
    lock = FolderLock(root)
    with pytest.raises(BusyError, match="busy with the backups"):
        make(database, 1)
    lock.release()
    assert len(kept_in(root)) == 1


def test_a_damaged_photo_is_named_and_never_replaces_a_good_one(
    database: Path, root: Path
) -> None:
    good = photo(database.parent, b"good one")
    make(database)
    name = good.relative_to(database.parent).as_posix()
    good.unlink()  # a second name of the same file would change with it
    good.write_bytes(b"cut")
    bad = photo(database.parent, b"bad one")
    bad.write_bytes(b"other")
    later = backup_sets.make(database, Why.DAILY, NOW + DAY)
    assert {(each.name, each.damaged) for each in later.manifest.lacking} == {
        (name, True),
        (bad.relative_to(database.parent).as_posix(), True),
    }
    assert (root / name).read_bytes() == b"good one"
    assert prove(later) == ""
    assert len(later.manifest.photos) == 3


def test_a_damaged_photo_in_the_pool_is_replaced_by_the_good_one(
    database: Path, root: Path
) -> None:
    good = photo(database.parent, b"good one")
    make(database)
    held = root / good.relative_to(database.parent)
    held.unlink()
    held.write_bytes(b"rot")
    (kept,) = kept_in(root)
    assert "is not what it was" in kept.problem
    make(database, 1)
    assert held.read_bytes() == b"good one"
    assert [prove(each) for each in kept_in(root)] == ["", ""]


def test_a_photo_that_was_taken_in_anew_replaces_the_damaged_one_of_the_pool(
    database: Path, root: Path
) -> None:
    good = photo(database.parent, b"good one")
    make(database)
    held = root / good.relative_to(database.parent)
    with good.open("r+b") as file:  # in place, so that both names hold the damage
        file.write(b"rot")
    assert held.read_bytes() == b"rotd one"
    good.unlink()
    good.write_bytes(b"good one")
    os.utime(good, ns=(0, held.stat().st_mtime_ns + 1))
    made = make(database, 1)
    assert held.read_bytes() == b"good one"
    assert [prove(each) for each in kept_in(root)] == ["", ""]
    assert made.is_dir()


def test_a_whole_photo_of_the_pool_is_not_read_anew_each_day(
    database: Path, root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    make(database)
    for held in (root / "photos").glob("*/*"):  # as after a copy of the folder
        content = held.read_bytes()
        held.unlink()
        held.write_bytes(content)
        os.utime(held, ns=(0, 0))
    reads: list[Path] = []
    real = backup_pool.is_whole

    def read(path: Path, digest: str) -> bool:
        reads.append(path)
        return real(path, digest)

    monkeypatch.setattr(backup_pool, "is_whole", read)
    make(database, 1)
    assert len(reads) == 4
    reads.clear()
    make(database, 2)
    assert reads == []


def test_a_link_or_a_strange_name_is_no_photo(database: Path, tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_bytes(b"secret")
    digest = sha256(b"secret").hexdigest()
    shelf = database.parent / "photos" / digest[:2]
    shelf.mkdir(exist_ok=True)
    (shelf / f"{digest}.jpg").symlink_to(secret)
    (shelf / "notes.txt").write_text("mine")
    made = backup_sets.make(database, Why.DAILY, NOW)
    assert len(made.manifest.photos) == 2


@pytest.mark.parametrize(
    ("file", "how"),
    [
        ("collection.sqlite", "gone"),
        ("collection.sqlite", "short"),
        ("collection.sqlite", "changed"),
        ("manifest.json", "gone"),
        ("manifest.json", "short"),
        ("manifest.json", "changed"),
        ("photo", "gone"),
        ("photo", "short"),
        ("photo", "changed"),
    ],
)
def test_what_is_wrong_with_a_backup_is_told(
    database: Path, root: Path, file: str, how: str
) -> None:
    make(database)
    made = make(database, 1)
    path = made / file
    if file == "photo":
        path = next((root / "photos").glob("*/*"))
    content = path.read_bytes()
    path.unlink()
    if how == "short":
        path.write_bytes(content[:-1])
    elif how == "changed":
        at = len(content) // 2
        path.write_bytes(content[:at] + bytes([content[at] ^ 1]) + content[at + 1 :])
    told = [each for each in kept_in(root) if each.path == made]
    assert len(told) == 1
    if how != "changed" or file == "manifest.json":
        assert told[0].problem
    assert prove(told[0])
    if file != "photo":
        assert prove(kept_in(root)[1]) == ""


def test_one_that_is_not_whole_is_neither_counted_nor_taken_away(
    database: Path, root: Path
) -> None:
    for day in range(40):
        make(database, day)
    broken = kept_in(root)[20]
    (broken.path / "manifest.json").write_text("{")
    orphan = root / "photos" / "ab" / ("ab" + "0" * 62 + ".jpg")
    orphan.parent.mkdir(exist_ok=True)
    orphan.write_bytes(b"of the broken one, perhaps")
    gone = backup_sets.thin(root, NOW + 40 * DAY)
    assert gone > 10
    assert broken.path.is_dir()
    assert orphan.exists()
    assert len(kept_in(root)) == 40 - gone
    shutil.rmtree(broken.path)
    for day in range(41, 50):
        make(database, day)
    assert backup_sets.thin(root, NOW + 50 * DAY)
    assert not orphan.exists()


def test_photos_go_with_the_last_backup_that_names_them(
    database: Path, root: Path
) -> None:
    passing = photo(database.parent, b"passing")
    backup_sets.make(database, Why.DAILY, NOW)
    backup_sets.make(database, Why.DAILY, NOW)
    passing.unlink()
    held = root / passing.relative_to(database.parent)
    make(database, 1)
    _, second, first = kept_in(root)
    backup_sets.remove(root, [first])
    assert held.exists()
    backup_sets.remove(root, [second])
    assert not held.exists()
    assert len(list((root / "photos").glob("*/*"))) == 2
    assert [prove(each) for each in kept_in(root)] == [""]


@pytest.mark.parametrize("called", ["before the move", "old/2026-05-20-120000-daily"])
def test_one_that_a_person_renamed_or_put_away_keeps_its_photos(
    database: Path, root: Path, called: str
) -> None:
    passing = photo(database.parent, b"passing")
    away = root / called
    away.parent.mkdir(parents=True, exist_ok=True)
    make(database).rename(away)
    passing.unlink()
    made = [make(database, days) for days in (1, 2)]
    for held in made:  # they hold it still, since the pool does
        manifest = read_manifest(held)
        files = tuple(
            each
            for each in manifest.files
            if each.sha256 != sha256(b"passing").hexdigest()
        )
        backup_manifest.write_manifest(held, replace(manifest, files=files))
    (root / "@scattered by a system").mkdir()
    backup_sets.remove(root, kept_in(root)[:1])
    held_at = root / passing.relative_to(database.parent)
    assert held_at.read_bytes() == b"passing"
    shutil.rmtree(away)
    backup_sets.remove(root, kept_in(root)[:1])
    assert not held_at.exists()


def test_order_is_by_number_not_by_the_clock(database: Path, root: Path) -> None:
    made = [make(database, days) for days in (0, 700, -3000, 1)]
    assert [each.path for each in kept_in(root)] == made[::-1]
    broken = made[1] / "manifest.json"
    broken.write_text("")
    assert kept_in(root)[0].path == made[1]
    assert make(database, 2).is_dir()
    assert kept_in(root)[0].manifest.number in {0, 5}


def test_what_earlier_growdesks_kept_is_listed_and_proved(
    database: Path, root: Path
) -> None:
    root.mkdir()
    earlier = root / "before-form-4-from-3-20250520T120000Z.sqlite"
    shutil.copy(database, earlier)
    (root / "letter.txt").write_text("dear aunt")
    made = make(database)
    newest, oldest = kept_in(root)
    assert (newest.path, oldest.path) == (made, earlier)
    assert oldest.manifest.made_at == datetime(2025, 5, 20, 12, tzinfo=UTC)
    assert (oldest.manifest.schema, oldest.manifest.why) == (3, Why.BEFORE_FORM)
    assert (oldest.database, oldest.photos) == (earlier, {})
    assert prove(oldest) == ""
    assert backup_sets.thin(root, NOW) == 0
    earlier.write_bytes(earlier.read_bytes()[:5000])
    assert prove(kept_in(root)[1])
    assert (root / "letter.txt").exists()


def test_a_manifest_that_names_strange_files_is_refused(database: Path) -> None:
    made = make(database)
    path = made / "manifest.json"
    told = json.loads(path.read_bytes())
    for name in ("../secret", "/etc/passwd", "photos/ab/../../x.jpg", "C:\\x", ""):
        told["files"][1]["name"] = name
        told.pop("digest", None)
        told["digest"] = backup_manifest._digest(told)
        path.write_text(json.dumps(told))
        with pytest.raises(DamagedError):
            read_manifest(made)


@pytest.mark.parametrize(
    "text", ["", "[]", "null", "1e999", '{"form": 1}', "[" * 100_000, '{"a": NaN}']
)
def test_a_manifest_that_is_none_is_told_in_one_line(database: Path, text: str) -> None:
    made = make(database)
    (made / "manifest.json").write_text(text)
    with pytest.raises(DamagedError) as caught:
        read_manifest(made)
    assert "\n" not in caught.value.line()


ANY = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(max_size=5), inner, max_size=3)
    ),
    max_leaves=6,
)


@settings(
    max_examples=100,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    key=st.sampled_from(
        [
            *("form", "number", "made_at", "why", "schema"),
            *("mark", "rows", "files", "lacking", "program"),
        ]
    ),
    value=ANY | st.just("0001-01-01T00:00:00+00:00"),
)
def test_any_value_in_a_manifest_is_read_or_told(
    tmp_path: Path, key: str, value: object
) -> None:
    """A digest keeps no one from writing a manifest by hand."""
    manifest = backup_manifest.Manifest(
        *(1, NOW, Why.DAILY, 4, "0-0", {}),
        files=(backup_manifest.Held("collection.sqlite", "0" * 64, 1),),
    )
    told = backup_manifest._told(manifest) | {key: value}
    told["digest"] = backup_manifest._digest(told)
    (tmp_path / "manifest.json").write_text(json.dumps(told))
    with suppress(StoreError):
        assert read_manifest(tmp_path).made_at.astimezone().year >= 1969


@pytest.mark.parametrize(
    "name",
    [
        "9999-12-31-235959-daily",
        "0001-01-01-000000-daily",
        "2026-13-45-999999-daily",
        "2026-05-20-120000-daily-" + "9" * 100,
        "２０２６-05-20-120000-daily",
        "before-form-4-from-3-99991231T235959Z.sqlite",
        "before-form-4-from-3-20261345T235959Z.sqlite",
    ],
)
def test_any_name_among_the_backups_can_be_listed(
    database: Path, root: Path, name: str
) -> None:
    made = make(database)
    if name.endswith(".sqlite"):
        (root / name).write_bytes(b"none")
    else:
        (root / name).mkdir()
    found = kept_in(root)
    assert [each.path for each in found if not each.problem] == [made]
    assert backup_sets.thin(root, NOW) == 0


def test_a_copy_elsewhere_stands_by_itself(
    database: Path, root: Path, tmp_path: Path
) -> None:
    backup_sets.make(database, Why.DAILY, NOW)
    (kept,) = kept_in(root)
    there = tmp_path / "stick"
    there.mkdir()
    copied = backup_sets.copy(kept, there)
    assert backup_sets.copy(kept, there) == copied
    assert all(path.stat().st_nlink == 1 for path in (there / "photos").glob("*/*"))
    shutil.rmtree(database.parent)
    (found,) = kept_in(there)
    assert prove(found) == ""
    assert found.manifest == kept.manifest


def test_a_copy_leaves_out_a_photo_that_is_not_whole(
    database: Path, root: Path, tmp_path: Path
) -> None:
    backup_sets.make(database, Why.DAILY, NOW)
    (kept,) = kept_in(root)
    held = next((root / "photos").glob("*/*"))
    length = held.stat().st_size
    held.unlink()
    held.write_bytes(b"x" * length)
    there = tmp_path / "stick"
    there.mkdir()
    copied = backup_sets.copy(kept, there)
    assert [each.damaged for each in copied.manifest.lacking] == [True]
    assert len(copied.manifest.photos) == 1
    assert prove(copied) == ""


@pytest.mark.parametrize("at", range(1, 10))
def test_a_stick_that_fails_at_any_step_keeps_what_it_had(
    database: Path,
    root: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    at: int,
) -> None:
    """The n-th sync says that the stick is gone."""
    there = tmp_path / "stick"
    there.mkdir()
    make(database)
    backup_sets.copy(kept_in(root)[0], there)
    photo(database.parent, b"three")
    make(database, 1)
    calls = 0
    real = os.fsync

    def gone(descriptor: int) -> None:
        nonlocal calls
        calls += 1
        if calls == at:
            raise OSError(errno.EIO, "Input/output error")
        real(descriptor)

    monkeypatch.setattr(os, "fsync", gone)
    newest = kept_in(root)[0]
    with suppress(StoreError):
        backup_sets.copy(newest, there)
    monkeypatch.undo()
    assert calls >= min(at, 6)
    assert [prove(each) for each in kept_in(there)] == [""] * len(kept_in(there))
    assert not list(there.glob("*.part"))
    assert prove(backup_sets.copy(newest, there)) == ""
    assert len(kept_in(there)) == 2
    assert len(kept_in(root)) == 2


def test_a_collection_that_is_gone_beside_its_backups_is_not_begun_anew(
    database: Path, root: Path
) -> None:
    make(database)
    for path in database.parent.iterdir():
        if path.name not in {"backups", "photos"}:
            path.unlink()
    shutil.rmtree(database.parent / "photos")
    with pytest.raises(DamagedError, match="holds backups of a collection"):
        Store.open(database.parent, lambda: NOW, create=True)
    assert not database.exists()
    assert [prove(each) for each in kept_in(root)] == [""]


def test_the_pool_is_not_led_astray(tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    (tmp_path / "photos").symlink_to(outside)
    assert backup_pool.photos_below(tmp_path) == {}


def test_damage_that_only_an_integrity_check_finds_is_not_backed_up(
    database: Path, root: Path
) -> None:
    """An index that is not of its table: every row can be read and counted."""
    make(database)
    with closing(connect(database)) as connection:
        connection.execute("CREATE INDEX ix_astray ON place(name)")
        connection.execute("PRAGMA writable_schema = ON")
        connection.execute(
            "UPDATE sqlite_schema SET sql = 'CREATE INDEX ix_astray ON place(kind)'"
            " WHERE name = 'ix_astray'"
        )
    with closing(connect(database)) as connection:
        assert connection.execute("PRAGMA quick_check").fetchall() == [("ok",)]
    before = names(root)
    with pytest.raises(DamagedError):
        make(database, days=1)
    assert names(root) == before
