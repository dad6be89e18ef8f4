"""Every dialog stands wholly on its screen, also once it has grown."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QRect
from PySide6.QtWidgets import QApplication, QDialog, QTabWidget, QWidget

from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.hindsight_values import HindsightTable, Rethought
from growdesk.ui.charts.asking import Wanted, Which
from growdesk.ui.dialogs.bench import BenchDialog
from growdesk.ui.dialogs.feed_used import FeedUsedDialog
from growdesk.ui.dialogs.hindsight import HindsightDialog
from growdesk.ui.dialogs.kind_asks import KindsShown
from growdesk.ui.dialogs.kinds import KindsDialog
from growdesk.ui.dialogs.marks import MarksDialog
from growdesk.ui.dialogs.meter_course import MeterCourseDialog
from growdesk.ui.dialogs.mix_chart import MixChartDialog
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.dialogs.place_year import PlaceYearDialog
from growdesk.ui.dialogs.told import ToldDialog
from tests.ui.test_accessible_names import DIALOGS, ON

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

SCREENS = ((1024, 700), (1280, 800))


def make_kinds(folder: Path) -> QDialog:
    made = Collection.open(folder / "kinds", FixedClock(ON), create=True)
    with closing(made) as collection:
        shown = KindsShown(collection.kinds.all(), None, collection.kinds.problems())
    return KindsDialog(None, shown)


ALL: dict[str, Callable[[Path], QDialog]] = {
    **DIALOGS,
    "hindsight": lambda _f: HindsightDialog(None, "A1"),
    "marks": lambda _f: MarksDialog(
        None, HindsightTable((), {}, Rethought(0, 0)), {}, {}
    ),
    "feed used": lambda _f: FeedUsedDialog(None, Wanted(Which.USED, 0, ON)),
    "year": lambda _f: PlaceYearDialog(None, Wanted(Which.PLACE, 1, ON)),
    "mix chart": lambda _f: MixChartDialog(None, Wanted(Which.MIX, 1, ON)),
    "meter course": lambda _f: MeterCourseDialog(None, Wanted(Which.METER, 1, ON)),
    "bench": lambda _f: BenchDialog(None, None),
    "kinds": make_kinds,
    "told": lambda _f: ToldDialog(None, "Read a file", "No place.", ("Go", bool)),
}


@pytest.fixture
def free(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> QRect:
    free = QRect(0, 0, *request.param)
    monkeypatch.setattr(OnScreen, "free", lambda _self: free)
    return free


def shown(qtbot: QtBot, dialog: QDialog, free: QRect) -> OnScreen:
    assert isinstance(dialog, OnScreen)
    qtbot.addWidget(dialog)
    dialog.move(240, 94)
    dialog.show()
    qtbot.waitExposed(dialog)
    QApplication.processEvents()
    assert free.contains(dialog.frameGeometry()), dialog.frameGeometry()
    return dialog


@pytest.mark.parametrize("free", SCREENS, indirect=True, ids=str)
@pytest.mark.parametrize("name", list(ALL))
def test_a_dialog_stands_wholly_on_its_screen(
    name: str, free: QRect, qtbot: QtBot, tmp_path: Path
) -> None:
    dialog = shown(qtbot, ALL[name](tmp_path), free)
    for tabs in dialog.findChildren(QTabWidget):
        for number in range(tabs.count()):
            tabs.setCurrentIndex(number)
            QApplication.processEvents()
            assert free.contains(dialog.frameGeometry())
    dialog.resize(5000, 5000)
    QApplication.processEvents()
    assert free.contains(dialog.frameGeometry())


@pytest.mark.parametrize("free", SCREENS[:1], indirect=True, ids=str)
def test_a_dialog_that_grows_over_the_edge_is_moved_back(
    free: QRect, qtbot: QtBot
) -> None:
    dialog = OnScreen()
    QWidget(dialog)
    dialog.resize(300, 200)
    shown(qtbot, dialog, free)
    dialog.move(900, 600)
    dialog.resize(500, 400)
    assert dialog.frameGeometry().bottomRight() == free.bottomRight()
    assert dialog.size().width() == 500
