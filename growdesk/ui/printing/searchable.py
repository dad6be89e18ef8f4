"""Make the words of a PDF searchable: let its space be a space.

Qt maps the space glyph of an embedded font to a tab, so "DO NOT WATER" is not found in
a viewer and not copied as three words. The fonts' maps to Unicode are stored plain and
are put right in place, without a byte more or less; anything else is left as it is.
"""

from __future__ import annotations

import re

_UNICODE_MAP = re.compile(rb"begincmap.*?endcmap", re.DOTALL)
_LISTED = re.compile(rb"\[[^\]]*\]")
_SINGLE = re.compile(rb"(<[0-9A-Fa-f]{4}> <[0-9A-Fa-f]{4}> )<0009>")


def spaces_as_spaces(content: bytes) -> bytes:
    """Give the PDF with each font's space mapped to a space."""
    return _UNICODE_MAP.sub(_mended, content)


def _mended(found: re.Match[bytes]) -> bytes:
    listed = _LISTED.sub(lambda each: each[0].replace(b"<0009>", b"<0020>"), found[0])
    return _SINGLE.sub(rb"\1<0020>", listed)
