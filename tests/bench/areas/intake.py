"""Tables taken in: plants, looks and a logger's year, read, checked and written."""

from __future__ import annotations

import gc
import shutil
import time
from contextlib import closing, contextmanager
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING, Any

from sqlalchemy import create_engine, event, insert, select

from growdesk.services import (
    intake_survey,
    intake_taking,
    logger_reading,
    logger_survey,
)
from growdesk.services.collection import Collection
from growdesk.services.values import PlaceDraft
from growdesk.store.folder_names import FILE_NAME
from growdesk.store.schema import Base
from tests.bench.bars import Bar, Limit, Pair

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tests.bench.ground import Ground

KINDS = ("phalaenopsis", "cattleya", "dendrobium", "paphiopedilum", "oncidium")
FROM = date(2000, 1, 1)
LOOKS_EACH = 10
READINGS = 365 * 288
Rows = dict[str, list[dict[str, Any]]]


class _Taking:
    """A table taken into a new collection, and the same rows by executemany."""

    def __init__(self, ground: Ground, table: Path, there: Path | None) -> None:
        self._table, self._there = table, there
        self._clock = ground.clock()
        self._folder = ground.tmp / f"into-{table.stem}"
        self._bare = ground.tmp / f"{table.stem}.sqlite"
        self._rows = self._written()

    def ours(self) -> float:
        """Take the table in; give the seconds from the file to what is written."""
        with closing(self._prepared()) as collection, as_in_the_window():
            began = time.perf_counter()
            self._take(collection, self._table)
            return time.perf_counter() - began

    def base(self) -> float:
        """Write the same rows, history and all, in one transaction as safe as ours."""
        self._bare.unlink(missing_ok=True)
        engine = create_engine(f"sqlite:///{self._bare}")
        event.listen(engine, "connect", _as_ours)
        Base.metadata.create_all(engine)
        with as_in_the_window(), engine.begin() as connection:
            began = time.perf_counter()
            for name, rows in self._rows.items():
                connection.execute(insert(Base.metadata.tables[name]), rows)
            connection.commit()
            spent = time.perf_counter() - began
        engine.dispose()
        return spent

    def _prepared(self) -> Collection:
        shutil.rmtree(self._folder, ignore_errors=True)
        collection = Collection.open(self._folder, self._clock, create=True)
        if self._there is not None:
            self._take(collection, self._there)
        return collection

    def _take(self, collection: Collection, table: Path) -> None:
        survey = intake_survey.survey(table)
        report = intake_taking.take(collection.ledger, survey, survey.choices)
        assert report.written is not None, report.bad[:2]

    def _written(self) -> Rows:
        with closing(self._prepared()) as collection:
            before = self._all()
            self._take(collection, self._table)
        after = self._all()
        new = {
            name: [row for row in rows if row["id"] > _last(before[name])]
            for name, rows in after.items()
        }
        return {name: rows for name, rows in new.items() if rows}

    def _all(self) -> Rows:
        engine = create_engine(f"sqlite:///{self._folder / FILE_NAME}")
        with engine.connect() as connection:
            found = {
                table.name: [
                    dict(r) for r in connection.execute(select(table)).mappings()
                ]
                for table in Base.metadata.sorted_tables
                if "id" in table.c
            }
        engine.dispose()
        return found


@contextmanager
def as_in_the_window() -> Iterator[None]:
    """Let nothing be collected meanwhile: the window chooses when that is done."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


def _last(rows: list[dict[str, Any]]) -> int:
    return max((row["id"] for row in rows), default=0)


def _as_ours(connection: Any, _record: object) -> None:
    connection.execute("PRAGMA journal_mode=TRUNCATE")
    connection.execute("PRAGMA synchronous=FULL")
    connection.execute("PRAGMA cache_spill=OFF")


def plants(ground: Ground) -> Pair:
    """Take a list of so many plants in."""
    rows = "".join(
        f"P{n},{KINDS[n % 5].title()} No. {n % 700},{KINDS[n % 5]},Sill {n % 6},bark,"
        f"{1 + n % 4 / 2},{2015 + n % 10}-03-{1 + n % 27:02},From a show {n % 50}\n"
        for n in range(ground.plants)
    )
    table = ground.tmp / f"plants-{ground.plants}.csv"
    heads = "tag,name,kind,place,medium,pot_volume_l,acquired_on,note"
    table.write_text(f"{heads}\n{rows}")
    taking = _Taking(ground, table, None)
    return Pair(taking.ours, taking.base)


def looks(ground: Ground) -> Pair:
    """Take ten looks of each of so many plants in."""
    there = ground.tmp / f"there-{ground.plants}.csv"
    tags = "".join(f"P{n},Cattleya\n" for n in range(ground.plants))
    there.write_text(f"tag,name\n{tags}")
    rows = "".join(
        f"P{n},{FROM + timedelta(days=7 * turn + n % 7)},{n % 5},dry,running,no. {n}\n"
        for turn in range(LOOKS_EACH)
        for n in range(ground.plants)
    )
    table = ground.tmp / f"looks-{ground.plants}.csv"
    table.write_text(f"tag,on,emerging,pot,root_tips,note\n{rows}")
    taking = _Taking(ground, table, there)
    return Pair(taking.ours, taking.base)


def logger(ground: Ground) -> Pair:
    """Take a year of a logger in, read every five minutes."""
    at, step = datetime(2025, 1, 1), timedelta(minutes=5)  # noqa: DTZ001 -- as written
    rows = "".join(
        f"{at + n * step:%Y-%m-%d %H:%M},{15 + n % 97 / 10:.1f},{50 + n % 31}\n"
        for n in range(READINGS)
    )
    table = ground.tmp / "logger.csv"
    table.write_text(f"time,temperature °C,humidity %\n{rows}")
    folder = ground.tmp / "logger"

    def ours() -> float:
        shutil.rmtree(folder, ignore_errors=True)
        with closing(Collection.open(folder, ground.clock(), create=True)) as made:
            place = made.places.add(PlaceDraft("Sill")).ids[0]
            began = time.perf_counter()
            survey = logger_survey.survey(table)
            file = logger_reading.read_days(table, survey.choices, ground.today)
            report = logger_reading.compare(made.ledger, file, place)
            logger_reading.take(made.ledger, report)
            return READINGS / (time.perf_counter() - began)

    return Pair(ours)


EXECUTEMANY = "SQLAlchemy executemany of the same rows and their history"
BARS = (
    Bar(
        "intake-plants",
        "Import of a CSV list of plants, checked",
        EXECUTEMANY,
        Limit.times(3),
        plants,
        (1_000, 10_000, 30_000),
        grows=True,
    ),
    Bar(
        "intake-looks",
        "Import of ten looks a plant, checked",
        EXECUTEMANY,
        Limit.times(3),
        looks,
        (1_000, 10_000),
        grows=True,
    ),
    Bar(
        "intake-logger",
        "Rows of a logger's year at five minutes, taken in",
        "",
        Limit.per_s(20_000),
        logger,
        (40,),
    ),
)
