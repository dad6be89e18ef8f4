"""Say a bloom in words: its days, its measures, its award; and give the award codes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.phrases import listed
from growdesk.domain.speech import mark, tr
from growdesk.ui import words

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.bloom_values import BloomDraft

AWARDS: tuple[tuple[str, str], ...] = (
    ("HCC", mark("Highly Commended Certificate")),
    ("AM", mark("Award of Merit")),
    ("FCC", mark("First Class Certificate")),
    ("JC", mark("Judges' Commendation")),
    ("AD", mark("Award of Distinction")),
    ("AQ", mark("Award of Quality")),
    ("CCM", mark("Certificate of Cultural Merit")),
    ("CCE", mark("Certificate of Cultural Excellence")),
    ("CBR", mark("Certificate of Botanical Recognition")),
    ("CHM", mark("Certificate of Horticultural Merit")),
)
"""Codes of awards as they stand behind a name (American Orchid Society, Handbook on
Judging and Exhibition, chapter 6)."""

SOCIETIES: tuple[tuple[str, str], ...] = (
    ("AOS", mark("American Orchid Society")),
    ("RHS", mark("Royal Horticultural Society")),
    ("DOG", mark("Deutsche Orchideen-Gesellschaft")),
    ("AOC", mark("Australian Orchid Council")),
    ("OCNZ", mark("Orchid Council of New Zealand")),
    ("SAOC", mark("South African Orchid Council")),
    ("CSA", mark("Cymbidium Society of America")),
)
"""Societies as they are written after the code; others are typed."""


def span_words(draft: BloomDraft) -> str:
    """Give the days of a bloom in a line."""
    opened, faded = draft.first_open_on, draft.last_faded_on
    if opened is not None and faded is not None:
        days = words.counted((faded - opened).days + 1, "day", "days")
        return tr("{opened} to {faded}, {days}").format(
            opened=words.short_day(opened),
            faded=words.short_day(faded),
            days=days,
        )
    if opened is not None:
        return tr("open since {short_day}").format(short_day=words.short_day(opened))
    if faded is not None:
        return tr("last faded {short_day}").format(short_day=words.short_day(faded))
    return tr("spike since {short_day}").format(
        short_day=words.short_day(draft.spike_seen_on)
    )


def measures(draft: BloomDraft) -> str:
    """Give counts, size and award in a line; nothing where none is recorded."""
    parts = []
    if draft.flowers is not None:
        parts.append(words.counted(draft.flowers, "flower", "flowers"))
    if draft.spikes is not None:
        on = words.counted(draft.spikes, "spike", "spikes")
        parts = [tr("{parts} on {on}").format(parts=parts[0], on=on)] if parts else [on]
    if draft.size_mm is not None:
        parts.append(
            tr("{size_mm} cm across").format(
                size_mm=words.number(draft.size_mm / 10, 1)
            )
        )
    if draft.award:
        parts.append(draft.award)
    return ", ".join(parts)


def event_lines(draft: BloomDraft) -> tuple[tuple[date, str], ...]:
    """Give each day of a bloom with its line, oldest first."""
    told = []
    if draft.spike_seen_on is not None:
        told.append((draft.spike_seen_on, tr("Spike seen")))
    if draft.first_open_on is not None:
        told.append((draft.first_open_on, tr("First flower open")))
    if draft.last_faded_on is not None:
        told.append((draft.last_faded_on, tr("Last flower faded")))
    more = measures(draft)
    if told and more:
        on, line = told[-1]
        told[-1] = (on, f"{line}; {more}")
    return tuple(told)


def award_list() -> str:
    """Give the codes in a line, for a hint."""
    return listed([code for code, _named in AWARDS])
