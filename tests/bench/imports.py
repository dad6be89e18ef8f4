"""What the start imports until its list is painted, and what each package takes.

Milliseconds are each module's own, without what it imports in turn, of several starts
the least; the interpreter's watching makes all of them longer.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from tests.bench.ground import Ground

ROOT = Path(__file__).parents[2]
_HEAD = "import time:"
_STARTS = 3
_LISTED = 12


class Package(Struct, frozen=True):
    """A package: how many modules of it are loaded, and what they take, in ms."""

    name: str
    modules: int
    ms: float


def packages(told: str) -> list[Package]:
    """Read what ``python -X importtime`` tells; the dearest package comes first."""
    modules: Counter[str] = Counter()
    took_us: Counter[str] = Counter()
    for line in told.splitlines():
        if not line.startswith(_HEAD):
            continue
        own, _with_others, name = line.removeprefix(_HEAD).split("|")
        if own.strip().isdecimal():
            package = name.strip().split(".")[0]
            modules[package] += 1
            took_us[package] += int(own)
    return [
        Package(each, modules[each], us / 1000) for each, us in took_us.most_common()
    ]


def imported(ground: Ground) -> list[Package]:
    """Start the program some times and give the start that took least."""
    folder = ground.copy(photos=False)
    script, day = str(ROOT / "tests/bench/first_paint.py"), ground.today.isoformat()
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    environment["PYTHONDONTWRITEBYTECODE"] = ""
    starts = [
        subprocess.run(
            [sys.executable, "-X", "importtime", script, str(folder), day, "0"],
            env=environment,
            capture_output=True,
            text=True,
            check=True,
        ).stderr
        for _ in range(_STARTS)
    ]
    return min(map(packages, starts), key=lambda found: sum(each.ms for each in found))


def lines(found: list[Package]) -> list[str]:
    """Give the dearest packages a line each, then all others and the sum."""
    rest = found[_LISTED:]
    others = Package(
        "all others", sum(p.modules for p in rest), sum(p.ms for p in rest)
    )
    whole = Package("all", sum(p.modules for p in found), sum(p.ms for p in found))
    shown = [*found[:_LISTED], *([others] if rest else []), whole]
    return [f"{p.ms:8.1f} ms {p.modules:>5} modules  {p.name}" for p in shown]
