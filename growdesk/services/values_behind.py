"""Tells whether a value that growdesk could not have written is behind a fault.

A file may hold text where a number belongs, a day that no calendar has, or a row that
points at none, and reading it then fails anywhere. So whoever met a fault of ours asks
here first: where the file is to blame, it is damage with a plant and a field, and it is
told with the way to mend it.
"""

from __future__ import annotations

import logging
from contextlib import closing
from functools import partial
from typing import TYPE_CHECKING

from growdesk.domain.errors import DamagedError
from growdesk.domain.speech import tr
from growdesk.services.entry_words import Owners
from growdesk.services.soundness import found_in_rows, orphan_problems
from growdesk.store.engine import connect
from growdesk.store.form import check_form
from growdesk.store.store import Store
from growdesk.store.trouble import plainly

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.services.ledger import Ledger

log = logging.getLogger(__name__)


class ValueDamagedError(DamagedError):
    """A value in the collection's file is one that growdesk could not have written."""

    reference = "store-value-damaged"


def behind(ledger: Ledger) -> DamagedError | None:
    """Give the damage in an open file's values; none where they are sound.

    A server holds what it keeps to the form of its tables itself.
    """
    store = ledger.store
    return _behind(store.path, store.connected) if isinstance(store, Store) else None


def behind_file(path: Path) -> DamagedError | None:
    """Give the damage in the values of a file that is not open here, if any."""
    return (
        _behind(path, partial(connect, path, reading=True)) if path.exists() else None
    )


def _behind(
    path: Path, connected: Callable[[], sqlite3.Connection]
) -> DamagedError | None:
    try:
        with plainly(path), closing(connected()) as connection:
            connection.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
            check_form(connection, path)
            line = _first(connection)
    except DamagedError as error:
        return error
    except Exception:  # the fault that was met first is told
        log.exception("the values could not be looked at")
        return None
    return None if not line else ValueDamagedError(line, _hint())


def _first(connection: sqlite3.Connection) -> str:
    for each in found_in_rows(connection):
        if each.problem:
            owners = Owners(
                dict(connection.execute("SELECT id, tag FROM plant")),
                dict(connection.execute("SELECT id, name FROM place")),
            )
            called = owners.called(each.table, each.row)
            damaged = tr("The collection is damaged. {entry}, {problem}")
            return damaged.format(entry=called, problem=each.told)
    orphans = orphan_problems(connection)
    damaged = tr("The collection is damaged. {problem}")
    return damaged.format(problem=orphans[0]) if orphans else ""


def _hint() -> str:
    return tr(
        "File, Look the collection through (or: growdesk check) shows all of it, and"
        " sets back what the history knows."
    )
