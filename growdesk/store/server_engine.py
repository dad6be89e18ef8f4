"""An engine for one collection on a server, with the transactions it needs.

Reading sees one state from its first statement to its last, and writes nothing. One
writes at a time, as in a file: a transaction that writes first takes a lock of ours,
which its end gives back whatever that is. Who holds it and says no more, as a computer
that fell asleep, is cut off after some minutes. It knows the address and no table.
"""

from __future__ import annotations

import select
import time
from functools import partial
from typing import TYPE_CHECKING, Any

from sqlalchemy import create_engine, event
from sqlalchemy.exc import DBAPIError, DisconnectionError

from growdesk.store.engine import BUSY_MS, IMMEDIATE
from growdesk.store.header import APPLICATION_ID
from growdesk.store.server_trouble import no_driver

if TYPE_CHECKING:
    from sqlalchemy import URL, Connection, Engine

_SILENT_MS = 300_000
_SETTINGS = {
    "lock_timeout": BUSY_MS,
    "idle_in_transaction_session_timeout": _SILENT_MS,
    "tcp_keepalives_idle": 60,
    "tcp_keepalives_interval": 10,
    "tcp_keepalives_count": 3,
}
_CONNECTING: dict[str, Any] = {
    "application_name": "growdesk",
    "client_encoding": "utf8",
    "connect_timeout": 10,
    "keepalives_idle": 60,
    "keepalives_interval": 10,
    "keepalives_count": 3,
    "tcp_user_timeout": 30_000,
}
_LONG_S = 60.0
_RESTED = "growdesk_rested"
TAKE_TURN = f"SELECT pg_advisory_xact_lock({APPLICATION_ID})"


def make_server_engine(url: URL) -> Engine:
    """Give an engine on a server; nothing is asked of it yet.

    Raises StoreError where its driver is not installed.
    """
    settings = " ".join(f"-c {name}={value}" for name, value in _SETTINGS.items())
    given = url.query.get("options", "")
    options = f"{settings} {given if isinstance(given, str) else ' '.join(given)}"
    ours = {key: value for key, value in _CONNECTING.items() if key not in url.query}
    try:
        engine = create_engine(
            url.difference_update_query(["options"]),
            connect_args={**ours, "options": options.strip()},
            pool_size=2,
            max_overflow=8,
            pool_recycle=1800,
            hide_parameters=True,  # an error must not repeat what a grower typed
        )
    except ImportError as error:
        raise no_driver() from error
    event.listen(engine, "begin", _begin)
    event.listen(engine, "checkin", _rests)
    event.listen(engine, "checkout", partial(_refuse_dead, engine))
    return engine


def reader_of(engine: Engine) -> Engine:
    """Give the same engine, whose transactions see one state and write nothing."""
    return engine.execution_options(
        isolation_level="REPEATABLE READ", postgresql_readonly=True
    )


def writer_of(engine: Engine) -> Engine:
    """Give the same engine, whose transactions wait for their turn to write.

    Each statement sees all that was kept before it, so all before the turn came.
    """
    return engine.execution_options(
        isolation_level="READ COMMITTED", **{IMMEDIATE: True}
    )


def _begin(connection: Connection) -> None:
    if connection.get_execution_options().get(IMMEDIATE, False):
        connection.exec_driver_sql(TAKE_TURN)


def _rests(_connection: Any, record: Any) -> None:
    record.info[_RESTED] = time.monotonic()


def _refuse_dead(engine: Engine, connection: Any, record: Any, _proxy: Any) -> None:
    """Have another connection made where the server has closed this one meanwhile.

    A server that goes says so, and that lies there to be read; it costs no message to
    look. After a long rest it is asked as well: what went silent says nothing.
    """
    since = record.info.get(_RESTED)
    if since is None:
        return
    try:
        if time.monotonic() - since > _LONG_S or _has_word(connection):
            engine.dialect.do_ping(connection)
    except DBAPIError as error:
        raise DisconnectionError from error
    except engine.dialect.loaded_dbapi.Error as error:
        raise DisconnectionError from error


def _has_word(connection: Any) -> bool:
    try:
        return bool(select.select([connection.fileno()], [], [], 0)[0])
    except ValueError:  # more files open than can be looked at
        return True
