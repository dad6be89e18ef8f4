"""F3: kill the program while it writes a file or folder for the grower to keep.

    python -m tests.faults.file_kills --work zip --kills 50 --seed 1

The target is what it was before, or new and whole, or not there; the next time all that
was left half-written is gone; and the collection is untouched throughout.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import shutil
import sys
import tempfile
import time
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from PIL import Image

from growdesk.domain.errors import ForeignError, GrowdeskError
from growdesk.services import backups, care_of_files, transfer
from growdesk.services.backup_values import Why
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.store import whole_files
from growdesk.store.whole_files import write_whole
from tests.faults import acts, content
from tests.faults.content import FILE
from tests.faults.forked import killed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

_PHOTOS = 10
_CLOCK = FixedClock(acts.TODAY)
_LONG_AGO_S = 2 * 3600


@dataclass(slots=True)
class Counts:
    """What came of a number of kills of one work."""

    work: str
    kills: int = 0
    within: int = 0
    absent: int = 0
    old: int = 0
    whole: int = 0
    swept: int = 0
    faults: list[str] = field(default_factory=list)

    def line(self) -> str:
        """Give the counts in one line."""
        return (
            f"F3 {self.work}: {self.kills} kills, {self.within} before its end; left as"
            f" it was {self.old}, not there {self.absent}, new and whole {self.whole};"
            f" {self.swept} leftovers swept, {len(self.faults)} half, lost or left behind"
        )


class Work:
    """One thing that is written: done, and asked what a kill left of it."""

    def __init__(self, place: Path) -> None:
        self.folder = place / "collection"
        self.out = place / "out"

    def do(self) -> None:
        """Write it, as the program does."""
        raise NotImplementedError

    def left(self) -> str:
        """Say what is there: absent, old or whole; raise where it is neither."""
        raise NotImplementedError


class Zip(Work):
    """A backup in one file."""

    def do(self) -> None:
        care_of_files.backup_folder(self.folder, self.out / "a.zip", _CLOCK.now())

    def left(self) -> str:
        file = self.out / "a.zip"
        if not file.exists():
            return "absent"
        from growdesk.services.backup_zip import prove  # noqa: PLC0415

        return "whole" if len(prove(file).entries) == _PHOTOS + 1 else "old"


class Kept(Work):
    """A backup among those that are kept."""

    def do(self) -> None:
        backups.make(self.folder, Why.BY_HAND, _CLOCK.now())

    def left(self) -> str:
        found = backups.kept(self.folder)
        for each in found:
            problem = each.problem or backups.prove(each)
            assert not problem, problem
            assert each.photos == _PHOTOS
        return ("absent", "whole", "whole")[len(found)]


class Export(Work):
    """The collection as tables and photos."""

    def do(self) -> None:
        with_open = Collection.open_to_read(self.folder, _CLOCK)
        transfer.export(with_open, self.out / "export")
        with_open.close()

    def left(self) -> str:
        if not (self.out / "export" / "growdesk.json").exists():
            return "absent"
        read = transfer.read_folder(self.out / "export")
        assert len(read.rows["photo"]) == _PHOTOS
        return "whole"


class Csv(Work):
    """A table for spreadsheets, as the window saves it."""

    rows = 4_000

    def do(self) -> None:
        from growdesk.ui.roster_saving import save  # noqa: PLC0415

        save(self.out / "a.csv", (), [])
        raise NotImplementedError

    def left(self) -> str:
        return _of_file(self.out / "a.csv", self.out / "a.csv.whole")


def _of_file(path: Path, whole: Path) -> str:
    """Compare a file with what stood there before, and with what is to come."""
    if not path.exists():
        return "absent"
    found = path.read_bytes()
    if found == b"old":
        return "old"
    assert found == whole.read_bytes(), "cut short"
    return "whole"
