"""Reading to judge: all plants from the disk, and one plant again after a look.

As in the window the collector does not run meanwhile (``ui/collecting.py``).
"""

from __future__ import annotations

import gc
import sqlite3
from contextlib import contextmanager
from datetime import timedelta
from itertools import count
from typing import TYPE_CHECKING

from growdesk.domain.facts import Health, Look, NewGrowths, RootTips, Verdict
from growdesk.domain.remembered import REMEMBERED
from growdesk.services import roster_rows
from growdesk.services.collection import Collection
from growdesk.services.judged_day import judged_day
from growdesk.services.known import READINGS_DAYS
from growdesk.store.folder_names import FILE_NAME
from growdesk.store.many import CARE_COLUMNS, LOOK_COLUMNS, READING_COLUMNS
from growdesk.store.schema import PlantRow
from growdesk.ui.desk import Shown, _read_day
from tests.bench.bars import Bar, Limit, Pair

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from tests.bench.ground import Ground

_LOOK = ", ".join(f"l.{column.name}" for column in LOOK_COLUMNS)
_CARE = ", ".join(f"c.{column.name}" for column in CARE_COLUMNS)
_NOTHING = ", NULL" * (len(LOOK_COLUMNS) - len(CARE_COLUMNS))
_READING = ", ".join(f"r.{column.name}" for column in READING_COLUMNS)
_PLANT = ", ".join(
    f"p.{column.name}" for column in list(PlantRow.__table__.c)[: len(LOOK_COLUMNS)]
)
_HERE = "p.binned_on IS NULL AND p.status = 'growing'"

SAME_ROWS = f"""
    SELECT {_LOOK} FROM plant p CROSS JOIN look l ON l.plant_id = p.id AND l.day >= ?
    WHERE {_HERE}
    UNION ALL
    SELECT {_CARE}{_NOTHING} FROM plant p
    CROSS JOIN care c ON c.plant_id = p.id AND c.day >= ? WHERE {_HERE}
    UNION ALL
    SELECT {_READING}{_NOTHING} FROM place p
    CROSS JOIN reading r ON r.place_id = p.id AND r.day >= ?
    UNION ALL
    SELECT {_PLANT} FROM plant p WHERE {_HERE}
"""  # noqa: S608 -- names of our own columns
"""The rows that judging goes by: looks, care, readings, and plants as wide as looks."""

NEWEST = """
    SELECT l.* FROM plant p JOIN look l ON l.id = (
        SELECT id FROM look WHERE plant_id = p.id AND day <= ?
        ORDER BY day DESC, id DESC LIMIT 1
    ) WHERE p.binned_on IS NULL
"""


@contextmanager
def _as_in_the_window() -> Iterator[None]:
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


def verdicts(ground: Ground) -> Pair:
    """Read and judge all plants; below it one query for the same looks and care."""
    opened = Collection.open_to_read(ground.folder, ground.clock())
    raw = sqlite3.connect(ground.folder / FILE_NAME)
    since = (ground.today - REMEMBERED).isoformat()
    read_since = (ground.today - timedelta(days=READINGS_DAYS)).isoformat()

    def ours() -> None:
        with _as_in_the_window(), opened.ledger.reading() as session:
            day = judged_day(session, ground.today)
        assert len(day.judged) == ground.plants

    def base() -> None:
        with _as_in_the_window():
            raw.execute(SAME_ROWS, (since, since, read_since)).fetchall()

    def close() -> None:
        raw.close()
        opened.close()

    return Pair(ours, base, close=close)


def newest(ground: Ground) -> Pair:
    """Read each plant's newest look, as the collection's table does; or by hand."""
    opened = Collection.open_to_read(ground.folder, ground.clock())
    raw = sqlite3.connect(ground.folder / FILE_NAME)
    day = ground.today.isoformat()

    def ours() -> None:
        with _as_in_the_window(), opened.ledger.reading() as session:
            found = roster_rows.last_looks(session, ground.today)
        assert len(found) > ground.plants // 2

    def base() -> None:
        with _as_in_the_window():
            raw.execute(NEWEST, (day,)).fetchall()

    def close() -> None:
        raw.close()
        opened.close()

    return Pair(ours, base, close=close)


def again(ground: Ground) -> Pair:
    """Give all that the window shows of the day, once a look was written."""
    return _looked(ground, lambda turn: Look(ground.today, lead_length_mm=10.0 + turn))


def jugs_again(ground: Ground) -> Pair:
    """Give the day anew once a look turned a plant's verdict, with all jugs."""
    rot = (frozenset({Health.ROT}), frozenset[Health]())
    return _looked(
        ground,
        lambda turn: Look(
            ground.today,
            NewGrowths(extending=1),
            root_tips=RootTips.RUNNING,
            health=rot[turn % 2],
        ),
    )


def _looked(ground: Ground, shown: Callable[[int], Look]) -> Pair:
    opened = Collection.open(ground.copy(photos=False), ground.clock())
    lines = opened.day.view().lines
    fed = next(line.plant_id for line in lines if line.verdict is Verdict.FEED)
    turns = count()

    def ours() -> None:
        with _as_in_the_window():
            shown = _read_day(opened, None, ())
        assert isinstance(shown, Shown)

    return Pair(
        ours,
        before=lambda: opened.looks.record(fed, shown(next(turns))),
        close=opened.close,
    )


BARS: tuple[Bar, ...] = (
    Bar(
        "store-verdicts",
        "Verdicts of all plants, from the disk",
        base="one raw sqlite3 query of the same rows",
        most=Limit.times(4),
        measure=verdicts,
        grows=True,
    ),
    Bar(
        "store-newest",
        "Newest look of each plant, for the collection's table",
        base="the same query by sqlite3 alone",
        most=Limit.times(1.3),
        measure=newest,
        sizes=(10_000,),
    ),
    Bar(
        "store-again",
        "Judged again after one look, the whole list",
        base="",
        most=Limit.ms(20),
        measure=again,
        grows=True,
    ),
    Bar(
        "store-jugs-again",
        "A look that turns a verdict: judged again, with all jugs",
        base="",
        most=Limit.ms(250),
        measure=jugs_again,
        grows=True,
    ),
)
