"""Frozen values of hindsight: past days of a plant, and the marks counted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.domain.facts import CareKind, Verdict, Water
    from growdesk.domain.hindsight import Tally


class PastDay(Struct, frozen=True):
    """One past watering day of a plant, as the rules now have it, and its mark.

    ``done`` is what was really given; ``better`` what it should have been, if marked.
    """

    on: date
    verdict: Verdict
    water: Water
    rule: str
    short_reason: str
    sentence: str
    done: CareKind | None
    passed_by: bool
    better: Verdict | None
    note: str


class Rethought(Struct, frozen=True):
    """How many marks there are, and with how many the judging now agrees."""

    marks: int
    agree: int


class HindsightTable(Struct, frozen=True):
    """The marks by rule and kind; ``kind_titles`` leads a kind's key to its title."""

    rows: tuple[Tally, ...]
    kind_titles: Mapping[str, str]
    rethought: Rethought
