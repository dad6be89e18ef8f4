"""Kept backups: copied, proved in depth and named, beside a plain copy."""

from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from growdesk.domain.thinning import Why
from growdesk.services import backups
from growdesk.store.backup_sets import BACKUPS
from growdesk.store.folder_names import FILE_NAME
from tests.bench.bars import Bar, Limit, Pair

if TYPE_CHECKING:
    from tests.bench.ground import Ground


def kept(ground: Ground) -> Pair:
    """Keep a backup as before bringing a collection to a new form."""
    folder = ground.copy(photos=False)
    with closing(sqlite3.connect(folder / FILE_NAME)) as file, file:
        file.execute("DELETE FROM photo")  # or each would be told as lacking
    copied = ground.tmp / "copied.sqlite"

    def base() -> None:
        with (folder / FILE_NAME).open("rb") as source, copied.open("wb") as target:
            shutil.copyfileobj(source, target, 1 << 20)
            target.flush()
            os.fsync(target.fileno())

    def before() -> None:
        shutil.rmtree(folder / BACKUPS, ignore_errors=True)

    def ours() -> None:
        backups.make(folder, Why.BEFORE_FORM, datetime(2026, 11, 25, tzinfo=UTC))

    return Pair(ours, base, before)


BARS = (
    Bar(
        "keeping-backup",
        "Backup kept, with SQLite's full check of it",
        "copy and fsync of the same file",
        Limit.times(4),
        kept,
        (10_000,),
    ),
)
