"""One dated job: of which plant or place, when, and the values its sentence needs.

A job is found anew each time from what is on record; nothing of it is stored but that
it was done, or let go. Such a record is found by key and day, so that both must come
out the same as long as the reason for the job does.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct, field

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date


class Sort(StrEnum):
    """What a job belongs to, for filters, colours and the calendar file."""

    REST = "rest"
    REPOT = "repot"
    LOOK = "look"
    BLOOM = "bloom"
    MOVE = "move"
    WATER = "water"
    TREAT = "treat"
    NEWCOMER = "newcomer"
    STEM = "stem"
    WEATHER = "weather"


class Job(Struct, frozen=True):
    """One job. ``on`` is its first day, ``until`` the last that still fits.

    ``key`` names the rule that found it and picks its sentence; ``tag`` or ``place``
    says of what. ``settled`` jobs close by what is written elsewhere (a repot, a look)
    and cannot be ticked off by hand; ``forecast`` ones only tell what is expected.
    A ``floating`` one has no day of its own: it is of today, and found by its key.
    """

    key: str
    sort: Sort
    on: date
    tag: str = ""
    place: str = ""
    until: date | None = None
    settled: bool = False
    forecast: bool = False
    floating: bool = False
    values: Mapping[str, object] = field(default_factory=dict)
