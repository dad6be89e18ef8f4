"""Where a bar is measured: a generated collection of one size, and copies of it.

A collection is the demo's, its plants copied until there are enough, each with fifty
looks and fifty pieces of care over twenty years, and two photos. They are made once
and kept in a cache folder.
"""

from __future__ import annotations

import hashlib
import io
import os
import shutil
import sqlite3
import tempfile
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from PIL import Image, ImageDraw

from growdesk.services.clock import FixedClock
from growdesk.services.demo import lay_demo
from growdesk.store.folder_names import FILE_NAME, PHOTOS
from growdesk.store.migrations import SCHEMA
from growdesk.store.seal import SEAL_NAME
from growdesk.store.store import Store

if TYPE_CHECKING:
    from collections.abc import Iterator

ON = date(2026, 11, 25)
YEARS = 20
EACH = 50
PHOTOS_EACH = 2
_FORM = 2
"""Raised when a collection is generated otherwise, so that no old one is used."""
_OWN = ("lead_length_mm", "longest_new_root_mm", "volume_l", "spike_mm")
"""Measured values that differ a little from plant to plant."""


class Ground(Struct):
    """A collection of so many plants: read ``folder``, write in a ``copy``."""

    plants: int
    folder: Path
    tmp: Path
    today: date = ON

    def copy(self, *, photos: bool = True) -> Path:
        """Give a copy to write in; its photos are links to the same files."""
        into = Path(tempfile.mkdtemp(prefix=f"copy-{self.plants}-", dir=self.tmp))
        for name in (FILE_NAME, SEAL_NAME):
            shutil.copyfile(self.folder / name, into / name)
        if photos:
            shutil.copytree(self.folder / PHOTOS, into / PHOTOS, copy_function=os.link)
        return into

    def clock(self) -> FixedClock:
        """Give a clock that stands at the day."""
        return FixedClock(self.today)


def cache() -> Path:
    """Give the folder where generated collections and pictures are kept."""
    home = os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache"
    made = Path(os.environ.get("GROWDESK_BENCH_CACHE") or Path(home, "growdesk-bench"))
    made.mkdir(parents=True, exist_ok=True)
    return made


def ground(plants: int, tmp: Path) -> Ground:
    """Give the ground for so many plants, generated where it is not there yet."""
    folder = cache() / f"{plants}-plants-{_FORM}-{SCHEMA}"
    if not folder.exists():
        with tempfile.TemporaryDirectory(dir=cache()) as made:
            generate(Path(made) / "new", plants)
            (Path(made) / "new").rename(folder)
    return Ground(plants, folder, tmp)


def generate(folder: Path, plants: int) -> Path:
    """Make a collection of so many plants in a new folder."""
    lay_demo(folder, ON)
    with closing(sqlite3.connect(folder / FILE_NAME)) as base:
        base.executescript("PRAGMA synchronous=OFF; PRAGMA foreign_keys=OFF;")
        with base:
            _fill(base, folder, plants)
    (folder / SEAL_NAME).unlink()
    clock = FixedClock(ON)
    store = Store.open(folder, clock.now)
    store.note_full_check(clock.now())
    store.close()
    return folder


def _fill(base: sqlite3.Connection, folder: Path, plants: int) -> None:
    base.row_factory = sqlite3.Row
    of = [
        row["id"]
        for row in base.execute(
            "SELECT id FROM plant WHERE status = 'growing' AND binned_on IS NULL"
            " ORDER BY id"
        )
    ]
    rows = {
        table: {key: _recent(base, table, key) for key in of}
        for table in ("look", "care")
    }
    kept = of[:plants]
    base.execute("DELETE FROM drawn")
    base.execute("UPDATE photo SET look_id = NULL")
    gone = "NOT IN (" + ",".join(map(str, kept)) + ")"
    for table in ("look", "care"):
        growing = "SELECT id FROM plant WHERE status = 'growing'"
        base.execute(f"DELETE FROM {table} WHERE plant_id IN ({growing})")  # noqa: S608
    if len(kept) < len(of):
        for table in ("photo", "bloom", "mark", "plant_correction", "recipe_use"):
            base.execute(f"DELETE FROM {table} WHERE plant_id {gone}")  # noqa: S608
        base.execute(f"UPDATE plant SET parent_id = NULL WHERE parent_id {gone}")  # noqa: S608
        base.execute(f"DELETE FROM plant WHERE id {gone}")  # noqa: S608
    numbers = list(kept)
    sources = list(kept)
    for number in range(plants - len(kept)):
        source = of[number % len(of)]
        numbers.append(_copied(base, source, f"X{number + 1}"))
        sources.append(source)
    pairs = list(zip(numbers, sources, strict=True))
    for table in ("look", "care"):
        _spread(base, table, rows[table], pairs)
    base.execute(
        "INSERT INTO drawn (care_id, tin_id, amount)"
        " SELECT care.id, tin.id, 0.1 FROM care, (SELECT min(id) AS id FROM tin) AS tin"
        " WHERE care.what = 'feed'"
    )
    _photograph(base, folder, numbers)


def _recent(base: sqlite3.Connection, table: str, key: int) -> list[dict[str, Any]]:
    found = base.execute(
        f"SELECT * FROM {table} WHERE plant_id = ? ORDER BY day DESC, id DESC LIMIT ?",  # noqa: S608
        (key, EACH),
    )
    return [dict(row) for row in found]


def _copied(base: sqlite3.Connection, source: int, tag: str) -> int:
    row = dict(base.execute("SELECT * FROM plant WHERE id = ?", (source,)).fetchone())
    del row["id"]
    row |= {"tag": tag, "parent_id": None, "parent_how": None}
    names = ", ".join(f'"{name}"' for name in row)
    marks = ", ".join("?" for _ in row)
    made = base.execute(
        f"INSERT INTO plant ({names}) VALUES ({marks})",  # noqa: S608
        tuple(row.values()),
    )
    return int(made.lastrowid or 0)


def _spread(
    base: sqlite3.Connection,
    table: str,
    rows: dict[int, list[dict[str, Any]]],
    pairs: list[tuple[int, int]],
) -> None:
    """Write fifty rows a plant, day by day, as a grower does."""
    names = list(next(row for all_ in rows.values() for row in all_))
    names.remove("id")
    listed = ", ".join(f'"{name}"' for name in names)
    marks = ", ".join("?" for _ in names)
    places = names.index("day"), names.index("plant_id")
    written = [
        tuple(row[name] for name in names)
        for number, source in pairs
        for row in _years(rows[source], number)
    ]
    written.sort(key=lambda values: [str(values[at]).zfill(9) for at in places])
    base.executemany(
        f"INSERT INTO {table} ({listed}) VALUES ({marks})",  # noqa: S608
        written,
    )


def _years(rows: list[dict[str, Any]], number: int) -> Iterator[dict[str, Any]]:
    """Give the last rows as they are, then the same, spread over the years before.

    No two plants have all values alike.
    """
    if not rows:
        return
    recent = rows[: EACH // 2]
    step = YEARS * 365 // (EACH - len(recent))
    for index in range(EACH):
        row = recent[index % len(recent)]
        day = date.fromisoformat(str(row["day"]))
        back = max(0, index - len(recent) + 1) * step
        own = {
            name: round(row[name] + number * 0.001, 3)
            for name in _OWN
            if isinstance(row.get(name), float)
        }
        yield {
            **row,
            **own,
            "day": (day - timedelta(days=back)).isoformat(),
            "plant_id": number,
        }


def _photograph(base: sqlite3.Connection, folder: Path, numbers: list[int]) -> None:
    image = Image.new("RGB", (64, 48), "darkgreen")
    ImageDraw.Draw(image).ellipse((16, 8, 48, 40), "orchid")
    for number in numbers:
        for turn in range(PHOTOS_EACH):
            written = io.BytesIO()
            image.save(written, "JPEG", comment=f"{number}/{turn}".encode())
            data = written.getvalue()
            sha256 = hashlib.sha256(data).hexdigest()
            path = folder / PHOTOS / sha256[:2] / f"{sha256}.jpg"
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
            base.execute(
                "INSERT INTO photo (plant_id, sha256, ext, width, height, taken_on,"
                " file_name) VALUES (?, ?, 'jpg', 64, 48, ?, ?)",
                (
                    number,
                    sha256,
                    (ON - timedelta(days=30 + turn)).isoformat(),
                    f"{number}-{turn}.jpg",
                ),
            )
