"""Read files of any origin: ordinary ones only, and never more than can be meant.

A pipe would wait for ever and a device has no end; neither is a file of a grower.
"""

from __future__ import annotations

import errno
import os
import stat
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

_NO_WAITING = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)


class TooLargeError(Exception):
    """A file that is larger than what is read."""

    def __init__(self, size: int) -> None:
        super().__init__(size)
        self.size = size


def read_regular(path: Path, most: int) -> bytes:
    """Give the content of a file of at most ``most`` bytes.

    Raises ``TooLargeError``, and ``OSError`` also for what is no ordinary file.
    """
    descriptor = os.open(path, os.O_RDONLY | _NO_WAITING)
    with os.fdopen(descriptor, "rb") as file:
        state = os.fstat(descriptor)
        if stat.S_ISDIR(state.st_mode):
            raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), path)
        if not stat.S_ISREG(state.st_mode):
            raise OSError(errno.EINVAL, "no ordinary file", path)
        content = file.read(most + 1) if state.st_size <= most else b""
        size = max(state.st_size, len(content))
    if size > most:
        raise TooLargeError(size)
    return content


def shown_name(path: Path) -> str:
    """Give a file's name as it can be shown and kept, whatever its bytes are."""
    return path.name.encode("utf-8", "surrogateescape").decode("utf-8", "replace")
