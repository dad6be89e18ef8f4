"""What the demo keeps beside looks and rounds: summers outside, rain, older blooms.

Like all of the demo it is counted back from the day it is opened; summers go by the
calendar. It knows no store.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.facts import Care, CareKind
from growdesk.domain.holding import Descent, HeldAs, Status
from growdesk.services.demo_course import day_of_year
from growdesk.services.demo_values import DemoBench, DemoBloom, DemoCare

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from growdesk.services.demo_course import Data
    from growdesk.services.values import PlantDraft

LEAST_RAIN_MM = 4.0
_YEAR_DAYS = 365.25


def benches_of(data: Data) -> tuple[DemoBench, ...]:
    """Give the benches, each with its turn in its place."""
    turns: dict[str, int] = {}
    made = []
    for bench in data["benches"]:
        turns[bench["place"]] = turns.get(bench["place"], 0) + 1
        made.append(
            DemoBench(
                bench["place"],
                bench["name"],
                turns[bench["place"]],
                bench["at_glass"],
                bench["note"],
            )
        )
    return tuple(made)


def bench_of(data: Data, tag: str, place: str) -> tuple[str | None, int | None]:
    """Give the bench a plant stands on at a place, and its number along it."""
    for bench in data["benches"]:
        if bench["place"] == place and tag in bench["tags"]:
            return bench["name"], bench["tags"].index(tag) + 1
    return None, None


def is_out(data: Data, tag: str, on: date) -> bool:
    """Tell whether a plant stands in the yard on a day."""
    out = data["summers_out"]
    return tag in out["tags"] and out["from"] <= day_of_year(on) < out["until"]


def outside(
    data: Data, plant: Data, on: date, watered: Iterable[DemoCare]
) -> Iterator[DemoCare]:
    """Give a plant's moves of eighteen months, and the rain where it was out.

    A day that was watered by hand is not said to have been rained on too.
    """
    tag, yard = plant["tag"], data["summers_out"]["place"]
    taken = {entry.care.on for entry in watered}
    rain_mm = data["rain_mm"]
    first = on - timedelta(days=data["history_days"])
    for ago in range(data["history_days"], 1, -1):
        day = on - timedelta(days=ago)
        out, before = is_out(data, tag, day), is_out(data, tag, day - timedelta(days=1))
        if out != before and day > first:
            ends = (plant["place"], yard) if out else (yard, plant["place"])
            note = "Nights hold now." if out else "Hosed off, looked over for slugs."
            yield DemoCare(
                Care(day, CareKind.MOVE),
                None,
                note,
                from_place=ends[0],
                to_place=ends[1],
            )
        fell_mm = rain_mm[day.toordinal() % len(rain_mm)]
        if out and fell_mm >= LEAST_RAIN_MM and day not in taken:
            yield DemoCare(Care(day, CareKind.RAIN, rain_mm=fell_mm), None)


def blooms_in_full(
    years: Sequence[Data], seen: tuple[DemoBloom, ...]
) -> tuple[DemoBloom, ...]:
    """Give the flowerings the looks show with their counts, and those of years before.

    Older ones are counted back from the first that is known whole.
    """
    whole = [bloom for bloom in seen if bloom.last_faded_on is not None]
    if not years or not whole:
        return seen
    told = [_counted(bloom, years[0]) for bloom in seen]
    older = [_earlier(whole[0], year) for year in years if year["back"]]
    return (*reversed(older), *told)


def _counted(bloom: DemoBloom, year: Data) -> DemoBloom:
    return replace(
        bloom,
        flowers=year["flowers"],
        spikes=year["spikes"],
        size_mm=float(year["size_mm"]),
        note=year["note"],
        award=year["award"],
    )


def _earlier(bloom: DemoBloom, year: Data) -> DemoBloom:
    back = timedelta(days=round(_YEAR_DAYS * year["back"]) + year["shift_days"])

    def earlier(day: date | None) -> date | None:
        return None if day is None else day - back

    return replace(
        _counted(bloom, year),
        spike_seen_on=earlier(bloom.spike_seen_on),
        first_open_on=earlier(bloom.first_open_on),
        last_faded_on=earlier(bloom.last_faded_on),
    )


def held(draft: PlantDraft, plant: Data, on: date) -> PlantDraft:
    """Give a plant with what is on record of how it is held and where it came from."""
    how, sharing = plant.get("parent_how"), plant.get("held_as")
    left, quarantine = plant.get("left_days_ago"), plant.get("quarantine_days")
    repotted = plant.get("repotted_days_ago")
    return replace(
        draft,
        repotted_on=None if repotted is None else on - timedelta(days=repotted),
        status=Status(plant.get("status", Status.GROWING)),
        left_on=None if left is None else on - timedelta(days=left),
        left_why=plant.get("why", ""),
        parent_how=None if how is None else Descent(how),
        parentage=plant.get("parentage", ""),
        papers=plant.get("papers", ""),
        held_as=None if sharing is None else HeldAs(sharing),
        how_many=plant.get("how_many"),
        quarantine_until=None
        if quarantine is None
        else on + timedelta(days=quarantine),
    )
