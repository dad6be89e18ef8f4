"""What a switch of two collections leaves at each point, and how it is mended."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import BusyError
from growdesk.store import switching
from growdesk.store.lock import FolderLock

if TYPE_CHECKING:
    from pathlib import Path

NOW = datetime(2026, 3, 28, 10, 15, 30, tzinfo=UTC)


def collection(folder: Path, content: str) -> Path:
    folder.mkdir(parents=True)
    (folder / "collection.sqlite").write_text(content)
    return folder


def content(folder: Path) -> str:
    return (folder / "collection.sqlite").read_text()


@pytest.fixture
def home(tmp_path: Path) -> Path:
    made = collection(tmp_path / "place" / "mine", "old")
    (made / "backups" / "photos" / "ab").mkdir(parents=True)
    (made / "backups" / "photos" / "ab" / "abc.jpg").write_text("photo")
    (made / "backups" / "2026-03-01-120000-daily").mkdir()
    return made


def passing(home: Path, aside: str | None, *, new: bool = True) -> Path:
    """Lay what a restore that was killed leaves, with its plan or without."""
    made = home.parent / f".{home.name}-restoring-left"
    made.mkdir()
    if new:
        collection(made / "unpacked", "new")
    if aside is not None:
        (made / "switch.json").write_text(json.dumps({"aside": aside}))
    return made


ASIDE = "mine-before-restore-2026-03-28-101530"


def test_a_switch_sets_aside_moves_backups_and_leaves_nothing(home: Path) -> None:
    with switching.passing(home) as new:
        (new / "collection.sqlite").write_text("new")
        done = switching.switch(new, home, NOW)
    assert content(home) == "new"
    assert done.aside is not None
    assert content(done.aside) == "old"
    assert (home / "backups" / "photos" / "ab" / "abc.jpg").read_text() == "photo"
    assert not (done.aside / "backups").exists()
    assert sorted(p.name for p in home.parent.iterdir()) == ["mine", done.aside.name]
    assert [each.folder for each in switching.set_asides(home)] == [done.aside]


def test_backups_that_are_there_already_are_never_written_over(home: Path) -> None:
    with switching.passing(home) as new:
        (new / "collection.sqlite").write_text("new")
        mine = new / "backups" / "photos" / "ab" / "abc.jpg"
        mine.parent.mkdir(parents=True)
        mine.write_text("mine")
        (new / "backups" / "2026-03-02-120000-daily").mkdir()
        done = switching.switch(new, home, NOW)
    assert (home / "backups" / "photos" / "ab" / "abc.jpg").read_text() == "mine"
    names = {path.name for path in (home / "backups").glob("*-daily")}
    assert names == {"2026-03-01-120000-daily", "2026-03-02-120000-daily"}
    assert done.aside is not None
    left = done.aside / "backups" / "photos" / "ab" / "abc.jpg"
    assert left.read_text() == "photo"


def test_killed_before_the_first_rename_the_old_one_stays(home: Path) -> None:
    left = passing(home, ASIDE)
    assert "as it was before" in switching.mend(home)
    assert content(home) == "old"
    assert not left.exists()


def test_killed_between_the_renames_the_new_one_is_put_in(home: Path) -> None:
    left = passing(home, ASIDE)
    home.rename(home.with_name(ASIDE))
    said = switching.mend(home)
    assert "it is finished now" in said
    assert ASIDE in said
    assert content(home) == "new"
    assert content(home.with_name(ASIDE)) == "old"
    assert (home / "backups" / "photos" / "ab" / "abc.jpg").exists()
    assert not left.exists()
    assert switching.mend(home) == ""


def test_killed_after_the_renames_the_backups_still_move(home: Path) -> None:
    passing(home, ASIDE, new=False)
    home.rename(home.with_name(ASIDE))
    collection(home, "new")
    assert "it is finished now" in switching.mend(home)
    assert (home / "backups" / "2026-03-01-120000-daily").is_dir()


def test_without_a_new_one_the_old_one_gets_its_name_again(home: Path) -> None:
    passing(home, ASIDE, new=False)
    home.rename(home.with_name(ASIDE))
    assert "as it was before" in switching.mend(home)
    assert content(home) == "old"


def test_without_a_plan_the_newest_set_aside_is_put_back(home: Path) -> None:
    collection(home.with_name("mine-before-restore-2026-03-27-101530"), "older")
    home.rename(home.with_name(ASIDE))
    passing(home, None)
    assert "2026-03-28 stands there again" in switching.mend(home)
    assert content(home) == "old"


@pytest.mark.parametrize(
    "plan", ["", "{", "[]", '{"aside": 7}', '{"aside": "../elsewhere"}', "[" * 9000]
)
def test_a_plan_that_says_nothing_moves_nothing(home: Path, plan: str) -> None:
    left = passing(home, None)
    (left / "switch.json").write_text(plan)
    elsewhere = collection(home.parent.parent / "elsewhere", "theirs")
    switching.mend(home)
    assert content(home) == "old"
    assert content(elsewhere) == "theirs"
    assert not left.exists()


def test_one_that_runs_is_left_alone_and_keeps_others_out(home: Path) -> None:
    left = passing(home, ASIDE)
    lock = FolderLock(left)
    assert switching.mend(home) == ""
    assert left.exists()
    home.rename(home.with_name(ASIDE))
    with pytest.raises(BusyError, match="being brought back"):
        switching.mend(home)
    lock.release()


def test_a_backup_that_is_being_made_keeps_a_switch_out(home: Path) -> None:
    lock = FolderLock(home / "backups")
    with switching.passing(home) as new:
        (new / "collection.sqlite").write_text("new")
        with pytest.raises(BusyError, match="is just being made"):
            switching.switch(new, home, NOW)
    lock.release()
    assert content(home) == "old"
    FolderLock(home).release()
