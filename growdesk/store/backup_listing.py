"""Which backups lie in a folder, and whether they are whole.

A listing looks at names and lengths; ``prove`` reads every byte. What earlier growdesks
kept before a new form is a single file without photos and is listed with the others.
"""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.domain.thinning import Why
from growdesk.store.backup_copy import at_rest, look_at_rest
from growdesk.store.backup_manifest import (
    DATABASE,
    MANIFEST,
    Held,
    Manifest,
    read_manifest,
)
from growdesk.store.backup_pool import PHOTOS, is_whole, photos_below
from growdesk.store.trouble import plainly

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    Step = Callable[[int, int], object]

NAME = re.compile(r"(\d{4}-\d\d-\d\d)-(\d{6})-([a-z-]+?)(?:-(\d+))?", re.ASCII)
EARLIER = re.compile(
    r"before-form-\d{1,4}-from-(\d{1,4})-(\d{8}T\d{6}Z)\.sqlite", re.ASCII
)
"""The name of a single file that earlier growdesks kept before a new form."""
_UNKNOWN = datetime(1970, 1, 2)  # noqa: DTZ001 -- no instant, and in no zone


def quietly(_done: int, _of: int) -> None:
    """Go on, and tell nobody."""


class Kept(Struct, frozen=True):
    """One kept backup as it lies; ``problem`` says why it is not whole, if known.

    ``path`` is its folder; of an earlier growdesk it is a single file without photos.
    """

    path: Path
    manifest: Manifest
    problem: str = ""

    @property
    def is_earlier(self) -> bool:
        """Tell whether an earlier growdesk kept it, as a single file."""
        return EARLIER.fullmatch(self.path.name) is not None

    @property
    def database(self) -> Path:
        """Give where its database lies."""
        return self.path if self.is_earlier else self.path / DATABASE

    @property
    def photos(self) -> dict[str, Path]:
        """Give where its photos lie in the pool, by their names in a collection."""
        root = self.path.parent
        return {held.name: root / held.name for held in self.manifest.photos}


def kept_in(root: Path) -> tuple[Kept, ...]:
    """Give all backups in a folder, the one that was made last first."""
    if not root.is_dir():
        return ()
    lengths = {name: at.st_size for name, at in photos_below(root).items()}
    found = [_read(path, lengths) for path in root.iterdir() if _is_backup(path)]
    return tuple(sorted(found, key=_order(found), reverse=True))


def photos_needed(root: Path) -> set[str] | None:
    """Give the photos that any backup in a folder needs; nothing where one hides them.

    One that a person has renamed or put into a folder of their own counts too.
    """
    needed: set[str] = set()
    for path in root.iterdir():
        if path.name == PHOTOS or not path.is_dir():
            continue
        files = (file for name in (MANIFEST, DATABASE) for file in path.rglob(name))
        holders = {file.parent for file in files}
        if NAME.fullmatch(path.name):
            holders.add(path)
        try:
            for each in holders:
                with plainly(each):
                    needed.update(held.name for held in read_manifest(each).photos)
        except StoreError:
            return None
    return needed


def is_last_of(root: Path, day: str) -> bool:
    """Tell by the names alone whether the last backup is of a day, as 2026-11-26.

    Where any is dated later the names do not tell: the clock was set back.
    """
    if not root.is_dir():
        return False
    named = (NAME.fullmatch(path.name) for path in root.iterdir())
    return max((found[1] for found in named if found is not None), default="") == day


def prove(kept: Kept, step: Step = quietly) -> str:
    """Read a backup through; give in a line what is wrong with it, or nothing."""
    if kept.problem:
        return kept.problem
    try:
        with plainly(kept.path):
            return _prove_database(kept) or _prove_photos(kept, step)
    except StoreError as error:
        return error.message


def _order(found: Sequence[Kept]) -> Callable[[Kept], tuple[int, datetime]]:
    """Give the order in which backups were made: by number, never by the clock.

    One that has lost its number stands after the last that was made before its time.
    """
    numbered = [each.manifest for each in found if each.manifest.number]

    def key(kept: Kept) -> tuple[int, datetime]:
        at = kept.manifest.made_at
        before = (told.number for told in numbered if told.made_at <= at)
        return kept.manifest.number or max(before, default=0), at

    return key


def _is_backup(path: Path) -> bool:
    if path.is_symlink():
        return False
    if EARLIER.fullmatch(path.name):
        return path.is_file()
    return NAME.fullmatch(path.name) is not None and path.is_dir()


def _read(path: Path, lengths: dict[str, int]) -> Kept:
    if EARLIER.fullmatch(path.name):
        return _read_earlier(path)
    try:
        with plainly(path):
            manifest = read_manifest(path)
    except StoreError as error:
        return Kept(path, _by_name(path), error.message)
    return Kept(path, manifest, _lengths_problem(path, manifest, lengths))


def _lengths_problem(path: Path, manifest: Manifest, lengths: dict[str, int]) -> str:
    """Tell what lacks or has another length than it had."""
    told = manifest.database
    try:
        length = (path / DATABASE).lstat().st_size
    except OSError:
        return tr("{name} has lost its {file}.").format(name=path.name, file=told.name)
    if length != told.length_bytes:
        return _changed(path, told)
    for held in manifest.photos:
        if held.name not in lengths:
            return tr("{name} has lost its {file}.").format(
                name=path.name, file=held.name
            )
        if lengths[held.name] != held.length_bytes:
            return _changed(path, held)
    return ""


def _read_earlier(path: Path) -> Kept:
    """Read what an earlier growdesk kept: its name, and the counts inside."""
    named = EARLIER.fullmatch(path.name)
    schema, stamp = (named[1], named[2]) if named else ("0", "")
    made_at = _instant(stamp, "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)
    length, rows, problem = path.lstat().st_size, {}, ""
    try:
        with closing(at_rest(path)) as connection:
            for table in ("plant", "photo"):
                found = connection.execute(f"SELECT count(*) FROM {table}")  # noqa: S608 -- our own names
                rows[table] = int(found.fetchone()[0])
    except sqlite3.Error:
        problem = tr("{path} is damaged.").format(path=path)
    files = (Held(DATABASE, "", length),)
    manifest = Manifest(0, made_at, Why.BEFORE_FORM, int(schema), "", rows, files)
    return Kept(path, manifest, problem)


def _by_name(path: Path) -> Manifest:
    """Give what the name alone tells of a backup whose list of files is not whole."""
    named = NAME.fullmatch(path.name)
    stamp = f"{named[1]} {named[2]}" if named else ""
    made_at = _instant(stamp, "%Y-%m-%d %H%M%S").astimezone(UTC)
    known = {why.value: why for why in Why}
    why = known.get(named[3] if named else "", Why.DAILY)
    return Manifest(0, made_at, why, 0, "", {}, (Held(DATABASE, "", 0),))


def _instant(stamp: str, form: str) -> datetime:
    try:
        found = datetime.strptime(stamp, form)  # noqa: DTZ007 -- the caller knows the zone
    except ValueError:
        return _UNKNOWN
    return found if 1970 < found.year < 9999 else _UNKNOWN


def _prove_database(kept: Kept) -> str:
    told = kept.manifest.database
    if kept.is_earlier:
        look_at_rest(kept.database)
        return ""
    if not is_whole(kept.database, told.sha256):
        return _changed(kept.path, told)
    snapshot = look_at_rest(kept.database)
    if (snapshot.schema, snapshot.rows) != (
        kept.manifest.schema,
        dict(kept.manifest.rows),
    ):
        return _changed(kept.path, told)
    return ""


def _prove_photos(kept: Kept, step: Step) -> str:
    photos = kept.manifest.photos
    for done, held in enumerate(photos):
        step(done, len(photos))
        path = kept.path.parent / held.name
        if not is_whole(path, held.sha256):
            return _changed(kept.path, held)
    return ""


def _changed(path: Path, held: Held) -> str:
    return tr("{name} is damaged: {file} is not what it was.").format(
        name=path.name, file=held.name
    )
