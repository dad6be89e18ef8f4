"""Put a plant's photos in the order of its stages, each of all years together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.growth_stage import Stage, stage_of, stages
from growdesk.services.photo_values import StagedPhoto, StageGroup

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from datetime import date

    from growdesk.domain.facts import Look
    from growdesk.services.values import LookView, PhotoView

_ORDER = (*Stage, None)


def staged(
    photos: Sequence[PhotoView], looks: Sequence[LookView]
) -> tuple[StagedPhoto, ...]:
    """Give each photo with its stage: that of its own look, else by its day."""
    own = {each.look_id: each.look for each in looks}
    on_day = stages([each.look for each in looks])
    return tuple(StagedPhoto(photo, _stage(photo, own, on_day)) for photo in photos)


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


def _stage(
    photo: PhotoView,
    own: Mapping[int, Look],
    on_day: Callable[[date], Stage | None],
) -> Stage | None:
    look = None if photo.look_id is None else own.get(photo.look_id)
    told = None if look is None else stage_of(look)
    if told is not None or photo.shown_on is None:
        return told
    return on_day(photo.shown_on)
