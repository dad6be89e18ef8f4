"""A cold night or a hot day to come: which plants to take from the glass, or inside.

Goes by what is expected of a plant's own place and by the least night and the most day
of its kind. A bench at the glass is taken to be so much colder at night, and hotter at
noon, than its room: house rules, ours, common practice without a source. It judges no
feed and stores nothing.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from growdesk.domain.facts import House
    from growdesk.domain.kinds import Kind


class Threat(StrEnum):
    """What is coming."""

    COLD = "cold"
    HEAT = "heat"


class Shelter(StrEnum):
    """What helps: off the glass into the room, or away from the place."""

    FROM_GLASS = "from-glass"
    ELSEWHERE = "elsewhere"


class Expected(Struct, frozen=True):
    """What a day of a place is expected to have, in °C; the cold is of its night."""

    low_c: float | None
    high_c: float | None


class Standing(Struct, frozen=True):
    """A plant where it stands: its kind, and whether at the glass of its place."""

    tag: str
    kind: Kind
    at_glass: bool
    outdoors: bool


class Warned(Struct, frozen=True):
    """One plant in danger: what it will have and what its kind stands, in °C."""

    tag: str
    threat: Threat
    shelter: Shelter
    expected_c: float
    limit_c: float

    @property
    def by_c(self) -> float:
        """Give by how many degrees it is past what its kind stands."""
        return abs(self.expected_c - self.limit_c)


def at_plant(expected: Expected, standing: Standing, house: House) -> Expected:
    """Give what the plant itself will have; outdoors no pane makes a difference."""
    if not standing.at_glass or standing.outdoors:
        return expected
    low_c, high_c = expected.low_c, expected.high_c
    return Expected(
        None if low_c is None else low_c - house.glass_colder_c,
        None if high_c is None else high_c + house.glass_hotter_c,
    )


def warnings(
    expected: Expected, standing: Iterable[Standing], house: House
) -> Iterator[Warned]:
    """Give each plant that its kind would not leave standing, in the order given."""
    for each in standing:
        here = at_plant(expected, each, house)
        low_c, high_c = here.low_c, here.high_c
        if low_c is not None and low_c < each.kind.least_night_c:
            yield _warned(each, Threat.COLD, (expected.low_c, low_c))
        if high_c is not None and high_c > each.kind.most_day_c:
            yield _warned(each, Threat.HEAT, (expected.high_c, high_c))


def _warned(
    standing: Standing, threat: Threat, room_and_here_c: tuple[float | None, float]
) -> Warned:
    """Say where it is safe: in the room behind the pane, or only elsewhere."""
    room_c, here_c = room_and_here_c
    kind = standing.kind
    is_cold = threat is Threat.COLD
    limit_c = kind.least_night_c if is_cold else kind.most_day_c
    room_is_safe = room_c is not None and (
        room_c >= limit_c if is_cold else room_c <= limit_c
    )
    shelter = Shelter.FROM_GLASS if room_is_safe else Shelter.ELSEWHERE
    return Warned(standing.tag, threat, shelter, here_c, limit_c)
