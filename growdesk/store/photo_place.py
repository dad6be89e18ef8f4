"""Find where a photo says it was taken, and cut that out without touching its pixels.

Each form of file keeps it elsewhere: JPEG in segments (ITU T.81, annex B; APP1 for EXIF
and XMP, APP13 for IPTC) and behind its end (a second picture, a short film), PNG in
chunks, WebP in RIFF chunks, TIFF in its own directory, HEIF in blocks of its ``mdat``.
"""

from __future__ import annotations

import re
import struct
import zlib
from typing import TYPE_CHECKING

from growdesk.store.exif_block import (
    START,
    BrokenBlockError,
    Patience,
    TooTangledError,
    caption_says_where,
    says_where,
    without_place,
    words_say_where,
)
from growdesk.store.jpeg_parts import NoPartsError, segments

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

_EXIF_HEAD = b"Exif\x00\x00"
_FILM = re.compile(rb"\xa9xyz|location\.ISO6709|\x00loci\x00")
_PACKET, _PACKET_ENDS = b"<x:xmpmeta", b"</x:xmpmeta>"
_EMPTY_PACKET = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"></x:xmpmeta>'
_PNG = b"\x89PNG\r\n\x1a\n"
_TEXTS = {b"tEXt", b"zTXt", b"iTXt"}
_MOST_TEXT = 10_000_000
_MOST_PARTS, _MOST_BLOCKS = 200_000, 100
"""Segments or chunks, and blocks that tell a place, of a file that is worth reading."""
_PROFILE = re.compile(rb"(?i)XML:com|Raw profile|gps|location")


class CannotCutError(Exception):
    """A file in which the place is kept where it cannot be cut out."""


def tells_place(content: bytes) -> bool:
    """Tell whether a photo's file says where it was taken.

    Of a file too tangled to be searched it is said, so that it is drawn anew.
    """
    _, tells = _ways(content)
    try:
        try:
            return tells(content)
        except (NoPartsError, struct.error, zlib.error, ValueError):
            return _tells_anywhere(content)
    except TooTangledError:
        return True


def cut_place(content: bytes) -> bytes:
    """Give the file without place, captions and maker's note; its pixels stay.

    Raises ``CannotCutError`` where the form of the file does not allow that.
    """
    cut, _ = _ways(content)
    try:
        return cut(content)
    except (
        BrokenBlockError,
        NoPartsError,
        TooTangledError,
        struct.error,
        IndexError,
    ) as error:
        raise CannotCutError from error


def _ways(content: bytes) -> tuple[Callable[[bytes], bytes], Callable[[bytes], bool]]:
    """Give how to cut and how to look, by the first bytes of a file."""
    if content[:3] == b"\xff\xd8\xff":
        return _cut_jpeg, _jpeg_tells
    if content[:8] == _PNG:
        return _cut_png, _png_tells
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return _cut_webp, _tells_anywhere
    if START.match(content):
        return without_place, says_where
    if content[4:8] == b"ftyp":
        return _cut_blocks, _tells_anywhere
    return _cannot, _tells_anywhere


def _cannot(_content: bytes) -> bytes:
    raise CannotCutError


def _tells_anywhere(content: bytes) -> bool:
    """Look through any bytes for EXIF blocks, XMP packets and a film's place."""
    packets = (content[start:end] for start, end in _packets(content))
    return (
        _FILM.search(content) is not None
        or any(words_say_where(packet) for packet in packets)
        or next(_telling_blocks(content), None) is not None
    )


def _packets(content: bytes) -> Iterator[tuple[int, int]]:
    """Give where XMP packets begin and end."""
    start = content.find(_PACKET)
    while start >= 0:
        end = content.find(_PACKET_ENDS, start)
        if end < 0:
            return
        end += len(_PACKET_ENDS)
        yield start, end
        start = content.find(_PACKET, end)


def _telling_blocks(content: bytes) -> Iterator[int]:
    """Give where EXIF blocks begin that tell a place."""
    rest, patience = memoryview(content), Patience()
    for found in START.finditer(content):
        patience.spend(1)
        if says_where(rest[found.start() :], patience):
            yield found.start()


# -- JPEG ----------------------------------------------------------------------------


def _jpeg_tells(content: bytes) -> bool:
    end, patience = 2, Patience()
    for marker, start, end in segments(content):
        if _segment_tells(marker, content[start + 4 : end], patience):
            return True
    return _tells_anywhere(content[end:])


def _segment_tells(marker: int, body: bytes, patience: Patience) -> bool:
    if marker == 0xE1 and body.startswith(_EXIF_HEAD):
        return says_where(body[6:], patience)
    if marker == 0xE1:
        return words_say_where(body)
    return marker == 0xED and caption_says_where(body)


def _cut_jpeg(content: bytes) -> bytes:
    kept, last, patience = [content[:2]], 2, Patience()
    for marker, start, end in segments(content):
        kept.append(content[last:start])
        kept.append(_segment_kept(marker, content[start:end], patience))
        last = end
    return b"".join(kept)


def _segment_kept(marker: int, segment: bytes, patience: Patience) -> bytes:
    body = segment[4:]
    if marker == 0xE1 and body.startswith(_EXIF_HEAD):
        return segment[:10] + without_place(body[6:], patience)
    gone = marker in {0xE1, 0xED} or (marker == 0xE2 and body.startswith(b"MPF\x00"))
    return b"" if gone else segment


# -- PNG -----------------------------------------------------------------------------


_BEHIND = b""


def _chunks(content: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Give kind and body of each chunk, and last what hangs behind the picture."""
    at = 8
    for _ in range(_MOST_PARTS):
        size, kind = struct.unpack_from(">I4s", content, at)
        yield kind, content[at + 8 : at + 8 + size]
        if kind == b"IEND":
            yield _BEHIND, content[at + 12 + size :]
            return
        at += 12 + size
    raise TooTangledError


def _png_tells(content: bytes) -> bool:
    room, patience = _MOST_TEXT, Patience()
    for kind, body in _chunks(content):
        if kind in _TEXTS:
            name, text = _text(kind, body, room)
            room -= len(text)
            if room <= 0:
                raise TooTangledError
            tells = _text_tells(name, text)
        elif kind == _BEHIND:
            tells = _tells_anywhere(body)
        else:
            tells = kind == b"eXIf" and says_where(body, patience)
        if tells:
            return True
    return False


def _text(kind: bytes, body: bytes, room: int) -> tuple[bytes, bytes]:
    name, _, text = body.partition(b"\x00")
    if kind == b"zTXt":
        text = _inflated(text[1:], room)
    elif kind == b"iTXt":
        packed, text = text[:1] == b"\x01", text[2:].split(b"\x00", 2)[-1]
        text = _inflated(text, room) if packed else text
    return name, text


def _text_tells(name: bytes, text: bytes) -> bool:
    if name.lower().startswith(b"raw profile"):
        lines = text.strip().split(b"\n")[2:]
        text = bytes.fromhex(b"".join(lines).decode("ascii", "ignore"))
    named = re.search(rb"(?i)gps|location", name) is not None
    return named or caption_says_where(text) or _tells_anywhere(text)


def _inflated(packed: bytes, most: int) -> bytes:
    return zlib.decompressobj().decompress(packed, most)


def _cut_png(content: bytes) -> bytes:
    kept, patience = [_PNG], Patience()
    for kind, body in _chunks(content):
        if kind == _BEHIND:
            continue
        if kind in _TEXTS and _PROFILE.search(body.partition(b"\x00")[0]):
            if body.lower().startswith(
                (b"raw profile type exif", b"raw profile type a")
            ):
                raise CannotCutError  # the day and the turn are in it too
            continue
        left = without_place(body, patience) if kind == b"eXIf" else body
        check = zlib.crc32(kind + left)
        kept.append(struct.pack(">I4s", len(left), kind) + left)
        kept.append(struct.pack(">I", check))
    return b"".join(kept)


# -- WebP and HEIF -------------------------------------------------------------------


def _cut_webp(content: bytes) -> bytes:
    kept, at = bytearray(), 12
    end = 8 + int(struct.unpack_from("<I", content, 4)[0])
    while at < min(end, len(content)):
        kind, size = struct.unpack_from("<4sI", content, at)
        body = content[at + 8 : at + 8 + size]
        at += 8 + size + size % 2
        if kind == b"XMP ":
            continue
        if kind == b"EXIF":
            body = _blocks_blanked(body)
        elif kind == b"VP8X":
            body = bytes([body[0] & ~0x04]) + body[1:]
        kept += struct.pack("<4sI", kind, size) + body + bytes(size % 2)
    return struct.pack("<4sI4s", b"RIFF", 4 + len(kept), b"WEBP") + bytes(kept)


def _cut_blocks(content: bytes) -> bytes:
    if _FILM.search(content):
        raise CannotCutError
    blanked = bytearray(_blocks_blanked(content))
    for start, end in _packets(bytes(blanked)):
        if words_say_where(bytes(blanked[start:end])):
            blanked[start:end] = _EMPTY_PACKET.ljust(end - start)
    return bytes(blanked)


def _blocks_blanked(content: bytes) -> bytes:
    """Give the bytes with every EXIF block that tells a place blanked where it lies."""
    patience = Patience()
    for many, at in enumerate(_telling_blocks(content)):
        if many == _MOST_BLOCKS:
            raise TooTangledError
        content = content[:at] + without_place(content[at:], patience)
    return content
