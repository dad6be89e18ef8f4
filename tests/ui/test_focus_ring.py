"""Where the keys go is seen: a ring that differs from what was there, in both schemes.

WCAG 2.2: 2.4.7, and 3 to 1 for it by 1.4.11; sampled from pictures of the controls.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QPushButton,
    QSpinBox,
    QTabBar,
    QTableWidget,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from growdesk.ui import theme
from growdesk.ui.widgets.parts import button, link

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtGui import QImage
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window


def _tabs() -> QTabBar:
    made = QTabBar()
    made.addTab("One")
    made.addTab("Two")
    return made


def _checked() -> QPushButton:
    made = button("Chosen", lambda: None)
    made.setCheckable(True)
    made.setChecked(True)
    return made


def _default() -> QPushButton:
    made = QPushButton("Save")
    made.setDefault(True)
    return made


def _about() -> QPushButton:
    made = button("?", lambda: None)
    made.setProperty("about", "true")
    return made


CONTROLS: dict[str, Callable[[], QWidget]] = {
    "button": lambda: button("Do it", lambda: None),
    "default": _default,
    "chosen": _checked,
    "link": lambda: link("See it", lambda: None),
    "about": _about,
    "box": lambda: QCheckBox("Outdoors"),
    "line": QLineEdit,
    "lines": QPlainTextEdit,
    "text": QTextBrowser,
    "choice": QComboBox,
    "number": QSpinBox,
    "list": QListWidget,
    "table": lambda: QTableWidget(2, 2),
    "tabs": _tabs,
}


def ring(without: QImage, held: QImage) -> int:
    """Give how many points stand out, 3 to 1, from what was there before."""
    return sum(
        theme.contrast(without.pixelColor(x, y).name(), held.pixelColor(x, y).name())
        >= 3
        for x in range(held.width())
        for y in range(held.height())
        if without.pixel(x, y) != held.pixel(x, y)
    )


@pytest.mark.parametrize("mode", [theme.Mode.LIGHT, theme.Mode.DARK])
def test_the_focus_is_seen_on_every_sort_of_control(
    mode: theme.Mode, qtbot: QtBot
) -> None:
    theme.current().choose(mode)
    dialog = QDialog()
    qtbot.addWidget(dialog)
    column = QVBoxLayout(dialog)
    elsewhere = QLineEdit()
    made = {name: make() for name, make in CONTROLS.items()}
    for each in (elsewhere, *made.values()):
        each.setMaximumHeight(60)
        column.addWidget(each)
    dialog.show()
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    faint = {}
    for name, each in made.items():
        elsewhere.setFocus()
        QApplication.processEvents()
        without = dialog.grab(each.geometry()).toImage()
        each.setFocus()
        qtbot.waitUntil(each.hasFocus)
        QApplication.processEvents()
        held = dialog.grab(each.geometry()).toImage()
        seen = ring(without, held)
        if seen < each.height():
            faint[name] = seen
    assert faint == {}


def test_what_was_done_is_announced_without_taking_the_focus(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    heard: list[tuple[str, QAccessible.AnnouncementPoliteness]] = []

    def hear(event: QAccessibleAnnouncementEvent) -> None:
        heard.append((event.message(), event.politeness()))

    monkeypatch.setattr(QAccessible, "updateAccessibility", hear)
    before = QApplication.focusWidget()
    window.strip.tell("Ticked A1.", undo="tick")
    assert heard == [("Ticked A1.", QAccessible.AnnouncementPoliteness.Polite)]
    assert QApplication.focusWidget() is before
    assert window.strip.resting_ms >= 10_000
