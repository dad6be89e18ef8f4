"""Gather photos for a look or a plant: chosen, dropped or pasted.

Holds paths only; whether a file is a good photo is found out when it is taken in.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import (
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QImage,
    QKeyEvent,
    QKeySequence,
)
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QListWidget,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.ui import scratch
from growdesk.ui.widgets.parts import button

if TYPE_CHECKING:
    from collections.abc import Iterable

PICTURES = (
    "Pictures (*.jpg *.jpeg *.png *.webp *.tif *.tiff *.bmp *.gif);;All files (*)"
)


class PhotoBox(QWidget):
    """A list of picture files with ways to add and to leave out."""

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptDrops(True)
        self._paths: list[Path] = []
        self._list = QListWidget()
        self._list.setAccessibleName("Photos to add")
        self._list.setFixedHeight(68)
        self._list.setToolTip("Drop pictures here, or paste one with Ctrl+V")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self._list, 1)
        buttons = QVBoxLayout()
        buttons.setSpacing(4)
        add = button("Add photos…", self._choose)
        buttons.addWidget(add)
        buttons.addWidget(button("Remove the photo", self._leave_out))
        buttons.addStretch(1)
        row.addLayout(buttons)
        self.setFocusProxy(add)

    @property
    def paths(self) -> tuple[Path, ...]:
        """Give the files gathered."""
        return tuple(self._paths)

    def held(self) -> tuple[Path, ...]:
        """Give what a kept draft needs of the list."""
        return self.paths

    def hold(self, value: tuple[Path, ...]) -> None:
        """Put back what a kept draft had."""
        self._paths.clear()
        self._list.clear()
        self.add(value)

    def add(self, paths: Iterable[Path]) -> None:
        """Take files in, each once."""
        for path in paths:
            if path not in self._paths:
                self._paths.append(path)
                self._list.addItem(path.name)

    def paste(self) -> None:
        """Take the picture or files of the clipboard in."""
        data = QGuiApplication.clipboard().mimeData()
        if data.hasUrls():
            self.add(Path(u.toLocalFile()) for u in data.urls() if u.isLocalFile())
        elif data.hasImage():
            self.add([_as_file(QGuiApplication.clipboard().image())])

    @override
    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if event.mimeData().hasUrls():
            event.acceptProposedAction()

    @override
    def dropEvent(self, event: QDropEvent) -> None:
        urls = event.mimeData().urls()
        self.add(Path(url.toLocalFile()) for url in urls if url.isLocalFile())
        event.acceptProposedAction()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        elif event.key() == Qt.Key.Key_Delete:
            self._leave_out()
        else:
            super().keyPressEvent(event)

    def _choose(self) -> None:
        dialog = QFileDialog(self, "Add photos", "", PICTURES)
        dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.filesSelected.connect(lambda names: self.add(Path(n) for n in names))
        dialog.open()

    def leave_out(self, row: int) -> None:
        """Take a file off the list."""
        if 0 <= row < len(self._paths):
            self._list.takeItem(row)
            del self._paths[row]

    def _leave_out(self) -> None:
        self.leave_out(self._list.currentRow())


def _as_file(image: QImage) -> Path:
    path = scratch.new_file("pasted.png")
    image.save(str(path))
    return path
