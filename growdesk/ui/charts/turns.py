"""Let one thread at a time use the drawing library.

Its settings and its type are one for the whole program. Pictures for the window are
drawn on the side lane, files and the year's pages on the long one; the window's thread
draws nothing.
"""

from __future__ import annotations

from functools import wraps
from threading import RLock
from typing import TYPE_CHECKING, ParamSpec, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable

P = ParamSpec("P")
T = TypeVar("T")

_TURN = RLock()


def in_turn(draws: Callable[P, T]) -> Callable[P, T]:
    """Have a function wait until no other thread draws."""

    @wraps(draws)
    def waiting(*args: P.args, **named: P.kwargs) -> T:
        with _TURN:
            return draws(*args, **named)

    return waiting
