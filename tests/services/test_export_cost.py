"""What an export and the way back cost with many photos: folders are synced once."""

from __future__ import annotations

from contextlib import closing
from datetime import date
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.transfer import export, read_folder, take_folder
from growdesk.services.values import PlantDraft
from growdesk.store import photos, whole_files

if TYPE_CHECKING:
    from pathlib import Path

DAY = date(2026, 11, 25)


@pytest.fixture
def looked_through(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Note each file beside which leftovers are looked for: that reads its folder."""
    names: list[str] = []
    was = whole_files._sweep_left

    def swept(target: Path) -> None:
        names.append(target.name)
        was(target)

    monkeypatch.setattr(whole_files, "_sweep_left", swept)
    return names


def test_no_folder_of_photos_is_gone_through_once_for_each_of_them(
    collection: Collection,
    tmp_path: Path,
    looked_through: list[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    plant = collection.plants.add(PlantDraft("A1", "Cattleya", "cattleya")).ids[0]
    paths = [tmp_path / f"{shade}.png" for shade in range(12)]
    for shade, path in enumerate(paths):
        Image.new("RGB", (9, 9), (shade * 20, 90, 0)).save(path)
    collection.photos.add(plant, paths)
    left = tmp_path / "out" / "photos" / f"{'0' * 64}.png.part"
    left.parent.mkdir(parents=True)
    left.touch()
    for keeps in (True, False):
        export(collection, tmp_path / "out", keep_location=keeps)
        assert len([*left.parent.iterdir()]) == len(paths)
    synced: list[Path] = []
    monkeypatch.setattr(photos, "sync_folder", synced.append)
    with closing(Collection.open(tmp_path / "n", FixedClock(DAY), create=True)) as new:
        take_folder(new, read_folder(tmp_path / "out"))
    below = tmp_path / "n" / "photos"
    assert set(synced) == {*below.iterdir(), below, below.parent}
    assert len(synced) == len(set(synced))
    assert not [name for name in looked_through if name.endswith((".png", ".part"))]
    assert "plants.csv" in looked_through
