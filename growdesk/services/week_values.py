"""Frozen values of the week as the window shows it: plants down, watering days across.

Volumes in litres, strengths in mg N per litre (``ppm_n``).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Verdict, Water
    from growdesk.domain.week_because import Because
    from growdesk.services.values import Done, MixPlan


class WeekCell(Struct, frozen=True):
    """One plant on one watering day.

    ``strength_ppm_n`` is as poured from the jug; ``letter`` is the jug's on the week's
    sheet, and None on a day that is on no sheet any more. ``missed`` says that care was
    planned on a past day and nothing is on record.
    """

    on: date
    verdict: Verdict
    water: Water
    strength_ppm_n: float | None
    letter: str | None
    volume_l: float | None
    reason: str
    done: Done | None
    missed: bool
    because: Because | None
    sentence: str


class WeekLine(Struct, frozen=True):
    """One plant's week; ``told`` says it in whole sentences."""

    plant_id: int
    tag: str
    name: str
    place: str
    cells: tuple[WeekCell, ...]
    told: tuple[str, ...]
    bench_name: str = ""


class WeekDay(Struct, frozen=True):
    """One watering day of the week over all plants.

    ``mix`` is what to have ready; a past day of this week has none. ``is_missed`` says
    that the whole round went by without a tick.
    """

    on: date
    is_today: bool
    is_past: bool
    is_missed: bool
    counts: tuple[tuple[Verdict, int], ...]
    done: int
    missed: int
    mix: MixPlan | None


class WeekView(Struct, frozen=True):
    """A week: its watering days in order, and every plant by place and bench."""

    begins: date
    today: date
    days: tuple[WeekDay, ...]
    lines: tuple[WeekLine, ...]

    @property
    def is_this_week(self) -> bool:
        """Tell whether the week holds today."""
        return 0 <= (self.today - self.begins).days < 7

    def line(self, plant_id: int) -> WeekLine | None:
        """Give a plant's week, or None where the plant is not there."""
        return next((line for line in self.lines if line.plant_id == plant_id), None)
