"""A photo that is gone or damaged comes back out of a backup, the very same photo."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.services import backups, second_place
from growdesk.services.backup_values import Why
from growdesk.services.full_check import look_through
from growdesk.services.photos_back import put_back
from growdesk.services.values import PlantDraft
from growdesk.store.whole_files import make_folder

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection import Collection

pytestmark = pytest.mark.file

NOON = datetime(2026, 5, 20, 12, tzinfo=UTC)


@pytest.fixture
def photo(collection: Collection, tmp_path: Path) -> Path:
    """Give the one photo, of plant A1, in the collection's folder; a backup has it."""
    picture = tmp_path / "picture.jpg"
    Image.new("RGB", (40, 30), (20, 120, 60)).save(picture)
    first = collection.plants.add(PlantDraft("A1", "Cattleya hybrid", "cattleya"))
    collection.photos.add(first.ids[0], [picture])
    (photo,) = (collection.folder / "photos").glob("*/*")
    backups.make(collection.folder, Why.BY_HAND, NOON)
    return photo


def test_one_that_is_gone_or_cut_is_put_back(
    collection: Collection, photo: Path
) -> None:
    folder, content = collection.folder, photo.read_bytes()
    for spoilt in (None, content[:-9]):
        photo.unlink()
        if spoilt is not None:
            photo.write_bytes(spoilt)
        found = look_through(folder, is_open=True)
        assert found.damage[0].sentence.endswith("A backup has it whole.")
        assert put_back(folder, found.photos_kept).title == (
            "1 photo put back out of a backup"
        )
        assert photo.read_bytes() == content
        assert not look_through(folder, is_open=True).damage


def test_the_second_place_gives_it_where_both_names_here_are_damaged(
    collection: Collection, photo: Path, tmp_path: Path
) -> None:
    folder, content = collection.folder, photo.read_bytes()
    make_folder(tmp_path / "stick")
    second_place.choose(folder, tmp_path / "stick", NOON)
    second_place.copy_last(folder, NOON)
    with photo.open("r+b") as file:  # in place: the pool's name is of the same file
        file.write(b"rotten")
    found = look_through(folder, is_open=True)
    put_back(folder, found.photos_kept)
    assert photo.read_bytes() == content
    (kept,) = (folder / "backups" / "photos").glob("*/*")
    assert kept.read_bytes() != content
    made = backups.make(folder, Why.BY_HAND, NOON)
    assert backups.prove(made) == ""


def test_what_no_backup_has_is_left_as_it_is(
    collection: Collection, photo: Path
) -> None:
    folder = collection.folder
    with photo.open("r+b") as file:
        file.write(b"rotten")
    rotten = photo.read_bytes()
    found = look_through(folder, is_open=True)
    assert found.photos_kept == ()
    assert not found.damage[0].sentence.endswith("whole.")
    put_back(folder, [photo.relative_to(folder).as_posix(), "../elsewhere.jpg"])
    assert photo.read_bytes() == rotten
