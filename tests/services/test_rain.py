from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Leaves, Look
from growdesk.services.values import DoneKind, PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection


@pytest.fixture
def yard(collection: Collection) -> tuple[int, dict[str, int]]:
    """Give a yard with two plants in the open, one under cover; another indoors."""
    out = collection.places.add(PlaceDraft("Yard", "garden", outdoors=True)).ids[0]
    sill = collection.places.add(PlaceDraft("Sill")).ids[0]
    made = {}
    for tag, place, cover in (
        ("A2", out, False),
        ("A1", out, False),
        ("A3", out, True),
        ("B1", sill, False),
    ):
        draft = PlantDraft(tag, "", "cymbidium", place, under_cover=cover)
        made[tag] = collection.plants.add(draft).ids[0]
    return out, made


def cared(collection: Collection, plant_id: int, on: date) -> list[CareKind]:
    detail = collection.day.detail(plant_id, on)
    return [care.what for care in detail.care]


def test_rain_is_written_for_what_stands_in_the_open(
    collection: Collection, yard: tuple[int, dict[str, int]], today: date
) -> None:
    out, plants = yard
    assert [(p.name, p.plants) for p in collection.rain.places()] == [("Yard", 3)]
    found = collection.rain.would_wet([out], today, 12)
    assert (found.counts_as, found.tags, found.covered) == (
        "clear-water",
        ("A2", "A1"),  # in the order along the bench
        ("A3",),
    )
    written = collection.rain.fell([out], today, 12, "thunder")
    assert written.title == "Rain on 2 plants"
    view = collection.day.view(today)
    done = {line.tag: line.done for line in view.lines}
    assert done["A1"] is not None
    assert (done["A1"].kind, done["A1"].what) == (DoneKind.CARED, CareKind.RAIN)
    assert done["A3"] is None
    assert done["B1"] is None
    (care,) = collection.day.detail(plants["A1"], today).care
    assert (care.rain_mm, care.note) == (12, "thunder")
    collection.history.undo()
    assert all(not cared(collection, each, today) for each in plants.values())


def test_a_downpour_counts_as_a_flush(
    collection: Collection, yard: tuple[int, dict[str, int]], today: date
) -> None:
    assert collection.rain.would_wet([yard[0]], today, 25).counts_as == "flush"
    assert collection.rain.would_wet([yard[0]], today, None).counts_as == "clear-water"


def test_what_was_given_by_hand_that_day_stays(
    collection: Collection, yard: tuple[int, dict[str, int]], today: date
) -> None:
    out, plants = yard
    collection.day.give([plants["A2"]], today, CareKind.FEED, 100.0, "")
    written = collection.rain.fell([out], today, 12)
    assert written.title == "Rain on A1"
    assert written.problems == (
        "A2: something is on record for the day already, and stays.",
    )
    assert cared(collection, plants["A2"], today) == [CareKind.FEED]


@pytest.mark.parametrize(
    ("mm", "said"),
    [
        (3, "rain_mm: '3 mm' is too little to water a pot."),
        (-1, "rain_mm: -1"),
        (99_999, "rain_mm: 99999"),
    ],
)
def test_rain_that_cannot_be_written_is_refused(
    collection: Collection,
    yard: tuple[int, dict[str, int]],
    today: date,
    mm: float,
    said: str,
) -> None:
    with pytest.raises(InputError) as caught:
        collection.rain.fell([yard[0]], today, mm)
    assert caught.value.line().startswith(said)
    assert not cared(collection, yard[1]["A1"], today)


def test_a_day_to_come_and_no_place_are_refused(
    collection: Collection, yard: tuple[int, dict[str, int]], today: date
) -> None:
    with pytest.raises(InputError, match="on"):
        collection.rain.fell([yard[0]], today + timedelta(days=1), 10)
    with pytest.raises(InputError, match="places"):
        collection.rain.fell([], today, 10)


def test_nobody_in_the_rain_is_said(collection: Collection, today: date) -> None:
    out = collection.places.add(PlaceDraft("Yard", "garden", outdoors=True)).ids[0]
    with pytest.raises(InputError, match="stands there in the rain"):
        collection.rain.fell([out], today, 10)


def test_what_rests_dry_in_the_rain_is_named(
    collection: Collection, yard: tuple[int, dict[str, int]], today: date
) -> None:
    out, _plants = yard
    for tag, cover in (("C1", False), ("C2", True)):
        draft = PlantDraft(tag, "", "catasetum", out, under_cover=cover)
        plant_id = collection.plants.add(draft).ids[0]
        collection.looks.record(plant_id, Look(today, leaves=Leaves.LEAFLESS))
    assert collection.rain.would_wet([out], today, 12).resting == ("C1",)
    assert collection.rain.would_wet([out], today, 1).resting == ()
    written = collection.rain.fell([out], today, 12)
    assert written.problems == (
        "C1: to have little or no water now; bring under cover before it rains again.",
    )
    (line,) = [
        each for each in collection.calendar.jobs() if each.ref.key == "under-cover"
    ]
    assert (line.tag, line.place, line.on) == ("C1", "Yard", today)
