"""The page of a plant's photos: what it takes to open, and to scroll through."""

from __future__ import annotations

import time
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

from growdesk.services.collection import Collection
from growdesk.ui.start import application
from growdesk.ui.tasks import Tasks
from growdesk.ui.widgets.parts import scrolled
from growdesk.ui.widgets.photo_page import PhotoPage
from growdesk.ui.widgets.thumbs import Thumbs
from tests.bench.bars import Bar, Limit, Pair
from tests.bench.ground import ON
from tests.bench.pictures import drawn

if TYPE_CHECKING:
    from growdesk.services.values import PlantDetail
    from tests.bench.ground import Ground

_PHOTOS = 500
_WIDE_PX, _HIGH_PX, _STEP_PX = 420, 400, 120
_THUMBNAIL_PX = (320, 240)
_FRAME_S = 0.002
_SIZE = (40,)


class _Pages:
    """Opens the page of one plant again and again; its pictures come as they do."""

    def __init__(self, ground: Ground) -> None:
        application()
        self.detail = _pictured(ground)
        self.tasks = Tasks()
        self.picture = ground.tmp / "thumbnail.jpg"
        drawn(*_THUMBNAIL_PX).save(self.picture, "JPEG", quality=82)
        self.clear_pictures()
        self.area = QScrollArea()

    def clear_pictures(self) -> None:
        """Forget the pictures that have come."""
        self.thumbs = Thumbs(self.tasks, lambda _photo: self.picture)

    def clear(self) -> None:
        """Take the page away that stands there, and its pictures."""
        self.clear_pictures()
        self.area.deleteLater()
        self.area = scrolled(QWidget(), "Photos")
        self.area.resize(_WIDE_PX, _HIGH_PX)
        self.area.show()
        QApplication.processEvents()

    def open(self) -> float:
        """Give the seconds of the window's thread until the page is painted."""
        began = time.thread_time()
        shown = self.detail, self.thumbs, print, lambda: None
        self.area.setWidget(PhotoPage(*shown, self.area.viewport()))
        QApplication.processEvents()
        return time.thread_time() - began

    def close(self) -> None:
        """Let all go."""
        self.area.deleteLater()
        self.tasks.stop()


def opened(ground: Ground) -> Pair:
    """Open the page of five hundred photos, a third of them with a note."""
    pages = _Pages(ground)
    return Pair(pages.open, before=pages.clear, close=pages.close)


def scrolled_through(ground: Ground) -> Pair:
    """Give the longest frame of scrolling that page to its end as its pictures come."""
    pages = _Pages(ground)

    def before() -> None:
        pages.clear()
        pages.open()

    def frame() -> float:
        began = time.thread_time()
        QApplication.processEvents()
        return time.thread_time() - began

    def scroll() -> float:
        bar, longest = pages.area.verticalScrollBar(), 0.0
        for at in range(0, bar.maximum(), _STEP_PX):
            began = time.thread_time()
            bar.setValue(at)
            moved = time.thread_time() - began + frame()
            longest = max(longest, moved)
            while pages.tasks.is_busy:
                longest = max(longest, frame())
                time.sleep(_FRAME_S)
        assert len(pages.thumbs._kept) > _PHOTOS // 2
        return longest

    return Pair(scroll, before=before, close=pages.close)


def _pictured(ground: Ground) -> PlantDetail:
    with_it = Collection.open(ground.copy(), ground.clock())
    view = with_it.day.view()
    every = (with_it.day.detail(each.plant_id, ON, view) for each in view.lines)
    detail = next(each for each in every if each.photos)
    with_it.close()
    note = "a new root at the base, as long as a fingernail, day {number}"
    photos = tuple(
        replace(
            detail.photos[0],
            photo_id=number + 1,
            path=Path(f"{number}.jpg"),
            taken_on=ON - timedelta(days=number),
            note="" if number % 3 else note.format(number=number),
        )
        for number in range(_PHOTOS)
    )
    return replace(detail, photos=photos)


BARS: tuple[Bar, ...] = (
    Bar(
        "photo-page",
        "A plant's page of 500 photos opened",
        "",
        Limit.ms(50),
        opened,
        _SIZE,
    ),
    Bar(
        "photo-page-scroll",
        "Longest frame, scrolling that page as its pictures come",
        "",
        Limit.ms(50),
        scrolled_through,
        _SIZE,
    ),
)
