"""A folder that an enemy prepared: nothing outside it is deleted, renamed or run.

A journal that names another file, rules inside the file, links in place of folders,
and names that only look like ours. A control shows, where it can, that the library
alone would have done the harm.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import DamagedError, StoreError
from growdesk.services import backups, restoring
from growdesk.services.backup_values import Why
from growdesk.services.rescuing import rescue
from growdesk.store.store import FILE_NAME, Store
from tests.faults.beside_files import aside, journal, laid, now, versions

if TYPE_CHECKING:
    from collections.abc import Callable

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
    "trigger": "CREATE TRIGGER tidy AFTER INSERT ON action BEGIN DELETE FROM place; END",
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
    from growdesk.store.seal import Seal, digest_of, put_seal

    path.write_bytes(content)
    schema = int.from_bytes(content[60:64], "big")
    put_seal(path.parent, Seal(digest_of(path), len(content), schema, now(), now()))


def test_what_is_refused_can_be_rescued_without_its_rule(
    tmp_path: Path, kept: list[bytes]
) -> None:
    ruled(tmp_path / "c", kept, RULES["trigger"], hidden=False)
    rescue(tmp_path / "c", tmp_path / "saved", now())
    _open(tmp_path / "saved")
