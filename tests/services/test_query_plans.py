"""Nothing that is asked goes through all rows of a table that grows for good.

SQLite says how it will find what each statement asks (EXPLAIN QUERY PLAN). The files
hold no statistics, so that it says the same of every one: nothing is written once a
collection is sealed, and no plan turns as a collection grows.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import event

from tests.services.test_statement_counts import USES, Desk, laid

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

GROWING = frozenset(
    {
        *("plant", "look", "care", "photo", "reading", "bloom", "action", "change"),
        *("pass_by", "drawn", "shelf_entry", "job_done", "mark", "plant_correction"),
        *("stock", "stock_part", "meter", "forecast", "recipe_use"),
    }
)
"""The tables whose rows grow with plants or years."""

ALL_PLANTS = frozenset(
    {
        *("the day", "the sheet", "the shelf", "a plant", "the calendar"),
        *("the look list", "who blooms when", "the night", "the away sheet"),
        *("jugs to read", "the table of all plants", "the walk", "a day by steps"),
        *("rain on what stands outdoors", "tags of all", "the places", "the recipes"),
        "a clock in doubt",
    }
)
"""Use cases that answer with all plants, or with the jugs that serve them all."""

WHOLE: dict[str, frozenset[str] | None] = {
    "shelf_entry": None,
    "stock": None,
    "recipe_use": None,
    "plant_correction": None,
    "bloom": frozenset({"who blooms when", "the calendar", "the table of all plants"}),
    "photo": frozenset({"the table of all plants", "the bin"}),
    "job_done": frozenset({"the calendar"}),
    "drawn": frozenset({"the shelf"}),
    "change": frozenset({"the bin"}),
    "plant": ALL_PLANTS | {"the bin", "the next tag", "a plant's history"},
    "action": frozenset({"a plant's history"}),
    "meter": frozenset({"all meter readings"}),
}
"""Tables of which the answer is every row; for all use cases, or for those named.

What was counted, the bottles, the recipes' uses and a plant's own fields are a few rows
each, and all of them are meant: what is on hand, and what holds where. All blooms say
who blooms when and which came last; all photos are counted per plant, or held against
the bin. A job long due is closed by its record, however old. A week's use is told from
all that was ever taken. The bin asks the whole history which photos it names. Tags are
told apart in whatever case, a free one is sought among all. One plant's history is
sought through all of it, by pages.
"""


@dataclass(frozen=True)
class Asked:
    """One statement of a use case, with what stood in it."""

    use: str
    text: str
    values: object


def asked_by(desk: Desk) -> Iterator[Asked]:
    for name, use in USES.items():
        yield from _asked(desk, name, use)


def _asked(desk: Desk, name: str, use: Callable[[Desk], object]) -> list[Asked]:
    seen: list[Asked] = []

    def note(*details: object) -> None:
        text, values, many = str(details[2]), details[3], details[5]
        if many and isinstance(values, list):
            values = values[0]
        if text.split(maxsplit=1)[0] in {"SELECT", "UPDATE", "DELETE"}:
            seen.append(Asked(name, text, values))

    engine = desk.made.ledger.store._engine
    event.listen(engine, "before_cursor_execute", note)
    use(desk)
    event.remove(engine, "before_cursor_execute", note)
    return seen


def scans(plan: str, text: str) -> str | None:
    """Give the growing table that a line of a plan goes through, if it does.

    What is searched by an index with nothing held against it is gone through as well,
    but where the index begins with what the largest is asked of.
    """
    found = re.match(r"SCAN (\w+)", plan)
    if found is None:
        found = re.match(r"SEARCH (\w+) USING (?:COVERING )?INDEX ix_\1_(\w+)$", plan)
        largest = re.search(r"max\((?:\w+\.)?(\w+)\)", text)
        if found is None or (largest and found[2].startswith(largest[1])):
            return None
    called = dict(re.findall(r'\b(\w+) AS "?(\w+)"?', text)[::-1])
    tables = {alias: table for table, alias in called.items()}
    table = tables.get(found[1], found[1])
    return table if table in GROWING else None


def is_the_newest(text: str) -> bool:
    """Tell whether rows are read backwards by number, and only so many of them."""
    return bool(re.search(r"FROM (\w+)\s+ORDER BY \1\.id DESC\s+LIMIT", text))


def test_no_use_case_goes_through_all_rows(tmp_path: Path) -> None:
    desk = laid(tmp_path / "c", 2)
    found: dict[str, set[str]] = {}
    used: set[tuple[str, str]] = set()
    asked = list(asked_by(desk))
    try:
        with desk.made.ledger.reading() as session:
            told = session.connection().connection.dbapi_connection
            assert told is not None
            for each in asked:
                rows = told.execute(f"EXPLAIN QUERY PLAN {each.text}", each.values)
                for row in rows.fetchall():
                    table = scans(row[3], each.text)
                    if table is None or is_the_newest(each.text):
                        continue
                    allowed = WHOLE.get(table, frozenset())
                    used.add((table, each.use))
                    if allowed is not None and each.use not in allowed:
                        found.setdefault(f"{each.use}: {row[3]}", set()).add(each.text)
    finally:
        desk.made.close()
    assert len(asked) > 400
    assert found == {}
    needless = {
        (table, use)
        for table, uses in WHOLE.items()
        for use in uses or ()
        if (table, use) not in used
    }
    assert needless == set(), "an exception that nothing needs"


def test_a_largest_that_no_index_begins_with_is_told() -> None:
    text = "SELECT max(look.day) AS max_1 FROM look"
    plan = "SEARCH look USING COVERING INDEX ix_look_plant_id_day"
    assert scans(plan, text) == "look"
    assert scans(f"{plan} (plant_id=?)", text) is None
    assert scans("SEARCH care USING COVERING INDEX ix_care_day", text) is None


def test_no_statistics_are_kept(tmp_path: Path) -> None:
    desk = laid(tmp_path / "c", 1)
    with desk.made.ledger.reading() as session:
        driver = session.connection().connection.dbapi_connection
        assert driver is not None
        names = driver.execute("SELECT name FROM sqlite_master").fetchall()
    desk.made.close()
    assert [name for (name,) in names if name.startswith("sqlite_stat")] == []
