"""Temperatures and lengths in the units of the grower, the one place where they turn.

All is kept and reckoned in °C and mm. A figure is rounded after it was turned, so that
12 °C is told as 54 °F; 0.1 of a unit is as fine as people read either, but for short
lengths in inches, which would lose a millimetre.
"""

from __future__ import annotations

from typing import Final

from growdesk.domain.speech import fixed, manner, tr, trimmed

MM_IN_INCH: Final = 25.4
_FINE_BELOW_INCH: Final = 1


def temperature_unit() -> str:
    """Give the unit in which temperatures are shown and typed."""
    return "°F" if manner().customary else "°C"


def length_unit() -> str:
    """Give the unit in which small lengths are shown and typed."""
    return tr("inches") if manner().customary else "mm"


def length_sign() -> str:
    """Give the unit of small lengths where there is little room."""
    return tr("in", "sign of inches") if manner().customary else "mm"


def degrees(celsius: float) -> float:
    """Give a temperature in the unit shown: °C or °F."""
    return celsius * 9 / 5 + 32 if manner().customary else celsius


def celsius(degrees_shown: float) -> float:
    """Give in °C what was told in the unit shown."""
    return (degrees_shown - 32) * 5 / 9 if manner().customary else degrees_shown


def degrees_apart(kelvin: float) -> float:
    """Give a difference of two temperatures in the unit shown."""
    return kelvin * 9 / 5 if manner().customary else kelvin


def small_length(length_mm: float) -> float:
    """Give a length in the unit shown: mm or inches."""
    return length_mm / MM_IN_INCH if manner().customary else length_mm


def millimetres(length_shown: float) -> float:
    """Give in mm what was told in the unit shown."""
    return length_shown * MM_IN_INCH if manner().customary else length_shown


def degrees_text(temperature_c: float, digits: int = 1) -> str:
    """Give a temperature without its unit; in °F with a digit less."""
    digits = _digits(digits)
    return trimmed(_signless(degrees(temperature_c), digits), digits)


def degrees_fixed(temperature_c: float, digits: int = 1) -> str:
    """Give a temperature without its unit as a column of figures lines it up."""
    digits = _digits(digits)
    return fixed(_signless(degrees(temperature_c), digits), digits)


def temperature_text(temperature_c: float, digits: int = 1) -> str:
    """Give a temperature with its unit: "12 °C", "54 °F"."""
    return f"{degrees_text(temperature_c, digits)} {temperature_unit()}"


def apart_text(kelvin: float, digits: int = 1) -> str:
    """Give how far two temperatures are apart, with the unit."""
    return f"{trimmed(degrees_apart(kelvin), digits)} {temperature_unit()}"


def length_text(length_mm: float, digits: int = 1) -> str:
    """Give a length in mm, or in cm from 10 mm on; or in inches."""
    if manner().customary:
        inches = length_mm / MM_IN_INCH
        more = 1 if inches < _FINE_BELOW_INCH else 0
        return tr("{inches} inches").format(inches=trimmed(inches, digits + more))
    if length_mm < 10:
        return f"{trimmed(length_mm, digits)} mm"
    return f"{trimmed(length_mm / 10, digits)} cm"


def small_text(length_mm: float, digits: int = 1) -> str:
    """Give a length in mm, however long, or in inches."""
    if manner().customary:
        return length_text(length_mm, digits)
    return f"{trimmed(length_mm, digits)} mm"


def turns(unit: str) -> bool:
    """Tell whether what is kept in a unit is shown in another one."""
    return unit.startswith(("°C", "mm"))


def unit_shown(unit: str) -> str:
    """Give the unit in which an amount kept in ``unit`` is shown and typed.

    What stands after it stays: "mm a week" is "inches a week".
    """
    if not manner().customary:
        return unit
    for kept, shown in (("°C", "°F"), ("mm", tr("inches"))):
        if unit.startswith(kept):
            return shown + unit.removeprefix(kept)
    return unit


def shown_in(value: float, unit: str, *, apart: bool = False) -> float:
    """Give an amount kept in ``unit`` in the unit shown; ``apart`` of a difference."""
    if unit.startswith("°C"):
        return degrees_apart(value) if apart else degrees(value)
    return small_length(value) if unit.startswith("mm") else value


def kept_of(shown: float, unit: str, *, apart: bool = False) -> float:
    """Give in ``unit`` what was told in the unit shown; ``apart`` of a difference."""
    if unit.startswith("°C"):
        if apart:
            return shown * 5 / 9 if manner().customary else shown
        return celsius(shown)
    return millimetres(shown) if unit.startswith("mm") else shown


def amount_text(value: float, unit: str, *, apart: bool = False) -> str:
    """Give an amount kept in ``unit`` with the unit shown: "54 °F", "0.8 inches"."""
    return f"{figure_text(value, unit, apart=apart)} {unit_shown(unit)}"


def figure_text(value: float, unit: str, *, apart: bool = False) -> str:
    """Give an amount kept in ``unit`` as a field shows it, without the unit."""
    shown = shown_in(value, unit, apart=apart)
    if not manner().customary:
        return trimmed(shown, 4)
    if unit.startswith("°C"):
        return trimmed(shown, 1 if apart else 0)
    return trimmed(shown, 2)


def _digits(digits: int) -> int:
    """Give how many digits of a degree are told; °F are finer and need one less."""
    return max(digits - 1, 0) if manner().customary else digits


def _signless(value: float, digits: int) -> float:
    """Give a figure rounded, nothing without a sign."""
    return round(value, digits) + 0.0
