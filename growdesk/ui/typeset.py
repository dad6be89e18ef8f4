"""Set figures for the eye: a unit keeps to its number, a minus is a minus.

The one place for it: labels and printed lines pass through here, so that sentences,
files and what commands answer stay in plain signs. The space is U+00A0, which every
font has and every search takes for a space; the narrow one is missing in some.
"""

from __future__ import annotations

import re
from typing import Final

NO_BREAK: Final = "\u00a0"
MINUS: Final = "\u2212"
_JOINER: Final = "\u2060"
_UNITS: Final = (
    *("ppm", "mS/cm", "mg/L", "g/L", "mL/L", "meq/L", "mL", "L", "mg", "kg", "g"),
    *("°C", "°F", "mm", "cm", "km", "mol", "%"),
)
_BEFORE_UNIT: Final = re.compile(
    rf"(?<=\d) (?=(?:{'|'.join(re.escape(unit) for unit in _UNITS)})(?!\w))"
)
_MINUS: Final = re.compile(r"(?<![\w.,:/\u2013\u2026-])-(?=\d)")
_SLASHED: Final = re.compile(
    r"(?<=mS)/(?=cm\b)|(?<=mg)/(?=L\b)|(?<=[ \u00a0]g)/(?=L\b)"
)


def typeset(text: str) -> str:
    """Give a text with no break between a number and its unit, and true minus signs."""
    text = _BEFORE_UNIT.sub(NO_BREAK, text)
    text = text.replace("ppm N", f"ppm{NO_BREAK}N")
    return _MINUS.sub(MINUS, text)


def on_screen(text: str) -> str:
    """Give a typeset text whose units do not break at their stroke either."""
    return _SLASHED.sub(f"{_JOINER}/{_JOINER}", typeset(text))
