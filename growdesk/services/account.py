"""Whose account of this computer growdesk runs in, for the history of changes."""

from __future__ import annotations

from functools import cache

_MOST = 64


@cache
def account_name() -> str:
    """Give the account's name, empty where the computer tells none; asked once."""
    import getpass  # noqa: PLC0415 -- with the first change, not at the start

    try:
        name = getpass.getuser()
    except (OSError, KeyError, ImportError):
        return ""
    return "".join(each for each in name if each.isprintable()).strip()[:_MOST]
