"""Read what people type into forms as the values that drafts hold.

An empty field is *not recorded* and gives nothing. Amounts with units go through
``domain.units``; a slip is an ``InputError`` with the field's name.
"""

from __future__ import annotations

import re
from datetime import date
from typing import Final

from growdesk.domain import units, water_units
from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.quantity_words import MM_IN_INCH, small_text, temperature_unit
from growdesk.domain.speech import manner, tr
from growdesk.domain.typed_numbers import NUMBER, plain_text, read_number, with_unit

_LENGTH: Final = re.compile(rf"({NUMBER})\s*([^\W\d_]+)?\.?")
_LONGEST_MM: Final = 5000
_BARE: Final = re.compile(NUMBER)
_EXAMPLE: Final = date(2026, 11, 25)
_MM: Final = {
    "mm": 1.0,
    "cm": 10.0,
    **dict.fromkeys(("in", "inch", "inches"), MM_IN_INCH),
}


def volume_l(text: str, field: str) -> float | None:
    """Give a volume in litres; the unit is needed."""
    return units.parse_volume_l(text, field) if text.strip() else None


def volume_ml(text: str, field: str) -> float | None:
    """Give a small volume in millilitres; a bare number is mL."""
    if not text.strip():
        return None
    return 1000 * units.parse_volume_l(with_unit(text, "mL"), field)


def mass_g(text: str, field: str) -> float | None:
    """Give a mass in grams; a bare number is g."""
    return units.parse_mass_g(with_unit(text, "g"), field) if text.strip() else None


def density_g_per_ml(text: str, field: str) -> float | None:
    """Give a density in g/mL; the unit may be left out."""
    return (
        units.parse_density_g_per_ml(with_unit(text, "g/mL"), field) if text else None
    )


def ec_ms_per_cm(text: str, field: str) -> float | None:
    """Give a conductivity in mS/cm; the unit may be left out."""
    return units.parse_ec_ms_per_cm(with_unit(text, "mS/cm"), field) if text else None


def amount(text: str, unit: str, field: str) -> float:
    """Give what stands on the shelf, in ``g``, ``mL`` or ``L``; a bare number is that.

    Nothing at all is an amount too.
    """
    clean = text.strip()
    if not clean:
        raise InputError(
            field,
            "",
            tr("is empty"),
            tr('Write for instance "120 {unit}".').format(unit=unit),
        )
    if re.fullmatch(rf"[0.,\s]+\s*({unit})?", clean):
        return 0.0
    if unit == "g":
        return units.parse_mass_g(with_unit(clean, unit), field)
    litres = units.parse_volume_l(with_unit(clean, unit), field)
    return litres * 1000 if unit == "mL" else litres


def alkalinity_mg_per_l(text: str, field: str) -> float | None:
    """Give an alkalinity in mg/L CaCO3; the unit is needed."""
    return water_units.parse_alkalinity_mg_per_l(text, field) if text.strip() else None


def hardness_mg_per_l(text: str, field: str) -> float | None:
    """Give a total hardness in mg/L CaCO3; the unit is needed."""
    return water_units.parse_hardness_mg_per_l(text, field) if text.strip() else None


def ion_mg_per_l(text: str, ion: str, field: str) -> float | None:
    """Give an ion in mg/L of it; a bare number is mg/L."""
    if not text.strip():
        return None
    return water_units.parse_ion_mg_per_l(text, ion, field)


def temperature_c(text: str, field: str) -> float | None:
    """Give a temperature in °C; a bare number is in the unit shown."""
    if not text:
        return None
    return units.parse_temperature_c(with_unit(text, temperature_unit()), field)


def length_mm(text: str, field: str) -> float | None:
    """Give a length in mm; a bare number is in the unit shown."""
    clean = plain_text(text, field)
    if not clean:
        return None
    matched = _LENGTH.fullmatch(clean)
    own = MM_IN_INCH if manner().customary else 1.0
    units_mm = {**_MM, "": own, tr("inches").casefold(): MM_IN_INCH}
    unit = (matched[2] or "").casefold() if matched else ""
    if matched is None or unit not in units_mm:
        raise InputError(
            field,
            text,
            tr("is not a length"),
            tr('Write for instance "{bare}" or "8 cm".').format(
                bare="3" if manner().customary else "80"
            ),
        )
    number = read_number(matched[1], field, text, asks_groups=True)
    length = number * units_mm[unit]
    if not 0 <= length <= _LONGEST_MM:
        raise InputError(
            field,
            text,
            tr("is not a length a root or growth has"),
            tr("Give 0 to {most}.").format(most=small_text(_LONGEST_MM, 0)),
        )
    return length


def number(text: str, field: str, example: str) -> float | None:
    """Give a bare number, as ppm N or hours."""
    clean = plain_text(text, field)
    if not clean:
        return None
    if not _BARE.fullmatch(clean):
        raise InputError(
            field,
            text,
            tr("is not a number"),
            tr('Write for instance "{example}".').format(example=example),
        )
    return read_number(clean, field, text, asks_groups=True)


def percent(text: str, field: str, example: str) -> float | None:
    """Give a number of per cent; the sign may be left out."""
    return number(text.strip().removesuffix("%"), field, example)


def share(text: str, field: str) -> float | None:
    """Give a share from 0 to 1, typed in per cent; ``none`` is 0."""
    if text.strip().casefold() == "none":
        return 0.0
    found = percent(text, field, "25")
    if found is not None and not 0 <= found <= 95:
        raise InputError(field, text, tr("is no shade"), tr("Give 0 to 95 per cent."))
    return None if found is None else found / 100


def whole(text: str, field: str, example: str) -> int | None:
    """Give a whole number."""
    found = number(text, field, example)
    if found is None:
        return None
    if found != int(found):
        raise InputError(
            field,
            text,
            tr("is not a whole number"),
            tr('Write for instance "{example}".').format(example=example),
        )
    return int(found)


def day(text: str, field: str) -> date | None:
    """Give a day typed in the order of the place, as 2026-11-25 or as 25.11.2026."""
    clean = text.strip()
    if not clean:
        return None
    try:
        return _day(clean)
    except ValueError as problem:
        raise InputError(
            field,
            text,
            tr("is not a day"),
            tr('Write it as "{day}".').format(day=day_example()),
        ) from problem


def day_example() -> str:
    """Give a day as it is typed here, to go by."""
    return figures(_EXAMPLE)


def _day(text: str) -> date:
    year_first = re.fullmatch(r"(\d{4})[-./]\s*(\d{1,2})[-./]\s*(\d{1,2})", text)
    if year_first:
        return date(*(int(part) for part in year_first.groups()))
    parts = re.fullmatch(r"(\d{1,2})([-./])\s*(\d{1,2})\2\s*(\d{4})", text)
    if parts is None:
        return date.fromisoformat(text)
    one, other, year = int(parts[1]), int(parts[3]), int(parts[4])
    if parts[2] == ".":
        return date(year, other, one)
    if manner().day_form.startswith("{y"):
        raise ValueError(text)  # nobody knows which of the two is the month
    month_first = manner().month_first
    return date(year, one, other) if month_first else date(year, other, one)


def needed_day(text: str, field: str) -> date:
    """Give a day that may not be left empty."""
    found = day(text, field)
    if found is None:
        raise InputError(
            field,
            "",
            tr("is empty"),
            tr('Write a day as "{day}".').format(day=day_example()),
        )
    return found
