"""A whole collection to a server and back, its backups, its check, and its report."""

from __future__ import annotations

import json
import os
from typing import TYPE_CHECKING, Any

import pytest
from PIL import Image

from growdesk import app
from growdesk.domain.errors import InputError
from growdesk.services import (
    backups,
    bug_report,
    care_of_files,
    carrying_over,
    emptying,
    servers,
    servers_known,
)
from growdesk.services.backup_values import Why
from growdesk.services.carrying_over import carry_over
from growdesk.services.collection import Collection
from growdesk.services.full_check import look_through
from growdesk.services.restoring import restore_into
from growdesk.services.values import PlantDraft
from growdesk.services.whereabouts import OnServer
from growdesk.store.backup_copy import read_snapshot
from growdesk.store.folder_names import FILE_NAME
from growdesk.store.migrations import MIGRATIONS
from growdesk.store.photos import whole_content
from growdesk.store.server_address import parsed
from growdesk.store.server_engine import make_server_engine, writer_of
from growdesk.store.server_opening import bring_up

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.clock import FixedClock
    from tests.server_store import Databases

IDLE = (
    "SELECT 'there' UNION ALL SELECT state FROM pg_stat_activity"
    " WHERE datname = '{}' AND starts_with(state, 'idle in')"
)


@pytest.fixture(autouse=True)
def machine(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Let what a machine remembers lie in a folder of the test's own."""
    for name in ("CONFIG", "DATA", "STATE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / name.lower()))


@pytest.fixture
def where(address: str, tmp_path: Path) -> OnServer:
    """Give an empty database with a shared folder."""
    shared = tmp_path / "shared"
    shared.mkdir()
    return servers.find_server(address, str(shared))


@pytest.fixture
def worked(folder: Path, tmp_path: Path, clock: FixedClock) -> Path:
    """Give a collection's folder with history, a photo, a bin and an undone step."""
    collection = Collection.open(folder, clock, create=True)
    for tag in ("A1", "A2", "A3"):
        collection.plants.add(PlantDraft(tag, "Cattleya walkeriana", ""))
    (first, _), (second, _), _ = collection.plants.all()
    Image.new("RGB", (40, 30), "green").save(tmp_path / "photo.jpg")
    collection.photos.add(first, [tmp_path / "photo.jpg"])
    collection.plants.remove([second])
    collection.settings.set_word("collection", "By the door")
    collection.history.undo()
    collection.close()
    return folder


def test_all_goes_to_a_server_and_back_as_it_was(
    worked: Path, where: OnServer, tmp_path: Path, clock: FixedClock
) -> None:
    before = read_snapshot(worked / FILE_NAME)
    went = carry_over(worked, where, clock)
    assert (went.plants, went.photos, went.problems) == (3, 1, ())
    on_server = Collection.open(where, clock)
    there = look_through(where)
    assert there.damage == ()
    assert there.changes == before.rows["change"]
    assert on_server.history.redo() is not None
    assert on_server.settings.word("collection") == "By the door"
    on_server.history.undo()
    on_server.plants.add(PlantDraft("A9", "Cattleya", ""))
    on_server.history.undo()
    on_server.close()
    carry_over(where, tmp_path / "back", clock)
    back = Collection.open(tmp_path / "back", clock)
    assert [draft.tag for _, draft in back.plants.all()] == ["A1", "A3"]
    assert back.history.redo() is not None
    back.close()
    assert look_through(tmp_path / "back").damage == ()


def test_no_transaction_stands_open_while_photos_are_copied(
    worked: Path,
    where: OnServer,
    databases: Databases,
    tmp_path: Path,
    clock: FixedClock,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A server cuts off who is silent in one, and a slow share takes its time."""
    waiting: list[object] = []

    def noted(path: Path) -> bytes:
        with databases.alone() as execute:
            asked: Any = execute(IDLE.format(where.address.database))
            waiting.extend(asked.scalars())
        return whole_content(path)

    monkeypatch.setattr(carrying_over, "whole_content", noted)
    assert carry_over(worked, where, clock).photos == 1
    assert carry_over(where, tmp_path / "back", clock).photos == 1
    assert set(waiting) == {"there"}


def test_nothing_goes_where_something_is(
    worked: Path, where: OnServer, tmp_path: Path, clock: FixedClock
) -> None:
    carry_over(worked, where, clock)
    with pytest.raises(InputError, match="holds something already"):
        carry_over(worked, where, clock)
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "letter.txt").write_text("dear")
    with pytest.raises(InputError, match="holds something already"):
        carry_over(where, tmp_path / "full", clock)
    with pytest.raises(InputError, match="a collection of its own"):
        carry_over(worked, OnServer(where.address, worked), clock)


def test_an_emptied_bin_takes_no_photo_of_another_collection(
    worked: Path, where: OnServer, clock: FixedClock
) -> None:
    carry_over(worked, where, clock)
    strange = where.folder / "photos" / "ab" / f"ab{'0' * 62}.jpg"
    strange.parent.mkdir(parents=True, exist_ok=True)
    strange.write_bytes(b"of another")
    os.utime(strange, (0, 0))
    on_server = Collection.open(where, clock)
    on_server.plants.remove([1])
    assert on_server.bin.view().photos == 1
    emptying.empty(on_server)
    on_server.close()
    left = [path for path in (where.folder / "photos").glob("*/*") if path.is_file()]
    assert left == [strange]


def test_a_backup_of_a_server_opens_in_a_folder(
    worked: Path, where: OnServer, tmp_path: Path, clock: FixedClock
) -> None:
    carry_over(worked, where, clock)
    now = clock.now()
    assert backups.is_due(where, now)
    made = backups.make(where, Why.DAILY, now)
    assert (made.plants, made.photos, backups.prove(made)) == (3, 1, "")
    assert not backups.is_due(where, now)
    restore_into(made.folder, where.folder, tmp_path / "back", now)
    assert look_through(tmp_path / "back").damage == ()
    file = tmp_path / "all.zip"
    assert care_of_files.backup_folder(where, file, now).photos == 1
    where.folder.rename(tmp_path / "unplugged")
    with pytest.raises(Exception, match="is not there now"):
        backups.make(where, Why.DAILY, now)
    assert not where.folder.exists()


def test_a_report_names_neither_server_nor_user(
    worked: Path, where: OnServer, clock: FixedClock
) -> None:
    carry_over(worked, where, clock)
    text = bug_report.report(where, clock.now())
    assert "server: PostgreSQL 1" in text
    assert "rows of plant: 3" in text
    address = where.address
    for secret in (address.host, address.user, address.password, address.database):
        assert secret not in text


def test_a_backup_is_kept_before_a_server_changes_its_form(
    where: OnServer, clock: FixedClock
) -> None:
    engine = make_server_engine(parsed(where.address.url))
    bring_up(writer_of(engine), "it", clock.now(), MIGRATIONS[:4], create=True)
    engine.dispose()
    Collection.open(where, clock).close()
    (kept,) = backups.kept(where.folder)
    assert (kept.why, kept.form, backups.prove(kept)) == (Why.BEFORE_FORM, 4, "")


def test_commands_work_on_a_server_and_tell_no_password(
    worked: Path,
    where: OnServer,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    url, password = where.address.url, where.address.password
    to_server = ["carry-over", "--to", url, "--photos", str(where.folder)]
    back = tmp_path / "back"
    lines = {
        ("--collection", str(worked), *to_server): 0,
        ("--collection", url, "decide"): 0,
        ("--collection", url, "export", str(tmp_path / "tables")): 0,
        ("--collection", url, "check"): 0,
        ("--collection", url, "check", "--mend"): 2,
        ("--collection", url, "backup"): 0,
        ("--collection", url, "backups", "--prove"): 0,
        ("--collection", url, "restore", "2026-05-20"): 2,
        ("--collection", url, "rescue"): 2,
        ("--collection", url, "report", str(tmp_path / "report.txt")): 0,
        ("--collection", url, "carry-over", "--to", str(back)): 0,
        ("--collection", str(back), "check"): 0,
        ("--collection", "sqlite:///x", "decide"): 2,
        ("--collection", str(back), "--photos", "x", "decide"): 2,
    }
    assert {line: app.main(line) for line in lines} == lines
    said = capsys.readouterr()
    assert password not in said.out + said.err
    assert servers_known.photos_for(where.address) == where.folder
    kept = next((tmp_path / "config").rglob("servers.json"))
    assert password not in kept.read_text()
    assert json.loads(kept.read_text())["servers"][0]["photos"] == str(where.folder)
    if os.name == "posix":
        assert kept.parent.stat().st_mode & 0o077 == 0


def test_another_folder_than_the_photos_lie_in_is_told(
    worked: Path, where: OnServer, tmp_path: Path, clock: FixedClock
) -> None:
    carry_over(worked, where, clock)
    (tmp_path / "elsewhere").mkdir()
    told = {}
    for folder in (where.folder, tmp_path / "elsewhere"):
        opened = Collection.open(OnServer(where.address, folder), clock)
        told[folder.name] = opened.notice
        opened.close()
    assert told["shared"] == ""
    assert "are not in" in told["elsewhere"]
