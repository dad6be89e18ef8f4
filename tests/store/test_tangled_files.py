"""Files made so that looking for a place in them would take hours: given up, in time.

Counted is how many entries are looked at, never seconds.
"""

from __future__ import annotations

import struct
import zlib

import pytest

from growdesk.store.exif_block import Patience, TooTangledError, says_where
from growdesk.store.photo_place import CannotCutError, cut_place, tells_place

HEAD = b"II*\x00\x08\x00\x00\x00"
HEIC = b"\x00\x00\x00\x18ftypheic"


def test_a_block_of_a_few_entries_is_looked_through() -> None:
    gps = struct.pack("<HHII", 0x8825, 4, 1, 26)
    inside = struct.pack("<H", 1) + struct.pack("<HHII", 2, 5, 3, 40)
    block = HEAD + struct.pack("<H", 1) + gps + bytes(4) + inside + bytes(40)
    assert says_where(block, Patience(4))
    with pytest.raises(TooTangledError):
        says_where(block, Patience(2))


@pytest.mark.parametrize(
    "content",
    [
        HEIC + b"MM\x00*" * 120_000,
        HEIC + (HEAD + struct.pack("<H", 60_000)) * 9 + bytes(720_000),
        b"RIFF"
        + struct.pack("<I", 600_012)
        + b"WEBPEXIF"
        + struct.pack("<I", 600_000)
        + b"II*\x00" * 150_000,
        HEAD + struct.pack("<H", 4_000) + struct.pack("<HHII", 0x8825, 4, 1, 8) * 4_000,
        b"\xff\xd8" + b"\xff\xe1\x00\x02" * 300_000,
    ],
)
def test_what_is_too_tangled_counts_as_telling_its_place(content: bytes) -> None:
    assert tells_place(content) or content.startswith(b"\xff\xd8")
    with pytest.raises(CannotCutError):
        cut_place(content)


def test_packets_without_an_end_are_passed_over_once() -> None:
    content = HEIC + b"<x:xmpmeta" * 200_000
    assert not tells_place(content)
    assert cut_place(content) == content


def test_texts_that_swell_are_not_unpacked_without_end() -> None:
    text = b"zTXt", b"note\x00\x00" + zlib.compress(bytes(6_000_000))
    chunk = struct.pack(">I", len(text[1])) + text[0] + text[1] + bytes(4)
    png = b"\x89PNG\r\n\x1a\n" + chunk * 3 + bytes(4) + b"IEND" + bytes(4)
    assert tells_place(png)
