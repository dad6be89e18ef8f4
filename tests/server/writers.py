"""What another process does to a collection on a server: see ``test_two_at_once``."""

from __future__ import annotations

import os
import signal
import sys
from datetime import date
from pathlib import Path

from growdesk.domain.errors import BusyError
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.store.schema import PlaceRow

ON = date(2026, 5, 20)


def many(made: Collection, name: str, count: int) -> None:
    """Write so many actions, each again where it was not this one's turn."""
    for number in range(count):
        while True:
            try:
                made.plants.add(PlantDraft(f"{name}{number}", "", ""))
                break
            except BusyError:
                continue


def killed(made: Collection) -> None:
    """Be killed in the middle of a change."""
    with made.ledger.writing("Never kept") as writing:
        writing.insert(PlaceRow, {"name": "Half a place", "kind": "windowsill"})
        sys.stdout.write("written\n")
        sys.stdout.flush()
        os.kill(os.getpid(), signal.SIGKILL)


def asleep(made: Collection) -> None:
    """Hold the turn to write until the other end is closed."""
    with made.ledger.writing("Never kept") as writing:
        writing.insert(PlaceRow, {"name": "Half a place", "kind": "windowsill"})
        sys.stdout.write("written\n")
        sys.stdout.flush()
        sys.stdin.read()


if __name__ == "__main__":
    what, address, folder, *more = sys.argv[1:]
    opened = Collection.open_on_server(
        address, Path(folder), FixedClock(ON), create=True
    )
    if what == "many":
        many(opened, more[0], int(more[1]))
    elif what == "killed":
        killed(opened)
    elif what == "asleep":
        asleep(opened)
    opened.close()
