"""The migrations in their order. Each is one named function, recorded once it ran."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.store.migrations.m0001_first import first_tables
from growdesk.store.migrations.m0002_depth import decision_in_depth
from growdesk.store.migrations.m0003_mixing import mixing_in_depth
from growdesk.store.migrations.m0004_collection import collection_in_full
from growdesk.store.migrations.m0005_journal import journal_for_good
from growdesk.store.migrations.m0006_finding import found_by_index

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable


class Migration(Struct, frozen=True):
    """One step of the schema.

    ``compatible_from`` is the oldest schema whose program may still open the file
    afterwards; keep it where old programs only miss something new. ``takes`` names the
    tables that may lose rows by the step; where others do, it is rolled back.
    """

    number: int
    name: str
    compatible_from: int
    run: Callable[[sqlite3.Connection], None]
    takes: frozenset[str] = frozenset()


MIGRATIONS: tuple[Migration, ...] = (
    Migration(number=1, name="first", compatible_from=1, run=first_tables),
    Migration(number=2, name="depth", compatible_from=2, run=decision_in_depth),
    Migration(number=3, name="mixing", compatible_from=3, run=mixing_in_depth),
    Migration(number=4, name="collection", compatible_from=4, run=collection_in_full),
    Migration(number=5, name="journal", compatible_from=5, run=journal_for_good),
    Migration(number=6, name="finding", compatible_from=5, run=found_by_index),
)

SCHEMA = MIGRATIONS[-1].number
