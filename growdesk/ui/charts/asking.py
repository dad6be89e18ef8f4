"""Say which chart is wanted, and get what it needs off the window's thread.

The drawing library costs half a second to load; ``load`` does it where nobody waits.
"""

from __future__ import annotations

from enum import StrEnum
from functools import cache, partial
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.ui.charts.turns import in_turn

if TYPE_CHECKING:
    from collections.abc import Callable
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
    BLOOMS = "blooms"


class Wanted(Struct, frozen=True):
    """One chart of a plant or a place, up to or through the year of one day.

    The feed used and the meter readings are the whole collection's; ``of_id`` does not
    matter there. Who blooms when begins with the month ``of_id``, 0 as the house lies.
    ``mix`` is drawn as it is handed in, since a form may hold what was
    not saved.
    """

    which: Which
    of_id: int
    on: date
    mix: MixChart | None = None


@cache
@in_turn
def load() -> None:
    """Load the drawing library, without anybody's own settings of it.

    A first small drawing finds its type and loads what it loads late.
    """
    import matplotlib as mpl
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    from growdesk.ui.charts import drawing  # noqa: F401, PLC0415

    mpl.rcdefaults()
    figure = Figure(figsize=(1, 1))
    figure.subplots().plot([0, 1], [0, 1], label="a line")
    figure.legend()
    FigureCanvasAgg(figure).draw()  # type: ignore[no-untyped-call]


def read(collection: Collection, wanted: Wanted) -> Chart:
    """Read what a chart draws."""
    if wanted.mix is not None and wanted.which is not Which.PLANT:
        return wanted.mix
    reads: dict[Which, Callable[[], Chart]] = {
        Which.PLANT: lambda: collection.charts.plant(wanted.of_id, wanted.on),
        Which.PLACE: lambda: collection.charts.place(wanted.of_id, wanted.on),
        Which.USED: lambda: collection.stocktaking.used(wanted.on),
        Which.METER: lambda: collection.meter.chart(wanted.on),
        Which.BLOOMS: lambda: collection.blooms.year(wanted.on, wanted.of_id or None),
    }
    season = partial(collection.charts.season, wanted.of_id, wanted.on)
    return reads.get(wanted.which, season)()
