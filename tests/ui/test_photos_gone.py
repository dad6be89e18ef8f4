"""F10: photo files that go, or become something else, while the window is open."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QPushButton

from tests.ui.driving import settle

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


@pytest.fixture
def photo(stocked: Collection, tmp_path: Path) -> Path:
    """Give the file of the one photo of a plant that is not shown first."""
    from PIL import Image  # noqa: PLC0415 -- not with every test of the window

    Image.new("RGB", (64, 48), (20, 120, 60)).save(tmp_path / "base.png")
    last = stocked.plants.all()[-1][0]
    stocked.photos.add(last, [tmp_path / "base.png"])
    return stocked.photos.of(last)[0].path


def tile(window: Window) -> QPushButton:
    found = [
        each
        for each in window.detail.findChildren(QPushButton)
        if each.objectName().startswith("photo-") and each.isVisibleTo(window.detail)
    ]
    assert found
    return found[0]


@pytest.mark.parametrize("how", ["deleted", "cut", "another file", "a folder"])
def test_it_is_told_in_its_place_and_the_list_goes_on(
    qtbot: QtBot,
    show: Callable[[Collection], Window],
    stocked: Collection,
    photo: Path,
    how: str,
) -> None:
    last = stocked.plants.all()[-1][0]
    window = show(stocked)
    assert window.desk.detail is None or window.desk.detail.plant_id != last
    window.detail.tabs.setCurrentIndex(1)
    settle(qtbot, window)
    content = photo.read_bytes()
    photo.unlink()
    if how == "cut":
        photo.write_bytes(content[: len(content) // 2])
    elif how == "another file":
        photo.write_bytes(b"<html>no photo</html>")
    elif how == "a folder":
        photo.mkdir()
    shutil.rmtree(stocked.folder / "thumbnails", ignore_errors=True)
    window.desk.show_plant(last)
    settle(qtbot, window)
    made = tile(window)
    qtbot.waitUntil(lambda: bool(why(made)), timeout=10_000)
    assert "bring back a backup" in why(made)
    lines = window.day_list.model.lines
    window.day_list.tick_wanted.emit((lines[0].plant_id,))
    settle(qtbot, window)
    assert window.day_list.model.lines[0].done is not None


def why(made: QPushButton) -> str:
    for text in (made.accessibleDescription(), made.accessibleName(), made.toolTip()):
        if "backup" in text:
            return text
    return ""
