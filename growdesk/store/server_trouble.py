"""What a server says when it cannot, as the plain line a person is told.

It goes by the five signs that a server names its faults with, and where it gave none,
as before anybody is let in, by what the driver says. No line repeats an address.
"""

from __future__ import annotations

import re
from contextlib import contextmanager
from typing import TYPE_CHECKING

from sqlalchemy.exc import DBAPIError
from sqlalchemy.exc import TimeoutError as NoneFreeError

from growdesk.domain.errors import (
    BusyError,
    DamagedError,
    FullError,
    GoneError,
    LookOnlyError,
    StoreError,
)
from growdesk.domain.speech import mark, tr

if TYPE_CHECKING:
    from collections.abc import Iterator

_Told = tuple[type[StoreError], str, str]

_GONE: _Told = (
    GoneError,
    mark("The server of {place} cannot be reached."),
    mark(
        "Look whether it runs and whether this computer is on its network, and do it"
        " again; all before is kept."
    ),
)
_BUSY: _Told = (
    BusyError,
    mark("Somebody else is writing to {place} just now."),
    mark("Wait a moment, and do it again; nothing of it is lost."),
)
_CROWDED: _Told = (
    BusyError,
    mark("The server of {place} has no room for one more program."),
    mark("Wait a moment, or close growdesk on another computer, and do it again."),
)
_REFUSED: _Told = (
    StoreError,
    mark("The server of {place} does not know this name and password."),
    mark("Look at the name in the address, and at the password it is given."),
)
_SHUT: _Told = (
    StoreError,
    mark("The server of {place} answers, and does not let growdesk in."),
    mark(
        "Look at user, password and database in the address, and let whoever keeps the"
        " server look whether this computer may come in."
    ),
)
_UNSAFE: _Told = (
    StoreError,
    mark("The line to the server of {place} is not as safe as its address asks."),
    mark("Look at sslmode and sslrootcert in it, or ask whoever keeps the server."),
)
_NO_SUCH: _Told = (
    StoreError,
    mark("There is no database for {place} on its server."),
    mark("Look at the name, or let whoever keeps the server make an empty one."),
)
_MAY_NOT: _Told = (
    LookOnlyError,
    mark("{place} may not be written by this name."),
    mark("Ask whoever keeps the server to let this name write there."),
)
_STANDS: _Told = (
    LookOnlyError,
    mark("The server of {place} may only be read just now."),
    mark("Ask whoever keeps the server when it may be written again."),
)
_DAMAGED: _Told = (
    DamagedError,
    mark("{place} is damaged on its server."),
    mark("Tell whoever keeps the server, and bring a backup back."),
)
_FULL: _Told = (
    FullError,
    mark("The disk of the server of {place} is full."),
    mark("Let whoever keeps it free some space, and do it again; all before is kept."),
)
_STOPPED: _Told = (
    StoreError,
    mark("The work on {place} was stopped before it was done."),
    mark("Do it again; all before is kept."),
)
_BY_SIGNS: dict[str, _Told] = {
    "08": _GONE,
    "57P": _GONE,
    "25P03": _GONE,
    "28": _REFUSED,
    "3D000": _NO_SUCH,
    "42501": _MAY_NOT,
    "25006": _STANDS,
    "53100": _FULL,
    "58030": _FULL,
    "53200": _CROWDED,
    "53300": _CROWDED,
    "55P03": _BUSY,
    "40001": _BUSY,
    "40P01": _BUSY,
    "57014": _STOPPED,
    "XX001": _DAMAGED,
    "XX002": _DAMAGED,
}
_BY_WORDS: dict[str, _Told] = {
    "password": _REFUSED,
    "no pg_hba.conf entry": _REFUSED,
    'role "': _REFUSED,
    'database "': _NO_SUCH,
    "too many": _CROWDED,
    "remaining connection slots": _CROWDED,
    "starting up": _GONE,
    "shutting down": _GONE,
    "recovery": _GONE,
    "not yet accepting": _GONE,
    "terminating connection": _GONE,
}
"""What stands in a refusal to let in, by which no signs come with it."""
_AT_THE_DOOR = "FATAL:", "fe_sendauth:"
_SAFETY = re.compile(r"SSL|sslmode|certificate", re.IGNORECASE)
_CUT = "SYSCALL", "closed unexpectedly", "closed the connection"
_NOT_LOST = {"DataError", "IntegrityError", "ProgrammingError", "NotSupportedError"}


def server_trouble(error: BaseException, place: str) -> StoreError | None:
    """Give the plain line for what a server did, or nothing where it is a bug."""
    if isinstance(error, NoneFreeError):
        return _line(_BUSY, place)
    origin = error.orig if isinstance(error, DBAPIError) else error
    signs = getattr(origin, "sqlstate", None)
    if isinstance(signs, str):
        found = next(
            (_BY_SIGNS[signs[:n]] for n in (5, 3, 2) if signs[:n] in _BY_SIGNS), None
        )
        return None if found is None else _line(found, place)
    if type(origin).__name__ in _NOT_LOST:
        return None
    return _line(_by_words(str(origin)), place)


def _by_words(said: str) -> _Told:
    """Tell what is meant where a fault came without its signs, as at the door."""
    for door in _AT_THE_DOOR:
        _, there, why = said.partition(door)
        for words, told in _BY_WORDS.items():
            if there and words in why:
                return told
    if "FATAL:" in said:
        return _SHUT  # said in the server's own language
    if _SAFETY.search(said) and not any(each in said for each in _CUT):
        return _UNSAFE
    return _GONE


def in_doubt(place: str) -> GoneError:
    """Give the line for a change that the server was asked to keep as it went away."""
    return GoneError(
        tr("The server of {place} went away as it was to keep this.").format(
            place=place
        ),
        tr("Look whether it is there before you do it again."),
    )


def may_not_write(place: str, *, stands: bool) -> StoreError:
    """Give the line for a server, or a name, by which nothing may be written."""
    return _line(_STANDS if stands else _MAY_NOT, place)


def no_driver() -> StoreError:
    """Give the line for a growdesk that lacks what speaks to a server."""
    return StoreError(
        tr("What growdesk needs to speak to a server is not installed."),
        tr("Install it with: python -m pip install 'psycopg[binary]'."),
    )


@contextmanager
def plainly_on_server(place: str) -> Iterator[None]:
    """Turn a server's faults inside the block into a ``StoreError``."""
    try:
        yield
    except (DBAPIError, NoneFreeError) as error:
        told = server_trouble(error, place)
        if told is None:
            raise
        raise told from error


def _line(told: _Told, place: str) -> StoreError:
    kind, message, hint = told
    return kind(tr(message).format(place=place), tr(hint))
