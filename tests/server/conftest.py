"""What the tests of the store on a server share: a fresh database for each.

They need ``GROWDESK_TEST_SERVER`` (see ``.ci/postgres``) and take the store as it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.services.collection import Collection
from tests.server_store import SERVER, Databases

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from growdesk.services.clock import FixedClock

ALL: list[Databases] = []


@pytest.fixture(autouse=True)
def quick() -> None:
    """Leave the store as it is; and without a server there is nothing to test."""
    if not SERVER:
        pytest.skip("no server is named by GROWDESK_TEST_SERVER")


@pytest.fixture
def databases() -> Databases:
    if not ALL:
        ALL.append(Databases(SERVER, "own"))
    return ALL[0]


@pytest.fixture
def address(databases: Databases) -> Iterator[str]:
    """Give the address of an empty database, which is taken away afterwards."""
    name = databases.new()
    yield databases.address(name)
    databases.take_away(name)


@pytest.fixture
def on_server(address: str, folder: Path, clock: FixedClock) -> Iterator[Collection]:
    made = Collection.open_on_server(address, folder, clock, create=True)
    yield made
    made.close()
