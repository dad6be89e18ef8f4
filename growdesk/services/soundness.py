"""What is wrong with a collection's database, row by row, in plain lines.

SQLite vouches for pages and keys only; a word or a day that growdesk cannot read
would still stop every other command. So each value is looked at here as reading it
would, and told with its plant and field. Nothing is changed.
"""

from __future__ import annotations

import re
from datetime import date
from functools import lru_cache
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.facts_house import read_rule, rule_names
from growdesk.domain.json_text import decoded
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.services import shelf_soundness
from growdesk.services.entry_words import ENTRIES, field_word, large
from growdesk.services.shelf_soundness import shelf_problems
from growdesk.store.mapping import wrong_words
from growdesk.store.schema import RECORDED

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable, Iterator, Mapping

    from sqlalchemy import Table

_ROWS_NAMED = 5
_OTHER_WORDS = {"saved_view": ("what",), "job_done": ("what",)}
"""Columns that share their name with a column of words, and hold something else."""
_SHOWN_CHARACTERS = 60
_OF_INDEX = re.compile(r"\bindex\b")
UNREADABLE = mark("A part of the file is damaged and cannot be read.")
ONLY_ORDER = mark(
    "What the file finds its entries by is damaged; the entries themselves can be read."
)
_LOST = re.compile("[\\ud800-\\udfff]")
"""What bytes that are no text become where they are read as text all the same."""


def file_problems(connection: sqlite3.Connection) -> list[str]:
    """Give what SQLite itself finds: damaged pages, rows that point at nothing."""
    return [*page_problems(connection), *orphan_problems(connection)]


def page_problems(connection: sqlite3.Connection) -> list[str]:
    """Say what SQLite finds: pages it cannot read, and indexes that disagree."""
    checked = connection.execute(f"PRAGMA integrity_check({_ROWS_NAMED})").fetchall()
    wrong = [str(row[0]) for row in checked if row[0] != "ok"]
    if not wrong:
        return []
    if all(_OF_INDEX.search(each) for each in wrong):
        return [tr(ONLY_ORDER)]
    return [tr(UNREADABLE)]


def orphan_problems(connection: sqlite3.Connection) -> list[str]:
    """Give rows that point at one that is not there."""
    orphans = connection.execute("PRAGMA foreign_key_check").fetchall()
    return [
        tr(
            "{entry} {number} belongs to something that is not there any more: {owner}."
        ).format(entry=large(_called(table)), number=row_id, owner=_called(parent))
        for table, row_id, parent, _ in orphans[:_ROWS_NAMED]
    ]


def _called(table: str) -> str:
    return ENTRIES[table] if table in ENTRIES else tr("step of the history")


class Found(Struct, frozen=True):
    """One row, and the problem of a field of it; a sound row comes once, without."""

    table: str
    row: dict[str, Any]
    problem: str = ""

    @property
    def field(self) -> str:
        """Give the column that the problem is about."""
        return self.problem.partition(":")[0]

    @property
    def told(self) -> str:
        """Give the problem with its field as a grower calls it."""
        key, colon, rest = self.problem.partition(":")
        return f"{field_word(key)}{colon}{rest}" if key in self.row else self.problem


def row_problems(connection: sqlite3.Connection) -> list[str]:
    """Give a line for each value that growdesk could not read back."""
    return [each.problem for each in found_in_rows(connection) if each.problem]


def found_in_rows(connection: sqlite3.Connection) -> Iterator[Found]:
    """Give every row once, or once for each value of it that cannot be read back."""
    for name in RECORDED:
        for row in _rows(connection, name):
            lines = problems_of(name, row)
            yield from (Found(name, row, line) for line in lines or [""])


def problems_of(name: str, row: dict[str, Any]) -> list[str]:
    """Give a line for each value of a row, as SQLite holds it, that cannot be read."""
    table: Table = RECORDED[name].metadata.tables[name]
    return [
        *_wrong_types(table, row),
        *_wrong_words(name, row),
        *_wrong_rule(row),
        *shelf_problems(name, row),
    ]


def value_problems(table: str, row: Mapping[str, Any]) -> list[str]:
    """Give a line for each value of one row, read before, that cannot be meant."""
    plain = {
        key: value.isoformat() if isinstance(value, date) else value
        for key, value in row.items()
    }
    return [
        *_wrong_words(table, plain),
        *_wrong_rule(plain),
        *shelf_problems(table, plain),
    ]


def _rows(connection: sqlite3.Connection, name: str) -> Iterator[dict[str, Any]]:
    cursor = connection.execute(f"SELECT * FROM {name}")  # noqa: S608 -- a table of ours
    columns = [column[0] for column in cursor.description]
    for values in cursor:
        yield dict(zip(columns, values, strict=True))


@lru_cache(128)
def _kinds(table: Table) -> dict[str, type]:
    return {column.name: column.type.python_type for column in table.c}


def _wrong_types(table: Table, row: dict[str, Any]) -> Iterator[str]:
    kinds = _kinds(table)
    for field, value in row.items():
        if value is None or field not in kinds:
            continue
        kind = kinds[field]
        if not _READABLE[kind](value):
            yield tr("{field}: {shown} is no {nouns}.").format(
                field=field, shown=_shown(value), nouns=_NOUNS[kind]
            )


def _wrong_words(name: str, row: dict[str, Any]) -> Iterator[str]:
    own = {*shelf_soundness.WORDS.get(name, {}), *_OTHER_WORDS.get(name, ())}
    texts = {
        key: value
        for key, value in row.items()
        if isinstance(value, str) and key not in own
    }
    for field, text, words in wrong_words(SimpleNamespace(**texts)):
        yield tr("{field}: {text} is none of {list}.").format(
            field=field, text=_shown(text), list=", ".join(words)
        )


def _wrong_rule(row: dict[str, Any]) -> Iterator[str]:
    """Tell a setting that is no JSON, or a house rule that cannot be meant."""
    if "key" not in row or not isinstance(row["value"], str):
        return
    try:
        value = decoded(row["value"])
        if row["key"] in rule_names() and value is not None:
            read_rule(row["key"], value)
    except InputError as error:
        yield f"value: {_shown(row['value'])} {error.problem}."
    except ValueError:
        yield tr("{field}: {shown} is no JSON.").format(
            field="value", shown=_shown(row["value"])
        )


def _is_text(value: object) -> bool:
    """Tell whether it is text, of signs that can be written down again."""
    return isinstance(value, str) and (value.isascii() or not _LOST.search(value))


def _is_day(value: object) -> bool:
    try:
        date.fromisoformat(value)  # type: ignore[arg-type]
    except (TypeError, ValueError):
        return False
    return True


_READABLE: dict[type, Callable[[object], bool]] = {
    str: _is_text,
    int: lambda value: isinstance(value, int),
    float: lambda value: isinstance(value, int | float),
    bool: lambda value: value in (0, 1),
    date: _is_day,
}
_NOUNS: Phrases[type] = Phrases(
    {
        str: "text",
        int: "whole number",
        float: "number",
        bool: "yes or no",
        date: "day",
    }
)


def _shown(value: object) -> str:
    text = repr(value)
    return text if len(text) <= _SHOWN_CHARACTERS else f"{text[:_SHOWN_CHARACTERS]}…"
