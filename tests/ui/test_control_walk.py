"""A control has a name of its own, a role and its state, and the Tab key comes to it.

One dialog, or one window, is opened for all that is asked of it.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialog,
    QLineEdit,
    QMenu,
    QTabBar,
    QToolButton,
    QWidget,
)
from typing_extensions import override

from growdesk.ui.words import VERDICT as _WORDS
from tests.ui.driving import settle
from tests.ui.test_accessible_names import interfaces, nameless, unlabelled
from tests.ui.test_on_screen import ALL

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

LEAST_SIDE = 24
"""WCAG 2.2, 2.5.8."""
NAME = QAccessible.Text.Name
NO_ROLE = {QAccessible.Role.NoRole, QAccessible.Role.Client}
FACES = ("day", "week", "calendar", "collection")


def tree(widget: QWidget) -> QAccessibleInterface:
    found = QAccessible.queryAccessibleInterface(widget)
    assert found is not None
    return found


def name_of(control: QAccessibleInterface) -> str:
    """Give the name; on some systems Qt tells the value of a combo box as that."""
    widget = control.object()
    if isinstance(widget, QComboBox):
        return widget.accessibleName()
    return control.text(NAME)


def twins(widget: QWidget) -> list[str]:
    """Give names that two controls of one parent share."""
    found = []
    for parent in (tree(widget), *interfaces(tree(widget))):
        if parent.role() in {QAccessible.Role.Table, QAccessible.Role.List}:
            continue
        seen = Counter(
            name_of(child)
            for child in (parent.child(n) for n in range(parent.childCount()))
            if child.isValid()
            and child.state().focusable
            and not child.state().invisible
        )
        found += [name for name, count in seen.items() if count > 1]
    return found


def without_role(widget: QWidget) -> list[str]:
    """Give Tab stops whose role is not told; areas that scroll have Qt's own."""
    return [
        f"{type(each).__name__} {each.accessibleName()}"
        for each in stops(widget)
        if tree(each).role() in NO_ROLE and not isinstance(each, QAbstractScrollArea)
    ]


def wrong_states(widget: QWidget) -> list[str]:
    """Give buttons whose state is told otherwise than it is."""
    found = []
    for each in widget.findChildren(QAbstractButton):
        state = tree(each).state()
        told = bool(state.checkable), bool(state.checked), bool(state.disabled)
        if told != (each.isCheckable(), each.isChecked(), not each.isEnabled()):
            found.append(f"{type(each).__name__} {each.text()} {told}")
    return found


def small_targets(widget: QWidget) -> list[str]:
    kinds = QAbstractButton, QLineEdit, QComboBox, QAbstractSpinBox
    inside = QAbstractSpinBox | QComboBox | QTabBar | QLineEdit
    return [
        f"{type(each).__name__} {each.accessibleName()} {each.size()}"
        for each in widget.findChildren(QWidget)
        if isinstance(each, kinds)
        and each.isVisible()
        and not isinstance(each.parent(), inside)
        and min(each.width(), each.height()) < LEAST_SIDE
    ]


def stops(widget: QWidget) -> set[QWidget]:
    """Give what the Tab key is to come to."""
    found = set()
    for each in widget.findChildren(QWidget):
        takes = each.focusPolicy() & Qt.FocusPolicy.TabFocus
        if not takes or not each.isEnabled() or not each.isVisibleTo(widget):
            continue
        if each.window() is not widget or each.focusProxy() is not None:
            continue
        found.add(each)
    return found


def press_tab(*, back: bool = False) -> QWidget | None:
    shift = Qt.KeyboardModifier.ShiftModifier if back else Qt.KeyboardModifier(0)
    held = QApplication.focusWidget()
    assert held is not None
    QTest.keyClick(held, Qt.Key.Key_Backtab if back else Qt.Key.Key_Tab, shift)
    return QApplication.focusWidget()


def walked(window: QWidget, *, back: bool = False) -> list[QWidget]:
    """Press Tab until it comes round, or as often as there could be stops."""
    found: list[QWidget] = []
    for _ in range(3 * len(stops(window))):
        now = press_tab(back=back)
        if now is None or (len(found) > 1 and now is found[0]):
            break
        if now not in found[-1:]:  # a text goes from link to link
            found.append(now)
    return found


def came(stop: QWidget, found: list[QWidget]) -> bool:
    """Tell whether Tab came to a stop; a row of choices is one, arrows do the rest."""
    group = stop.group() if isinstance(stop, QAbstractButton) else None
    if group is not None and group.exclusive():
        return any(each in found for each in group.buttons())
    return stop in found


def told(widgets: set[QWidget]) -> list[str]:
    return sorted(f"{type(w).__name__} {w.accessibleName()}" for w in widgets)


def ready(qtbot: QtBot, window: QWidget) -> None:
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    if QApplication.focusWidget() is None:
        window.setFocus()
    QApplication.processEvents()


def check_tabbing(window: QWidget) -> None:
    found = walked(window)
    missed = {each for each in stops(window) if not came(each, found)}
    assert told(missed) == [], "the Tab key does not come to these"
    assert len(found) == len(set(found))
    again = walked(window, back=True)
    assert set(again) == set(found), "Shift and Tab come to the same"


@pytest.mark.parametrize("name", list(ALL))
def test_controls_of_a_dialog(name: str, qtbot: QtBot, tmp_path: Path) -> None:
    dialog = ALL[name](tmp_path)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    ready(qtbot, dialog)
    assert twins(dialog) == []
    assert without_role(dialog) == []
    assert wrong_states(dialog) == []
    assert small_targets(dialog) == []
    check_tabbing(dialog)


def check_window(window: Window) -> None:
    assert nameless(window) == []
    assert unlabelled(window) == []
    assert twins(window) == []
    assert without_role(window) == []
    assert wrong_states(window) == []
    assert small_targets(window) == []


def test_controls_of_every_face_and_tab(qtbot: QtBot, window: Window) -> None:
    ready(qtbot, window)
    for face in FACES:
        window.faces.go(face)
        settle(qtbot, window)
        check_window(window)
        check_tabbing(window)
    window.faces.go("day")
    for tabs in (window.detail.tabs, window.mixing.tabs):
        for number in range(tabs.count()):
            tabs.setCurrentIndex(number)
            settle(qtbot, window)
            check_window(window)
            check_tabbing(window)


def test_controls_of_an_empty_collection(
    collection: Collection, show: Callable[[Collection], Window], qtbot: QtBot
) -> None:
    window = show(collection)
    ready(qtbot, window)
    check_window(window)
    check_tabbing(window)


def test_every_entry_of_every_menu_has_a_name_of_its_own(window: Window) -> None:
    for menu in window.menuBar().findChildren(QMenu):
        names = [each.text() for each in menu.actions() if not each.isSeparator()]
        assert all(names), menu.title()
        assert len(names) == len(set(names)), menu.title()


@pytest.mark.parametrize("face", FACES)
def test_the_name_of_a_verdict_s_cell_holds_its_word(
    face: str, qtbot: QtBot, window: Window
) -> None:
    """A reader says the verdict, not only its colour and its mark."""
    window.faces.go(face)
    settle(qtbot, window)
    page = window.pages.currentWidget()
    assert page is not None
    said = " ".join(_cells(tree(page))).casefold()
    if face == "calendar":
        return
    for line in window.day_list.model.lines:
        assert _WORDS[line.verdict].casefold() in said


def _cells(root: QAccessibleInterface) -> list[str]:
    found = []
    for number in range(root.childCount()):
        child = root.child(number)
        if child.isValid() and not child.state().invisible:
            found += [child.text(NAME), *_cells(child)]
    return found


class _Trap(QLineEdit):
    """A field that lets nobody leave."""

    @override
    def focusNextPrevChild(self, next: bool) -> bool:
        return True


def test_the_checks_find_what_is_wrong(qtbot: QtBot) -> None:
    """The checks themselves have teeth."""
    bare = QDialog()
    qtbot.addWidget(bare)
    for at in range(2):
        edit = QLineEdit(bare)
        edit.setAccessibleName("Name")
        edit.setGeometry(0, 30 * at, 100, 20)
    surface = QWidget(bare)
    surface.setGeometry(0, 80, 20, 20)
    surface.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    little = QToolButton(bare)
    little.setFixedSize(16, 16)
    little.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    bare.show()
    ready(qtbot, bare)
    assert twins(bare) == ["Name"]
    assert without_role(bare) == ["QWidget "]
    assert len(small_targets(bare)) == 1
    trap = _Trap(bare)
    trap.setGeometry(0, 120, 100, 30)
    trap.show()
    with pytest.raises(AssertionError, match="does not come"):
        check_tabbing(bare)
