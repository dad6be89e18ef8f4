"""What need not move keeps still where the grower or the system asks for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
    QProgressBar,
    QProxyStyle,
    QStyle,
    QStyleHintReturn,
    QStyleOption,
    QWidget,
)
from typing_extensions import override

from growdesk.ui import motion, preferences
from growdesk.ui.motion import BusyBar, Motion

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window


def moves(bar: QProgressBar) -> bool:
    return bar.minimum() == bar.maximum()


def test_a_bar_of_work_keeps_still_and_says_so(qtbot: QtBot) -> None:
    bar = BusyBar()
    qtbot.addWidget(bar)
    assert moves(bar)
    motion.current().choose(Motion.LESS)
    assert not moves(bar)
    assert bar.text() == "at work"
    assert bar.isTextVisible()
    motion.current().choose(Motion.USUAL)
    assert moves(bar)
    assert not bar.isTextVisible()


def test_every_bar_of_unknown_length_in_the_window_follows(window: Window) -> None:
    motion.current().choose(Motion.LESS)
    assert not [bar for bar in window.findChildren(QProgressBar) if moves(bar)]


def test_menus_do_not_fade_and_the_cursor_does_not_blink(qapp: QApplication) -> None:
    blinks = qapp.cursorFlashTime()
    motion.current().choose(Motion.LESS)
    assert qapp.cursorFlashTime() == 0
    assert not any(
        qapp.isEffectEnabled(each)
        for each in (Qt.UIEffect.UI_FadeMenu, Qt.UIEffect.UI_AnimateCombo)
    )
    motion.current().choose(Motion.USUAL)
    assert qapp.cursorFlashTime() == blinks > 0


class Told(QProxyStyle):
    """A style of a system that has animations on or off."""

    def __init__(self, told: dict[QStyle.StyleHint, int]) -> None:
        super().__init__("Fusion")
        self._told = told

    @override
    def styleHint(
        self,
        hint: QStyle.StyleHint,
        option: QStyleOption | None = None,
        widget: QWidget | None = None,
        returnData: QStyleHintReturn | None = None,
    ) -> int:
        return self._told[hint]


@pytest.mark.parametrize(("animates", "lasts_ms"), [(0, 0), (0, 200), (1, 0), (1, 200)])
def test_the_system_is_asked(animates: int, lasts_ms: int) -> None:
    hints = {
        QStyle.StyleHint.SH_Widget_Animate: animates,
        QStyle.StyleHint.SH_Widget_Animation_Duration: lasts_ms,
    }
    still = motion.system_is_still(Told(hints))
    assert still is not (animates == 1 and lasts_ms > 0)


def test_the_choice_is_kept() -> None:
    assert preferences.kept_motion() is Motion.SYSTEM
    preferences.keep_motion(Motion.LESS)
    assert preferences.kept_motion() is Motion.LESS
    preferences.preferences().setValue("motion", "wild")
    assert preferences.kept_motion() is Motion.SYSTEM
