"""How little the lists do: what is reset, told, painted and asked for, by count."""

from __future__ import annotations

import threading
from datetime import timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication, QListView, QPushButton, QWidget

from growdesk.domain.facts import Look, RootTips, Verdict, Water
from growdesk.services.values import (
    DayView,
    Done,
    DoneKind,
    Line,
    LookView,
    PhotoView,
)
from growdesk.ui import photo_reading
from growdesk.ui.panes.day_list import DayListPane
from growdesk.ui.panes.roster import RosterPane
from growdesk.ui.roster_columns import BY_KEY, Entry
from growdesk.ui.tasks import Tasks
from growdesk.ui.widgets.parts import scrolled
from growdesk.ui.widgets.photo_page import PhotoPage
from growdesk.ui.widgets.photo_rows import PhotoRows
from growdesk.ui.widgets.roster_delegate import RosterDelegate
from growdesk.ui.widgets.thumbs import Thumbs
from growdesk.ui.widgets.timeline import Timeline
from tests.conftest import TODAY
from tests.ui.driving import settle
from tests.ui.roster_bench import line as plant
from tests.ui.roster_bench import lines as plants

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtCore import QAbstractItemModel
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.services.values import PlantDetail
    from growdesk.ui.window import Window

MANY = 2_000


class Told:
    """Counts what a model tells its views."""

    def __init__(self, model: QAbstractItemModel) -> None:
        self.rows: list[tuple[int, int]] = []
        self.resets = self.layouts = 0
        model.dataChanged.connect(self._changed)
        model.modelReset.connect(self._reset)
        model.layoutChanged.connect(self._layout)

    def take(self) -> tuple[int, list[tuple[int, int]], int]:
        """Give resets, rows told and layouts since the last time."""
        QApplication.processEvents()
        found = self.resets, self.rows, self.layouts
        self.rows, self.resets, self.layouts = [], 0, 0
        return found

    def _changed(self, top: Any, bottom: Any) -> None:
        self.rows.append((top.row(), bottom.row()))

    def _reset(self) -> None:
        self.resets += 1

    def _layout(self) -> None:
        self.layouts += 1


@pytest.fixture
def table(qtbot: QtBot) -> RosterPane:
    pane = RosterPane()
    qtbot.addWidget(pane)
    pane.resize(900, 500)
    pane.show_plants(plants(MANY), {}, TODAY)
    pane.show()
    QApplication.processEvents()
    return pane


def test_a_key_and_a_heading_are_one_reset_each(table: RosterPane) -> None:
    told = Told(table.model)
    for typed in ("lae", "laelia 7", "laelia 77", ""):
        table.find_line.setText(typed)
        assert told.take() == (1, [], 0), typed
    table.find_line.setText(" ")
    assert told.take() == (0, [], 0), "no other rows, no reset"
    for key in ("name", "name", "looked", "place"):
        table.sort_by(key)
        assert told.take()[0] <= 1, key
    table.lay_out_as(("tag", "note"), "place", downwards=False)
    assert told.take() == (1, [], 0)


def test_a_column_is_read_once_for_all_its_orders(
    table: RosterPane, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[int] = []
    name = BY_KEY["name"]

    def order(entry: Entry) -> Any:
        read.append(entry.line.plant_id)
        return name.order(entry)

    monkeypatch.setitem(BY_KEY, "name", replace(name, order=order))
    for key in ("name", "looked", "name", "name"):
        table.sort_by(key)
    assert len(read) == MANY


def test_a_plant_changed_paints_its_row_alone(
    table: RosterPane, monkeypatch: pytest.MonkeyPatch
) -> None:
    QApplication.processEvents()
    painted: list[int] = []
    paint = RosterDelegate.paint

    def note(self: RosterDelegate, painter: Any, option: Any, index: Any) -> None:
        painted.append(index.row())
        paint(self, painter, option, index)

    monkeypatch.setattr(RosterDelegate, "paint", note)
    told = Told(table.model)
    every = plants(MANY)
    table.show_plants((*every[:3], plant(4, note="new"), *every[4:]), {}, TODAY)
    assert told.take() == (0, [(3, 3)], 0)
    assert set(painted) <= {3}
    painted.clear()
    table.table.verticalScrollBar().setValue(3_000)
    QApplication.processEvents()
    assert len(set(painted)) < 60, "what is in sight"


def a_line(number: int) -> Line:
    return Line(
        plant_id=number,
        tag=f"A{number}",
        name=f"Laelia number {number}",
        place="Sill",
        bench=number,
        verdict=Verdict.CLEAR_WATER if number % 2 else Verdict.KEEP_DRY,
        water=Water.THROUGH,
        strength_ppm_n=None,
        volume_l=0.1,
        letter=None,
        short_reason=f"reason {number % 7}",
        looked_on=TODAY,
        suspect=False,
        done=None,
    )


def test_a_tick_tells_its_row_and_its_head_and_folds_one_line(
    qtbot: QtBot, stocked: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = tuple(a_line(number) for number in range(1, MANY + 1))
    many: DayView = replace(stocked.day.view(), lines=lines)
    pane = DayListPane()
    qtbot.addWidget(pane)
    pane.resize(700, 500)
    pane.show_day(many, many.on)
    pane.show()
    told = Told(pane.model)
    folded: list[int] = []
    from growdesk.ui import day_columns  # noqa: PLC0415 -- the module is altered
    from growdesk.ui.models import day_model  # noqa: PLC0415 -- ditto

    fold = day_columns.folded

    def note(each: Line) -> str:
        folded.append(each.plant_id)
        return fold(each)

    monkeypatch.setattr(day_model, "folded", note)
    done = replace(lines[4], done=Done(DoneKind.CARED, None, None, None))
    pane.show_day(replace(many, lines=(*lines[:4], done, *lines[5:])), many.on)
    resets, rows, layouts = told.take()
    row = pane.model.row_of(5)
    head = max(each for each in pane.model.head_rows() if each < row)
    assert (resets, rows, layouts) == (0, [(head, head), (row, row)], 0)
    assert folded == [5]
    for typed in ("n", "nu", "number 77"):
        pane.filter.setText(typed)
        told.take()
    assert folded == [5]
    assert len(pane.model.rows) > 1


def test_lines_have_their_height_by_themselves(
    qtbot: QtBot, stocked: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    pane = DayListPane()
    qtbot.addWidget(pane)
    asked: list[int] = []
    monkeypatch.setattr(pane.table, "setRowHeight", lambda row, _px: asked.append(row))
    lines = tuple(a_line(number) for number in range(1, MANY + 1))
    view = replace(stocked.day.view(), lines=lines)
    pane.show_day(view, view.on)
    assert 0 < len(asked) <= len(pane.model.head_rows())


def test_a_look_tells_one_row_of_the_table_in_sight(
    qtbot: QtBot, window: Window
) -> None:
    window.commands["collection"].trigger()
    settle(qtbot, window)
    pane, looks = window.roster.pane, window.desk.collection.looks
    told = Told(pane.model)
    shown = pane.model.rows[0].line.plant_id
    seen = Look(window.desk.today, root_tips=RootTips.NONE)
    window.desk.write(lambda: looks.record(shown, seen, "by the rim"))
    settle(qtbot, window)
    row = pane.model.row_of(shown)
    assert told.take() == (0, [(row, row)], 0)
    pane.find_line.setText("by the rim")
    assert [each.line.plant_id for each in pane.model.rows] == [shown]


# -- long, and with photos -------------------------------------------------------------


@pytest.fixture
def tasks() -> Iterator[Tasks]:
    made = Tasks()
    yield made
    made.stop()


@pytest.fixture
def detail(stocked: Collection) -> PlantDetail:
    view = stocked.day.view()
    looked = next(line for line in view.lines if line.looked_on is not None)
    return stocked.day.detail(looked.plant_id, view.on, view)


def test_a_long_timeline_lays_out_what_is_in_sight_first(
    qtbot: QtBot, detail: PlantDetail, tasks: Tasks
) -> None:
    timeline = Timeline(Thumbs(tasks, lambda _photo: None))
    qtbot.addWidget(timeline)
    timeline.resize(500, 400)
    timeline.show()
    asked: list[int] = []
    places = timeline.view.rows_painted.places

    def note(entry: Any, wide: int, font: Any) -> Any:
        asked.append(1)
        return places(entry, wide, font)

    timeline.view.rows_painted.places = note  # type: ignore[method-assign]
    timeline.show_plant(a_long(detail), is_same=False)
    timeline.view.doItemsLayout()
    assert timeline.view.layoutMode() is QListView.LayoutMode.Batched
    assert len(asked) <= 2 * timeline.view.batchSize()
    last = timeline.model.index(len(timeline.model.rows) - 1)
    timeline.view.setCurrentIndex(last)
    assert timeline.view.visualRect(last).isValid()
    timeline.view.doItemsLayout()
    asked.clear()
    timeline.view.doItemsLayout()
    assert not asked, "a height is measured once"


def a_long(detail: PlantDetail) -> PlantDetail:
    seen = detail.looks[0].look
    looks = tuple(
        LookView(
            1_000_000 + number,
            replace(seen, on=TODAY - timedelta(days=number), root_tips=RootTips.NONE),
            f"note {number}",
            f"signs {number}",
            (),
        )
        for number in range(MANY)
    )
    return replace(detail, looks=looks)


def test_thumbnails_are_asked_for_in_sight_and_decoded_beside_the_window(
    qtbot: QtBot,
    detail: PlantDetail,
    tasks: Tasks,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    file = tmp_path / "one.png"
    QImage(40, 30, QImage.Format.Format_RGB32).save(str(file))
    photos = tuple(a_photo(number, tmp_path) for number in range(150))
    asked: list[int] = []
    decoded: list[bool] = []
    decode = photo_reading.decode

    def note(path: Path, side: int | None) -> QImage:
        decoded.append(threading.current_thread() is threading.main_thread())
        return decode(path, side)

    def make(photo: PhotoView) -> Path:
        asked.append(photo.photo_id)
        return file

    monkeypatch.setattr(photo_reading, "decode", note)
    page = PhotoPage(
        replace(detail, photos=photos), Thumbs(tasks, make), print, lambda: None
    )
    area = scrolled(page, "Photos")
    qtbot.addWidget(area)
    area.resize(420, 400)
    area.show()
    qtbot.waitUntil(lambda: len(decoded) >= 6 and not tasks.is_busy)
    assert sorted(asked) == sorted(set(asked))
    assert len(asked) <= 24
    assert max(asked) < 30
    assert not any(decoded)
    area.verticalScrollBar().setValue(area.verticalScrollBar().maximum())
    qtbot.waitUntil(lambda: 149 in asked and not tasks.is_busy)
    assert 75 not in asked, "what is passed by is not read"
    assert len(asked) <= 90
    assert not any(decoded)


def a_photo(number: int, folder: Path) -> PhotoView:
    return PhotoView(number, None, TODAY, folder / f"{number}.png", None, None)


def test_a_page_of_photos_is_made_by_the_screenful(
    qtbot: QtBot, detail: PlantDetail, tasks: Tasks, tmp_path: Path
) -> None:
    noted = "seen from below, where the roots come through the slats of the basket"
    photos = tuple(
        replace(
            a_photo(number, tmp_path),
            note=noted if number % 7 == 0 else "",
            has_location=number % 11 == 0,
            problem="missing" if number % 13 == 0 else None,
        )
        for number in range(200)
    )
    area = scrolled(QWidget(), "Photos")
    qtbot.addWidget(area)
    area.resize(420, 400)
    area.show()
    shown = (replace(detail, photos=photos), Thumbs(tasks, lambda _photo: None))
    page = PhotoPage(*shown, print, lambda: None, area.viewport())
    area.setWidget(page)
    bar = area.verticalScrollBar()
    QApplication.processEvents()
    assert 9 <= len(tiles(page)) <= 24
    high = bar.maximum()
    bar.setValue(high)
    QApplication.processEvents()
    assert {"photo-198", "photo-199"} <= {each.objectName() for each in tiles(page)}
    assert len(tiles(page)) <= 60, "what is passed by is not made"
    for at in range(0, high, 300):
        bar.setValue(at)
        QApplication.processEvents()
    assert [each.objectName() for each in tiles(page)] == [
        f"photo-{number}" for number in range(200)
    ]
    assert bar.maximum() == high, "a row is as high before it is made"
    rows = [(each, each.layout()) for each in page.findChildren(PhotoRows)]
    heights = {
        (row.height(), inner.totalHeightForWidth(row.width()))
        for row, inner in rows
        if inner is not None
    }
    assert [each for each in heights if each[0] != each[1]] == []
    assert len(heights) > 3
    assert by_tab(page) == [f"photo-{number}" for number in range(200)]


def tiles(page: PhotoPage) -> list[QPushButton]:
    found = page.findChildren(QPushButton)
    return [each for each in found if each.objectName().startswith("photo-")]


def by_tab(page: PhotoPage) -> list[str]:
    """Give the photos as Tab goes through them."""
    found: list[str] = []
    first = tiles(page)[0]
    at: QWidget | None = first
    while at is not None and (at is not first or not found):
        if at.objectName().startswith("photo-"):
            found.append(at.objectName())
        at = at.nextInFocusChain()
    return found
