"""Collections of tests on a real server, where ``GROWDESK_TEST_SERVER`` names one.

A folder that a test opens has a database of its own there: made once per process, and
emptied after each test. What a test does to the file itself cannot be done there; such
a test is marked ``file`` and is left out, and how many were is counted.
"""

from __future__ import annotations

import os
from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import create_engine

from growdesk.store import server, server_engine
from growdesk.store.schema import Base
from growdesk.store.server import ServerStore
from growdesk.store.server_opening import none_there
from growdesk.store.store import Store
from growdesk.store.whole_files import PRIVATE, make_folder

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import datetime
    from pathlib import Path

    from sqlalchemy import URL, Engine

SERVER = os.environ.get("GROWDESK_TEST_SERVER", "")
_KEPT = {"migration"}
_EMPTY = "; ".join(
    f'DELETE FROM "{table.name}"'  # noqa: S608 -- our own tables
    for table in reversed(Base.metadata.sorted_tables)
    if table.name not in _KEPT
)


class Databases:
    """Databases of the server, given out by the folder that is opened."""

    def __init__(self, address: str, sort: str = "quick") -> None:
        self._start, _, self._maintained = address.rpartition("/")
        worker = os.environ.get("PYTEST_XDIST_WORKER", os.getpid())
        self._own = f"growdesk_{sort}_{worker}"
        self._free: list[str] = []
        self._made = 0
        self._of: dict[Path, str] = {}
        self._compiled: dict[object, object] = {}
        self._engines: dict[str, Engine] = {}
        self._stack: list[Engine] = []

    def address(self, name: str) -> str:
        """Give the address of a database."""
        return f"{self._start}/{name}"

    def of_folder(self, folder: Path, *, create: bool) -> str:
        """Give the address of a folder's database; raises as a folder without does."""
        if folder not in self._of:
            if not create:
                raise none_there(str(folder))
            self._of[folder] = self._free.pop() if self._free else self.new()
            make_folder(folder, PRIVATE)
        return self.address(self._of[folder])

    def new(self) -> str:
        """Make an empty database and give its name."""
        self._made += 1
        name = f"{self._own}_{self._made}"
        with self.alone() as execute:
            execute(f'DROP DATABASE IF EXISTS "{name}" WITH (FORCE)')
            execute(f'CREATE DATABASE "{name}" TEMPLATE template0')
        return name

    def take_away(self, name: str) -> None:
        """Take a database away, whoever still looks at it."""
        with self.alone() as execute:
            execute(f'DROP DATABASE "{name}" WITH (FORCE)')

    @contextmanager
    def alone(self, name: str = "") -> Iterator[Callable[[str], object]]:
        """Give a way to do statements in a database, each kept at once."""
        engine = create_engine(
            self.address(name or self._maintained), isolation_level="AUTOCOMMIT"
        )
        with engine.connect() as connection:
            yield connection.exec_driver_sql
        engine.dispose()

    def empty(self) -> None:
        """Empty the databases that were given out, for the next test."""
        for name in self._of.values():
            engine = self._engines.get(self.address(name))
            if engine is None:
                continue
            with engine.connect() as connection:
                raw: Any = connection.connection.driver_connection
                raw.execute(_EMPTY)
                raw.commit()
            self._free.append(name)
        self._of.clear()

    def close(self) -> None:
        """Close all connections that were kept."""
        for engine in self._stack:
            engine.pool.dispose()

    def engine(self, url: URL) -> Engine:
        """Give the one engine of an address, which keeps its connections."""
        name = url.render_as_string(hide_password=False)
        if name not in self._engines:
            made = _make_engine(url).execution_options(compiled_cache=self._compiled)
            self._engines[name] = made
            self._stack.append(made)
            made.dialect = self._stack[0].dialect
            made.dispose = lambda close=True: None  # type: ignore[method-assign] # noqa: ARG005
        return self._engines[name]


def let_go() -> None:
    """Close all connections, when all tests are done."""
    if _databases is not None:
        _databases.close()


_make_engine = server_engine.make_server_engine
_databases = Databases(SERVER) if SERVER else None


@contextmanager
def stores_on_server() -> Iterator[None]:
    """Let every folder that is opened meanwhile be a database; nothing without one."""
    if _databases is None:
        yield
        return
    databases = _databases

    def opened(
        _: type[Store],
        folder: Path,
        now: Callable[[], datetime],
        *,
        create: bool = False,
    ) -> ServerStore:
        address = databases.of_folder(folder, create=create)
        return ServerStore.open(address, folder, now, create=create)

    with ExitStack() as stack, pytest.MonkeyPatch.context() as patch:
        stack.callback(databases.empty)
        patch.setattr(Store, "open", classmethod(opened))
        patch.setattr(Store, "open_to_read", classmethod(opened))
        patch.setattr(server, "make_server_engine", databases.engine)
        yield
