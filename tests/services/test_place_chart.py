"""The year of a place: its light through the year, and what it leaves its kinds."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest

from growdesk.domain import window_light
from growdesk.domain.errors import GrowdeskError
from growdesk.domain.facts import Facing, Glass, Reading
from growdesk.domain.season_factor import light_factor
from growdesk.domain.sun import sun
from growdesk.services import kinds
from growdesk.services.chart_values import Basis
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench


def back(today: date, days: int) -> date:
    return today - timedelta(days=days)


def place_at(collection: Collection, draft: PlaceDraft, *of: str) -> int:
    place = collection.places.add(draft).ids[0]
    for number, kind in enumerate(of):
        plant = PlantDraft(f"P{number}", kind, kind, place_id=place)
        collection.plants.add(plant)
    return place


BAY = PlaceDraft("Bay", facing=Facing.EAST, glass=Glass.DOUBLE, shaded=0.2)


def test_a_place_that_is_not_there_is_refused(
    collection: Collection, today: date
) -> None:
    with pytest.raises(GrowdeskError):
        collection.charts.place(404, today)


def test_a_place_has_the_suns_year_and_the_light_of_its_window(
    collection: Collection, today: date
) -> None:
    place = place_at(collection, BAY, "cattleya")
    chart = collection.charts.place(place, today)
    assert (chart.place, chart.basis, chart.facing) == (
        "Bay",
        Basis.WINDOW,
        Facing.EAST,
    )
    assert (len(chart.days), chart.shown.on) == (365, today)
    above = sun(chart.latitude, today)
    assert chart.shown.day_length_h == above.sunrise_to_sunset_h
    assert chart.shown.ra_mj_per_m2_d == above.ra_mj_per_m2_d
    house = collection.settings.house()
    clear = window_light.clear_share(house, today)
    outside = window_light.outside_mol_per_m2_d(
        Facing.EAST, house.latitude, today, clear
    )
    by_hand = outside * 0.75 * 0.8
    assert chart.shown.light_mol_per_m2_d == pytest.approx(by_hand)
    kind = kinds.table().kinds["cattleya"]
    full = kind.light_mid_fc * 0.2 * 12 * 3600 / 1e6 * 0.6366
    (strengths,) = chart.strengths
    assert strengths.by_light[chart.number] == pytest.approx(
        150 * light_factor(by_hand / full, 0.4)
    )
    assert (strengths.titles, strengths.plants) == ((kind.title,), 1)


def test_a_place_of_which_nothing_is_known_has_no_light_at_the_leaf(
    collection: Collection, today: date
) -> None:
    place = place_at(collection, PlaceDraft("Hall"), "cattleya")
    chart = collection.charts.place(place, today)
    assert chart.basis is Basis.SUN
    assert {day.light_mol_per_m2_d for day in chart.days} == {None}
    (strengths,) = chart.strengths
    ra = chart.shown.ra_mj_per_m2_d
    assert strengths.by_light[chart.number] == pytest.approx(
        150 * light_factor(ra / 40, 0.4)
    )


@pytest.mark.parametrize(
    ("draft", "basis"),
    [
        (PlaceDraft("X", facing=Facing.OVERHEAD, outdoors=True), Basis.OPEN_SKY),
        (PlaceDraft("X", facing=Facing.OVERHEAD, glass=Glass.PLASTIC), Basis.ROOF),
        (PlaceDraft("X", facing=Facing.WEST, outdoors=True), Basis.OPEN_SIDE),
        (PlaceDraft("X", lamps_hours=10, lamps_ppfd=100), Basis.LAMPS),
        (PlaceDraft("X", facing=Facing.WEST, controlled=True), Basis.CONTROLLED),
    ],
)
def test_each_sort_of_place_says_what_its_light_goes_by(
    collection: Collection, today: date, draft: PlaceDraft, basis: Basis
) -> None:
    chart = collection.charts.place(place_at(collection, draft, "cattleya"), today)
    assert chart.basis is basis
    assert {day.light_by for day in chart.days} == {basis}
    if basis is Basis.LAMPS:
        assert chart.shown.light_mol_per_m2_d == pytest.approx(3.6)
    if basis is Basis.CONTROLLED:
        assert chart.shown.light_mol_per_m2_d is None


def test_light_that_was_read_goes_before_the_window_and_comes_again_in_a_year(
    collection: Collection, today: date
) -> None:
    place = place_at(collection, BAY, "cattleya")
    for days in (2, 4, 6):
        reading = Reading(back(today, days), light_mol_per_m2_d=1.0 + days)
        collection.readings.write(place, reading)
    chart = collection.charts.place(place, today)
    assert chart.basis is Basis.WINDOW
    assert chart.shown.light_by is Basis.READ
    assert chart.shown.light_mol_per_m2_d == pytest.approx(5.0)
    read = [day.on for day in chart.days if day.light_by is Basis.READ]
    assert min(read) == back(today, 2)
    days = collection.settings.house().light_window_days
    assert max(read) == back(today, 6) + timedelta(days=days)
    season = collection.charts.season(collection.plants.find("P0") or 0, today)
    assert season.shown.year_day == chart.shown
    assert season.shown.strength_ppm_n == chart.strengths[0].by_light[chart.number]
    assert season.shown.strength_read_ppm_n is None, "light is no temperature"
    for days in (20, 22, 24):
        day = back(today, 365) + timedelta(days=days)
        collection.readings.write(place, Reading(day, light_mol_per_m2_d=9.0))
    later = collection.charts.place(place, today).days[chart.number + 24]
    assert later.light_by is Basis.READ
    assert later.light_mol_per_m2_d == pytest.approx(9.0)


def test_temperatures_read_are_counted_beside_the_light(
    collection: Collection, today: date
) -> None:
    place = place_at(collection, BAY, "cattleya")
    collection.readings.write(place, Reading(today, 12.0))
    chart = collection.charts.place(place, today)
    (strengths,) = chart.strengths
    read = strengths.read[chart.number]
    assert read is not None
    assert read < strengths.by_light[chart.number]
    assert strengths.read[chart.number - 1] is None


def test_the_four_commonest_kinds_are_drawn_and_the_same_year_is_one(
    collection: Collection, today: date
) -> None:
    kinds_there = ("vanda",) * 3 + ("cattleya", "laelia") * 2 + ("disa", "lycaste")
    place = place_at(collection, BAY, *kinds_there)
    chart = collection.charts.place(place, today)
    assert chart.kinds_left_out == 1
    assert sum(len(each.titles) for each in chart.strengths) == 4
    assert chart.strengths[0].titles == ("Vanda and its hybrids",)
    assert chart.strengths[0].plants == 3
    years = {each.by_light for each in chart.strengths}
    assert len(years) == len(chart.strengths)


def test_kinds_with_one_year_share_a_line(collection: Collection, today: date) -> None:
    place = place_at(collection, PlaceDraft("Shelf"), "cattleya", "laelia")
    (one,) = collection.charts.place(place, today).strengths
    assert one.plants == 2
    assert len(one.titles) == 2


def test_an_empty_place_shows_classes_of_light(
    collection: Collection, today: date
) -> None:
    place = place_at(collection, BAY)
    collection.readings.write(place, Reading(today, 12.0))
    chart = collection.charts.place(place, today)
    assert [each.titles for each in chart.strengths] == [
        ("bright light",),
        ("medium light",),
        ("low light",),
    ]
    bright, medium, low = (each.by_light[0] for each in chart.strengths)
    assert bright < medium < low, "the less a plant wants, the more of it is there"
    assert {each.plants for each in chart.strengths} == {0}
    assert {day for each in chart.strengths for day in each.read} == {None}


def test_a_binned_plant_and_another_places_plant_do_not_stand_there(
    collection: Collection, bench: Bench, today: date
) -> None:
    place = place_at(collection, BAY, "vanda", "disa")
    gone = collection.plants.find("P1")
    assert gone is not None
    collection.plants.remove([gone])
    (only,) = collection.charts.place(place, today).strengths
    assert only.titles == ("Vanda and its hybrids",)
    assert collection.charts.place(bench.place, today).kinds_left_out == 0
