"""Say which chart is wanted, and get what it needs off the window's thread.

The drawing library costs half a second to load; ``load`` does it where nobody waits.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.recipe_values import MixChart
    from growdesk.ui.charts.drawing import Chart


class Which(StrEnum):
    """Which chart."""

    PLANT = "plant"
    SEASON = "season"
    PLACE = "place"
    USED = "used"
    MIX = "mix"
    METER = "meter"


@dataclass(frozen=True, slots=True)
class Wanted:
    """One chart of a plant or a place, up to or through the year of one day.

    The feed used and the meter readings are the whole collection's; ``of_id`` does not
    matter there. ``mix`` is drawn as it is handed in, since a form may hold what was
    not saved.
    """

    which: Which
    of_id: int
    on: date
    mix: MixChart | None = None


@cache
def load() -> None:
    """Load the drawing library, without anybody's own settings of it.

    A first small drawing finds its type and loads what it loads late.
    """
    import matplotlib.backends.backend_qtagg
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    from growdesk.ui.charts import drawing  # noqa: F401, PLC0415

    matplotlib.rcdefaults()
    figure = Figure(figsize=(1, 1))
    figure.subplots().plot([0, 1], [0, 1], label="a line")
    figure.legend()
    FigureCanvasAgg(figure).draw()  # type: ignore[no-untyped-call]


def read(collection: Collection, wanted: Wanted) -> Chart:
    """Read what a chart draws."""
    if wanted.which is Which.PLANT:
        return collection.charts.plant(wanted.of_id, wanted.on)
    if wanted.mix is not None:
        return wanted.mix
    if wanted.which is Which.PLACE:
        return collection.charts.place(wanted.of_id, wanted.on)
    if wanted.which is Which.USED:
        return collection.stocktaking.used(wanted.on)
    if wanted.which is Which.METER:
        return collection.meter.chart(wanted.on)
    return collection.charts.season(wanted.of_id, wanted.on)
