"""The benchmark's own judging: a broken bar is told, a quick one is not."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from tests.bench.bars import Bar, Limit, Pair, Taken
from tests.bench.imports import Package, lines, packages
from tests.bench.judged import MOST_EXPONENT, growths, judged
from tests.bench.table import BEGIN, END, line, write_readme

if TYPE_CHECKING:
    from pathlib import Path

    from tests.bench.ground import Ground


def nothing(_ground: Ground) -> Pair:
    return Pair(lambda: None)


BAR = Bar("find", "A key in the find line", "painting", Limit.times(2), nothing)


def taken(*ours: float, base: tuple[float, ...] = (1.0,), plants: int = 40) -> Taken:
    return Taken(BAR, plants, ours, base, 0.0)


@pytest.mark.parametrize(
    ("ours", "holds"),
    [
        ((1.9, 2.0, 2.1), True),
        ((1.9, 2.2, 2.3), True),  # the best run keeps to it
        ((2.1, 2.2, 2.3), False),
    ],
)
def test_a_bar_is_broken_by_the_median_and_the_best_run(
    ours: tuple[float, ...], holds: bool
) -> None:
    said = judged(taken(*ours))
    assert said.holds is holds
    assert line(said).startswith("ok  " if holds else "OVER")


@pytest.mark.parametrize(
    ("limit", "ours", "holds"),
    [
        (Limit.ms(16), 0.0159, True),
        (Limit.ms(16), 0.0161, False),
        (Limit.per_s(20_000), 20_001, True),
        (Limit.per_s(20_000), 19_999, False),
        (Limit.mb(400), 401, False),
        (Limit.share(0.8), 1.2, True),
        (Limit.share(0.8), 1.3, False),
        (Limit.count(0), 1, False),
    ],
)
def test_each_limit_reads_its_own_unit(limit: Limit, ours: float, holds: bool) -> None:
    assert judged(replace(taken(ours), bar=replace(BAR, most=limit))).holds is holds


@pytest.mark.parametrize(
    ("power", "holds"), [(0.2, True), (1.0, True), (1.2, False), (1.5, False)]
)
def test_growth_is_fitted_and_told(power: float, holds: bool) -> None:
    bar = replace(BAR, grows=True)
    group = [Taken(bar, n, (0.001 * n**power,), (), 0.0) for n in (40, 1_000, 10_000)]
    (grown,) = growths(group)
    assert grown.exponent == pytest.approx(power)
    assert grown.last == pytest.approx(power)
    assert grown.holds is holds


def test_n_log_n_is_allowed_between_all_sizes() -> None:
    bar = replace(BAR, grows=True)
    sizes = (40, 1_000, 10_000)
    group = [Taken(bar, n, (1e-5 * n * math.log(n),), (), 0.0) for n in sizes]
    (grown,) = growths(group)
    assert grown.exponent > MOST_EXPONENT
    assert grown.holds


def test_what_does_not_grow_is_not_fitted() -> None:
    assert growths([taken(1.0), taken(9.0, plants=1_000)]) == []


def test_the_readme_gets_the_table_between_its_marks(tmp_path: Path) -> None:
    readme = tmp_path / "README.md"
    readme.write_text(f"before\n{BEGIN}\nold\n{END}\nafter\n", "utf-8")
    both = [judged(taken(1.5)), judged(taken(3.0, plants=1_000))]
    write_readme(readme, both, [], "Here:")
    text = readme.read_text("utf-8")
    assert text.startswith(f"before\n{BEGIN}\nHere:\n\n| what | against | 40 | 1 000 |")
    assert "| 1.50 × (1.50 s) | **3.00 × (3.00 s)** | 2.00 × |" in text
    assert text.endswith(f"{END}\nafter\n")
    assert "old" not in text


def test_imports_are_counted_and_timed_by_package() -> None:
    told = (
        "import time: self [us] | cumulative | imported package\n"
        "import time:       500 |       1700 |   sqlalchemy.sql\n"
        "import time:      1000 |       2700 | sqlalchemy\n"
        "import time:      2500 |       2500 | msgspec\n"
        "another line\n"
    )
    found = packages(told)
    assert found == [Package("msgspec", 1, 2.5), Package("sqlalchemy", 2, 1.5)]
    assert lines(found)[-1].split() == ["4.0", "ms", "3", "modules", "all"]
    many = [Package(f"p{n}", 1, 1.0) for n in range(20)]
    assert sum(float(each.split()[0]) for each in lines(many)[:-1]) == 20.0
