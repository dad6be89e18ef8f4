"""What is read at places: joined by day, put right, removed, told of the place."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Facing, Glass, Reading
from growdesk.services.values import Changed, PlaceDraft, ReadingView

if TYPE_CHECKING:
    from growdesk.services.collection import Collection

NAN = float("nan")


@pytest.fixture
def place(collection: Collection) -> int:
    return collection.places.add(PlaceDraft("Sill")).ids[0]


def read(collection: Collection, place: int) -> list[Reading]:
    return [view.reading for view in collection.readings.of_place(place)]


def test_all_that_a_day_has_is_kept(
    collection: Collection, place: int, today: date
) -> None:
    whole = Reading(today, 18.5, 15.0, 22.0, 7.5, 62.0)
    done = collection.readings.write(place, whole)
    assert collection.readings.of_place(place) == (ReadingView(done.ids[0], whole),)
    assert done.changed == Changed.PLACES
    assert done.title == f"Readings of Sill on {today.isoformat()}"


def test_a_second_reading_of_a_day_takes_the_firsts_place(
    collection: Collection, place: int, today: date
) -> None:
    collection.readings.write(place, Reading(today, None, 10.0, 20.0))
    assert collection.places.all()[0].mean_7_days_c == pytest.approx(15.0)
    collection.readings.write(place, Reading(today, 25.0))
    assert read(collection, place) == [Reading(today, 25.0)]
    assert collection.places.all()[0].mean_7_days_c == pytest.approx(25.0)
    collection.history.undo()
    assert collection.places.all()[0].mean_7_days_c == pytest.approx(15.0)


def test_light_read_later_in_the_day_joins_its_temperatures(
    collection: Collection, place: int, today: date
) -> None:
    collection.readings.write(place, Reading(today, 20.0, humidity_percent=55.0))
    collection.readings.write(place, Reading(today, light_mol_per_m2_d=6.0))
    assert read(collection, place) == [Reading(today, 20.0, None, None, 6.0, 55.0)]
    collection.readings.write(place, Reading(today, None, 14.0, 21.0))
    assert read(collection, place) == [Reading(today, None, 14.0, 21.0, 6.0, 55.0)]


def test_readings_come_newest_first_and_by_place(
    collection: Collection, place: int, today: date
) -> None:
    other = collection.places.add(PlaceDraft("Balcony")).ids[0]
    for days in (3, 0, 400, 1):
        collection.readings.write(place, Reading(today - timedelta(days=days), 20.0))
    collection.readings.write(other, Reading(today, 5.0))
    ages = [(today - each.on).days for each in read(collection, place)]
    assert ages == [0, 1, 3, 400]
    assert read(collection, other) == [Reading(today, 5.0)]


def test_a_reading_is_put_right_and_undo_brings_it_back(
    collection: Collection, place: int, today: date
) -> None:
    first = Reading(today, 18.5, 15.0, 22.0, 7.5, 62.0)
    number = collection.readings.write(place, first).ids[0]
    moved = Reading(today - timedelta(days=1), 19.5)
    done = collection.readings.change(number, moved)
    assert collection.readings.of_place(place) == (ReadingView(number, moved),)
    assert done.title.endswith("corrected")
    collection.history.undo()
    assert read(collection, place) == [first]


def test_a_reading_is_not_moved_onto_another(
    collection: Collection, place: int, today: date
) -> None:
    yesterday = today - timedelta(days=1)
    collection.readings.write(place, Reading(yesterday, 18.0))
    number = collection.readings.write(place, Reading(today, 20.0)).ids[0]
    with pytest.raises(InputError, match="has readings already") as caught:
        collection.readings.change(number, Reading(yesterday, 20.0))
    assert caught.value.field == "on"
    assert len(read(collection, place)) == 2


def test_readings_are_removed_together_and_come_back(
    collection: Collection, place: int, today: date
) -> None:
    days = [today - timedelta(days=n) for n in range(3)]
    ids = [collection.readings.write(place, Reading(on, 20.0)).ids[0] for on in days]
    done = collection.readings.remove(ids[1:])
    assert done.title == "2 days of readings of Sill removed"
    assert [each.on for each in read(collection, place)] == [today]
    collection.history.undo()
    assert [each.on for each in read(collection, place)] == days
    one = collection.readings.remove(ids[:1])
    assert one.title == f"Readings of Sill on {today.isoformat()} removed"


def test_what_is_not_there_is_told(collection: Collection, today: date) -> None:
    gone = "not there any more"
    with pytest.raises(InputError, match=gone):
        collection.readings.write(99, Reading(today, 20.0))
    with pytest.raises(InputError, match=gone):
        collection.readings.change(99, Reading(today, 20.0))
    with pytest.raises(InputError, match=gone):
        collection.readings.remove([99])
    with pytest.raises(InputError, match="is chosen"):
        collection.readings.remove([])


@pytest.mark.parametrize(
    ("reading", "field"),
    [
        ({}, "mean_c"),
        ({"mean_c": NAN}, "mean_c"),
        ({"low_c": 25.0, "high_c": 20.0}, "low_c"),
        ({"low_c": 10.0, "high_c": 99.0}, "high_c"),
        ({"light_mol_per_m2_d": -1.0}, "light_mol_per_m2_d"),
        ({"light_mol_per_m2_d": 81.0}, "light_mol_per_m2_d"),
        ({"humidity_percent": 101.0}, "humidity_percent"),
    ],
)
def test_impossible_readings_are_named(
    collection: Collection,
    place: int,
    today: date,
    reading: dict[str, Any],
    field: str,
) -> None:
    slip = replace(Reading(today), **reading)
    with pytest.raises(InputError) as caught:
        collection.readings.write(place, slip)
    assert caught.value.field == field
    number = collection.readings.write(place, Reading(today, 20.0)).ids[0]
    with pytest.raises(InputError) as caught:
        collection.readings.change(number, slip)
    assert caught.value.field == field
    assert read(collection, place) == [Reading(today, 20.0)]


def test_a_day_to_come_is_refused(
    collection: Collection, place: int, today: date
) -> None:
    with pytest.raises(InputError) as caught:
        collection.readings.write(place, Reading(today + timedelta(days=1), 20.0))
    assert caught.value.field == "on"


# -- what the place's line says --------


def test_a_place_tells_its_light_of_today(
    collection: Collection, place: int, today: date
) -> None:
    """Today is 20 May; the default latitude is 50 north."""

    def light() -> str:
        return collection.places.all()[0].light

    assert light().startswith("Its facing, lamps and light are not recorded")
    window = PlaceDraft("Sill", facing=Facing.SOUTH, glass=Glass.DOUBLE, shaded=0.25)
    collection.places.change(place, window)
    assert light() == "By its south window it has about 9.5 mol of light today."
    lit = replace(window, lamps_hours=10.0, lamps_ppfd=100.0)
    collection.places.change(place, lit)
    assert light() == (
        "By its lamps it has 3.6 mol of light a day, and by day about 9.5 mol more "
        "today."
    )
    for days in (0, 10, 21):
        on = today - timedelta(days=days)
        collection.readings.write(place, Reading(on, light_mol_per_m2_d=4.0))
    assert light() == "Its light was read at 4 mol a day, the mean of 3 days."
    collection.places.change(place, replace(lit, controlled=True))
    assert light() == "It is lit as the plants want."


def test_the_light_goes_by_the_houses_latitude(
    collection: Collection, place: int
) -> None:
    window = PlaceDraft("Sill", facing=Facing.NORTH)
    collection.places.change(place, window)
    north = collection.places.all()[0].light
    house = replace(collection.settings.house(), latitude=-37.0)
    collection.settings.save_house(house)
    assert collection.places.all()[0].light != north


def test_a_place_tells_the_humidity_of_its_week(
    collection: Collection, place: int, today: date
) -> None:
    assert collection.places.all()[0].humidity_7_days_percent is None
    for days, percent in ((0, 50.0), (6, 70.0), (7, 99.0)):
        on = today - timedelta(days=days)
        collection.readings.write(place, Reading(on, humidity_percent=percent))
    (view,) = collection.places.all()
    assert view.humidity_7_days_percent == pytest.approx(60.0)
    assert view.mean_7_days_c is None
