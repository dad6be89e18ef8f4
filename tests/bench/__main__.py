"""Measure all bars, or those named, and print the table.

    python -m tests.bench [KEY ...] [--slow] [--sizes 40,1000,10000] [--readme]
    python -m tests.bench --make 10000 FOLDER
    python -m tests.bench --imports

Ends with 1 where a bar is broken. Take figures on a machine that does nothing else.
"""

from __future__ import annotations

import argparse
import importlib
import os
import platform
import sys
import tempfile
import time
import traceback
from pathlib import Path
from pkgutil import iter_modules
from typing import TYPE_CHECKING

from tests.bench import areas, imports
from tests.bench.bars import SIZES
from tests.bench.ground import generate, ground
from tests.bench.judged import growths, judged
from tests.bench.running import take
from tests.bench.table import growth_line, line, write_readme

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.bench.bars import Bar, Taken

README = Path(__file__).parents[2] / "README.md"


def bars() -> Iterator[Bar]:
    """Give the bars of all areas."""
    for module in sorted(each.name for each in iter_modules(areas.__path__)):
        yield from importlib.import_module(f"{areas.__name__}.{module}").BARS


def main() -> int:
    """Run what was asked for; give 1 where a bar or a growth is over."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("keys", nargs="*", help="only bars whose key begins so")
    parser.add_argument("--slow", action="store_true", help="the soak and its like too")
    parser.add_argument("--sizes", default=",".join(map(str, SIZES)))
    parser.add_argument("--readme", action="store_true", help="write the table there")
    parser.add_argument("--make", nargs=2, metavar=("PLANTS", "FOLDER"))
    parser.add_argument("--imports", action="store_true", help="list those at start")
    given = parser.parse_args()
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    if given.make:
        generate(Path(given.make[1]), int(given.make[0]))
        return 0
    sizes = {int(size) for size in given.sizes.split(",")}
    wanted = [
        bar for bar in bars() if _is_wanted(bar, given.keys, with_slow=given.slow)
    ]
    with tempfile.TemporaryDirectory(prefix="growdesk-bench-") as tmp:
        for name in ("XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_DATA_HOME"):
            os.environ[name] = tmp
        if given.imports:
            found = imports.imported(ground(SIZES[0], Path(tmp)))
            print("\n".join(imports.lines(found)))  # noqa: T201
            return 0
        return _run(wanted, sizes, Path(tmp), readme=given.readme)


def _is_wanted(bar: Bar, keys: list[str], *, with_slow: bool) -> bool:
    if not keys:
        return with_slow or not bar.slow
    return any(bar.key.startswith(key) for key in keys)


def _run(wanted: list[Bar], sizes: set[int], tmp: Path, *, readme: bool) -> int:
    began = time.monotonic()
    taken: list[Taken] = []
    faults = 0
    for bar in wanted:
        for size in bar.sizes:
            if size in sizes or bar.sizes == (size,):
                found = _taken(bar, size, tmp)
                faults += found is None
                taken += [] if found is None else [found]
    said = [judged(each) for each in taken]
    grown = growths(taken)
    print("\nGrowth of cost (n plants; at most n log n)")  # noqa: T201
    for growth in grown:
        print(growth_line(growth))  # noqa: T201
    over = (
        faults + sum(not each.holds for each in said) + sum(not g.holds for g in grown)
    )
    print(f"\n{len(said)} measured in {time.monotonic() - began:.0f} s, {over} over")  # noqa: T201
    if readme:
        write_readme(README, said, grown, _head())
    return 1 if over else 0


def _taken(bar: Bar, size: int, tmp: Path) -> Taken | None:
    """Take one size of a bar and print it; one that fails is told and is over."""
    try:
        found = take(bar, ground(size, tmp))
    except Exception:  # noqa: BLE001 -- the others are still to be measured
        traceback.print_exc()
        print(f"FAIL {bar.key:26} {size:>6}", flush=True)  # noqa: T201
        return None
    print(line(judged(found)), flush=True)  # noqa: T201
    return found


def _head() -> str:
    return (
        f"Python {platform.python_version()}, {os.cpu_count()} cores,"
        f" {platform.system()}, {time.strftime('%Y-%m-%d')}:"
    )


if __name__ == "__main__":
    sys.exit(main())
