"""Keep what was done last, by the keys that stand in the code and by nothing else.

A key is a command's, a face's or a form's name. What a grower typed has no way in: a
word that is no key is left out.
"""

from __future__ import annotations

import re
from collections import deque
from datetime import UTC, datetime
from typing import Final

from msgspec import Struct

_KEPT: Final = 40
_KEY: Final = re.compile(r"(?:command|face|form):[A-Za-z][A-Za-z-]{1,40}")
_steps: deque[Crumb] = deque(maxlen=_KEPT)


class Crumb(Struct, frozen=True):
    """One thing that was done, and when (UTC)."""

    at: datetime
    key: str


def note(sort: str, key: str) -> None:
    """Remember that a command was asked for, a face turned to, or a form opened."""
    said = f"{sort}:{key}"
    if _KEY.fullmatch(said):
        _steps.append(Crumb(datetime.now(tz=UTC), said))


def steps() -> tuple[Crumb, ...]:
    """Give what was done last, the oldest first."""
    return tuple(_steps)


def doing() -> str:
    """Give the key of the command that was asked for last; nothing where none was."""
    asked = (each.key for each in reversed(_steps))
    return next((key[8:] for key in asked if key.startswith("command:")), "")


def forget() -> None:
    """Begin anew."""
    _steps.clear()
