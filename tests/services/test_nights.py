from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Reading
from growdesk.domain.jobs.job import Sort
from growdesk.domain.night import Expected, Shelter, Threat
from growdesk.services.bench_values import BenchDraft
from growdesk.services.calendar_values import Closed
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection


@pytest.fixture
def house(collection: Collection) -> tuple[int, int]:
    """Give a sill with a bench at the glass, and a yard; a moth orchid on each."""
    sill = collection.places.add(PlaceDraft("Sill", position=1)).ids[0]
    yard = collection.places.add(
        PlaceDraft("Yard", "garden", outdoors=True, position=2)
    ).ids[0]
    pane = collection.benches.add(sill, BenchDraft("Pane", at_glass=True)).ids[0]
    for tag, kind, place, bench in (
        ("A1", "phalaenopsis", sill, pane),
        ("A2", "phalaenopsis", sill, None),
        ("B1", "cymbidium", yard, None),
    ):
        collection.plants.add(PlantDraft(tag, "", kind, place, bench_id=bench))
    return sill, yard


def test_what_is_typed_names_the_plants_to_move(
    collection: Collection, house: tuple[int, int], today: date
) -> None:
    sill, yard = house
    typed = {sill: Expected(17, None), yard: Expected(-1, None)}
    view = collection.nights.would_be(today, typed)
    assert [(m.tag, m.threat, m.shelter, m.bench) for m in view.moves] == [
        ("A1", Threat.COLD, Shelter.FROM_GLASS, "Pane"),
        ("B1", Threat.COLD, Shelter.ELSEWHERE, ""),
    ]
    assert view.moves[0].do == "Take it off the glass for the night."
    assert view.advice
    assert collection.nights.view(today).moves == ()


def test_what_is_expected_is_kept_changed_and_forgotten(
    collection: Collection, house: tuple[int, int], today: date
) -> None:
    sill, yard = house
    nights = collection.nights
    nights.expect(today, {sill: Expected(17, 25), yard: Expected(4, None)})
    assert [p.expected for p in nights.view(today).places] == [
        Expected(17, 25),
        Expected(4, None),
    ]
    nights.expect(today, {sill: Expected(19, 25), yard: Expected(None, None)})
    assert [p.expected for p in nights.view(today).places] == [
        Expected(19, 25),
        Expected(None, None),
    ]
    collection.history.undo()
    assert nights.view(today).places[1].expected == Expected(4, None)


def test_the_last_night_read_stands_beside(
    collection: Collection, house: tuple[int, int], today: date
) -> None:
    sill, _yard = house
    collection.readings.write(sill, Reading(today, low_c=16.5, high_c=22))
    first, second = collection.nights.view(today).places
    assert (first.name, first.plants, first.last_low_c, first.last_low_on) == (
        "Sill",
        2,
        16.5,
        today,
    )
    assert (second.outdoors, second.last_low_c, second.last_low_on) == (
        True,
        None,
        None,
    )


def test_no_night_is_expected_that_cannot_be(
    collection: Collection, house: tuple[int, int], today: date
) -> None:
    with pytest.raises(InputError, match="is above the high"):
        collection.nights.expect(today, {house[0]: Expected(20, 10)})
    with pytest.raises(InputError, match="low_c"):
        collection.nights.would_be(today, {house[0]: Expected(-90, None)})
    with pytest.raises(InputError, match="place"):
        collection.nights.expect(today, {999: Expected(1, 2)})
    assert all(
        place.expected == Expected(None, None)
        for place in collection.nights.view(today).places
    )


def test_a_place_that_goes_takes_its_nights_along(
    collection: Collection, today: date
) -> None:
    place = collection.places.add(PlaceDraft("Shed")).ids[0]
    collection.nights.expect(today, {place: Expected(3, None)})
    collection.places.remove(place)
    assert collection.nights.view(today).places == ()
    collection.history.undo()
    assert collection.nights.view(today).places[0].expected == Expected(3, None)


def test_what_is_kept_stands_in_the_calendar_until_the_day_is_over(
    collection: Collection, house: tuple[int, int], today: date
) -> None:
    sill, yard = house
    collection.nights.expect(
        today, {sill: Expected(17, None), yard: Expected(-1, None)}
    )

    def lines(on: date) -> list[tuple[str, str, date]]:
        return [
            (line.ref.key, line.place, line.on)
            for line in collection.calendar.jobs(on=on)
            if line.sort is Sort.WEATHER
        ]

    assert lines(today) == [
        ("cold-from-glass", "Sill", today),
        ("cold-elsewhere", "Yard", today),
    ]
    assert lines(today + timedelta(days=1)) == []
    (first, _second) = [
        line for line in collection.calendar.jobs() if line.sort is Sort.WEATHER
    ]
    collection.calendar.done(first)
    (closed, still_open) = [
        line for line in collection.calendar.jobs() if line.sort is Sort.WEATHER
    ]
    assert closed.closed is Closed.DONE
    assert still_open.closed is None
    collection.nights.expect(today, {yard: Expected(None, None)})
    assert len(lines(today)) == 1
