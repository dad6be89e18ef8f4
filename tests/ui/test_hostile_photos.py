"""Photos of the collection whose files were harmed: a reason in place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QPushButton

from growdesk.ui import photo_reading
from growdesk.ui.dialogs.photo import PhotoDialog
from tests.faults import picture_files as made
from tests.faults.test_pictures import HARMED, pipes
from tests.ui.driving import dialog_of, go_to, line_of, settle

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window


@pipes
def test_harmed_photos_say_why_and_the_next_is_shown(
    qtbot: QtBot, window: Window, tmp_path: Path
) -> None:
    go_to(window, "A2")
    window.detail.tabs.setCurrentIndex(1)
    plant = line_of(window, "A1").plant_id
    paths = [tmp_path / f"{number}.jpg" for number in range(len(HARMED) + 1)]
    for path in paths:
        path.write_bytes(made.camera_jpeg((90, 60)))
    window.desk.collection.photos.add(plant, paths)
    whole, *harmed = window.desk.collection.photos.of(plant)
    for harm, photo in zip(HARMED, harmed, strict=True):
        harm(photo.path)
    go_to(window, "A1")
    settle(qtbot, window)
    tiles = [
        window.detail.findChild(QPushButton, f"photo-{photo.photo_id}")
        for photo in harmed
    ]
    for tile in tiles:
        assert tile is not None
        tile.grab()
    settle(qtbot, window)
    assert [tile.text() for tile in tiles if tile] == ["missing"] + ["No picture"] * 6
    assert all("Add the photo again" in tile.toolTip() for tile in tiles[1:] if tile)
    window.detail.photo_opened.emit(whole)
    settle(qtbot, window)
    dialog = dialog_of(window, PhotoDialog)
    for photo in harmed:
        dialog.step(1)
        settle(qtbot, window)
        assert dialog.photo.photo_id == photo.photo_id
        assert not dialog.picture.has_image
        assert "dd the photo again" in dialog.picture.words
    for _ in harmed:
        dialog.step(-1)
    settle(qtbot, window)
    assert dialog.picture.has_image
    dialog.reject()


def test_a_window_never_draws_what_is_no_picture_of_dots(tmp_path: Path) -> None:
    path = tmp_path / "a.png"
    path.write_bytes(
        b'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9">'
        b'<rect width="9" height="9" fill="red"/></svg>'
    )
    assert photo_reading.decode(path, None).isNull()
    path.write_bytes(made.camera_jpeg())
    assert photo_reading.decode(path, None).width() == 320
