"""Bring one photo after another into a picture, read on the photos' lane."""

from __future__ import annotations

from threading import Event
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSize

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.speech import tr
from growdesk.ui import photo_reading, photo_words
from growdesk.ui.tasks import Job, Lane, Tasks

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtGui import QImage

    from growdesk.services.values import PhotoView
    from growdesk.ui.widgets.picture import Picture


class Loader(QObject):
    """Brings one photo after another into a picture; leaving one calls it off."""

    def __init__(
        self, picture: Picture, tasks: Tasks, drawable: Callable[[int], Path | None]
    ) -> None:
        super().__init__(picture)
        self._picture = picture
        self._tasks = tasks
        self._drawable = drawable
        self._gone = Event()
        self._photo: PhotoView | None = None
        self._has_full = False
        picture.full_wanted.connect(self._ask_full)

    def show(self, photo: PhotoView) -> None:
        """Show a photo as soon as it is read, or why it cannot be shown."""
        self.leave()
        self._photo = photo
        self._has_full = False
        if photo.problem is not None:
            self._picture.show_words(photo.problem)
            return
        self._picture.show_words(tr("Reading the photo…"))
        self._ask("fit", photo_reading.FIT_PX, self._show_fit)

    def leave(self) -> None:
        """Call off what has not been begun; nothing is shown any more."""
        self._gone.set()
        self._gone = Event()
        self._photo = None

    def _ask_full(self) -> None:
        if self._photo is not None and not self._has_full:
            self._has_full = True
            self._ask("full", None, self._picture.show_full)

    def _ask(
        self, topic: str, side: int | None, show: Callable[[QImage], object]
    ) -> None:
        photo, gone, drawable = self._photo, self._gone, self._drawable
        if photo is None:
            return

        def work() -> QImage | None:
            return None if gone.is_set() else photo_reading.read(photo, side, drawable)

        def arrived(image: QImage | None) -> None:
            if image is None or gone.is_set():
                return
            if image.isNull():
                self._unreadable(None)
            else:
                show(image)

        job = Job(work, arrived, self._unreadable, topic)
        self._tasks.ask(self._picture, job, Lane.PHOTOS)

    def _show_fit(self, image: QImage) -> None:
        photo = self._photo
        if photo is not None:
            whole = QSize(photo.width, photo.height)
            self._picture.show_fit(image, whole if photo.width else image.size())

    def _unreadable(self, error: Exception | None) -> None:
        if self._photo is not None and not self._picture.has_image:
            self._picture.show_words(
                error.line()
                if isinstance(error, GrowdeskError)
                else tr(photo_words.UNREADABLE)
            )
