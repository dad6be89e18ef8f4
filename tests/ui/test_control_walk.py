"""A control has a name of its own, a role and its state, and the Tab key comes to it.

One dialog, or one window, is opened for all that is asked of it.
"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
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
    QTableView,
    QTabWidget,
    QToolButton,
    QWidget,
)
from typing_extensions import override

from growdesk.ui.charts.canvas import ChartCanvas
from growdesk.ui.dialogs import tabbing
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.words import VERDICT as _WORDS
from tests.ui.driving import settle
from tests.ui.test_accessible_names import interfaces, nameless, unlabelled
from tests.ui.test_handbook import BARE, kinds_below
from tests.ui.test_mix_chart import CHART
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
VERDICTS = (("day", 3), ("week", 0), ("collection", 3))
"""Faces that show verdicts, and in which column."""


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


def check_controls(widget: QWidget) -> None:
    assert nameless(widget) == []
    assert unlabelled(widget) == []
    assert twins(widget) == []
    assert without_role(widget) == []
    assert wrong_states(widget) == []
    assert small_targets(widget) == []


@pytest.mark.parametrize("name", list(ALL))
def test_controls_of_a_dialog(name: str, qtbot: QtBot, tmp_path: Path) -> None:
    dialog = ALL[name](tmp_path)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    ready(qtbot, dialog)
    check_controls(dialog)
    check_tabbing(dialog)
    for tabs in dialog.findChildren(QTabWidget):
        for number in range(1, tabs.count()):
            tabs.setCurrentIndex(number)
            QApplication.processEvents()
            check_controls(dialog)
            check_tabbing(dialog)


@pytest.mark.parametrize("name", list(ALL))
def test_the_tab_key_goes_down_a_dialog_as_it_is_read(
    name: str, qtbot: QtBot, tmp_path: Path
) -> None:
    """WCAG 2.4.3: never up again, but to what stands further right."""
    dialog = ALL[name](tmp_path)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    QApplication.processEvents()
    seen = [(each, in_sight(each, dialog)) for each in tabbing.stops(dialog)]
    up = [
        f"{before.accessibleName()} to {after.accessibleName()}"
        for (before, a), (after, b) in pairwise(seen)
        if b.bottom() <= a.top() and b.left() < a.right()
    ]
    assert up == []


def in_sight(widget: QWidget, dialog: QWidget) -> QRect:
    """Give where a control stands, at the edge of what scrolls where it is beyond."""
    found = QRect(widget.mapTo(dialog, QPoint()), widget.size())
    each = widget.parentWidget()
    while each is not None and each is not dialog:
        area = each.parentWidget()
        if isinstance(area, QAbstractScrollArea) and area.viewport() is each:
            port = QRect(each.mapTo(dialog, QPoint()), each.size())
            found.moveTop(min(max(found.top(), port.top()), port.bottom()))
        each = area
    return found


def test_no_dialog_is_left_out(qtbot: QtBot, tmp_path: Path) -> None:
    walked = set()
    for number, make in enumerate(ALL.values()):
        folder = tmp_path / str(number)
        folder.mkdir()
        dialog = make(folder)
        qtbot.addWidget(dialog)
        walked.add(type(dialog).__name__)
    left_out = {
        each.__name__
        for each in kinds_below(OnScreen)
        if each.__module__.startswith("growdesk.")
        and each.__name__ not in BARE
        and not {kind.__name__ for kind in each.__mro__} & (walked - BARE)
    }
    assert left_out == set()


def test_controls_of_every_face_and_tab(qtbot: QtBot, window: Window) -> None:
    ready(qtbot, window)
    for face in FACES:
        window.faces.go(face)
        settle(qtbot, window)
        check_controls(window)
        check_tabbing(window)
    window.faces.go("day")
    for tabs in (window.detail.tabs, window.mixing.tabs):
        for number in range(tabs.count()):
            tabs.setCurrentIndex(number)
            settle(qtbot, window)
            check_controls(window)
            check_tabbing(window)


def test_controls_of_an_empty_collection(
    collection: Collection, show: Callable[[Collection], Window], qtbot: QtBot
) -> None:
    window = show(collection)
    ready(qtbot, window)
    check_controls(window)
    check_tabbing(window)


def test_every_entry_of_every_menu_has_a_name_of_its_own(window: Window) -> None:
    for menu in window.menuBar().findChildren(QMenu):
        names = [each.text() for each in menu.actions() if not each.isSeparator()]
        assert all(names), menu.title()
        assert len(names) == len(set(names)), menu.title()


def test_a_chart_is_told_as_a_picture_with_its_words(qtbot: QtBot) -> None:
    canvas = ChartCanvas()
    qtbot.addWidget(canvas)
    canvas.show_chart(CHART, "In a litre", "nitrogen is met")
    assert tree(canvas).role() is QAccessible.Role.Graphic
    assert name_of(tree(canvas)) == "In a litre"
    assert tree(canvas).text(QAccessible.Text.Description) == "nitrogen is met"
    assert tree(canvas).state().focusable


@pytest.mark.parametrize(("face", "column"), VERDICTS)
def test_the_name_of_a_verdict_s_cell_holds_its_word(
    face: str, column: int, qtbot: QtBot, window: Window
) -> None:
    """A reader says the verdict of each plant, not only its colour and its mark."""
    window.faces.go(face)
    settle(qtbot, window)
    page = window.pages.currentWidget()
    assert page is not None
    (table,) = [t for t in page.findChildren(QTableView) if t.isVisible()]
    model = table.model()
    said = [
        [
            str(model.index(row, at).data(Qt.ItemDataRole.AccessibleTextRole) or "")
            for at in range(model.columnCount())
        ]
        for row in range(model.rowCount())
    ]
    read_out = [name for _role, name in _cells(tree(table))]
    heads = [
        str(
            model.headerData(
                row, Qt.Orientation.Vertical, Qt.ItemDataRole.AccessibleTextRole
            )
            or ""
        )
        for row in range(model.rowCount())
    ]
    lines = window.day_list.model.lines
    assert len(lines) == 3
    for line in lines:
        (cell,) = [
            cells[column]
            for cells, head in zip(said, heads, strict=True)
            if any(line.tag in each.split(", ")[0].split() for each in (head, *cells))
        ]
        assert _WORDS[line.verdict].casefold() in cell.casefold()
        assert cell in read_out


def test_the_name_of_a_job_holds_what_is_to_be_done(
    qtbot: QtBot, window: Window
) -> None:
    """The calendar has jobs in place of verdicts; no icon stands for a word there."""
    window.faces.go("calendar")
    settle(qtbot, window)
    calendar = window.pages.currentWidget()
    assert isinstance(calendar, QWidget)
    rows = [
        name.split(", ")
        for role, name in _cells(tree(calendar))
        if role is QAccessible.Role.ListItem
    ]
    jobs = [row for row in rows if any(part.startswith("A3 ") for part in row)]
    assert ["Look", "First look"] in [row[:2] for row in jobs]
    assert all(len(row) >= 2 and all(row) for row in rows)


def _cells(root: QAccessibleInterface) -> list[tuple[QAccessible.Role, str]]:
    found = []
    for number in range(root.childCount()):
        child = root.child(number)
        if child.isValid() and not child.state().invisible:
            found += [(child.role(), child.text(NAME)), *_cells(child)]
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
