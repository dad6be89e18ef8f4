"""Take all files of a folder into a collection's folder, within a bound of memory.

Run by a test in a process of its own: ``python -m tests.faults.pictures_taken FROM TO
MEGABYTES``. A line of JSON a file: name, what was said of it, and its seconds.
"""

from __future__ import annotations

import json
import resource
import signal
import sys
import time
from datetime import date
from pathlib import Path

from growdesk.store import pictures
from growdesk.store.photos import examine, make_drawable, make_thumbnail, put

_MOST_SECONDS = 20
TODAY = date(2026, 11, 25)


def taken(path: Path, folder: Path) -> str:
    """Give what is said of a file; nothing where it is in, and can be drawn."""
    try:
        stored = put(folder, examine(path, TODAY))
    except pictures.UnreadableError as error:
        return str(error)
    small = make_thumbnail(folder, stored.sha256, stored.ext)
    if small is None:
        return "no thumbnail"
    if stored.width * stored.height > pictures.MOST_PIXELS // 10:
        return ""
    full = make_drawable(folder, stored.sha256, stored.ext)
    return "" if full is not None else "not drawable"


def main(source: str, target: str, megabytes: str) -> None:
    """Take every file; a hang ends the process by its alarm."""
    bound = int(megabytes) * 1_000_000
    resource.setrlimit(resource.RLIMIT_AS, (bound, bound))
    Path(target).mkdir(exist_ok=True)
    for path in sorted(Path(source).iterdir()):
        signal.alarm(_MOST_SECONDS)
        begun = time.monotonic()
        said = taken(path, Path(target))
        line = [path.name, said, round(time.monotonic() - begun, 2)]
        sys.stdout.write(json.dumps(line) + "\n")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1000
    sys.stdout.write(json.dumps(["", "", peak]) + "\n")


if __name__ == "__main__":
    main(*sys.argv[1:])
