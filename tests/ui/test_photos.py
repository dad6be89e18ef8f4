"""Photos in the window: dropped, pasted, taken in one by one, shown, put beside."""

from __future__ import annotations

import os
import threading
from typing import TYPE_CHECKING

import pytest
from PIL import Image
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import (
    QClipboard,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QGuiApplication,
    QImage,
)
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPushButton, QWidget

from growdesk.domain.facts import Flowering, Look
from growdesk.store import photos as files
from growdesk.store import pictures
from growdesk.ui import photo_reading
from growdesk.ui.dialogs.beside import MARK, MARKED, PIXELS, TOO_SHORT, BesideDialog
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.photo import PhotoDialog
from growdesk.ui.dialogs.photo_days import PhotoDaysDialog
from growdesk.ui.photo_forms import NO_PICTURE, ONE_PHOTO
from growdesk.ui.photo_words import PLACE_INSIDE
from tests.ui.driving import (
    dialog_of,
    focused,
    go_to,
    line_of,
    open_dialogs,
    press,
    retype,
    settle,
    status,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.values import PhotoView
    from growdesk.ui.window import Window

    Picture = Callable[..., Path]
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
COPY = Qt.DropAction.CopyAction


@pytest.fixture
def picture(tmp_path: Path) -> Picture:
    """Give a way to make a JPEG as a camera does, with a day and a place or without."""

    def make(
        name: str,
        colour: str = "green",
        size: tuple[int, int] = (640, 480),
        taken: str = "2026:05:03 10:00:00",
        *,
        placed: bool = False,
    ) -> Path:
        exif = Image.Exif()
        if taken:
            exif.get_ifd(0x8769)[0x9003] = taken
        if placed:
            exif.get_ifd(0x8825).update({1: "N", 2: (47.0, 1.0, 2.0)})
        path = tmp_path / name
        Image.new("RGB", size, colour).save(path, exif=exif)
        return path

    return make


@pytest.fixture
def plant(window: Window) -> int:
    go_to(window, "A1")
    return line_of(window, "A1").plant_id


def photos(window: Window, plant_id: int) -> tuple[PhotoView, ...]:
    return window.desk.collection.photos.of(plant_id)


def take(qtbot: QtBot, window: Window, plant_id: int, *paths: Path) -> None:
    window.photos.take(plant_id, paths)
    settle(qtbot, window)


def dragged(*paths: Path) -> QMimeData:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    return data


def hover(surface: QWidget, at: QPoint, data: QMimeData) -> QDragMoveEvent:
    QApplication.sendEvent(surface, QDragEnterEvent(at, COPY, data, LEFT, NONE))
    event = QDragMoveEvent(at, COPY, data, LEFT, NONE)
    QApplication.sendEvent(surface, event)
    return event


def drop(surface: QWidget, at: QPoint, data: QMimeData) -> QDropEvent:
    event = QDropEvent(QPointF(at), COPY, data, LEFT, NONE)
    QApplication.sendEvent(surface, event)
    return event


# -- in -------------------------------------------------------------------------------


def test_a_picture_dropped_on_a_line_goes_to_that_lines_plant(
    qtbot: QtBot, window: Window, plant: int, picture: Picture
) -> None:
    other = line_of(window, "A2").plant_id
    window.day_list.go_to(other)
    at = window.day_list.table.visualRect(window.day_list.table.currentIndex()).center()
    go_to(window, "A1")
    settle(qtbot, window)
    surface, veil = window.day_list.table.viewport(), window.day_list.photos.veil
    data = dragged(picture("a.jpg"))
    assert hover(surface, at, data).isAccepted()
    assert veil.isVisible()
    assert veil.text() == "Add to the photos of A2"
    assert veil.geometry().contains(at)
    QApplication.sendEvent(surface, QDragLeaveEvent())
    assert not veil.isVisible()
    hover(surface, at, data)
    assert drop(surface, at, data).isAccepted()
    assert not veil.isVisible()
    settle(qtbot, window)
    assert len(photos(window, other)) == 1
    assert photos(window, plant) == ()


def test_nothing_is_taken_between_the_lines_nor_what_is_no_file(
    window: Window, picture: Picture
) -> None:
    go_to(window, "A1")
    surface = window.day_list.table.viewport()
    below = QPoint(40, surface.height() - 4)
    assert not hover(surface, below, dragged(picture("a.jpg"))).isAccepted()
    words = QMimeData()
    words.setText("words")
    at = window.day_list.table.visualRect(window.day_list.table.currentIndex()).center()
    assert not hover(surface, at, words).isAccepted()
    assert not window.day_list.photos.veil.isVisible()


def test_pictures_dropped_on_the_plant_are_its_photos(
    qtbot: QtBot, window: Window, plant: int, picture: Picture
) -> None:
    settle(qtbot, window)
    data = dragged(picture("a.jpg", "red"), picture("b.jpg", "blue"))
    at = window.detail.rect().center()
    assert hover(window.detail, at, data).isAccepted()
    assert window.detail.photos.veil.text() == "Add to the photos of A1"
    drop(window.detail, at, data)
    settle(qtbot, window)
    assert len(photos(window, plant)) == 2
    assert "2 photos of A1 added" in status(window)
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert photos(window, plant) == ()


def test_ctrl_v_takes_a_picture_or_files_of_the_clipboard(
    qtbot: QtBot, window: Window, plant: int, picture: Picture
) -> None:
    board = QGuiApplication.clipboard()
    board.setMimeData(dragged(picture("a.jpg")))
    table = window.day_list.table
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    settle(qtbot, window)
    assert len(photos(window, plant)) == 1
    image = QImage(90, 60, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.darkBlue)
    board.setImage(image)
    window.commands["paste-photo"].trigger()
    settle(qtbot, window)
    dialog_of(window, PhotoDaysDialog).reject()
    assert {(p.width, p.height) for p in photos(window, plant)} == {
        (640, 480),
        (90, 60),
    }
    board.setText("words")
    window.commands["paste-photo"].trigger()
    settle(qtbot, window)
    assert status(window) == NO_PICTURE


def test_a_clipboard_that_is_not_handed_out_holds_no_picture(
    qtbot: QtBot, window: Window, plant: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A system may have nothing to give, or another program may hold it."""
    monkeypatch.setattr(QClipboard, "mimeData", lambda *_: None)
    window.commands["paste-photo"].trigger()
    settle(qtbot, window)
    assert status(window) == NO_PICTURE
    assert not photos(window, plant)


def test_ctrl_v_in_a_line_of_text_pastes_text(
    qtbot: QtBot, window: Window, plant: int
) -> None:
    QGuiApplication.clipboard().setText("A2")
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    window.commands["find"].trigger()
    edit = focused()
    assert isinstance(edit, QLineEdit)
    QTest.keyClick(edit, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    settle(qtbot, window)
    assert photos(window, plant) == ()
    assert edit.text() == "A2"


def test_a_broken_one_among_many_is_named_and_the_others_stay(
    qtbot: QtBot, window: Window, plant: int, picture: Picture, tmp_path: Path
) -> None:
    broken = tmp_path / "broken.jpg"
    broken.write_bytes(picture("whole.jpg").read_bytes()[:900])
    take(
        qtbot, window, plant, picture("a.jpg", "red"), broken, picture("b.jpg", "blue")
    )
    assert len(photos(window, plant)) == 2
    assert "broken.jpg is damaged or cut short. It was left out." in status(window)
    assert open_dialogs(window) == []


def test_a_stop_keeps_what_was_taken_in(
    qtbot: QtBot,
    window: Window,
    plant: int,
    picture: Picture,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    may_go_on, real = threading.Semaphore(0), files.put

    def slowly(folder: Path, photo: files.Examined) -> files.Stored:
        assert may_go_on.acquire(timeout=20)
        return real(folder, photo)

    monkeypatch.setattr(files, "put", slowly)
    paths = [picture(f"{n}.jpg", f"#{n}0{n}0{n}0") for n in range(1, 6)]
    window.photos.take(plant, paths)
    qtbot.waitUntil(window.long_panel.isVisible)
    assert open_dialogs(window) == []
    may_go_on.release()
    qtbot.waitUntil(lambda: window.long_panel.counted.text() == "1 of 5 photos")
    press(window.long_panel, "Cancel")
    may_go_on.release()
    settle(qtbot, window)
    assert len(photos(window, plant)) == 2
    assert status(window) == (
        "Cancelled: 2 of 5 photos were taken in; Undo takes them back."
    )
    assert window.commands["undo"].text() == "&Undo: 2 photos of A1 added"


def test_a_file_without_a_day_has_its_own_proposed_and_nothing_taken(
    qtbot: QtBot, window: Window, plant: int, picture: Picture
) -> None:
    path = picture("scan.jpg", taken="")
    os.utime(path, (1_750_000_000, 1_750_000_000))
    take(qtbot, window, plant, path)
    dialog = dialog_of(window, PhotoDaysDialog)
    (line,) = dialog.days.values()
    assert line.text() == "2025-06-15"
    assert "may be the day of a copy" in " ".join(
        each.text() for each in dialog.findChildren(QLabel)
    )
    assert photos(window, plant)[0].taken_on is None
    retype(line, "no day")
    dialog.try_save()
    assert dialog.isVisible()
    retype(line, "2025-06-14")
    dialog.try_save()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    day = photos(window, plant)[0].taken_on
    assert day is not None
    assert day.isoformat() == "2025-06-14"


# -- off the window's thread ----------------------------------------------------------


def test_no_picture_is_decoded_on_the_windows_thread(
    qtbot: QtBot,
    window: Window,
    plant: int,
    picture: Picture,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    decoded: list[tuple[str, int]] = []
    shown, opened = photo_reading.decode, pictures.opened

    def note_shown(path: Path, side: int | None) -> QImage:
        decoded.append(("full" if side is None else "scaled", threading.get_ident()))
        return shown(path, side)

    def note_opened(content: bytes) -> object:
        decoded.append(("intake", threading.get_ident()))
        return opened(content)

    monkeypatch.setattr(photo_reading, "decode", note_shown)
    monkeypatch.setattr(pictures, "opened", note_opened)
    window.detail.tabs.setCurrentIndex(1)
    large = picture("large.jpg", size=(4000, 3000))
    take(qtbot, window, plant, large, picture("b.jpg", "red"))
    QGuiApplication.clipboard().setImage(QImage(64, 48, QImage.Format.Format_RGB32))
    window.commands["paste-photo"].trigger()
    settle(qtbot, window)
    dialog_of(window, PhotoDaysDialog).reject()
    window.detail.photo_opened.emit(photos(window, plant)[0])
    settle(qtbot, window)
    dialog = dialog_of(window, PhotoDialog)
    while dialog.picture.whole.width() != 4000:
        dialog.step(1)
        settle(qtbot, window)
    assert "full" not in {how for how, _ in decoded}
    dialog.picture.zoom(dialog.picture.own_scale)
    settle(qtbot, window)
    dialog.reject()
    window.commands["beside"].trigger()
    settle(qtbot, window)
    dialog_of(window, BesideDialog).reject()
    assert {how for how, _ in decoded} == {"intake", "scaled", "full"}
    assert threading.get_ident() not in {thread for _, thread in decoded}


def test_a_photo_one_has_gone_on_from_is_not_decoded_any_more(
    qtbot: QtBot,
    window: Window,
    plant: int,
    picture: Picture,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    shades = ("red", "blue", "white", "black")
    days = [f"2026:05:0{n} 10:00:00" for n in range(1, 5)]
    paths = [picture(f"{c}.jpg", c, taken=t) for c, t in zip(shades, days, strict=True)]
    take(qtbot, window, plant, *paths)
    held, may_go_on, real = threading.Event(), threading.Event(), photo_reading.decode
    seen: list[Path] = []

    def slowly(path: Path, side: int | None) -> QImage:
        seen.append(path)
        held.set()
        assert may_go_on.wait(20)
        return real(path, side)

    monkeypatch.setattr(photo_reading, "decode", slowly)
    kept = photos(window, plant)
    window.detail.photo_opened.emit(kept[0])
    assert held.wait(20)
    dialog = dialog_of(window, PhotoDialog)
    for _ in range(3):
        dialog.step(1)
    may_go_on.set()
    settle(qtbot, window)
    assert seen == [kept[0].path, kept[3].path]
    assert dialog.picture.has_image
    dialog.reject()


def test_a_48_megapixel_photo_is_scaled_while_it_is_decoded(picture: Picture) -> None:
    path = picture("large.jpg", size=(8000, 6000))
    small = photo_reading.decode(path, photo_reading.FIT_PX)
    assert (small.width(), small.height()) == (1600, 1200)


def test_what_would_not_fit_the_memory_is_scaled_to_it(
    picture: Picture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(photo_reading, "MOST_PIXELS", 640 * 480 // 4)
    image = photo_reading.decode(picture("a.jpg"), None)
    assert (image.width(), image.height()) == (320, 240)


def test_a_heic_is_shown_too(
    qtbot: QtBot, window: Window, plant: int, tmp_path: Path
) -> None:
    import pillow_heif

    pillow_heif.register_heif_opener()
    path = tmp_path / "a.heic"
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = "2026:05:03 10:00:00"
    Image.new("RGB", (400, 300), "red").save(path, exif=exif.tobytes())
    take(qtbot, window, plant, path)
    window.detail.photo_opened.emit(photos(window, plant)[0])
    settle(qtbot, window)
    dialog = dialog_of(window, PhotoDialog)
    assert dialog.picture.has_image
    assert dialog.picture.whole.width() == 400
    dialog.reject()


# -- the tab --------------------------------------------------------------------------


def page_words(window: Window) -> list[str]:
    page = window.detail.tabs.currentWidget()
    assert page is not None
    return [each.text() for each in page.findChildren(QLabel) if each.isVisible()]


def test_the_tab_shows_photos_by_day_or_by_stage_with_place_and_note(
    qtbot: QtBot, window: Window, plant: int, picture: Picture, today: date
) -> None:
    collection = window.desk.collection
    flowers = frozenset({Flowering.OPEN})
    taken = f"{today:%Y:%m:%d} 08:00:00"
    old = picture("old.jpg", "red", taken="2024:05:03 10:00:00", placed=True)
    collection.photos.add(plant, [picture("a.jpg", taken=taken), old])
    collection.looks.record(plant, Look(today, flowering=flowers))
    window.detail.tabs.setCurrentIndex(1)
    window.desk.show_plant(plant)
    settle(qtbot, window)
    said = page_words(window)
    assert f"● {PLACE_INSIDE}" in said
    assert "3 May 2024" in said
    assert "In flower" not in said
    switch = window.detail.findChild(QPushButton, "photos by stage")
    assert isinstance(switch, QPushButton)
    switch.click()
    settle(qtbot, window)
    said = page_words(window)
    assert said.index("In flower") < said.index("No stage on record")
    assert f"1 photo, {today.year}" in said
    window.desk.show_plant(line_of(window, "A2").plant_id)
    settle(qtbot, window)
    window.desk.show_plant(plant)
    settle(qtbot, window)
    assert "In flower" in page_words(window)


def test_a_missing_file_is_told_in_the_tab(
    qtbot: QtBot, window: Window, plant: int, picture: Picture
) -> None:
    take(qtbot, window, plant, picture("a.jpg"))
    photos(window, plant)[0].path.unlink()
    window.detail.tabs.setCurrentIndex(1)
    window.desk.show_plant(plant)
    settle(qtbot, window)
    assert "The file is missing" in page_words(window)
    window.detail.photo_opened.emit(photos(window, plant)[0])
    dialog = dialog_of(window, PhotoDialog)
    assert "missing" in dialog.picture.words
    assert "a.jpg" in dialog.picture.words
    dialog.reject()


# -- the photo's window ---------------------------------------------------------------


@pytest.fixture
def three(qtbot: QtBot, window: Window, plant: int, picture: Picture) -> PhotoDialog:
    """Give the window of the newest of three photos."""
    paths = [
        picture(f"{n}.jpg", f"#{n}0{n}0{n}0", (1600, 1200), f"202{n}:05:03 10:00:00")
        for n in (3, 4, 5)
    ]
    take(qtbot, window, plant, *paths)
    window.detail.photo_opened.emit(photos(window, plant)[0])
    settle(qtbot, window)
    return dialog_of(window, PhotoDialog)


def test_the_keys_go_through_the_photos_and_zoom(
    qtbot: QtBot, window: Window, three: PhotoDialog
) -> None:
    picture, key = three.picture, QTest.keyClick
    assert not three.before.isEnabled()
    key(picture, Qt.Key.Key_PageDown)
    key(picture, Qt.Key.Key_Right)
    assert three.photo.taken_on is not None
    assert three.photo.taken_on.year == 2023
    assert not three.after.isEnabled()
    key(picture, Qt.Key.Key_PageDown)
    key(picture, Qt.Key.Key_Left)
    settle(qtbot, window)
    assert three.windowTitle() == "Photo of 3 May 2024"
    assert picture.scale == pytest.approx(picture.fit_scale)
    key(picture, Qt.Key.Key_1)
    assert picture.scale == pytest.approx(1 / picture.devicePixelRatioF())
    before = picture.centre.x()
    key(picture, Qt.Key.Key_Right)
    assert picture.centre.x() > before
    key(picture, Qt.Key.Key_Plus)
    assert picture.scale == pytest.approx(1.25)
    key(picture, Qt.Key.Key_0)
    assert picture.is_fit
    assert three.photo.taken_on.year == 2024
    three.reject()


def test_the_wheel_zooms_about_the_pointer_and_dragging_moves(
    three: PhotoDialog,
) -> None:
    picture = three.picture
    at = QPointF(200, 120)
    held = picture.to_picture(at)
    picture.zoom(picture.scale * 3, at)
    now = picture.to_picture(at)
    assert (now.x(), now.y()) == pytest.approx((held.x(), held.y()))
    start = QPoint(300, 150)
    before = picture.centre.x()
    QTest.mousePress(picture, LEFT, NONE, start)
    QTest.mouseMove(picture, start - QPoint(50, 0))
    QTest.mouseRelease(picture, LEFT, NONE, start - QPoint(50, 0))
    assert picture.centre.x() == pytest.approx(before + 50 / picture.scale, abs=1)
    three.reject()


def test_day_and_note_are_written_when_one_goes_on(
    qtbot: QtBot, window: Window, plant: int, three: PhotoDialog
) -> None:
    retype(three.note, "two eyes")
    retype(three.day, "3.5.2022")
    three.step(1)
    settle(qtbot, window)
    notes = {photo.note: photo.taken_on for photo in photos(window, plant)}
    assert str(notes["two eyes"]) == "2022-05-03"
    assert three.photo.taken_on is not None
    assert three.photo.taken_on.year == 2024
    retype(three.day, "May")
    three.step(1)
    assert three.photo.taken_on.year == 2024
    retype(three.day, "2050-01-01")
    assert three.save()
    settle(qtbot, window)
    said = [each.text() for each in three.form.findChildren(QLabel) if each.isVisible()]
    assert any("still to come" in text for text in said)
    assert three.day.text() == "2050-01-01"
    retype(three.day, "2024-05-03")
    three.reject()
    settle(qtbot, window)
    assert open_dialogs(window) == []


def test_a_slip_is_pointed_at_once_before_the_window_closes(
    window: Window, three: PhotoDialog
) -> None:
    retype(three.day, "May")
    three.reject()
    assert three.isVisible()
    three.reject()
    assert open_dialogs(window) == []


def test_a_photo_starts_a_look_of_its_day(
    qtbot: QtBot, window: Window, plant: int, three: PhotoDialog
) -> None:
    photo = three.photo
    press(three, "Start a look from this photo…")
    settle(qtbot, window)
    dialog = dialog_of(window, LookDialog)
    assert dialog.day.text() == "2025-05-03"
    assert dialog.photos.paths == (photo.path,)
    assert dialog.photos.held()[0][1] == "Photo of 3 May 2025"
    dialog.try_save()
    settle(qtbot, window)
    (kept,) = [p for p in photos(window, plant) if p.photo_id == photo.photo_id]
    assert kept.look_id is not None
    assert len(photos(window, plant)) == 3
    window.detail.photo_opened.emit(kept)
    again = dialog_of(window, PhotoDialog)
    press(again, "Open its look…")
    settle(qtbot, window)
    dialog = dialog_of(window, LookDialog)
    assert "3 May 2025" in dialog.windowTitle()
    dialog.reject()


def test_the_window_goes_on_with_the_next_once_one_is_removed(
    qtbot: QtBot, window: Window, plant: int, three: PhotoDialog
) -> None:
    for left in (2, 1):
        press(three, "&Remove")
        settle(qtbot, window)
        assert len(photos(window, plant)) == left
        assert three.isVisible()
        ids = [photo.photo_id for photo in photos(window, plant)]
        assert three.photo.photo_id in ids
    press(three, "&Remove")
    settle(qtbot, window)
    assert open_dialogs(window) == []


# -- side by side ---------------------------------------------------------------------


def test_one_photo_has_nothing_beside_it(
    qtbot: QtBot, window: Window, plant: int, picture: Picture
) -> None:
    take(qtbot, window, plant, picture("a.jpg"))
    window.commands["beside"].trigger()
    settle(qtbot, window)
    assert status(window) == ONE_PHOTO
    assert open_dialogs(window) == []


@pytest.fixture
def beside(qtbot: QtBot, window: Window, plant: int, picture: Picture) -> BesideDialog:
    """Give the window of two photos of different size, in flower in two years."""
    collection = window.desk.collection
    paths = [
        picture("new.jpg", "red", (1200, 900), "2026:03:03 10:00:00"),
        picture("between.jpg", "blue", (800, 600), "2025:10:03 10:00:00"),
        picture("old.jpg", "white", (600, 450), "2025:03:03 10:00:00"),
    ]
    collection.photos.add(plant, paths)
    for photo in collection.photos.of(plant):
        if photo.taken_on is not None and photo.taken_on.month == 3:
            look = Look(photo.taken_on, flowering=frozenset({Flowering.OPEN}))
            collection.looks.record(plant, look)
    window.desk.show_plant(plant)
    settle(qtbot, window)
    window.commands["beside"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, BesideDialog)
    qtbot.waitUntil(
        lambda: dialog.left.picture.has_image and dialog.right.picture.has_image
    )
    return dialog


def test_the_same_stage_of_another_year_stands_beside_at_the_same_scale(
    beside: BesideDialog,
) -> None:
    left, right = beside.left, beside.right
    assert left.caption.text() == "3 Mar 2026 · in flower"
    assert right.caption.text() == "3 Mar 2025 · in flower"
    assert left.picture.scale == right.picture.scale
    assert beside.told.text() == PIXELS
    beside.reject()


def test_both_move_and_zoom_together_from_either_side(beside: BesideDialog) -> None:
    left, right = beside.left.picture, beside.right.picture
    middle = QPointF(right.centre)
    left.zoom(1.0)
    left.pan(30, -20)
    assert right.scale == left.scale == 1.0
    assert right.centre - middle == QPointF(30, -20)
    QTest.keyClick(right, Qt.Key.Key_Plus)
    assert left.scale == right.scale == pytest.approx(1.25)
    QTest.keyClick(right, Qt.Key.Key_0)
    assert left.scale == right.scale < 1.0
    beside.reject()


def test_two_marks_on_each_set_the_scale(beside: BesideDialog) -> None:
    left, right = beside.left.picture, beside.right.picture
    beside.mark_button.click()
    assert beside.told.text() == MARK
    for picture, ends in (
        (left, (QPointF(200, 500), QPointF(800, 500))),
        (right, (QPointF(100, 250), QPointF(300, 250))),
    ):
        for end in ends:
            at = picture.to_window(end).toPoint()
            QTest.mouseClick(picture, LEFT, NONE, at)
    assert beside.told.text() == MARKED
    assert not left.marking
    lengths = []
    for picture in (left, right):
        one, other = map(picture.to_window, picture.marks)
        lengths.append(other.x() - one.x())
    assert lengths[0] == pytest.approx(lengths[1])
    assert left.to_window(left.marks[0]).y() == pytest.approx(
        right.to_window(right.marks[0]).y(), abs=2
    )
    left.zoom(left.scale * 2)
    assert right.scale / left.scale == pytest.approx(beside.pairing.factor)
    press(beside, "By &pixels")
    assert left.scale == right.scale
    assert left.marks == ()
    beside.reject()


def test_marks_are_set_by_keyboard_and_too_close_ones_are_told(
    beside: BesideDialog,
) -> None:
    beside.mark_button.click()
    key = QTest.keyClick
    for picture in (beside.left.picture, beside.right.picture):
        key(picture, Qt.Key.Key_Space)
        if picture is beside.left.picture:
            for _ in range(10):
                key(picture, Qt.Key.Key_Right)
        key(picture, Qt.Key.Key_Space)
    assert beside.told.text() == TOO_SHORT
    right = beside.right.picture
    key(right, Qt.Key.Key_Space)
    assert beside.told.text() == MARK
    for _ in range(10):
        key(right, Qt.Key.Key_Right)
    key(right, Qt.Key.Key_Return)
    assert beside.told.text() == MARKED
    assert beside.pairing.factor == pytest.approx(1.0)
    beside.reject()


def test_a_side_is_chosen_from_its_strip(
    qtbot: QtBot, window: Window, beside: BesideDialog
) -> None:
    beside.right.tiles[1].click()
    settle(qtbot, window)
    assert beside.right.caption.text().startswith("3 Oct 2025")
    assert beside.right.picture.whole.width() == 800
    assert beside.left.picture.scale == beside.right.picture.scale
    beside.reject()
