"""Frozen values of what to look at first: what is ranked, and what comes of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Verdict
    from growdesk.services.known import Known


class WorthLine(Struct, frozen=True):
    """A plant worth a look: how likely (0 to 1) a look turns today's verdict, and why.

    The number ranks plants on one day; it is no forecast of any one of them. ``sign``
    is the key of the sign in doubt.
    """

    plant_id: int
    tag: str
    name: str
    place: str
    likelihood: float
    why: str
    verdict_now: Verdict
    would_turn_to: Verdict
    sign: str = ""


class Bench(Struct, frozen=True):
    """All plants as judged on a day, and which of them are done already."""

    on: date
    house: House
    judged: tuple[tuple[Known, Judgement], ...]
    done: frozenset[int]
