"""F22: copy the files of a program that is writing, as they lie at any moment.

    python -m tests.faults.copied --copies 200 --seed 1

The program is held still for the copy, as a cut of the power or a snapshot of the disk
holds it. In every other copy the last blocks of a journal that was not synced yet are
gone as well. Each copy opens without a word, and holds what was acknowledged by then,
or that and the one change under way.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import select
import shutil
import signal
import sys
import tempfile
import time
from pathlib import Path

from msgspec import Struct, field
from msgspec.structs import asdict

from growdesk.domain.errors import GrowdeskError
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from tests.faults import acts, content, killing
from tests.faults.content import FILE
from tests.faults.forked import begun
from tests.faults.running import in_memory

_A_CHILD = 50
_BLOCK = 4096
_UNSYNCED = bytes(12)
"""How SQLite's journal begins until it is synced: no magic, no number of records."""


class Counts(Struct):
    """What came of a number of copies."""

    copies: int = 0
    midway: int = 0
    shortened: int = 0
    kept_under_way: int = 0
    faults: list[str] = field(default_factory=list)

    def line(self) -> str:
        """Give the counts in one line."""
        return (
            f"F22: {self.copies} copies of files being written ({self.midway} with a"
            f" journal, {self.shortened} of them without its last unsynced blocks),"
            f" {self.kept_under_way} hold the change under way too,"
            f" {len(self.faults)} lost or damaged"
        )


class _Copy(Struct, frozen=True):
    """A copy's state, and how many states had been told when it was made."""

    state: list[str]
    told: int


def run(copies: int, seed: int) -> Counts:
    """Make so many copies, in turns that each begin with a new collection."""
    counts = Counts()
    chance = random.Random(f"copies {seed}")  # noqa: S311 -- moments, not secrets
    with tempfile.TemporaryDirectory(
        prefix="growdesk-copies-", dir=in_memory()
    ) as made:
        prepared = Path(made) / "prepared"
        acts.prepare(prepared)
        pace_s = killing.warm_up(prepared, Path(made), "mixed")
        for turn in range(0, copies, _A_CHILD):
            place = Path(made) / f"{turn}"
            shutil.copytree(prepared, place / "collection")
            many = min(_A_CHILD, copies - turn)
            _turn(place, f"{seed}-{turn}", many, pace_s, chance, counts)
            shutil.rmtree(place)
    return counts


def _turn(
    place: Path,
    seed: str,
    many: int,
    pace_s: float,
    chance: random.Random,
    counts: Counts,
) -> None:
    child, reading = begun(lambda say: killing.acting(place, "mixed", seed, say))
    raw, found = b"", []
    for number in range(many):
        raw += _heard(reading, chance.uniform(0, 1.5 * pace_s))
        os.kill(child, signal.SIGSTOP)
        os.waitpid(child, os.WUNTRACED)
        raw += _heard(reading, 0)
        copy = place / "copy"
        shutil.copytree(place / "collection", copy)
        os.kill(child, signal.SIGCONT)
        counts.copies += 1
        _shorten(copy, chance, counts, cut=bool(number % 2))
        try:
            state = _state_of(copy)
            found.append(_Copy(state, len(_states(raw))))
        except (GrowdeskError, AssertionError) as error:
            counts.faults.append(f"{seed} {number}: {error}")
        shutil.rmtree(copy)
    while len(_states(raw)) <= max((copy.told for copy in found), default=0):
        more = _heard(reading, 5.0)
        if not more:
            break
        raw += more
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    os.close(reading)
    _compare(_states(raw), found, seed, counts)


def _compare(
    states: list[list[str]], found: list[_Copy], seed: str, counts: Counts
) -> None:
    for copy in found:
        if copy.told == 0 or copy.state == states[copy.told - 1]:
            continue
        if copy.state in states[copy.told : copy.told + 1]:
            counts.kept_under_way += 1
        else:
            counts.faults.append(
                f"{seed}: a copy holds neither the last state nor the next"
            )


def _states(raw: bytes) -> list[list[str]]:
    words = [json.loads(line) for line in raw.split(b"\n")[:-1]]
    return [word["state"] for word in words if "state" in word]


def _heard(reading: int, wait_s: float) -> bytes:
    """Read what is said within a time, all of it that is there at the end."""
    raw = b""
    time.sleep(wait_s)
    while True:
        ready, _, _ = select.select([reading], [], [], 0)
        block = os.read(reading, 1 << 16) if ready else b""
        if not block:
            return raw
        raw += block


def _shorten(copy: Path, chance: random.Random, counts: Counts, *, cut: bool) -> None:
    journal = copy / f"{FILE}-journal"
    if not journal.exists() or not (size := journal.stat().st_size):
        return
    counts.midway += 1
    with journal.open("rb+") as file:
        if cut and file.read(len(_UNSYNCED)) == _UNSYNCED:
            file.truncate(max(0, size - _BLOCK * chance.randint(1, 4)))
            counts.shortened += 1


def _state_of(copy: Path) -> list[str]:
    collection = Collection.open(copy, FixedClock(acts.TODAY))
    notice = collection.ledger.store.notice
    collection.close()
    wrongs = [notice] if notice else list(content.wrongs(copy))
    assert not wrongs, wrongs[0]
    return content.state(copy).said()


def main() -> int:
    """Run what was asked for and print the counts."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument("--copies", type=int, default=200)
    asks.add_argument("--seed", type=int, default=1)
    asks.add_argument("--json", action="store_true")
    asked = asks.parse_args()
    counts = run(asked.copies, asked.seed)
    said = json.dumps({**asdict(counts), "line": counts.line()})
    print(said if asked.json else counts.line())  # noqa: T201
    for line in [] if asked.json else counts.faults[:10]:
        print(f"  {line}")  # noqa: T201
    return 1 if counts.faults else 0


if __name__ == "__main__":
    sys.exit(main())
