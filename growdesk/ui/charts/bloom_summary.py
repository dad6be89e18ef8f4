"""Say who blooms when in words, as the chart shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.bloom_words import expected_words
from growdesk.domain.day_words import MONTHS
from growdesk.domain.phrases import listed
from growdesk.domain.speech import mark, tr, trn
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.services.bloom_values import BloomLine, WhoBlooms


def bloom_title(chart: WhoBlooms) -> str:
    """Give the name of the chart."""
    return tr("Who blooms when, to {short_day}").format(
        short_day=words.short_day(chart.on)
    )


def bloom_lines(chart: WhoBlooms) -> Iterator[str]:
    """Give the whole chart in sentences, a line each."""
    if not chart.lines:
        yield tr(NOTHING)
        return
    yield tr(LEGEND).format(day=words.short_day(chart.on))
    if chart.now:
        yield tr("In flower now: {list}.").format(list=listed(chart.now))
    yield _this_month(chart)
    yield from (_line(line) for line in chart.lines)
    if chart.without:
        yield trn(
            "{count} plant has no bloom on record.",
            "{count} plants have no bloom on record.",
            chart.without,
        ).format(count=chart.without)


LEGEND = mark(
    "Bars are past years over one another, a framed one is open now; a diamond with "
    "its line is when the next is expected. Dotted: {day}."
)
NOTHING = mark(
    "No bloom is on record yet. Write one down in the tab Blooms of a plant: the day "
    "its first flower opened is enough."
)


def _this_month(chart: WhoBlooms) -> str:
    month = MONTHS[chart.on.month - 1]
    if not chart.this_month:
        return tr("In flower in {month} in past years: none on record.").format(
            month=month
        )
    told = [f"{name} ({_years(years)})" for name, years in chart.this_month]
    return tr("In flower in {month} in past years: {list}.").format(
        month=month, list=listed(told)
    )


def _years(years: Sequence[int]) -> str:
    """Say years in their order; three or more without a gap as a span."""
    if len(years) > 2 and years[-1] - years[0] == len(years) - 1:
        return tr("{first} to {last}").format(first=years[0], last=years[-1])
    return listed([str(year) for year in years])


def _line(line: BloomLine) -> str:
    last = line.spans[-1]
    count = words.counted(len(line.spans), "bloom", "blooms")
    plants = (
        tr(" of {plants}").format(plants=words.plants(line.plants))
        if line.plants > 1
        else ""
    )
    if last.is_on:
        when = tr("open since {short_day}").format(
            short_day=words.short_day(last.begins)
        )
    elif last.begins == last.ends:
        when = tr("last on {short_day}").format(short_day=words.short_day(last.begins))
    else:
        begins, ends = words.short_day(last.begins), words.short_day(last.ends)
        when = tr("last from {begins} to {ends}").format(begins=begins, ends=ends)
    told = expected_words(line.expected)
    return f"{line.title}: {count}{plants}, {when}. {told}".rstrip()
