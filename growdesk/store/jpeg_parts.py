"""The parts of a JPEG (ITU T.81, annex B): segments, and between them its codes.

Decoders take codes as they come, damaged ones too, and draw a scar; what they refuse by
stands in the segments, and in the end that a file cut short has not. So a file's
segments alone, with its frame made small, are refused wherever the whole file is.
"""

from __future__ import annotations

import re
import struct
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

_MARKER = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]")
_MOST_SEGMENTS = 200_000
_BEGIN, _END, _SCAN = 0xD8, 0xD9, 0xDA
_FRAMES = {0xC0, 0xC1, 0xC2}
"""Frames of Huffman codes, in one pass or many: what cameras and programs write."""
_KNOWN = 0xC0
"""Markers below have no meaning; decoders pass some of them by and refuse others."""
_ADDED = {*range(0xE1, 0xEE), 0xEF, 0xFE}
"""What programs add and decoders skip; 0xE0 and 0xEE say how colours are meant."""
_SIDE_PX, _MOST_SIDE_PX = 8, 65_500


class NoPartsError(Exception):
    """A file whose segments do not lead to an end."""


def segments(content: bytes) -> Iterator[tuple[int, int, int]]:
    """Give marker, start and end of each segment of the first picture, to its end."""
    at = 2
    for _ in range(_MOST_SEGMENTS):
        found = _MARKER.search(content, at)
        if found is None:
            raise NoPartsError
        at, marker = found.start(), content[found.start() + 1]
        if marker == _END:
            yield marker, at, at + 2
            return
        end = at + 2 + int(struct.unpack_from(">H", content, at + 2)[0])
        yield marker, at, end
        at = end
    raise NoPartsError


def scans_of(content: bytes) -> int:
    """Give how often a JPEG goes over its first picture, as far as that can be read."""
    scans = 0
    try:
        for marker, _start, _end in segments(content):
            scans += marker == _SCAN
    except (NoPartsError, struct.error):
        return scans
    return scans


def without_codes(content: bytes) -> bytes | None:
    """Give a JPEG's segments alone, as a picture of 8 pixels a side.

    None where the file has no end, or is of a sort that only decoding it can judge.
    """
    kept = [content[:2]]
    try:
        for marker, start, end in segments(content):
            if marker == _END:
                kept.append(content[start:end])
            elif marker < _KNOWN or marker == _BEGIN or end < start + 4:
                return None
            elif marker not in _ADDED:
                part = content[start:end]
                kept.append(_made_small(part) if marker in _FRAMES else part)
    except (NoPartsError, struct.error):
        return None
    return b"".join(kept)


def _made_small(frame: bytes) -> bytes:
    sides = struct.unpack_from(">HH", frame, 5)
    small = (min(each, _SIDE_PX) if each <= _MOST_SIDE_PX else each for each in sides)
    return frame[:5] + struct.pack(">HH", *small) + frame[9:]
