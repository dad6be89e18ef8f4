"""A lock on a collection's folder, so that two programs do not write at once.

The system lets go of it when the program ends, however it ends; a lock file that was
left behind means nothing.
"""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from growdesk.domain.errors import BusyError
from growdesk.domain.speech import tr
from growdesk.store.trouble import file_trouble

if TYPE_CHECKING:
    from pathlib import Path

if sys.platform == "win32":
    import msvcrt

    def _take(descriptor: int) -> None:
        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _take(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


LOCK_NAME = "collection.lock"


class FolderLock:
    """The held lock of one folder; let go by ``release`` or the program's end."""

    def __init__(self, folder: Path) -> None:
        path = folder / LOCK_NAME
        try:
            descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
        except OSError as error:
            raise file_trouble(error, path) from error
        try:
            _take(descriptor)
        except OSError as error:
            os.close(descriptor)
            raise BusyError(
                tr("The collection in {folder} is open in another growdesk.").format(
                    folder=folder
                ),
                tr("Close that one first, or use its window."),
            ) from error
        self._descriptor: int | None = descriptor

    def release(self) -> None:
        """Let go of the folder; a second call does nothing."""
        if self._descriptor is not None:
            os.close(self._descriptor)
            self._descriptor = None
