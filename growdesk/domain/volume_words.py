"""A volume in words: the one place where millilitres give way to litres.

What is poured is measured in a jug or a cylinder, so that it is told in steps of 10 mL.
"""

from __future__ import annotations

STEP_ML = 10
_FINE_BELOW_ML = 100


def volume_text(volume_l: float) -> str:
    """Give litres as read at the bench: "750 mL" below a litre, else "2.35 L".

    Steps are of 10 mL, below 100 mL of one. Litres never carry three decimals, which
    could be read as a thousands mark.
    """
    if volume_l * 1000 < _FINE_BELOW_ML:
        return f"{volume_l * 1000:.0f} mL"
    ml = round(volume_l * 1000 / STEP_ML) * STEP_ML
    if ml < 1000:
        return f"{ml} mL"
    return f"{ml / 1000:.2f}".rstrip("0").rstrip(".") + " L"
