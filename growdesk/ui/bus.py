"""Give one signal that says which facets of the collection a write touched.

Panes listen and decide for themselves; nobody is told what to do.
"""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from growdesk.services.values import Changed


class Bus(QObject):
    """Carries ``Changed`` flags from the desk to whoever shows something.

    While it is held, as on a walk, what was touched is gathered and told once, so that
    one write after another does not wait for all to be shown anew.
    """

    changed = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._is_held = False
        self._gathered = Changed.NOTHING

    def tell(self, changed: Changed) -> None:
        """Say what was touched, or gather it."""
        if self._is_held:
            self._gathered |= changed
        else:
            self.changed.emit(changed)

    def hold(self) -> None:
        """Gather from now on."""
        self._is_held = True

    def release(self) -> None:
        """Say what was gathered, if anything, and hold no longer."""
        gathered, self._gathered = self._gathered, Changed.NOTHING
        self._is_held = False
        if gathered is not Changed.NOTHING:
            self.changed.emit(gathered)
