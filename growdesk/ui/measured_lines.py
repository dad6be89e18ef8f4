"""Show temperatures, lengths and volumes in lines to type in, and read them back.

They are shown in the grower's units and kept in °C, mm and L. A line that was left as
it was shown gives exactly what was kept, however the figure was rounded for it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from growdesk.domain.quantity_words import degrees, small_length
from growdesk.domain.speech import manner, tr, trimmed
from growdesk.domain.volume_words import volume_text_fine
from growdesk.ui import typed

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QLineEdit

_KEPT: Final = "kept"
DIGITS: Final = 2
_FINE: Final = 3


def show_temperature(line: QLineEdit, temperature_c: float | None) -> None:
    """Show a temperature as a bare figure in the unit of the field."""
    _show(line, temperature_c, temperature_shown)


def show_length(line: QLineEdit, length_mm: float | None) -> None:
    """Show a length as a bare figure in the unit of the field."""
    _show(line, length_mm, length_shown)


def show_volume(line: QLineEdit, volume_l: float | None) -> None:
    """Show a volume with its unit."""
    _show(line, volume_l, volume_text_fine)


def show_amount(line: QLineEdit, amount: float | None, unit: str) -> None:
    """Show what stands on the shelf in its own unit, ``g``, ``mL`` or ``L``."""
    _show(line, amount, lambda shown: f"{trimmed(shown, _FINE)} {unit}")


def amount(line: QLineEdit, unit: str, field: str) -> float:
    """Give what a line holds in ``g``, ``mL`` or ``L``; it may not be empty."""
    text, (shown, value) = line.text().strip(), line.property(_KEPT) or ("", None)
    if value is not None and text == shown and text.endswith(f" {unit}"):
        return float(value)
    return typed.amount(text, unit, field)


def temperature_c(line: QLineEdit, field: str) -> float | None:
    """Give what a line holds in °C."""
    return _read(line, field, typed.temperature_c)


def length_mm(line: QLineEdit, field: str) -> float | None:
    """Give what a line holds in mm."""
    return _read(line, field, typed.length_mm)


def volume_l(line: QLineEdit, field: str) -> float | None:
    """Give what a line holds in litres."""
    return _read(line, field, typed.volume_l)


def length_hint(other: str) -> str:
    """Give what a line for a length takes; ``other`` is a length with its unit."""
    if manner().customary:
        return tr("inches, or with a unit: {length}").format(length=other)
    return tr("mm, or with a unit: {length}").format(length=other)


def temperature_hint() -> str:
    """Give what a line for a temperature takes, and that the other unit is read too."""
    if manner().customary:
        return tr("°F, or with its unit: 21 °C")
    return tr("°C, or with its unit: 70 °F")


def temperature_shown(temperature_c: float) -> str:
    """Give a temperature as a field shows it."""
    return trimmed(degrees(temperature_c), DIGITS)


def length_shown(length_mm: float) -> str:
    """Give a length as a field shows it."""
    return trimmed(small_length(length_mm), DIGITS)


def _show(line: QLineEdit, value: float | None, shown: Callable[[float], str]) -> None:
    text = "" if value is None else shown(value)
    line.setText(text)
    line.setProperty(_KEPT, (text, value))


def _read(
    line: QLineEdit, field: str, read: Callable[[str, str], float | None]
) -> float | None:
    text = line.text().strip()
    kept = line.property(_KEPT)
    if kept is not None and kept[0] == text:
        value: float | None = kept[1]
        return value
    return read(text, field)
