"""Write small catalogues of texts for tests, as ``msgfmt`` compiles them."""

from __future__ import annotations

import struct
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

_MAGIC = 0x950412DE
_HEAD = 7 * 4


def write_catalogue(
    folder: Path,
    texts: Mapping[str, str],
    in_context: Mapping[tuple[str, str], str] | None = None,
) -> Path:
    """Write ``LC_MESSAGES/growdesk.mo`` in a language's folder (GNU gettext's form)."""
    every = dict(texts)
    for (context, text), said in (in_context or {}).items():
        every[f"{context}\x04{text}"] = said
    keys = sorted(every)
    ids = [key.encode() for key in keys]
    words = [every[key].encode() for key in keys]
    at = _HEAD + 16 * len(keys)
    tables, body = b"", b""
    for part in (ids, words):
        for encoded in part:
            tables += struct.pack("<II", len(encoded), at + len(body))
            body += encoded + b"\0"
    head = struct.pack(
        "<7I", _MAGIC, 0, len(keys), _HEAD, _HEAD + 8 * len(keys), 0, _HEAD
    )
    file = folder / "LC_MESSAGES" / "growdesk.mo"
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(head + tables + body)
    return file
