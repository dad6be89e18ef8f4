"""Do what ticks, keys and choosers ask for: one service call each, no form.

Knows the desk and the ids it is given, and no widget.
"""

from __future__ import annotations

from datetime import timedelta
from functools import partial
from typing import TYPE_CHECKING

from growdesk.ui.models.day_model import can_tick

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.values import Line, QuickMix
    from growdesk.ui.desk import Desk

Typed = tuple[str, str, str, str, str]


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
            self._desk.told.emit("No plant is selected.")
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
            self._desk.told.emit("No plant is selected.")
            return
        self._desk.write(partial(self._now.day.pass_by, ids, self._desk.on))

    def put_in_bin(self, lines: Sequence[Line]) -> None:
        """Take plants out of the collection; undo brings them back."""
        ids = tuple(line.plant_id for line in lines)
        if ids:
            self._desk.write(partial(self._now.plants.remove, ids))

    def undo(self) -> None:
        """Take the last deed back."""
        self._desk.write(self._now.history.undo)

    def redo(self) -> None:
        """Do the last deed again."""
        self._desk.write(self._now.history.redo)

    def use_tin(self, tin_id: int) -> None:
        """Mix from another tin."""
        self._desk.write(partial(self._now.mixing.use_tin, tin_id))

    def use_water(self, water_id: int) -> None:
        """Mix with another water."""
        self._desk.write(partial(self._now.mixing.use_water, water_id))

    def step_day(self, by: int) -> None:
        """Go to the next (1) or the previous (-1) watering day."""
        work = partial(watering_day, self._now, self._desk.on, by)
        self._desk.read(work, self._desk.show_day)


def watering_day(collection: Collection, on: date, by: int) -> date:
    """Give the watering day after or before a day; today counts as one."""
    if by > 0:
        found = collection.day.next_watering_day(on)
        today = collection.clock.today()
        return today if on < today < found else found
    today = collection.clock.today()
    for back in range(1, 8):
        earlier = on - timedelta(days=back)
        before = earlier - timedelta(days=1)
        if earlier == today or collection.day.next_watering_day(before) == earlier:
            return earlier
    return on - timedelta(days=7)


def work_out(collection: Collection, typed: Typed) -> QuickMix:
    """Answer a quick dose question."""
    analysis, target, water, density, water_ec = typed
    return collection.mixing.quick(analysis, target, water, density, water_ec)
