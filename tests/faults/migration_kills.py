"""F2: kill the program while it brings an old collection to its own form.

    python -m tests.faults.migration_kills --form 3 --kills 50 --seed 1

The steps are slowed, so that the kill falls inside them. Left is the old database or
the new one, wholly; a backup of the old one is there and whole before anything is
changed; and the program opens what was left.
"""

from __future__ import annotations

import argparse
import json
import random
import shutil
import sqlite3
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field
from msgspec.structs import asdict

from growdesk.domain.errors import GrowdeskError
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.store import migrating
from growdesk.store.migrations import SCHEMA
from tests.faults import content
from tests.faults.acts import TODAY
from tests.faults.content import FILE
from tests.faults.forked import killed
from tests.faults.running import ROOT

if TYPE_CHECKING:
    from collections.abc import Callable

_KEPT = ROOT / "tests" / "data" / "databases"
_SLOWER_S, _EVERY = 0.0001, 400
_FROM_THE_FORK = 0.3


class Counts(Struct):
    """What came of a number of kills on the way from one form to today's."""

    form: int
    kills: int = 0
    within: int = 0
    old: int = 0
    new: int = 0
    backups: int = 0
    midway_files: int = 0
    faults: list[str] = field(default_factory=list)

    def line(self) -> str:
        """Give the counts in one line."""
        return (
            f"F2 form {self.form} to {SCHEMA}: {self.kills} kills, {self.within} within"
            f" the steps ({self.midway_files} with a file half-written), left wholly"
            f" old {self.old}, wholly new {self.new}, {self.backups} with a backup,"
            f" {len(self.faults)} half, lost or damaged"
        )


class _Ends(Struct):
    """The database before and after, and how long the whole and its steps take.

    ``pace`` follows the machine, which is busier at times.
    """

    old: str
    new: str
    whole_s: float
    steps_s: float
    pace: float = 1.0


def run(form: int, kills: int, seed: int) -> Counts:
    """Kill so many times on the way from a form."""
    counts = Counts(form)
    source = _KEPT / f"schema-{form}.sqlite"
    with tempfile.TemporaryDirectory(prefix="growdesk-forms-") as made:
        ends = _ends(source, Path(made) / "whole")
        for kill in range(kills):
            place = Path(made) / f"{kill}"
            _one(source, place, f"{seed}-{form}-{kill}", ends, counts)
            shutil.rmtree(place)
    return counts


def _ends(source: Path, place: Path) -> _Ends:
    folder = _laid(source, place)
    old = content.dump(folder / FILE)
    _open(folder)  # what is loaded late is loaded in the process that forks
    folder = _laid(source, place / "again")
    started = time.monotonic()
    heard = killed(lambda say: _slowly(folder, say), 60)
    whole_s = time.monotonic() - started
    (steps_s,) = heard.all_of("steps_s")
    return _Ends(old, content.dump(folder / FILE), whole_s, steps_s)


def _one(source: Path, place: Path, seed: str, ends: _Ends, counts: Counts) -> None:
    chance = random.Random(seed)  # noqa: S311 -- moments, not secrets
    folder = _laid(source, place)
    from_the_fork = chance.random() < _FROM_THE_FORK
    longest = ends.pace * (ends.whole_s if from_the_fork else 1.2 * ends.steps_s)
    heard = killed(
        lambda say: _slowly(folder, say),
        chance.uniform(0, longest),
        "" if from_the_fork else "begun",
    )
    counts.kills += 1
    is_within = bool(heard.all_of("begun")) and not heard.all_of("steps_s")
    counts.within += is_within
    ends.pace *= 1.03 if is_within else 0.92 if heard.all_of("steps_s") else 1.0
    journal = folder / f"{FILE}-journal"
    counts.midway_files += journal.exists() and journal.stat().st_size > 0
    try:
        faults = list(_faults(folder, place / "look", ends, counts))
    except (GrowdeskError, sqlite3.Error, OSError) as error:
        faults = [f"{type(error).__name__}: {error}"]
    counts.faults += [f"{seed}: {line}" for line in faults]


def _faults(folder: Path, look: Path, ends: _Ends, counts: Counts) -> list[str]:
    """Look at a copy as it lies there, then open it as the program does."""
    shutil.copytree(folder, look)
    left = content.dump(look / FILE)
    faults = [*content.database_wrongs(look / FILE)]
    if left not in {ends.old, ends.new}:
        faults.append("neither the old database nor the new one")
    counts.old += left == ends.old
    counts.new += left == ends.new
    backups = _backups(folder)
    if left != ends.old and ends.old not in backups:
        faults.append("changed, and no backup of the old one is there")
    counts.backups += ends.old in backups
    faults += ["a backup is not the old database" for b in backups if b != ends.old]
    _open(folder)
    faults += content.wrongs(folder)
    if content.dump(folder / FILE) != ends.new:
        faults.append("opened again, it is not the new database")
    if ends.old not in _backups(folder):
        faults.append("opened again, the backup of the old one is gone")
    return faults


def _backups(folder: Path) -> list[str]:
    """Give what each finished backup holds."""
    found = sorted((folder / "backups").glob("*/*.sqlite"))
    return [content.dump(path) for path in found if ".part" not in str(path)]


def _laid(source: Path, place: Path) -> Path:
    folder = place / "collection"
    folder.mkdir(parents=True)
    shutil.copyfile(source, folder / FILE)
    return folder


def _open(folder: Path) -> None:
    Collection.open(folder, FixedClock(TODAY)).close()


def _slowly(folder: Path, say: Callable[..., None]) -> None:
    """Open the collection as the program does, its statements slowed."""
    own: Any = migrating
    connect, apply = own.connect, own._apply

    def slow_connect(*arguments: Any, **named: Any) -> sqlite3.Connection:
        connection: sqlite3.Connection = connect(*arguments, **named)
        connection.set_progress_handler(lambda: time.sleep(_SLOWER_S), _EVERY)
        return connection

    def told_apply(*arguments: Any, **named: Any) -> object:
        say(begun=True)
        started = time.monotonic()
        done = apply(*arguments, **named)
        say(steps_s=time.monotonic() - started)
        return done

    own.connect, own._apply = slow_connect, told_apply
    _open(folder)


def main() -> int:
    """Run what was asked for and print the counts."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument("--form", type=int, default=0, help="0: every earlier form")
    asks.add_argument("--kills", type=int, default=50)
    asks.add_argument("--seed", type=int, default=1)
    asks.add_argument("--json", action="store_true")
    asked = asks.parse_args()
    faults = 0
    for form in [asked.form] if asked.form else range(1, SCHEMA):
        counts = run(form, asked.kills, asked.seed)
        faults += len(counts.faults)
        said = json.dumps({**asdict(counts), "line": counts.line()})
        print(said if asked.json else counts.line(), flush=True)  # noqa: T201
        for line in [] if asked.json else counts.faults:
            print(f"  {line}")  # noqa: T201
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
