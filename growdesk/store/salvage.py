"""Read a damaged collection file as far as it can be read, into a plain copy.

The file is copied first and never touched. Its tables are read page by page; what their
trees have lost is looked for in stray pages, and the indexes tell which rows are
missing. The copy holds the rows as they were found, right or wrong: what is made of
them is not decided here.
"""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from itertools import islice
from typing import TYPE_CHECKING

from msgspec import Struct, field

from growdesk.domain.errors import DamagedError, TooNewError
from growdesk.domain.speech import tr
from growdesk.store import beside
from growdesk.store.migrations import SCHEMA
from growdesk.store.page_file import Losses, PageFile
from growdesk.store.page_records import UNREADABLE, Torn
from growdesk.store.shapes import LIKE, Shape, shapes_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping
    from pathlib import Path

    from growdesk.store.page_records import Cell

_BLOCK = 4096
_LOT = 500


class Salvaged(Struct):
    """What was read: a file of plain tables, and what is known to be missing.

    ``unsure`` are columns of a row that could not be read, or only in part.
    ``missing`` is what an index still says of a row that is not there. ``strays`` are
    rows from pages that no tree leads to.
    """

    path: Path
    schema: int
    read: dict[str, int] = field(default_factory=dict)
    losses: dict[str, Losses] = field(default_factory=dict)
    unsure: dict[tuple[str, int], set[str]] = field(default_factory=dict)
    missing: dict[str, dict[int, dict[str, object]]] = field(default_factory=dict)
    strays: set[tuple[str, int]] = field(default_factory=set)
    unread_bytes: int = 0


def salvage(source: Path, work: Path, step: Callable[[int, int], None]) -> Salvaged:
    """Read a file into ``work``, a folder that is there and holds nothing.

    Raises TooNewError where a newer growdesk wrote it, DamagedError where nothing of a
    collection is left in it.
    """
    copy = work / "copy.sqlite"
    unread = _copied(source, copy)
    with closing(PageFile(copy)) as pages:
        schema = _schema_of(pages)
        shapes = shapes_of(schema)
        roots = _roots(pages)
        found = Salvaged(work / "found.sqlite", schema, unread_bytes=unread)
        with closing(sqlite3.connect(found.path)) as into:
            into.execute("PRAGMA synchronous = OFF")
            _Reading(pages, shapes, roots, into, found, step).all()
    copy.unlink()
    if not any(found.read.values()) and not roots.keys() & shapes.keys():
        raise DamagedError(
            tr("Nothing of a collection can be read in {path}.").format(path=source),
            tr("Bring back a backup with: growdesk restore FILE."),
        )
    return found


class _Reading:
    """One reading of all tables."""

    def __init__(
        self,
        pages: PageFile,
        shapes: Mapping[str, Shape],
        roots: dict[str, int],
        into: sqlite3.Connection,
        found: Salvaged,
        step: Callable[[int, int], None],
    ) -> None:
        self._pages = pages
        self._shapes = shapes
        self._roots = roots
        self._into = into
        self._found = found
        self._step = step

    def all(self) -> None:
        """Read trees, then indexes, then what is left over."""
        for shape in self._shapes.values():
            columns = ", ".join(shape.columns[1:])
            self._into.execute(
                f"CREATE TABLE {shape.name} (id INTEGER PRIMARY KEY, {columns})"
            )
        for shape in self._shapes.values():
            losses = self._found.losses.setdefault(shape.name, Losses())
            root = self._roots.get(shape.name, shape.root)
            self._keep(shape, self._pages.rows(root, shape.fits, losses))
        for shape in self._shapes.values():
            for index, (root, fields) in shape.indexes.items():
                self._compare(shape, self._roots.get(index, root), fields)
        self._take_strays()
        for name, rows in self._found.missing.items():
            for key in self._there(name, list(rows)):
                del rows[key]
        for name in self._shapes:
            query = f"SELECT count(*) FROM {name}"  # noqa: S608 -- a table of ours
            self._found.read[name] = self._into.execute(query).fetchone()[0]
        self._into.commit()

    def _keep(
        self, shape: Shape, cells: Iterable[Cell], *, stray: bool = False
    ) -> None:
        marks = ",".join("?" * len(shape.columns))
        insert = f"INSERT OR IGNORE INTO {shape.name} VALUES ({marks})"  # noqa: S608 -- ditto
        each = iter(cells)
        while lot := list(islice(each, _LOT)):
            rows = [row for cell in lot if (row := self._row(shape, cell, stray=stray))]
            self._into.executemany(insert, rows)
            self._go_on()

    def _go_on(self) -> None:
        """Say how many pages have been read, and let the work be stopped."""
        count = self._pages.count
        self._step(min(len(self._pages.seen), count), count)

    def _row(
        self, shape: Shape, cell: Cell, *, stray: bool
    ) -> tuple[object, ...] | None:
        """Give a row of all columns; what cannot be read in it is noted."""
        if not shape.fits(cell):
            self._found.losses[shape.name].cells += 1
            return None
        values: list[object] = [cell.key]
        for at, column in enumerate(shape.columns[1:], 1):
            value = cell.values[at] if at < len(cell.values) else shape.given[at]
            if value is UNREADABLE or isinstance(value, Torn):
                unsure = self._found.unsure.setdefault((shape.name, cell.key), set())
                unsure.add(column)
                value = str(value) if isinstance(value, Torn) else None
            values.append(value)
        if stray:
            self._found.strays.add((shape.name, cell.key))
        return tuple(values)

    def _compare(self, shape: Shape, root: int, columns: tuple[str, ...]) -> None:
        """Note what an index says of rows that were not found."""
        missing = self._found.missing.setdefault(shape.name, {})
        entries = self._pages.entries(root)
        while lot := list(islice(entries, _LOT)):
            said: dict[int, dict[str, object]] = {}
            for cell in lot:
                *values, key = cell.values or (None,)
                if isinstance(key, int) and key > 0 and len(values) == len(columns):
                    known = zip(columns, values, strict=True)
                    said[key] = {
                        column: value
                        for column, value in known
                        if value is not UNREADABLE and not isinstance(value, Torn)
                    }
            there = self._there(shape.name, list(said))
            self._go_on()
            for key in said.keys() - there:
                missing.setdefault(key, {}).update(said[key])

    def _there(self, name: str, keys: list[int]) -> set[int]:
        found: set[int] = set()
        for first in range(0, len(keys), _LOT):
            lot = keys[first : first + _LOT]
            marks = ",".join("?" * len(lot))
            query = f"SELECT id FROM {name} WHERE id IN ({marks})"  # noqa: S608 -- ditto
            found |= {row[0] for row in self._into.execute(query, lot)}
        return found

    def _take_strays(self) -> None:
        """Give rows of stray pages to the table that they look like, if it lost any."""
        losing = [
            shape for shape in self._shapes.values() if self._found.losses[shape.name]
        ]
        if not losing:
            return
        for _number, cells in self._pages.stray_leaves():
            like = [(sum(map(shape.fits, cells)), shape) for shape in losing]
            most = max(count for count, _ in like)
            best = [shape for count, shape in like if count == most]
            if len(best) > 1:
                best = [shape for shape in best if self._expects(shape, cells)]
            if len(best) == 1 and most >= LIKE * len(cells):
                self._keep(best[0], cells, stray=True)

    def _expects(self, shape: Shape, cells: list[Cell]) -> bool:
        missing = self._found.missing.get(shape.name, {})
        return any(cell.key in missing for cell in cells)


def _copied(source: Path, copy: Path) -> int:
    """Copy a file block by block, what cannot be read as zeros; give how many bytes.

    Where a program was stopped midway its journal is copied along and played back,
    unless it is another file's.
    """
    unread = 0
    with source.open("rb", buffering=0) as file, copy.open("wb") as target:
        length = source.stat().st_size
        for at in range(0, length, _BLOCK):
            try:
                file.seek(at)
                block = file.read(_BLOCK)
            except OSError:
                block = bytes(min(_BLOCK, length - at))
                unread += len(block)
            target.write(block)
    journal = source.with_name(f"{source.name}-journal")
    is_there = journal.is_file() and journal.stat().st_size
    if is_there and not beside.is_anothers(source):
        plain = copy.with_suffix(".plain")
        shutil.copyfile(copy, plain)
        shutil.copyfile(journal, copy.with_name(f"{copy.name}-journal"))
        try:
            with closing(sqlite3.connect(copy)) as connection:
                connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
        except sqlite3.Error:
            plain.replace(copy)
        copy.with_name(f"{copy.name}-journal").unlink(missing_ok=True)
        plain.unlink(missing_ok=True)
    return unread


def _masters(pages: PageFile) -> Iterator[tuple[str, str, int]]:
    """Give sort, name and root of what the file says it holds."""
    for cell in pages.rows(1, lambda _cell: True, Losses()):
        if len(cell.values) != 5:
            continue
        sort, name, _, root, _ = cell.values
        if isinstance(sort, str) and isinstance(name, str) and isinstance(root, int):
            yield sort, name, root


def _roots(pages: PageFile) -> dict[str, int]:
    return {name: root for _, name, root in _masters(pages) if 1 < root <= pages.count}


def _schema_of(pages: PageFile) -> int:
    """Give the schema by the header where that may be, else by what was recorded."""
    said = int.from_bytes(pages.page(1)[60:64], "big")
    roots = _roots(pages)
    pages.seen.clear()
    recorded = 0
    if "migration" in roots:
        cells = pages.rows(roots["migration"], lambda _cell: True, Losses())
        recorded = max((c.key for c in cells if len(c.values) > 3), default=0)
        pages.seen.clear()
    if said == recorded > SCHEMA:
        raise TooNewError(
            tr("It was written by a newer growdesk (form {form}).").format(form=said),
            tr("Rescue it with that one."),
        )
    if 1 <= recorded <= SCHEMA:
        return recorded
    return said if 1 <= said <= SCHEMA else SCHEMA
