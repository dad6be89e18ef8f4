"""Frozen values of the table of all plants, and of the views that are kept of it."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Flowering, Medium, Size, Verdict
    from growdesk.domain.holding import Descent, HeldAs, Status
    from growdesk.domain.name_sort import SortKey
    from growdesk.services.walking import Walk


class RosterLine(Struct, frozen=True):
    """A plant on record as the table of all plants has it on a day.

    ``signs`` is its last look in a line; ``flowering`` what stands of that look, or of
    a bloom on record, on the day. ``watered_on`` is the last day it got any water, feed
    included. ``last_bloom`` is the day its newest bloom opened, else showed a spike.
    ``found_by`` is all that a find goes through but the notes of looks, folded by
    ``finding.folded``; ``name_order`` is what growers sort names by, none where there
    is no name.
    """

    plant_id: int
    tag: str
    name: str
    kind_key: str
    kind_title: str
    place_id: int | None
    place: str
    bench_name: str
    bench: int | None
    walk: Walk
    status: Status
    left_on: date | None = None
    left_why: str = ""
    looked_on: date | None = None
    signs: str = ""
    flowering: Flowering | None = None
    fed_on: date | None = None
    watered_on: date | None = None
    treated_on: date | None = None
    repotted_on: date | None = None
    last_bloom: date | None = None
    medium: Medium | None = None
    mounted: bool = False
    pot_volume_l: float | None = None
    size: Size | None = None
    acquired_on: date | None = None
    source: str = ""
    parentage: str = ""
    parent_tag: str = ""
    parent_how: Descent | None = None
    papers: str = ""
    held_as: HeldAs | None = None
    how_many: int | None = None
    quarantine_until: date | None = None
    photos: int = 0
    note: str = ""
    found_by: str = ""
    name_order: SortKey | None = None


class Whose(StrEnum):
    """Which plants on record a view is about."""

    GROWING = "growing"
    LEFT = "left"
    ALL = "all"


class Only(StrEnum):
    """What a plant must be for a view; several of them hold together."""

    FLOWERING = "flowering"
    QUARANTINE = "quarantine"
    UNSEEN = "unseen"
    OLD_MEDIUM = "old-medium"


class ViewDraft(Struct, frozen=True):
    """What a view of the collection shows; without columns or order the usual ones.

    ``columns`` and ``order`` are keys of columns; ``place`` is the number of a place,
    ``kind`` the key of a kind.
    """

    name: str
    find: str = ""
    columns: tuple[str, ...] = ()
    order: str = ""
    downwards: bool = False
    whose: Whose = Whose.GROWING
    place: int | None = None
    kind: str | None = None
    verdict: Verdict | None = None
    only: frozenset[Only] = frozenset()


class SavedView(Struct, frozen=True):
    """A view by its number; those that growdesk brings along have none.

    ``problem`` says what is wrong with one that cannot be read any more.
    """

    view_id: int | None
    draft: ViewDraft
    problem: str = ""

    @property
    def title(self) -> str:
        """Give the name as it is shown: growdesk's own in the language spoken."""
        return tr(self.draft.name) if self.view_id is None else self.draft.name
