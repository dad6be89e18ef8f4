"""Looks a whole collection over: file, entries, photos, and the history beside them.

It works on a copy, so that nobody who writes meanwhile waits for it. What the history
has otherwise than it stands is damage that no file system and no database sees. Nothing
is changed here; ``mending`` sets back what was found.
"""

from __future__ import annotations

import sqlite3
import tempfile
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.day_words import short_dated_text
from growdesk.domain.errors import DamagedError, StoreError
from growdesk.domain.speech import tr, trn
from growdesk.services import photo_check, photos_back
from growdesk.services.check_values import Damage, FullCheck, Mend, Sort
from growdesk.services.entry_words import Owners, field_word, value_text
from growdesk.services.long_work import quietly
from growdesk.services.place_file import file_of
from growdesk.services.soundness import (
    UNREADABLE,
    found_in_rows,
    orphan_problems,
    page_problems,
)
from growdesk.store.engine import connect
from growdesk.store.form import check_form
from growdesk.store.header import check_not_newer, read_header
from growdesk.store.history_proof import Proof, prove
from growdesk.store.migrations import SCHEMA
from growdesk.store.schema import RECORDED
from growdesk.store.store import FILE_NAME
from growdesk.store.trouble import plainly
from growdesk.store.witness import BrokenImage, Difference, differences

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from growdesk.services.long_work import Step
    from growdesk.services.whereabouts import Where

_PAGES_AT_ONCE = 512
_OPERATIONS = 200_000


def look_through(
    where: Where, step: Step = quietly, *, is_open: bool = False, quick: bool = False
) -> FullCheck:
    """Look a collection through; where this program has it open, say so.

    What a server keeps is copied, and the copy looked through: of that nothing is said
    to be set back.

    A ``quick`` look asks SQLite alone, and not whether indexes and rows agree. ``step``
    is told how far it is and may stop it. Raises StoreError where there is no
    collection, or it cannot be read at all for another reason than damage.
    """
    if not isinstance(where, Path):
        with file_of(where, step) as copy:
            found = _looked_through(copy, where.folder, step, quick=quick)
        damage = tuple(replace(each, mend=None) for each in found.damage)
        return replace(found, damage=damage)
    path = where / FILE_NAME
    if not path.is_file():
        hint = tr("Choose the folder that holds collection.sqlite.")
        raise StoreError(
            tr("There is no collection in {folder}.").format(folder=where), hint
        )
    with plainly(path):
        if not is_open:  # reading the bytes of an open file lets go of SQLite's locks
            check_not_newer(path, read_header(path), SCHEMA)
    return _looked_through(path, where, step, quick=quick)


def _looked_through(path: Path, folder: Path, step: Step, *, quick: bool) -> FullCheck:
    try:
        with (
            plainly(path),
            _copied(path, step) as copy,
            closing(_opened(copy)) as connection,
        ):
            return _Looking(connection, folder, step).all(quick=quick)
    except DamagedError as error:
        return FullCheck(0, 0, 0, 0, (_of_file(error.message),))


class _Looking:
    """One look through a copy of the file."""

    def __init__(
        self, connection: sqlite3.Connection, folder: Path, step: Step
    ) -> None:
        self._connection = connection
        self._folder = folder
        self._step = step
        self._found: list[Damage] = []
        self._plants = 0
        self._named = 0
        self._entries = 0
        self._changes = 0
        self._stopped: Exception | None = None
        self._proof = Proof()
        self._owners = Owners({}, {})
        self._wrong: dict[tuple[str, int, str], Damage] = {}

    def all(self, *, quick: bool) -> FullCheck:
        """Look at the file, the entries, the history and the photos, in this order."""
        self._connection.set_progress_handler(self._go_on, _OPERATIONS)
        self._read(self._quick if quick else self._file)
        if not self._found and not quick:
            self._read(self._orphans)
            self._read(self._rows)
            self._read(self._history)
        if not quick:
            self._read(self._photos)
        return FullCheck(
            self._plants,
            self._named,
            self._entries,
            self._changes,
            tuple(self._found),
        )

    def _read(self, look: Callable[[], None]) -> None:
        """Look at one part; what SQLite cannot read of it is damage of the file."""
        try:
            look()
        except (sqlite3.DatabaseError, UnicodeDecodeError):
            if self._stopped is not None:
                raise self._stopped from None
            if not self._found:
                self._found.append(_of_file(tr(UNREADABLE)))

    def _photos(self) -> None:
        self._plants = self._count("plant")
        named = photo_check.named(self._connection)
        self._named = len(named)
        for each, line in photo_check.damaged(self._folder, named, self._step):
            tag, sha256, ext = each
            whose = tr("Plant {tag}").format(tag=tag)
            kept = photos_back.is_kept(self._folder, sha256, ext)
            also = f" {tr('A backup has it whole.')}" if kept else ""
            self._found.append(Damage(Sort.PHOTO, whose, f"{line}{also}", photo=kept))

    def _go_on(self) -> int:
        """Let the work be stopped while SQLite is at it."""
        try:
            self._step(0, 0)
        except Exception as error:  # noqa: BLE001 -- raised again once SQLite has let go
            self._stopped = error
            return 1
        return 0

    def _quick(self) -> None:
        row = self._connection.execute("PRAGMA quick_check(1)").fetchone()
        if row[0] != "ok":
            self._found.append(_of_file(tr(UNREADABLE)))
        self._plants = self._count("plant")

    def _file(self) -> None:
        self._found.extend(map(_of_file, page_problems(self._connection)))
        if not self._found:
            check_form(self._connection, self._folder / FILE_NAME)

    def _orphans(self) -> None:
        whose = tr("The collection")
        self._found.extend(
            Damage(Sort.ENTRY, whose, line)
            for line in orphan_problems(self._connection)
        )

    def _rows(self) -> None:
        self._owners = Owners(
            dict(self._connection.execute("SELECT id, tag FROM plant")),
            dict(self._connection.execute("SELECT id, name FROM place")),
        )
        self._entries = sum(self._count(name) for name in RECORDED)
        self._changes = self._count("change")
        for number, each in enumerate(found_in_rows(self._connection)):
            if number % 1000 == 0:
                self._step(0, 0)
            if each.problem:
                called = self._owners.called(each.table, each.row)
                key = (each.table, each.row["id"], each.field)
                self._wrong[key] = Damage(
                    Sort.VALUE,
                    self._owners.whose(each.table, each.row),
                    tr("{entry}, {problem}").format(entry=called, problem=each.told),
                )

    def _history(self) -> None:
        proof = self._proof = prove(self._connection, self._step)
        broken: set[int] = set()
        differ: list[Damage] = []
        for each in differences(self._connection, self._step, proof.damaged):
            if isinstance(each, BrokenImage):
                broken.add(each.action_id)
                continue
            wrong = self._wrong.pop((each.table, each.row_id, each.column), None)
            differ.append(self._differs(each, wrong))
        self._found.extend(self._wrong.values())
        self._found.extend(differ)
        self._found.extend(map(self._broken, sorted(proof.damaged | broken)))
        self._found.extend(map(self._disordered, sorted(proof.disordered)))
        if proof.missing:
            line = trn(
                "{count} step of the history is not there any more.",
                "{count} steps of the history are not there any more.",
                len(proof.missing),
            ).format(count=len(proof.missing))
            self._found.append(Damage(Sort.HISTORY, tr("History"), line))

    def _differs(self, each: Difference, wrong: Damage | None) -> Damage:
        called = self._owners.called(each.table, each.row)
        whose = self._owners.whose(each.table, each.row)
        day, title = self._action(each.action_id)
        if each.is_gone:
            line = tr(
                "{entry}: it is gone, and nobody removed it; the history has it of"
                " {day} (“{title}”)."
            ).format(entry=called, day=day, title=title)
        elif wrong is not None:
            line = tr("{problem}; the history says {told} of {day}.").format(
                problem=wrong.sentence.rstrip("."),
                told=value_text(each.table, each.column, each.told),
                day=day,
            )
        elif not each.column:
            line = tr(
                "{entry}: it stands there although it was removed on {day} (“{title}”)."
            ).format(entry=called, day=day, title=title)
        else:
            line = tr(
                "{entry}, {field}: {stands} stands there; the history says {told} of"
                " {day}."
            ).format(
                entry=called,
                field=field_word(each.column),
                stands=value_text(each.table, each.column, each.stands),
                told=value_text(each.table, each.column, each.told),
                day=day,
            )
        is_sure = wrong is not None or self._proof.proves(each.action_id)
        return Damage(Sort.ENTRY, whose, line, _mend(each) if is_sure else None)

    def _broken(self, action_id: int) -> Damage:
        line = tr(
            "The history of {day} is damaged: “{title}” is not as it was written."
        )
        return self._of_history(line, action_id)

    def _disordered(self, action_id: int) -> Damage:
        line = tr(
            "The history of {day} is damaged: “{title}” is marked as undone, though"
            " what came after it is not."
        )
        return self._of_history(line, action_id)

    def _of_history(self, line: str, action_id: int) -> Damage:
        day, title = self._action(action_id)
        return Damage(Sort.HISTORY, tr("History"), line.format(day=day, title=title))

    def _action(self, number: int) -> tuple[str, str]:
        """Give the day and the title of an action."""
        row = self._connection.execute(
            "SELECT at_s, title FROM action WHERE id = ?", (number,)
        ).fetchone()
        if row is None:
            return tr("an unknown day"), ""
        try:
            day = datetime.fromtimestamp(row[0], UTC).astimezone().date()
        except (TypeError, ValueError, OverflowError, OSError):
            return tr("an unknown day"), str(row[1])
        return short_dated_text(day), str(row[1])

    def _count(self, table: str) -> int:
        query = f"SELECT count(*) FROM {table}"  # noqa: S608 -- a table of ours
        return int(self._connection.execute(query).fetchone()[0])


def _mend(each: Difference) -> Mend | None:
    """Give the way back where the history knows enough for it."""
    table = RECORDED[each.table].metadata.tables[each.table]
    if each.column:
        return Mend(
            each.table, each.row_id, each.column, each.stands, each.told, each.row
        )
    if not each.is_gone:
        return None
    known = all(column.nullable or column.name in each.row for column in table.c)
    return Mend(each.table, each.row_id, "", None, None, each.row) if known else None


def _of_file(line: str) -> Damage:
    return Damage(Sort.FILE, tr("The collection's file"), line)


@contextmanager
def _copied(path: Path, step: Step) -> Iterator[Path]:
    """Give a copy of a file, made a few pages at a time, gone afterwards."""
    with tempfile.TemporaryDirectory(prefix="growdesk-check-") as made:
        copy = Path(made) / FILE_NAME
        is_at_rest = not _has_journal(path)
        with (
            closing(connect(path, reading=is_at_rest)) as source,
            closing(sqlite3.connect(copy)) as target,
        ):
            target.execute("PRAGMA synchronous = OFF")
            source.backup(target, pages=_PAGES_AT_ONCE, progress=_telling(step))
        yield copy


def _opened(copy: Path) -> sqlite3.Connection:
    """Open a copy so that bytes that are no text stop no reading."""
    connection = connect(copy)
    connection.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
    return connection


def _telling(step: Step) -> Callable[[int, int, int], object]:
    return lambda _status, _left, _of: step(0, 0)


def _has_journal(path: Path) -> bool:
    journal = path.with_name(f"{path.name}-journal")
    return journal.exists() and journal.stat().st_size > 0
