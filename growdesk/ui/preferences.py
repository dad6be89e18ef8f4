"""Give what the window remembers of this machine: its size, its scheme, its loggers.

How a logger's file was read is kept, so that the next one asks nothing. No plant and
no reading is kept here; that all lies in the collection's folder.
"""

from __future__ import annotations

from PySide6.QtCore import QSettings

from growdesk.ui.theme import Mode


def preferences() -> QSettings:
    """Give the file of preferences."""
    form = QSettings.Format.IniFormat
    return QSettings(form, QSettings.Scope.UserScope, "growdesk", "window")


def kept_mode() -> Mode:
    """Give the scheme that was chosen last."""
    kept = preferences().value("light", Mode.SYSTEM.value)
    try:
        return Mode(str(kept))
    except ValueError:
        return Mode.SYSTEM
