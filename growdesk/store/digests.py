"""A digest over each action of the journal, so that a change in it is noticed.

It goes over all that is written of an action once and for good: its number, instant,
title, who did it, and its changes in their order. Whether it stands undone comes and
goes, so it is not in. One action's digest does not hang on the one before: numbers are
in the digest and follow one another without a gap, which tells of a lost action as
well, and one damaged action leaves all others proved. Where changes were forgotten on
purpose, and in what was written before there were digests, it is ``NULL``.
"""

from __future__ import annotations

import json
from hashlib import blake2b
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

_BYTES = 12
_ENCODER = json.JSONEncoder(separators=(",", ":"))
Written = tuple[str, int, str | None, str | None]
"""A change as it stands in the file: table, row, images before and after."""


def digest_of(
    number: int,
    at_s: int,
    title: str,
    who: str,
    is_note: bool,  # noqa: FBT001 -- a column, in the order of the table
    changes: Iterable[Written],
) -> bytes:
    """Give the digest of an action."""
    made = blake2b(digest_size=_BYTES)
    made.update(_line([number, at_s, title, who, bool(is_note)]))
    for change in changes:
        made.update(_line(list(change)))
    return made.digest()


def _line(values: list[object]) -> bytes:
    """Give values as one line of ASCII, which no other values give."""
    return _ENCODER.encode(values).encode("ascii") + b"\n"
