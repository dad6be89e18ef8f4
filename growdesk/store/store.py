"""One open collection folder: its lock, its file and its engine."""

from __future__ import annotations

from contextlib import closing, suppress
from typing import TYPE_CHECKING

from typing_extensions import override

from growdesk.domain.errors import DamagedError, FullError, StoreError
from growdesk.domain.speech import mark, tr
from growdesk.store import beside, opening, switching
from growdesk.store.engine import connect, for_writing, make_engine
from growdesk.store.folder_names import FILE_NAME, PHOTOS, THUMBNAILS
from growdesk.store.header import read_header
from growdesk.store.later import TABLES, tables_in
from growdesk.store.migrations import SCHEMA
from growdesk.store.regular_files import sha256_of
from growdesk.store.reserve import keep_reserve, let_go
from growdesk.store.seal import FULL_CHECK_EVERY, Seal, put_seal
from growdesk.store.transactions import Transactions
from growdesk.store.trouble import plainly
from growdesk.store.watch import Watch

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable
    from contextlib import AbstractContextManager
    from datetime import datetime
    from pathlib import Path

    from growdesk.store.opening import Opened

__all__ = ["FILE_NAME", "PHOTOS", "THUMBNAILS", "Store"]

_ROOM_LET_GO = mark(
    "Some room that growdesk kept for this is free now: do it once more, and it is"
    " kept. Then free some space."
)


class Store(Transactions):
    """An open collection folder. Close it to let another program in.

    ``looking`` says why nothing may be written; it is empty where it may. ``notice`` is
    what was found about the file as it was opened. ``full_check_due`` asks for a check
    in depth: the program was stopped, the file is not as left, or a week is over.
    """

    def __init__(
        self,
        folder: Path,
        opened: Opened,
        now: Callable[[], datetime],
        mended: str = "",
    ) -> None:
        self.path = opened.path
        engine = make_engine(
            self.path,
            reading=opened.lock is None,
            apart=opened.apart,
            begun=self._begin_to_write,
        )
        super().__init__(folder, str(folder), engine, for_writing(engine))
        self.looking = opened.looking
        self.notice = " ".join(each for each in (mended, opened.notice) if each)
        self.full_check_due = opened.full_check_due
        self._opened = opened
        self._checked_at = opened.fully_checked_at
        self._now = now
        self._lock = opened.lock
        self._watch = Watch(self.path) if opened.lock is not None else None
        self._is_damaged = False
        self._info = _later(opened)

    @classmethod
    def open(
        cls, folder: Path, now: Callable[[], datetime], *, create: bool = False
    ) -> Store:
        """Open a folder, checked and brought up to date; make it where told to.

        Where it may not be written it is opened to look at, and ``looking`` says why.
        """
        with plainly(folder / FILE_NAME):
            mended = switching.mend(folder)
            opened = opening.to_write(folder, now(), create=create)
            try:
                return cls(folder, opened, now, mended)
            except BaseException:
                if opened.lock is not None:
                    opened.lock.release()
                raise

    @classmethod
    def open_to_read(cls, folder: Path, now: Callable[[], datetime]) -> Store:
        """Open a folder to read it, without keeping anybody else out of it.

        Only a file that must be brought up to date, or mended after a program that was
        stopped, is first opened as usual.
        """

        def mend() -> Opened:
            opened = opening.to_write(folder, now(), create=False)
            if opened.lock is not None:
                cls(folder, opened, now).close(seal=not opened.notice)
            return opened

        with plainly(folder / FILE_NAME):
            mended = switching.mend(folder)
            return cls(folder, opening.to_read(folder, now(), mend), now, mended)

    @property
    @override
    def file(self) -> Path:
        """Give the collection's file."""
        return self.path

    @classmethod
    def open_as_it_is(
        cls, folder: Path, now: Callable[[], datetime], why: str
    ) -> Store:
        """Open a folder to look at, although its file may be damaged; say why."""
        path = folder / FILE_NAME
        with plainly(path):
            return cls(folder, opening.as_it_is(path, why), now)

    @override
    def keep_reserve(self) -> None:
        """Keep room on the disk for when it is full; nothing where one only looks."""
        if self._lock is not None:
            keep_reserve(self.folder)

    @override
    def is_long_unchecked(self, now: datetime) -> bool:
        """Tell whether a week has gone by since the last check, the file open."""
        checked = self._checked_at
        return checked is not None and abs(now - checked) > FULL_CHECK_EVERY

    @override
    def note_full_check(self, now: datetime) -> None:
        """Note that the file was checked in depth and found whole."""
        self._checked_at = now
        self.full_check_due = False

    @override
    def note_damage(self) -> None:
        """Note that the file was found damaged: no seal is to say that it is whole."""
        self._is_damaged = True

    @override
    def close(self, *, seal: bool = True) -> None:
        """Close all connections, leave one file at rest, let go of the folder.

        The file is sealed as it is left, unless damage or another writer was met.
        A second call does nothing: another collection may lie at the same place then.
        """
        if self._is_closed:
            return
        self._is_closed = True
        self._engine.dispose()
        if self._opened.copied is not None:
            self._opened.copied.cleanup()
        lock, self._lock = self._lock, None
        if lock is None:
            return
        if self._watch is not None:
            seal = seal and not (self._watch.is_foreign or self._is_damaged)
            self._watch.close()
        try:
            with plainly(self.path):
                self._rest(seal=seal)
        finally:
            lock.release()

    def _rest(self, *, seal: bool) -> None:
        journal = beside.journal_of(self.path)
        if journal.exists():
            if journal.stat().st_size > 0:
                return
            try:
                journal.unlink()
            except OSError:  # all is kept, and the next opening checks more
                return
        if not seal or not self.path.exists():
            return
        with suppress(OSError):  # without a seal the next opening only checks more
            left = Seal(
                sha256_of(self.path),
                self.path.stat().st_size,
                read_header(self.path).schema,
                self._now(),
                self._checked_at,
            )
            put_seal(self.folder, left)

    def connected(self) -> sqlite3.Connection:
        """Give a plain connection to read the file with; whoever asks closes it."""
        return connect(self.path, reading=True, apart=self._opened.apart)

    @override
    def compact(self) -> None:
        """Give the room of what was forgotten back, so that no page still holds it."""
        self._refuse_closed()
        self._refuse_looking()
        with plainly(self.path), closing(connect(self.path)) as connection:
            connection.execute("VACUUM").fetchall()
            if self._watch is not None:
                self._watch.forget()

    @override
    def _plainly(self) -> AbstractContextManager[None]:
        return plainly(self.path)

    @override
    def _failed(self, error: StoreError) -> StoreError:
        self._is_damaged |= isinstance(error, DamagedError)
        self._engine.dispose()  # a disk that comes back is another one to SQLite
        if isinstance(error, FullError) and let_go(self.folder):
            return FullError(error.message, tr(_ROOM_LET_GO))
        return error

    def _begin_to_write(self) -> None:
        """Make sure, under the file's own lock, that nobody else has written it."""
        if self._lock is None or self._watch is None:
            return
        if self._lock.renew():
            self._watch.reopen()
        self._watch.begin()


def _later(opened: Opened) -> dict[str, object]:
    """Give what sessions on a later program's file carry; nothing on one of ours."""
    if read_header(opened.path).schema <= SCHEMA:
        return {}
    with closing(connect(opened.path, reading=True, apart=opened.apart)) as connection:
        return {TABLES: tables_in(connection)}
