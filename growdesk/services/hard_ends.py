"""Notice that the program ended hard: the system stopped it in the middle of something.

While the window is open a file of this process stands in the log's folder; should the
process crash, Python writes into it where it was. A clean end takes the file away. A
file that stayed empty is of a kill or a power cut, no fault of ours, and goes untold.
"""

from __future__ import annotations

import faulthandler
import os
import re
import sys
from contextlib import suppress
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.services.log_file import Key, folder, inside, log

if TYPE_CHECKING:
    from pathlib import Path
    from typing import IO

_NAMED: Final = re.compile(r"growdesk-open\.(\d+)\.txt")
_FRAME: Final = re.compile(r'File "(.+)", line (\d+) in (.+)')
_MOST_READ: Final = 20_000
_LINES: Final = 40


class HardEnd(Struct, frozen=True):
    """When a program ended hard (UTC), and where it was, by places of the code."""

    at: datetime
    places: tuple[str, ...]


class Watch:
    """Stands from the start of the window to its end."""

    def __init__(self) -> None:
        self._path = folder() / f"growdesk-open.{os.getpid()}.txt"
        self._file: IO[bytes] | None = None

    def begin(self) -> None:
        """Have a crash written down; where the folder does not let us, go without."""
        with suppress(OSError, RuntimeError):
            way = os.O_WRONLY | os.O_CREAT | os.O_TRUNC
            self._file = os.fdopen(os.open(self._path, way, 0o600), "wb")
            faulthandler.enable(self._file)

    def end(self) -> None:
        """Say that the program ended as it should."""
        if self._file is None:
            return
        faulthandler.disable()
        self._file.close()
        self._file = None
        with suppress(OSError):
            self._path.unlink(missing_ok=True)


def take_last() -> HardEnd | None:
    """Give the newest hard end that was not told yet; it is told once."""
    found: list[HardEnd] = []
    with suppress(OSError):
        for path in sorted(folder().iterdir()):
            named = _NAMED.fullmatch(path.name)
            if named is not None and not _runs(int(named[1])):
                with suppress(OSError):  # another program's on Windows, still open
                    found += _taken(path)
    for each in found:
        log.error("the program before ended hard")
        for place in each.places:
            log.error("it was at %s", Key(place))
    return max(found, key=lambda each: each.at, default=None)


def _taken(path: Path) -> list[HardEnd]:
    """Read a file and take it away."""
    at = datetime.fromtimestamp(path.stat().st_mtime, tz=UTC)
    with path.open("rb") as file:
        text = file.read(_MOST_READ).decode("utf-8", "replace")
    path.unlink()
    if not text.strip():
        return []
    places = tuple(
        f"{inside(name)}:{line} {where}" for name, line, where in _FRAME.findall(text)
    )
    return [HardEnd(at, places[:_LINES])]


def _runs(pid: int) -> bool:
    """Tell whether a process lives; on Windows an open file cannot be taken anyway."""
    if pid == os.getpid():
        return True
    if sys.platform == "win32":
        return False
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True
