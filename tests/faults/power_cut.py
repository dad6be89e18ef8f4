"""Cut the power at any moment of the program's own writing, and look at the disk.

    python -m tests.faults.power_cut --cuts 2000 --seed 1
    python -m tests.faults.power_cut --pragma "synchronous = OFF"      must break

The services work over the program's own connect function; what SQLite and the program
do to the disk is recorded, and cut as ``disk`` says. After each cut the collection
holds what was acknowledged last, or that and the one thing under way, wholly.
"""

from __future__ import annotations

import argparse
import json
import random
import shutil
import sqlite3
import sys
import tempfile
from contextlib import closing
from pathlib import Path
from typing import Any

from msgspec import Struct, field
from msgspec.structs import asdict

from growdesk.domain.errors import GrowdeskError
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.store import engine
from tests.faults import acts, content
from tests.faults.content import FILE
from tests.faults.disk import Disk, Event
from tests.faults.recorded import Driver, Recorder
from tests.faults.running import in_memory

_ACTS = 120
_OPENED_EVERY = 20
FOLDER = "collection"
_Said = list[list[str]]


class Counts(Struct):
    """What came of a number of cuts; ``examples`` tell some of what went wrong."""

    cuts: int = 0
    events: int = 0
    acts: int = 0
    corrupt: int = 0
    torn: int = 0
    lost: int = 0
    opened: int = 0
    alarms: int = 0
    examples: list[str] = field(default_factory=list)

    def line(self, what: str) -> str:
        """Give the counts in one line."""
        return (
            f"4.3 {what}: {self.cuts} power cuts in {self.events} operations of"
            f" {self.acts} acts, {self.corrupt} damaged, {self.torn} half kept,"
            f" {self.lost} that lost what was acknowledged; {self.opened} opened by the"
            f" program, {self.alarms} with a false alarm"
        )

    def wrong(self, kind: str, what: str) -> None:
        """Count a fault."""
        setattr(self, kind, getattr(self, kind) + 1)
        if len(self.examples) < 8:
            self.examples.append(f"{kind}: {what}")


def record(root: Path, seed: int, many: int, pragma: str = "") -> list[Event]:
    """Let a grower work on a recorded disk; give all that was done to it."""
    recorder = Recorder(root)
    own: Any = engine
    own.sqlite3 = Driver(recorder)
    if pragma:
        own._PRAGMAS = (*own._PRAGMAS, pragma)
    folder, scratch = root / FOLDER, Path(tempfile.mkdtemp(dir=in_memory()))
    acts.prepare(folder)
    recorder.said(content.state(folder).said())
    chance = random.Random(seed)  # noqa: S311 -- moments, not secrets
    while many > 0:
        collection = Collection.open(folder, FixedClock(acts.TODAY))
        who = acts.Grower(collection, scratch, chance, f"{seed}")
        for _ in range(min(many, chance.randint(5, 40))):
            while not acts.act(who, "mixed"):
                pass
            recorder.said(content.state(folder).said())
            many -= 1
        collection.close()
    recorder.stop()
    own.sqlite3 = sqlite3
    shutil.rmtree(scratch)
    return recorder.events


def cut(events: list[Event], cuts: int, seed: int, at: Path) -> Counts:
    """Cut the recorded disk at random operations, and look at what is left."""
    chance = random.Random(f"cuts {seed}")  # noqa: S311
    said = [number for number, event in enumerate(events) if event[0] == "said"]
    first = said[0] + 1
    moments = sorted(chance.randint(first, len(events)) for _ in range(cuts))
    counts = Counts(cuts, len(events) - first, len(said) - 1)
    disk, fed, states = Disk(), 0, [events[number][1] for number in said]
    for number, moment in enumerate(moments):
        for event in events[fed:moment]:
            disk.feed(event)
        fed = moment
        at.mkdir()
        disk.cut(at, chance)
        told = sum(1 for each in said if each < moment) - 1
        allowed = (states[told : told + 2], states)
        opened = number % _OPENED_EVERY == 0
        counts.opened += opened
        _look(at / FOLDER, allowed, counts, opened=opened)
        shutil.rmtree(at)
    return counts


def _look(
    folder: Path, allowed: tuple[_Said, _Said], counts: Counts, *, opened: bool
) -> None:
    path = folder / FILE
    if not path.exists():
        counts.wrong("lost", "the file itself is gone")
        return
    try:
        if opened:
            collection = Collection.open(folder, FixedClock(acts.TODAY))
            notice = collection.ledger.store.notice
            collection.close()
            if notice:
                counts.wrong("alarms", notice)
        with closing(engine.connect(path)) as connection:
            found = content.state_of(connection)
            wrong = [
                *(line for (line,) in connection.execute("PRAGMA integrity_check")),
                *map(str, connection.execute("PRAGMA foreign_key_check")),
            ]
    except (sqlite3.Error, GrowdeskError) as error:
        counts.wrong("corrupt", str(error))
        return
    if wrong != ["ok"]:
        counts.wrong("corrupt", wrong[0])
    elif found.said() not in allowed[0]:
        is_older = found.said() in allowed[1]
        what = "an older state" if is_older else "half of a change"
        counts.wrong("lost" if is_older else "torn", what)
    elif photos := list(content.photo_wrongs(folder)):
        counts.wrong("lost", photos[0])


def main() -> int:
    """Run what was asked for and print the counts."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument("--cuts", type=int, default=2000)
    asks.add_argument("--acts", type=int, default=_ACTS)
    asks.add_argument("--seed", type=int, default=1)
    asks.add_argument("--pragma", default="")
    asks.add_argument("--json", action="store_true")
    asked = asks.parse_args()
    with tempfile.TemporaryDirectory(prefix="growdesk-cuts-", dir=in_memory()) as made:
        disk = Path(made).resolve() / "disk"
        disk.mkdir()
        events = record(disk, asked.seed, asked.acts, asked.pragma)
        counts = cut(events, asked.cuts, asked.seed, Path(made) / "cut")
    line = counts.line(asked.pragma or f"as it is, seed {asked.seed}")
    said = json.dumps({**asdict(counts), "line": line})
    print(said if asked.json else line)  # noqa: T201
    for line in [] if asked.json else counts.examples:
        print(f"  {line}")  # noqa: T201
    return 1 if counts.corrupt or counts.torn or counts.lost else 0


if __name__ == "__main__":
    sys.exit(main())
