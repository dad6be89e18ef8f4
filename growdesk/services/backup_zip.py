"""The one-file form of a backup: what may be in it, and that it is what was put in.

A backup is a zip of the database, the photos, and a manifest with each file's SHA-256.
Only names known here are ever read, into names of our own making; nothing is trusted
that the manifest does not vouch for. It knows no SQLite.
"""

from __future__ import annotations

import hashlib
import json
import re
import zipfile
from datetime import UTC, datetime
from typing import IO, TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import DamagedError, ForeignError, StoreError
from growdesk.domain.speech import tr
from growdesk.services.long_work import quietly
from growdesk.services.zip_opening import ANOTHER, OTHER, opened

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.long_work import Step

PROGRAM = "growdesk"
FORM = 1
MANIFEST = "manifest.json"
DATABASE = "collection.sqlite"
PHOTO = re.compile(r"photos/([0-9a-f]{2})/(\1[0-9a-f]{62})\.[a-z0-9]{1,5}")

_UNMEANT = (ValueError, KeyError, TypeError, OverflowError, RecursionError)
_BLOCK_BYTES = 1 << 20
_MOST_MANIFEST_BYTES = 25_000_000


class Entry(Struct, frozen=True):
    """One file of a backup: its name in it, its SHA-256 and its length."""

    name: str
    sha256: str
    length_bytes: int


class Manifest(Struct, frozen=True):
    """What a backup says of itself."""

    made_at: str
    entries: tuple[Entry, ...]


def pack(
    target: Path, files: dict[str, Path], made_at: datetime, step: Step = quietly
) -> Manifest:
    """Write files into one zip with their manifest, and give the manifest."""
    entries = []
    target.touch(0o600)  # it holds photos whole: the owner's alone
    with zipfile.ZipFile(target, "w", zipfile.ZIP_STORED, allowZip64=True) as packed:
        for done, (name, path) in enumerate(files.items()):
            step(done, len(files))
            with (
                path.open("rb") as source,
                packed.open(name, "w", force_zip64=True) as to,
            ):
                entries.append(_copy(name, source, to))
        manifest = Manifest(made_at.isoformat(timespec="seconds"), tuple(entries))
        packed.writestr(MANIFEST, _manifest_text(manifest))
    return manifest


def unpack(source: Path, folder: Path, step: Step = quietly) -> Manifest:
    """Write a backup's files below an empty folder, each proved by its SHA-256."""
    with opened(source) as packed:
        manifest = _checked(packed, source)
        for done, entry in enumerate(manifest.entries):
            step(done, len(manifest.entries))
            path = folder.joinpath(*entry.name.split("/"))
            path.parent.mkdir(parents=True, exist_ok=True)
            with packed.open(entry.name) as read, path.open("wb") as to:
                _prove(entry, _copy(entry.name, read, to, entry.length_bytes), source)
        return manifest


def prove(source: Path, step: Step = quietly) -> Manifest:
    """Read a whole backup and give its manifest, or say what is wrong with it."""
    with opened(source) as packed:
        manifest = _checked(packed, source)
        for done, entry in enumerate(manifest.entries):
            step(done, len(manifest.entries))
            with packed.open(entry.name) as read:
                _prove(entry, _copy(entry.name, read, None, entry.length_bytes), source)
        return manifest


def read_manifest(source: Path) -> Manifest:
    """Give a backup's manifest, its names and lengths checked, its content not."""
    with opened(source) as packed:
        return _checked(packed, source)


def _checked(packed: zipfile.ZipFile, source: Path) -> Manifest:
    names = packed.namelist()
    if MANIFEST not in names:
        raise ForeignError(
            tr("{source} is not a growdesk backup.").format(source=source), tr(OTHER)
        )
    manifest = _manifest(packed, source)
    vouched = {entry.name: entry for entry in manifest.entries}
    if len(set(names)) < len(names) or set(names) != {MANIFEST, *vouched}:
        raise DamagedError(
            tr("{source} does not hold the files its manifest names.").format(
                source=source
            ),
            tr(ANOTHER),
        )
    if DATABASE not in vouched:
        raise DamagedError(
            tr("{source} holds no {database}.").format(
                source=source, database=DATABASE
            ),
            tr(ANOTHER),
        )
    for info in packed.infolist():
        _check_length(info, vouched.get(info.filename), source)
    return manifest


def _check_length(info: zipfile.ZipInfo, entry: Entry | None, source: Path) -> None:
    if entry is not None and entry.length_bytes != info.file_size:
        raise DamagedError(
            tr("{source} has the wrong length for {filename}.").format(
                source=source, filename=info.filename
            ),
            tr(ANOTHER),
        )


def _manifest(packed: zipfile.ZipFile, source: Path) -> Manifest:
    if packed.getinfo(MANIFEST).file_size > _MOST_MANIFEST_BYTES:
        raise DamagedError(
            tr("{source} has a manifest that is too long.").format(source=source),
            tr(ANOTHER),
        )
    try:
        read = json.loads(packed.read(MANIFEST))
        if read["program"] != PROGRAM:
            raise ForeignError(
                tr("{source} is not a growdesk backup.").format(source=source),
                tr(OTHER),
            )
        if _whole(read["form"]) > FORM:
            raise StoreError(
                tr("{source} was made by a newer growdesk.").format(source=source),
                tr("Restore it with that one."),
            )
        entries = tuple(_entry(entry) for entry in read["files"])
        made_at = _instant(read["made_at"])
    except _UNMEANT as error:
        raise DamagedError(
            tr("{source} has a manifest that is damaged.").format(source=source),
            tr(ANOTHER),
        ) from error
    return Manifest(made_at, entries)


def _entry(read: dict[str, object]) -> Entry:
    name, digest = read["name"], read["sha256"]
    if not isinstance(name, str) or not isinstance(digest, str):
        raise TypeError
    photo = PHOTO.fullmatch(name)
    if name != DATABASE and photo is None:
        message = tr("{name!r} is no name of a backup").format(name=name)
        raise ValueError(message)
    if photo is not None and photo[2] != digest:
        raise ValueError
    return Entry(name, digest, _whole(read["bytes"]))


def _whole(value: object) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or value < 0:
        raise TypeError
    return value


def _instant(text: str) -> str:
    """Give an instant with its place in time; one without is taken as UTC."""
    read = datetime.fromisoformat(text)
    known = read if read.tzinfo is not None else read.replace(tzinfo=UTC)
    known.astimezone(UTC)  # the first and last days of all time have none
    return known.isoformat(timespec="seconds")


def _manifest_text(manifest: Manifest) -> str:
    files = [
        {"name": entry.name, "sha256": entry.sha256, "bytes": entry.length_bytes}
        for entry in manifest.entries
    ]
    whole = {
        "program": PROGRAM,
        "form": FORM,
        "made_at": manifest.made_at,
        "files": files,
    }
    return json.dumps(whole, indent=1)


def _copy(
    name: str, source: IO[bytes], target: IO[bytes] | None, most: int | None = None
) -> Entry:
    """Copy a stream and give its digest; stop where it is longer than it may be."""
    digest, length_bytes = hashlib.sha256(), 0
    while block := source.read(_BLOCK_BYTES):
        length_bytes += len(block)
        if most is not None and length_bytes > most:
            break
        digest.update(block)
        if target is not None:
            target.write(block)
    return Entry(name, digest.hexdigest(), length_bytes)


def _prove(entry: Entry, read: Entry, source: Path) -> None:
    if read != entry:
        raise DamagedError(
            tr("{source} is damaged: {name} has changed.").format(
                source=source, name=entry.name
            ),
            tr(ANOTHER),
        )
