"""Keep still what need not move, where the grower or the system asks for it.

What moves in the window is the bar of work whose length is not known, the system's own
fading of menus and lists, and the blinking of the cursor in a text.
"""

from __future__ import annotations

from enum import StrEnum

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QApplication, QProgressBar, QStyle

from growdesk.domain.speech import tr

_EFFECTS = (
    Qt.UIEffect.UI_AnimateMenu,
    Qt.UIEffect.UI_FadeMenu,
    Qt.UIEffect.UI_AnimateCombo,
    Qt.UIEffect.UI_AnimateTooltip,
    Qt.UIEffect.UI_FadeTooltip,
    Qt.UIEffect.UI_AnimateToolBox,
)


class Motion(StrEnum):
    """How much may move: as the system has it, less, or as usual."""

    SYSTEM = "system"
    LESS = "less"
    USUAL = "usual"


class Moving(QObject):
    """Keeps how much may move and tells when that changes."""

    turned = Signal()

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._app = app
        self._blink_ms = app.cursorFlashTime()
        self._usual = {each: app.isEffectEnabled(each) for each in _EFFECTS}
        self.motion = Motion.SYSTEM
        self.choose(Motion.SYSTEM)

    @property
    def is_still(self) -> bool:
        """Tell whether nothing is to move that need not."""
        if self.motion is Motion.SYSTEM:
            return system_is_still(self._app.style())
        return self.motion is Motion.LESS

    def choose(self, motion: Motion) -> None:
        """Take the grower's choice at once."""
        self.motion = motion
        still = self.is_still
        for effect, usual in self._usual.items():
            self._app.setEffectEnabled(effect, usual and not still)
        self._app.setCursorFlashTime(0 if still else self._blink_ms)
        self.turned.emit()


class BusyBar(QProgressBar):
    """A bar of work whose length is not known; where it keeps still, it says so."""

    def __init__(self) -> None:
        super().__init__()
        self._take_motion()
        current().turned.connect(self._take_motion)

    def _take_motion(self) -> None:
        still = current().is_still
        leave_open(self)
        self.setFormat(tr("at work") if still else "")
        self.setTextVisible(still)


_current: list[Moving] = []


def current() -> Moving:
    """Give the motion in force, made on first use."""
    if not _current:
        app = QApplication.instance()
        if not isinstance(app, QApplication):
            raise TypeError("motion needs a running QApplication")
        _current.append(Moving(app))
    return _current[0]


def leave_open(bar: QProgressBar) -> None:
    """Have a bar show work whose length is not known: moving, or empty and still."""
    bar.setRange(0, 1 if current().is_still else 0)
    bar.setValue(0)


def system_is_still(style: QStyle) -> bool:
    """Tell whether the system has animations turned off, as far as Qt knows."""
    hint = QStyle.StyleHint
    return not (
        style.styleHint(hint.SH_Widget_Animate)
        and style.styleHint(hint.SH_Widget_Animation_Duration)
    )
