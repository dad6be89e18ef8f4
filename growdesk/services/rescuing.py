"""Makes a new collection of all that can be read of a damaged one.

The damaged file is read and left as it is. What its tables lost and the history still
holds is brought back; what then points at nothing is cut loose, or kept under a
stand-in. The new collection is made beside, looked through, and only then given its
name. What is not as it was is told line by line.
"""

from __future__ import annotations

import sqlite3
import tempfile
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError, LookOnlyError, StoreError
from growdesk.domain.speech import tr
from growdesk.services import rescue_history, rescue_words
from growdesk.services.account import account_name
from growdesk.services.check_values import Sort
from growdesk.services.entry_words import Owners
from growdesk.services.full_check import look_through
from growdesk.services.long_work import quietly
from growdesk.services.rescue_filling import Filling
from growdesk.services.rescue_photos import save_photos
from growdesk.services.rescue_values import Rescued
from growdesk.store.engine import connect
from growdesk.store.journal import Stamp
from growdesk.store.lock import FolderLock
from growdesk.store.migrating import bring_up_to_date, create_database
from growdesk.store.migrations import MIGRATIONS
from growdesk.store.noting import note_at
from growdesk.store.salvage import salvage
from growdesk.store.schema import RECORDED
from growdesk.store.store import FILE_NAME
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import make_folder, sync_all, sync_folder

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import datetime

    from growdesk.services.long_work import Step
    from growdesk.services.rescue_rows import Note
    from growdesk.services.rescue_values import Saved
    from growdesk.store.salvage import Salvaged


def rescue(folder: Path, into: Path, now: datetime, step: Step = quietly) -> Rescued:
    """Save what can be read of the collection in ``folder`` into a new folder.

    Raises InputError where ``into`` is taken, StoreError where there is nothing to
    read. A stop leaves nothing behind.
    """
    source = folder / FILE_NAME
    into = into.absolute()
    _refuse(folder, source, into)
    with _locked(folder), plainly(into):
        make_folder(into.parent)
        prefix = f".{into.name}-rescuing-"
        with tempfile.TemporaryDirectory(prefix=prefix, dir=into.parent) as made:
            new, work = Path(made) / "new", Path(made) / "work"
            new.mkdir()
            work.mkdir()
            with plainly(source):
                found = salvage(source, work, step)
            create_database(new / FILE_NAME, now, MIGRATIONS[: found.schema])
            notes, saved, keeps = _fill(found, new / FILE_NAME, step)
            bring_up_to_date(new / FILE_NAME, now)
            photos, photo_lines = save_photos(folder, new, step)
            lines = [*_said(found, new, notes, saved), *photo_lines]
            lines += _left_over(new, step)
            _note(folder, new, now)
            sync_all(new)
            if into.exists():
                into.rmdir()
            new.rename(into)
        sync_folder(into.parent)
    return Rescued(into, tuple(saved), photos, len(photo_lines), keeps, tuple(lines))


def free_name(folder: Path) -> Path:
    """Give a name beside a collection that nothing has yet."""
    number = 1
    into = folder.with_name(f"{folder.name}-rescued")
    while into.exists():
        number += 1
        into = folder.with_name(f"{folder.name}-rescued-{number}")
    return into


@contextmanager
def _locked(folder: Path) -> Iterator[None]:
    """Keep others from writing meanwhile, where the folder takes a lock."""
    try:
        lock = FolderLock(folder)
    except LookOnlyError:
        yield
        return
    try:
        yield
    finally:
        lock.release()


def _refuse(folder: Path, source: Path, into: Path) -> None:
    if not source.is_file():
        raise StoreError(
            tr("There is no collection in {folder}.").format(folder=folder),
            tr("Choose the folder that holds collection.sqlite."),
        )
    hint = tr("Choose an empty folder, or a new one.")
    if into.exists() and not (into.is_dir() and not any(into.iterdir())):
        raise InputError("--into", str(into), tr("is there already"), hint)
    if into.resolve().is_relative_to(folder.resolve()):
        problem = tr("lies inside the damaged collection")
        raise InputError("--into", str(into), problem, hint)


def _fill(
    found: Salvaged, target: Path, step: Step
) -> tuple[list[Note], list[Saved], bool]:
    with (
        closing(sqlite3.connect(found.path)) as read,
        closing(connect(target)) as into,
    ):
        into.execute("PRAGMA foreign_keys = OFF")
        into.execute("PRAGMA synchronous = OFF")
        into.execute("BEGIN IMMEDIATE")
        filling = Filling(read, into, found, step)
        filling.all()
        keeps = rescue_history.keep(read, into, found, filling.notes, step)
        into.execute("COMMIT")
    return filling.notes, filling.saved(), keeps


def _said(
    found: Salvaged, new: Path, notes: Sequence[Note], saved: Sequence[Saved]
) -> Iterator[str]:
    with closing(connect(new / FILE_NAME, reading=True)) as connection:
        owners = Owners(
            dict(connection.execute("SELECT id, tag FROM plant")),
            dict(connection.execute("SELECT id, name FROM place")),
        )
    yield from rescue_words.lines(notes, owners)
    known = {each.table: each.lost + each.brought_back for each in saved}
    for name, losses in found.losses.items():
        more = losses.cells - known.get(name, 0)
        if name in RECORDED and more > 0:
            yield rescue_words.unknown(name, more)


def _note(folder: Path, new: Path, now: datetime) -> None:
    title = tr("Rescued out of the damaged collection in {folder}")
    stamp = Stamp(int(now.timestamp()), account_name())
    note_at(new / FILE_NAME, title.format(folder=folder.absolute()), stamp)


def _left_over(new: Path, step: Step) -> list[str]:
    """Give what a look through the new collection still finds, its photos apart."""
    found = look_through(new, step)
    return [each.sentence for each in found.damage if each.sort is not Sort.PHOTO]
