"""Read files of any origin: ordinary ones only, and never more than can be meant.

A pipe would wait for ever and a device has no end; neither is a file of a grower.
"""

from __future__ import annotations

import errno
import hashlib
import os
import select
import stat
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path
    from typing import IO

_PATIENCE_S = 5.0
_NO_WAITING = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)


class TooLargeError(Exception):
    """A file that is larger than what is read."""

    def __init__(self, size: int) -> None:
        super().__init__(size)
        self.size = size


class StrangeFileError(OSError):
    """A pipe, a device or the like where a file should be."""


def leads_away(path: Path) -> bool:
    """Tell whether a name is a link to another place, or a junction of Windows."""
    try:
        state = path.lstat()
    except OSError:
        return False
    junction = getattr(stat, "IO_REPARSE_TAG_MOUNT_POINT", -1)
    tag = getattr(state, "st_reparse_tag", 0)
    return stat.S_ISLNK(state.st_mode) or tag == junction


def is_regular(path: Path) -> bool:
    """Tell whether a name is an ordinary file itself, and no link to one."""
    try:
        return stat.S_ISREG(path.lstat().st_mode)
    except OSError:
        return False


def read_beginning(path: Path, length: int) -> bytes:
    """Give the first bytes of a file; ``OSError`` also for what is no ordinary one."""
    descriptor = os.open(path, os.O_RDONLY | _NO_WAITING)
    with os.fdopen(descriptor, "rb") as file:
        _ordinary(descriptor, path)
        return file.read(length)


def read_end(path: Path, length: int) -> bytes:
    """Give the last bytes of a file; ``OSError`` also for what is no ordinary one."""
    descriptor = os.open(path, os.O_RDONLY | _NO_WAITING)
    with os.fdopen(descriptor, "rb") as file:
        size = _ordinary(descriptor, path).st_size
        file.seek(max(0, size - length))
        return file.read(length)


def read_regular(path: Path, most: int) -> bytes:
    """Give the content of a file of at most ``most`` bytes.

    Raises ``TooLargeError``, and ``OSError`` also for what is no ordinary file.
    """
    descriptor = os.open(path, os.O_RDONLY | _NO_WAITING)
    with os.fdopen(descriptor, "rb") as file:
        size = _ordinary(descriptor, path).st_size
        content = file.read(size + 1) if size <= most else b""
        if len(content) > size:
            content += file.read(most + 1 - len(content))
        size = max(size, len(content))
    if size > most:
        raise TooLargeError(size)
    return content


def sha256_of(path: Path) -> str:
    """Give a file's SHA-256 in hexadecimal digits, read in pieces."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def open_to_read(path: Path) -> IO[bytes]:
    """Open a file, or a pipe that gives something within seconds."""
    descriptor = os.open(path, os.O_RDONLY | _NO_WAITING)
    try:
        if stat.S_ISFIFO(_no_folder(descriptor, path).st_mode):
            _wait_for(descriptor)
        if hasattr(os, "set_blocking"):
            os.set_blocking(descriptor, True)
        return os.fdopen(descriptor, "rb")
    except BaseException:
        os.close(descriptor)
        raise


def _ordinary(descriptor: int, path: Path) -> os.stat_result:
    state = _no_folder(descriptor, path)
    if not stat.S_ISREG(state.st_mode):
        raise StrangeFileError(errno.EINVAL, "no ordinary file", path)
    return state


def _no_folder(descriptor: int, path: Path) -> os.stat_result:
    state = os.fstat(descriptor)
    if stat.S_ISDIR(state.st_mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), path)
    return state


def _wait_for(descriptor: int) -> None:
    ready, _, _ = select.select([descriptor], [], [], _PATIENCE_S)
    if not ready:
        raise TimeoutError(errno.ETIMEDOUT, "nothing comes out of it")


def shown_name(path: Path) -> str:
    """Give a file's name as it can be shown and kept, whatever its bytes are."""
    return path.name.encode("utf-8", "surrogateescape").decode("utf-8", "replace")
