"""Give dialogs that only tell: cautions, and what this program is."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

import PySide6
from PySide6.QtCore import Qt, QUrl, qVersion
from PySide6.QtGui import QDesktopServices, QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain import cautions
from growdesk.domain.speech import mark, tr
from growdesk.services.program import program
from growdesk.ui import sizes
from growdesk.ui.dialogs.on_screen import OnScreen
from growdesk.ui.preferences import preferences
from growdesk.ui.widgets.parts import button, label, scrolled

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.program import Program

_ON_SERVER = mark(
    "All is kept on the server you have named, and goes nowhere else. Free software"
    " under the MIT licence."
)
NOTHING_LEAVES: Final = mark(
    "Nothing leaves this computer. Free software under the MIT licence."
)
LGPL: Final = mark(
    "Qt and PySide6 are used under the GNU Lesser General Public License, version 3: "
    "unchanged, as libraries of their own, so that others may be put in their place. "
    "Each library is used under the licence that its package names."
)


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


def about(
    parent: QWidget | None, folder: Path, log: Path | None, *, on_server: bool = False
) -> QDialog:
    """Give what this is, what it is made of, and where the data are.

    Of a collection ``on_server`` the folder holds photos and backups alone.
    """
    what = program()
    places = _places(folder, log)
    inner = QWidget()
    column = QVBoxLayout(inner)
    column.setSpacing(8)
    column.addWidget(
        label(tr("growdesk {version}").format(version=what.growdesk), scale=1.4)
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
    column.addWidget(
        label(tr(_ON_SERVER if on_server else NOTHING_LEAVES), tone="muted")
    )
    whole = tr("It is one folder: copy it whole while the window is closed.")
    if on_server:
        whole = tr("Its photos and backups lie here; all else is on the server.")
    for title, place in places:
        column.addWidget(label(title, tone="head"))
        column.addWidget(_to_select(place, title))
        if place == str(folder):
            column.addWidget(label(whole, tone="muted"))
    copied = label("", tone="muted")
    column.addLayout(_buttons(folder, report(what, places), copied))
    column.addWidget(copied)
    column.addWidget(label(tr("What it is made of"), tone="head"))
    versions = "\n".join((*_versions(what), *_libraries(what)))
    column.addWidget(_to_select(versions, tr("Versions and licences")))
    column.addWidget(label(tr(LGPL), tone="muted"))
    column.addStretch(1)
    return telling(parent, tr("About growdesk"), inner)


def report(what: Program, places: Sequence[tuple[str, str]]) -> str:
    """Give versions and places as text for a report: no plant, and no name of a home.

    Folders below the home folder begin with ``~``.
    """
    home = str(Path.home())
    lines = [tr("growdesk {version}").format(version=what.growdesk)]
    lines += _versions(what)
    lines += (f"{title}: {place.replace(home, '~')}" for title, place in places)
    lines += _libraries(what)
    return "\n".join(lines) + "\n"


def _places(folder: Path, log: Path | None) -> list[tuple[str, str]]:
    from growdesk.services.second_place import places_of  # noqa: PLC0415 -- when asked

    found = [(tr("This collection is in"), str(folder))]
    found += [(tr("Backups are in"), str(each)) for each in places_of(folder)]
    if log is not None:
        found.append((tr("What went wrong is written to"), str(log)))
    found.append((tr("The preferences are in"), preferences().fileName()))
    return found


def _versions(what: Program) -> list[str]:
    return [
        tr("Python {version}, {system}").format(
            version=what.python, system=what.system
        ),
        tr("Qt {qt}, PySide6 {pyside}").format(
            qt=qVersion(), pyside=PySide6.__version__
        ),
        tr("SQLite {version}, collections of form {form}").format(
            version=what.sqlite, form=what.data_form
        ),
    ]


def _libraries(what: Program) -> list[str]:
    return [f"{each.name} {each.version}: {each.licence}" for each in what.libraries]


def _to_select(text: str, name: str) -> QLabel:
    """Give text that can be selected by mouse and keyboard."""
    made = label(text)
    made.setTextInteractionFlags(
        Qt.TextInteractionFlag.TextSelectableByMouse
        | Qt.TextInteractionFlag.TextSelectableByKeyboard
    )
    made.setAccessibleName(name)
    return made


def _buttons(folder: Path, text: str, copied: QLabel) -> QHBoxLayout:
    def copy() -> None:
        QGuiApplication.clipboard().setText(text)
        copied.setText(tr("Copied. No plant and no record is in it."))

    def show_folder() -> None:
        if not QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder))):
            copied.setText(tr("No program of this machine shows folders."))

    row = QHBoxLayout()
    row.setSpacing(8)
    row.addWidget(button(tr("&Open the folder"), show_folder))
    row.addWidget(
        button(
            tr("&Copy for a report"),
            copy,
            tr("Versions and places as text, without plants and records"),
        )
    )
    row.addStretch(1)
    return row
