"""Kill what writes, at any moment, and look at what it had said was kept.

    python -m tests.faults.killing --work mixed --kills 50 --seed 1
    python -m tests.faults.killing --full          200 mixed and 50 of each work

A child works through the services and says after each call what the collection then
holds, read by a connection of its own. The parent kills it, opens the collection as the
program does, and asks that it holds exactly that, or that and the one thing that was
under way, which undo then takes back to exactly that.
"""

from __future__ import annotations

import argparse
import json
import random
import shutil
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
from tests.faults import acts, content
from tests.faults.content import FILE, State
from tests.faults.forked import killed

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.faults.forked import Heard

    _Work = Callable[[Path, str, str, Callable[..., None]], None]

FULL = (("mixed", 200), *((work, 50) for work in acts.WORKS if work != "mixed"))
_BLOCK = 25
_FROM_THE_FORK = 0.15
_MOST_ACTS = 400
_ACTS_A_KILL = 6
_PACED = 10
_BACK_EACH = 4
_OPENING_S = 0.04


class Counts(Struct):
    """What came of a number of kills; ``faults`` are told with their seed."""

    work: str
    kills: int = 0
    acknowledged: int = 0
    at_work: int = 0
    kept_under_way: int = 0
    midway_files: int = 0
    swept: int = 0
    orphans: int = 0
    undone: int = 0
    faults: list[str] = field(default_factory=list)

    def line(self) -> str:
        """Give the counts in one line."""
        return (
            f"F1 {self.work}: {self.kills} kills, {self.acknowledged} acknowledged,"
            f" {self.at_work} killed within a call ({self.kept_under_way} of them kept"
            f" whole, {self.midway_files} with a file half-written),"
            f" {self.swept} leftovers swept, {self.orphans} photos on no record,"
            f" {self.undone} undone to the start, {len(self.faults)} lost or damaged"
        )


def run(work: str, kills: int, seed: int, *, too_early: bool = False) -> Counts:
    """Kill a work so many times, in blocks that each begin with a new collection.

    ``too_early`` says of acts that they are kept before they are: a control, which must
    be found out.
    """
    do = _work_too_early if too_early else acting
    counts = Counts(work)
    with tempfile.TemporaryDirectory(prefix="growdesk-kills-") as made:
        prepared = Path(made) / "prepared"
        empty = acts.prepare(prepared)
        pace = _Pace(warm_up(prepared, Path(made), work))
        for block in range(0, kills, _BLOCK):
            place = Path(made) / f"block-{block}"
            shutil.copytree(prepared, place / "collection")
            for kill in range(block, min(block + _BLOCK, kills)):
                _one(place, f"{seed}-{kill}", counts, pace, do)
            counts.orphans += content.orphans(place / "collection")
            _all_undone(place / "collection", empty, counts)
            shutil.rmtree(place)
    return counts


class _Pace(Struct):
    """How long an act takes on this machine as busy as it is, in seconds."""

    act_s: float

    def longest_s(self) -> float:
        """Give the time within which a kill falls: that of some acts."""
        return _ACTS_A_KILL * self.act_s

    def came(self, acts_done: int, worked_s: float) -> None:
        """Learn from a child: the machine is busier at times."""
        seen = worked_s / (acts_done + 0.5)
        self.act_s = 0.8 * self.act_s + 0.2 * min(seen, 10 * self.act_s)


def warm_up(prepared: Path, beside: Path, work: str) -> float:
    """Do acts so that the children find all that is loaded late; give one's seconds."""
    place = beside / "warm"
    shutil.copytree(prepared, place / "collection")
    collection = Collection.open(place / "collection", FixedClock(acts.TODAY))
    for number in range(15):
        chance = random.Random(number)  # noqa: S311 -- moments, not secrets
        acts.act(acts.Grower(collection, place, chance, "w"), "mixed")
        content.state(collection.folder)
    started = time.monotonic()
    for number in range(_PACED):
        chance = random.Random(1_000 + number)  # noqa: S311
        acts.act(acts.Grower(collection, place, chance, "v"), work)
        content.state(collection.folder)
    spent_s = time.monotonic() - started
    collection.close()
    shutil.rmtree(place)
    return spent_s / _PACED


def _one(place: Path, seed: str, counts: Counts, pace: _Pace, do: _Work) -> None:
    folder, work = place / "collection", counts.work
    chance = random.Random(seed)  # noqa: S311
    before = content.state(folder)
    from_the_fork = chance.random() < _FROM_THE_FORK
    delay_s = chance.uniform(0, _OPENING_S if from_the_fork else pace.longest_s())
    heard = killed(
        lambda say: do(place, work, seed, say),
        delay_s,
        "" if from_the_fork else "open",
    )
    if not from_the_fork:
        pace.came(len(heard.all_of("done")), delay_s)
    counts.kills += 1
    counts.at_work += _is_at_work(heard)
    counts.acknowledged += len(heard.all_of("state")) - bool(heard.all_of("open"))
    counts.midway_files += _is_midway(folder)
    swept = len(list(folder.rglob("*.part*")))
    told = State(*(heard.all_of("state") or [before.said()])[-1])
    try:
        _look(folder, told, heard, counts)
    except (GrowdeskError, AssertionError) as error:
        counts.faults.append(f"{work} {seed}: {error}")
    counts.swept += swept
    counts.faults += [f"{work} {seed}: {line}" for line in content.wrongs(folder)]


def acting(place: Path, work: str, seed: str, say: Callable[..., None]) -> None:
    folder = place / "collection"
    collection = Collection.open(folder, FixedClock(acts.TODAY))
    chance = random.Random(f"child {seed}")  # noqa: S311
    who = acts.Grower(collection, place, chance, seed.replace("-", "k"))
    say(open=True, state=content.state(folder).said())
    for _ in range(_MOST_ACTS):
        say(about=work)
        done = acts.act(who, work)
        said = {"state": content.state(folder).said()} if done else {}
        say(done=done, **said)


def _work_too_early(
    place: Path, work: str, seed: str, say: Callable[..., None]
) -> None:
    """Say that acts are kept while the transaction that holds them is still open."""
    folder = place / "collection"
    collection = Collection.open(folder, FixedClock(acts.TODAY))
    who = acts.Grower(collection, place, random.Random(seed), "early")  # noqa: S311
    say(open=True, state=content.state(folder).said())
    store = collection.ledger.store
    with store.together("All at once", collection.clock.now) as writing:
        while True:
            say(about=work)
            acts.note(who)
            raw: Any = writing.session.connection().connection.driver_connection
            say(done="note", state=content.state_of(raw).said())


def _is_at_work(heard: Heard) -> bool:
    return len(heard.all_of("about")) > len(heard.all_of("done"))


def _is_midway(folder: Path) -> bool:
    journal = folder / f"{FILE}-journal"
    return journal.exists() and journal.stat().st_size > 0


def _look(folder: Path, told: State, heard: Heard, counts: Counts) -> None:
    """Open as the program does; what was told is there, or one thing more."""
    collection = Collection.open(folder, FixedClock(acts.TODAY))
    try:
        found = content.state(folder)
        if found != told:
            assert _is_at_work(heard), "the collection is not what was acknowledged"
            _take_back(collection, found, told)
            counts.kept_under_way += 1
        if not counts.kills % _BACK_EACH:
            _back_and_forth(collection)
    finally:
        collection.close()


def _take_back(collection: Collection, found: State, told: State) -> None:
    """Take the one thing back that was under way: it was a write, undo or redo."""
    history, folder = collection.history, collection.folder
    if history.undo() is not None:
        came = content.state(folder)
        if (came.rows, came.done) == (told.rows, told.done):
            history.redo()
            return
        history.redo()
    assert content.state(folder) == found, "undo and redo led elsewhere"
    if history.redo() is not None:
        came = content.state(folder)
        history.undo()
        if came == told:
            return
    raise AssertionError("what was acknowledged is lost, or half of a change is kept")


def _back_and_forth(collection: Collection) -> None:
    found = content.state(collection.folder)
    if collection.history.undo() is not None:
        assert content.state(collection.folder).done != found.done
        collection.history.redo()
    assert content.state(collection.folder) == found, "undo and redo led elsewhere"


def _all_undone(folder: Path, empty: State, counts: Counts) -> None:
    """Undo all that was done through the kills, to the first day, and do it again."""
    collection = Collection.open(folder, FixedClock(acts.TODAY))
    history = collection.history
    while history.redo() is not None:
        pass
    end, steps = content.state(folder), 0
    while history.undo() is not None:
        steps += 1
    if content.state(folder).rows != empty.rows:
        counts.faults.append(f"{counts.work}: undo does not lead to the start")
    while history.redo() is not None:
        pass
    if content.state(folder) != end:
        counts.faults.append(f"{counts.work}: redo does not lead to the end")
    counts.undone += steps
    collection.close()


def main() -> int:
    """Run what was asked for and print the counts."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument(
        "--work", choices=sorted(acts.WORKS), nargs="+", default=["mixed"]
    )
    asks.add_argument("--kills", type=int, default=50)
    asks.add_argument("--seed", type=int, default=1)
    asks.add_argument("--full", action="store_true")
    asks.add_argument("--too-early", action="store_true", help="a control")
    asks.add_argument("--json", action="store_true")
    asked = asks.parse_args()
    faults = 0
    given = [(work, asked.kills) for work in asked.work]
    for work, kills in FULL if asked.full else given:
        counts = run(work, kills, asked.seed, too_early=asked.too_early)
        faults += len(counts.faults)
        said = json.dumps({**asdict(counts), "line": counts.line()})
        print(said if asked.json else counts.line(), flush=True)  # noqa: T201
        for line in [] if asked.json else counts.faults:
            print(f"  {line}")  # noqa: T201
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
