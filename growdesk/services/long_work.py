"""Work that takes long: it says how far it is, and stops between steps where asked."""

from __future__ import annotations

from collections.abc import Callable

from growdesk.domain.errors import GrowdeskError

Step = Callable[[int, int], None]
"""Told how much is done, of how much; raises ``StoppedError`` to stop the work."""


class StoppedError(GrowdeskError):
    """The person who asked for it stopped the work."""

    reference = "stopped"


def quietly(_done: int, _of: int) -> None:
    """Go on, and tell nobody."""
