"""One open collection folder: its lock, its engine, and its transactions.

Reading and writing are blocks; each opens a session and closes it. Blocks inside
``together`` share one transaction. Nothing here knows a use case.
"""

from __future__ import annotations

import threading
from contextlib import closing, contextmanager
from typing import TYPE_CHECKING

from sqlalchemy.orm import Session

from growdesk.domain.errors import BusyError, DamagedError, ForeignError, StoreError
from growdesk.domain.speech import tr
from growdesk.store.backup_sets import BACKUPS
from growdesk.store.backup_sets import sweep as sweep_backups
from growdesk.store.backups import quick_check
from growdesk.store.engine import connect, for_writing, make_engine
from growdesk.store.header import check_not_newer, read_header
from growdesk.store.journal import Writing
from growdesk.store.lock import LOCK_NAME, FolderLock
from growdesk.store.migrating import bring_up_to_date, create_database
from growdesk.store.migrations import SCHEMA
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import sweep, whole

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import datetime
    from pathlib import Path

FILE_NAME = "collection.sqlite"
PHOTOS = "photos"
THUMBNAILS = "thumbnails"
_OURS = {FILE_NAME, f"{FILE_NAME}-journal", LOCK_NAME, PHOTOS, THUMBNAILS, BACKUPS}


class Store:
    """An open collection folder. Close it to let another program in."""

    def __init__(self, folder: Path, lock: FolderLock | None) -> None:
        self.folder = folder
        self.path = folder / FILE_NAME
        self._lock = lock
        self._engine = make_engine(self.path, reading=lock is None)
        self._writer = for_writing(self._engine)
        self._shared = threading.local()

    @classmethod
    def open(
        cls, folder: Path, now: Callable[[], datetime], *, create: bool = False
    ) -> Store:
        """Open a folder, checked and brought up to date; make it where told to."""
        path = folder / FILE_NAME
        with plainly(path):
            _check_folder(folder, create=create)
            lock = FolderLock(folder)
            try:
                sweep(folder, BACKUPS)
                sweep_backups(folder / BACKUPS)
                if not path.exists():
                    _create(path, now())
                check_not_newer(path, read_header(path), SCHEMA)
                _check_whole(path)
                bring_up_to_date(path, now())
                return cls(folder, lock)
            except BaseException:
                lock.release()
                raise

    @classmethod
    def open_to_read(cls, folder: Path, now: Callable[[], datetime]) -> Store:
        """Open a folder to read it, without keeping anybody else out of it.

        Only a file that must be brought up to date, or mended after a program that was
        stopped, is first opened as usual.
        """
        path = folder / FILE_NAME
        with plainly(path):
            _check_folder(folder, create=False)
            old = read_header(path).schema < SCHEMA
            if old or _stopped_midway(path):
                try:
                    cls.open(folder, now).close()
                except BusyError:
                    if old:
                        raise
            store = cls(folder, lock=None)
            _check_whole(path, reading=True)
        return store

    def close(self) -> None:
        """Close all connections, leave one file at rest, let go of the folder."""
        self._engine.dispose()
        if self._lock is None:
            return
        journal = self.path.with_name(f"{FILE_NAME}-journal")
        try:
            with plainly(self.path):
                if journal.exists() and journal.stat().st_size == 0:
                    journal.unlink()
        finally:
            self._lock.release()

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """Give a session to read with."""
        shared = self._current()
        if shared is not None:
            yield shared.session
            return
        with plainly(self.path), Session(self._engine) as session, session.begin():
            yield session

    @contextmanager
    def writing(self, title: str, now: Callable[[], datetime]) -> Iterator[Writing]:
        """Give a ``Writing``; it is kept whole with its history, or not at all."""
        shared = self._current()
        if shared is not None:
            with self._inner(shared):
                yield shared
            return
        with plainly(self.path), Session(self._writer) as session, session.begin():
            writing = Writing(session)
            yield writing
            writing.finish(title, now())

    @contextmanager
    def together(
        self, title: str, now: Callable[[], datetime], *, remember: bool = True
    ) -> Iterator[Writing]:
        """Make all reading and writing of this thread inside the block one action."""
        if self._current() is not None:
            raise RuntimeError("together may not stand inside together")
        with plainly(self.path), Session(self._writer) as session, session.begin():
            writing = Writing(session, remember=remember)
            self._shared.writing = writing
            try:
                yield writing
            finally:
                self._shared.writing = None
            writing.finish(title, now())

    @contextmanager
    def unrecorded(self) -> Iterator[Session]:
        """Give a session that writes outside the history: undo and redo need it."""
        with plainly(self.path), Session(self._writer) as session, session.begin():
            yield session

    def compact(self) -> None:
        """Give the room of what was forgotten back, so that no page still holds it."""
        with plainly(self.path), closing(connect(self.path)) as connection:
            connection.execute("VACUUM").fetchall()

    def _current(self) -> Writing | None:
        found: Writing | None = getattr(self._shared, "writing", None)
        return found

    @contextmanager
    def _inner(self, shared: Writing) -> Iterator[None]:
        """Take back only the inner block's rows where it fails."""
        before = len(shared.changes)
        try:
            with shared.session.begin_nested():
                yield
        except BaseException:
            del shared.changes[before:]
            raise


def _check_folder(folder: Path, *, create: bool) -> None:
    """Refuse a folder that is none of ours, before anything in it is touched."""
    path = folder / FILE_NAME
    if path.exists():
        check_not_newer(path, read_header(path), SCHEMA)
        return
    if folder.exists() and not folder.is_dir():
        message = tr("{folder} is a file, not a folder.").format(folder=folder)
        raise ForeignError(message, tr("Choose a folder."))
    if not create:
        raise StoreError(
            tr("There is no collection in {folder}.").format(folder=folder),
            tr("Choose the folder that holds collection.sqlite."),
        )
    folder.mkdir(parents=True, exist_ok=True)
    strange = sorted(
        found.name for found in folder.iterdir() if not _is_ours(found.name)
    )
    if strange:
        raise ForeignError(
            tr(
                "{folder} holds other files ({strange}), so no collection is made"
                " in it."
            ).format(folder=folder, strange=strange[0]),
            tr("Choose an empty folder, or a new one."),
        )
    if any((folder / PHOTOS).glob("*/*")):
        raise DamagedError(
            tr("{folder} holds photos of a collection, but {file} is gone.").format(
                folder=folder, file=FILE_NAME
            ),
            tr("Bring back a backup with: growdesk restore FILE."),
        )


def _is_ours(name: str) -> bool:
    """Say whether a name is one of a collection's, or one that systems scatter."""
    scattered = name.startswith(".") or name in {"desktop.ini", "Thumbs.db"}
    return scattered or name in _OURS or name.startswith(f"{FILE_NAME}.")


def _create(path: Path, now: datetime) -> None:
    """Make a new file that is there whole or not at all."""
    with whole(path) as part:
        create_database(part, now)


def _stopped_midway(path: Path) -> bool:
    """Tell whether a transaction is under way, or was when its program stopped."""
    journal = path.with_name(f"{FILE_NAME}-journal")
    return journal.exists() and journal.stat().st_size > 0


def _check_whole(path: Path, *, reading: bool = False) -> None:
    with closing(connect(path, reading=reading)) as connection:
        quick_check(connection, path)
