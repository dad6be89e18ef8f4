"""A small bench for the service tests: plants whose verdicts are known beforehand."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.domain.facts import Flowering, Look, NewGrowths, RootTips
from growdesk.services.values import PlaceDraft, PlantDraft, TinDraft, WaterDraft

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.services.collection import Collection


@dataclass(frozen=True)
class Bench:
    """Plants by number: ``feed`` grows, ``clear`` stands still, ``dry`` is bare."""

    place: int
    feed: int
    clear: int
    dry: int
    unseen: int


@pytest.fixture
def bench(collection: Collection, today: date) -> Bench:
    place = collection.places.add(PlaceDraft("East sill")).ids[0]
    collection.mixing.add_tin(TinDraft("Green tin", "20-20-20"))
    collection.waters.add(WaterDraft("rain"))

    def plant(tag: str, kind: str, look: Look | None) -> int:
        draft = PlantDraft(tag, f"{kind} {tag}", kind, place, pot_volume_l=1.2)
        plant_id = collection.plants.add(draft).ids[0]
        if look is not None:
            collection.looks.record(plant_id, look)
        return plant_id

    seen = today - timedelta(days=3)
    still = NewGrowths(emerging=0, extending=0, maturing=0, matured=2)
    return Bench(
        place=place,
        feed=plant(
            "A1",
            "cattleya",
            Look(
                seen,
                new_growths=NewGrowths(extending=1),
                root_tips=RootTips.RUNNING,
                flowering=frozenset({Flowering.OPEN}),
            ),
        ),
        clear=plant(
            "A2",
            "cattleya",
            Look(seen, new_growths=still, root_tips=RootTips.NONE),
        ),
        dry=plant(
            "A3",
            "catasetum",
            Look(
                seen,
                new_growths=NewGrowths(emerging=1),
                root_tips=RootTips.STARTING,
                longest_new_root_mm=20.0,
            ),
        ),
        unseen=plant("A10", "cattleya", None),
    )


@pytest.fixture
def picture(tmp_path: Path) -> Callable[..., Path]:
    """Give a way to make a small JPEG, upright or with a camera's marks on it."""

    def make(
        name: str, colour: str = "green", *, taken: str = "", turned: int = 1
    ) -> Path:
        path = tmp_path / name
        exif = Image.Exif()
        exif[0x0112] = turned
        if taken:
            exif.get_ifd(0x8769)[0x9003] = taken
        Image.new("RGB", (640, 480), colour).save(path, exif=exif)
        return path

    return make
