"""Units in the header of a column, and what its numbers are multiplied by.

A unit is taken only where it converts without knowing more: centimetres across say
nothing of a pot's litres.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

_IN: Mapping[str, Mapping[str, float]] = {
    "l": {
        **dict.fromkeys(("l", "liter", "litre", "liters", "litres"), 1.0),
        **dict.fromkeys(("ml", "milliliter", "cc", "cm3", "cm³"), 0.001),
        **dict.fromkeys(("cl",), 0.01),
        **dict.fromkeys(("dl",), 0.1),
    },
    "mm": {"mm": 1.0, "cm": 10.0, "inch": 25.4, "inches": 25.4, "zoll": 25.4},
    "ppm": dict.fromkeys(("ppm", "ppm n", "mg/l", "mg n/l", "mg/l n"), 1.0),
    "ms": {
        **dict.fromkeys(("ms", "ms/cm", "ds/m"), 1.0),
        **dict.fromkeys(("µs", "μs", "us", "µs/cm", "μs/cm", "us/cm"), 0.001),
    },
    "days": {
        **dict.fromkeys(("d", "day", "days", "tage"), 1.0),
        **dict.fromkeys(("week", "weeks", "wochen"), 7.0),
    },
}
_OTHERS = frozenset({"gal", "oz", "fl oz", "g", "kg", "in", '"', "%", "°c", "°f", "m"})
_KNOWN = _OTHERS.union(*_IN.values())
_BRACKETS = re.compile(r"^(.*?)\s*[(\[]\s*(.+?)\s*[)\]]\s*$")
_BEHIND = re.compile(r"^(.+?)[\s,]+(?:in\s+)?(\S+)$")


def parted(header: str) -> tuple[str, str]:
    """Give a header without its unit, and the unit; nothing where it names none."""
    for shape in (_BRACKETS, _BEHIND):
        found = shape.match(header.strip())
        if found and found[2].casefold() in _KNOWN:
            return found[1].rstrip(" ,"), found[2].casefold()
    return header.strip(), ""


def factor(unit: str, kept_in: str) -> float | None:
    """Give what a number in a unit is multiplied by; nothing where it is another."""
    return 1.0 if not unit else _IN.get(kept_in, {}).get(unit)
