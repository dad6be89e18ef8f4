"""A dialog that was closed leaves nothing: no widget, no object, no memory.

Python's collector stands still in these tests, so that what only it would take away is
seen: a widget without a parent that a closed dialog still held.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QEvent, QObject
from PySide6.QtWidgets import QApplication, QDialog, QGesture, QWidget

from tests.faults.soak import NOT_ASKED
from tests.ui.driving import settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

OPENED = 5
SEEN = {"text-larger", "text-smaller", "text-usual", "full-screen", "week", "calendar"}
"""Commands that only show something in another way."""


def opened_and_closed(window: Window, qtbot: QtBot, key: str) -> int:
    """Ask for a command, close what opens, and give how many dialogs that were."""
    window.commands[key].trigger()
    settle(qtbot, window)
    closed = 0
    while found := [
        each
        for each in QApplication.topLevelWidgets()
        if isinstance(each, QDialog) and each.isVisible()
    ]:
        found[-1].reject()
        settle(qtbot, window)
        closed += 1
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    return closed


def alone() -> set[QWidget]:
    """Give the widgets that no other would take along."""
    return {each for each in QApplication.topLevelWidgets() if each.parent() is None}


def test_no_dialog_leaves_a_widget_behind(window: Window, qtbot: QtBot) -> None:
    before, opened = alone(), 0
    left: dict[str, list[str]] = {}
    for key, action in window.commands.items():
        if key in {*NOT_ASKED, *SEEN} or action.isCheckable():
            continue
        opened += bool(opened_and_closed(window, qtbot, key))
        stray: list[QWidget] = [*(alone() - before), *window.findChildren(QDialog)]
        if stray:
            left[key] = [
                f"{type(each).__name__} {each.accessibleName()}" for each in stray
            ]
            before |= alone()
    assert left == {}
    assert opened > 45


def test_opening_again_and_again_adds_nothing(window: Window, qtbot: QtBot) -> None:
    def held() -> tuple[int, int]:
        objects = QCoreApplication.instance()
        assert objects is not None
        there = [*objects.findChildren(QObject), *window.findChildren(QObject)]
        # Qt makes a gesture of its own for a page that scrolls, once it is touched
        ours = [each for each in there if not isinstance(each, QGesture)]
        return len(QApplication.allWidgets()), len(ours)

    for key in ("marks", "look"):
        opened_and_closed(window, qtbot, key)
        qtbot.waitUntil(lambda: not window.weekly._rest.isActive())
        settle(qtbot, window)  # the week stands in the reasons
        before = held()
        for _ in range(OPENED):
            assert opened_and_closed(window, qtbot, key)
        assert held() == before, key
