"""The strengths of a place's year, for the kinds that stand there.

Where no plant stands, three classes of light stand in: each is the careful general kind
with the middle light of all kinds of its class, and goes by light alone, since what
warmth leaves is the kind's.
"""

from __future__ import annotations

from collections import Counter
from statistics import median
from typing import TYPE_CHECKING, NamedTuple

from msgspec.structs import replace

from growdesk.domain.facts import Plant
from growdesk.domain.kinds import Feeder
from growdesk.domain.season_factor import light_class
from growdesk.domain.speech import tr
from growdesk.services.chart_values import Strengths
from growdesk.services.season_course import season_days

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from growdesk.domain.facts import House, Place
    from growdesk.domain.kinds import Kind, KindTable

MOST_KINDS = 4
CLASSES = ("bright", "medium", "low")


class Standing(NamedTuple):
    """A kind at a place, with the number of its plants there."""

    kind: Kind
    plants: int


def commonest(kinds: Iterable[Kind]) -> tuple[Standing, ...]:
    """Give kinds with their plants counted, the commonest first."""
    listed = list(kinds)
    by_key = {kind.key: kind for kind in listed}
    counts = Counter(kind.key for kind in listed)
    standing = [Standing(by_key[key], plants) for key, plants in counts.items()]
    return tuple(sorted(standing, key=lambda each: (-each.plants, tr(each.kind.title))))


def strengths(
    standing: Sequence[Standing], place: Place, house: House, on: date
) -> tuple[Strengths, ...]:
    """Give the year of each kind; kinds with the very same year are one."""
    found: dict[object, Strengths] = {}
    for kind, plants in standing:
        days = season_days(Plant(kind.title, place=place), kind, house, on)
        by_light = tuple(day.strength_ppm_n for day in days)
        read = tuple(day.strength_read_ppm_n for day in days)
        same = found.get((by_light, read))
        titles = (*(() if same is None else same.titles), tr(kind.title))
        count = plants if same is None else same.plants + plants
        found[by_light, read] = Strengths(titles, count, by_light, read)
    return tuple(found.values())


def by_class(
    table: KindTable, place: Place, house: House, on: date
) -> tuple[Strengths, ...]:
    """Give the year for plants that want bright, medium and low light."""
    unwarmed = tuple(
        replace(each, mean_c=None, low_c=None, high_c=None) for each in place.readings
    )
    standing = [
        Standing(_middle(table, wanted, house), 0)
        for wanted in CLASSES
        if any(light_class(kind, house) == wanted for kind in table.kinds.values())
    ]
    return strengths(standing, replace(place, readings=unwarmed), house, on)


def _middle(table: KindTable, wanted: str, house: House) -> Kind:
    """Give a kind in the middle of a class of light."""
    middle = median(
        kind.light_mid_fc
        for kind in table.kinds.values()
        if light_class(kind, house) == wanted
    )
    return replace(
        table.general,
        title=f"{wanted} light",
        feeder=Feeder.MEDIUM,
        ceiling_ppm_n=None,
        light_low_fc=middle,
        light_high_fc=middle,
    )
