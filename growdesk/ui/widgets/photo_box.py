"""Gather photos for a look or a plant: chosen, dropped or pasted.

Holds paths only; whether a file is a good photo is found out when it is taken in.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDropEvent,
    QGuiApplication,
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

from growdesk.domain.speech import mark, tr
from growdesk.ui import pasted, sizes
from growdesk.ui.dropping import Veil
from growdesk.ui.widgets.parts import button

if TYPE_CHECKING:
    from collections.abc import Iterable

PICTURES = mark(
    "Pictures (*.jpg *.jpeg *.png *.webp *.heic *.heif *.avif *.tif *.tiff *.bmp *.gif"
    " *.mpo);;All files (*)"
)


class PhotoBox(QWidget):
    """A list of picture files with ways to add and to leave out."""

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptDrops(True)
        self._paths: list[Path] = []
        self._veil = Veil(self)
        self._list = QListWidget()
        self._list.setAccessibleName(tr("Photos to add"))
        sizes.high(self._list, 68)
        self._list.setToolTip(tr("Drop pictures here, or paste one with Ctrl+V"))
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self._list, 1)
        buttons = QVBoxLayout()
        buttons.setSpacing(4)
        add = button(tr("Add photos…"), self._choose)
        buttons.addWidget(add)
        buttons.addWidget(button(tr("Remove the photo"), self._leave_out))
        buttons.addStretch(1)
        row.addLayout(buttons)
        self.setFocusProxy(add)

    @property
    def paths(self) -> tuple[Path, ...]:
        """Give the files gathered."""
        return tuple(self._paths)

    def held(self) -> tuple[tuple[Path, str], ...]:
        """Give what a kept draft needs of the list."""
        shown = (self._list.item(row).text() for row in range(len(self._paths)))
        return tuple(zip(self._paths, shown, strict=True))

    def hold(self, value: tuple[tuple[Path, str], ...]) -> None:
        """Put back what a kept draft had."""
        self._paths.clear()
        self._list.clear()
        for path, shown in value:
            self.add_as(path, shown)

    def add_as(self, path: Path, shown: str) -> None:
        """Take a file in under words of its own."""
        if path not in self._paths:
            self._paths.append(path)
            self._list.addItem(shown)

    def add(self, paths: Iterable[Path]) -> None:
        """Take files in, each once."""
        for path in paths:
            self.add_as(path, path.name)

    def paste(self) -> bool:
        """Take the picture or files of the clipboard in; tell whether there are any."""
        data = QGuiApplication.clipboard().mimeData()
        return pasted.pictures_in(data, self, self.add)

    @override
    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if pasted.holds_pictures(event.mimeData()):
            self._veil.cover(self.rect(), tr("Add to the look"))
            event.acceptProposedAction()

    @override
    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        self._veil.hide()

    @override
    def dropEvent(self, event: QDropEvent) -> None:
        self._veil.hide()
        if pasted.pictures_in(event.mimeData(), self, self.add):
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
        dialog = QFileDialog(self, tr("Add photos"), "", tr(PICTURES))
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
