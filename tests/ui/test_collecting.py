"""Cycles are collected by the window's own timer, and by nothing else."""

from __future__ import annotations

import gc
import weakref
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from growdesk.ui.collecting import Collecting

if TYPE_CHECKING:
    from PySide6.QtWidgets import QApplication


class Node:
    """Something that may point at itself."""

    def __init__(self) -> None:
        self.itself = self


def test_it_takes_collecting_over(qapp: QApplication) -> None:
    gc.enable()
    collecting = Collecting(qapp)
    try:
        assert not gc.isenabled()
        seen = weakref.ref(Node())
        assert seen() is not None
        collecting.collect()
        assert seen() is None
        for _ in range(240):
            collecting.collect()
        set_aside = Node()
        seen = weakref.ref(set_aside)
        for _ in range(240):
            collecting.collect()
        del set_aside
        for _ in range(240):
            collecting.collect()
        assert seen() is not None
        collecting.collect_kept(Qt.ApplicationState.ApplicationActive)
        assert seen() is not None
        collecting.collect_kept(Qt.ApplicationState.ApplicationInactive)
        assert seen() is None
    finally:
        collecting.setParent(None)
        collecting.deleteLater()
        gc.unfreeze()
