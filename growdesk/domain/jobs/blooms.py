"""Blooms expected by a plant's own years."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.domain.bloom_season import expected
from growdesk.domain.bloom_words import apart_words
from growdesk.domain.jobs.job import Job, Sort

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import date


def next_opening(opened: Iterable[date], on: date) -> date | None:
    """Give the day about which the plant's own years have it open next, if any."""
    found = expected(day for day in opened if day <= on)
    coming = found.coming(on) if found else None
    return None if coming is None else coming.day


def jobs(tag: str, opened: Iterable[date], on: date, until: date) -> Iterator[Job]:
    """Give the openings to be waited for; none where the plant keeps to no season."""
    found = expected(day for day in opened if day <= on)
    for season in found.seasons if found else ():
        day = season.coming(on)
        spread = timedelta(days=round(season.spread_days))
        if day - spread > until:
            continue
        apart = season.apart_days
        yield Job(
            "bloom-expected",
            Sort.BLOOM,
            day - spread,
            tag,
            until=day + spread,
            forecast=True,
            values={
                "said": "bloom-expected" if apart is None else "bloom-expected-two",
                "apart": apart_words(apart),
                "day": day,
                "spread": max(1, spread.days),
                "years": season.years,
            },
        )
