"""A folder that an enemy prepared: nothing outside it is deleted, renamed or run.

A journal that names another file, rules inside the file, links in place of folders,
and names that only look like ours. A control shows, where it can, that the library
alone would have done the harm.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import signal
import sqlite3
from contextlib import closing, contextmanager
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import DamagedError, ForeignError, StoreError
from growdesk.services import backups, restoring
from growdesk.services.backup_values import Why
from growdesk.services.collection import Collection
from growdesk.services.collection_export import export
from growdesk.services.photo_files import photo_files_without
from growdesk.services.rescuing import rescue
from growdesk.services.second_place import second_place
from growdesk.store.backup_sets import thin
from growdesk.store.regular_files import sha256_of
from growdesk.store.seal import SEAL_NAME, Seal, put_seal
from growdesk.store.store import FILE_NAME, Store
from growdesk.store.whole_files import write_whole
from tests.faults.beside_files import add, aside, journal, laid, now, versions

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

_MAGIC = b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7"


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> list[bytes]:
    return versions(tmp_path_factory.mktemp("kept") / "collection", 3)


@pytest.fixture
def letter(tmp_path: Path) -> Path:
    """Give a file of the grower's that is none of the collection's."""
    path = tmp_path / "letter.txt"
    path.write_text("Dear Anna,\n")
    return path


def naming(kept: list[bytes], victim: Path) -> bytes:
    """Give a journal that fits its file, and ends with another file's name."""
    name = os.fsencode(victim)
    page_bytes = int.from_bytes(kept[1][16:18], "big")
    return b"".join(
        (
            journal(kept[1], kept[2]),
            (0x40000000 // page_bytes + 1).to_bytes(4, "big"),
            name,
            len(name).to_bytes(4, "big"),
            (sum(name) & 0xFFFFFFFF).to_bytes(4, "big"),
            _MAGIC,
        )
    )


def prepared(folder: Path, kept: list[bytes], victim: Path) -> Path:
    path = laid(folder, kept[2])
    path.with_name(f"{FILE_NAME}-journal").write_bytes(naming(kept, victim))
    return path


def _open(folder: Path) -> None:
    Store.open(folder, now).close()


def _read(folder: Path) -> None:
    store = Store.open_to_read(folder, now)
    with store.reading():
        pass
    store.close()


def _restore(folder: Path) -> None:
    restoring.restore(folder, folder.with_name("home"), now())


def _restore_over(folder: Path) -> None:
    other = folder.with_name("other")
    Store.open(other, now, create=True).close()
    restoring.restore(other, folder, now())


def _rescue(folder: Path) -> None:
    rescue(folder, folder.with_name("saved"), now())


def _keep(folder: Path) -> None:
    with pytest.raises(DamagedError):
        backups.make(folder, Why.BY_HAND, now())


WAYS = [_open, _read, _restore, _restore_over, _rescue, _keep]


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__.strip("_"))
def test_a_journal_never_names_a_file_that_goes(
    tmp_path: Path, kept: list[bytes], letter: Path, way: Callable[[Path], None]
) -> None:
    prepared(tmp_path / "c", kept, letter)
    way(tmp_path / "c")
    assert letter.read_text() == "Dear Anna,\n"


def test_the_library_alone_deletes_what_a_journal_names(
    tmp_path: Path, kept: list[bytes], letter: Path
) -> None:
    path = prepared(tmp_path / "c", kept, letter)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("SELECT count(*) FROM place").fetchone()
    assert not letter.exists()


def test_such_a_journal_is_set_aside_and_told(
    tmp_path: Path, kept: list[bytes], letter: Path
) -> None:
    path = prepared(tmp_path / "c", kept, letter)
    store = Store.open(path.parent, now)
    assert "do not belong to" in store.notice
    store.close()
    assert path.read_bytes() == kept[2]
    assert [each.read_bytes() for each in aside(path.parent)] == [naming(kept, letter)]


RULES = {
    "trigger": "CREATE TRIGGER tidy AFTER INSERT ON action"
    " BEGIN DELETE FROM place; END",
    "view": "CREATE VIEW tidy AS SELECT * FROM place",
    "search": "CREATE VIRTUAL TABLE tidy USING fts5(words)",
}


def ruled(folder: Path, kept: list[bytes], rule: str, *, hidden: bool) -> Path:
    path = laid(folder, kept[2])
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(rule)
        if hidden:
            connection.execute("PRAGMA writable_schema = ON")
            connection.execute(
                "UPDATE sqlite_master SET type = 'table', rootpage = 3"
                " WHERE name = 'tidy'"
            )
        connection.commit()
    return path


@pytest.mark.parametrize("hidden", [False, True])
@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("sealed", [False, True])
def test_a_file_that_would_do_something_of_itself_is_refused(
    tmp_path: Path, kept: list[bytes], rule: str, hidden: bool, sealed: bool
) -> None:
    path = ruled(tmp_path / "made", kept, RULES[rule], hidden=hidden)
    content = path.read_bytes()
    if sealed:
        shutil.rmtree(path.parent)
        path = laid(tmp_path / "c", kept[2])
        _seal(path, content)
    for opening in (_open, _read):
        with pytest.raises(StoreError) as refused:
            opening(path.parent)
        assert "\n" not in refused.value.line()
    assert path.read_bytes() == content
    with pytest.raises(DamagedError):
        restoring.restore(path, tmp_path / "home", now())
    assert not (tmp_path / "home").exists()


def _seal(path: Path, content: bytes) -> None:
    """Seal a file as only who knows the form can."""
    path.write_bytes(content)
    schema = int.from_bytes(content[60:64], "big")
    put_seal(path.parent, Seal(sha256_of(path), len(content), schema, now(), now()))


def test_what_is_refused_can_be_rescued_without_its_rule(
    tmp_path: Path, kept: list[bytes]
) -> None:
    ruled(tmp_path / "c", kept, RULES["trigger"], hidden=False)
    rescue(tmp_path / "c", tmp_path / "saved", now())
    _open(tmp_path / "saved")


# -- links, pipes and names -----------------------------------------------------------


@pytest.mark.parametrize("end", ["-journal", "-wal", "-shm"])
@pytest.mark.parametrize("there", [True, False])
def test_nothing_is_written_through_a_link_beside_the_file(
    tmp_path: Path, kept: list[bytes], letter: Path, end: str, there: bool
) -> None:
    path = laid(tmp_path / "c", kept[2])
    if end != "-journal":
        with path.open("r+b") as file:
            file.seek(18)
            file.write(b"\x02\x02")
    if not there:
        letter.unlink()
    path.with_name(f"{FILE_NAME}{end}").symlink_to(letter)
    store = Store.open(path.parent, now)
    add(store, 9)
    assert "do not belong to" in store.notice
    store.close()
    assert letter.exists() is there
    assert not there or letter.read_text() == "Dear Anna,\n"


def test_a_collection_that_is_a_link_is_refused(
    tmp_path: Path, kept: list[bytes]
) -> None:
    path = laid(tmp_path / "real", kept[2])
    (tmp_path / "c").mkdir()
    (tmp_path / "c" / FILE_NAME).symlink_to(path)
    for opening in (_open, _read):
        with pytest.raises(StoreError, match="is a link to another place"):
            opening(tmp_path / "c")
    assert path.read_bytes() == kept[2]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names")
@pytest.mark.parametrize(
    "name",
    [
        FILE_NAME,
        f"{FILE_NAME}-journal",
        f"{FILE_NAME}-wal",
        SEAL_NAME,
        "collection.reserve",
        "collection.lock",
        "backups/also-in.json",
        "backups/2026-05-01-120000-daily/manifest.json",
        "../.c-restoring-abc/switch.json",
    ],
)
def test_a_pipe_in_place_of_a_file_is_not_waited_for(
    tmp_path: Path, kept: list[bytes], name: str
) -> None:
    laid(tmp_path / "c", kept[2])
    pipe = tmp_path / "c" / name
    pipe.parent.mkdir(parents=True, exist_ok=True)
    pipe.unlink(missing_ok=True)
    os.mkfifo(pipe)
    with _within(20):
        if name == FILE_NAME:
            with pytest.raises(StoreError, match="is not a growdesk collection"):
                Store.open(tmp_path / "c", now)
            return
        store = Store.open(tmp_path / "c", now)
        store.keep_reserve()
        backups.kept(tmp_path / "c")
        second_place(tmp_path / "c")
        store.close()


@contextmanager
def _within(seconds: int) -> Iterator[None]:
    """Fail what waits for ever."""

    def late(*_: object) -> None:
        raise TimeoutError

    before = signal.signal(signal.SIGALRM, late)
    signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def _other(tmp_path: Path) -> Path:
    """Lay another collection's photo, whose name is as ours are."""
    photo = tmp_path / "other" / "photos" / "ab" / f"ab{'0' * 62}.jpg"
    photo.parent.mkdir(parents=True)
    photo.write_bytes(b"theirs")
    os.utime(photo, (0, 0))
    return photo


def test_backups_behind_a_link_are_neither_thinned_nor_swept(
    tmp_path: Path, kept: list[bytes]
) -> None:
    photo = _other(tmp_path)
    half = tmp_path / "other" / "2026-05-01-120000-daily.7.part"
    half.mkdir()
    path = laid(tmp_path / "c", kept[2])
    (path.parent / "backups").symlink_to(photo.parents[2])
    _open(path.parent)
    for work in (
        lambda: backups.make(path.parent, Why.BY_HAND, now()),
        lambda: thin(path.parent / "backups", now()),
    ):
        with pytest.raises(StoreError, match="is a link to another place"):
            work()
    assert photo.exists()
    assert half.exists()


def test_the_bin_takes_only_photos_of_ours(tmp_path: Path, kept: list[bytes]) -> None:
    folder = laid(tmp_path / "c", kept[2]).parent
    own = folder / "photos" / "ab" / f"ab{'0' * 62}.jpg"
    holiday = folder / "photos" / "2024" / "holiday.jpg"
    for photo in (own, holiday):
        photo.parent.mkdir(parents=True)
        photo.write_bytes(b"photo")
        os.utime(photo, (0, 0))
    assert photo_files_without(folder, set(), set()) == [own]
    assert photo_files_without(folder, set(), set(), is_shared=True) == []
    shutil.rmtree(folder / "photos")
    (folder / "photos").symlink_to(_other(tmp_path).parents[1])
    assert photo_files_without(folder, set(), {f"ab{'0' * 62}"}) == []


def test_what_only_looks_half_written_is_not_swept(
    tmp_path: Path, kept: list[bytes]
) -> None:
    folder = laid(tmp_path / "c", kept[2]).parent
    half = folder / f"{FILE_NAME}.7.part"
    foreign = [folder / "film.part", folder / "talks" / "film.7.part"]
    shelf = tmp_path / "away" / "ab"
    for path in (half, *foreign, shelf / "x.jpg.7.part"):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"half")
    (folder / "photos").mkdir()
    (folder / "photos" / "ab").symlink_to(shelf)
    (folder / "thumbnails").symlink_to(shelf.parent)
    _open(folder)
    assert not half.exists()
    assert all(path.exists() for path in foreign)
    assert (shelf / "x.jpg.7.part").exists()


@pytest.mark.parametrize("way", ["aside", "backups", "pool", "shelf"])
def test_a_prepared_plan_moves_nothing_from_behind_a_link(
    tmp_path: Path, kept: list[bytes], way: str
) -> None:
    folder = laid(tmp_path / "c", kept[2]).parent
    (folder / "backups" / "photos").mkdir(parents=True)
    theirs = _other(tmp_path)
    passing = tmp_path / ".c-restoring-abc"
    passing.mkdir()
    aside_name = "c-before-restore-2026-05-01-120000"
    (passing / "switch.json").write_text(json.dumps({"aside": aside_name}))
    led = {
        "aside": (tmp_path / aside_name, tmp_path / "theirs"),
        "backups": (tmp_path / aside_name / "backups", theirs.parents[2]),
        "pool": (tmp_path / aside_name / "backups" / "photos", theirs.parents[1]),
        "shelf": (tmp_path / aside_name / "backups" / "photos" / "ab", theirs.parent),
    }
    link, target = led[way]
    link.parent.mkdir(parents=True, exist_ok=True)
    if way == "aside":
        (target / "backups").mkdir(parents=True)
        shutil.move(theirs.parents[1], target / "backups" / "photos")
        theirs = target / "backups" / "photos" / "ab" / theirs.name
    link.symlink_to(target)
    _open(folder)
    assert theirs.read_bytes() == b"theirs"
    assert not (folder / "backups").is_symlink()
    assert not passing.exists()


def test_a_folder_that_only_looks_passing_stays(
    tmp_path: Path, kept: list[bytes]
) -> None:
    folder = laid(tmp_path / "c", kept[2]).parent
    notes = tmp_path / ".c-restoring-notes" / "how.txt"
    dated = tmp_path / ".c-restoring-May 2026" / "unpacked" / "how.txt"
    for path in (notes, dated):
        path.parent.mkdir(parents=True)
        path.write_text("by hand")
    _open(folder)
    assert notes.exists()
    assert dated.exists()


def test_what_was_set_aside_comes_back_from_no_link(
    tmp_path: Path, kept: list[bytes]
) -> None:
    laid(tmp_path / "theirs", kept[2])
    (tmp_path / "c-before-restore-2026-05-01-120000").symlink_to(tmp_path / "theirs")
    with pytest.raises(StoreError, match="There is no collection"):
        Store.open(tmp_path / "c", now)
    assert (tmp_path / "theirs" / FILE_NAME).exists()


def test_a_manifest_counts_no_further_than_there_is_a_number(
    tmp_path: Path, kept: list[bytes]
) -> None:
    folder = laid(tmp_path / "c", kept[2]).parent
    made = backups.make(folder, Why.BY_HAND, now()).folder
    told = json.loads((made / "manifest.json").read_bytes())
    told.pop("digest")
    told["number"] = 10**4299
    text = json.dumps(told, sort_keys=True, separators=(",", ":"))
    told["digest"] = hashlib.sha256(text.encode()).hexdigest()
    (made / "manifest.json").write_text(json.dumps(told))
    assert [each.problem != "" for each in backups.kept(folder)] == [True]
    backups.make(folder, Why.BY_HAND, now())


def test_nothing_is_written_through_a_link_under_a_passing_name(
    tmp_path: Path, letter: Path
) -> None:
    target = tmp_path / "list.csv"
    target.with_name(f"list.csv.{os.getpid()}.part").symlink_to(letter)
    write_whole(target, b"tag\n")
    assert target.read_bytes() == b"tag\n"
    assert letter.read_text() == "Dear Anna,\n"


def test_an_export_takes_nothing_away_behind_a_link(
    tmp_path: Path, kept: list[bytes]
) -> None:
    folder = laid(tmp_path / "c", kept[2]).parent
    theirs = tmp_path / "earlier" / f"{'0' * 64}.jpg"
    theirs.parent.mkdir()
    theirs.write_bytes(b"theirs")
    out = tmp_path / "out"
    out.mkdir()
    (out / "photos").symlink_to(theirs.parent)
    with (
        closing(Collection.open(folder)) as collection,
        pytest.raises(ForeignError, match="holds other files"),
    ):
        export(collection, out)
    assert theirs.exists()
