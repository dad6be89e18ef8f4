"""A volume in words: the one place where millilitres give way to litres.

What is poured is measured in a jug or a cylinder, so that it is told in steps of 10 mL.
In US customary units it is told in fluid ounces below a quart, in quarts below a
gallon and in gallons from there; what is less than an ounce is drawn up in mL.
"""

from __future__ import annotations

from typing import Final

from growdesk.domain.speech import fixed, manner, trimmed

STEP_ML = 10
_FINE_BELOW_ML = 100
L_IN_GALLON: Final = 3.785411784
"""231 cubic inches, by definition."""
_CUSTOMARY: Final = (
    ("fl oz", L_IN_GALLON / 128, 1, 32),
    ("qt", L_IN_GALLON / 4, 2, 4),
    ("gal", L_IN_GALLON, 2, 10_000),
)
"""Unit, its litres, the digits it is told in, and from how many on the next is."""


def volume_text(volume_l: float) -> str:
    """Give a volume as read at the bench: "750 mL" below a litre, else "2.35 L".

    Steps are of 10 mL, below 100 mL of one. Litres never carry three decimals, which
    could be read as a thousands mark.
    """
    if manner().customary and volume_l >= _CUSTOMARY[0][1]:
        return _customary(volume_l)
    if volume_l * 1000 < _FINE_BELOW_ML:
        return f"{fixed(volume_l * 1000, 0)} mL"
    ml = round(volume_l * 1000 / STEP_ML) * STEP_ML
    if ml < 1000:
        return f"{ml} mL"
    return f"{trimmed(ml / 1000, 2)} L"


def volume_text_fine(volume_l: float) -> str:
    """Give a volume as a field shows what was typed: "0.4 L", "1.25 gal".

    Three decimals, which would be asked back when they are read, end in a nought.
    """
    if manner().customary and volume_l >= _CUSTOMARY[0][1]:
        return _customary(volume_l)
    text = trimmed(volume_l, 4)
    return f"{fixed(volume_l, 4) if text[-4:-3] == manner().decimal else text} L"


def _customary(volume_l: float) -> str:
    for unit, litres, digits, until in _CUSTOMARY:
        amount = round(volume_l / litres, digits)
        if amount < until:
            return f"{trimmed(amount, digits)} {unit}"
    return f"{trimmed(volume_l / L_IN_GALLON, 0)} gal"
