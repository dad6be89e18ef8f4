"""Tell which signs the type of the charts has."""

from __future__ import annotations

from functools import cache


def drawable(text: str) -> str:
    """Give a text with a box for each sign that the drawing's type does not have."""
    known = _known()
    return "".join(sign if ord(sign) in known else "\u25a1" for sign in text)


@cache
def _known() -> frozenset[int]:
    from matplotlib.font_manager import findfont, get_font

    return frozenset(get_font(findfont("DejaVu Sans")).get_charmap())
