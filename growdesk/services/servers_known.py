"""Remembers on this machine which servers were used, and with which shared folder.

It lies with what the window remembers of the machine, is open to its owner alone, and
holds no password. What cannot be read is as it is at first.
"""

from __future__ import annotations

import json
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.server_address import ServerAddress, read_address
from growdesk.services.whereabouts import OnServer
from growdesk.store.regular_files import TooLargeError, read_regular
from growdesk.store.whole_files import PRIVATE, make_folder, write_whole

_FILE = "servers.json"
_MOST_BYTES = 100_000
_MOST_KEPT = 20
_SAYS_NOTHING = (OSError, TooLargeError, ValueError, TypeError, RecursionError)


class Known(Struct, frozen=True):
    """The servers used, the last first; ``next_start`` opens the first of them."""

    servers: tuple[OnServer, ...] = ()
    next_start: bool = False


def known() -> Known:
    """Give what is remembered."""
    try:
        read = json.loads(read_regular(_file(), _MOST_BYTES))
        servers = tuple(_read(each) for each in read["servers"][:_MOST_KEPT])
        return Known(servers, read["next_start"] is True and bool(servers))
    except (*_SAYS_NOTHING, KeyError, InputError):
        return Known()


def remember(where: OnServer, *, next_start: bool | None = None) -> None:
    """Keep a server with its shared folder; ``None`` leaves the next start as it is."""
    before = known()
    others = (each for each in before.servers if each.address != where.address)
    opens = before.next_start if next_start is None else next_start
    _keep(Known((where, *others)[:_MOST_KEPT], opens))


def open_folder_next() -> None:
    """Let the next start open the folder on this machine again."""
    before = known()
    if before.next_start:
        _keep(Known(before.servers))


def photos_for(address: ServerAddress) -> Path | None:
    """Give the shared folder that is remembered for a server, if any is."""
    same = (each.folder for each in known().servers if each.address == address)
    return next(same, None)


def own_folder(address: ServerAddress) -> Path:
    """Give where photos lie on this machine alone until a shared folder is named."""
    import platformdirs  # noqa: PLC0415 -- only where no folder was named

    plain = "".join(sign for sign in address.database if sign.isalnum())[:40]
    mark = sha256(address.bare.encode()).hexdigest()[:8]
    data = platformdirs.user_data_path("growdesk", appauthor=False)
    return data / "servers" / f"{plain or 'collection'}-{mark}"


def _file() -> Path:
    import platformdirs  # noqa: PLC0415 -- with a server only

    return platformdirs.user_config_path("growdesk", appauthor=False) / _FILE


def _read(each: dict[str, str]) -> OnServer:
    return OnServer(read_address(each["address"]), Path(each["photos"]))


def _keep(kept: Known) -> None:
    """Write it where the machine lets us; what is not remembered is asked again."""
    rows = [
        {"address": each.address.bare, "photos": str(each.folder)}
        for each in kept.servers
    ]
    content = {"servers": rows, "next_start": kept.next_start}
    with suppress(OSError):
        make_folder(_file().parent, PRIVATE)
        write_whole(_file(), json.dumps(content, indent=1).encode())
