"""Drive the window as a person does: wait for answers, find what is open, press."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QPushButton, QWidget

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.values import Line
    from growdesk.ui.window import Window

NONE = Qt.KeyboardModifier.NoModifier
D = TypeVar("D", bound=QDialog)


def settle(qtbot: QtBot, window: Window) -> None:
    """Wait until all that was asked for has been answered and stands in the window."""
    for _ in range(2):  # what comes in may ask for more, a turn of the events later
        qtbot.waitUntil(lambda: not window.tasks.is_busy, timeout=20_000)
        QApplication.processEvents()


def to_list(qtbot: QtBot, window: Window) -> QWidget:
    """Bring the window to the front with the cursor in the list."""
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    window.day_list.table.setFocus()
    qtbot.waitUntil(window.day_list.table.hasFocus)
    return window.day_list.table


def dialog_of(window: Window, kind: type[D]) -> D:
    """Give the newest dialog of a kind that is open."""
    found = [each for each in window.findChildren(kind) if each.isVisible()]
    assert found, f"no {kind.__name__} is open"
    return found[-1]


def open_dialogs(window: Window) -> list[QDialog]:
    """Give the dialogs that are open."""
    return [each for each in window.findChildren(QDialog) if each.isVisible()]


def press(parent: QWidget, text: str) -> None:
    """Click the visible button of a text."""
    found = [
        each
        for each in parent.findChildren(QPushButton)
        if each.text() == text and each.isVisible()
    ]
    assert found, f"no button {text}"
    QTest.mouseClick(found[0], Qt.MouseButton.LeftButton)


def retype(edit: QWidget, text: str) -> None:
    """Type a text over what stands in a field."""
    edit.setFocus()
    QTest.keyClick(edit, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClicks(edit, text)


def line_of(window: Window, tag: str) -> Line:
    """Give a plant's line of the day shown."""
    return next(line for line in window.day_list.model.lines if line.tag == tag)


def go_to(window: Window, tag: str) -> None:
    """Put the cursor on a plant."""
    window.day_list.go_to(line_of(window, tag).plant_id)
    window.day_list.table.setFocus()


def status(window: Window) -> str:
    """Give what was told at the foot, else the hint that stands there."""
    return window.strip.told or window.strip.line.text()


def focused() -> QWidget:
    """Give what has the keyboard, once the screen has handed it over."""
    for _ in range(500):
        held = QApplication.focusWidget()
        if held is not None:
            return held
        if QApplication.activeWindow() is None:
            _activate_front()
        QTest.qWait(10)
    raise AssertionError("nothing has the keyboard")


def _activate_front() -> None:
    """Hand the keyboard to the window in front, as a real screen does.

    The offscreen one leaves it with nobody once a closed window is destroyed late.
    """
    shown = [each for each in QApplication.topLevelWidgets() if each.isVisible()]
    dialogs = [each for each in shown if isinstance(each, QDialog)]
    above = [each for each in dialogs if not _has_one_over(each, dialogs)]
    for each in (above or shown)[-1:]:
        each.activateWindow()


def _has_one_over(dialog: QDialog, others: list[QDialog]) -> bool:
    return any(each.parentWidget() is dialog for each in others)


def take_focus(edit: QWidget) -> None:
    """Give a field the keyboard, and wait until it has it."""
    for _ in range(500):
        edit.setFocus(Qt.FocusReason.TabFocusReason)
        held = QApplication.focusWidget()
        if held is not None and (held is edit or edit.focusProxy() is held):
            return
        edit.window().activateWindow()
        QTest.qWait(10)
    raise AssertionError(f"{edit.accessibleName()} does not take the keyboard")


def key(which: Qt.Key, modifier: Qt.KeyboardModifier = NONE) -> None:
    """Press a key where the focus is."""
    QTest.keyClick(focused(), which, modifier)


def typed(text: str) -> None:
    """Type a text where the focus is, letter by letter."""
    for letter in text:
        QTest.keyClicks(focused(), letter)


def front(qtbot: QtBot, window: Window) -> None:
    """Bring the window to the front and leave the focus as it is."""
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
