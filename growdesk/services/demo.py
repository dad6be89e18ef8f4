"""Lay the demo collection into a new folder, with its days counted back from a day.

All rows go in by one transaction that leaves no history, so a fresh demo has nothing to
undo. What the demo holds is the business of the files in ``demo/``; this module knows
only where each value belongs in the store.
"""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import asdict

from growdesk import assets
from growdesk.domain.errors import InputError, StoreError
from growdesk.domain.facts_fields import FIRST_YEAR, LAST_YEAR
from growdesk.domain.speech import tr
from growdesk.services import plant_drafts
from growdesk.services.clock import FixedClock
from growdesk.services.demo_beside import lay_tonight, lay_views
from growdesk.services.demo_shelf import Given, lay_drawn, lay_shelf
from growdesk.services.demo_unfold import read_data, unfold
from growdesk.store.mapping import look_values
from growdesk.store.photo_place import tells_place
from growdesk.store.photos import photo_path
from growdesk.store.schema import (
    BenchRow,
    BloomRow,
    CareRow,
    LookRow,
    PhotoRow,
    PlaceRow,
    PlantRow,
    ReadingRow,
    SettingRow,
)
from growdesk.store.store import FILE_NAME, Store
from growdesk.store.whole_files import make_folder, write_whole

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from growdesk.services.demo_values import Demo, DemoPlant
    from growdesk.store.journal import Writing

Numbered = list[tuple[int, "DemoPlant"]]


class Taken(Struct, frozen=True):
    """A picture of the demo with the plant, look and day it belongs to."""

    plant_id: int
    look_id: int
    taken_on: date
    file_name: str


def lay_demo(folder: Path, on: date) -> Path:
    """Make the demo collection in a new or empty folder; give the folder back."""
    if not FIRST_YEAR <= on.year <= LAST_YEAR:
        hint = tr("Give a day in the years {first_year} to {last_year}.").format(
            first_year=FIRST_YEAR, last_year=LAST_YEAR
        )
        raise InputError("--on", on.isoformat(), tr("leaves the demo no past"), hint)
    if (folder / FILE_NAME).exists():
        hint = tr("Lay the demo in a new or empty folder.")
        raise StoreError(
            tr("{folder} already holds a collection.").format(folder=folder), hint
        )
    demo = unfold(read_data(), on)
    clock = FixedClock(on)
    store = Store.open(folder, clock.now, create=True)
    try:
        with store.together(tr("Demo laid"), clock.now, remember=False) as writing:
            places = _lay_places(writing, demo)
            benches = _lay_benches(writing, demo, places)
            plants = _lay_plants(writing, demo, places, benches)
            given = _lay_care(writing, plants)
            taken = _lay_looks(writing, plants)
            _lay_photos(writing, demo, taken, folder)
            _lay_settings(writing, demo)
            lay_views(writing, demo)
            lay_tonight(writing, demo, places, on)
            tags = {plant.draft.tag: number for number, plant in plants}
            numbers = lay_shelf(writing, demo.shelf, tags, on)
            lay_drawn(writing, demo.shelf, numbers, given)
    finally:
        store.close()
    return folder


def _lay_places(writing: Writing, demo: Demo) -> dict[str, int]:
    """Write places and readings; give the places' numbers by name."""
    rows = [asdict(place.draft) for place in demo.places]
    ids = writing.insert_many(PlaceRow, rows)
    numbers = {
        place.draft.name: number for place, number in zip(demo.places, ids, strict=True)
    }
    readings = [
        {
            "place_id": numbers[place.draft.name],
            "day": reading.on,
            "mean_c": reading.mean_c,
            "low_c": reading.low_c,
            "high_c": reading.high_c,
        }
        for place in demo.places
        for reading in place.readings
    ]
    writing.insert_many(ReadingRow, readings)
    return numbers


def _lay_benches(
    writing: Writing, demo: Demo, places: dict[str, int]
) -> dict[tuple[str, str], int]:
    """Write the benches; give their numbers by place and name."""
    rows = [
        {
            "place_id": places[bench.place],
            "name": bench.name,
            "position": bench.position,
            "at_glass": bench.at_glass,
            "note": bench.note,
        }
        for bench in demo.benches
    ]
    ids = writing.insert_many(BenchRow, rows)
    return {
        (bench.place, bench.name): number
        for bench, number in zip(demo.benches, ids, strict=True)
    }


def _lay_plants(
    writing: Writing,
    demo: Demo,
    places: dict[str, int],
    benches: dict[tuple[str, str], int],
) -> Numbered:
    """Write the plants, those that left too; give each with its number."""
    plants = (*demo.plants, *demo.left)
    rows = [
        plant_drafts.values_of(plant.draft)
        | {
            "place_id": places[plant.place],
            "bench_id": benches.get((plant.place, plant.bench or "")),
        }
        for plant in plants
    ]
    ids = writing.insert_many(PlantRow, rows)
    numbers = {plant.draft.tag: n for n, plant in zip(ids, plants, strict=True)}
    for number, plant in zip(ids, plants, strict=True):
        if plant.parent is not None:
            writing.update(PlantRow, number, {"parent_id": numbers[plant.parent]})
    return list(zip(ids, plants, strict=True))


def _lay_care(writing: Writing, plants: Numbered) -> list[Given]:
    """Write the care and the blooms; give the care with its numbers."""
    entries = [(number, entry) for number, plant in plants for entry in plant.care]
    care = [
        {
            "plant_id": number,
            "day": entry.care.on,
            "what": entry.care.what,
            "strength_ppm_n": entry.care.strength_ppm_n,
            "volume_l": entry.volume_l,
            "ec_ms_per_cm": entry.care.ec_ms_per_cm,
            "rain_mm": entry.care.rain_mm,
            "note": entry.note,
            "product": entry.product,
            "repeat_on": entry.repeat_on,
            "from_place": entry.from_place,
            "to_place": entry.to_place,
        }
        for number, entry in entries
    ]
    ids = writing.insert_many(CareRow, care)
    blooms = [
        {"plant_id": number, **asdict(bloom)}
        for number, plant in plants
        for bloom in plant.blooms
    ]
    writing.insert_many(BloomRow, blooms)
    return [
        Given(care_id, entry) for care_id, (_, entry) in zip(ids, entries, strict=True)
    ]


def _lay_looks(writing: Writing, plants: Numbered) -> list[Taken]:
    """Write the looks; give the pictures that were taken at them."""
    entries = [(number, entry) for number, plant in plants for entry in plant.looks]
    rows = [
        {"plant_id": number, **look_values(entry.look, entry.note)}
        for number, entry in entries
    ]
    ids = writing.insert_many(LookRow, rows)
    return [
        Taken(number, look_id, entry.look.on, name)
        for look_id, (number, entry) in zip(ids, entries, strict=True)
        for name in entry.pictures
    ]


def _lay_photos(writing: Writing, demo: Demo, taken: list[Taken], folder: Path) -> None:
    """Copy the pictures under their content hash and write their rows."""
    rows = []
    for photo in taken:
        source = assets.demo_path(f"pictures/{photo.file_name}")
        content = source.read_bytes()
        sha256 = hashlib.sha256(content).hexdigest()
        ext = source.suffix.removeprefix(".")
        target = photo_path(folder, sha256, ext)
        make_folder(target.parent)
        write_whole(target, content)
        rows.append(
            {
                "plant_id": photo.plant_id,
                "look_id": photo.look_id,
                "sha256": sha256,
                "ext": ext,
                "width": demo.picture_px[0],
                "height": demo.picture_px[1],
                "taken_on": photo.taken_on,
                "file_name": photo.file_name,
                "has_location": tells_place(content),
            }
        )
    writing.insert_many(PhotoRow, rows)


def _lay_settings(writing: Writing, demo: Demo) -> None:
    """Write the house rules the grower set, and the collection's name."""
    settings = {**demo.given, "word.collection": demo.name, "word.currency": "EUR"}
    rows = [
        {"key": key, "value": json.dumps(value, ensure_ascii=False)}
        for key, value in settings.items()
    ]
    writing.insert_many(SettingRow, rows)
