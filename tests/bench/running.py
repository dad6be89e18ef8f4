"""Run a bar: both sides in turn, again and again; nothing else in between."""

from __future__ import annotations

import gc
import os
import time
from typing import TYPE_CHECKING

from tests.bench.bars import Taken

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.bench.bars import Bar
    from tests.bench.ground import Ground


def take(bar: Bar, ground: Ground) -> Taken:
    """Set a bar up, warm both sides once, and run them in turn."""
    pair = bar.measure(ground)
    sides = [pair.ours] if pair.base is None else [pair.ours, pair.base]
    taken: list[list[float]] = [[] for _ in sides]
    load = 0.0
    try:
        for run in range(-1, bar.runs):
            for number, side in enumerate(sides):
                if pair.before is not None:
                    pair.before()
                gc.collect()
                spent = _timed(side)
                if run >= 0:
                    taken[number].append(spent)
            load = max(load, os.getloadavg()[0] if hasattr(os, "getloadavg") else 0.0)
    finally:
        if pair.close is not None:
            pair.close()
    ours = tuple(taken[0])
    base = tuple(taken[1]) if len(taken) > 1 else ()
    return Taken(bar, ground.plants, ours, base, load)


def _timed(side: Callable[[], float | None]) -> float:
    began = time.perf_counter()
    given = side()
    return time.perf_counter() - began if given is None else given
