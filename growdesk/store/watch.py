"""Notices when somebody else has written the file that is open here.

SQLite counts the changes of a file in its header. Only we write it while the folder is
locked, so that at the beginning of a change the count is what our last one left, or was
before it where that was taken back. Anything else is another program, or a copy laid
over the file. The header is read by one descriptor that stays open: closing one would
let go of SQLite's own locks.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from pathlib import Path

_COUNT_AT, _COUNT_BYTES = 24, 4


class Watch:
    """Watches one file from its opening on."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._descriptor = self._opened()
        self._expected: set[int] | None = None
        self.is_foreign = False
        """Whether something else has been found to write the file."""

    def begin(self) -> None:
        """Refuse to write over what somebody else has written; call under the lock."""
        found = self._count()
        is_strange = self._expected is not None and found not in self._expected
        if is_strange or not self._has_its_name():
            self.is_foreign = True
        if self.is_foreign:
            raise StoreError(
                tr(
                    "{path} was changed by another program, or replaced, while growdesk"
                    " had it open."
                ).format(path=self._path),
                tr(
                    "Nothing was written over it. Close growdesk, and open the"
                    " collection anew to see what is there now."
                ),
            )
        self._expected = {found, (found + 1) % (1 << 32)}

    def forget(self) -> None:
        """Take the count as it will be found: for what counts in its own way."""
        self._expected = None

    def reopen(self) -> None:
        """Look at the file that has the name now, as on a stick that was put back."""
        if self._has_its_name():
            return  # closing a descriptor of it would let go of SQLite's locks
        opened = self._opened()
        os.close(self._descriptor)
        self._descriptor = opened

    def close(self) -> None:
        """Let go of the file, once nothing of it is open any more."""
        os.close(self._descriptor)

    def _has_its_name(self) -> bool:
        """Tell whether the file that has the name is still the one that is open.

        SQLite asks that only as it makes a journal, and ours stays.
        """
        ours, there = os.fstat(self._descriptor), self._path.stat()
        return (ours.st_dev, ours.st_ino) == (there.st_dev, there.st_ino)

    def _opened(self) -> int:
        return os.open(self._path, os.O_RDONLY | getattr(os, "O_BINARY", 0))

    def _count(self) -> int:
        os.lseek(self._descriptor, _COUNT_AT, os.SEEK_SET)
        return int.from_bytes(os.read(self._descriptor, _COUNT_BYTES), "big")
