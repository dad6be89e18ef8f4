"""Make, copy and take away kept backups: a folder each, photos in one pool.

One is made beside the others under a passing name, checked, brought to the disk and
only then named; one that goes is renamed first. So what is listed is whole. Whoever
makes, copies or removes one holds the lock of the folder they lie in.
"""

from __future__ import annotations

import os
import re
import shutil
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.errors import BusyError, StoreError
from growdesk.domain.speech import tr
from growdesk.domain.thinning import Dated, Why, to_go
from growdesk.store import whole_files
from growdesk.store.backup_copy import at_rest, take_snapshot
from growdesk.store.backup_listing import (
    NAME,
    Kept,
    kept_in,
    photos_needed,
    prove,
    quietly,
)
from growdesk.store.backup_manifest import (
    DATABASE,
    PHOTO,
    Held,
    Lacking,
    Manifest,
    write_manifest,
)
from growdesk.store.backup_pool import (
    PHOTOS,
    Pool,
    clean,
    copy_whole,
    photos_below,
    sha256_of,
)
from growdesk.store.lock import FolderLock
from growdesk.store.regular_files import leads_away
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import PART, make_folder, sync_folder

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date
    from pathlib import Path

    from growdesk.store.backup_copy import Snapshot
    from growdesk.store.backup_listing import Step

BACKUPS = "backups"
_LEFT = re.compile(rf"({NAME.pattern})\.\d+{re.escape(PART)}", re.ASCII)
"""The name of the folder of a backup that is half made, or half taken away."""


def make(
    database: Path,
    why: Why,
    now: datetime,
    step: Step = quietly,
    *,
    anew: bool = True,
    folder: Path | None = None,
) -> Kept:
    """Keep one backup of a collection beside its database, or leave all as it was.

    ``folder`` holds its photos and its backups where that is not the database's own.

    Unless ``anew``, one that was made for the same reason of the same state is given
    instead. Raises DamagedError where the collection is not whole: then none is made.
    """
    home = folder or database.parent
    root = home / BACKUPS
    with plainly(root):
        make_folder(root)
        with _held(root):
            _sweep(root)
            before = kept_in(root)
            with _part(root, _stamp(now, why)) as (part, target):
                making = _Making(home, part, target, before)
                snapshot = take_snapshot(database, part / DATABASE, lambda: step(0, 0))
                same = None if anew else _same_state(making, why, snapshot)
                return same or _finish(making, why, now, snapshot, step)


def copy(kept: Kept, root: Path, step: Step = quietly) -> Kept:
    """Copy a backup into another folder of backups, with a pool of its own.

    A photo that is not whole in the first is held as the second has it, or named as
    lacking. One that is there already, and whole, is given as it is.
    """
    with plainly(root), _held(root):
        _sweep(root)
        before = kept_in(root)
        wanted = kept.manifest.number, kept.manifest.made_at
        for each in before:
            is_it = (each.manifest.number, each.manifest.made_at) == wanted
            if is_it and not each.problem:
                return each
        with _part(root, kept.path.name) as (part, target):
            told = kept.manifest
            copy_whole(kept.database, part / DATABASE, told.database.sha256)
            pool = Pool(root, {each.name: each.length_bytes for each in told.photos})
            names = [each.name for each in told.photos]
            held, missed = _take(pool, kept.path.parent, names, step, by_name=False)
            still = {each.name for each in held}
            lacking = [each for each in missed if each.name not in still]
            manifest = replace(
                told, files=(told.database, *held), lacking=(*told.lacking, *lacking)
            )
            return _name(part, target, manifest)


def remove(root: Path, gone: Sequence[Kept], step: Step = quietly) -> None:
    """Take backups away, and the photos that no other one names."""
    with plainly(root), _held(root):
        _remove(root, gone, step)


def thin(root: Path, now: datetime, step: Step = quietly) -> int:
    """Take away what days, weeks and months need no longer; give how many went.

    Those that are not whole count for nothing, and stay where they are.
    """
    with plainly(root), _held(root):
        sound = [
            each for each in kept_in(root) if not each.problem and not each.is_earlier
        ]
        numbered = dict(enumerate(reversed(sound)))
        dated = (
            Dated(number, local_day(told.made_at), told.why, told.schema)
            for number, told in ((n, each.manifest) for n, each in numbered.items())
        )
        numbers = to_go(dated, local_day(now))
        _remove(root, [numbered[number] for number in sorted(numbers)], step)
        return len(numbers)


def sweep(root: Path) -> None:
    """Take away what a stopped program left half made, unless one is at it now."""
    if root.is_dir():
        with suppress(StoreError), _held(root):
            _sweep(root)


def local_day(instant: datetime) -> date:
    """Give the day of an instant where the machine stands."""
    return instant.astimezone().date()


class _Making(Struct, frozen=True):
    """A backup under way: of which folder, where, and beside which others."""

    folder: Path
    part: Path
    target: Path
    before: Sequence[Kept]


def _finish(
    making: _Making, why: Why, now: datetime, snapshot: Snapshot, step: Step
) -> Kept:
    database = making.part / DATABASE
    held, lacking = _take_photos(making, database, step)
    whole = Held(DATABASE, sha256_of(database), database.stat().st_size)
    manifest = Manifest(
        number=max((each.manifest.number for each in making.before), default=0) + 1,
        made_at=now.astimezone(UTC).replace(microsecond=0),
        why=why,
        schema=snapshot.schema,
        mark=snapshot.mark,
        rows=snapshot.rows,
        files=(whole, *held),
        lacking=lacking,
    )
    return _name(making.part, making.target, manifest)


def _name(part: Path, target: Path, manifest: Manifest) -> Kept:
    """Give a filled folder its manifest, then its name."""
    write_manifest(part, manifest)
    part.rename(target)
    sync_folder(target.parent)
    return Kept(target, manifest)


def _same_state(making: _Making, why: Why, snapshot: Snapshot) -> Kept | None:
    """Give a whole backup that was made for the same reason of the same state."""
    wanted = (why, snapshot.schema, snapshot.mark, snapshot.rows)
    for each in making.before:
        told = each.manifest
        is_same = (told.why, told.schema, told.mark, dict(told.rows)) == wanted
        if is_same and not prove(each):
            return each
    return None


def _take_photos(
    making: _Making, database: Path, step: Step
) -> tuple[list[Held], tuple[Lacking, ...]]:
    folder, root = making.folder, making.target.parent
    lengths = {
        held.name: held.length_bytes
        for each in reversed(making.before)
        for held in each.manifest.photos
    }
    names = sorted({*photos_below(folder), *_photos_named(database)})
    held, lacking = _take(Pool(root, lengths), folder, names, step)
    return held, tuple(lacking)


def _take(
    pool: Pool,
    source: Path,
    names: Sequence[str],
    step: Step,
    *,
    by_name: bool = True,
) -> tuple[list[Held], list[Lacking]]:
    """Take photos into the pool; give what is held, and what was not whole."""
    there = photos_below(source)
    held, lacking = [], []
    for done, name in enumerate(names):
        step(done, len(names))
        found, missed = pool.take(source, name, there.get(name), by_name=by_name)
        held += [found] if found is not None else []
        lacking += [missed] if missed is not None else []
    pool.sync()
    return held, lacking


def _photos_named(database: Path) -> set[str]:
    """Give the names of the photos that a database speaks of."""
    with closing(at_rest(database)) as connection:
        rows = connection.execute("SELECT sha256, ext FROM photo").fetchall()
    named = {f"{PHOTOS}/{str(sha)[:2]}/{sha}.{ext}" for sha, ext in rows}
    return {name for name in named if PHOTO.fullmatch(name)}


def _remove(root: Path, gone: Sequence[Kept], step: Step) -> None:
    for done, each in enumerate(gone):
        step(done, len(gone))
        leaving = root / f"{each.path.name}.{os.getpid()}{PART}"
        each.path.rename(leaving)
        sync_folder(root)
        if leaving.is_dir():
            shutil.rmtree(leaving)
        else:
            leaving.unlink()
    named = photos_needed(root)
    if named is not None:
        clean(root, named)


@contextmanager
def _held(root: Path) -> Iterator[None]:
    """Keep other makers of backups out of a folder of backups, itself and no link."""
    if leads_away(root):
        raise StoreError(
            tr(
                "{folder} is a link to another place, so no backup is kept or taken"
                " away there."
            ).format(folder=root),
            tr("Put a folder in its place, and choose a second place for the other."),
        )
    try:
        lock = FolderLock(root)
    except BusyError as error:
        raise BusyError(
            tr("Another growdesk is busy with the backups in {folder}.").format(
                folder=root
            ),
            tr("Wait a moment, and do it again."),
        ) from error
    try:
        yield
    finally:
        lock.release()


@contextmanager
def _part(root: Path, stem: str) -> Iterator[tuple[Path, Path]]:
    """Give a folder to fill and the free name it gets; gone where it was not named."""
    target, again = root / stem, 1
    while target.exists():
        again += 1
        target = root / f"{stem}-{again}"
    part = root / f"{target.name}.{os.getpid()}{PART}"
    part.mkdir()
    try:
        yield part, target
    finally:
        shutil.rmtree(part, ignore_errors=True)


def _stamp(now: datetime, why: Why) -> str:
    return f"{now.astimezone():%Y-%m-%d-%H%M%S}-{why.value}"


def _sweep(root: Path) -> None:
    whole_files.sweep(root, (PHOTOS,))
    for left in root.iterdir():
        is_ours = _LEFT.fullmatch(left.name) and left.is_dir()
        if is_ours and not leads_away(left):
            shutil.rmtree(left, ignore_errors=True)
