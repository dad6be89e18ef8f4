"""Do what ticks, keys and choosers ask for: one service call each, no form.

Knows the desk and the ids it is given, and no widget.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from growdesk.domain.speech import tr
from growdesk.ui.day_columns import can_tick

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.collection import Collection
    from growdesk.services.values import Line
    from growdesk.ui.desk import Desk
    from growdesk.ui.picking import Picked


class Deeds:
    """What can be done to the lines of the day shown."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    @property
    def _now(self) -> Collection:
        return self._desk.collection

    def toggle(self, lines: Sequence[Line]) -> None:
        """Tick lines; where all of them are done, take the ticks off again."""
        if not lines:
            self._desk.told.emit(tr("No plant is selected."))
            return
        fit = [line for line in lines if can_tick(line) or line.done is not None]
        if fit and all(line.done is not None for line in fit):
            self.untick([line.plant_id for line in fit])
            return
        self.tick([line.plant_id for line in lines if line.done is None])

    def tick(self, ids: Sequence[int]) -> None:
        """Mark plants as done as planned."""
        self._desk.write(partial(self._now.day.tick, tuple(ids), self._desk.on))

    def untick(self, ids: Sequence[int]) -> None:
        """Take ticks off."""
        self._desk.write(partial(self._now.day.untick, tuple(ids), self._desk.on))

    def pass_by(self, lines: Sequence[Line]) -> None:
        """Mark plants as passed by, still damp."""
        ids = tuple(line.plant_id for line in lines)
        if not ids:
            self._desk.told.emit(tr("No plant is selected."))
            return
        self._desk.write(partial(self._now.day.pass_by, ids, self._desk.on))

    def put_in_bin(self, plants: Sequence[Picked]) -> None:
        """Take plants out of the collection; undo brings them back."""
        ids = tuple(each.plant_id for each in plants)
        if ids:
            self._desk.write(partial(self._now.plants.remove, ids))

    def back(self, plant_id: int) -> None:
        """Have a plant that had left grow here again."""
        self._desk.write(partial(self._now.plants.back, (plant_id,)))

    def use_tin(self, tin_id: int) -> None:
        """Mix from another tin."""
        self._desk.write(partial(self._now.mixing.use_tin, tin_id))

    def use_recipe(self, recipe_id: int) -> None:
        """Feed by another recipe."""
        self._desk.write(partial(self._now.recipes.use, recipe_id))

    def use_water(self, water_id: int) -> None:
        """Mix with another water."""
        self._desk.write(partial(self._now.waters.use, water_id))

    def step_day(self, by: int) -> None:
        """Go to the next (1) or the previous (-1) watering day."""
        self._desk.step_day(by)
