"""The panes beside the list come after it, and nothing pressed meanwhile is lost."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from growdesk.ui.preferences import preferences
from growdesk.ui.window import Window
from tests.ui.conftest import let_go
from tests.ui.driving import settle

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection

Held = tuple[Window, "list[Callable[[], object]]"]


@pytest.fixture
def held(qtbot: QtBot, stocked: Collection, monkeypatch: pytest.MonkeyPatch) -> Held:
    """Give a window whose list was painted just now, and what is to follow."""
    window = Window(stocked)
    rest: list[Callable[[], object]] = []
    monkeypatch.setattr(window.first_paint, "then", rest.append)
    qtbot.addWidget(window, before_close_func=let_go)
    window.show()
    window.activateWindow()
    qtbot.waitUntil(lambda: window.isActiveWindow() and bool(rest))
    settle(qtbot, window)
    assert window.panes_made == (None, None)
    return window, rest


def test_keys_are_taken_before_the_panes_are_made(qtbot: QtBot, held: Held) -> None:
    window, rest = held
    table = window.day_list.table
    assert table.hasFocus()
    first = window.day_list.chosen
    QTest.keyClick(table, Qt.Key.Key_Down)
    assert window.day_list.chosen != first
    QTest.keyClick(table, Qt.Key.Key_Space)
    settle(qtbot, window)
    for call in list(rest):
        call()
    settle(qtbot, window)
    detail, mixing = window.panes_made
    assert detail is not None
    assert mixing is not None
    assert detail.isVisible()
    assert mixing.isVisible()
    assert detail.detail is not None
    assert detail.detail.plant_id == window.day_list.chosen
    assert table.hasFocus()
    view = window.desk.view
    assert view is not None
    assert sum(line.done is not None for line in view.lines) == 1


def test_a_pane_wanted_at_once_is_made_where_it_belongs(
    qtbot: QtBot, held: Held
) -> None:
    window, rest = held
    widths = window.split.sizes()
    window.commands["to-mixing"].trigger()
    QApplication.processEvents()
    panes = [window.split.widget(at) for at in range(window.split.count())]
    assert panes == [window.pages, window.detail, window.mixing]
    assert window.split.sizes() == pytest.approx(widths, abs=4)
    held_by = QApplication.focusWidget()
    assert held_by is not None
    assert window.mixing.isAncestorOf(held_by)
    for call in list(rest):
        call()
    settle(qtbot, window)
    assert QApplication.focusWidget() is held_by


def test_a_window_closed_before_its_panes_leaves_them_as_they_were(
    held: Held, show: Callable[[Collection], Window]
) -> None:
    preferences().setValue("record-tab", 3)
    window, rest = held
    rest.clear()
    again = show(window.hand_over())
    assert window.panes_made == (None, None)
    assert again.detail.tabs.currentIndex() == 3
