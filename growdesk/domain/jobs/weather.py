"""What weather asks for: plants to shelter for a night or day, and to cover for a rest.

What is expected of a place was typed by the grower. Rain is kept from a plant by the
same rests that the judging keeps water from.
"""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from growdesk.domain import night
from growdesk.domain.facts import Water
from growdesk.domain.jobs import rests
from growdesk.domain.jobs.job import Job, Sort
from growdesk.domain.rules import unfed_rest

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import date

    from growdesk.domain.case import Case
    from growdesk.domain.facts import House
    from growdesk.domain.night import Expected, Standing, Warned

LITTLE_WATER = frozenset(
    {
        "rest-unfed",
        "rest-no-nitrogen",
        "rest-bare",
        "rest-bare-measured",
        "rest-waking",
        "rest-going-down",
        "rest-still-green",
    }
)
"""The rests through which a plant has little water or none."""


def cover(case: Case, until: date) -> Iterator[Job]:
    """Give when a plant in the open is to stand under cover for its rests."""
    place = case.plant.place
    if not place.outdoors or case.plant.under_cover:
        return
    for rest in rests.jobs(case, until):
        if rest.key in LITTLE_WATER and (rest.on > case.on or _sparing(case)):
            values = {"first": rest.on, "place": place.name}
            yield Job(
                "under-cover",
                Sort.WEATHER,
                rest.on,
                case.plant.tag,
                settled=True,
                values=values,
            )


def harmed_by_rain(case: Case) -> bool:
    """Tell whether a plant stands in the open though it is to have little water."""
    return any(job.on <= case.on for job in cover(case, case.on))


def shelter(
    place: str, day: date, expected: Expected, of: tuple[Iterable[Standing], House]
) -> Iterator[Job]:
    """Give what is to be done at a place for a night or day that was typed."""
    standing, house = of
    warned = sorted(night.warnings(expected, standing, house), key=_what)
    for (threat, where), group in groupby(warned, key=_what):
        cold = threat is night.Threat.COLD
        values = {
            "place": place,
            "expected_c": expected.low_c if cold else expected.high_c,
            "tags": tuple(each.tag for each in group),
        }
        key = f"{threat.value}-{where.value}"
        yield Job(key, Sort.WEATHER, day, place=place, until=day, values=values)


def _what(warned: Warned) -> tuple[night.Threat, night.Shelter]:
    return warned.threat, warned.shelter


def _sparing(case: Case) -> bool:
    """Tell whether a rest that holds now lets the plant have little; buds draw more."""
    finding = unfed_rest.check(case)
    return finding is None or finding.water is Water.SPARING
