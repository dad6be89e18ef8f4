"""Read and blank what an EXIF block says of a place; every other byte stays.

The block is a TIFF file in little (TIFF 6.0, section 2; Exif 2.32, 4.6.6 for the GPS
tags). Entries are taken out and their values zeroed in place, so that its length and
all offsets in it hold: it can be put back where it was, in a file of any form.
"""

from __future__ import annotations

import re
import struct
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Iterator

    Bytes = bytes | memoryview

START = re.compile(rb"II\*\x00|MM\x00\*")
_SIZES = {1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8}
_EXIF, _GPS, _XMP, _IPTC, _PHOTOSHOP = 0x8769, 0x8825, 700, 33723, 34377
_MAKER_NOTE = 0x927C
_PLACES = {2, 4, 20, 22, 27, 28}
"""Latitude, longitude, both of what is aimed at, how it was found, and the area."""
_CITY_TO_COUNTRY = re.compile(rb"\x1c\x02[\x1a\x1b\x5a\x5c\x5f\x64\x65]\x00[\x01-\xff]")
"""IPTC IIM 4.2, record 2: content location (26, 27), city, sublocation, province,
country (90, 92, 95, 100, 101), not empty."""
_XMP_PLACE = re.compile(
    rb"GPS(?:Latitude|Longitude|Dest|Area|Proc)|Location|"
    rb":(?:City|State|Country|Sublocation|ProvinceState)\b"
)


class BrokenBlockError(Exception):
    """A block whose offsets lead nowhere."""


class TooTangledError(Exception):
    """Directories that lead into one another far more often than any camera's."""


class Patience:
    """How many entries of one file are looked at; a camera writes some hundred."""

    def __init__(self, entries: int = 100_000) -> None:
        self._left = entries

    def spend(self, entries: int) -> None:
        """Look at so many more, or raise ``TooTangledError``."""
        self._left -= entries
        if self._left < 0:
            raise TooTangledError


class _Entry(Struct, frozen=True):
    at: int
    tag: int
    value_at: int
    size: int
    points_to: int


def words_say_where(xmp: Bytes) -> bool:
    """Tell whether an XMP packet names a place."""
    return _XMP_PLACE.search(xmp) is not None


def caption_says_where(iptc: Bytes) -> bool:
    """Tell whether IPTC records name a place."""
    return _CITY_TO_COUNTRY.search(iptc) is not None


def says_where(block: Bytes, patience: Patience | None = None) -> bool:
    """Tell whether a block says where a photo was taken; a broken one does not.

    Raises ``TooTangledError`` once ``patience`` is at its end.
    """
    left = patience or Patience()
    try:
        return any(
            _entry_says(block, entry, left)
            for directory in _directories(block, left)
            for entry in _entries(block, directory, left)
        )
    except BrokenBlockError:
        return False


def without_place(block: bytes, patience: Patience | None = None) -> bytes:
    """Give the block, as long as it was, without place, maker's note and captions."""
    data, left = bytearray(block), patience or Patience()
    for at in _directories(block, left):
        _cut_out(data, at, {_GPS, _XMP, _IPTC, _PHOTOSHOP}, left)
        for entry in _entries(block, at, left):
            if entry.tag == _GPS:
                _blank_directory(data, block, entry.points_to, left)
            elif entry.tag == _EXIF:
                _cut_out(data, entry.points_to, {_MAKER_NOTE}, left)
    return bytes(data)


def _entry_says(block: Bytes, entry: _Entry, left: Patience) -> bool:
    if entry.tag == _GPS:
        found = _entries(block, entry.points_to, left)
        return any(each.tag in _PLACES for each in found)
    if entry.tag not in {_XMP, _IPTC, _PHOTOSHOP}:
        return False
    left.spend(entry.size // 100)
    value = block[entry.value_at : entry.value_at + entry.size]
    if entry.tag == _XMP:
        return words_say_where(value)
    return caption_says_where(value)


def _directories(block: Bytes, left: Patience) -> Iterator[int]:
    """Give where each directory of the block's own chain begins."""
    if START.match(block) is None:
        raise BrokenBlockError
    at, seen = _number(block, 4, "I"), set[int]()
    while at and at not in seen:
        seen.add(at)
        left.spend(1)
        yield at
        at = _number(block, at + 2 + 12 * _number(block, at, "H"), "I")


def _entries(block: Bytes, directory: int, left: Patience) -> list[_Entry]:
    found, many = [], _number(block, directory, "H")
    left.spend(many)
    for number in range(many):
        at = directory + 2 + 12 * number
        size = _SIZES.get(_number(block, at + 2, "H"), 1) * _number(block, at + 4, "I")
        target = _number(block, at + 8, "I")
        value_at = at + 8 if size <= 4 else target
        if value_at + size > len(block):
            size = max(0, len(block) - value_at)
        found.append(_Entry(at, _number(block, at, "H"), value_at, size, target))
    return found


def _cut_out(data: bytearray, directory: int, tags: set[int], left: Patience) -> None:
    """Take entries out of a directory, their values too; the rest moves up."""
    left.spend(len(data) // 1000)
    before = bytes(data)
    entries = _entries(before, directory, left)
    gone = [entry for entry in entries if entry.tag in tags]
    if not gone:
        return
    for entry in gone:
        if entry.tag != _GPS:
            _zero(data, entry.value_at, entry.size)
    stay = [before[e.at : e.at + 12] for e in entries if e.tag not in tags]
    end = directory + 2 + 12 * len(entries)
    whole = b"".join([*stay, before[end : end + 4], bytes(12 * len(gone))])
    data[directory + 2 : end + 4] = whole
    struct.pack_into(_order(before) + "H", data, directory, len(stay))


def _blank_directory(
    data: bytearray, block: bytes, directory: int, left: Patience
) -> None:
    for entry in _entries(block, directory, left):
        left.spend(entry.size // 1000)
        _zero(data, entry.value_at, entry.size)
        _zero(data, entry.at, 12)
    _zero(data, directory, 2)


def _zero(data: bytearray, at: int, size: int) -> None:
    data[at : at + size] = bytes(size)


def _order(block: Bytes) -> str:
    return "<" if block[:2] == b"II" else ">"


def _number(block: Bytes, at: int, form: str) -> int:
    try:
        return int(struct.unpack_from(_order(block) + form, block, at)[0])
    except struct.error as error:
        raise BrokenBlockError from error
