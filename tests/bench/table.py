"""The table: a line for each bar and size, then the growth, for people and README."""

from __future__ import annotations

from statistics import median
from typing import TYPE_CHECKING

from tests.bench.bars import Unit

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from tests.bench.bars import Taken
    from tests.bench.judged import Growth, Said

BEGIN, END = "<!-- measured: begin -->", "<!-- measured: end -->"


def line(said: Said) -> str:
    """Give one line for the terminal."""
    taken = said.taken
    mark = "ok  " if said.holds else "OVER"
    spread = f"{_time(taken, min(taken.ours))}..{_time(taken, max(taken.ours))}"
    base = f", floor {_time(taken, median(taken.base))}" if taken.base else ""
    return (
        f"{mark} {taken.bar.key:26} {taken.plants:>6}  {value(said):>10}"
        f" of {limit(taken):>8}   ours {_time(taken, median(taken.ours))}"
        f" ({spread}){base}   load {taken.load:.1f}"
    )


def growth_line(growth: Growth) -> str:
    """Give one line of how the cost grows."""
    mark = "ok  " if growth.holds else "OVER"
    return (
        f"{mark} {growth.bar.key:26} n^{growth.exponent:.2f},"
        f" between the two largest n^{growth.last:.2f}"
    )


def value(said: Said) -> str:
    """Give the number that is held against the limit, with its unit."""
    return _with_unit(said.value, said.taken.bar.most.unit)


def limit(taken: Taken) -> str:
    """Give the limit, with its unit."""
    return _with_unit(taken.bar.most.value, taken.bar.most.unit)


def write_readme(
    readme: Path, said: Sequence[Said], grown: Iterable[Growth], head: str
) -> None:
    """Put the table between the two marks of the README."""
    powers = {growth.bar.key: growth.exponent for growth in grown}
    rows: dict[str, list[Said]] = {}
    for each in said:
        rows.setdefault(each.taken.bar.key, []).append(each)
    sizes = sorted({each.taken.plants for each in said})
    titles = " | ".join(f"{size:,}".replace(",", " ") for size in sizes)
    lines = [
        head,
        "",
        f"| what | against | {titles} | limit | grows |",
        "|---|---|" + "---:|" * (len(sizes) + 2),
    ]
    for key, group in rows.items():
        cells = {each.taken.plants: _cell(each) for each in group}
        bar = group[0].taken.bar
        power = f"n^{powers[key]:.2f}" if key in powers else ""
        lines.append(
            f"| {bar.said} | {bar.base or '–'} | "
            + " | ".join(cells.get(size, "") for size in sizes)
            + f" | {limit(group[0].taken)} | {power} |"
        )
    text = readme.read_text("utf-8")
    before, rest = text.split(BEGIN)
    after = rest.split(END)[1]
    readme.write_text(before + BEGIN + "\n" + "\n".join(lines) + "\n" + END + after)


def _cell(said: Said) -> str:
    text = value(said)
    ours = median(said.taken.ours)
    if said.taken.bar.most.is_of_both:
        text += f" ({_ms(ours)})"
    return text if said.holds else f"**{text}**"


def _time(taken: Taken, number: float) -> str:
    if taken.bar.most.is_given:
        return _with_unit(number, taken.bar.most.unit)
    return _ms(number)


def _ms(seconds: float) -> str:
    if seconds >= 1:
        return f"{seconds:.2f} s"
    return f"{seconds * 1000:.{2 if seconds < 0.01 else 0}f} ms"


def _with_unit(number: float, unit: Unit) -> str:
    if unit is Unit.SHARE:
        return f"{number * 100:.0f} %"
    if unit is Unit.TIMES:
        return f"{number:.2f} ×"
    if unit is Unit.PER_S:
        return f"{number:,.0f}/s".replace(",", " ")
    if unit is Unit.COUNT:
        return f"{number:.0f}"
    return f"{number:.{1 if number < 100 else 0}f} {unit}"
