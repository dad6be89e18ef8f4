"""F11: two processes at one collection: never two writers, and readers see no half.

python -m tests.faults.two_processes --times 20 --seed 1
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
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field
from msgspec.structs import asdict
from sqlalchemy import func, select

from growdesk import app
from growdesk.domain.errors import BusyError
from growdesk.domain.facts import CareKind
from growdesk.services.care_values import CareDraft
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.store import lock
from growdesk.store.schema import CareRow
from tests.faults import acts, content
from tests.faults.forked import at_once

if TYPE_CHECKING:
    from collections.abc import Callable

    Say = Callable[..., None]
    _Write = Callable[[Path, float, Say], None]

_CLOCK = FixedClock(acts.TODAY)
_PAIRS, _READS = 25, 15


class Counts(Struct):
    """What came of starting two at once, and of reading while another writes."""

    times: int = 0
    opened: int = 0
    refused: int = 0
    imports: int = 0
    imports_refused: int = 0
    reads: int = 0
    commands: int = 0
    faults: list[str] = field(default_factory=list)

    def line(self) -> str:
        """Give the counts in one line."""
        return (
            f"F11 two at once: {self.times} double starts, {self.opened} opened and"
            f" {self.refused} refused in one line; {self.times} double imports,"
            f" {self.imports} taken and {self.imports_refused} refused in one line;"
            f" {self.reads} reads and {self.commands} commands beside a writer;"
            f" {len(self.faults)} times two writers, half a change or a fault"
        )


def run(times: int, seed: int, *, without_lock: bool = False) -> Counts:
    """Start two at once so many times, in each of the ways.

    ``without_lock`` lets everybody in: a control, which must be found out.
    """
    counts = Counts(times)
    write = _writer_unlocked if without_lock else _writer
    chance = random.Random(seed)  # noqa: S311 -- moments, not secrets
    with tempfile.TemporaryDirectory(prefix="growdesk-two-") as made:
        prepared = Path(made) / "prepared"
        acts.prepare(prepared)
        (Path(made) / "warm").mkdir()
        _command(Path(made) / "warm", prepared, ["decide"], lambda **_: None)
        for number in range(times):
            place = Path(made) / f"{number}"
            shutil.copytree(prepared, place / "collection")
            _two_openings(place, chance, counts, write)
            _two_imports(place, number, counts)
            shutil.rmtree(place)
        shutil.copytree(prepared, Path(made) / "read" / "collection")
        _beside_a_writer(Path(made) / "read", counts)
    return counts


def _two_openings(
    place: Path, chance: random.Random, counts: Counts, write: _Write
) -> None:
    waits = [chance.choice([0, 0, chance.uniform(0, 0.01)]) for _ in range(2)]
    for heard in at_once([partial(write, place, wait) for wait in waits]):
        counts.opened += len(heard.all_of("opened"))
        counts.refused += len(heard.all_of("refused"))
        counts.faults += heard.all_of("fault")
        counts.faults += ["not one line" for one in heard.all_of("refused") if not one]
    counts.faults += content.wrongs(place / "collection")


def _writer_unlocked(place: Path, wait_s: float, say: Say) -> None:
    """Write with a lock that nobody else asks for."""
    own: Any = lock
    own.LOCK_NAME = f"collection.sqlite.lock-{os.getpid()}"
    _writer(place, wait_s, say)


def _writer(place: Path, wait_s: float, say: Say) -> None:
    time.sleep(wait_s)
    mine = place / "somebody-writes"
    try:
        collection = Collection.open(place / "collection", _CLOCK)
    except BusyError as error:
        say(refused=_is_one_line(error.line()))
        return
    try:
        os.close(os.open(mine, os.O_CREAT | os.O_EXCL))
    except FileExistsError:
        say(fault="two writers at once")
        return
    say(opened=True)
    plants = [plant for plant, _ in collection.plants.all()]
    for _ in range(3):
        collection.day.give(plants[:1], acts.TODAY, CareKind.CLEAR_WATER, None)
        collection.history.undo()
        time.sleep(0.003)
    mine.unlink()
    collection.close()


def _two_imports(place: Path, number: int, counts: Counts) -> None:
    """Have two commands take a table in; what both say they took is there."""
    folder = place / "collection"
    for each in range(2):
        lines = [f"I{number}x{each}x{row},Cattleya,cattleya" for row in range(20)]
        table = place / f"{each}.csv"
        table.write_text("\n".join(["tag,name,kind", *lines]) + "\n")
    runs = [
        partial(_command, place, folder, ["import", f"{place}/{each}.csv"])
        for each in range(2)
    ]
    taken = 0
    for heard in at_once(runs):
        ((code, said),) = heard.all_of("came")
        taken += code == 0
        counts.imports_refused += code != 0
        if code != 0 and not (code == 2 and _is_one_line(said) and "open in" in said):
            counts.faults.append(f"import: {code} {said!r}")
    counts.imports += taken
    collection = Collection.open(place / "collection", _CLOCK)
    tags = [draft.tag for _, draft in collection.plants.all()]
    collection.close()
    there = sum(tag.startswith("I") for tag in tags)
    if there != 20 * taken or not taken:
        counts.faults.append(f"{taken} imports were taken, {there} plants are there")


def _command(place: Path, folder: Path, words: list[str], say: Say) -> None:
    """Run a command as a shell does; say its exit code and its errors."""
    path = place / f"said-{os.getpid()}"
    kept = [os.dup(1), os.dup(2)]
    with path.open("w+") as said, Path(os.devnull).open("w") as nowhere:
        os.dup2(nowhere.fileno(), 1)
        os.dup2(said.fileno(), 2)
        code = app.main([*words, "--collection", str(folder)])
        sys.stdout.flush()
        sys.stderr.flush()
        os.dup2(kept[0], 1)
        os.dup2(kept[1], 2)
        said.seek(0)
        say(came=[code, said.read()])


def _beside_a_writer(place: Path, counts: Counts) -> None:
    """Read while another writes pairs: always as many of the one as of the other."""
    folder = place / "collection"
    reads = [partial(_reader, folder) for _ in range(2)]
    asks = partial(_asks, place, folder)
    for heard in at_once([partial(_pairs, folder), *reads, asks]):
        counts.faults += heard.all_of("fault")
        counts.reads += sum(heard.all_of("reads"))
        counts.commands += len(heard.all_of("came"))
        for code, said in heard.all_of("came"):
            if code:
                counts.faults.append(f"decide: {code} {said!r}")
    counts.faults += content.wrongs(folder)


def _pairs(folder: Path, say: Say) -> None:
    collection = Collection.open(folder, _CLOCK)
    one, other = [plant for plant, _ in collection.plants.all()][:2]
    draft = CareDraft(acts.TODAY, CareKind.TREAT, note="n" * 3000, product="Soap")
    for number in range(_PAIRS):
        with collection.ledger.together(f"Pair {number}"):
            collection.care.add([one], draft)
            collection.care.add([other], draft)
    collection.close()
    say(written=_PAIRS)


def _reader(folder: Path, say: Say) -> None:
    before = 0
    for _ in range(_READS):
        collection = Collection.open_to_read(folder, _CLOCK)
        with collection.ledger.reading() as session:
            wanted = select(CareRow.plant_id, func.count()).group_by(CareRow.plant_id)
            found = [row[1] for row in session.execute(wanted)]
        collection.close()
        if len(set(found)) > 1 or sum(found) < before:
            say(fault=f"half a change was read: {found} after {before}")
        before = sum(found)
    say(reads=_READS)


def _asks(place: Path, folder: Path, say: Say) -> None:
    for _ in range(4):
        _command(place, folder, ["decide"], say)


def _is_one_line(text: str) -> bool:
    return bool(text.strip()) and "\n" not in text.strip() and "Traceback" not in text


def main() -> int:
    """Run what was asked for and print the counts."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument("--times", type=int, default=20)
    asks.add_argument("--seed", type=int, default=1)
    asks.add_argument("--json", action="store_true")
    asks.add_argument("--without-lock", action="store_true", help="a control")
    asked = asks.parse_args()
    counts = run(asked.times, asked.seed, without_lock=asked.without_lock)
    said = json.dumps({**asdict(counts), "line": counts.line()})
    print(said if asked.json else counts.line())  # noqa: T201
    for line in [] if asked.json else counts.faults:
        print(f"  {line}")  # noqa: T201
    return 1 if counts.faults else 0


if __name__ == "__main__":
    sys.exit(main())
