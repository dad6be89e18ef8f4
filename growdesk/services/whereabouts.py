"""Where a collection lies: in a folder of its own, or on a server with a shared folder.

Its photos and its backups lie in that folder either way. What has to read the one file
of a collection is given a passing copy where a server keeps it.
"""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services.long_work import quietly
from growdesk.store.folder_names import FILE_NAME

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.server_address import ServerAddress
    from growdesk.services.long_work import Step

_IN_PASSING = "growdesk-server-"


@dataclass(frozen=True, slots=True)
class OnServer:
    """A collection on a server; ``folder`` holds its photos and its backups."""

    address: ServerAddress
    folder: Path


Where: TypeAlias = Path | OnServer


def folder_of(where: Where) -> Path:
    """Give the folder of a collection's photos and backups."""
    return where if isinstance(where, Path) else where.folder


def called(where: Where) -> str:
    """Give what a person knows a collection by; never an address with a password."""
    return str(where) if isinstance(where, Path) else where.address.called


def check_photos_folder(folder: Path, named: str = "--photos") -> None:
    """Refuse a shared folder in which another collection keeps its own photos."""
    if folder.exists() and not folder.is_dir():
        hint = tr("Name a folder that all who use the collection reach.")
        raise InputError(named, str(folder), tr("is a file, not a folder"), hint)
    if (folder / FILE_NAME).exists():
        hint = tr("Name another folder, one that all who use the collection reach.")
        problem = tr("holds a collection of its own")
        raise InputError(named, str(folder), problem, hint)


@contextmanager
def file_of(where: Where, step: Step = quietly) -> Iterator[Path]:
    """Give the file of a collection: its own, or a passing copy of what a server has.

    ``step`` is told how far the copy is, and may stop it.
    """
    if isinstance(where, Path):
        yield where / FILE_NAME
        return
    from growdesk.services.server_copy import copy_server  # noqa: PLC0415 -- with a server
    from growdesk.store.whole_files import passing  # noqa: PLC0415 -- ditto

    with passing(_IN_PASSING) as made:
        copy_server(where, made / FILE_NAME, step)
        yield made / FILE_NAME
