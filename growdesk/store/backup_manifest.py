"""What a kept backup says of itself: made when and why, how many rows, which files.

It lies beside the backup's database as ``manifest.json`` and carries the digest of its
own text. Photos are named as in a collection and lie in the pool of all backups.
"""

from __future__ import annotations

import hashlib
import json
import re
from datetime import datetime
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from growdesk.domain.errors import DamagedError, StoreError
from growdesk.domain.speech import tr
from growdesk.domain.thinning import Why
from growdesk.store.regular_files import (
    StrangeFileError,
    TooLargeError,
    read_regular,
)
from growdesk.store.whole_files import write_whole

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

MANIFEST = "manifest.json"
DATABASE = "collection.sqlite"
PHOTO = re.compile(r"photos/([0-9a-f]{2})/(\1[0-9a-f]{62})\.[a-z0-9]{1,5}")
FORM = 1
_PROGRAM = "growdesk"
_DIGEST = re.compile(r"[0-9a-f]{64}")
_MOST_BYTES = 50_000_000
_MOST_COUNTED = 1 << 53
_YEARS = range(1970, 9999)
_NONE_OF_OURS = (
    ValueError,
    KeyError,
    TypeError,
    AttributeError,
    RecursionError,
    StopIteration,
    TooLargeError,
    StrangeFileError,
)


class Held(Struct, frozen=True):
    """One file of a backup: its name, its SHA-256 and its length."""

    name: str
    sha256: str
    length_bytes: int


class Lacking(Struct, frozen=True):
    """A photo that was not whole in the collection when the backup was made."""

    name: str
    damaged: bool


class Manifest(Struct, frozen=True):
    """All that a kept backup says of itself; ``made_at`` is UTC.

    ``number`` counts the backups of a collection, so that their order asks no clock.
    ``mark`` is how far the history had come; ``rows`` counts each table's rows.
    """

    number: int
    made_at: datetime
    why: Why
    schema: int
    mark: str
    rows: Mapping[str, int]
    files: tuple[Held, ...]
    lacking: tuple[Lacking, ...] = ()

    @property
    def database(self) -> Held:
        """Give the entry of the database."""
        return next(held for held in self.files if held.name == DATABASE)

    @property
    def photos(self) -> tuple[Held, ...]:
        """Give the entries of the photos."""
        return tuple(held for held in self.files if held.name != DATABASE)


def write_manifest(folder: Path, manifest: Manifest) -> None:
    """Write a manifest into a backup's folder, whole."""
    told = _told(manifest)
    told["digest"] = _digest(told)
    write_whole(folder / MANIFEST, json.dumps(told, indent=1).encode())


def read_manifest(folder: Path) -> Manifest:
    """Give the manifest in a backup's folder, or say in one line what it is not."""
    path = folder / MANIFEST
    try:
        read = json.loads(read_regular(path, _MOST_BYTES))
        if read["program"] == _PROGRAM and read["form"] > FORM:
            raise StoreError(
                tr("{name} was made by a newer growdesk.").format(name=folder.name),
                tr("Bring it back with that one."),
            )
        manifest = _read(read)
    except FileNotFoundError as error:
        raise DamagedError(
            tr("{name} has lost its list of files.").format(name=folder.name)
        ) from error
    except _NONE_OF_OURS as error:
        raise DamagedError(
            tr("The list of files of {name} is damaged.").format(name=folder.name)
        ) from error
    return manifest


def _told(manifest: Manifest) -> dict[str, Any]:
    return {
        "program": _PROGRAM,
        "form": FORM,
        "number": manifest.number,
        "made_at": manifest.made_at.isoformat(timespec="seconds"),
        "why": manifest.why.value,
        "schema": manifest.schema,
        "mark": manifest.mark,
        "rows": dict(manifest.rows),
        "files": [
            {"name": held.name, "sha256": held.sha256, "bytes": held.length_bytes}
            for held in manifest.files
        ],
        "lacking": [
            {"name": each.name, "damaged": each.damaged} for each in manifest.lacking
        ],
    }


def _digest(told: Mapping[str, Any]) -> str:
    text = json.dumps(told, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()


def _read(read: dict[str, Any]) -> Manifest:
    digest = read.pop("digest")
    if read["program"] != _PROGRAM or digest != _digest(read):
        raise ValueError
    made_at = datetime.fromisoformat(read["made_at"])
    if made_at.tzinfo is None or made_at.year not in _YEARS:
        raise ValueError
    manifest = Manifest(
        number=_whole(read["number"]),
        made_at=made_at,
        why=Why(read["why"]),
        schema=_whole(read["schema"]),
        mark=_text(read["mark"]),
        rows={_text(name): _whole(rows) for name, rows in read["rows"].items()},
        files=tuple(_held(entry) for entry in read["files"]),
        lacking=tuple(
            Lacking(_photo_name(entry["name"]), entry["damaged"] is True)
            for entry in read["lacking"]
        ),
    )
    if len({held.name for held in manifest.files}) < len(manifest.files):
        raise ValueError
    _ = manifest.database
    return manifest


def _held(entry: dict[str, Any]) -> Held:
    name, digest = entry["name"], _text(entry["sha256"])
    if name != DATABASE:
        _photo_name(name)
    if not _DIGEST.fullmatch(digest):
        raise ValueError
    return Held(name, digest, _whole(entry["bytes"]))


def _photo_name(name: object) -> str:
    if not isinstance(name, str) or not PHOTO.fullmatch(name):
        raise ValueError
    return name


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError
    return value


def _whole(value: object) -> int:
    if not isinstance(value, int) or isinstance(value, bool):
        raise TypeError
    if not 0 <= value < _MOST_COUNTED:
        raise ValueError
    return value
