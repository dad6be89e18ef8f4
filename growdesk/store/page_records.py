"""Cells and records of a SQLite file, read from the bytes of a page.

After the file format's own description (sqlite.org/fileformat2.html, sections 1.6 and
2.1). Nothing is believed: whatever does not fit in its page is left out, and what a
record lacks is ``UNREADABLE``. It knows no table and no file.
"""

from __future__ import annotations

import struct
from typing import TYPE_CHECKING, Final

from msgspec import Struct
from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Callable

Value = int | float | str | bytes | None
LEAF, INTERIOR, INDEX_LEAF, INDEX_INTERIOR = 0x0D, 0x05, 0x0A, 0x02
_MOST_PAYLOAD = 200_000_000
_MOST_COLUMNS = 200
_FIXED = {0: 0, 1: 1, 2: 2, 3: 3, 4: 4, 5: 6, 6: 8, 7: 8, 8: 0, 9: 0}
_FIRST_TEXT = 12
_REAL = 7


class Torn(str):
    """A text that could be read only in part."""

    __slots__ = ()


class _Unreadable:
    """Stands where a value was and cannot be read."""

    @override
    def __repr__(self) -> str:
        return "unreadable"


UNREADABLE: Final = _Unreadable()
Read = Value | _Unreadable


class Cell(Struct, frozen=True):
    """One cell: its key where it has one, and where it lies in its page.

    ``child`` is the page below an interior cell.
    """

    key: int
    values: tuple[Read, ...]
    start: int
    end: int
    child: int = 0


class Unfit(ValueError):  # noqa: N818 -- no error a person meets: it never leaves the store
    """Bytes that are no cell."""


def varint(data: bytes, at: int) -> tuple[int, int]:
    """Give a whole number of up to nine bytes, and where it ends."""
    value = 0
    for number in range(9):
        if at >= len(data):
            raise Unfit
        byte = data[at]
        at += 1
        if number == 8:
            return _signed((value << 8) | byte), at
        value = (value << 7) | (byte & 0x7F)
        if byte < 0x80:
            return value, at
    raise Unfit


def local_bytes(payload: int, usable: int, *, index: bool = False) -> int:
    """Give how much of a payload lies in its page; the rest is in overflow pages."""
    most = (usable - 12) * 64 // 255 - 23 if index else usable - 35
    if payload <= most:
        return payload
    least = (usable - 12) * 32 // 255 - 23
    kept = least + (payload - least) % (usable - 4)
    return kept if kept <= most else least


def leaf_cell(
    page: bytes, at: int, usable: int, more: Callable[[int, int], bytes]
) -> Cell:
    """Read a row of a table; ``more`` gives so many bytes of an overflow chain."""
    length, place = varint(page, at)
    key, place = varint(page, place)
    payload, end = _payload(page, place, length, usable, more)
    return Cell(key, record(payload), at, end)


def index_cell(
    page: bytes, at: int, usable: int, more: Callable[[int, int], bytes]
) -> Cell:
    """Read an entry of an index; its last value is the number of the row."""
    length, place = varint(page, at)
    payload, end = _payload(page, place, length, usable, more, index=True)
    return Cell(0, record(payload), at, end)


def interior_cell(page: bytes, at: int) -> Cell:
    """Read a child page and the largest key below it."""
    if at + 5 > len(page):
        raise Unfit
    child = int.from_bytes(page[at : at + 4], "big")
    key, end = varint(page, at + 4)
    return Cell(key, (), at, end, child)


def record(payload: bytes) -> tuple[Read, ...]:
    """Give the values of a record; those that are cut off are unreadable."""
    head, at = varint(payload, 0)
    if not 1 <= head <= len(payload):
        raise Unfit
    kinds: list[int] = []
    while at < head:
        kind, at = varint(payload, at)
        if kind < 0 or kind in {10, 11} or len(kinds) == _MOST_COLUMNS:
            raise Unfit
        kinds.append(kind)
    if at != head:
        raise Unfit
    values: list[Read] = []
    for kind in kinds:
        size = _size(kind)
        values.append(_value(kind, payload[at : at + size], size))
        at += size
    return tuple(values)


def _payload(
    page: bytes,
    at: int,
    length: int,
    usable: int,
    more: Callable[[int, int], bytes],
    *,
    index: bool = False,
) -> tuple[bytes, int]:
    if not 1 <= length <= _MOST_PAYLOAD:
        raise Unfit
    local = local_bytes(length, usable, index=index)
    end = at + local + (4 if local < length else 0)
    if end > usable:
        raise Unfit
    payload = page[at : at + local]
    if local < length:
        following = int.from_bytes(page[at + local : end], "big")
        payload += more(following, length - local)
    return payload, end


def _size(kind: int) -> int:
    return _FIXED[kind] if kind < _FIRST_TEXT else (kind - _FIRST_TEXT) // 2


def _value(kind: int, raw: bytes, size: int) -> Read:
    is_text = kind > _FIRST_TEXT and bool(kind % 2)
    if len(raw) < size:
        return _torn(raw) if is_text and raw else UNREADABLE
    if is_text:
        try:
            return raw.decode("utf-8")
        except UnicodeDecodeError:
            return _torn(raw)
    return raw if kind >= _FIRST_TEXT else _number(kind, raw)


def _number(kind: int, raw: bytes) -> int | float | None:
    if kind == 0:
        return None
    if kind == _REAL:
        return float(struct.unpack(">d", raw)[0])
    return int.from_bytes(raw, "big", signed=True) if kind < _REAL else kind - 8


def _torn(raw: bytes) -> Torn:
    return Torn(raw.decode("utf-8", "replace").replace("\0", "\ufffd"))


def _signed(value: int) -> int:
    value &= (1 << 64) - 1
    return value - (1 << 64) if value >= 1 << 63 else value
