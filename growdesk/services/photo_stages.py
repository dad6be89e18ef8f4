"""Put a plant's photos in the order of its stages, each of all years together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.growth_stage import Stage, stage_of, stage_on
from growdesk.services.photo_values import StagedPhoto, StageGroup

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.values import LookView, PhotoView

_ORDER = (*Stage, None)


def staged(
    photos: Sequence[PhotoView], looks: Sequence[LookView]
) -> tuple[StagedPhoto, ...]:
    """Give each photo with its stage: that of its own look, else by its day."""
    return tuple(StagedPhoto(photo, _stage(photo, looks)) for photo in photos)


def by_stage(
    photos: Sequence[PhotoView], looks: Sequence[LookView]
) -> tuple[StageGroup, ...]:
    """Give the photos grouped by stage; those without one come last."""
    found = staged(photos, looks)
    groups = (
        StageGroup(stage, tuple(each.photo for each in found if each.stage is stage))
        for stage in _ORDER
    )
    return tuple(group for group in groups if group.photos)


def _stage(photo: PhotoView, looks: Sequence[LookView]) -> Stage | None:
    own = next((each for each in looks if each.look_id == photo.look_id), None)
    if own is not None and photo.look_id is not None:
        told = stage_of(own.look)
        if told is not None:
            return told
    if photo.shown_on is None:
        return None
    return stage_on([each.look for each in looks], photo.shown_on)
