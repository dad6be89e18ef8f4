"""What can go wrong, as data: a message for the person, fields for the code.

``InputError`` is a person's slip and carries the field, the value and the way out.
``StoreError`` is the world's fault. Bugs stay plain exceptions and are not caught here.
"""

from __future__ import annotations

_MOST_SHOWN = 200


def shortened(text: str, most: int = _MOST_SHOWN) -> str:
    """Give a text that was handed in as a line can repeat it, both ends kept."""
    if len(text) <= most:
        return text
    kept = most // 2
    return f"{text[:kept]}…{text[1 - kept :]}"


class GrowdeskError(Exception):
    """Anything that is told to a person in one plain line.

    ``reference`` is a kebab-case key for logs and tests.
    """

    reference = "growdesk-error"

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def line(self) -> str:
        """Give the message and the way out as one line."""
        joined = f"{self.message} {self.hint}" if self.hint else self.message
        return " ".join(joined.split())


class InputError(GrowdeskError):
    """Something typed, or read from a file, that cannot be meant.

    ``field`` names the input, ``value`` repeats what was given.
    """

    reference = "input"

    def __init__(self, field: str, value: object, problem: str, hint: str = "") -> None:
        shown = shortened(repr(str(value)) if isinstance(value, str) else str(value))
        super().__init__(f"{field}: {shown} {problem}.", hint)
        self.field = field
        self.value = value
        self.problem = problem


class StoreError(GrowdeskError):
    """The collection cannot be read or written as it stands."""

    reference = "store"


class TooNewError(StoreError):
    """The collection was written by a newer growdesk."""

    reference = "store-too-new"


class ForeignError(StoreError):
    """The folder or file is not a growdesk collection."""

    reference = "store-foreign"


class BusyError(StoreError):
    """Another program holds the collection."""

    reference = "store-busy"


class GoneError(StoreError):
    """The server of the collection cannot be reached."""

    reference = "store-gone"


class OvertakenError(StoreError):
    """Others changed meanwhile what was to be changed; ``now`` is their state."""

    reference = "store-overtaken"

    def __init__(self, message: str, hint: str, now: object) -> None:
        super().__init__(message, hint)
        self.now = now


class DamagedError(StoreError):
    """The collection file is damaged."""

    reference = "store-damaged"


class LookOnlyError(StoreError):
    """The collection may be read, and not written.

    ``message`` is the reason, ``hint`` the way out.
    """

    reference = "store-look-only"


class NoLocksError(LookOnlyError):
    """The drive keeps no locks, so that nothing on it may be written."""

    reference = "store-no-locks"


class FullError(StoreError):
    """The disk of the collection is full."""

    reference = "store-full"
