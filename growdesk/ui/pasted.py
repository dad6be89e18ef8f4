"""Take pictures out of what was dropped or pasted: files, or a picture without one."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtGui import QImage

from growdesk.ui import scratch
from growdesk.ui.tasks import Job, Lane, Tasks

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtCore import QMimeData
    from PySide6.QtWidgets import QWidget


def holds_pictures(data: QMimeData) -> bool:
    """Tell whether there are files or a picture in it."""
    return bool(files_in(data)) or data.hasImage()


def files_in(data: QMimeData) -> list[Path]:
    """Give the files it names."""
    urls = data.urls() if data.hasUrls() else []
    return [Path(url.toLocalFile()) for url in urls if url.isLocalFile()]


def pictures_in(
    data: QMimeData | None, asker: QWidget, use: Callable[[Sequence[Path]], object]
) -> bool:
    """Hand the files on, or the picture once it is one; tell whether there is any.

    A picture is written as a file beside the window: a large one takes seconds. A
    clipboard that the system does not hand out gives no data at all.
    """
    if data is None:
        return False
    files = files_in(data)
    if files:
        use(files)
        return True
    image = QImage(data.imageData()) if data.hasImage() else QImage()
    if image.isNull():
        return False
    tasks = tasks_of(asker)
    if tasks is None:
        use([as_file(image)])
    else:
        job = Job(lambda: as_file(image), lambda path: use([path]), lambda _error: None)
        tasks.ask(asker, job, Lane.PHOTOS)
    return True


def as_file(image: QImage) -> Path:
    """Give a picture as a file without loss; not for the thread that paints."""
    path = scratch.new_file("pasted.png")
    image.save(str(path))
    return path


def tasks_of(widget: QWidget) -> Tasks | None:
    """Give the lanes of the window that a widget belongs to, if it has any."""
    top: QWidget | None = widget
    while top is not None:
        found = top.findChild(Tasks)
        if isinstance(found, Tasks):
            return found
        top = top.parentWidget()
    return None
