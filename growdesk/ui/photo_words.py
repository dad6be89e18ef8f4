"""Say of photos what is said of them in more than one window."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.growth_stage import Stage
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.services.photo_values import StagedPhoto
    from growdesk.services.values import PhotoView

PLACE_INSIDE = mark("Place inside; taken out on export")
UNREADABLE = mark(
    "The file of this photo cannot be read any more. Add the photo again, or bring back"
    " a backup."
)
NO_DAY = mark("No day on record")
STAGES: Mapping[Stage | None, str] = Phrases(
    {
        Stage.EMERGING: "New growth emerging",
        Stage.EXTENDING: "New growth extending",
        Stage.MATURING: "New growth maturing",
        Stage.MATURED: "Growth matured",
        Stage.IN_SPIKE: "In spike",
        Stage.IN_BUD: "In bud",
        Stage.IN_FLOWER: "In flower",
        Stage.RESTING: "Resting",
        None: "No stage on record",
    }
)


_STAGES_INSIDE: Mapping[Stage | None, str] = Phrases(
    {
        Stage.EMERGING: "new growth emerging",
        Stage.EXTENDING: "new growth extending",
        Stage.MATURING: "new growth maturing",
        Stage.MATURED: "growth matured",
        Stage.IN_SPIKE: "in spike",
        Stage.IN_BUD: "in bud",
        Stage.IN_FLOWER: "in flower",
        Stage.RESTING: "resting",
        None: "no stage on record",
    }
)


def day(photo: PhotoView) -> str:
    """Give a photo's day, or that there is none."""
    on = photo.shown_on
    return words.short_day(on) if on else tr(NO_DAY)


def caption(staged: StagedPhoto) -> str:
    """Give day and stage in one line."""
    return f"{day(staged.photo)} · {_STAGES_INSIDE[staged.stage]}"


def name(photo: PhotoView) -> str:
    """Give the words a photo is called by."""
    on = photo.shown_on
    called = (
        tr("Photo of {short_day}").format(short_day=words.short_day(on))
        if on
        else tr("Photo without a day")
    )
    return f"{called}, {photo.problem}" if photo.problem else called


def told(photo: PhotoView) -> str:
    """Give all that is said of a photo: name, note, and that a place is in it."""
    parts = [name(photo)]
    if photo.note:
        parts.append(f"“{photo.note}”")
    if photo.has_location:
        parts.append(tr(PLACE_INSIDE))
    return "; ".join(parts)
