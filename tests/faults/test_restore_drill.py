"""The drill: every kept backup is brought back, and holds what it held, row for row.

F21 and F23. What is compared are digests of all rows of all tables and of all photos,
taken when the backup was made and again from what stands in the collection's folder.
"""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.domain.errors import DamagedError
from growdesk.services import backups
from growdesk.services.backup_values import Why
from growdesk.services.care_of_files import check
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.restoring import restore, restore_into
from growdesk.services.values import PlantDraft
from growdesk.store import switching
from growdesk.store.migrating import bring_up_to_date
from tests.faults import restoring_kit as kit

if TYPE_CHECKING:
    from collections.abc import Callable

OLD = Path(__file__).parents[1] / "data" / "databases"
START = datetime(2026, 1, 5, 12, tzinfo=UTC)
MARKER = "PLANT OF NOWHERE"


def year_of(home: Path, root: Path) -> dict[Path, tuple[str, tuple[str, ...]]]:
    """Live ten weeks; give each kept backup, and what the collection held then."""
    held: dict[Path, tuple[str, tuple[str, ...]]] = {}
    for week in range(10):
        now = START + timedelta(days=7 * week)
        clock = FixedClock(now.date())
        with closing(Collection.open(home, clock, create=True)) as collection:
            draft = PlantDraft(f"W{week}", f"Cattleya hybrid {week}", "cattleya")
            plant_id = collection.plants.add(draft).ids[0]
            if week % 3 == 0:
                picture = root / f"{week}.jpg"
                Image.new("RGB", (32, 24), (20 * week, 90, 60)).save(picture)
                collection.photos.add(plant_id, [picture])
            if week == 7:
                collection.history.undo()
            made = backups.make(home, Why.BY_HAND, now)
            held[made.folder] = kit.state_of(home)
    return held


def earlier_files(home: Path) -> dict[Path, tuple[str, tuple[str, ...]]]:
    """Lay what earlier growdesks kept before a new form; give what each becomes."""
    held: dict[Path, tuple[str, tuple[str, ...]]] = {}
    for number in (1, 2, 3, 4):
        name = f"before-form-{number + 1}-from-{number}-20260{number}01T120000Z.sqlite"
        kept = home / "backups" / name
        shutil.copyfile(OLD / f"schema-{number}.sqlite", kept)
        apart = home.parent / f"form-{number}" / "collection.sqlite"
        apart.parent.mkdir()
        shutil.copyfile(kept, apart)
        bring_up_to_date(apart, kit.NOW)
        held[kept] = (kit.rows_of(apart, but=("migration",)), ())
    return held


def test_every_kept_backup_comes_back_as_it_was(
    tmp_path: Path, told: Callable[[str], None]
) -> None:
    home = tmp_path / "mine"
    kept = year_of(home, tmp_path)
    held = {**kept, **earlier_files(home)}
    photos = 0
    for number, (backup, (rows, names)) in enumerate(held.items()):
        before = kit.state_of(home)
        back = restore(backup, home, kit.NOW + timedelta(hours=number))
        now_there, photos_there = kit.state_of(home)
        if backup in kept:
            assert (now_there, photos_there) == (rows, names)
            photos += len(names)
        else:
            as_brought_up = kit.rows_of(home / "collection.sqlite", but=("migration",))
            assert as_brought_up == rows
        assert back.set_aside is not None
        assert kit.state_of(back.set_aside) == before
        assert not (back.set_aside / "backups").exists()
        assert check(home).problems == ()
    assert {each.folder for each in backups.kept(home)} >= set(held)
    asides = switching.set_asides(home)
    assert len(asides) == len(held)
    told(
        f"F21 drill: {len(held)} kept backups of 5 forms brought back, each the same "
        f"in all rows and {photos} photos; {len(asides)} replaced ones kept whole"
    )


def test_one_with_a_bit_changed_is_refused_and_the_next_comes_back(
    tmp_path: Path, told: Callable[[str], None]
) -> None:
    home = kit.lay(tmp_path)
    before = kit.state_of(home)
    whole = kit.kept_in(home)
    file = whole / "collection.sqlite"
    raw = file.read_bytes()
    tried = 40
    for number in range(tried):
        bad = bytearray(raw)
        bad[number * len(raw) // tried + 7] ^= 1 << number % 8
        file.write_bytes(bad)
        with pytest.raises(DamagedError, match="its records have changed"):
            restore(whole, home, kit.NOW)
    file.write_bytes(raw)
    assert kit.state_of(home) == before
    assert switching.set_asides(home) == ()
    restore(whole, home, kit.NOW)
    assert kit.state_of(home)[0] == kit.rows_of(file)
    told(f"F21 drill: {tried} backups with one bit changed, {tried} refused, 0 changed")


def test_a_photo_gone_from_the_pool_is_taken_from_the_collection(
    tmp_path: Path,
) -> None:
    home = kit.lay(tmp_path)
    (pooled,) = (home / "backups" / "photos").glob("*/*")
    pooled.unlink()
    assert restore(kit.kept_in(home), home, kit.NOW).problems == ()
    assert check(home).problems == ()


def test_a_photo_that_is_nowhere_is_named_and_the_rest_comes_back(
    tmp_path: Path,
) -> None:
    home = kit.lay(tmp_path)
    (pooled,) = (home / "backups" / "photos").glob("*/*")
    for path in (pooled, home / "photos" / pooled.parent.name / pooled.name):
        path.unlink()
        path.write_bytes(b"not the photo")
    back = restore(kit.kept_in(home), home, kit.NOW)
    assert back.problems == (
        "A photo of plant A1 is not in the backup, or damaged in it.",
    )
    assert back.plants == 2


def test_it_is_put_into_a_new_folder_and_the_collection_left_alone(
    tmp_path: Path,
) -> None:
    home = kit.lay(tmp_path)
    before = kit.state_of(home)
    new = tmp_path / "else" / "where"
    back = restore_into("2026-03-28", home, new, kit.NOW)
    assert back.set_aside is None
    assert kit.state_of(new)[0] == kit.rows_of(kit.kept_in(home) / "collection.sqlite")
    assert kit.state_of(home) == before
    assert switching.set_asides(home) == ()


def test_the_history_tells_of_it_and_what_was_undone_is_done_again(
    tmp_path: Path,
) -> None:
    home = kit.lay(tmp_path)
    with closing(Collection.open(home, kit.CLOCK)) as collection:
        undone = collection.history.undo()
        backup = backups.make(home, Why.BY_HAND, kit.NOW + timedelta(days=1)).folder
        held = kit.state_of(home)
    assert undone is not None
    restore(backup, home, kit.NOW + timedelta(days=2))
    assert kit.state_of(home) == held
    with closing(Collection.open(home, kit.CLOCK)) as collection:
        told, before, *_ = collection.history.page().actions
        at = (kit.NOW + timedelta(days=1)).astimezone()
        assert told.title == f"{kit.TOLD}29 March 2026, {at:%H:%M}"
        assert told.is_note
        assert before.undone
        assert collection.history.redo() is not None
        assert collection.history.undo() is not None
        collection.plants.add(PlantDraft("B1", "Cattleya", ""))
        titles = [each.title for each in collection.history.page().actions]
    assert titles[1] == told.title
    assert check(home).problems == ()


def stale(home: Path, mode: str) -> list[Path]:
    """Leave beside a collection what a program that was killed leaves in a mode."""
    database = home / "collection.sqlite"
    scratch = home.parent / f"killed-{mode}"
    scratch.mkdir()
    copied = scratch / "collection.sqlite"
    shutil.copyfile(database, copied)

    def write() -> None:
        writing = sqlite3.connect(copied, isolation_level=None)
        writing.execute(f"PRAGMA journal_mode = {mode}").fetchall()
        writing.execute("PRAGMA cache_size = 1")
        writing.execute("BEGIN IMMEDIATE")
        writing.execute("UPDATE plant SET name = ?", (MARKER,))
        writing.execute("CREATE TABLE more AS SELECT * FROM plant, migration, setting")
        if mode == "WAL":
            writing.execute("COMMIT")
        kit.die("")

    assert kit.killed(write)
    left = []
    for path in scratch.iterdir():
        shutil.copyfile(path, home / path.name)
        if path.name != "collection.sqlite":
            left.append(home / path.name)
    return left


@pytest.mark.parametrize("mode", ["DELETE", "TRUNCATE", "WAL"])
def test_what_a_killed_program_left_beside_it_never_reaches_what_comes_back(
    tmp_path: Path, mode: str, told: Callable[[str], None]
) -> None:
    home = kit.lay(tmp_path)
    kept = kit.kept_in(home)
    wanted = kit.rows_of(kept / "collection.sqlite")
    left = stale(home, mode)
    assert any(path.stat().st_size > 0 for path in left)
    for path in left:  # and beside the backup too
        shutil.copyfile(path, kept / path.name)
    back = restore(kept, home, kit.NOW)
    assert not list(home.glob("collection.sqlite-*"))
    with closing(Collection.open(home, FixedClock(date(2026, 3, 28)))) as collection:
        names = {draft.name for _, draft in collection.plants.all()}
    assert MARKER not in names
    assert kit.rows_of(home / "collection.sqlite") == wanted
    assert back.set_aside is not None
    told(
        f"F23 stale {mode} files beside the collection and the backup: after opening "
        "the content is the backup's, by a digest of all rows"
    )
