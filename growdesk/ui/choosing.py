"""Let a person choose the file to write."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog

from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget


def choose_pdf(
    over: QWidget, title: str, name: str, use: Callable[[Path], object]
) -> None:
    """Open a chooser for a PDF to write."""
    chooser = QFileDialog(over, title, str(Path.home()))
    chooser.setNameFilter(tr("PDF (*.pdf)"))
    chooser.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    chooser.setDefaultSuffix("pdf")
    chooser.selectFile(name)
    chooser.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    chooser.fileSelected.connect(lambda file: use(Path(file)))
    chooser.open()
