"""One open collection on a server: its address, its engine, its folder of photos."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from sqlalchemy import func, select
from typing_extensions import override

from growdesk.domain.errors import GoneError, StoreError
from growdesk.domain.speech import tr
from growdesk.store.migrations import SCHEMA
from growdesk.store.overtaking import refuse_overtaken
from growdesk.store.schema import Base, MigrationRow
from growdesk.store.server_address import parsed, shown
from growdesk.store.server_engine import make_server_engine, reader_of, writer_of
from growdesk.store.server_opening import bring_up, look, none_there, why_only_looking
from growdesk.store.server_trouble import in_doubt, plainly_on_server
from growdesk.store.states import STATE, OwnSteps, State, state, state_of
from growdesk.store.transactions import Transactions

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from contextlib import AbstractContextManager
    from datetime import datetime
    from pathlib import Path

    from sqlalchemy import URL, Engine

    from growdesk.store.journal import Writing
    from growdesk.store.session import Session


_TURN = "growdesk_turn"
"""In the ``info`` of a session that writes: the state as its turn came."""


class ServerStore(Transactions):
    """An open collection on a server. Others may have it open as well.

    ``folder`` is the shared folder of its photos; nothing here touches it. A server
    keeps its own seal and its own room, so those of a file do nothing here. ``own`` are
    the steps that were written here, and not by others.
    """

    def __init__(self, folder: Path, url: URL, engine: Engine) -> None:
        super().__init__(folder, shown(url), reader_of(engine), writer_of(engine))
        self.url = url
        self.own = OwnSteps()
        self._form = SCHEMA
        self._alone = engine.execution_options(isolation_level="AUTOCOMMIT")

    @classmethod
    def open(
        cls,
        address: str,
        photos_folder: Path,
        now: Callable[[], datetime],
        *,
        create: bool = False,
        before_form: Callable[[int], None] | None = None,
    ) -> ServerStore:
        """Open a database, brought up to date; make all tables where told to.

        Raises InputError for an address that is none, StoreError for what a server
        refuses. ``before_form`` may keep a backup: see ``server_opening.bring_up``.
        """
        url = parsed(address)
        store = cls(photos_folder, url, make_server_engine(url))
        try:
            store.look(now, create=create, before_form=before_form)
        except BaseException:
            store.close()
            raise
        return store

    @classmethod
    def open_to_read(
        cls, address: str, photos_folder: Path, now: Callable[[], datetime]
    ) -> ServerStore:
        """Open a database to read it; one of an older form is brought up to date."""
        return cls.open(address, photos_folder, now)

    def look(
        self,
        now: Callable[[], datetime],
        *,
        create: bool,
        before_form: Callable[[int], None] | None,
    ) -> None:
        """Look at what the database holds, as ``open`` tells, and may do with it."""
        with self._plainly():
            with self._engine.connect() as connection:
                found = look(connection, self.place)
            if not found.is_ours and not create:
                raise none_there(self.place)
            if not found.is_up_to_date:
                bring_up(
                    self._writer, self.place, now(), create=create, before=before_form
                )
            with self._engine.connect() as connection:
                self.looking = why_only_looking(connection, self.place)
        self._info = found.info
        self._form = max(found.form, SCHEMA)

    @property
    @override
    def file(self) -> None:
        """Give nothing: there is no one file."""

    @override
    def close(self) -> None:
        """Close all connections. A second call does nothing."""
        self._is_closed = True
        self._engine.dispose()

    @override
    def compact(self) -> None:
        """Write all tables anew, so that nothing that was forgotten is left in them."""
        self._refuse_closed()
        self._refuse_looking()
        names = ", ".join(f'"{name}"' for name in Base.metadata.tables)
        with self._plainly(), self._alone.connect() as connection:
            connection.exec_driver_sql(f"VACUUM (FULL) {names}")

    @override
    def keep_reserve(self) -> None:
        """Do nothing: the server's disk is not ours to fill."""

    @override
    def is_long_unchecked(self, now: datetime) -> bool:
        """Say no: a server looks after its own files."""
        return False

    @override
    def note_full_check(self, now: datetime) -> None:
        """Do nothing: see ``is_long_unchecked``."""

    @override
    def note_damage(self) -> None:
        """Do nothing: there is no seal to withhold."""

    @override
    def _plainly(self) -> AbstractContextManager[None]:
        return plainly_on_server(self.place)

    @contextmanager
    @override
    def _begun(self, engine: Engine) -> Iterator[Session]:
        """Tell apart what was certainly not kept and what may have been."""
        step: tuple[State, State] | None = None
        try:
            with super()._begun(engine) as session:
                if engine is not self._writer:
                    yield session
                    return
                before = self._turn(session)
                session.info[_TURN] = before
                yield session
                step = before, state(session)
                self.own.add(step)
        except BaseException as error:
            if step is not None:
                self.own.drop(step)
                if isinstance(error, GoneError):
                    raise in_doubt(self.place) from error
            raise

    @override
    def _hold_against_others(self, writing: Writing) -> None:
        since = getattr(self._shared, "stands_on", None)
        if isinstance(since, State):
            now = writing.session.info[_TURN]
            refuse_overtaken(writing.session, writing.changes, since, self.own, now)

    def _turn(self, session: Session) -> State:
        """Give the state as the turn to write came; refuse a form made since."""
        form = select(func.max(MigrationRow.id)).scalar_subquery()
        found, *of = session.execute(select(form, *STATE)).one()
        if found != self._form:
            raise StoreError(
                tr("{place} was brought up to date by a newer growdesk.").format(
                    place=self.place
                ),
                tr("Close growdesk here and start it again; nothing was written."),
            )
        return state_of(*of)
