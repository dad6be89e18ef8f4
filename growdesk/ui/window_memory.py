"""Remember where the window's panes stood: its place, widths, face, tabs and fold.

What cannot be read, or no longer fits the screens, is as it is at first.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QByteArray, QObject, QRect, Qt
from PySide6.QtGui import QGuiApplication

from growdesk.ui.preferences import kept_number, preferences

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtWidgets import QSplitter, QTabWidget, QWidget

    from growdesk.ui.desk import Desk
    from growdesk.ui.faces import Faces
    from growdesk.ui.folding import Folding
    from growdesk.ui.panes.detail import DetailPane
    from growdesk.ui.panes.mixing import MixingPane

FACE, TAB, MIXING, MIXING_TAB = "face", "record-tab", "mixing-open", "mixing-tab"
REASONS = "reasons-share"
_SEEN_PX = 60
"""How much of a window must be on a screen for it to be found and dragged."""


class Panes(Struct, frozen=True):
    """What of a window is remembered beside its place."""

    desk: Desk
    split: QSplitter
    faces: Faces
    folding: Folding
    detail: DetailPane | None
    mixing: MixingPane | None


def keep(window: QWidget, panes: Panes) -> None:
    """Remember the window as it stands, before it closes."""
    kept = preferences()
    kept.setValue(FACE, panes.faces.shown)
    kept.setValue(MIXING, panes.faces.settle_panes())
    kept.setValue("geometry", window.saveGeometry())
    if panes.split.orientation() == Qt.Orientation.Horizontal:
        kept.setValue("widths", panes.split.saveState())
    if panes.detail is not None:
        kept.setValue(TAB, panes.detail.tabs.currentIndex())
        kept.setValue(REASONS, panes.detail.reasons_share())
    if panes.mixing is not None:
        kept.setValue(MIXING_TAB, panes.mixing.tabs.currentIndex())


def recall(window: QWidget, panes: Panes) -> None:
    """Have the window stand as it was left; the face comes with the first day."""
    kept = preferences()
    geometry, widths = kept.value("geometry"), kept.value("widths")
    if isinstance(geometry, QByteArray):
        window.restoreGeometry(geometry)
    if isinstance(widths, QByteArray):
        panes.split.restoreState(widths)
    if str(kept.value(MIXING, "true")).lower() == "false":
        panes.folding.turn()
    face = str(kept.value(FACE, ""))
    if panes.faces.knows(face):
        _Once(panes, face)


def recall_detail(pane: DetailPane) -> None:
    """Have the pane of one plant stand as it was left."""
    _turn_to(pane.tabs, kept_number(TAB, 0))
    share = kept_number(REASONS, 0)
    if 0 < share < 100:
        pane.share_reasons(share)


def recall_mixing(pane: MixingPane) -> None:
    """Have the pane of the jugs stand as it was left."""
    _turn_to(pane.tabs, kept_number(MIXING_TAB, 0))


def come_onto_screen(window: QWidget) -> None:
    """Bring a window onto the screens there are, before it is shown."""
    if window.isMaximized() or window.isFullScreen():
        return
    screens = [each.availableGeometry() for each in QGuiApplication.screens()]
    window.setGeometry(within(window.geometry(), screens))


def within(wanted: QRect, screens: Sequence[QRect]) -> QRect:
    """Give a window's place on the screens there are: none larger, none out of reach.

    A window that stands over two screens, or partly beside one, stays so while enough
    of its upper edge is seen.
    """
    if not screens:
        return wanted
    bar = QRect(wanted.x(), wanted.y(), wanted.width(), _SEEN_PX)

    def seen(screen: QRect) -> int:
        common = screen.intersected(bar)
        return max(common.width(), 0) * max(common.height(), 0)

    best = max(screens, key=seen)
    size = wanted.size().boundedTo(best.size())
    if seen(best) >= _SEEN_PX * _SEEN_PX and wanted.size() == size:
        return wanted
    x = max(min(wanted.x(), best.right() + 1 - size.width()), best.x())
    y = max(min(wanted.y(), best.bottom() + 1 - size.height()), best.y())
    return QRect(x, y, size.width(), size.height())


class _Once(QObject):
    """Turns to a face when the first day has come, and never again."""

    def __init__(self, panes: Panes, face: str) -> None:
        super().__init__(panes.desk)
        self._panes = panes
        self._face = face
        panes.desk.day_arrived.connect(self._turn)

    def _turn(self) -> None:
        self._panes.desk.day_arrived.disconnect(self._turn)
        self._panes.faces.go(self._face)


def _turn_to(tabs: QTabWidget, kept: int) -> None:
    if kept < tabs.count():
        tabs.setCurrentIndex(kept)
