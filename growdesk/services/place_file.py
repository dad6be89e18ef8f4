"""What a collection holds, wherever it lies: its one file, and the numbers in it.

What has to read a file is given a passing copy where a server keeps the collection.
"""

from __future__ import annotations

from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.services.long_work import quietly
from growdesk.services.whereabouts import home_of
from growdesk.store.backup_copy import Snapshot, read_snapshot
from growdesk.store.folder_names import FILE_NAME
from growdesk.store.trouble import gone_folder
from growdesk.store.whole_files import passing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.long_work import Step
    from growdesk.services.whereabouts import Where

_IN_PASSING = "growdesk-server-"


def is_there(where: Where) -> bool:
    """Tell whether there is a collection's file, or a folder to keep a backup in."""
    if isinstance(where, Path):
        return (where / FILE_NAME).is_file()
    return where.folder.is_dir()


def folder_there(where: Where) -> Path:
    """Give the folder of photos and backups, refused where a shared one is not there.

    One that is not plugged in, or not connected, must not become a folder here.
    """
    folder = home_of(where)
    if not isinstance(where, Path) and not folder.is_dir():
        raise gone_folder(folder)
    return folder


def snapshot_of(where: Where) -> Snapshot:
    """Give what is true of a collection as it stands now: form, rows, history."""
    if isinstance(where, Path):
        return read_snapshot(where / FILE_NAME)
    from growdesk.services.server_copy import server_snapshot  # noqa: PLC0415 -- with a server

    return server_snapshot(where)


@contextmanager
def file_of(where: Where, step: Step = quietly) -> Iterator[Path]:
    """Give the file of a collection: its own, or a passing copy of what a server has.

    ``step`` is told how far the copy is, and may stop it.
    """
    if isinstance(where, Path):
        yield where / FILE_NAME
        return
    from growdesk.services.server_copy import copy_server  # noqa: PLC0415 -- with a server

    with passing(_IN_PASSING) as made:
        copy_server(where, made / FILE_NAME, step)
        yield made / FILE_NAME
