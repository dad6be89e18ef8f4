"""Put everything on record of one plant into one line of time, newest first.

Plain values for the view: what was looked at, given, done, opened and photographed,
each on its day with one plain line.
"""

from __future__ import annotations

from collections import Counter
from datetime import date
from enum import StrEnum
from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.day_words import month_year
from growdesk.domain.facts import CareKind
from growdesk.domain.holding import Status
from growdesk.domain.speech import Phrases, tr
from growdesk.services.bloom_values import BloomView
from growdesk.services.values import CareView
from growdesk.ui import words
from growdesk.ui.bloom_texts import event_lines
from growdesk.ui.care_words import care_line

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from growdesk.services.values import LookView, PhotoView, PlantDetail

    Source = LookView | CareView | BloomView | None


class What(StrEnum):
    """What an entry tells of; the filters go by it."""

    LOOK = "looks"
    CARE = "care"
    BLOOM = "blooms"
    PHOTO = "photos"
    PLANT = "plant"


class Entry(Struct, frozen=True):
    """One entry: its day, a plain line, a note, photos, and what is changed by it.

    Without a ``source`` there is nothing to change but the plant itself.
    """

    on: date
    what: What
    line: str
    note: str = ""
    photos: tuple[PhotoView, ...] = ()
    source: Source = None

    @property
    def key(self) -> tuple[What, int, str]:
        """Give what makes it the same entry after it was changed."""
        source = self.source
        if source is None:
            return self.what, self.on.toordinal(), self.line
        if isinstance(source, BloomView):
            return self.what, source.bloom_id, self.line.partition(";")[0]
        if isinstance(source, CareView):
            return self.what, source.care_id, ""
        return self.what, source.look_id, ""

    @property
    def can_change(self) -> bool:
        """Tell whether the entry can be changed from here."""
        return self.source is not None or self.what is What.PLANT


class Heading(Struct, frozen=True):
    """A month with its year, above the entries of it."""

    title: str


_ORDER = {
    What.PLANT: 0,
    What.CARE: 1,
    What.LOOK: 2,
    What.BLOOM: 3,
    What.PHOTO: 4,
}
_LEFT = Phrases(
    {Status.GIVEN_AWAY: "Given away", Status.SOLD: "Sold", Status.LOST: "Lost"}
)


def entries(detail: PlantDetail) -> tuple[Entry, ...]:
    """Give all entries of a plant, newest first."""
    found = [
        *_looks(detail),
        *(
            Entry(care.on, What.CARE, care_line(care), care.note, source=care)
            for care in detail.care
        ),
        *_blooms(detail),
        *_photos(detail),
        *_plant(detail),
    ]
    return tuple(sorted(found, key=_newest_first))


def rows(every: Iterable[Entry], chosen: What | None) -> tuple[Entry | Heading, ...]:
    """Give the entries of a filter with a heading for each month; none takes all.

    A look with photos is among the photos too.
    """
    kept = [each for each in every if fits(each, chosen)]
    found: list[Entry | Heading] = []
    for (year, month), of_month in groupby(
        kept, key=lambda each: (each.on.year, each.on.month)
    ):
        found.append(Heading(month_year(date(year, month, 1))))
        found += of_month
    return tuple(found)


def fits(entry: Entry, chosen: What | None) -> bool:
    """Tell whether a filter takes an entry."""
    if chosen is None or entry.what is chosen:
        return True
    return chosen is What.PHOTO and bool(entry.photos)


def counted(every: Iterable[Entry]) -> Counter[What | None]:
    """Count the entries that each filter takes; none takes all."""
    counts: Counter[What | None] = Counter()
    for each in every:
        counts[each.what] += 1
        if each.photos and each.what is not What.PHOTO:
            counts[What.PHOTO] += 1
        counts[None] += 1
    return counts


def _newest_first(entry: Entry) -> tuple[int, int]:
    return -entry.on.toordinal(), -_ORDER[entry.what]


def _looks(detail: PlantDetail) -> Iterator[Entry]:
    for view in detail.looks:
        line = tr("Look: {signs}").format(signs=view.signs)
        yield Entry(view.look.on, What.LOOK, line, view.note, view.photos, view)


def _blooms(detail: PlantDetail) -> Iterator[Entry]:
    for view in detail.blooms.blooms:
        told = event_lines(view.draft)
        for number, (on, line) in enumerate(told):
            is_last = number == len(told) - 1
            note = view.draft.note if is_last else ""
            yield Entry(on, What.BLOOM, line, note, source=view)


def _photos(detail: PlantDetail) -> Iterator[Entry]:
    """Give the photos that no look has, those of a day together."""
    looked = {photo.photo_id for view in detail.looks for photo in view.photos}
    dated: dict[date, list[PhotoView]] = {}
    for photo in detail.photos:
        if photo.photo_id not in looked and photo.taken_on is not None:
            dated.setdefault(photo.taken_on, []).append(photo)
    for on, photos in dated.items():
        line = words.counted(len(photos), "photo", "photos")
        note = " · ".join(photo.note for photo in photos if photo.note)
        yield Entry(on, What.PHOTO, line, note, tuple(photos))


def _plant(detail: PlantDetail) -> Iterator[Entry]:
    draft = detail.draft
    if draft.acquired_on is not None:
        said = (
            tr("Came into the collection, from {source}")
            if draft.source
            else tr("Came into the collection")
        )
        line = said.format(source=draft.source)
        yield Entry(draft.acquired_on, What.PLANT, line)
    repots = {c.on for c in detail.care if c.what in {CareKind.REPOT, CareKind.DIVIDE}}
    if draft.repotted_on is not None and draft.repotted_on not in repots:
        yield Entry(draft.repotted_on, What.PLANT, tr("Repotted"))
    left = _LEFT.get(draft.status)
    if left is not None and draft.left_on is not None:
        yield Entry(draft.left_on, What.PLANT, left, draft.left_why)
