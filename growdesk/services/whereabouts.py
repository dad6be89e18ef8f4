"""Where a collection lies: in a folder of its own, or on a server with a shared folder.

Its photos and its backups lie in that folder either way.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.store.folder_names import FILE_NAME

if TYPE_CHECKING:
    from growdesk.domain.server_address import ServerAddress


class OnServer(Struct, frozen=True):
    """A collection on a server; ``folder`` holds its photos and its backups."""

    address: ServerAddress
    folder: Path


Where: TypeAlias = Path | OnServer


def home_of(where: Where) -> Path:
    """Give the folder of a collection's photos and backups."""
    return where if isinstance(where, Path) else where.folder


def called(where: Where) -> str:
    """Give what a person knows a collection by; never an address with a password."""
    return str(where) if isinstance(where, Path) else where.address.called


def check_photos_folder(folder: Path, named: str = "photos") -> None:
    """Refuse a shared folder in which another collection keeps its own photos."""
    if folder.exists() and not folder.is_dir():
        hint = tr("Name a folder that all who use the collection reach.")
        raise InputError(named, str(folder), tr("is a file, not a folder"), hint)
    if (folder / FILE_NAME).exists():
        hint = tr("Name another folder, one that all who use the collection reach.")
        problem = tr("holds a collection of its own")
        raise InputError(named, str(folder), problem, hint)
