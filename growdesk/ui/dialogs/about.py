"""Give dialogs that only tell: cautions, and what this program is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QVBoxLayout,
    QWidget,
)

from growdesk import __version__
from growdesk.domain import cautions
from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.widgets.parts import label, scrolled

if TYPE_CHECKING:
    from pathlib import Path


def telling(parent: QWidget | None, title: str, inner: QWidget) -> QDialog:
    """Give a dialog around something to read."""
    made = OnScreen(parent)
    made.setWindowTitle(title)
    made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    outer = QVBoxLayout(made)
    outer.setContentsMargins(18, 16, 18, 14)
    outer.addWidget(scrolled(inner, title), 1)
    close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
    close.rejected.connect(made.accept)
    outer.addWidget(close)
    made.resize(sizes.area(560, 520))
    return made


def all_cautions(parent: QWidget | None) -> QDialog:
    """Give the whole block of cautions."""
    inner = QWidget()
    column = QVBoxLayout(inner)
    column.setSpacing(10)
    for caution in cautions.FULL:
        column.addWidget(label(caution))
    column.addStretch(1)
    return telling(parent, tr("Cautions"), inner)


def about(parent: QWidget | None, folder: Path, log: Path | None) -> QDialog:
    """Give what this is, its version, and where the data are."""
    inner = QWidget()
    column = QVBoxLayout(inner)
    column.setSpacing(10)
    column.addWidget(
        label(tr("growdesk {version}").format(version=__version__), scale=1.4)
    )
    column.addWidget(
        label(
            tr(
                "Settles on each watering day which orchids are fed, "
                "at what strength, and how to mix it in few jugs; and "
                "says why. Active growth decides, not bloom."
            )
        )
    )
    column.addWidget(label(tr("This collection is in"), tone="head"))
    where = label(str(folder))
    where.setTextInteractionFlags(
        Qt.TextInteractionFlag.TextSelectableByMouse
        | Qt.TextInteractionFlag.TextSelectableByKeyboard
    )
    where.setAccessibleName(tr("Folder of the collection"))
    column.addWidget(where)
    column.addWidget(
        label(
            tr("It is one folder: copy it whole while the window is closed."),
            tone="muted",
        )
    )
    if log is not None:
        column.addWidget(label(tr("What went wrong is written to"), tone="head"))
        column.addWidget(label(str(log)))
    column.addWidget(
        label(
            tr("Nothing leaves this computer. Free software under the MIT licence."),
            tone="muted",
        )
    )
    column.addStretch(1)
    return telling(parent, tr("About growdesk"), inner)
