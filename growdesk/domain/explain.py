"""Judgements as data: rules that held or lost, what they went by, and no words yet.

A rule looks at a ``Case`` and gives a ``Finding`` or nothing. The order of the rules
(in ``growdesk.domain.judging``) is the precedence, written once. The words are made
in ``growdesk.domain.wording``.

They are made from their parts up and never changed, so that none leads back to itself,
and the cycle collector need not go through the thousands of a round (``gc=False``).
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.domain.facts import Verdict, Water


class Role(StrEnum):
    """What part a reason plays."""

    DECIDES = "decides"
    SUPPORTS = "supports"
    NOT_A_REASON = "not-a-reason"
    UNKNOWN = "unknown"


class Reason(Struct, frozen=True, gc=False):
    """One reason: the rule it comes from, its part, a sentence key and its values."""

    rule: str
    role: Role
    key: str
    values: Mapping[str, object]


class Finding(Struct, frozen=True, gc=False):
    """What a rule that holds decides: verdict, water, and the reason for it.

    ``factor`` scales the strength where the verdict is feed. ``more`` are further
    reasons that belong to the finding (something to look at, something unknown).
    """

    rule: str
    verdict: Verdict
    water: Water
    reason: Reason
    more: tuple[Reason, ...] = ()
    factor: float = 1.0


class Step(Struct, frozen=True, gc=False):
    """One step of the strength chain: what it is, its factor, the strength after it.

    ``strength_ppm_n`` is in mg of nitrogen per litre.
    """

    key: str
    factor: float | None
    strength_ppm_n: float
    values: Mapping[str, object]


class Strength(Struct, frozen=True, gc=False):
    """The finished strength in mg N per litre, its ceiling, and every step."""

    ppm_n: float
    ceiling_ppm_n: float
    steps: tuple[Step, ...]


class Judgement(Struct, frozen=True, gc=False):
    """The verdict on one plant on one day, with everything that led to it.

    ``flush_l`` is what its salts ask of a flush, in litres, where that can be told.
    """

    tag: str
    name: str
    on: date
    verdict: Verdict
    water: Water
    rule: str
    strength: Strength | None
    volume_l: float | None
    reasons: tuple[Reason, ...]
    flush_l: float | None = None

    @property
    def strength_ppm_n(self) -> float | None:
        """Give the strength to feed at, or nothing where the plant is not fed."""
        return None if self.strength is None else self.strength.ppm_n


class ToldLine(Struct, frozen=True):
    """One idea of a reason in words; ``is_open`` says that it was not recorded."""

    text: str
    is_open: bool = False


class Told(Struct, frozen=True):
    """A reason in words, for people: rule, role and one or more plain sentences.

    ``lines`` say it an idea a line, without the verdict that the sentence opens with.
    """

    rule: str
    role: Role
    sentence: str
    lines: tuple[ToldLine, ...] = ()
