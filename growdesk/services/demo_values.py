"""What the demo is made of once its days are real: plants, places, looks, care.

Plain values between the demo's file and the store; nothing is computed here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import Care, House, Look, Reading
    from growdesk.services.demo_course import Data
    from growdesk.services.values import PlaceDraft, PlantDraft


class DemoLook(Struct, frozen=True):
    """A look with its note and the names of the pictures taken at it."""

    look: Look
    note: str
    pictures: tuple[str, ...] = ()


class DemoCare(Struct, frozen=True):
    """A piece of care with the litres given and a note."""

    care: Care
    volume_l: float | None
    note: str = ""
    product: str = ""
    repeat_on: date | None = None
    from_place: str | None = None
    to_place: str | None = None


class DemoBloom(Struct, frozen=True):
    """One flowering as the looks show it, or as an older notebook has it."""

    spike_seen_on: date | None
    first_open_on: date | None
    last_faded_on: date | None
    flowers: int | None = None
    spikes: int | None = None
    size_mm: float | None = None
    note: str = ""
    award: str = ""


class DemoPlant(Struct, frozen=True):
    """A plant of the demo with all that hangs on it, looks and care oldest first.

    ``parent`` is the tag of the plant it was taken from, ``bench`` the bench it is on.
    """

    draft: PlantDraft
    place: str
    looks: tuple[DemoLook, ...]
    care: tuple[DemoCare, ...]
    blooms: tuple[DemoBloom, ...]
    parent: str | None = None
    bench: str | None = None


class DemoPlace(Struct, frozen=True):
    """A place of the demo with its readings, oldest first."""

    draft: PlaceDraft
    readings: tuple[Reading, ...]


class DemoBench(Struct, frozen=True):
    """A bench of a place of the demo, in its turn."""

    place: str
    name: str
    position: int
    at_glass: bool
    note: str


class Demo(Struct, frozen=True):
    """The whole demo for one day.

    ``given`` are the house rules the grower set, ``shelf`` what stands there as the
    file has it; all pictures have one size in pixels. ``left`` are plants that are not
    there any more; ``views`` and ``tonight`` are as the file has them.
    """

    name: str
    given: dict[str, object]
    house: House
    places: tuple[DemoPlace, ...]
    plants: tuple[DemoPlant, ...]
    shelf: Data
    picture_px: tuple[int, int]
    benches: tuple[DemoBench, ...] = ()
    left: tuple[DemoPlant, ...] = ()
    views: tuple[Data, ...] = ()
    tonight: tuple[Data, ...] = ()
