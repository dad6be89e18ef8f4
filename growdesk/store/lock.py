"""A lock on a collection's folder, so that two programs do not write at once.

The system lets go of it when the program ends, however it ends; a lock file that was
left behind means nothing, and no number in it is believed.
"""

from __future__ import annotations

import errno
import os
import sys
from typing import TYPE_CHECKING

from growdesk.domain.errors import BusyError, NoLocksError, StoreError
from growdesk.domain.speech import mark, tr
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
_HELD = {errno.EWOULDBLOCK, errno.EAGAIN, errno.EACCES, errno.EDEADLK}
_NO_LOCKS = {
    errno.ENOLCK,
    errno.ENOTSUP,
    errno.EOPNOTSUPP,
    errno.ENOSYS,
    errno.EINVAL,
    errno.ENOTTY,
}
_NO_LINK = getattr(os, "O_NOFOLLOW", 0)
_CANNOT = mark("The drive of {folder} cannot keep two programs from writing at once.")
_CANNOT_HINT = mark(
    "Copy the collection to a disk of this computer, and open it there."
)


class FolderLock:
    """The held lock of one folder; let go by ``release`` or the program's end.

    Where the folder may not be written, or its drive keeps no locks, a
    ``LookOnlyError`` says so.
    """

    def __init__(self, folder: Path) -> None:
        self._path = folder / LOCK_NAME
        self._descriptor: int | None = self._taken()

    def release(self) -> None:
        """Let go of the folder; a second call does nothing."""
        if self._descriptor is not None:
            os.close(self._descriptor)
            self._descriptor = None

    def renew(self) -> bool:
        """Take the lock anew where its file is another one now, as on a stick put back.

        Tell whether it was. One that somebody else has taken meanwhile is busy.
        """
        if self._descriptor is None:
            return False
        try:
            held, there = os.fstat(self._descriptor), self._path.stat()
            is_same = (held.st_dev, held.st_ino) == (there.st_dev, there.st_ino)
        except OSError:
            is_same = False
        if not is_same:
            taken = self._taken()
            os.close(self._descriptor)
            self._descriptor = taken
        return not is_same

    def _taken(self) -> int:
        descriptor = self._opened()
        try:
            _take(descriptor)
            self._refuse_pretence()
        except OSError as error:
            os.close(descriptor)
            raise self._told(error) from error
        except StoreError:
            os.close(descriptor)
            raise
        return descriptor

    def _opened(self) -> int:
        try:
            return os.open(self._path, os.O_RDWR | os.O_CREAT | _NO_LINK, 0o644)
        except OSError as error:
            bare = OSError(error.errno, error.strerror)
            raise file_trouble(bare, self._path.parent) from error

    def _refuse_pretence(self) -> None:
        """Refuse a drive that gives the same lock twice."""
        second = self._opened()
        try:
            _take(second)
        except OSError:
            return
        finally:
            os.close(second)
        raise self._no_locks()

    def _told(self, error: OSError) -> StoreError:
        if error.errno in _HELD:
            return BusyError(
                tr("The collection in {folder} is open in another growdesk.").format(
                    folder=self._path.parent
                ),
                tr("Close that one first, or use its window."),
            )
        if error.errno in _NO_LOCKS:
            return self._no_locks()
        return file_trouble(error, self._path)

    def _no_locks(self) -> NoLocksError:
        said = tr(_CANNOT).format(folder=self._path.parent)
        return NoLocksError(said, tr(_CANNOT_HINT))
