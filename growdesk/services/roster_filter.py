"""Which plants a view is about: its filters over the table of all plants."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.facts import Flowering
from growdesk.domain.holding import Status
from growdesk.services.roster_values import Only, Whose

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from datetime import date

    from growdesk.domain.facts import Verdict
    from growdesk.services.roster_values import RosterLine, ViewDraft

UNSEEN_DAYS = 21
OLD_MEDIUM_DAYS = 730
"""Two years; most growers repot within that (common practice, no source)."""
IN_FLOWER = frozenset({Flowering.OPEN, Flowering.FADING})
IN_BUD = frozenset({Flowering.BUDS})


def kept(
    lines: Iterable[RosterLine],
    view: ViewDraft,
    on: date,
    verdicts: Mapping[int, Verdict],
) -> tuple[RosterLine, ...]:
    """Give the lines that a view's filters leave; its find comes after them."""
    left = of(lines, view.whose)
    if view.place is not None:
        left = [line for line in left if line.place_id == view.place]
    if view.kind is not None:
        left = [line for line in left if line.kind_key == view.kind]
    if view.verdict is not None:
        left = [each for each in left if verdicts.get(each.plant_id) is view.verdict]
    for only in view.only:
        left = [line for line in left if _ONLY[only](line, on)]
    return tuple(left)


def of(lines: Iterable[RosterLine], whose: Whose) -> list[RosterLine]:
    """Give the plants that grow here, those that left, or both."""
    if whose is Whose.ALL:
        return list(lines)
    here = whose is Whose.GROWING
    return [line for line in lines if (line.status is Status.GROWING) is here]


def _is_flowering(line: RosterLine, _on: date) -> bool:
    return line.flowering in IN_FLOWER | IN_BUD


def _is_quarantined(line: RosterLine, on: date) -> bool:
    return line.quarantine_until is not None and line.quarantine_until >= on


def _is_unseen(line: RosterLine, on: date) -> bool:
    return line.looked_on is None or (on - line.looked_on).days >= UNSEEN_DAYS


def _has_old_medium(line: RosterLine, on: date) -> bool:
    """Tell of a plant in a pot; where no repot is on record it is asked about too."""
    if line.mounted:
        return False
    since = line.repotted_on or line.acquired_on
    return since is None or (on - since).days >= OLD_MEDIUM_DAYS


_ONLY: Mapping[Only, Callable[[RosterLine, date], bool]] = {
    Only.FLOWERING: _is_flowering,
    Only.QUARANTINE: _is_quarantined,
    Only.UNSEEN: _is_unseen,
    Only.OLD_MEDIUM: _has_old_medium,
}
