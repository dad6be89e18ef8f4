"""Where a collection on a server is: its address read, and as a person may see it.

A password never stands in what is shown, and no message repeats an address as typed.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from sqlalchemy.exc import ArgumentError

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from sqlalchemy import URL

_ADDRESS = re.compile(r"[A-Za-z][A-Za-z0-9+.-]+://")
_POSTGRES = {"postgresql", "postgres", "postgresql+psycopg"}
_DRIVER = "postgresql+psycopg"


def is_address(text: str) -> bool:
    """Tell whether a text is the address of a server, and not a folder."""
    return _ADDRESS.match(text) is not None


def parsed(address: str) -> URL:
    """Give an address in its parts.

    Raises InputError for one that names no database, or no server that growdesk knows.
    """
    from sqlalchemy import make_url  # noqa: PLC0415 -- only where a server is used

    hint = tr("Write it as: postgresql+psycopg://user@host/name.")
    try:
        url = make_url(address.strip())
    except (ArgumentError, ValueError):
        problem = tr("cannot be read as the address of a server")
        raise InputError("collection", "…", problem, hint) from None
    if url.drivername not in _POSTGRES:
        problem = tr("is not a server that growdesk keeps a collection on")
        raise InputError("collection", url.drivername, problem, hint)
    if not url.database:
        raise InputError("collection", shown(url), tr("names no database"), hint)
    return url.set(drivername=_DRIVER)


def shown(url: URL) -> str:
    """Give what a person knows a collection on a server by: its name, and the host."""
    host = url.host or url.query.get("host") or "localhost"
    where = host if isinstance(host, str) else ", ".join(host)
    if not url.database:
        return where
    return tr("{name} on {host}").format(name=url.database, host=where)
