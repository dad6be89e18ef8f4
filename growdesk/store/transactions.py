"""What every open collection can do, whether it is a folder or on a server.

Reading and writing are blocks; each opens a session and closes it. Blocks inside
``together`` share one transaction. Nothing here knows a use case.
"""

from __future__ import annotations

import threading
from abc import ABC, abstractmethod
from contextlib import contextmanager
from typing import TYPE_CHECKING

from growdesk.domain.errors import LookOnlyError, StoreError
from growdesk.domain.speech import tr
from growdesk.store.journal import Stamp, Writing
from growdesk.store.session import Session

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from contextlib import AbstractContextManager
    from datetime import datetime
    from pathlib import Path

    from sqlalchemy import Engine


AMID = "growdesk_amid"
"""In the ``info`` of a session that reads what others do not see yet, or never will."""


class Transactions(ABC):
    """An open collection as services use it. Close it to let go of it.

    ``folder`` holds its photos and thumbnails. ``file`` is its file; nothing on a
    server. ``place`` is what a person knows it by. ``looking`` says why nothing may be
    written; it is empty where it may. ``notice`` is what was found at its opening, and
    ``full_check_due`` asks for a check in depth.
    """

    def __init__(
        self, folder: Path, place: str, reader: Engine, writer: Engine
    ) -> None:
        self.folder = folder
        self.place = place
        self.looking = ""
        self.notice = ""
        self.full_check_due = False
        self.who: Callable[[], str] = str
        """Gives the name of the account that writes; of nobody until it is set."""
        self._engine = reader
        self._writer = writer
        self._info: dict[str, object] = {}
        self._shared = threading.local()
        self._is_closed = False

    @property
    @abstractmethod
    def file(self) -> Path | None:
        """Give the one file that all is in; nothing on a server."""

    @property
    def is_open(self) -> bool:
        """Tell whether it has not been closed."""
        return not self._is_closed

    @abstractmethod
    def close(self) -> None:
        """Close all connections and let go of the collection."""

    @abstractmethod
    def compact(self) -> None:
        """Give the room of what was forgotten back, so that nothing still holds it."""

    @abstractmethod
    def keep_reserve(self) -> None:
        """Keep room on the disk for when it is full, where that is ours to keep."""

    @abstractmethod
    def is_long_unchecked(self, now: datetime) -> bool:
        """Tell whether a week has gone by since the last check in depth."""

    @abstractmethod
    def note_full_check(self, now: datetime) -> None:
        """Note that all was checked in depth and found whole."""

    @abstractmethod
    def note_damage(self) -> None:
        """Note that damage was found."""

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """Give a session to read with."""
        shared = self._current()
        read = shared.session if shared is not None else self._read()
        if read is not None:
            yield read
            return
        with self._begun(self._engine) as session:
            yield session

    @contextmanager
    def at_once(self) -> Iterator[None]:
        """Let all reading of this thread inside the block see one state, in one go."""
        with self.reading() as session:
            before = self._read()
            self._shared.read = session
            try:
                yield
            finally:
                self._shared.read = before

    @contextmanager
    def writing(self, title: str, now: Callable[[], datetime]) -> Iterator[Writing]:
        """Give a ``Writing``; it is kept whole with its history, or not at all."""
        shared = self._current()
        if shared is not None:
            with self._inner(shared):
                yield shared
            return
        with self._begun(self._writer) as session:
            writing = Writing(session, who=self.who())
            yield writing
            self._hold_against_others(writing)
            writing.finish(title, now())

    @contextmanager
    def together(
        self, title: str, now: Callable[[], datetime], *, remember: bool = True
    ) -> Iterator[Writing]:
        """Make all reading and writing of this thread inside the block one action."""
        if self._current() is not None:
            raise RuntimeError("together may not stand inside together")
        with self._begun(self._writer) as session:
            writing = Writing(session, remember=remember, who=self.who())
            session.info[AMID] = True
            self._shared.writing = writing
            try:
                yield writing
            finally:
                self._shared.writing = None
            self._hold_against_others(writing)
            writing.finish(title, now())

    @contextmanager
    def standing_on(self, state: object) -> Iterator[None]:
        """Say which state this thread's writing inside the block goes by.

        Others' later changes of the same are not written over where there are others.
        """
        self._shared.stands_on = state
        try:
            yield
        finally:
            self._shared.stands_on = None

    @contextmanager
    def unrecorded(self) -> Iterator[Session]:
        """Give a session that writes outside the history: undo and redo need it."""
        with self._begun(self._writer) as session:
            yield session

    def stamp(self, now: datetime) -> Stamp:
        """Give when and by whom something is done now."""
        return Stamp(int(now.timestamp()), self.who())

    @abstractmethod
    def _plainly(self) -> AbstractContextManager[None]:
        """Turn the world's faults inside the block into a ``StoreError``."""

    def _failed(self, error: StoreError) -> StoreError:
        """Give what is told of a block that the world let fail."""
        return error

    @contextmanager
    def _begun(self, engine: Engine) -> Iterator[Session]:
        self._refuse_closed()
        if engine is self._writer:
            if self._read() is not None:
                raise RuntimeError("nothing is written inside at_once")
            self._refuse_looking()
        try:
            with self._plainly(), Session(engine, self._info) as session:
                yield session
        except StoreError as error:
            told = self._failed(error)
            if told is error:
                raise
            raise told from error

    def _hold_against_others(self, writing: Writing) -> None:
        """Refuse to write over what others wrote; of a folder there are none."""
        del writing

    def _refuse_closed(self) -> None:
        """Let nothing more be read or written: its place may be another's by now."""
        if self._is_closed:
            raise StoreError(
                tr("The collection in {folder} is no longer open here.").format(
                    folder=self.place
                ),
                tr("Open it again, and do it once more."),
            )

    def _refuse_looking(self) -> None:
        if self.looking:
            raise LookOnlyError(self.looking)

    def _current(self) -> Writing | None:
        found: Writing | None = getattr(self._shared, "writing", None)
        return found

    def _read(self) -> Session | None:
        found: Session | None = getattr(self._shared, "read", None)
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
