"""What may have happened to a collection's folder while nobody had it open.

F6: it may not be written. F8: it is cut, or what lies beside it is not its own. F9: it
is no collection. F23: an older copy lies where a journal stayed. F24: one bit is
another. Each is noticed at the opening, before the first write, and told in one line.
"""

from __future__ import annotations

import random
import shutil
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.domain.errors import (
    DamagedError,
    ForeignError,
    LookOnlyError,
    StoreError,
    TooNewError,
)
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.store.engine import connect
from growdesk.store.migrating import _apply
from growdesk.store.migrations import MIGRATIONS, SCHEMA
from growdesk.store.seal import SEAL_NAME
from growdesk.store.store import FILE_NAME, Store
from tests.faults.beside_files import (
    add,
    aside,
    digests,
    disk,
    journal,
    laid,
    names,
    now,
    read_only,
    remount,
    unsealed,
    versions,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

CUTS, FLIPS, VERSIONS = 100, 500, 10


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> list[bytes]:
    """Give one collection's file after each of its first changes."""
    return versions(tmp_path_factory.mktemp("kept") / "collection", VERSIONS + 1)


def one_line(error: StoreError) -> str:
    line = error.line()
    assert "\n" not in line
    assert "Traceback" not in line
    return line


# -- F8: what is cut ----------------------------------------------------------------


@pytest.mark.parametrize("sealed", [True, False])
def test_every_cut_is_noticed_and_stays(
    tmp_path: Path, kept: list[bytes], told: Callable[[str], None], sealed: bool
) -> None:
    chance = random.Random(8)  # noqa: S311 -- places, not secrets
    whole, refused = kept[-1], 0
    path = laid(tmp_path / "c", whole, sealed_as=whole if sealed else None)
    seal = (path.parent / SEAL_NAME).read_bytes() if sealed else b""
    for _ in range(CUTS):
        cut = whole[: chance.randrange(len(whole))]
        path.write_bytes(cut)
        if sealed:
            (path.parent / SEAL_NAME).write_bytes(seal)
        try:
            store = Store.open(path.parent, now)
        except StoreError as error:
            one_line(error)
            refused += 1
            assert path.read_bytes() == cut
            if sealed:
                assert (path.parent / SEAL_NAME).read_bytes() == seal
        else:
            store.close(seal=False)
    said = "sealed" if sealed else "unsealed"
    told(f"F8 cut ({said}): {CUTS} files, {refused} refused and untouched")
    assert refused == CUTS


# -- F8, F23: what lies beside ------------------------------------------------------


def test_a_journal_is_played_back_into_its_own_file_alone(
    tmp_path: Path, kept: list[bytes], told: Callable[[str], None]
) -> None:
    mended = set_aside = swallowed = 0
    for at in range(VERSIONS):
        beside = journal(kept[at], kept[at + 1])
        for number, content in enumerate(kept):
            folder = tmp_path / f"{at}-{number}"
            path = laid(folder, content)
            (folder / f"{FILE_NAME}-journal").write_bytes(beside)
            shutil.copytree(folder, tmp_path / "plain")
            is_own = number in {at, at + 1}
            swallowed += not is_own and _swallows(tmp_path / "plain", content)
            shutil.rmtree(tmp_path / "plain")
            store = Store.open(folder, now)
            assert store.full_check_due
            assert bool(store.notice) is not is_own
            store.close()
            left = [each.read_bytes() for each in aside(folder)]
            if is_own:
                mended += 1
                assert path.read_bytes() == kept[at]
                assert left == []
            else:
                set_aside += 1
                assert path.read_bytes() == content
                assert left == [beside]
    pairs = VERSIONS * (VERSIONS + 1)
    told(
        f"F8/F23 journals: {pairs} pairs, {mended} mended, {set_aside} set aside whole,"
        f" 0 mixed (SQLite alone mixes {swallowed})"
    )
    assert (mended, set_aside) == (2 * VERSIONS, pairs - 2 * VERSIONS)
    assert swallowed == set_aside, "the pairs have to be such that SQLite mixes them"


def _swallows(folder: Path, content: bytes) -> bool:
    """Tell whether the plain library changes a file of another time by the journal."""
    with closing(sqlite3.connect(folder / FILE_NAME)) as connection:
        try:
            connection.execute("SELECT count(*) FROM place").fetchone()
        except sqlite3.DatabaseError:
            return True
    return (folder / FILE_NAME).read_bytes() != content


def test_a_file_proved_as_left_takes_no_journal_at_all(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "c", kept[4], sealed_as=kept[4])
    beside = journal(kept[3], kept[4])
    path.with_name(f"{FILE_NAME}-journal").write_bytes(beside)
    store = Store.open(path.parent, now)
    assert "do not belong to" in store.notice
    assert not store.full_check_due
    store.close()
    assert path.read_bytes() == kept[4]
    assert [each.read_bytes() for each in aside(path.parent)] == [beside]


@pytest.mark.parametrize("sealed", [True, False])
def test_a_journal_that_makes_no_sense_changes_nothing(
    tmp_path: Path, kept: list[bytes], told: Callable[[str], None], sealed: bool
) -> None:
    chance = random.Random(23)  # noqa: S311 -- bytes, not secrets
    right = journal(kept[4], kept[5])
    other_size = bytearray(right)
    other_size[24:28] = (1024).to_bytes(4, "big")
    bad = [b"\x00", b"text " * 300, right[:20], right[:600], bytes(other_size)]
    bad += [chance.randbytes(chance.randrange(1, 9000)) for _ in range(15)]
    bad += [right[:28] + chance.randbytes(6000) for _ in range(10)]
    for number, content in enumerate(bad):
        path = laid(
            tmp_path / f"{number}", kept[7], sealed_as=kept[7] if sealed else None
        )
        path.with_name(f"{FILE_NAME}-journal").write_bytes(content)
        Store.open(path.parent, now).close()
        assert path.read_bytes() == kept[7]
    told(f"F8 senseless journals: {len(bad)}, 0 changed a file")


def test_reading_plays_back_nothing_that_is_not_its_own(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "c", kept[7])
    path.with_name(f"{FILE_NAME}-journal").write_bytes(journal(kept[3], kept[4]))
    before = digests(path.parent)
    store = Store.open_to_read(path.parent, now)
    store.close()
    assert before.items() <= digests(path.parent).items()
    assert digests(path.parent).keys() - before.keys() <= {"collection.lock"}


def foreign_log(folder: Path) -> bytes:
    """Give the write-ahead log that another collection's file was left with."""
    other = folder / "other"
    path = laid(other, versions(folder / "made", 2)[-1])
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("UPDATE place SET note = 'of the other one'")
        connection.execute("UPDATE place SET name = 'Alien'")
        connection.commit()
        return path.with_name(f"{FILE_NAME}-wal").read_bytes()


@pytest.mark.parametrize("sealed", [True, False])
def test_the_log_of_another_file_is_set_aside(
    tmp_path: Path, kept: list[bytes], told: Callable[[str], None], sealed: bool
) -> None:
    log = foreign_log(tmp_path)
    path = laid(tmp_path / "c", kept[5], sealed_as=kept[5] if sealed else None)
    path.with_name(f"{FILE_NAME}-wal").write_bytes(log)
    before = digests(path.parent)
    Store.open_to_read(path.parent, now).close()
    assert before.items() <= digests(path.parent).items()
    store = Store.open(path.parent, now)
    assert "do not belong to" in store.notice
    assert store.full_check_due is not sealed
    add(store, 99)
    store.close()
    assert names(path.parent)[-2:] == ["Shelf 5", "Shelf 99"]
    assert "Alien" not in names(path.parent)
    assert [each.read_bytes() for each in aside(path.parent)] == [log]
    told("F8 log of another file: 1, set aside whole, not played back")


def to_log(path: Path, statement: str) -> sqlite3.Connection:
    """Have another program keep a file with a write-ahead log, and write by it."""
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute(statement)
    connection.commit()
    return connection


def test_a_file_kept_otherwise_is_brought_back_and_told(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "c", kept[5], sealed_as=kept[5])
    to_log(path, "UPDATE place SET note = 'theirs'").close()
    assert path.read_bytes()[18:20] == b"\x02\x02"
    store = Store.open(path.parent, now)
    assert "is not as growdesk left it" in store.notice
    assert store.full_check_due
    add(store, 99)
    assert path.read_bytes()[18:20] == b"\x01\x01"
    store.close()
    assert not list(path.parent.glob("*-wal"))
    assert not list(path.parent.glob("*-shm"))


def test_a_log_that_was_deleted_is_noticed(
    tmp_path: Path, kept: list[bytes], told: Callable[[str], None]
) -> None:
    path = laid(tmp_path / "c", kept[5], sealed_as=kept[5])
    with closing(to_log(path, "UPDATE place SET note = 'theirs'")):
        shutil.copy(path, tmp_path / "copy")
    shutil.copy(tmp_path / "copy", path)
    assert not list(path.parent.glob("*-wal"))
    store = Store.open(path.parent, now)
    assert "is not as growdesk left it" in store.notice
    assert store.full_check_due
    store.close()
    told("F8 log deleted: 1, noticed before the first write")


def test_a_log_that_may_be_its_own_is_refused_and_stays(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "made", kept[5], sealed_as=kept[5])
    with closing(to_log(path, "UPDATE place SET note = 'theirs'")):
        shutil.copytree(path.parent, tmp_path / "c")
    folder = tmp_path / "c"
    before = digests(folder)
    for opening in (Store.open, Store.open_to_read):
        with pytest.raises(StoreError, match="Another program has written") as caught:
            opening(folder, now)
        one_line(caught.value)
    assert before.items() <= digests(folder).items()


def test_a_program_that_keeps_it_open_with_a_log_is_told_as_busy(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "c", kept[5], sealed_as=kept[5])
    with (
        closing(to_log(path, "UPDATE place SET note = 'theirs'")),
        pytest.raises(StoreError, match="Another program"),
    ):
        Store.open(path.parent, now)


# -- F9: what is no collection ------------------------------------------------------


def _other_programs(path: Path) -> None:
    path.unlink()
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE song (title TEXT)")


def _newer(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA user_version = {SCHEMA + 3}")
        connection.execute(
            "INSERT INTO migration (id, name, compatible_from, at_s)"
            " VALUES (?, 'later', ?, 0)",
            (SCHEMA + 3, SCHEMA + 3),
        )
        connection.commit()


_STRANGE: dict[str, tuple[Callable[[Path], object], type[StoreError], str]] = {
    "a text": (lambda path: path.write_text("dear " * 99), ForeignError, "not a grow"),
    "a short text": (lambda path: path.write_text("dear"), ForeignError, "not a grow"),
    "a zip": (
        lambda path: path.write_bytes(b"PK\x03\x04" + bytes(300)),
        ForeignError,
        "not a growdesk",
    ),
    "zeros": (lambda path: path.write_bytes(bytes(9000)), ForeignError, "not a grow"),
    "0 bytes": (lambda path: path.write_bytes(b""), DamagedError, "empty"),
    "a head alone": (
        lambda path: path.write_bytes(path.read_bytes()[:100]),
        DamagedError,
        "damaged",
    ),
    "another program's": (_other_programs, ForeignError, "another program"),
    "a newer one": (_newer, TooNewError, "newer growdesk"),
}


def test_what_is_no_collection_gets_one_line_and_stays(
    tmp_path: Path, kept: list[bytes], told: Callable[[str], None]
) -> None:
    for number, (make, error, line) in enumerate(_STRANGE.values()):
        for sealed in (False, True):
            folder = tmp_path / f"{number}-{sealed}"
            path = laid(folder, kept[5], sealed_as=kept[5] if sealed else None)
            make(path)
            before = digests(folder)
            for opening in (Store.open, Store.open_to_read):
                with pytest.raises(error, match=line) as caught:
                    opening(folder, now)
                assert str(path) in one_line(caught.value)
            assert before.items() <= digests(folder).items()
            assert digests(folder).keys() - before.keys() <= {"collection.lock"}
    told(f"F9: {len(_STRANGE)} files by 2 ways, one line each, all untouched")


# -- F24: one bit -------------------------------------------------------------------


def test_every_flipped_bit_is_noticed(
    tmp_path: Path, kept: list[bytes], told: Callable[[str], None]
) -> None:
    chance = random.Random(24)  # noqa: S311 -- places, not secrets
    whole = kept[-1]
    path = laid(tmp_path / "c", whole, sealed_as=whole)
    seal = (path.parent / SEAL_NAME).read_bytes()
    refused = noticed = seen = 0
    for _ in range(FLIPS):
        changed = bytearray(whole)
        changed[chance.randrange(len(whole))] ^= 1 << chance.randrange(8)
        path.write_bytes(changed)
        (path.parent / SEAL_NAME).write_bytes(seal)
        try:
            store = Store.open(path.parent, now)
        except StoreError as error:
            one_line(error)
            refused += 1
        else:
            noticed += "is not as growdesk left it" in store.notice
            assert store.full_check_due
            store.close(seal=False)
        seen += _is_seen(path)
    told(
        f"F24: {FLIPS} single bits, {refused} refused, {noticed} told by the seal, 0"
        f" unnoticed (SQLite's check in depth alone sees {seen})"
    )
    assert refused + noticed == FLIPS
    assert seen < FLIPS


def _is_seen(path: Path) -> bool:
    """Tell whether SQLite's own check in depth finds anything wrong."""
    with closing(sqlite3.connect(path)) as connection:
        try:
            return bool(
                connection.execute("PRAGMA integrity_check").fetchone() != ("ok",)
            )
        except (sqlite3.DatabaseError, UnicodeDecodeError):
            return True


# -- F6: what may not be written ----------------------------------------------------


def looks(folder: Path, places: int) -> str:
    """Look at a folder that may not be written, try to write, and give the reason."""
    before = digests(folder)
    store = Store.open(folder, now)
    assert store.looking
    assert "\n" not in store.looking
    with pytest.raises(LookOnlyError) as caught:
        add(store, 99)
    assert one_line(caught.value) == store.looking
    with pytest.raises(LookOnlyError):
        store.compact()
    with store.reading() as session:
        found = session.connection().exec_driver_sql("SELECT name FROM place").all()
    assert len(found) == places
    store.close()
    reading = Store.open_to_read(folder, now)
    reading.close()
    assert digests(folder) == before
    return store.looking


@pytest.mark.parametrize("sealed", [True, False])
def test_what_may_not_be_written_is_looked_at(
    tmp_path: Path, kept: list[bytes], told: Callable[[str], None], sealed: bool
) -> None:
    path = laid(tmp_path / "c", kept[5], sealed_as=kept[5] if sealed else None)
    with read_only(path.parent):
        assert looks(path.parent, 5).startswith(f"The disk of {path.parent} may only")
    with read_only(path):
        assert looks(path.parent, 5).startswith(f"The disk of {path} may only")
    with disk(tmp_path / "stick") as at:
        shutil.copytree(path.parent, at / "c")
        remount(at, "ro")
        assert looks(at / "c", 5).startswith(f"The disk of {at / 'c'} may only")
        remount(at, "rw")
        store = Store.open(at / "c", now)
        assert store.looking == ""
        store.close()
    told("F6: folder, file and disk, each looked at, nothing written")


def test_a_stopped_change_is_mended_in_a_copy_where_nothing_may_be_written(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "c", kept[6])
    path.with_name(f"{FILE_NAME}-journal").write_bytes(journal(kept[5], kept[6]))
    with read_only(path.parent):
        looks(path.parent, 5)


def test_what_does_not_belong_is_not_played_back_where_nothing_may_be_written(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "c", kept[8], sealed_as=kept[8])
    path.with_name(f"{FILE_NAME}-journal").write_bytes(journal(kept[5], kept[6]))
    path.with_name(f"{FILE_NAME}-wal").write_bytes(foreign_log(tmp_path))
    with read_only(path.parent):
        looks(path.parent, 8)


def test_a_replaced_file_is_told_where_nothing_may_be_written(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "c", kept[4], sealed_as=kept[8])
    with read_only(path.parent):
        store = Store.open(path.parent, now)
        assert "is not as growdesk left it" in store.notice
        store.close()


def test_a_folder_that_may_not_be_written_and_is_empty_is_refused(
    tmp_path: Path,
) -> None:
    folder = tmp_path / "c"
    folder.mkdir()
    with read_only(folder), pytest.raises(LookOnlyError, match="may only be read"):
        Store.open(folder, now, create=True)


def test_one_of_an_older_form_is_looked_at_in_a_copy(tmp_path: Path) -> None:
    folder = tmp_path / "c"
    folder.mkdir()
    path = folder / FILE_NAME
    with closing(connect(path, create=True)) as connection:
        _apply(connection, MIGRATIONS[:-1], now())
        connection.execute(
            "INSERT INTO place (name, kind, controlled, outdoors, note)"
            " VALUES ('Old sill', 'sill', 0, 0, '')"
        )
    path.with_name(f"{FILE_NAME}-journal").unlink(missing_ok=True)
    with read_only(folder):
        looks(folder, 1)
    store = Store.open(folder, now)
    assert store.looking == ""
    store.close()


def test_photos_are_seen_where_no_thumbnail_can_be_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    collection = Collection.open(tmp_path / "c", create=True)
    plant = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    picture = tmp_path / "a.jpg"
    Image.new("RGB", (40, 30), "green").save(picture)
    collection.photos.add(plant, [picture])
    (photo,) = collection.photos.of(plant)
    collection.close()
    before = digests(tmp_path / "c")
    with read_only(tmp_path / "c"):
        looked = Collection.open(tmp_path / "c")
        assert looked.looking
        for _ in range(2):
            made = looked.photos.thumbnail(photo)
            assert made is not None
            assert made.is_relative_to(tmp_path / "cache")
            assert made.stat().st_size > 0
        with pytest.raises(LookOnlyError):
            looked.plants.add(PlantDraft("A2", "", ""))
        looked.close()
    assert digests(tmp_path / "c") == before


def test_a_damaged_file_that_may_not_be_written_is_damaged(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "c", kept[8][:9000])
    with read_only(path.parent), pytest.raises(DamagedError):
        Store.open(path.parent, now)
    unsealed(path.parent)
