"""The lists: found in, sorted, shown, read, scrolled; a tick, and a long timeline.

What is timed ends when all that the window was asked to paint is painted.
"""

from __future__ import annotations

import time
from datetime import timedelta
from functools import lru_cache, partial
from itertools import cycle
from random import Random
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtWidgets import QApplication

from growdesk.domain.facts import Look, RootTips, Verdict
from growdesk.services.collection import Collection
from growdesk.services.roster import Roster
from growdesk.services.values import Done, DoneKind, LookView
from growdesk.ui.models.roster_model import RosterModel
from growdesk.ui.panes.day_list import DayListPane
from growdesk.ui.panes.roster import RosterPane
from growdesk.ui.start import application
from growdesk.ui.tasks import Tasks
from growdesk.ui.widgets.roster_table import RosterTable
from growdesk.ui.widgets.thumbs import Thumbs
from growdesk.ui.widgets.timeline import Timeline
from tests.bench.bars import Bar, Limit, Pair
from tests.bench.ground import ON

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from PySide6.QtWidgets import QAbstractScrollArea, QWidget

    from growdesk.domain.name_sort import SortKey
    from growdesk.services.roster_values import RosterLine
    from growdesk.services.values import DayView, Line, PlantDetail
    from tests.bench.ground import Ground

_TYPED = ("cattleya", "laelia anc", "keep", "window", "zzz")
_BEYOND = 10
_FEW = 40
_ENTRIES = 2_000
_FRAMES = 60
_GIVEN = frozenset({Verdict.FEED, Verdict.CLEAR_WATER, Verdict.FLUSH})


def _app() -> QApplication:
    here = QApplication.instance()
    return here if isinstance(here, QApplication) else application()


def _painted(act: Callable[[], object]) -> float:
    """Do something and give the seconds until all of it is painted."""
    began = time.perf_counter()
    act()
    _app().processEvents()
    return time.perf_counter() - began


@lru_cache(maxsize=1)
def _open(folder: Path) -> Collection:
    return Collection.open_to_read(folder)


@lru_cache(maxsize=1)
def _lines(folder: Path) -> tuple[RosterLine, ...]:
    return _open(folder).roster.read(ON)


@lru_cache(maxsize=1)
def _day(folder: Path) -> DayView:
    return _open(folder).day.view(ON)


def _copied(lines: tuple[RosterLine, ...], times: int) -> tuple[RosterLine, ...]:
    """Give the plants that often, as other plants."""
    step = max(line.plant_id for line in lines) + 1
    return tuple(
        replace(line, plant_id=line.plant_id + step * number)
        for number in range(times)
        for line in lines
    )


def _shown(widget: QWidget, wide: int = 1_100) -> None:
    _app()
    widget.resize(wide, 700)
    widget.show()
    _app().processEvents()


def _table(lines: tuple[RosterLine, ...]) -> RosterPane:
    _app()
    pane = RosterPane()
    verdicts = {line.plant_id: Verdict.FEED for line in lines[::3]}
    pane.show_plants(lines, verdicts, ON)
    _shown(pane)
    return pane


# -- found, sorted, shown --------------------------------------------------------------


def _keys(line: Callable[[str], object]) -> list[float]:
    """Type some words letter by letter, and give what each key took."""
    typed = [word[:end] for word in _TYPED for end in range(1, len(word) + 1)]
    return [_painted(partial(line, text)) for text in typed]


def _mean(taken: list[float]) -> float:
    return sum(taken) / len(taken)


def _slow(taken: list[float]) -> float:
    """Give what one in twenty takes longer than."""
    return sorted(taken)[int(len(taken) * 0.95)]


def _again(pane: RosterPane) -> float:
    """Reset and paint all rows as they are, which is a find without the finding."""
    model, table = pane.model, pane.table

    def reset() -> None:
        model.beginResetModel()
        model.endResetModel()
        table.viewport().update()

    pane.find_line.clear()
    return _mean([_painted(reset) for _ in range(10)])


def find(ground: Ground) -> Pair:
    """One key in the find of the collection's table."""
    return _find(_lines(ground.folder))


def find_100k(ground: Ground) -> Pair:
    """One key over a hundred thousand plants."""
    return _find(_copied(_lines(ground.folder), _BEYOND))


def _find(lines: tuple[RosterLine, ...]) -> Pair:
    pane = _table(lines)
    return Pair(
        lambda: _mean(_keys(pane.find_line.setText)),
        lambda: _again(pane),
        close=pane.deleteLater,
    )


def find_slow(ground: Ground) -> Pair:
    """Give the slow keys, one in twenty, in the collection's table."""
    pane = _table(_lines(ground.folder))
    return Pair(lambda: _slow(_keys(pane.find_line.setText)), close=pane.deleteLater)


def find_day(ground: Ground) -> Pair:
    """Give the slow keys, one in twenty, in the day's list."""
    pane = _day_list(_day(ground.folder))
    return Pair(lambda: _slow(_keys(pane.filter.setText)), close=pane.deleteLater)


def sort(ground: Ground) -> Pair:
    """A click on a heading, turned round each time."""
    return _sort(_lines(ground.folder))


def sort_100k(ground: Ground) -> Pair:
    """A click on a heading over a hundred thousand plants."""
    return _sort(_copied(_lines(ground.folder), _BEYOND))


def _sort(lines: tuple[RosterLine, ...]) -> Pair:
    """Names stand in no order of the walk, so that the floor has to sort too."""
    values = [line.name_order for line in lines if line.name_order is not None]
    Random(8).shuffle(values)  # noqa: S311 -- an order, no secret
    named = [line for line in lines if line.name_order is not None]
    pane = _table(
        tuple(
            replace(line, name_order=value)
            for line, value in zip(named, values, strict=True)
        )
    )
    turned = cycle((False, True))
    return Pair(
        lambda: _painted(lambda: pane.sort_by("name")),
        lambda: _bare(values, downwards=next(turned)),
        close=pane.deleteLater,
    )


def _bare(values: Sequence[SortKey], *, downwards: bool) -> float:
    began = time.perf_counter()
    sorted(range(len(values)), key=values.__getitem__, reverse=downwards)
    return time.perf_counter() - began


def show(ground: Ground) -> Pair:
    """The table comes into sight with all its rows, and with forty."""
    return _show(_lines(ground.folder))


def show_100k(ground: Ground) -> Pair:
    """The table comes into sight with a hundred thousand rows."""
    return _show(_copied(_lines(ground.folder), _BEYOND))


def _show(lines: tuple[RosterLine, ...]) -> Pair:
    _app()
    models = []
    for held in (lines, lines[:_FEW]):
        models.append(model := RosterModel())
        model.show(held, {}, ON)
    return Pair(lambda: _table_of(models[0]), lambda: _table_of(models[1]))


def _table_of(model: RosterModel) -> float:
    table = RosterTable(model)
    table.resize(1_100, 700)
    taken = _painted(table.show)
    table.deleteLater()
    _app().processEvents()
    return taken


# -- read, and shown anew --------------------------------------------------------------


def read(ground: Ground) -> Pair:
    """All lines of the table from disk for the first time, then the table painted."""
    held: list[RosterPane] = []

    def before() -> None:
        for pane in held:
            pane.deleteLater()
        held[:] = [RosterPane()]
        _shown(held[0])

    def first() -> float:
        began = time.perf_counter()
        lines = Roster(_open(ground.folder).ledger).read(ON)
        spent = time.perf_counter() - began
        return spent + _painted(lambda: held[0].show_plants(lines, {}, ON))

    _app()
    return Pair(first, before=before, close=held.clear)


def taken_in(ground: Ground) -> Pair:
    """What the window's thread does with the lines read: one plant of them differs."""
    lines = _lines(ground.folder)
    pane = _table(lines)
    notes = cycle(("a", "b"))

    def anew() -> float:
        other = replace(lines[7], note=next(notes))
        now = (*lines[:7], other, *lines[8:])
        return _painted(lambda: pane.show_plants(now, {}, ON))

    return Pair(anew, close=pane.deleteLater)


def _day_list(view: DayView) -> DayListPane:
    _app()
    pane = DayListPane()
    pane.show_day(view, ON)
    _shown(pane, 700)
    return pane


def tick(ground: Ground) -> Pair:
    """The day's list takes a day in which one plant has been given its water."""
    view = _day(ground.folder)
    pane = _day_list(view)
    at = next(n for n, line in enumerate(view.lines) if line.verdict in _GIVEN)
    given = Done(DoneKind.CARED, None, None, None)
    ways = cycle((given, None))

    def one() -> float:
        line: Line = replace(view.lines[at], done=next(ways))
        lines = (*view.lines[:at], line, *view.lines[at + 1 :])
        now = replace(view, lines=lines)
        return _painted(lambda: pane.show_day(now, ON))

    return Pair(one, close=pane.deleteLater)


# -- scrolled, and long ----------------------------------------------------------------


def _worst_frame(area: QAbstractScrollArea) -> float:
    """Scroll from top to end and give the longest frame."""
    bar = area.verticalScrollBar()
    ends = [round(bar.maximum() * n / _FRAMES) for n in range(_FRAMES + 1)]
    return max(_painted(partial(bar.setValue, end)) for end in ends)


def scroll(ground: Ground) -> Pair:
    """Give the longest frame while the collection's table is scrolled through."""
    pane = _table(_lines(ground.folder))
    return Pair(lambda: _worst_frame(pane.table), close=pane.deleteLater)


def _long(detail: PlantDetail) -> PlantDetail:
    """Give a plant two thousand looks, no two of one line."""
    tips = tuple(RootTips)
    looks = tuple(
        LookView(
            number,
            Look(detail.on - timedelta(days=number), root_tips=tips[number % 3]),
            f"{number} tips counted; the new growth is as long as a finger",
            f"Root tips {number}; buds; {'a long line of signs ' * (number % 5)}",
            (),
        )
        for number in range(_ENTRIES)
    )
    return replace(detail, looks=looks)


def timeline(ground: Ground) -> Pair:
    """A plant with two thousand entries comes into sight in its timeline."""
    view = _day(ground.folder)
    short = _open(ground.folder).day.detail(view.lines[0].plant_id, ON, view)
    _app()
    tasks = Tasks()
    shown = Timeline(Thumbs(tasks, lambda _photo: None))
    _shown(shown, 600)
    long = _long(short)

    def close() -> None:
        shown.deleteLater()
        tasks.stop()

    def before() -> None:
        shown.show_plant(short, is_same=False)
        _app().processEvents()

    return Pair(
        lambda: _painted(lambda: shown.show_plant(long, is_same=False)),
        before=before,
        close=close,
    )


_AGAIN = "the same rows, reset and painted"
_ONE = (10_000,)
BARS: tuple[Bar, ...] = (
    Bar("find", "A key in the collection's find", _AGAIN, Limit.times(1.2), find),
    Bar("find-100k", "… among 100 000", _AGAIN, Limit.times(2), find_100k, _ONE),
    Bar("find-slow", "… slow keys, 1 in 20", "", Limit.ms(16), find_slow, grows=True),
    Bar("find-day", "Slow keys in the day's find", "", Limit.ms(16), find_day),
    Bar("sort", "A column sorted", "bare sorted", Limit.times(6), sort, _ONE),
    Bar("sort-100k", "… of 100 000", "bare sorted", Limit.times(1.5), sort_100k, _ONE),
    Bar("show", "The table shown", "with 40 rows", Limit.times(1.1), show, _ONE),
    Bar("show-100k", "… of 100 000", "with 40 rows", Limit.times(1.2), show_100k, _ONE),
    Bar("table", "The table, from disk", "", Limit.ms(1_000), read, grows=True),
    Bar("table-anew", "… one plant differs", "", Limit.ms(50), taken_in, grows=True),
    Bar("tick", "A tick in the day's list", "", Limit.ms(16), tick, grows=True),
    Bar("scroll", "Longest frame, scrolling", "", Limit.ms(50), scroll),
    Bar("timeline", "2 000 entries of a plant", "", Limit.ms(50), timeline, (40,)),
)
