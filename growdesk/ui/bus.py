"""Give one signal that says which facets of the collection a write touched.

Panes listen and decide for themselves; nobody is told what to do.
"""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal


class Bus(QObject):
    """Carries ``Changed`` flags from the desk to whoever shows something."""

    changed = Signal(object)
