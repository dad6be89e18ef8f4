"""Show one photo as large as the window allows, read off the window's thread."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import QDialogButtonBox, QLabel, QVBoxLayout, QWidget

from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.tasks import Job, Lane, Tasks
from growdesk.ui.widgets.thumbs import photo_name, read_scaled

if TYPE_CHECKING:
    from growdesk.services.values import PhotoView

_SIDE = 760


class PhotoDialog(OnScreen):
    """One photo, or in words why it cannot be shown."""

    remove_wanted = Signal()

    def __init__(self, parent: QWidget | None, photo: PhotoView, tasks: Tasks) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(photo_name(photo))
        self._picture = QLabel(photo.problem or "Reading the photo…")
        self._picture.setAccessibleName(photo_name(photo))
        self._picture.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._picture.setMinimumSize(480, 360)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.accept)
        remove = buttons.addButton(
            "Remove the photo", QDialogButtonBox.ButtonRole.DestructiveRole
        )
        remove.setToolTip("It comes back by Undo")
        remove.clicked.connect(self._remove)
        outer = QVBoxLayout(self)
        outer.addWidget(self._picture, 1)
        outer.addWidget(buttons)
        if photo.problem is None:
            side = round(_SIDE * self.devicePixelRatioF())
            work = partial(read_scaled, photo.path, side)
            tasks.ask(self, Job(work, self._show, self._bad), Lane.SIDE)

    def _show(self, image: QImage) -> None:
        if image.isNull():
            self._picture.setText("This photo cannot be read.")
            return
        picture = QPixmap.fromImage(image)
        picture.setDevicePixelRatio(self.devicePixelRatioF())
        self._picture.setPixmap(picture)
        self.adjustSize()

    def _bad(self, _error: Exception) -> None:
        self._picture.setText("This photo cannot be read.")

    def _remove(self) -> None:
        self.remove_wanted.emit()
        self.accept()
