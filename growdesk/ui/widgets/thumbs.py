"""Load thumbnails off the window's thread and hand them out as pixmaps.

The reading is done as ``QImage`` on the photos' lane, scaled while decoding and turned
as the camera says; only the ``QPixmap`` is made here. A photo that cannot be shown
keeps its reason in words.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSize
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import photo_words
from growdesk.ui.tasks import Job, Lane, Tasks
from growdesk.ui.tips import as_typed

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from PySide6.QtGui import QPaintEvent

    from growdesk.services.values import PhotoView

SIDE = 104
_MOST = 400


class Thumbs(QObject):
    """A small cache of thumbnails by file, since a file never changes its content."""

    def __init__(self, tasks: Tasks, make: Callable[[PhotoView], Path | None]) -> None:
        super().__init__()
        self._tasks = tasks
        self._make = make
        self._kept: dict[Path, QPixmap] = {}
        self._asked: set[Path] = set()

    def show_in(self, photo: PhotoView, target: QLabel | QPushButton) -> None:
        """Put the photo's thumbnail into a label or button as soon as it is read."""
        kept = self._kept.get(photo.path)
        if kept is not None and not kept.isNull():
            _put(target, kept)
            return
        work = partial(self._make, photo)
        arrived = partial(self._made, photo, target)
        job = Job(work, arrived, partial(_say_bad, target))
        self._tasks.ask(target, job, Lane.PHOTOS)

    def picture(
        self, photo: PhotoView, owner: QObject, arrived: Callable[[], object]
    ) -> QPixmap | None:
        """Give a thumbnail for painting; none yet where it has to be read first.

        ``arrived`` is called once it is there. An unreadable one is an empty pixmap.
        """
        kept = self._kept.get(photo.path)
        if kept is not None or photo.path in self._asked:
            return kept
        self._asked.add(photo.path)

        def keep(image: QImage) -> None:
            self._asked.discard(photo.path)
            self._keep(photo, image)
            arrived()

        job = Job(partial(self._read, photo), keep, lambda _error: keep(QImage()))
        self._tasks.ask(owner, job, Lane.PHOTOS)
        return None

    def _read(self, photo: PhotoView) -> QImage:
        path = self._make(photo)
        return QImage() if path is None else _decoded(path)

    def _keep(self, photo: PhotoView, image: QImage) -> QPixmap:
        if len(self._kept) >= _MOST:
            self._kept.pop(next(iter(self._kept)))
        picture = QPixmap.fromImage(image)
        self._kept[photo.path] = picture
        return picture

    def _made(
        self, photo: PhotoView, target: QLabel | QPushButton, path: Path | None
    ) -> None:
        if path is None:
            _say_why(target, photo, tr("No picture"))
            return
        self._tasks.ask(
            target,
            Job(
                partial(_decoded, path),
                partial(self._arrived, photo, target),
                partial(_say_bad, target),
            ),
            Lane.PHOTOS,
        )

    def _arrived(
        self, photo: PhotoView, target: QLabel | QPushButton, image: QImage
    ) -> None:
        if image.isNull():
            _say_why(target, photo, tr("Unreadable"))
            return
        _put(target, self._keep(photo, image))


def strip(
    photos: Sequence[PhotoView],
    thumbs: Thumbs,
    opened: Callable[[PhotoView], object],
    columns: int = 4,
) -> QWidget:
    """Give a row of thumbnails, each a button that opens its photo."""
    row = QWidget()
    layout = QHBoxLayout(row)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(6)
    for photo in photos[:columns]:
        layout.addWidget(tile(photo, thumbs, opened))
    if len(photos) > columns:
        layout.addWidget(QLabel(f"+ {len(photos) - columns}"))
    layout.addStretch(1)
    return row


def tile(
    photo: PhotoView, thumbs: Thumbs, opened: Callable[[PhotoView], object]
) -> QPushButton:
    """Give one thumbnail as a button; its picture is asked for once it is in sight."""
    made = _Tile("…")
    made.setFixedSize(SIDE, SIDE)
    made.setObjectName(f"photo-{photo.photo_id}")
    made.setAccessibleName(photo_words.told(photo))
    made.setToolTip(as_typed(photo_words.told(photo)))
    made.clicked.connect(lambda: opened(photo))
    if photo.problem:
        _say(made, tr("missing"))
    else:
        made.in_sight = partial(thumbs.show_in, photo, made)
    return made


class _Tile(QPushButton):
    """A button that calls once when it is first painted.

    It has its size before its picture has come; a style sheet's least height would take
    a fixed one's place.
    """

    in_sight: Callable[[], object] | None = None

    @override
    def sizeHint(self) -> QSize:
        return QSize(SIDE, SIDE)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        called, self.in_sight = self.in_sight, None
        if called is not None:
            called()
        super().paintEvent(event)


def _put(target: QLabel | QPushButton, picture: QPixmap) -> None:
    if isinstance(target, QLabel):
        target.setPixmap(picture)
        return
    target.setText("")
    target.setIconSize(QSize(SIDE - 10, SIDE - 10))
    target.setIcon(picture)


def _say(target: QLabel | QPushButton, text: str) -> None:
    target.setText(text)


def _say_why(target: QLabel | QPushButton, photo: PhotoView, short: str) -> None:
    """Say shortly that there is no picture, and why where one points."""
    why = photo.problem or tr(photo_words.UNREADABLE)
    target.setText(short)
    told = photo_words.told(photo)
    target.setToolTip(as_typed(f"{told}\n{why}"))
    target.setAccessibleDescription(why)


def _say_bad(target: QLabel | QPushButton, _error: Exception) -> None:
    target.setText(tr("Unreadable"))


def _decoded(path: Path) -> QImage:
    from growdesk.ui import photo_reading  # noqa: PLC0415 -- with the first photo

    return photo_reading.decode(path, 2 * SIDE)
