"""Name actions in the history where what was changed says more than that it was.

One field is named; of several only that there were several. Nothing is read here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import Phrases, tr, trn

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from growdesk.services.values import PlantDraft

_FIELDS = Phrases(
    {
        "tag": "Tag of {plants} changed",
        "name": "Name of {plants} changed",
        "kind": "Kind of {plants} changed",
        "place_id": "Place of {plants} changed",
        "bench_id": "Bench of {plants} changed",
        "bench": "Number on the bench of {plants} changed",
        "hybrid": "Hybrid or not of {plants} changed",
        "pot_volume_l": "Pot of {plants} changed",
        "volume_l": "Water a round of {plants} changed",
        "medium": "Medium of {plants} changed",
        "mounted": "Mounted or potted of {plants} changed",
        "size": "Size of {plants} changed",
        "under_cover": "Cover over {plants} changed",
        "repotted_on": "Day of repotting of {plants} changed",
        "slow_release_until": "Slow release of {plants} changed",
        "full_strength_ppm_n": "Full strength of {plants} changed",
        "feed_ceiling_ppm_n": "Ceiling of {plants} changed",
        "feed_interval_days": "Days between feeds of {plants} changed",
        "ignores_rest": "Rest of {plants} changed",
        "overrule": "Your word on {plants} changed",
        "acquired_on": "Day of acquiring {plants} changed",
        "source": "Source of {plants} changed",
        "note": "Note on {plants} changed",
        "status": "What became of {plants} changed",
        "left_on": "Day of leaving of {plants} changed",
        "left_why": "Reason for the leaving of {plants} changed",
        "parent_id": "Parent of {plants} changed",
        "parent_how": "How {plants} came from the parent changed",
        "parentage": "Parentage of {plants} changed",
        "papers": "Papers of {plants} changed",
        "held_as": "How the plants under {plants} stand together changed",
        "how_many": "Number of plants under {plants} changed",
        "quarantine_until": "Quarantine of {plants} changed",
    }
)


def plants(tags: Sequence[str]) -> str:
    """Give one tag, or how many plants there are."""
    if len(tags) == 1:
        return tags[0]
    return trn("{count} plant", "{count} plants", len(tags)).format(count=len(tags))


def plant_changed(before: PlantDraft, after: PlantDraft) -> str:
    """Name a change of one plant by the field it touched, where it is one."""
    touched = {
        each
        for each in before.__struct_fields__
        if getattr(before, each) != getattr(after, each)
    }
    if "place_id" in touched:
        touched -= {"bench", "bench_id"}
    if "bench_id" in touched:
        touched -= {"bench"}
    return plants_changed((after.tag,), touched)


def plants_changed(tags: Sequence[str], touched: Collection[str]) -> str:
    """Name a change of plants by the field it touched, where it is one."""
    if len(touched) == 1:
        return _FIELDS[next(iter(touched))].format(plants=plants(tags))
    if len(tags) == 1:
        return tr("Plant {tag} changed").format(tag=tags[0])
    return trn("{count} plant changed", "{count} plants changed", len(tags)).format(
        count=len(tags)
    )
