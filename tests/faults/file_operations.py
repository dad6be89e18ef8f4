"""F4: each operation on a file fails once: the disk is full, broken, or not to write.

    python -m tests.faults.file_operations --work tick --error EIO

For n = 1, 2, 3 … until nothing fails any more, SQLite's own writes among them. Each
time: it goes on to its end, or is refused in one line and nothing is changed; nothing
half stands under a final name; done again it goes; and the collection is whole.
"""

from __future__ import annotations

import argparse
import errno
import json
import os
import shutil
import sys
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field
from msgspec.structs import asdict
from PIL import Image
from typing_extensions import override

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.facts import Look
from growdesk.services import (
    backups,
    bug_report,
    calendar_file,
    care_of_files,
    daily_backup,
    full_check,
    rescuing,
    second_place,
    transfer,
)
from growdesk.services.backup_values import Why
from growdesk.services.backup_zip import prove
from growdesk.services.check_values import Sort
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.store.folder_names import FILE_NAME
from growdesk.ui import roster_saving
from growdesk.ui.printing.sheet_pdf import save_pdf
from growdesk.ui.roster_columns import COLUMNS, Entry
from tests.faults import acts, content, failing
from tests.faults.running import ROOT, in_memory

if TYPE_CHECKING:
    from collections.abc import Iterator

CLOCK = FixedClock(acts.TODAY)
ERRORS = (errno.ENOSPC, errno.EIO, errno.EACCES)
_MOST = 4_000
_LOOKED_THROUGH = 4
"""Which of them is checked in depth too; all are checked by SQLite and by photo."""
_OLD = ROOT / "tests" / "data" / "databases" / "schema-3.sqlite"


class Counts(Struct):
    """What came of failing each operation of one work once."""

    work: str
    operations: int = 0
    of_sqlite: int = 0
    refused: int = 0
    at_the_end: int = 0
    went_on: int = 0
    faults: list[str] = field(default_factory=list)

    def line(self) -> str:
        """Give the counts in one line."""
        return (
            f"F4 {self.work}: {self.operations} operations failed once"
            f" ({self.of_sqlite} of SQLite's own), {self.refused} refused in one line"
            f" ({self.at_the_end} when all was written), {self.went_on} went on to the"
            f" end; {len(self.faults)} lost, half or raw"
        )


class Work:
    """Something that is written below a place; ``begin`` and ``end`` meet no fault."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self.folder = place / "collection"
        self.out = place / "out"

    def begin(self) -> None:
        """Make ready."""

    def do(self) -> None:
        """Write it, as the program does."""
        raise NotImplementedError

    def end(self) -> None:
        """Let go of what was made ready."""

    def clear(self) -> None:
        """Make room for doing it again, where it refuses what is there."""

    def state(self) -> object:
        """Give what was written, to tell whether anything was."""
        raise NotImplementedError


class Change(Work):
    """A change of an open collection."""

    collection: Collection
    plants: list[int]

    @override
    def begin(self) -> None:
        self.collection = Collection.open(self.folder, CLOCK)
        self.plants = [plant for plant, _ in self.collection.plants.all()]

    @override
    def end(self) -> None:
        self.collection.close()

    @override
    def state(self) -> object:
        return content.state(self.folder).said()


class Tick(Change):
    """Three plants are ticked."""

    @override
    def do(self) -> None:
        self.collection.day.tick(self.plants[:3], acts.TODAY)


class Note(Change):
    """A long note."""

    @override
    def do(self) -> None:
        self.collection.looks.record(self.plants[0], Look(acts.TODAY), "x" * 9_000)


class Photos(Change):
    """Two photos are taken in with a look."""

    @override
    def do(self) -> None:
        files = [self.place / f"new-{number}.jpg" for number in range(2)]
        self.collection.photos.add(self.plants[0], files)


class Undo(Change):
    """The last change is taken back."""

    @override
    def do(self) -> None:
        self.collection.history.undo()


class Table(Change):
    """Plants and care are taken in from a table."""

    @override
    def do(self) -> None:
        survey = transfer.survey_of(self.place / "new.csv")
        transfer.take(self.collection.ledger, survey, transfer.choose(survey))


class Close(Change):
    """A collection is opened, changed and closed."""

    @override
    def begin(self) -> None:
        pass

    @override
    def do(self) -> None:
        opened = Collection.open(self.folder, CLOCK)
        try:
            opened.keep_reserve()
            plant = opened.plants.all()[0][0]
            opened.day.tick([plant], acts.TODAY)
        finally:
            opened.close()

    @override
    def end(self) -> None:
        pass


class Create(Work):
    """A new collection."""

    def __init__(self, place: Path) -> None:
        super().__init__(place)
        self.folder = place / "fresh" / "mine"

    @override
    def do(self) -> None:
        Collection.open(self.folder, CLOCK, create=True).close()

    @override
    def state(self) -> object:
        return (self.folder / FILE_NAME).exists()


class Migrate(Work):
    """A collection of an earlier form is brought up to today's."""

    @override
    def begin(self) -> None:
        shutil.rmtree(self.folder)
        self.folder.mkdir()
        shutil.copy(_OLD, self.folder / FILE_NAME)

    @override
    def do(self) -> None:
        opened = Collection.open(self.folder, CLOCK)
        looking = opened.looking
        opened.close()
        if looking:
            raise GrowdeskError(looking)

    @override
    def state(self) -> object:
        return content.dump(self.folder / FILE_NAME)


class Files(Work):
    """A file or folder beside the collection: absent, or whole."""

    name = ""

    @override
    def state(self) -> object:
        path = self.out / self.name
        if not path.exists() or self.is_marked_unfinished(path):
            return "absent"
        self.read(path)
        return "whole"

    def is_marked_unfinished(self, path: Path) -> bool:
        """Tell whether it says of itself that it is not finished."""
        return path.is_dir() and not any(path.iterdir())

    def read(self, path: Path) -> None:
        """Read it to its end; raise where it is not whole."""
        assert path.stat().st_size


class Zip(Files):
    """A backup in one file."""

    name = "a.zip"

    @override
    def do(self) -> None:
        care_of_files.backup_folder(self.folder, self.out / self.name, CLOCK.now())

    @override
    def read(self, path: Path) -> None:
        prove(path)


class Export(Files):
    """All tables and photos as a folder."""

    name = "export"

    @override
    def do(self) -> None:
        opened = Collection.open_to_read(self.folder, CLOCK)
        try:
            transfer.export(opened, self.out / self.name)
        finally:
            opened.close()

    @override
    def is_marked_unfinished(self, path: Path) -> bool:
        return not (path / "growdesk.json").exists()

    @override
    def read(self, path: Path) -> None:
        transfer.read_folder(path)


class Pdf(Files):
    """A sheet as a PDF, drawn before."""

    name = "a.pdf"

    @override
    def do(self) -> None:
        save_pdf(b"%PDF- %%EOF" * 900, self.out / self.name, "The sheet")


class Spreadsheet(Files):
    """The list of plants as a table."""

    name = "a.csv"

    @override
    def begin(self) -> None:
        opened = Collection.open_to_read(self.folder, CLOCK)
        self.lines = [Entry(line, None) for line in opened.roster.read(acts.TODAY)]
        opened.close()

    @override
    def do(self) -> None:
        roster_saving.save(self.out / self.name, COLUMNS, self.lines)


class CalendarFile(Files):
    """The dated jobs for other calendars."""

    name = "a.ics"

    @override
    def do(self) -> None:
        opened = Collection.open_to_read(self.folder, CLOCK)
        try:
            calendar_file.save(opened, self.out / self.name)
        finally:
            opened.close()


class Report(Files):
    """A report of a fault."""

    name = "a.txt"

    @override
    def do(self) -> None:
        text = bug_report.report(self.folder, CLOCK.now())
        bug_report.save(text, self.out / self.name)

    @override
    def clear(self) -> None:
        (self.out / self.name).unlink(missing_ok=True)


class Rescue(Files):
    """What can be read is saved into a new collection."""

    name = "rescued"

    @override
    def do(self) -> None:
        rescuing.rescue(self.folder, self.out / self.name, CLOCK.now())

    @override
    def clear(self) -> None:
        shutil.rmtree(self.out / self.name, ignore_errors=True)

    @override
    def read(self, path: Path) -> None:
        found = full_check.look_through(path).damage
        assert all(each.sort is Sort.PHOTO for each in found)


class Kept(Work):
    """A backup among those that are kept."""

    @override
    def do(self) -> None:
        backups.make(self.folder, Why.BY_HAND, CLOCK.now())

    @override
    def state(self) -> object:
        found = backups.kept(self.folder)
        for each in found:
            problem = each.problem or backups.prove(each)
            assert not problem, problem
        return len(found)


class Second(Kept):
    """The last backup is copied to a second place."""

    @override
    def begin(self) -> None:
        backups.make(self.folder, Why.BY_HAND, CLOCK.now())
        second_place.choose(self.folder, self.out, CLOCK.now())

    @override
    def do(self) -> None:
        second_place.copy_last(self.folder, CLOCK.now())

    @override
    def state(self) -> object:
        super().state()
        (root,) = self.out.glob("growdesk-*")
        found = backups.kept_in(root)
        for each in found:
            problem = each.problem or backups.prove(each)
            assert not problem, problem
        return len(found)


class Daily(Kept):
    """What growdesk does of itself each day; what goes wrong comes back as lines."""

    @override
    def do(self) -> None:
        problems = daily_backup.keep(self.folder, CLOCK.now()).problems
        if problems:
            raise GrowdeskError(problems[0])


WORKS: dict[str, type[Work]] = {
    "create": Create,
    "open and close": Close,
    "tick": Tick,
    "note": Note,
    "photos": Photos,
    "undo": Undo,
    "table": Table,
    "migration": Migrate,
    "kept backup": Kept,
    "day's backup": Daily,
    "second place": Second,
    "zip": Zip,
    "rescue": Rescue,
    "export": Export,
    "sheet": Pdf,
    "spreadsheet": Spreadsheet,
    "calendar": CalendarFile,
    "report": Report,
}


def prepare(place: Path) -> None:
    """Lay a small collection with a photo, and what is taken in."""
    folder = place / "collection"
    (place / "out").mkdir(parents=True)
    (place / "temp").mkdir()
    acts.prepare(folder)
    for number in range(3):
        side = 120 + number
        path = place / f"new-{number}.jpg"
        Image.frombytes("L", (side, side), os.urandom(side * side)).save(path)
    lines = [f"T{number},Cattleya {number},cattleya,Hall" for number in range(8)]
    (place / "new.csv").write_text("\n".join(["tag,name,kind,place", *lines]) + "\n")
    opened = Collection.open(folder, CLOCK)
    plant = opened.plants.all()[0][0]
    opened.photos.add(plant, [place / "new-2.jpg"])
    opened.close()


def run(work: str, number: int, *, every: int = 1, reads: bool = False) -> Counts:
    """Fail each operation of a work once, or each so many, as the system would."""
    counts = Counts(f"{work}, {errno.errorcode[number]}")
    failing.install()
    with tempfile.TemporaryDirectory(prefix="f4-", dir=in_memory()) as made:
        prepared = Path(made) / "prepared"
        prepare(prepared)
        for at in (0, *range(1, _MOST, every)):
            place = Path(made) / "place"
            shutil.copytree(prepared, place)
            tempfile.tempdir = str(place / "temp")
            os.environ["XDG_CACHE_HOME"] = str(place / "temp" / "cache")
            try:
                failed = _one(WORKS[work](place), at, number, counts, reads=reads)
            except BaseException:
                tempfile.tempdir = None
                raise
            tempfile.tempdir = None
            shutil.rmtree(place)
            if at and not failed:
                return counts
    counts.faults.append("it never ends")
    return counts


def _one(work: Work, at: int, number: int, counts: Counts, *, reads: bool) -> bool:
    """Let the n-th operation fail; the 0th lets all be, to load what is late."""
    work.begin()
    before, refused, raw = work.state(), "", ""
    with failing.bad_luck(work.place, at, number, reads=reads) as luck:
        try:
            work.do()
        except GrowdeskError as error:
            refused = error.line()
        except Exception as error:  # noqa: BLE001 -- whatever a person would meet
            raw = f"{type(error).__name__}: {error}"
    if luck.failed:
        counts.operations += 1
        counts.of_sqlite += "SQLite" in luck.failed
        counts.refused += bool(refused)
        counts.went_on += not refused and not raw
        with suppress(AssertionError, GrowdeskError):
            counts.at_the_end += bool(refused) and work.state() != before
    for fault in _faults(work, before, refused, raw, at):
        counts.faults.append(f"{at} {luck.failed}: {fault}")
    return bool(luck.failed)


def _faults(
    work: Work, before: object, refused: str, raw: str, at: int
) -> Iterator[str]:
    if raw:
        yield f"not one line: {raw}"
    if refused and ("\n" in refused or not _names_a_place(refused, work)):
        yield f"names neither disk nor file: {refused}"
    try:
        yield from _state_faults(work, before, refused or raw, at)
    except Exception as error:  # noqa: BLE001 -- whatever it is, it is a finding
        yield f"afterwards {type(error).__name__}: {error}"


def _state_faults(work: Work, before: object, refused: str, at: int) -> Iterator[str]:
    left = work.state()
    if refused and left != before and isinstance(work, Change):
        yield f"refused ({refused}), and changed all the same"
    if not refused and left == before:
        yield "said to be done, and is not"
    if refused:
        work.clear()
        work.do()
        if work.state() == before:
            yield "done again, it is not done"
    work.end()
    yield from _wrongs(work, at)


def _wrongs(work: Work, at: int) -> Iterator[str]:
    """Say what is not whole once all is done."""
    Collection.open(work.folder, CLOCK).close()
    yield from content.wrongs(work.folder)
    if at % _LOOKED_THROUGH == 0:
        for damage in full_check.look_through(work.folder).damage:
            yield f"damage: {damage.sentence}"
    for left_over in work.out.rglob("*.part*"):
        yield f"left behind: {left_over.name}"


def _names_a_place(line: str, work: Work) -> bool:
    return str(work.place) in line or "disk" in line or "new-" in line


def main() -> int:
    """Run what was asked for and print the counts."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument("--work", choices=sorted(WORKS), action="append")
    asks.add_argument("--error", action="append")
    asks.add_argument("--every", type=int, default=1)
    asks.add_argument("--reads", action="store_true")
    asks.add_argument("--json", action="store_true")
    asked = asks.parse_args()
    numbers = [getattr(errno, each) for each in asked.error or ()] or ERRORS
    faults = 0
    for work in asked.work or WORKS:
        for number in numbers:
            counts: Any = run(work, number, every=asked.every, reads=asked.reads)
            faults += len(counts.faults)
            said = json.dumps({**asdict(counts), "line": counts.line()})
            print(said if asked.json else counts.line(), flush=True)  # noqa: T201
            for line in [] if asked.json else counts.faults:
                print(f"  {line}")  # noqa: T201
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
