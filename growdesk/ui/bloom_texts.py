"""Say a bloom in words: its days, its measures, its award; and give the award codes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.phrases import listed
from growdesk.ui import words

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.bloom_values import BloomDraft

AWARDS: tuple[tuple[str, str], ...] = (
    ("HCC", "Highly Commended Certificate"),
    ("AM", "Award of Merit"),
    ("FCC", "First Class Certificate"),
    ("JC", "Judges' Commendation"),
    ("AD", "Award of Distinction"),
    ("AQ", "Award of Quality"),
    ("CCM", "Certificate of Cultural Merit"),
    ("CCE", "Certificate of Cultural Excellence"),
    ("CBR", "Certificate of Botanical Recognition"),
    ("CHM", "Certificate of Horticultural Merit"),
)
"""Codes of awards as they stand behind a name (American Orchid Society, Handbook on
Judging and Exhibition, chapter 6)."""

SOCIETIES: tuple[tuple[str, str], ...] = (
    ("AOS", "American Orchid Society"),
    ("RHS", "Royal Horticultural Society"),
    ("DOG", "Deutsche Orchideen-Gesellschaft"),
    ("AOC", "Australian Orchid Council"),
    ("OCNZ", "Orchid Council of New Zealand"),
    ("SAOC", "South African Orchid Council"),
    ("CSA", "Cymbidium Society of America"),
)
"""Societies as they are written after the code; others are typed."""


def span_words(draft: BloomDraft) -> str:
    """Give the days of a bloom in a line."""
    opened, faded = draft.first_open_on, draft.last_faded_on
    if opened is not None and faded is not None:
        days = words.counted((faded - opened).days + 1, "day", "days")
        return f"{words.short_day(opened)} to {words.short_day(faded)}, {days}"
    if opened is not None:
        return f"open since {words.short_day(opened)}"
    if faded is not None:
        return f"last faded {words.short_day(faded)}"
    return f"spike since {words.short_day(draft.spike_seen_on)}"


def measures(draft: BloomDraft) -> str:
    """Give counts, size and award in a line; nothing where none is recorded."""
    parts = []
    if draft.flowers is not None:
        parts.append(words.counted(draft.flowers, "flower", "flowers"))
    if draft.spikes is not None:
        on = words.counted(draft.spikes, "spike", "spikes")
        parts = [f"{parts[0]} on {on}"] if parts else [on]
    if draft.size_mm is not None:
        parts.append(f"{words.number(draft.size_mm / 10, 1)} cm across")
    if draft.award:
        parts.append(draft.award)
    return ", ".join(parts)


def event_lines(draft: BloomDraft) -> tuple[tuple[date, str], ...]:
    """Give each day of a bloom with its line, oldest first."""
    told = []
    if draft.spike_seen_on is not None:
        told.append((draft.spike_seen_on, "Spike seen"))
    if draft.first_open_on is not None:
        told.append((draft.first_open_on, "First flower open"))
    if draft.last_faded_on is not None:
        told.append((draft.last_faded_on, "Last flower faded"))
    more = measures(draft)
    if told and more:
        on, line = told[-1]
        told[-1] = (on, f"{line}; {more}")
    return tuple(told)


def award_list() -> str:
    """Give the codes in a line, for a hint."""
    return listed([code for code, _named in AWARDS])
