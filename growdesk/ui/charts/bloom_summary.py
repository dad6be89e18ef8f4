"""Say who blooms when in words, as the chart shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.bloom_words import expected_words
from growdesk.domain.day_words import MONTHS
from growdesk.domain.phrases import listed
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.services.bloom_values import BloomLine, WhoBlooms


def bloom_title(chart: WhoBlooms) -> str:
    """Give the name of the chart."""
    return f"Who blooms when, to {words.short_day(chart.on)}"


def bloom_lines(chart: WhoBlooms) -> Iterator[str]:
    """Give the whole chart in sentences, a line each."""
    if not chart.lines:
        yield NOTHING
        return
    yield LEGEND.format(words.short_day(chart.on))
    if chart.now:
        yield f"In flower now: {listed(chart.now)}."
    yield _this_month(chart)
    yield from (_line(line) for line in chart.lines)
    if chart.without:
        have = "has" if chart.without == 1 else "have"
        yield f"{words.plants(chart.without)} {have} no bloom on record."


LEGEND = (
    "Bars are past years over one another, a framed one is open now; a diamond with "
    "its line is when the next is expected. Dotted: {}."
)
NOTHING = (
    "No bloom is on record yet. Write one down in the tab Blooms of a plant: the day "
    "its first flower opened is enough."
)


def _this_month(chart: WhoBlooms) -> str:
    month = MONTHS[chart.on.month - 1]
    if not chart.this_month:
        return f"In flower in {month} in past years: none on record."
    told = [f"{name} ({_years(years)})" for name, years in chart.this_month]
    return f"In flower in {month} in past years: {listed(told)}."


def _years(years: Sequence[int]) -> str:
    """Say years in their order; three or more without a gap as a span."""
    if len(years) > 2 and years[-1] - years[0] == len(years) - 1:
        return f"{years[0]} to {years[-1]}"
    return listed([str(year) for year in years])


def _line(line: BloomLine) -> str:
    last = line.spans[-1]
    count = words.counted(len(line.spans), "bloom", "blooms")
    plants = f" of {words.plants(line.plants)}" if line.plants > 1 else ""
    if last.is_on:
        when = f"open since {words.short_day(last.begins)}"
    elif last.begins == last.ends:
        when = f"last on {words.short_day(last.begins)}"
    else:
        begins, ends = words.short_day(last.begins), words.short_day(last.ends)
        when = f"last from {begins} to {ends}"
    told = expected_words(line.expected)
    return f"{line.title}: {count}{plants}, {when}. {told}".rstrip()
