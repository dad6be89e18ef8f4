"""Give axes their marks: few round amounts upright, months along the foot.

Days are drawn as day numbers, with our own month names: those of the locale may be
anybody's.
"""

from __future__ import annotations

import math
from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.day_words import SHORT_MONTHS
from growdesk.domain.speech import plain

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes

MONTH_WIDTH_SIZES = 2.9
"""Room that the name of a month takes, in font sizes."""

LEAST_HOURS_SHOWN = 6


def amounts(axes: Axes, most: float) -> None:
    """Let an axis of amounts begin at nothing, with few round numbers."""
    from matplotlib.ticker import MaxNLocator

    axes.set_ylim(0, most * 1.1 if most > 0 else 1)
    _say_plainly(axes)
    axes.yaxis.set_major_locator(MaxNLocator(nbins=4, steps=[1, 2, 2.5, 5, 10]))


def rates(axes: Axes, found: Sequence[float]) -> None:
    """Show rates from nothing up, and below it only where one is."""
    from matplotlib.ticker import MaxNLocator

    low, high = min(found, default=0.0), max(found, default=0.0)
    low, high = min(low, 0.0), max(high, 0.0)
    room = (high - low or 1.0) * 0.1
    axes.set_ylim(low - room if low < 0 else 0.0, high + room)
    _say_plainly(axes)
    axes.yaxis.set_major_locator(MaxNLocator(nbins=4, steps=[1, 2, 2.5, 5, 10]))


def hours(axes: Axes, least: float, most: float) -> None:
    """Show the hours there are, and never so few that a minute looks like a season."""
    from matplotlib.ticker import MaxNLocator

    low, high = math.floor(least - 1), math.ceil(most + 1)
    lacking = max(0, LEAST_HOURS_SHOWN - (high - low))
    low, high = low - lacking // 2, high + (lacking + 1) // 2
    axes.set_ylim(max(-1, low), min(25, high))
    _say_plainly(axes)
    axes.yaxis.set_major_locator(MaxNLocator(nbins=4, integer=True))


def _say_plainly(axes: Axes) -> None:
    """Write the amounts beside the axes with the decimal sign of the place."""
    from matplotlib.ticker import FuncFormatter

    axes.yaxis.set_major_formatter(FuncFormatter(lambda at, _place: plain(at + 0.0)))


def room_for_months(count: int, room_in_sizes: float) -> int:
    """Give every how many months one is named where so many lie side by side."""
    room = max(1, int(room_in_sizes / MONTH_WIDTH_SIZES))
    return next(n for n in (1, 2, 3, 4, 6, 12) if n * room >= count or n == 12)


def month_starts(begins: date, ends: date) -> list[date]:
    """Give the first days of months between two days."""
    found = []
    year, month = begins.year, begins.month
    while date(year, month, 1) <= ends:
        if date(year, month, 1) >= begins:
            found.append(date(year, month, 1))
        year, month = (year + 1, 1) if month == 12 else (year, month + 1)
    return found


def months(axes: Axes, begins: date, ends: date, room_in_sizes: float) -> None:
    """Mark every month and name as many as there is room for, with their years."""
    starts = month_starts(begins, ends)
    every = room_for_months(len(starts), room_in_sizes)
    named = [day for day in starts if (day.month - 1) % every == 0]
    many_years = begins.year != ends.year
    texts = []
    for place, day in enumerate(named):
        is_new = place == 0 or day.year != named[place - 1].year
        below = f"\n{day.year if is_new else ' '}" if many_years else ""
        texts.append(f"{SHORT_MONTHS[day.month - 1]}{below}")
    axes.set_xticks([day.toordinal() for day in named], texts)
    axes.set_xticks([day.toordinal() for day in starts], minor=True)
    sizes = [float(each.get_fontsize()) for each in axes.get_xticklabels()]
    size_pt = max(sizes, default=0.0)
    axes.tick_params(axis="x", which="major", pad=max(6.0, size_pt / 2))
    axes.tick_params(axis="x", which="minor", length=2)
