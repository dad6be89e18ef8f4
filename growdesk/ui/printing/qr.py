"""A tag as a QR code (ISO/IEC 18004) of vector modules, made by segno on first use."""

from __future__ import annotations

from functools import lru_cache

from growdesk.ui.printing.marks import MM, Modules

QUIET = 4
"""Modules of white around a code (ISO/IEC 18004)."""
LEAST_MODULE_PT = 0.3 * MM
"""Smaller modules a telephone does not read from a hand's breadth; from memory."""


@lru_cache(4096)
def rows_of(text: str) -> tuple[tuple[bool, ...], ...]:
    """Give the modules of a code of a text, without a quiet zone.

    Correction level M or better: a label is scratched and splashed.
    """
    import segno

    made = segno.make(
        text, error="m", micro=False, encoding=None if text.isascii() else "utf-8"
    )
    return tuple(tuple(bool(dark) for dark in row) for row in made.matrix)


def code(text: str, side_pt: float) -> Modules | None:
    """Give a code that fills a square with its quiet zone; None where it is too small.

    Its corner is that of the square.
    """
    rows = rows_of(text)
    module = side_pt / (len(rows) + 2 * QUIET)
    if module < LEAST_MODULE_PT:
        return None
    return Modules(QUIET * module, QUIET * module, module, rows)
