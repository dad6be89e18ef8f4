"""Give what the window remembers of this machine: its size, its scheme, its loggers.

How a logger's file was read is kept, so that the next one asks nothing; so is how this
grower reads and types: language, figures, days, paper, units. No plant and no reading
is kept here; that all lies in the collection's folder.
"""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import Final

from msgspec import Struct
from PySide6.QtCore import QSettings

from growdesk.ui.motion import Motion
from growdesk.ui.sizes import PER_CENT
from growdesk.ui.theme import Mode

SYSTEM: Final = "system"
COMMA, POINT = "comma", "point"
_MOST_DIGITS: Final = 7
METRIC, CUSTOMARY = "metric", "us"


class Regional(Struct, frozen=True):
    """How the grower wants to read and type; ``SYSTEM`` follows the machine.

    ``days`` is a form of ``language.DAY_FORMS``, ``week_begins`` a number from 0 for
    Monday, ``paper`` as ``printing.paper`` knows it; the system's is the printer's.
    """

    language: str = SYSTEM
    decimal: str = SYSTEM
    days: str = SYSTEM
    week_begins: str = SYSTEM
    units: str = SYSTEM
    paper: str = SYSTEM


def preferences() -> QSettings:
    """Give the file of preferences."""
    form = QSettings.Format.IniFormat
    return QSettings(form, QSettings.Scope.UserScope, "growdesk", "window")


def keep_private() -> None:
    """Make the folder of preferences, where there is none, for its owner alone."""
    with suppress(OSError):
        folder = Path(preferences().fileName()).parent
        folder.mkdir(0o700, parents=True, exist_ok=True)


def kept_number(key: str, usual: int) -> int:
    """Give a small whole number that was kept; ``usual`` for whatever else is there."""
    text = str(preferences().value(key, usual))
    return int(text) if len(text) < _MOST_DIGITS and text.isdecimal() else usual


def kept_folder(key: str) -> str:
    """Give the folder that was chosen last, if it is there, else the home folder."""
    kept = str(preferences().value(key, ""))
    try:
        return kept if kept and Path(kept).is_dir() else str(Path.home())
    except (OSError, ValueError):
        return str(Path.home())


def kept_mode() -> Mode:
    """Give the scheme that was chosen last."""
    kept = preferences().value("light", Mode.SYSTEM.value)
    try:
        return Mode(str(kept))
    except ValueError:
        return Mode.SYSTEM


def kept_regional() -> Regional:
    """Give how the grower wants to read and type."""
    kept = preferences()
    return Regional(
        **{
            each: str(kept.value(f"regional/{each}", SYSTEM))
            for each in Regional.__struct_fields__
        }
    )


def keep_regional(key: str, value: str) -> None:
    """Keep one field of ``Regional``; what follows the system is not kept at all."""
    kept = preferences()
    if value == SYSTEM:
        kept.remove(f"regional/{key}")
    else:
        kept.setValue(f"regional/{key}", value)


def kept_text_per_cent() -> int:
    """Give the size of text that was chosen last, in per cent."""
    return kept_number("text-size", PER_CENT[0])


def keep_text_per_cent(per_cent: int) -> None:
    """Keep the size of text."""
    preferences().setValue("text-size", per_cent)


def kept_motion() -> Motion:
    """Give how much may move, as it was chosen last."""
    kept = preferences().value("motion", Motion.SYSTEM.value)
    try:
        return Motion(str(kept))
    except ValueError:
        return Motion.SYSTEM


def keep_motion(motion: Motion) -> None:
    """Keep how much may move."""
    preferences().setValue("motion", motion.value)
