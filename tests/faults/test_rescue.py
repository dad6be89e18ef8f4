"""F8 and rescue: cut files, a lost table of contents, lost pages, and the history."""

from __future__ import annotations

import random
import shutil
import sqlite3
from contextlib import closing
from hashlib import sha256
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import DamagedError, ForeignError, InputError
from growdesk.services.collection import Collection
from growdesk.services.full_check import look_through
from growdesk.services.long_work import StoppedError
from growdesk.services.rescuing import free_name, rescue
from growdesk.store.page_file import Losses, PageFile
from growdesk.store.schema import Base
from tests.faults.damage_bench import lay, rows_of
from tests.faults.test_damage import FILE, NOW, SEED

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

CUTS = 100
PAGE = 4096


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("rescue")
    lay(at / "collection", at)
    return at / "collection"


@pytest.fixture
def harmed(laid: Path, tmp_path: Path) -> Path:
    shutil.copytree(laid, tmp_path / "harmed")
    return tmp_path / "harmed"


def test_pages_are_read_as_sqlite_reads_them(laid: Path) -> None:
    """The reader of pages against SQLite itself, on every row of every table."""
    with (
        closing(PageFile(laid / FILE)) as pages,
        closing(sqlite3.connect(laid / FILE)) as connection,
    ):
        rows = 0
        for name in Base.metadata.tables:
            root = connection.execute(
                "SELECT rootpage FROM sqlite_master WHERE name = ?", (name,)
            ).fetchone()[0]
            want = {
                row[0]: row[1:]
                for row in connection.execute(f"SELECT * FROM {name}")  # noqa: S608 -- a table of ours
            }
            losses = Losses()
            got = {
                cell.key: cell.values[1:]
                for cell in pages.rows(root, lambda _cell: True, losses)
            }
            assert got == want
            assert not losses
            rows += len(want)
    assert rows > 300


def test_f8_a_cut_file_is_rescued_as_far_as_it_goes(
    laid: Path, harmed: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    chance = random.Random(SEED)  # noqa: S311 -- a test
    clean, want = (laid / FILE).read_bytes(), rows_of(laid / FILE)
    into = tmp_path / "saved"
    saved = nothing = 0
    for _ in range(CUTS):
        data = clean[: chance.randrange(len(clean))]
        (harmed / FILE).write_bytes(data)
        with pytest.raises(DamagedError):
            Collection.open(harmed)
        try:
            rescue(harmed, into, NOW)
        except DamagedError:
            nothing += 1
            continue
        assert (harmed / FILE).read_bytes() == data
        got = rows_of(into / FILE)
        saved += sum(got.get(key) == row for key, row in want.items())
        shutil.rmtree(into)
    told(
        f"F8 cut files: {CUTS} (seed {SEED}), {CUTS} noticed on open, {CUTS - nothing}"
        f" rescued, {nothing} with nothing left; rows saved {saved} of"
        f" {CUTS * len(want)} that the whole file had, 0 tracebacks"
    )
    assert saved


def test_rows_of_a_lost_page_come_back_from_the_history(
    laid: Path, harmed: Path, tmp_path: Path
) -> None:
    want = rows_of(laid / FILE)
    page = leaf_of(harmed / FILE, "look")
    overwrite(harmed / FILE, page, bytes(PAGE))
    made = rescue(harmed, tmp_path / "saved", NOW)
    assert rows_of(tmp_path / "saved" / FILE) == want
    (looks,) = (each for each in made.saved if each.table == "look")
    assert looks.brought_back > 5
    assert looks.lost == 0
    assert any("look: " in line and "from the history" in line for line in made.lines)


def test_rows_are_found_again_without_the_table_of_contents(
    laid: Path, harmed: Path, tmp_path: Path
) -> None:
    want = rows_of(laid / FILE)
    data = bytearray((harmed / FILE).read_bytes())
    data[100:PAGE] = bytes(PAGE - 100)
    (harmed / FILE).write_bytes(data)
    rescue(harmed, tmp_path / "saved", NOW)
    got = rows_of(tmp_path / "saved" / FILE)
    assert sum(got.get(key) == row for key, row in want.items()) == len(want)


def test_what_neither_page_nor_history_has_is_told_by_plant_and_days(
    harmed: Path, tmp_path: Path
) -> None:
    with closing(sqlite3.connect(harmed / FILE)) as connection:
        connection.execute("DELETE FROM change")
        connection.execute("DELETE FROM action")
        connection.commit()
    page = leaf_of(harmed / FILE, "look")
    overwrite(harmed / FILE, page, bytes(PAGE))
    made = rescue(harmed, tmp_path / "saved", NOW)
    (looks,) = (each for each in made.saved if each.table == "look")
    assert looks.lost > 5
    assert any(
        line.startswith("Plant A") and "could not be read." in line
        for line in made.lines
    )
    assert not look_through(tmp_path / "saved").damage


def test_a_lost_plant_keeps_its_looks_under_its_tag(
    harmed: Path, tmp_path: Path
) -> None:
    with closing(sqlite3.connect(harmed / FILE)) as connection:
        connection.execute("PRAGMA foreign_keys = OFF")
        connection.execute("DELETE FROM change")
        connection.execute("DELETE FROM action")
        connection.execute("DELETE FROM plant WHERE id = 2")
        connection.commit()
    made = rescue(harmed, tmp_path / "saved", NOW)
    with closing(sqlite3.connect(tmp_path / "saved" / FILE)) as connection:
        (tag,) = connection.execute("SELECT tag FROM plant WHERE id = 2").fetchone()
        looks = connection.execute("SELECT count(*) FROM look WHERE plant_id = 2")
        assert looks.fetchone()[0] > 5
    assert tag == "rescued-2"
    assert any(line.startswith("Plant rescued-2: its own entry") for line in made.lines)


def test_a_value_read_in_part_is_the_histories_or_not_recorded(
    harmed: Path, tmp_path: Path
) -> None:
    with closing(sqlite3.connect(harmed / FILE)) as connection:
        connection.execute(
            "UPDATE plant SET note = CAST(x'41ff42' AS TEXT) WHERE id = 1"
        )
        connection.execute("UPDATE look SET root_tips = 'odd' WHERE id = 1")
        connection.commit()
    made = rescue(harmed, tmp_path / "saved", NOW)
    assert sum("as the history has it" in line for line in made.lines) == 2
    assert not look_through(tmp_path / "saved").damage


def test_nothing_is_written_where_something_is_and_a_stop_leaves_nothing(
    harmed: Path, tmp_path: Path
) -> None:
    digest = sha256((harmed / FILE).read_bytes()).hexdigest()
    with pytest.raises(InputError, match="is there already"):
        rescue(harmed, harmed, NOW)
    with pytest.raises(InputError, match="lies inside"):
        rescue(harmed, harmed / "in", NOW)
    before = sorted(tmp_path.iterdir())

    def stop(_done: int, _of: int) -> None:
        raise StoppedError("Stopped.")

    with pytest.raises(StoppedError):
        rescue(harmed, tmp_path / "saved", NOW, stop)
    assert sorted(tmp_path.iterdir()) == before
    assert free_name(harmed).name == "harmed-rescued"
    assert sha256((harmed / FILE).read_bytes()).hexdigest() == digest


def test_the_history_of_the_new_one_tells_where_it_is_from(
    harmed: Path, tmp_path: Path
) -> None:
    rescue(harmed, tmp_path / "saved", NOW)
    with closing(Collection.open(tmp_path / "saved")) as collection:
        told = collection.history.page().actions[0]
        assert told.title == f"Rescued out of the damaged collection in {harmed}"
        assert told.is_note
        assert collection.history.view().undo
    assert look_through(tmp_path / "saved").damage == ()


def leaf_of(file: Path, table: str) -> int:
    """Give a page that holds rows of a table, below its root."""
    with closing(sqlite3.connect(file)) as connection:
        root = connection.execute(
            "SELECT rootpage FROM sqlite_master WHERE name = ?", (table,)
        ).fetchone()[0]
    data = file.read_bytes()
    page = data[(root - 1) * PAGE : root * PAGE]
    assert page[0] == 0x05
    at = int.from_bytes(page[12:14], "big")
    return int.from_bytes(page[at : at + 4], "big")


def overwrite(file: Path, page: int, content: bytes) -> None:
    data = bytearray(file.read_bytes())
    data[(page - 1) * PAGE : page * PAGE] = content
    file.write_bytes(data)


def test_a_flipped_bit_of_the_first_hundred_bytes_is_damage_and_never_foreign(
    laid: Path, harmed: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    """The magic and the application number, bit by bit; F9's foreign files stay so."""
    clean = (laid / FILE).read_bytes()
    bits = [8 * at + bit for at in [*range(16), *range(68, 72)] for bit in range(8)]
    (harmed / "collection.seal").unlink()
    for bit in bits:
        data = bytearray(clean[:PAGE])
        data[bit // 8] ^= 1 << bit % 8
        (harmed / FILE).write_bytes(bytes(data) + clean[PAGE:])
        with pytest.raises(DamagedError, match="its beginning is not as"):
            Collection.open(harmed)
    rescue(harmed, tmp_path / "saved", NOW)
    assert rows_of(tmp_path / "saved" / FILE) == rows_of(laid / FILE)
    shutil.rmtree(harmed / "photos")
    with pytest.raises(ForeignError):
        Collection.open(harmed)
    foreign = b"SQLite format 3\x00" + bytes(8000)
    shutil.copytree(laid / "photos", harmed / "photos")
    (harmed / FILE).write_bytes(foreign)
    with pytest.raises(ForeignError):
        Collection.open(harmed)
    assert (harmed / FILE).read_bytes() == foreign
    told(
        f"F9 beginning: {len(bits)} bits of name and number, {len(bits)} told as damage"
    )
