"""A small collection with a history, its rows, and places in its file to damage."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from datetime import timedelta
from typing import TYPE_CHECKING

from PIL import Image

from growdesk.domain.facts import (
    CareKind,
    Flowering,
    Health,
    Look,
    NewGrowths,
    Reading,
    RootTips,
)
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlaceDraft, PlantDraft, TinDraft, WaterDraft
from growdesk.store.schema import RECORDED
from tests.conftest import TODAY

if TYPE_CHECKING:
    from pathlib import Path

PLANTS = 6
Rows = dict[tuple[str, int], tuple[object, ...]]


def lay(folder: Path, pictures: Path) -> None:
    """Make a collection by its services alone, so that all of it is in the history."""
    made = Collection.open(folder, FixedClock(TODAY), create=True)
    try:
        _lay(made, pictures)
    finally:
        made.close()


def _lay(made: Collection, pictures: Path) -> None:
    chance = random.Random(7)  # noqa: S311 -- invented data
    places = [
        made.places.add(PlaceDraft(name)).ids[0] for name in ("East sill", "Cellar")
    ]
    made.mixing.add_tin(TinDraft("Green tin", "20-20-20"))
    made.waters.add(WaterDraft("rain"))
    with made.ledger.together("Readings taken in"):
        for days in range(12):
            on = TODAY - timedelta(days=days + 1)
            made.readings.write(places[0], Reading(on, 18.0 + days / 10, 14.0, 24.5))
    for number in range(PLANTS):
        with made.ledger.together(f"Plant A{number} and all that is known of it"):
            _plant(made, number, places[number % 2], chance)
    for number in range(4):
        picture = pictures / f"{number}.png"
        Image.new("RGB", (24, 16), (number * 60, 90, 20)).save(picture)
        made.photos.add(number + 1, [picture])
    made.day.tick([1, 2, 3], TODAY)
    made.plants.remove([PLANTS])
    made.looks.delete(5)


def _plant(made: Collection, number: int, place: int, chance: random.Random) -> None:
    draft = PlantDraft(
        f"A{number}",
        f"Cattleya invented {number}",
        "cattleya",
        place,
        pot_volume_l=1.0 + number / 10,
        note="Bought small, from an invented nursery. " * 4,
    )
    plant = made.plants.add(draft).ids[0]
    for week in range(8):
        on = TODAY - timedelta(days=7 * week + 1)
        look = Look(
            on,
            new_growths=NewGrowths(extending=chance.randint(0, 3)),
            root_tips=chance.choice(list(RootTips)),
            lead_length_mm=20.0 + week,
            flowering=frozenset({Flowering.OPEN}) if week % 3 else None,
            health=frozenset({Health.PESTS}) if not week % 5 else None,
        )
        made.looks.record(plant, look, f"Seen in week {week}: {'well ' * week}grown.")
        made.day.give([plant], on, CareKind.FEED, 60.0 + 10 * week)
    made.blooms.add(
        plant, BloomDraft(None, TODAY - timedelta(days=60), TODAY, 2 + number)
    )


def rows_of(file: Path) -> Rows:
    """Give all rows of all recorded tables."""
    with closing(sqlite3.connect(file)) as connection:
        connection.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
        return {
            (name, row[0]): row
            for name in RECORDED
            for row in connection.execute(f"SELECT * FROM {name}")  # noqa: S608 -- a table of ours
        }
