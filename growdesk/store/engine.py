"""An engine for one collection file, with the pragmas and transactions it needs.

One file at rest (TRUNCATE), every commit on the disk (FULL), nothing of a change in
the file before its commit (no spill), no mapped memory, foreign keys held, and a BEGIN
that we send ourselves, so that even a change of tables is rolled back whole. It knows
the file's path and no table.
"""

from __future__ import annotations

import sqlite3
from enum import StrEnum
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, QueuePool, create_engine, event

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

BUSY_MS = 5000
IMMEDIATE = "growdesk_immediate"
_PRAGMAS = (
    "foreign_keys = ON",
    "journal_mode = TRUNCATE",
    "synchronous = FULL",
    "cache_spill = OFF",
    "mmap_size = 0",
    f"busy_timeout = {BUSY_MS}",
    "trusted_schema = OFF",
    "cell_size_check = ON",
)


class Apart(StrEnum):
    """How a file is read that SQLite cannot guard: a word of its own address.

    ``STANDING`` plays nothing back that lies beside it, ``UNLOCKED`` takes no lock.
    """

    NOT = ""
    STANDING = "&immutable=1"
    UNLOCKED = "&nolock=1"


def connect(
    path: Path,
    *,
    create: bool = False,
    reading: bool = False,
    apart: Apart = Apart.NOT,
) -> sqlite3.Connection:
    """Give a plain connection that is set up, and begins nothing by itself."""
    mode = "ro" if reading else "rwc" if create else "rw"
    connection = sqlite3.connect(
        f"{path.absolute().as_uri()}?mode={mode}{apart}",
        uri=True,
        isolation_level=None,
        check_same_thread=False,
        timeout=BUSY_MS / 1000,
    )
    try:
        for pragma in _PRAGMAS:
            connection.execute(f"PRAGMA {pragma}").fetchall()
    except BaseException:
        connection.close()
        raise
    return connection


def _nothing() -> None:
    """Do nothing once a change has begun."""


def make_engine(
    path: Path,
    *,
    reading: bool = False,
    apart: Apart = Apart.NOT,
    begun: Callable[[], None] = _nothing,
) -> Engine:
    """Give an engine on a file that is there; it reads until told to write.

    ``begun`` is called when a change has begun and nobody else can begin one.
    """

    def begin(connection: Connection) -> None:
        immediate = connection.get_execution_options().get(IMMEDIATE, False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if immediate else "BEGIN")
        if immediate:
            begun()

    engine = create_engine(
        "sqlite://",
        creator=lambda: connect(path, reading=reading, apart=apart),
        poolclass=QueuePool,
        hide_parameters=True,  # an error must not repeat what a grower typed
    )
    event.listen(engine, "begin", begin)
    return engine


def for_writing(engine: Engine) -> Engine:
    """Give the same engine, whose transactions take the write lock at once."""
    return engine.execution_options(**{IMMEDIATE: True})
