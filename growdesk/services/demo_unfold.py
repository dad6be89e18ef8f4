"""Unfold the demo's file for the day it is opened: real dates in place of days back.

The file holds days counted back and courses of a year; this module turns them into the
values that the rest of growdesk speaks in. It knows no store and writes nothing, so the
demo can be judged before anything is laid.
"""

from __future__ import annotations

import json
import math
from datetime import date, timedelta

from msgspec.structs import replace

from growdesk import assets
from growdesk.domain.facts import (
    Facing,
    Glass,
    House,
    Lamps,
    Medium,
    Overrule,
    Place,
    Plant,
    Reading,
    Size,
    Verdict,
    Water,
)
from growdesk.services.demo_care import care_of, oldest_first
from growdesk.services.demo_course import YEAR_DAYS, Course, Data, day_of_year
from growdesk.services.demo_looks import blooms_of, looks_of
from growdesk.services.demo_records import (
    bench_of,
    benches_of,
    blooms_in_full,
    held,
    is_out,
    outside,
)
from growdesk.services.demo_values import Demo, DemoPlace, DemoPlant
from growdesk.services.values import PlaceDraft, PlantDraft

WARMEST_DAY = 205
DAILY_READINGS_DAYS = 60
OLDER_READINGS_EVERY_DAYS = 7


def read_data() -> Data:
    """Give the demo's file as it was shipped."""
    text = assets.demo_path("collection.json").read_text(encoding="utf-8")
    data: Data = json.loads(text)
    return data


def unfold(data: Data, on: date) -> Demo:
    """Give the demo with its days counted back from ``on``."""
    given: dict[str, object] = dict(data["house"])
    weekdays = tuple(data["house"]["watering_weekdays"])
    house = House(**(data["house"] | {"watering_weekdays": weekdays}))
    return Demo(
        name=data["name"],
        given=given,
        house=house,
        places=tuple(_place(place, data, on) for place in data["places"]),
        plants=tuple(_plant(plant, data, weekdays, on) for plant in data["plants"]),
        shelf=data["shelf"],
        benches=benches_of(data),
        left=tuple(_plant(plant, data, weekdays, on) for plant in data["left"]),
        views=tuple(data["views"]),
        tonight=tuple(data["tonight"]),
        picture_px=(data["picture_px"][0], data["picture_px"][1]),
    )


def as_facts(demo: Demo) -> tuple[Plant, ...]:
    """Give the plants as the judging sees them, without a store in between."""
    places = {place.draft.name: place for place in demo.places}
    return tuple(_fact(plant, places[plant.place]) for plant in demo.plants)


def _fact(plant: DemoPlant, place: DemoPlace) -> Plant:
    draft, where = plant.draft, place.draft
    lamps = None
    if where.lamps_hours is not None and where.lamps_ppfd is not None:
        lamps = Lamps(where.lamps_hours, where.lamps_ppfd)
    return Plant(
        tag=draft.tag,
        name=draft.name,
        kind=draft.kind,
        hybrid=draft.hybrid,
        place=Place(
            name=where.name,
            kind=where.kind,
            outdoors=where.outdoors,
            lamps=lamps,
            facing=where.facing,
            glass=where.glass,
            shaded=where.shaded,
            readings=place.readings,
        ),
        pot_volume_l=draft.pot_volume_l,
        volume_l=draft.volume_l,
        medium=draft.medium,
        mounted=draft.mounted,
        size=draft.size,
        overrule=draft.overrule,
        quarantine_until=draft.quarantine_until,
        looks=tuple(entry.look for entry in plant.looks),
        care=tuple(entry.care for entry in plant.care),
    )


def _place(place: Data, data: Data, on: date) -> DemoPlace:
    facing, glass = place.get("facing"), place.get("glass")
    draft = PlaceDraft(
        name=place["name"],
        kind=place["kind"],
        lamps_hours=place.get("lamps_hours"),
        lamps_ppfd=place.get("lamps_ppfd"),
        facing=None if facing is None else Facing(facing),
        glass=None if glass is None else Glass(glass),
        shaded=place.get("shaded"),
        outdoors=place.get("outdoors", False),
        position=place["position"],
        note=place["note"],
    )
    older = range(data["history_days"], DAILY_READINGS_DAYS, -OLDER_READINGS_EVERY_DAYS)
    days_ago = [*older, *range(DAILY_READINGS_DAYS, 0, -1)]
    if place.get("read_daily"):
        days_ago = list(range(data["history_days"], 0, -1))
    days = [on - timedelta(days=ago) for ago in days_ago]
    return DemoPlace(draft, tuple(_reading(place, data["weather_c"], d) for d in days))


def _reading(place: Data, weather_c: list[float], day: date) -> Reading:
    """Give a day's temperatures: the year's curve of the place, and the weather."""
    middle_c = (place["winter_c"] + place["summer_c"]) / 2
    half_c = (place["summer_c"] - place["winter_c"]) / 2
    wave = math.cos(2 * math.pi * (day_of_year(day) - WARMEST_DAY) / YEAR_DAYS)
    mean_c = middle_c + half_c * wave + weather_c[day.toordinal() % len(weather_c)]
    return Reading(
        on=day,
        mean_c=round(mean_c, 1),
        low_c=round(mean_c - place["swing_c"], 1),
        high_c=round(mean_c + place["swing_c"], 1),
    )


def _plant(plant: Data, data: Data, weekdays: tuple[int, ...], on: date) -> DemoPlant:
    course = Course(data["courses"][plant["course"]], plant.get("now"), on)
    looks = looks_of(plant, course, on)
    tag = plant["tag"]
    place = data["summers_out"]["place"] if is_out(data, tag, on) else plant["place"]
    bench, along = bench_of(data, tag, place)
    draft = held(_draft(plant, on), plant, on)
    care = care_of(plant, course, weekdays, data["history_days"])
    return DemoPlant(
        draft=draft if along is None else replace(draft, bench=along),
        place=place,
        looks=looks,
        care=oldest_first([*care, *outside(data, plant, on, care)]),
        blooms=blooms_in_full(
            plant.get("bloom_years", ()), blooms_of([entry.look for entry in looks])
        ),
        parent=plant.get("parent"),
        bench=bench,
    )


def _draft(plant: Data, on: date) -> PlantDraft:
    overrule = plant.get("overrule")
    medium = plant.get("medium")
    return PlantDraft(
        tag=plant["tag"],
        name=plant["name"],
        kind=plant["kind"],
        bench=plant["bench"],
        hybrid=plant.get("hybrid", False),
        pot_volume_l=plant.get("pot_volume_l"),
        volume_l=plant.get("volume_l"),
        medium=None if medium is None else Medium(medium),
        mounted=plant.get("mounted", False),
        size=Size(plant["size"]),
        overrule=None if overrule is None else _overrule(overrule, on),
        acquired_on=on - timedelta(days=plant["acquired_days_ago"]),
        source=plant.get("source", ""),
        note=plant.get("note", ""),
    )


def _overrule(overrule: Data, on: date) -> Overrule:
    return Overrule(
        verdict=Verdict(overrule["verdict"]),
        reason=overrule["reason"],
        until=on + timedelta(days=overrule["until_days"]),
        water=Water(overrule["water"]),
        since=on - timedelta(days=overrule["since_days_ago"]),
    )
