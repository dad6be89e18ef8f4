"""Text grows to twice its size at once, is kept, and nothing is cut or out of reach."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QRect
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QWidget

from growdesk.ui import eye_forms, motion, preferences, sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.dialogs.rows import RowsDialog
from growdesk.ui.motion import Motion
from growdesk.ui.widgets.roomy import Roomy
from tests.ui.driving import settle, status
from tests.ui.test_on_screen import ALL

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

SCREEN = QRect(0, 0, 1024, 700)
TALL = {"take in"}
"""Still higher than a small screen at 200 %."""


def cut(widget: QWidget) -> list[str]:
    """Give words on one line that have less room than they need and no tip."""
    found = []
    for each in widget.findChildren(QWidget):
        if not each.isVisible() or each.toolTip():
            continue
        words = ""
        if isinstance(each, QAbstractButton) or (
            isinstance(each, QLabel) and not each.wordWrap()
        ):
            words = each.text()
        if words and each.width() < each.minimumSizeHint().width():
            found.append(f"{type(each).__name__} {each.accessibleName()} {words}")
    return found


def test_text_grows_by_steps_at_once_and_is_kept(window: Window) -> None:
    button, table = window.detail.look_button, window.day_list.table
    before = button.font().pointSizeF(), table.rowHeight(1)
    seen = []
    for _ in range(5):
        window.commands["text-larger"].trigger()
        seen.append(sizes.current().per_cent)
    assert seen == [125, 150, 175, 200, 200]
    assert button.font().pointSizeF() == pytest.approx(2 * before[0])
    assert table.rowHeight(1) > 1.6 * before[1]
    assert preferences.kept_text_per_cent() == 200
    assert "200" in status(window)
    window.commands["text-smaller"].trigger()
    assert sizes.current().per_cent == 175
    window.commands["text-usual"].trigger()
    assert button.font().pointSizeF() == pytest.approx(before[0])
    assert table.rowHeight(1) == before[1]
    assert preferences.kept_text_per_cent() == 100


def test_what_was_kept_and_cannot_be_read_is_the_usual() -> None:
    preferences.preferences().setValue("text-size", "huge")
    assert preferences.kept_text_per_cent() == 100


def test_the_window_at_200_fits_a_small_screen(qtbot: QtBot, window: Window) -> None:
    sizes.current().choose(200)
    window.resize(SCREEN.size())
    for face in ("day", "week", "calendar", "collection"):
        window.faces.go(face)
        settle(qtbot, window)
        least = window.minimumSizeHint()
        assert least.width() <= SCREEN.width()
        assert least.height() <= SCREEN.height()
        assert cut(window) == [], face


@pytest.mark.parametrize("name", list(ALL))
def test_a_dialog_at_200_fits_a_small_screen(
    name: str, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(OnScreen, "free", lambda _self: SCREEN)
    sizes.current().choose(200)
    dialog = ALL[name](tmp_path)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    QApplication.processEvents()
    layout = dialog.layout()
    assert layout is not None
    assert layout.totalMinimumSize().width() <= dialog.width()
    wrapped = layout.totalMinimumHeightForWidth(dialog.width())
    least = wrapped if wrapped > 0 else layout.totalMinimumSize().height()
    assert least <= dialog.height() or name in TALL
    assert cut(dialog) == []


def test_both_are_preferences(qtbot: QtBot, window: Window) -> None:
    window.commands["preferences"].trigger()
    dialog = next(each for each in window.findChildren(OnScreen) if each.isVisible())
    keys = {row.key for row in eye_forms.rows()}
    assert keys == {"text-size", "motion"}
    assert eye_forms.take("text-size", "150")
    assert sizes.current().per_cent == preferences.kept_text_per_cent() == 150
    assert eye_forms.take("motion", "less")
    assert motion.current().is_still
    assert preferences.kept_motion() is Motion.LESS
    assert not eye_forms.take("paper", "A4")
    dialog.accept()
    settle(qtbot, window)


def is_stacked(window: Window) -> bool:
    return window.stacking.is_stacked


def wraps(window: Window) -> bool:
    return window.head.jobs.told.wordWrap()


def test_at_200_a_small_window_is_read_downwards_alone(
    qtbot: QtBot, window: Window
) -> None:
    roomy = window.findChild(Roomy)
    assert roomy is not None
    widths = window.split.sizes()
    window.head.tell_jobs("8 jobs are overdue. " + "Plants to move. " * 8)
    sizes.current().choose(200)
    window.resize(SCREEN.size())
    settle(qtbot, window)
    QApplication.processEvents()
    assert is_stacked(window)
    assert roomy.horizontalScrollBar().maximum() == 0
    assert window.day_list.width() > 900
    assert window.day_list.height() >= 500
    assert window.detail.height() >= window.detail.minimumSizeHint().height()
    assert window.head.modes.y() > window.head.title.y() + 20
    assert wraps(window)
    assert window.head.jobs.told.width() > 500
    assert cut(window) == []
    sizes.current().choose(100)
    window.resize(1280, 800)
    settle(qtbot, window)
    QApplication.processEvents()
    assert not is_stacked(window)
    assert window.split.sizes() == pytest.approx(widths, abs=30)
    assert window.head.modes.y() < window.head.title.y() + 20
    assert not wraps(window)


def test_a_list_over_its_form_has_the_whole_width(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(OnScreen, "free", lambda _self: QRect(0, 0, 640, 700))
    dialog = ALL["waters"](tmp_path)
    assert isinstance(dialog, RowsDialog)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    QApplication.processEvents()
    assert dialog.list.width() > dialog.width() - 60
