"""Reads a file that a person named: its bytes, or one plain line why not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.store.regular_files import open_to_read

if TYPE_CHECKING:
    from pathlib import Path

MOST_BYTES = 50_000_000


def read_bytes(path: Path, most: int | None = None) -> bytes:
    """Give the content of a file, and at most what can be meant.

    ``most`` bytes are read, else ``MOST_BYTES``. A pipe is read too where somebody
    writes into it; nothing is waited for in vain.
    """
    limit = MOST_BYTES if most is None else most
    try:
        with open_to_read(path) as file:
            raw = file.read(limit + 1)
    except FileNotFoundError:
        raise InputError(
            "FILE", str(path), tr("is not there"), tr("Check its name.")
        ) from None
    except IsADirectoryError:
        hint = tr("Name the CSV file in it.")
        raise InputError("FILE", str(path), tr("is a folder"), hint) from None
    except (OSError, ValueError) as error:
        hint = tr("Check its name and whether you may read it.")
        problem = tr("cannot be read ({reason})").format(
            reason=getattr(error, "strerror", None) or error
        )
        raise InputError("FILE", str(path), problem, hint) from None
    if len(raw) > limit:
        hint = tr("Split it into files of at most {most_bytes} MB.").format(
            most_bytes=max(1, limit // 1_000_000)
        )
        raise InputError("FILE", str(path), tr("is too large"), hint)
    return raw
