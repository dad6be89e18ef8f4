"""A store that costs a test little. Its own tests and those of faults do without.

Nothing waits for the disk, an empty database is made once and copied, and a statement
is compiled once, as in a program that opens one collection.
"""

from __future__ import annotations

import os
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import create_engine

from growdesk.store import engine, opening
from growdesk.store.migrating import create_database

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime
    from pathlib import Path

    from sqlalchemy import Engine

_compiled: dict[object, object] = {}
_engines: list[Engine] = []
_empty: dict[datetime, bytes] = {}


@contextmanager
def quick_store() -> Iterator[None]:
    """Make every store that is opened in this process meanwhile a quick one."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(os, "fsync", lambda _descriptor: None)
        patch.setattr(engine, "_PRAGMAS", (*engine._PRAGMAS, "synchronous = OFF"))
        patch.setattr(engine, "create_engine", _engine)
        patch.setattr(opening, "create_database", _database)
        yield


def _engine(url: str, **options: Any) -> Engine:
    """Make an engine that knows what the first one has compiled."""
    made = create_engine(
        url, execution_options={"compiled_cache": _compiled}, **options
    )
    if not _engines:
        _engines.append(made)
    made.dialect = _engines[0].dialect  # what is compiled is found by its dialect
    return made


def _database(path: Path, now: datetime) -> None:
    """Make an empty database of that moment, or copy the one that was made."""
    if now not in _empty:
        create_database(path, now)
        _empty[now] = path.read_bytes()
    path.write_bytes(_empty[now])
