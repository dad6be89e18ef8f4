"""Cut the power while a folder or file is made to be kept, one level above SQLite.

    python -m tests.faults.file_cuts --work restore --cuts 200 --seed 1

A backup, a restore, an export, a rescue, a new collection: what each does to names and
files is recorded, and cut anywhere. Left is what was there before, or the new one
whole; once the program has said that it is done, it is there.
"""

from __future__ import annotations

import argparse
import json
import random
import shutil
import sqlite3
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct, field
from msgspec.structs import asdict
from typing_extensions import override

from growdesk.domain.errors import GrowdeskError
from growdesk.services.collection import Collection
from growdesk.services.rescuing import rescue
from tests.faults import content
from tests.faults.disk import Disk
from tests.faults.file_kills import CLOCK, WORKS, Work, prepare
from tests.faults.recorded import Recorder
from tests.faults.running import in_memory

if TYPE_CHECKING:
    from tests.faults.disk import Event


class Counts(Struct):
    """What came of a number of cuts of one work."""

    work: str
    cuts: int = 0
    events: int = 0
    absent: int = 0
    old: int = 0
    whole: int = 0
    faults: list[str] = field(default_factory=list)

    def line(self) -> str:
        """Give the counts in one line."""
        return (
            f"4.3 {self.work}: {self.cuts} power cuts in {self.events} operations; left"
            f" {self.old} as it was, {self.absent} not there, {self.whole} whole;"
            f" {len(self.faults)} half, lost or damaged"
        )


class Create(Work):
    """A new collection with its first plant."""

    @override
    def do(self) -> None:
        """Make it, as the window does."""
        Collection.open(self.out / "new", CLOCK, create=True).close()

    @override
    def left(self) -> str:
        """Open it as the program does; make it where it is not there yet."""
        was_there = (self.out / "new" / content.FILE).exists()
        Collection.open(self.out / "new", CLOCK, create=True).close()
        wrongs = list(content.wrongs(self.out / "new"))
        assert not wrongs, wrongs[0]
        return "whole" if was_there else "absent"


class Rescue(Work):
    """All that can be read of a collection, saved into a new one."""

    @override
    def do(self) -> None:
        """Save it, as the command does."""
        rescue(self.folder, self.out / "rescued", CLOCK.now())

    @override
    def left(self) -> str:
        """Open what was saved, where it is there; the first one is as it was."""
        into = self.out / "rescued"
        assert (self.folder / content.FILE).exists(), "what was rescued is gone"
        if not into.exists():
            return "absent"
        collection = Collection.open(into, CLOCK)
        tags = {draft.tag for _, draft in collection.plants.all()}
        collection.close()
        wrongs = list(content.wrongs(into))
        assert not wrongs, wrongs[0]
        assert "LATER" in tags, "a plant is missing"
        return "whole"


CUT = {key: WORKS[key] for key in ("zip", "kept", "restore", "export")}
CUT["create"] = Create
CUT["rescue"] = Rescue


def run(work: str, cuts: int, seed: int, *, without_syncs: bool = False) -> Counts:
    """Do a work once, recorded, and cut it so many times.

    ``without_syncs`` is a disk that never heard of any: a control, which must break.
    """
    with tempfile.TemporaryDirectory(prefix="growdesk-cuts-", dir=in_memory()) as made:
        root = Path(made).resolve() / "disk"
        prepare(root)
        before = _laid(root)
        recorder = Recorder(root)
        CUT[work](root).do()
        recorder.said("done")
        recorder.stop()
        syncs = {"sync", "sync-folder"} if without_syncs else set()
        done = [event for event in recorder.events if event[0] not in syncs]
        chance = random.Random(f"{work} {seed}")  # noqa: S311 -- moments, not secrets
        moments = _moments(len(before), len(before) + len(done), cuts, chance)
        counts = Counts(work, events=len(done))
        _cut(counts, [*before, *done], moments, chance, Path(made) / "cut")
        return counts


def _laid(root: Path) -> list[Event]:
    """Give what makes a folder as it stands, all of it synced."""
    events: list[Event] = []
    for path in sorted(root.rglob("*")):
        at = path.relative_to(root).as_posix()
        if path.is_dir():
            events.append(("mkdir", at))
        else:
            events += [("create", at), ("write", at, 0, path.read_bytes())]
            events.append(("sync", at))
    folders = [path for path in sorted(root.rglob("*")) if path.is_dir()]
    events += [("sync-folder", path.relative_to(root).as_posix()) for path in folders]
    return [*events, ("sync-folder", "")]


def _cut(
    counts: Counts,
    events: list[Event],
    moments: list[int],
    chance: random.Random,
    at: Path,
) -> None:
    disk, fed = Disk(), 0
    for moment in moments:
        for event in events[fed:moment]:
            disk.feed(event)
        fed = moment
        at.mkdir()
        disk.cut(at, chance)
        counts.cuts += 1
        is_done = moment == len(events)
        try:
            left = CUT[counts.work](at).left()
            setattr(counts, left, getattr(counts, left) + 1)
            if is_done and left != "whole":
                counts.faults.append(f"{moment}: done, and {left}")
        except (GrowdeskError, AssertionError, OSError, sqlite3.Error) as error:
            counts.faults.append(f"{moment}: {type(error).__name__}: {error}")
        shutil.rmtree(at)


def _moments(first: int, end: int, cuts: int, chance: random.Random) -> list[int]:
    """Give moments of the whole work, and as many of its last part and its end."""
    last = end - (end - first) // 5
    froms = [first, last, last, end]
    return sorted(chance.randint(froms[cut % 4], end) for cut in range(cuts))


def main() -> int:
    """Run what was asked for and print the counts."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument("--work", choices=sorted(CUT), default="restore")
    asks.add_argument("--cuts", type=int, default=200)
    asks.add_argument("--seed", type=int, default=1)
    asks.add_argument("--json", action="store_true")
    asks.add_argument("--without-syncs", action="store_true", help="a control")
    asked = asks.parse_args()
    syncless = asked.without_syncs
    counts = run(asked.work, asked.cuts, asked.seed, without_syncs=syncless)
    said = json.dumps({**asdict(counts), "line": counts.line()})
    print(said if asked.json else counts.line())  # noqa: T201
    for line in [] if asked.json else counts.faults[:10]:
        print(f"  {line}")  # noqa: T201
    return 1 if counts.faults else 0


if __name__ == "__main__":
    sys.exit(main())
