"""An open collection: where it lies, what it loads, and whose day it goes by."""

from __future__ import annotations

import shutil
import subprocess
import sys
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import BusyError, DamagedError, StoreError
from growdesk.domain.facts import Verdict
from growdesk.services.clock import FixedClock, SystemClock
from growdesk.services.collection import Collection, default_folder
from growdesk.services.values import PlantDraft
from growdesk.store.schema import LookRow
from growdesk.store.store import FILE_NAME

if TYPE_CHECKING:
    from tests.services.conftest import Bench

ROOT = Path(__file__).parents[2]
KEPT = ROOT / "tests" / "data" / "databases" / "schema-1.sqlite"


def test_loading_the_services_loads_nothing_heavy() -> None:
    heavy = "{'PySide6', 'PIL', 'pint', 'matplotlib', 'numpy', 'scipy'}"
    code = (
        "import sys; import growdesk.services.collection;"
        f" found = {heavy} & set(sys.modules); assert not found, found"
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=ROOT)


JUGS = """
import sys, pathlib
from datetime import date
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
collection = Collection.open_to_read(pathlib.Path(sys.argv[1]), FixedClock(date(*map(
    int, sys.argv[2].split("-")))))
(jug,) = collection.day.view().mix.jugs
assert jug.doses and jug.ec_low_ms_per_cm
found = {"pint", "numpy", "scipy", "matplotlib"} & set(sys.modules)
assert not found, found
"""


@pytest.mark.file
def test_jugs_of_fixed_shares_load_nothing_heavy(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    asked = [sys.executable, "-c", JUGS, str(collection.folder), today.isoformat()]
    subprocess.run(asked, check=True, cwd=ROOT)


def test_the_growers_own_folder_is_named_and_not_made() -> None:
    folder = default_folder()
    assert folder.name == "collection"
    assert folder.is_absolute()
    assert "growdesk" in folder.parts


@pytest.mark.file
def test_a_collection_is_opened_once_and_given_back(folder: Path) -> None:
    with pytest.raises(StoreError, match="no collection"):
        Collection.open(folder)
    first = Collection.open(folder, create=True)
    assert isinstance(first.clock, SystemClock)
    assert first.folder == folder
    assert first.plants is first.plants
    with pytest.raises(BusyError):
        Collection.open(folder)
    first.close()
    Collection.open(folder).close()


@pytest.mark.file
def test_the_whole_folder_can_be_copied(
    collection: Collection, bench: Bench, tmp_path: Path, today: date
) -> None:
    before = collection.day.view()
    collection.close()
    shutil.copytree(collection.folder, tmp_path / "copy")
    copy = Collection.open(tmp_path / "copy", FixedClock(today))
    assert copy.day.view() == before
    assert copy.plants.find("A1") == bench.feed
    copy.close()


@pytest.mark.file
def test_a_collection_of_the_first_schema_still_works(
    folder: Path, today: date
) -> None:
    folder.mkdir()
    shutil.copy(KEPT, folder / FILE_NAME)
    collection = Collection.open(folder, FixedClock(today))
    view = collection.day.view()
    assert {line.tag: line.verdict for line in view.lines} == {
        "A1": Verdict.FEED,
        "A2": Verdict.KEEP_DRY,
        "A3": Verdict.KEEP_DRY,
        "A4": Verdict.LOOK_FIRST,
    }
    assert view.mix.tin == "Green tin"
    assert view.lines[0].done is not None
    assert collection.settings.house().latitude == 48.0
    undone = 0
    while collection.history.undo():
        undone += 1
    assert undone >= 20
    assert collection.plants.all() == ()
    while collection.history.redo():
        undone -= 1
    assert undone == 0
    assert collection.day.view() == view
    collection.close()


def test_a_word_no_one_knows_is_damage_and_says_where(
    collection: Collection, bench: Bench
) -> None:
    with collection.ledger.writing("Damage") as writing:
        writing.update(LookRow, 1, {"root_tips": "sprinting"})
    with pytest.raises(DamagedError, match="sprinting"):
        collection.day.view()
    with pytest.raises(DamagedError):
        collection.looks.start(bench.feed, date(2026, 5, 20))


def test_clocks_tell_the_day_and_the_instant() -> None:
    fixed = FixedClock(date(2026, 2, 28))
    assert fixed.today() == date(2026, 2, 28)
    assert fixed.now() == datetime(2026, 2, 28, 12, tzinfo=UTC)
    system = SystemClock()
    assert abs(datetime.now(tz=UTC) - system.now()) < timedelta(minutes=1)
    assert abs(system.today() - system.now().date()) <= timedelta(days=1)


def test_many_writes_together_are_one_undo(collection: Collection) -> None:
    with collection.ledger.together("12 plants imported"):
        for number in range(12):
            collection.plants.add(PlantDraft(f"P{number}", "", ""))
        assert len(collection.plants.all()) == 12
    assert collection.history.view().undo == "12 plants imported"
    collection.history.undo()
    assert collection.plants.all() == ()
    assert collection.history.view().undo is None
    assert collection.history.undo() is None


@pytest.mark.file
def test_a_collection_can_be_read_while_it_is_open(collection: Collection) -> None:
    collection.plants.add(PlantDraft(tag="A1", name="Cattleya", kind="cattleya"))
    beside = Collection.open_to_read(collection.folder, collection.clock)
    try:
        assert [line.tag for line in beside.day.view().lines] == ["A1"]
        with pytest.raises(StoreError):
            beside.plants.add(PlantDraft(tag="A2", name="Cattleya", kind="cattleya"))
    finally:
        beside.close()
    assert [line.tag for line in collection.day.view().lines] == ["A1"]
    collection.plants.add(PlantDraft(tag="A2", name="Cattleya", kind="cattleya"))


@pytest.mark.file
def test_reading_keeps_nobody_out(folder: Path) -> None:
    Collection.open(folder, create=True).close()
    reader = Collection.open_to_read(folder)
    writer = Collection.open(folder)
    writer.plants.add(PlantDraft(tag="A1", name="Cattleya", kind="cattleya"))
    writer.close()
    assert [line.tag for line in reader.day.view().lines] == ["A1"]
    with pytest.raises(StoreError):
        reader.plants.add(PlantDraft(tag="A2", name="Cattleya", kind="cattleya"))
    reader.close()
    assert not (folder / "collection.lock").read_bytes()


@pytest.mark.file
def test_reading_mends_what_a_stopped_program_left(folder: Path) -> None:
    opened = Collection.open(folder, create=True)
    opened.plants.add(PlantDraft(tag="A1", name="Cattleya", kind="cattleya"))
    opened.close()
    code = (
        "import os, sqlite3, sys;"
        "c = sqlite3.connect(sys.argv[1], isolation_level=None);"
        "c.execute('PRAGMA journal_mode = TRUNCATE');"
        "c.execute('PRAGMA cache_size = 1'); c.execute('BEGIN IMMEDIATE');"
        "c.execute(\"UPDATE plant SET tag = 'B1', note = hex(randomblob(90000))\");"
        "os._exit(0)"
    )
    subprocess.run([sys.executable, "-c", code, str(folder / FILE_NAME)], check=True)
    assert (folder / f"{FILE_NAME}-journal").stat().st_size
    reader = Collection.open_to_read(folder)
    assert [line.tag for line in reader.day.view().lines] == ["A1"]
    reader.close()
