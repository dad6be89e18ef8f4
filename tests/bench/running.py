"""Run a bar: both sides in turn, again and again; nothing else in between.

At least seven times; three where one takes seconds, so that all take minutes, and once
where one takes half a minute, without one that warms up.
"""

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


_LONG_S = 2.0
_LONG_RUNS = 3
_ONCE_S = 30.0


def take(bar: Bar, ground: Ground) -> Taken:
    """Set a bar up, warm both sides once, and run them in turn."""
    pair = bar.measure(ground)
    sides = [pair.ours] if pair.base is None else [pair.ours, pair.base]
    taken: list[list[float]] = [[] for _ in sides]
    load = longest = 0.0
    run, runs = -1, bar.runs
    try:
        while run < runs:
            for number, side in enumerate(sides):
                if pair.before is not None:
                    pair.before()
                gc.collect()
                began = time.perf_counter()
                spent = _timed(side)
                longest = max(longest, time.perf_counter() - began)
                taken[number].append(spent)
            run += 1
            if longest > _ONCE_S:
                runs = 0
            elif longest > _LONG_S:
                runs = min(bar.runs, _LONG_RUNS)
            if not run and runs:
                taken = [[] for _ in sides]
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
