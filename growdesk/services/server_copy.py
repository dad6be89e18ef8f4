"""Copies what a server holds into a file of its own, as any collection's file is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.errors import StoreError
from growdesk.services.clock import SystemClock
from growdesk.store.carrying import carry, into_file
from growdesk.store.migrating import create_database
from growdesk.store.trouble import plainly

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.long_work import Step
    from growdesk.services.whereabouts import OnServer
    from growdesk.store.transactions import Transactions


def copy_server(where: OnServer, path: Path, step: Step) -> None:
    """Copy a server's rows into a new file, and hold the two against each other."""
    from growdesk.store.server import ServerStore  # noqa: PLC0415 -- it loads a driver

    now = SystemClock().now
    store = ServerStore.open(where.address.url, where.folder, now)
    try:
        copy_rows(store, path, step)
    finally:
        store.close()


def copy_rows(store: Transactions, path: Path, step: Step) -> None:
    """Copy the rows of an open collection into a new file, all of one moment."""
    with plainly(path):
        create_database(path, SystemClock().now())
        try:
            with store.reading() as session, into_file(path) as target:
                carry(session.connection(), target, step)
        except (StoreError, OSError):
            path.unlink(missing_ok=True)
            raise
