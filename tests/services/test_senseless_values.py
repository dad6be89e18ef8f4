"""F7: a senseless value in every column: told as damage, or harmless, never our fault.

Each column of each table gets in turn what growdesk could not have written: text where
a number or a day belongs, a word of no list, a number where text belongs, a row that is
not there. Then everything that reads a collection is asked.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections import Counter
from contextlib import closing
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.domain.errors import DamagedError, GrowdeskError
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.transfer import export
from growdesk.services.values_behind import behind
from growdesk.store.schema import RECORDED
from tests.conftest import TODAY
from tests.services.test_all_is_undone import acts

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from sqlalchemy import Column

    from tests.services.conftest import Bench

pytestmark = pytest.mark.file

FILE = "collection.sqlite"
ALWAYS = ("plant", "export")
TAKES = ("remove", "restore", "unmark", "empty", "put_back", "delete")
CLOCK = FixedClock(TODAY)
ASKED: dict[str, Callable[[Collection, Path], object]] = {
    "decide": lambda c, _to: c.day.facts(TODAY),
    "day": lambda c, _to: c.day.view(TODAY),
    "plant": lambda c, _to: [c.day.detail(n, TODAY) for n, _ in c.plants.all()[:1]],
    "looks": lambda c, _to: c.day.worth(TODAY),
    "calendar": lambda c, _to: c.calendar.jobs(last=TODAY + timedelta(days=60)),
    "sheet": lambda c, _to: c.sheet.week(TODAY),
    "tins": lambda c, _to: c.mixing.tins(),
    "waters": lambda c, _to: c.waters.all(),
    "recipes": lambda c, _to: c.recipes.all(),
    "roster": lambda c, _to: c.roster.read(TODAY),
    "export": export,
}


def wrong_for(column: Column[Any]) -> object:
    """Give what growdesk could not have written into a column."""
    if column.foreign_keys:
        return 999_999
    return "2026-13-45" if column.type.python_type is date else "odd {"


def cases() -> Iterator[tuple[str, str, object]]:
    for name, row_class in RECORDED.items():
        for column in row_class.metadata.tables[name].c:
            if column.name != "id":
                yield name, column.name, wrong_for(column)


@pytest.fixture
def laid(collection: Collection, bench: Bench, picture: Callable[..., Path]) -> Path:
    """Give a collection with rows in every table."""
    for name, act in acts(collection, bench, picture):
        if not any(word in name for word in TAKES):
            act()
    collection.close()
    with closing(sqlite3.connect(collection.folder / FILE)) as connection:
        connection.execute("PRAGMA foreign_keys = OFF")
        for name, row_class in RECORDED.items():
            if connection.execute(f"SELECT max(id) FROM {name}").fetchone()[0] is None:  # noqa: S608 -- a table of ours
                columns = row_class.metadata.tables[name].c
                values = [made_up(each) for each in columns]
                marks = ",".join("?" * len(values))
                connection.execute(f"INSERT INTO {name} VALUES ({marks})", values)  # noqa: S608 -- ditto
        connection.commit()
    return collection.folder


def made_up(column: Column[Any]) -> object:
    """Give a value for a row of a table that the services left empty."""
    if column.primary_key or column.foreign_keys:
        return 1
    kind = column.type.python_type
    if column.nullable:
        return None
    return TODAY.isoformat() if kind is date else "x" if kind is str else 1


def spoilt(file: Path, table: str, column: str, value: object) -> bool:
    """Put a value into the rows of a column; tell whether there is any row."""
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        connection.execute("PRAGMA foreign_keys = OFF")
        done = connection.execute(
            f"UPDATE OR IGNORE {table} SET {column} = ?"  # noqa: S608 -- a table of ours
            f" WHERE id = (SELECT max(id) FROM {table})",
            (value,),
        )
        connection.commit()
        return done.rowcount > 0


def outcome(
    collection: Collection, ask: Callable[[Collection, Path], object], to: Path
) -> str:
    """Say how a question ends, as the window and the commands would tell it."""
    try:
        ask(collection, to)
    except GrowdeskError as error:
        return "damaged" if isinstance(error, DamagedError) else f"{error.line()}"
    except Exception as error:  # noqa: BLE001 -- this is what is counted
        found = behind(collection.ledger)
        return "damaged behind" if found is not None else f"fault: {error!r}"
    return "read"


def test_f7_a_senseless_value_is_damage_and_never_a_fault_of_ours(
    laid: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    counted: Counter[str] = Counter()
    wrong: list[object] = []
    clean, empty = (laid / FILE).read_bytes(), set()
    put = 0
    for table, column, value in cases():
        (laid / "collection.seal").unlink(missing_ok=True)
        (laid / FILE).write_bytes(clean)
        if not spoilt(laid / FILE, table, column, value):
            empty.add(table)
            continue
        put += 1
        try:
            opened = Collection.open_to_read(laid, CLOCK)
        except DamagedError:
            counted["damaged"] += 1
            continue
        with closing(opened):
            for name in asked(put):
                how = outcome(opened, ASKED[name], tmp_path / "out")
                shutil.rmtree(tmp_path / "out", ignore_errors=True)
                counted[how] += 1
                if how not in {"read", "damaged", "damaged behind"}:
                    wrong.append((table, column, value, name, how))
    told(
        f"F7 values: {put} columns, {counted.total()} questions, {counted['read']}"
        f" answered, {counted['damaged']} told as damage at once and"
        f" {counted['damaged behind']} after a look at the values, {len(wrong)} faults"
    )
    assert not wrong
    assert not empty
    assert put > 200
    assert counted["damaged behind"] > 50


def asked(turn: int) -> Iterator[str]:
    """Give what reads most, and two of the others in turn; all of them by hand."""
    yield from ALWAYS
    others = sorted(ASKED.keys() - set(ALWAYS))
    yield from (others[(2 * turn + more) % len(others)] for more in range(2))
