"""Put the cursor on what undo or redo touched, where the face in sight shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.ui.desk import Desk
    from growdesk.ui.faces import Faces
    from growdesk.ui.panes.day_list import DayListPane
    from growdesk.ui.rostering import Rostering


class MovedTo(QObject):
    """Which plants were touched, until the faces show them as they are now.

    It must be made after the panes are connected to the day: they are shown it first.
    """

    def __init__(
        self, desk: Desk, faces: Faces, day_list: DayListPane, roster: Rostering
    ) -> None:
        super().__init__(desk)
        self._faces = faces
        self._day_list = day_list
        self._roster = roster
        self._touched: tuple[int, ...] = ()
        desk.day_arrived.connect(lambda _shown: self._day_arrived())

    def take(self, plants: Sequence[int]) -> None:
        """Remember the plants that were touched; the first one shown is chosen."""
        self._touched = tuple(plants)
        if plants and self._faces.shown == "collection":
            self._roster.choose_next(plants[0])

    def _day_arrived(self) -> None:
        touched, self._touched = self._touched, ()
        if not self._faces.follows_day:
            return
        for plant_id in touched:
            if self._day_list.model.row_of(plant_id) >= 0:
                self._day_list.go_to(plant_id)
                return
