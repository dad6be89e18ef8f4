"""Frozen values of what is done to plants as a collection: divided, moved, changed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct, field

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.domain.facts import Medium
    from growdesk.domain.holding import Descent, Status


class Kin(Struct, frozen=True):
    """A plant that another one comes from, or that came of it, ``steps`` away.

    ``how`` is how the younger of two neighbours came of the older; ``left`` says in
    words that it is not here any more, or is empty.
    """

    plant_id: int
    tag: str
    name: str
    how: Descent | None = None
    left: str = ""
    steps: int = 1


class Leaving(Struct, frozen=True):
    """What became of plants, on which day, and why in the grower's words."""

    status: Status
    on: date
    why: str = ""


class Dividing(Struct, frozen=True):
    """New plants taken from one: ``tags`` name them, one each.

    ``medium`` and ``pot_volume_l`` (litres) are of the new plants, ``None`` as the
    parent has it and not recorded. ``parent_repotted`` tells that the parent came out
    of its pot and was potted anew as well.
    """

    on: date
    how: Descent
    tags: tuple[str, ...]
    name: str
    place_id: int | None
    bench_id: int | None = None
    medium: Medium | None = None
    pot_volume_l: float | None = None
    parent_repotted: bool = False
    note: str = ""


class ManyChanges(Struct, frozen=True):
    """What is altered of many plants: values by the field of ``PlantDraft``.

    Only ``CHANGEABLE`` fields may be among them. ``note`` is added to each plant's own.
    """

    values: Mapping[str, object] = field(default_factory=dict)
    note: str = ""


CHANGEABLE = (
    "name",
    "kind",
    "hybrid",
    "medium",
    "pot_volume_l",
    "volume_l",
    "mounted",
    "size",
    "under_cover",
    "slow_release_until",
    "full_strength_ppm_n",
    "feed_ceiling_ppm_n",
    "feed_interval_days",
    "ignores_rest",
    "acquired_on",
    "source",
    "parentage",
    "papers",
    "quarantine_until",
)
"""The fields that many plants can be given at once. Tags are of one plant; places are
changed by a move, repots by a repot, and what became of plants by their leaving."""
