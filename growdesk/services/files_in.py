"""Reads a file that a person named: its bytes, or one plain line why not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError

if TYPE_CHECKING:
    from pathlib import Path

MOST_BYTES = 50_000_000


def read_bytes(path: Path) -> bytes:
    """Give the content of a file, a pipe too, and at most what can be meant."""
    try:
        with path.open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise InputError("FILE", str(path), "is not there", "Check its name.") from None
    except IsADirectoryError:
        hint = "Name the CSV file in it."
        raise InputError("FILE", str(path), "is a folder", hint) from None
    except (OSError, ValueError) as error:
        hint = "Check its name and whether you may read it."
        problem = f"cannot be read ({getattr(error, 'strerror', None) or error})"
        raise InputError("FILE", str(path), problem, hint) from None
    if len(raw) > MOST_BYTES:
        hint = f"Split it into files of at most {MOST_BYTES // 1_000_000} MB."
        raise InputError("FILE", str(path), "is too large", hint)
    return raw
