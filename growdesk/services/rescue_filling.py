"""Fills a rescued collection's tables with what was read, and sees to what hangs on it.

What points at a lost plant or place keeps it as a stand-in; what points at another lost
entry is cut loose from it, or is lost with it.
"""

from __future__ import annotations

import sqlite3
from collections import Counter
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from growdesk.domain.speech import tr
from growdesk.services import rescue_history
from growdesk.services.entry_words import ENTRIES
from growdesk.services.rescue_rows import Became, Known, Note, decided
from growdesk.services.rescue_values import Saved
from growdesk.store.accounts import Told, accounts
from growdesk.store.history_proof import prove
from growdesk.store.schema import RECORDED, Base
from growdesk.store.witness import rows_by_id

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.services.long_work import Step
    from growdesk.services.rescue_rows import Row
    from growdesk.store.salvage import Salvaged

_BY_ROW = "CREATE INDEX IF NOT EXISTS by_row ON change (table_name, row_id, id)"
_STAND_INS = {"plant": "tag", "place": "name"}
_ORDER = [table.name for table in Base.metadata.sorted_tables if table.name in RECORDED]


class Filling:
    """Fills the new collection's tables, row by row."""

    def __init__(
        self,
        read: sqlite3.Connection,
        into: sqlite3.Connection,
        found: Salvaged,
        step: Step,
    ) -> None:
        self._read = read
        self._into = into
        self._found = found
        self._step = step
        self._sure = rescue_history.surely(read, found)
        self._kept: Counter[str] = Counter()
        self._known_columns: dict[str, set[str]] = {}
        self.notes: list[Note] = []

    def all(self) -> None:
        """Fill all tables, then see to what points at nothing."""
        damaged = self._damaged()
        names = [name for name in _ORDER if name in self._found.read]
        for number, name in enumerate(names):
            done: set[int] = set()
            for lot in self._told(name, damaged):
                self._step(number, len(names))
                done |= self._of_history(name, lot)
            self._step(number, len(names))
            self._of_index(name, done)
            self._of_table(name, done)
        self._mend_references()

    def saved(self) -> list[Saved]:
        """Give what became of each sort of entry."""
        back, lost = (
            Counter(note.table for note in self.notes if note.became is became)
            for became in (Became.BROUGHT_BACK, Became.LOST)
        )
        return [
            Saved(name, ENTRIES[name], self._kept[name], back[name], lost[name])
            for name in _ORDER
            if self._kept[name] or back[name] or lost[name]
        ]

    def _damaged(self) -> set[int] | None:
        """Give the actions that cannot be believed; none where nothing can be."""
        try:
            self._read.execute(_BY_ROW)
            return prove(self._read, self._step).damaged
        except (sqlite3.DatabaseError, TypeError):
            return None

    def _told(self, name: str, damaged: set[int] | None) -> Iterator[list[Told]]:
        """Give in lots what the history says of a table, as far as it can be read."""
        if damaged is None:
            return
        with suppress(sqlite3.DatabaseError, TypeError):
            for _, lot in accounts(self._read, damaged, name):
                yield lot

    def _of_history(self, name: str, told: Sequence[Told]) -> set[int]:
        done: set[int] = set()
        loses = bool(self._found.losses.get(name))
        missing = self._found.missing.get(name, {})
        rows = rows_by_id(self._read, name, [each.row_id for each in told])
        for each in told:
            row = rows.get(each.row_id)
            is_sure = self._sure(each)
            if row is None and not (is_sure or loses or each.row_id in missing):
                continue
            self._put(self._known(name, each.row_id, row, each, is_sure=is_sure))
            done.add(each.row_id)
        return done

    def _of_index(self, name: str, done: set[int]) -> None:
        for row_id in self._found.missing.get(name, {}).keys() - done:
            self._put(self._known(name, row_id, None, None))
            done.add(row_id)

    def _of_table(self, name: str, done: set[int]) -> None:
        cursor = self._read.execute(f"SELECT * FROM {name} ORDER BY id")  # noqa: S608 -- a table of ours
        columns = [column[0] for column in cursor.description]
        for values in cursor:
            if values[0] in done:
                continue
            row = dict(zip(columns, values, strict=True))
            self._put(self._known(name, values[0], row, None))

    def _known(
        self,
        name: str,
        row_id: int,
        row: Row | None,
        told: Told | None,
        *,
        is_sure: bool = False,
    ) -> Known:
        key = (name, row_id)
        return Known(
            RECORDED[name].metadata.tables[name],
            row_id,
            row,
            told,
            is_sure,
            frozenset(self._found.unsure.get(key, ())),
            self._found.missing.get(name, {}).get(row_id, {}),
            key in self._found.strays,
        )

    def _put(self, known: Known) -> None:
        values, notes = decided(known)
        if values is not None:
            notes = self._insert(known.table.name, values, notes)
        self.notes.extend(notes)

    def _insert(self, name: str, values: Row, notes: list[Note]) -> list[Note]:
        """Write a row; where another has its place, give it a free name or lose it."""
        columns = self._columns(name)
        given = {key: value for key, value in values.items() if key in columns}
        statement = (
            f"INSERT INTO {name} ({','.join(given)})"  # noqa: S608 -- tables and columns of ours
            f" VALUES ({','.join('?' * len(given))})"
        )
        is_back = any(note.became is Became.BROUGHT_BACK for note in notes)
        naming = _STAND_INS.get(name, "")
        for number in range(2, 12):
            try:
                self._into.execute(statement, tuple(given.values()))
            except sqlite3.IntegrityError:
                if not naming:
                    break
                stood = values[naming]
                given[naming] = f"{stood} ({number})"
                continue
            except (sqlite3.DataError, sqlite3.InterfaceError, OverflowError):
                break
            if naming and given[naming] != values[naming]:
                renamed = Became.RENAMED, name, values, naming, values[naming]
                notes = [*notes, Note(*renamed, now=given[naming])]
            self._kept[name] += not is_back
            return notes
        return [Note(Became.LOST, name, values)]

    def _columns(self, name: str) -> set[str]:
        if name not in self._known_columns:
            info = self._into.execute(f"PRAGMA table_info({name})")
            self._known_columns[name] = {row[1] for row in info}
        return self._known_columns[name]

    # -- what points at nothing -----------------------------------------------------

    def _mend_references(self) -> None:
        """Cut loose what points at nothing, or give it a stand-in, till all is well."""
        while broken := self._into.execute("PRAGMA foreign_key_check").fetchall():
            for table, row_id, parent, number in broken:
                self._mend_reference(table, row_id, parent, number)

    def _mend_reference(
        self, table: str, row_id: int, parent: str, number: int
    ) -> None:
        if table not in RECORDED:
            self._into.execute(f"DELETE FROM {table} WHERE id = ?", (row_id,))  # noqa: S608 -- ditto
            return
        row = rows_by_id(self._into, table, [row_id]).get(row_id)
        if row is None:
            return
        keys = self._into.execute(f"PRAGMA foreign_key_list({table})").fetchall()
        column = next(key[3] for key in keys if key[0] == number)
        if self._is_there(parent, row[column]):
            return  # one before it has brought a stand-in
        if parent in _STAND_INS and self._stand_in(parent, row[column]):
            return
        if RECORDED[table].metadata.tables[table].c[column].nullable:
            self._into.execute(
                f"UPDATE {table} SET {column} = NULL WHERE id = ?",  # noqa: S608 -- ditto
                (row_id,),
            )
            self.notes.append(Note(Became.CUT_LOOSE, table, row, column))
            return
        self._into.execute(f"DELETE FROM {table} WHERE id = ?", (row_id,))  # noqa: S608 -- ditto
        self._kept[table] -= 1
        self.notes.append(Note(Became.LOST, table, row))

    def _is_there(self, name: str, row_id: object) -> bool:
        query = f"SELECT 1 FROM {name} WHERE id = ?"  # noqa: S608 -- ditto
        return self._into.execute(query, (row_id,)).fetchone() is not None

    def _stand_in(self, name: str, row_id: object) -> bool:
        """Keep what belongs to a lost plant or place under a name of ours."""
        if not isinstance(row_id, int) or row_id <= 0:
            return False
        known = self._found.missing.get(name, {}).get(row_id, {})
        told = known.get(_STAND_INS[name])
        called = told if isinstance(told, str) and told else f"rescued-{row_id}"
        values: dict[str, Any] = {
            column.name: default
            for column in RECORDED[name].metadata.tables[name].c
            if (default := getattr(column.default, "arg", None)) is not None
        }
        values |= {"id": row_id, "name": called, "kind": ""}
        if name == "plant":
            values |= {"tag": called, "name": "", "note": tr("Rescued.")}
        notes = [note for note in self.notes if note.became is Became.LOST]
        before = len(self.notes)
        self.notes.extend(self._insert(name, values, []))
        if len(self.notes) > before and self.notes[-1].became is Became.LOST:
            self.notes.pop()
            return False
        self._kept[name] -= 1
        for note in notes:
            if note.table == name and note.row.get("id") == row_id:
                self.notes.remove(note)
        self.notes.append(Note(Became.STAND_IN, name, values))
        return True
