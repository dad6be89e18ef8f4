"""Whatever is removed, put back, undone, done again and emptied: all stays whole."""

from __future__ import annotations

import os
import random
import time
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Look
from growdesk.services import emptying
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.care_of_files import check
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection import Collection

pytestmark = pytest.mark.file

STEPS = 45


class Grower:
    """Somebody who does one thing after another, by chance."""

    def __init__(self, collection: Collection, chance: random.Random, at: Path) -> None:
        self.made = collection
        self.chance = chance
        self.at = at
        self.count = 0
        self.emptied = 0

    def any_plant(self) -> int:
        return self.chance.choice([key for key, _ in self.made.plants.all()])

    def step(self) -> None:
        self.count += 1
        if not self.made.plants.all():
            self.add()
            return
        wanted = self.chance.choices(
            (
                self.add,
                self.look,
                self.feed,
                self.bloom,
                self.photo,
                self.place,
                self.bin_plant,
                self.remove_record,
                self.put_back,
                self.undo,
                self.redo,
                self.empty,
            ),
            (3, 3, 3, 2, 2, 1, 3, 6, 5, 5, 3, 1),
        )[0]
        wanted()

    def add(self) -> None:
        plants = self.made.plants.all()
        parent = self.chance.choice(plants)[0] if plants else None
        tag = f"T{self.count}"
        self.made.plants.add(PlantDraft(tag, "", "cattleya", parent_id=parent))

    def look(self) -> None:
        self.made.looks.record(self.any_plant(), Look(self.made.clock.today()))

    def feed(self) -> None:
        today = self.made.clock.today()
        self.made.day.give([self.any_plant()], today, CareKind.FEED, 100.0)

    def bloom(self) -> None:
        day = self.made.clock.today() - timedelta(days=40 * self.count)
        draft = BloomDraft(None, day, day + timedelta(days=9), 2)
        self.made.blooms.add(self.any_plant(), draft)

    def photo(self) -> None:
        path = self.at / f"{self.count % 5}.png"
        Image.new("RGB", (8, 8), (self.count % 5 * 40, 0, 0)).save(path)
        plant = self.any_plant()
        has = self.made.photos.of(plant)
        self.made.photos.add(plant, [path]) if not has else None

    def place(self) -> None:
        self.made.places.add(PlaceDraft(f"Shelf {self.count}"))

    def bin_plant(self) -> None:
        self.made.plants.remove([self.any_plant()])

    def remove_record(self) -> None:
        made = self.made
        detail = made.day.detail(self.any_plant(), made.clock.today())
        if detail.photos:
            made.photos.remove(detail.photos[0].photo_id)
        elif detail.care:
            made.care.remove([detail.care[0].care_id])
        elif detail.looks:
            made.looks.delete(detail.looks[0].look_id)
        elif detail.blooms.blooms:
            made.blooms.remove(detail.blooms.blooms[0].bloom_id)

    def put_back(self) -> None:
        entries = self.made.bin.view().entries
        if entries:
            entry = self.chance.choice(entries)
            self.made.bin.put_back(entry.key)
            assert entry not in self.made.bin.view().entries

    def undo(self) -> None:
        for _ in range(self.chance.randint(1, 4)):
            self.made.history.undo()

    def redo(self) -> None:
        self.made.history.redo()

    def empty(self) -> None:
        view = self.made.bin.view()
        if view.can_empty:
            done = emptying.empty(self.made)
            assert (done.photos, done.photo_bytes) == (view.photos, view.photo_bytes)
            assert not self.made.bin.view().can_empty
            self.emptied += 1


@pytest.mark.parametrize("seed", range(4))
def test_nothing_is_ever_left_half(
    seed: int, collection: Collection, tmp_path: Path
) -> None:
    grower = Grower(collection, random.Random(seed), tmp_path)  # noqa: S311 -- a test
    for _ in range(STEPS):
        try:
            grower.step()
        except InputError:
            continue
        assert check(collection.folder).problems == ()
    grower.bin_plant() if collection.plants.all() else grower.add()
    while collection.history.undo():
        assert check(collection.folder).problems == ()
    while collection.history.redo():
        pass
    assert check(collection.folder).problems == ()
    long_ago = time.time() - 7200
    for file in (collection.folder / "photos").glob("*/*.*"):
        os.utime(file, (long_ago, long_ago))
    grower.empty()
    files = {file.stem for file in (collection.folder / "photos").glob("*/*.*")}
    plants = [key for key, _ in collection.plants.all()]
    named = {photo.path.stem for key in plants for photo in collection.photos.of(key)}
    assert files == named
    assert grower.emptied
