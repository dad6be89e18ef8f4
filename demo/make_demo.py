"""Write demo/collection.json: the demo collection with days counted back from its day.

Run it after a change to demo_plants.py, demo_shelf.py or demo_courses.py. Chance is
seeded, so the same sources give the same file on every machine; a test runs it again
and compares. It knows no real date: growdesk.services.demo lays the file out for the
day it is opened.
"""

from __future__ import annotations

import argparse
import json
import random
from pathlib import Path
from typing import Any

from demo_courses import COURSES
from demo_plants import HOUSE, PLACES, PLANTS
from demo_records import (
    BENCHES,
    LEFT,
    SUMMERS_OUT,
    TONIGHT,
    VIEWS,
    WALK,
    extras,
    rain_mm,
)
from demo_shelf import shelf

SEED = 20_482
HISTORY_DAYS = 548
LINE = 100
HERE = Path(__file__).resolve().parent


def looks_of(plant: dict[str, Any], chance: random.Random) -> list[dict[str, Any]]:
    """Give the looks of eighteen months, newest first, one every two or three weeks."""
    if plant["latest_look"] is None:
        return []
    special = {look["days_ago"]: look for look in plant["looks"]}
    looks = []
    days_ago = plant["latest_look"]
    while days_ago < HISTORY_DAYS:
        looks.append(special.get(days_ago, _ordinary(days_ago, chance)))
        days_ago += chance.randint(14, 20)
    return looks


def _ordinary(days_ago: int, chance: random.Random) -> dict[str, Any]:
    noted = chance.random() < 0.3
    return {"days_ago": days_ago, "note_pick": chance.randrange(60) if noted else None}


def plant_of(
    plant: dict[str, Any], bench: int, chance: random.Random
) -> dict[str, Any]:
    """Give one plant as the file holds it."""
    kept = {
        key: value
        for key, value in plant.items()
        if key not in {"latest_look", "looks"} and value not in (None, "", [])
    }
    acquired = chance.randint(HISTORY_DAYS + 30, 3_000)
    skipped = sorted(chance.sample(range(3, HISTORY_DAYS // 7), 9))
    return {
        "acquired_days_ago": acquired,
        "bench": bench,
        "skipped_rounds": skipped,
        **kept,
        "looks": looks_of(plant, chance),
    }


def collection() -> dict[str, Any]:
    """Give the whole demo as plain data."""
    chance = random.Random(SEED)
    benches: dict[str, int] = {}
    plants = []
    for plant in PLANTS:
        benches[plant["place"]] = benches.get(plant["place"], 0) + 1
        plants.append(plant_of(plant, benches[plant["place"]], chance))
    weather_c = [round(chance.gauss(0, 0.8), 1) for _ in range(61)]
    beside = random.Random(SEED + 1)
    for each in plants:
        more = extras(each["tag"], beside)
        more["care"] = each.get("care", []) + more.pop("care", [])
        if "repotted_days_ago" in more:
            least = more["repotted_days_ago"] + 30
            each["acquired_days_ago"] = max(each["acquired_days_ago"], least)
        each |= {key: value for key, value in more.items() if value not in ("", [])}
    return {
        "name": "Orchids of the Fennel Yard house, Mirrenau",
        "history_days": HISTORY_DAYS,
        "picture_px": [640, 480],
        "house": HOUSE,
        "shelf": shelf(),
        "places": [{**p, "position": WALK.index(p["name"]) + 1} for p in PLACES],
        "benches": BENCHES,
        "summers_out": SUMMERS_OUT,
        "tonight": TONIGHT,
        "views": VIEWS,
        "weather_c": weather_c,
        "rain_mm": rain_mm(beside),
        "courses": COURSES,
        "plants": plants,
        "left": [plant_of(plant, 90 + n, beside) for n, plant in enumerate(LEFT)],
    }


def as_text(data: dict[str, Any]) -> str:
    """Give the data as JSON, each part on one line where it fits on one."""
    return _text(data, 0) + "\n"


def _text(value: Any, depth: int) -> str:
    whole = json.dumps(value, ensure_ascii=False)
    if len(whole) + depth <= LINE or not isinstance(value, dict | list):
        return whole
    inner, outer = "\n" + " " * (depth + 1), "\n" + " " * depth
    if isinstance(value, list):
        parts = [_text(entry, depth + 1) for entry in value]
        return f"[{inner}{(',' + inner).join(parts)}{outer}]"
    parts = [
        f"{json.dumps(key)}: {_text(entry, depth + 1)}" for key, entry in value.items()
    ]
    return f"{{{inner}{(',' + inner).join(parts)}{outer}}}"


def main() -> None:
    """Write the file, to its own place or where told."""
    parser = argparse.ArgumentParser(description="Write the demo collection's file.")
    parser.add_argument("--to", type=Path, default=HERE / "collection.json")
    to: Path = parser.parse_args().to
    to.write_text(as_text(collection()), encoding="utf-8", newline="\n")
    print(f"{to}: {len(PLANTS)} plants")


if __name__ == "__main__":
    main()
