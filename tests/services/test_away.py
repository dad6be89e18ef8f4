"""The away sheet: places in walking order, groups of neighbours, bars, litres."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Look, NewGrowths, Overrule, RootTips, Verdict, Water
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services.bench_values import BenchDraft
from growdesk.services.values import PlaceDraft, PlantDraft, WaterDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection


@pytest.fixture
def stocked(collection: Collection, today: date) -> Collection:
    sill = collection.places.add(PlaceDraft("Sill")).ids[0]
    bench = collection.benches.add(sill, BenchDraft("Top")).ids[0]
    dry = Overrule(
        Verdict.KEEP_DRY, "mine", today + timedelta(days=90), Water.NONE, today
    )
    ids = [
        collection.plants.add(
            PlantDraft(
                f"A{number}",
                "Cattleya",
                "cattleya",
                sill,
                number,
                pot_volume_l=1.0,
                bench_id=bench,
                overrule=dry if number in (3, 4) else None,
            )
        ).ids[0]
        for number in range(1, 6)
    ]
    look = Look(today, new_growths=NewGrowths(extending=1), root_tips=RootTips.RUNNING)
    for each in ids:
        collection.looks.record(each, look)
    collection.measures.add_vessel(Vessel(VesselKind.MUG, "the blue one", 0.25))
    return collection


def test_neighbours_that_get_the_same_stand_together(
    stocked: Collection, today: date
) -> None:
    sheet = stocked.away.make(today, today + timedelta(days=13))
    assert [day.weekday() for day in sheet.days] == [2, 5, 2, 5]
    (bench,) = sheet.benches
    assert bench.where == "Sill · Top"
    assert [group.tags for group in bench.groups] == [
        ("A1", "A2"),
        ("A3", "A4"),
        ("A5",),
    ]
    first, dry, last = bench.groups
    assert first.days == last.days == sheet.days
    assert (first.volume_l, first.mugs) == (0.25, "1 mug")
    assert (first.name, last.name) == ("", "Cattleya")
    assert dry.days == ()
    assert (dry.first, dry.last, dry.of) == (3, 4, 5)
    assert tuple(day for day, _ in sheet.litres) == sheet.days
    assert [litres for _, litres in sheet.litres] == pytest.approx([0.75] * 4)
    assert sheet.plants == 5


def test_the_days_before_leaving_are_walked_as_planned(
    stocked: Collection, today: date
) -> None:
    later = stocked.away.make(today + timedelta(days=14), today + timedelta(days=20))
    assert len(later.days) == 2
    assert later.benches[0].groups[0].days == later.days


@pytest.mark.parametrize(
    ("begins", "ends", "problem"),
    [
        (-1, 5, "has gone by"),
        (5, 4, "is before the first day"),
        (0, 61, "is too long away"),
        (1, 2, "brings no watering day"),
        (200, 210, "is too far off"),
    ],
)
def test_days_that_cannot_be_meant_are_refused(
    stocked: Collection, today: date, begins: int, ends: int, problem: str
) -> None:
    with pytest.raises(InputError, match=problem):
        stocked.away.make(today + timedelta(days=begins), today + timedelta(days=ends))


def test_a_place_may_have_its_own_sheet(stocked: Collection, today: date) -> None:
    stocked.plants.add(PlantDraft("Z1", "Vanda", "vanda"))
    assert stocked.away.places() == ("Sill",)
    assert stocked.away.make(today, today + timedelta(days=6)).plants == 6
    assert stocked.away.make(today, today + timedelta(days=6), "sill").plants == 5
    with pytest.raises(InputError, match="has no plants"):
        stocked.away.make(today, today + timedelta(days=6), "Attic")


def test_one_water_is_named_and_a_purer_one_where_a_pot_wants_it(
    stocked: Collection, today: date
) -> None:
    def water() -> str:
        return stocked.away.make(today, today + timedelta(days=6)).water

    assert water() == ""
    stocked.waters.add(WaterDraft("rain", 0.02, in_use=False))
    stocked.waters.add(WaterDraft("tap", 1.7))
    assert water() == "tap water"
    plant = next(line.plant_id for line in stocked.day.view().lines if line.tag == "A1")
    look = Look(
        today,
        new_growths=NewGrowths(extending=1),
        root_tips=RootTips.RUNNING,
        runoff_ec_ms_per_cm=3.5,
    )
    stocked.looks.record(plant, look)
    assert water() == "rain water"
