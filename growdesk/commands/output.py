"""Writes what a command answers: plain text or JSON, always UTF-8.

It knows the streams and nothing of orchids.
"""

from __future__ import annotations

import io
import json
import sys
from typing import TYPE_CHECKING

from growdesk.domain.errors import shortened

if TYPE_CHECKING:
    from collections.abc import Sequence


def set_up_streams() -> None:
    """Make standard output and error UTF-8 whatever the locale says."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")


def say(text: str) -> None:
    """Write a text and a line end to standard output."""
    sys.stdout.write(f"{text}\n")


def say_json(value: object) -> None:
    """Write a value as JSON to standard output."""
    say(json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False))


def complain(line: str) -> None:
    """Write exactly one line to standard error, without signs that move the cursor."""
    plain = " ".join(shortened(part) for part in line.split())
    shown = "".join(sign if sign.isprintable() else "\ufffd" for sign in plain)
    if sys.stderr is not None:  # a windowed start on Windows has none
        sys.stderr.write(f"{shown}\n")


def columns(rows: Sequence[Sequence[str]], indent: str = "  ") -> list[str]:
    """Give rows as lines with their columns aligned."""
    if not rows:
        return []
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    return [(indent + "  ".join(map(str.ljust, row, widths))).rstrip() for row in rows]


def counted(count: int, one: str, many: str = "") -> str:
    """Give a number with its noun: "1 plant", "3 plants"."""
    return f"{count} {one if count == 1 else many or f'{one}s'}"


def litres(volume_l: float | None) -> str:
    """Give a volume in litres as people read it, or nothing where it is unknown."""
    return "" if volume_l is None else f"{volume_l:.2f} L"


def ppm_n(strength_ppm_n: float | None) -> str:
    """Give a strength as people read it, or nothing where there is none."""
    return "" if strength_ppm_n is None else f"{strength_ppm_n:.0f} ppm N"
