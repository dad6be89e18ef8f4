"""What growdesk makes for the grower is the owner's alone; what goes out is not."""

from __future__ import annotations

import os
import stat
from typing import TYPE_CHECKING

import pytest

from growdesk.services import care_of_files, transfer
from growdesk.services.collection import Collection
from growdesk.services.second_place import choose, places_of

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

pytestmark = pytest.mark.skipif(os.name != "posix", reason="modes of files are POSIX's")


@pytest.fixture(autouse=True)
def usual_umask() -> Iterator[None]:
    before = os.umask(0o022)
    yield
    os.umask(before)


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_the_folder_of_a_new_collection_is_the_owner_s_alone(
    collection: Collection,
) -> None:
    assert mode(collection.folder) == 0o700


def test_a_folder_that_was_there_stays_as_open_as_it_was(
    tmp_path: Path, collection: Collection
) -> None:
    """Who shares a folder on purpose goes on sharing it."""
    shared = tmp_path / "shared"
    shared.mkdir()
    shared.chmod(0o775)
    Collection.open(shared, collection.clock, create=True).close()
    assert mode(shared) == 0o775


@pytest.mark.file
def test_a_backup_file_is_the_owner_s_alone(
    collection: Collection, tmp_path: Path
) -> None:
    file = tmp_path / "whole.zip"
    care_of_files.backup(collection, file)
    assert mode(file) == 0o600


def test_a_second_place_for_backups_is_the_owner_s_alone(
    collection: Collection, tmp_path: Path
) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    choose(collection.folder, stick, collection.clock.now())
    own, second = places_of(collection.folder)
    assert own.parent == collection.folder
    assert second.parent == stick
    assert mode(second) == 0o700


def test_tables_that_go_out_are_as_open_as_the_system_makes_files(
    collection: Collection, tmp_path: Path
) -> None:
    transfer.export(collection, tmp_path / "tables")
    assert mode(tmp_path / "tables") == 0o755
    assert mode(next((tmp_path / "tables").glob("*.csv"))) == 0o644
