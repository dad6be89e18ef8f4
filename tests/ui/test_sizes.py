"""The window fits small screens, and what matters is read whole at a usual size."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QApplication, QSplitter

from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui.day_columns import COLUMNS, Place
from growdesk.ui.models.day_model import Head
from growdesk.ui.widgets.day_delegate import PAD, small
from growdesk.ui.widgets.parts import link, link_line
from growdesk.ui.widgets.roomy import Roomy
from tests.ui.driving import open_dialogs, settle

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

ON = date(2026, 11, 25)


@pytest.fixture(scope="module")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lay_demo(tmp_path_factory.mktemp("demo") / "collection", ON)


@pytest.fixture
def demo(demo_folder: Path, show: Callable[[Collection], Window]) -> Iterator[Window]:
    """Give the window on the demo."""
    window = show(Collection.open(demo_folder, FixedClock(ON)))
    yield window
    window.close()


def sized(window: Window, width: int, height: int) -> None:
    window.resize(width, height)
    QApplication.processEvents()


def heights(window: Window) -> set[tuple[bool, int]]:
    table, rows = window.day_list.table, window.day_list.model.rows
    return {
        (isinstance(entry, Head), table.rowHeight(row))
        for row, entry in enumerate(rows)
    }


def test_the_window_fits_1024_by_700_with_the_mixing_open(
    qtbot: QtBot, demo: Window
) -> None:
    for line in demo.day_list.model.lines[:12]:
        demo.day_list.go_to(line.plant_id)
        settle(qtbot, demo)
        QApplication.processEvents()
        assert not demo.mixing.isHidden()
        assert demo.minimumSizeHint().width() <= 1024, line.tag
        assert demo.minimumSizeHint().height() <= 640, line.tag


def test_the_quick_mix_is_no_wider_than_the_jugs(qtbot: QtBot, demo: Window) -> None:
    sized(demo, 1280, 800)
    before = demo.mixing.width()
    demo.commands["quick-mix"].trigger()
    settle(qtbot, demo)
    quick = demo.mixing.quick
    for _ in range(2):
        quick.add_product()
        QApplication.processEvents()
    assert demo.mixing.minimumSizeHint().width() <= 280
    assert demo.mixing.width() == before


def test_a_name_too_long_for_its_choice_ends_in_dots(demo: Window) -> None:
    sized(demo, 1280, 800)
    recipe, water = demo.mixing.recipe, demo.mixing.water
    assert recipe.shown_text() == recipe.currentText() == "Green tin and Epsom salt"
    water.setItemText(water.currentIndex(), "Rain")
    assert water.shown_text() == "Rain"
    water.setItemText(water.currentIndex(), "Rain of the old barrel, greenhouse")
    assert water.shown_text().endswith("…"), water.shown_text()


def test_long_names_widen_no_dialog(
    qtbot: QtBot, tmp_path: Path, show: Callable[[Collection], Window]
) -> None:
    folder = lay_demo(tmp_path / "collection", ON)
    demo = show(Collection.open(folder, FixedClock(ON)))
    widths = {}
    for name in ("", "Green tin with calcium and magnesium, winter edition, by post"):
        if name:
            collection = demo.desk.collection
            tin, water = collection.mixing.tins()[0], collection.waters.all()[0]
            changed = replace(tin.draft, name=name)
            collection.mixing.change_tin(tin.tin_id, changed)
            collection.waters.change(
                water.water_id, replace(water.draft, name=f"{name} water")
            )
        for command in ("stocks", "recipes", "waters"):
            demo.commands[command].trigger()
            settle(qtbot, demo)
            (dialog,) = open_dialogs(demo)
            widths[command, bool(name)] = dialog.minimumSizeHint().width()
            dialog.reject()
            QApplication.processEvents()
    for command in ("stocks", "recipes", "waters"):
        assert widths[command, True] <= widths[command, False] + 8, widths


def test_a_narrow_window_folds_the_mixing_and_a_button_brings_it(
    qtbot: QtBot, demo: Window
) -> None:
    assert not demo.mixing.isHidden()
    assert demo.head.mixing.isHidden()
    sized(demo, 1024, 700)
    assert demo.mixing.isHidden()
    assert demo.head.mixing.isVisible()
    qtbot.waitUntil(lambda: demo.minimumSizeHint().width() <= 800)
    demo.head.mixing.click()
    assert demo.mixing.isVisible()
    assert demo.head.mixing.isHidden()
    sized(demo, 1060, 700)
    assert demo.mixing.isVisible(), "what a person opened stays open"


def test_a_wide_window_brings_back_what_it_folded_itself(demo: Window) -> None:
    sized(demo, 1024, 700)
    sized(demo, 1280, 800)
    assert demo.mixing.isVisible()
    demo.commands["fold-mixing"].trigger()
    sized(demo, 1024, 700)
    sized(demo, 1280, 800)
    assert demo.mixing.isHidden(), "what a person folded stays folded"


def test_no_reason_is_cut_at_1280_by_800(demo: Window) -> None:
    sized(demo, 1280, 800)
    table = demo.day_list.table
    metrics = QFontMetrics(small(table.font()))
    room = table.columnWidth(Place.VERDICT) - PAD - 4
    cut = [
        line.short_reason
        for line in demo.day_list.model.lines
        if metrics.horizontalAdvance(line.short_reason) > room
    ]
    assert cut == []
    unit = table.fontMetrics().horizontalAdvance("0")
    assert table.columnWidth(Place.PLANT) >= 16 * unit, "names keep their room"


def test_nothing_of_a_line_stands_outside_the_list(demo: Window) -> None:
    for width in (1024, 1280, 1600):
        sized(demo, width, 700)
        table = demo.day_list.table
        whole = sum(table.columnWidth(place) for place in Place)
        assert whole <= table.viewport().width()


def test_the_least_list_still_shows_its_strengths(demo: Window) -> None:
    demo.folding.open()
    sized(demo, demo.minimumSizeHint().width(), 700)
    table = demo.day_list.table
    whole = sum(table.columnWidth(place) for place in Place)
    assert whole <= table.viewport().width()


def test_rows_get_their_height_back_after_a_find_and_another_day(
    qtbot: QtBot, demo: Window
) -> None:
    whole = heights(demo)
    assert len(whole) == 2, "one height for headers, one for lines"
    for find in ("feed", "cattleya", "dry", ""):
        demo.day_list.filter.setText(find)
        assert heights(demo) == whole, find
    for by in (1, 1, -1):
        demo.deeds.step_day(by)
        settle(qtbot, demo)
        assert heights(demo) == whole


def test_the_reasons_have_most_of_the_plant_s_pane(demo: Window) -> None:
    sized(demo, 1280, 800)
    (split,) = demo.detail.findChildren(QSplitter)
    reasons, records = split.sizes()
    assert reasons / (reasons + records) == pytest.approx(0.7, abs=0.04)


@pytest.mark.parametrize("face", ["collection", "calendar"])
def test_the_five_tabs_of_a_plant_stand_side_by_side(
    qtbot: QtBot, demo: Window, face: str
) -> None:
    sized(demo, 1024, 700)
    settle(qtbot, demo)
    demo.commands[face].trigger()
    settle(qtbot, demo)
    bar = demo.detail.tabs.tabBar()
    assert bar.sizeHint().width() <= demo.detail.tabs.width()


def test_a_wide_window_keeps_the_mixing_beside_the_collection(
    qtbot: QtBot, demo: Window
) -> None:
    sized(demo, 1920, 1080)
    settle(qtbot, demo)
    demo.commands["collection"].trigger()
    settle(qtbot, demo)
    assert demo.folding.is_open
    assert demo.split.sizes()[0] >= demo.roster.pane.table.wanted_px() - 1
    assert demo.split.sizes()[1] >= 349


def test_the_head_takes_little_of_a_small_window(qtbot: QtBot, demo: Window) -> None:
    sized(demo, 1024, 700)
    settle(qtbot, demo)
    line = QFontMetrics(demo.head.title.font()).height()
    assert demo.head.title.height() < 2 * line, "the day stands on one line"
    assert demo.head.first.height() < 2 * QFontMetrics(demo.head.first.font()).height()


def test_nothing_scrolls_at_1024_by_700(qtbot: QtBot, demo: Window) -> None:
    roomy = demo.findChild(Roomy)
    assert roomy is not None
    for is_open in (False, True):
        sized(demo, 1024, 700)
        if is_open:
            demo.head.mixing.click()
        settle(qtbot, demo)
        QApplication.processEvents()
        assert demo.mixing.isVisible() is is_open
        assert not demo.stacking.is_stacked
        assert roomy.verticalScrollBar().maximum() == 0, is_open
        assert roomy.horizontalScrollBar().maximum() == 0, is_open


def test_a_wide_list_keeps_the_verdict_beside_the_name(demo: Window) -> None:
    sized(demo, 2560, 1440)
    table = demo.day_list.table
    names = [COLUMNS[Place.PLANT].text(line) for line in demo.day_list.model.lines]
    longest = max(QFontMetrics(table.font()).horizontalAdvance(each) for each in names)
    assert longest < table.columnWidth(Place.PLANT) < longest + 120
    assert table.horizontalHeader().length() == table.viewport().width()


def test_back_from_another_face_the_mixing_asks_for_no_room_that_is_not_there(
    demo: Window,
) -> None:
    sized(demo, 1280, 800)
    demo.faces.go("collection")
    assert demo.mixing.isHidden()
    sized(demo, 1024, 700)
    demo.faces.go("day")
    assert demo.mixing.isHidden()
    assert demo.head.mixing.isVisible()
    sized(demo, 1280, 800)
    assert demo.mixing.isVisible()
    sized(demo, 1024, 700)
    demo.head.mixing.click()
    assert demo.mixing.isAncestorOf(demo.focusWidget())
    demo.faces.go("collection")
    demo.faces.go("day")
    assert demo.mixing.isVisible(), "what a person opened stays open"


def test_a_link_in_a_column_stands_at_its_left_edge(demo: Window) -> None:
    text, nothing = "Look at a sample", lambda: None
    line, inline = link_line(text, nothing), link(text, nothing)
    for each in (line, inline):
        each.setParent(demo)
        each.ensurePolished()
    letters = line.fontMetrics().horizontalAdvance(text)
    assert line.sizeHint().width() - letters <= 6 < inline.sizeHint().width() - letters
