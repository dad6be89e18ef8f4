"""What a grower says afterwards that decisions should have been, counted.

A mark is one decision and what would have been better; the same verdict again says
that it was right. Nothing is learnt behind the grower's back: the counts are shown,
and the house rules are changed by hand.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts import Verdict

if TYPE_CHECKING:
    from collections.abc import Iterable


class Mark(Struct, frozen=True):
    """One decision: its rule, the kind it was made for, its verdict, a better one."""

    rule: str
    kind: str
    verdict: Verdict
    better: Verdict

    @property
    def right(self) -> bool:
        """Tell whether the decision was the better one already."""
        return self.verdict is self.better


class Tally(Struct, frozen=True):
    """The marks on one rule and kind; ``better`` counts the verdicts wanted instead."""

    rule: str
    kind: str
    marked: int
    right: int
    better: tuple[tuple[Verdict, int], ...]

    @property
    def wrong(self) -> int:
        """Give how many decisions should have been others."""
        return self.marked - self.right


def tally(marks: Iterable[Mark]) -> tuple[Tally, ...]:
    """Count marks by rule and kind, the most often wrong first, then by name."""
    grouped: dict[tuple[str, str], list[Mark]] = defaultdict(list)
    for mark in marks:
        grouped[mark.rule, mark.kind].append(mark)
    rows = [_tally(rule, kind, found) for (rule, kind), found in grouped.items()]
    return tuple(sorted(rows, key=lambda row: (-row.wrong, row.rule, row.kind)))


def _tally(rule: str, kind: str, marks: list[Mark]) -> Tally:
    wanted = Counter(mark.better for mark in marks if not mark.right)
    order = list(Verdict)
    better = sorted(wanted.items(), key=lambda each: (-each[1], order.index(each[0])))
    right = sum(mark.right for mark in marks)
    return Tally(rule, kind, len(marks), right, tuple(better))
