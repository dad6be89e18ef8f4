"""What the photo services hand out: files taken in, changes, and photos by stage."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.growth_stage import Stage
    from growdesk.services.values import PhotoView
    from growdesk.store.photos import Stored


class TakenIn(Struct, frozen=True):
    """The photos that lie in the collection now, and a line for each that does not."""

    stored: tuple[Stored, ...]
    problems: tuple[str, ...]


class PhotoDraft(Struct, frozen=True):
    """What a grower says of a photo: its day, and a note."""

    taken_on: date | None
    note: str = ""


class DayProposal(Struct, frozen=True):
    """A photo whose camera wrote no day, and the day its file was written, if known."""

    photo: PhotoView
    file_name: str
    file_day: date | None


class StagedPhoto(Struct, frozen=True):
    """A photo with the stage its plant stood in; none where no look tells it."""

    photo: PhotoView
    stage: Stage | None


class StageGroup(Struct, frozen=True):
    """The photos of one stage through the years, newest first."""

    stage: Stage | None
    photos: tuple[PhotoView, ...]

    @property
    def years(self) -> tuple[int, ...]:
        """Give the years the photos are of, newest first."""
        days = [photo.shown_on for photo in self.photos]
        return tuple(sorted({day.year for day in days if day}, reverse=True))


def joined(parts: Sequence[TakenIn]) -> TakenIn:
    """Give several as one, in their order."""
    return TakenIn(
        tuple(photo for part in parts for photo in part.stored),
        tuple(line for part in parts for line in part.problems),
    )
