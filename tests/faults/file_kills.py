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
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field
from msgspec.structs import asdict
from PIL import Image
from typing_extensions import override

from growdesk.domain.errors import GrowdeskError
from growdesk.services import backups, care_of_files, transfer
from growdesk.services.backup_values import Why
from growdesk.services.backup_zip import prove
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.store import switching, whole_files
from growdesk.ui import roster_saving
from growdesk.ui.printing.sheet_pdf import write_pdf
from growdesk.ui.roster_columns import COLUMNS, Entry
from tests.faults import acts, content
from tests.faults.forked import killed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

_PHOTOS = 10
CLOCK = FixedClock(acts.TODAY)
_LONG_AGO_S = 2 * 3600
_SYNC_S = 0.002


class Counts(Struct):
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
            f"F3 {self.work}: {self.kills} kills, {self.within} before its end; left"
            f" {self.old} as it was, {self.absent} not there, {self.whole} whole;"
            f" {self.swept} leftovers swept, {len(self.faults)} half, lost or left over"
        )


class Work:
    """One thing that is written: done, and asked what a kill left of it.

    ``mark`` is said where it begins to change what the grower sees.
    """

    mark = "syncs"

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

    @override
    def do(self) -> None:
        care_of_files.backup_folder(self.folder, self.out / "a.zip", CLOCK.now())

    @override
    def left(self) -> str:
        file = self.out / "a.zip"
        if not file.exists():
            return "absent"
        return "whole" if len(prove(file).entries) == _PHOTOS + 1 else "old"


class Kept(Work):
    """A backup among those that are kept."""

    @override
    def do(self) -> None:
        backups.make(self.folder, Why.BY_HAND, CLOCK.now())

    @override
    def left(self) -> str:
        found = backups.kept(self.folder)
        for each in found:
            problem = each.problem or backups.prove(each)
            assert not problem, problem
            assert each.photos == _PHOTOS
        return "whole" if found else "absent"


class Export(Work):
    """The collection as tables and photos."""

    @override
    def do(self) -> None:
        with_open = Collection.open_to_read(self.folder, CLOCK)
        transfer.export(with_open, self.out / "export")
        with_open.close()

    @override
    def left(self) -> str:
        if not (self.out / "export" / "growdesk.json").exists():
            return "absent"
        read = transfer.read_folder(self.out / "export")
        assert len(read.rows["photo"]) == _PHOTOS
        return "whole"


class Csv(Work):
    """The table of all plants for spreadsheets, as the window saves it."""

    @override
    def do(self) -> None:
        roster_saving.save(self.out / "a.csv", COLUMNS, _entries(self.folder))

    @override
    def left(self) -> str:
        file = self.out / "a.csv"
        if not file.exists():
            return "absent"
        lines = file.read_bytes().splitlines()
        assert len(lines) == _LINES + 1, "cut short"
        return "whole"


class Pdf(Work):
    """A week's sheet as a PDF."""

    @override
    def do(self) -> None:
        collection = Collection.open_to_read(self.folder, CLOCK)
        write_pdf(collection.sheet.week(acts.TODAY), self.out / "a.pdf", "A4")
        collection.close()

    @override
    def left(self) -> str:
        file = self.out / "a.pdf"
        if not file.exists():
            return "absent"
        content = file.read_bytes()
        assert content.startswith(b"%PDF-"), "no PDF"
        assert content.rstrip().endswith(b"%%EOF"), "cut short"
        return "whole"


class Restore(Work):
    """A backup brought back over the collection in use."""

    mark = "switches"

    @override
    def do(self) -> None:
        care_of_files.restore(self.out / "b.zip", self.folder, CLOCK.now())

    @override
    def left(self) -> str:
        """Open it as the program does: the old or the new one, and no question."""
        collection = Collection.open(self.folder, CLOCK)
        tags = {draft.tag for _, draft in collection.plants.all()}
        collection.close()
        found = list(content.wrongs(self.folder))
        assert not found, found[0]
        if "LATER" in tags:
            return "old"
        asides = self.folder.parent.glob("collection-before-restore-*")
        assert any(_has_later(aside) for aside in asides), "the one before is gone"
        return "whole"


WORKS = {
    "zip": Zip,
    "kept": Kept,
    "restore": Restore,
    "export": Export,
    "csv": Csv,
    "pdf": Pdf,
}
_LINES = 3_000


def _has_later(folder: Path) -> bool:
    collection = Collection.open_to_read(folder, CLOCK)
    tags = {draft.tag for _, draft in collection.plants.all()}
    collection.close()
    return "LATER" in tags


def _entries(folder: Path) -> list[Entry]:
    collection = Collection.open_to_read(folder, CLOCK)
    lines = collection.roster.read(acts.TODAY)
    collection.close()
    return [Entry(lines[number % len(lines)], None) for number in range(_LINES)]


def run(work: str, kills: int, seed: int) -> Counts:
    """Kill a work so many times."""
    counts = Counts(work)
    with tempfile.TemporaryDirectory(prefix="growdesk-kills-") as made:
        tempfile.tempdir = str(Path(made) / "temp")
        Path(tempfile.tempdir).mkdir()
        prepared = Path(made) / "prepared"
        prepare(prepared)
        whole_s = _whole_s(WORKS[work], prepared, Path(made) / "first")
        for kill in range(kills):
            place = Path(made) / f"{kill}"
            shutil.copytree(prepared, place)
            _one(WORKS[work](place), f"{seed}-{kill}", whole_s, counts)
            shutil.rmtree(place)
    return counts


def prepare(place: Path) -> None:
    """Make a collection with photos, and a backup from before its last change."""
    folder, out = place / "collection", place / "out"
    out.mkdir(parents=True)
    acts.prepare(folder)
    collection = Collection.open(folder, CLOCK)
    chance = random.Random(7)  # noqa: S311 -- a picture, not a secret
    for number, (plant, _) in enumerate(collection.plants.all() * 2):
        if number < _PHOTOS:
            path = place / f"{number}.jpg"
            Image.frombytes("L", (300, 300), chance.randbytes(90_000)).save(path)
            collection.photos.add(plant, [path])
    care_of_files.backup(collection, out / "b.zip")
    collection.plants.add(PlantDraft("LATER", "", ""))
    collection.close()


def _whole_s(kind: type[Work], prepared: Path, place: Path) -> float:
    """Do it twice unharmed, the first time to load what is loaded late."""
    spent_s = 0.0
    for number in range(2):
        at = place / f"{number}"
        shutil.copytree(prepared, at)
        started = time.monotonic()
        kind(at).do()
        spent_s = time.monotonic() - started
        assert kind(at).left() == "whole"
    return spent_s


def _one(work: Work, seed: str, whole_s: float, counts: Counts) -> None:
    chance = random.Random(seed)  # noqa: S311
    before = content.state(work.folder)
    if chance.random() < 0.5 and not isinstance(work, Restore):
        work.do()  # an earlier one stands there already
    had = isinstance(work, Restore) or work.left() == "whole"

    def do(say: Callable[..., None]) -> None:
        _slow_disk(say)
        say(go=True)
        work.do()
        say(done=True)

    if chance.random() < 0.5:
        heard = killed(do, chance.uniform(0, 1.1 * whole_s), "go")
    else:
        heard = killed(do, chance.uniform(0, 8 * _SYNC_S), work.mark)
    counts.kills += 1
    counts.within += not heard.all_of("done")
    try:
        counts.faults += [f"{seed}: {line}" for line in _faults(work, had, counts)]
        if not isinstance(work, Restore) and content.state(work.folder) != before:
            counts.faults.append(f"{seed}: the collection is another one")
    except (GrowdeskError, AssertionError, OSError) as error:
        counts.faults.append(f"{seed}: {type(error).__name__}: {error}")


def _slow_disk(say: Callable[..., None]) -> None:
    """Let the disk take its time to sync, as a stick does, and say when it begins."""
    own: Any = whole_files
    sync_file, sync_folder = own.sync_file, own.sync_folder

    def slow_file(path: Path) -> None:
        say(syncs=True)
        time.sleep(_SYNC_S)
        sync_file(path)

    def slow_folder(path: Path) -> None:
        time.sleep(_SYNC_S)
        sync_folder(path)

    own.sync_file, own.sync_folder = slow_file, slow_folder
    _slow_switch(say, slow_folder)


def _slow_switch(say: Callable[..., None], slow_folder: Callable[..., None]) -> None:
    own: Any = switching
    switch = own.switch

    def told_switch(*arguments: Any) -> object:
        say(switches=True)
        return switch(*arguments)

    own.switch, own.sync_folder = told_switch, slow_folder


def _faults(work: Work, had: bool, counts: Counts) -> Iterator[str]:
    """Say what is wrong with what was left, and with doing it again."""
    left = work.left()
    setattr(counts, left, getattr(counts, left) + 1)
    if had and left == "absent" and not isinstance(work, Export):
        yield "an earlier one is gone"
    _age(work)
    counts.swept += len(_leftovers(work))
    work.do()
    if work.left() != "whole":
        yield "done again, it is not whole"
    for path in _leftovers(work):
        yield f"done again, {path.name} is left behind"


def _leftovers(work: Work) -> list[Path]:
    """Give what is half-written in the place, and in the system's passing folder."""
    place = work.folder.parent
    beside = [path for path in place.iterdir() if path.name.startswith(".")]
    passing = list(Path(tempfile.gettempdir()).glob("growdesk-*"))
    return [*place.rglob("*.part*"), *beside, *passing]


def _age(work: Work) -> None:
    """Let two hours go by for what was left half-written."""
    past = time.time() - _LONG_AGO_S
    for path in _leftovers(work):
        os.utime(path, (past, past))


def main() -> int:
    """Run what was asked for and print the counts."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument("--work", choices=sorted(WORKS), default="")
    asks.add_argument("--kills", type=int, default=50)
    asks.add_argument("--seed", type=int, default=1)
    asks.add_argument("--json", action="store_true")
    asked = asks.parse_args()
    faults = 0
    for work in [asked.work] if asked.work else WORKS:
        counts = run(work, asked.kills, asked.seed)
        faults += len(counts.faults)
        said = json.dumps({**asdict(counts), "line": counts.line()})
        print(said if asked.json else counts.line(), flush=True)  # noqa: T201
        for line in [] if asked.json else counts.faults:
            print(f"  {line}")  # noqa: T201
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
