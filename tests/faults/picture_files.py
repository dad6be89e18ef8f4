"""Picture files that mean harm or were harmed, and what is to become of each.

All are made here, of invented pictures; nothing of them lies in the repository.
"""

from __future__ import annotations

import io
import random
import struct
import zipfile
import zlib
from typing import TYPE_CHECKING

from PIL import Image, ImageDraw

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

TAKEN = ""
Case = tuple[str, bytes, str]
"""A file's name, its bytes, and what its line must say; nothing where it is taken."""

NO_PICTURE, DAMAGED = "is no picture that can be read", "is damaged or cut short"
TOO_MANY = "pixels"


def camera_jpeg(size: tuple[int, int] = (320, 240), turned: int = 1) -> bytes:
    """Give a JPEG with much detail, as a camera writes it."""
    picture = Image.effect_noise(size, 40).convert("RGB")
    ImageDraw.Draw(picture).rectangle((0, 0, 60, 40), fill="red")
    exif = Image.Exif()
    exif[0x0112] = turned
    exif.get_ifd(0x8769)[0x9003] = "2025:06:07 08:09:10"
    return saved(picture, "JPEG", exif=exif)


def saved(picture: Image.Image, form: str, **options: object) -> bytes:
    """Give a picture's file."""
    out = io.BytesIO()
    picture.save(out, form, **options)
    return out.getvalue()


def cut(whole: bytes, count: int, seed: int) -> Iterator[bytes]:
    """Give a file cut off at as many random places."""
    chance = random.Random(seed)  # noqa: S311 -- no secret
    for _ in range(count):
        yield whole[: chance.randrange(1, len(whole) - 2)]


def png_of(width: int, height: int, *, bits: int = 1, colour: int = 0) -> bytes:
    """Give a PNG of one colour that is tiny however large its picture is."""
    channels = {0: 1, 2: 3, 6: 4}[colour]
    line = bytes(1 + (width * bits * channels + 7) // 8)
    packer, packed = zlib.compressobj(9), bytearray()
    for _ in range(height):
        packed += packer.compress(line)
    packed += packer.flush()
    head = struct.pack(">IIBBBBB", width, height, bits, colour, 0, 0, 0)
    parts = ((b"IHDR", head), (b"IDAT", bytes(packed)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(*part) for part in parts)


def _chunk(kind: bytes, body: bytes) -> bytes:
    check = struct.pack(">I", zlib.crc32(kind + body))
    return struct.pack(">I", len(body)) + kind + body + check


def with_exif(block: bytes) -> bytes:
    """Give a JPEG whose EXIF segment holds these bytes."""
    bare = saved(Image.new("RGB", (40, 30), "green"), "JPEG")
    body = b"Exif\x00\x00" + block[:65_000]
    return bare[:2] + b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body + bare[2:]


def many_scans(side: int, scans: int) -> bytes:
    """Give a progressive JPEG whose last pass over it comes again and again."""
    whole = saved(Image.new("L", (side, side)), "JPEG", progressive=True)
    last = whole.rindex(b"\xff\xda")
    return whole[:-2] + whole[last:-2] * scans + whole[-2:]


def looping() -> Iterator[Case]:
    """Give EXIF blocks whose directories lead into one another."""
    head = b"II*\x00\x08\x00\x00\x00"
    to_itself = head + struct.pack("<HI", 0, 8)
    yield "loop.jpg", with_exif(to_itself), TAKEN
    entry = struct.pack("<HHII", 0x8769, 4, 1, 8)
    yield "inside-itself.jpg", with_exif(head + struct.pack("<H", 1) + entry * 2), TAKEN
    nested, at = bytearray(head), 8
    for _ in range(2_000):
        nested += struct.pack("<H", 1)
        nested += struct.pack("<HHII", 0x8769, 4, 1, at + 18) + bytes(4)
        at += 18
    yield "nested.jpg", with_exif(bytes(nested)), TAKEN
    gps = struct.pack("<HHII", 0x8825, 4, 1, 8) * 5_000
    yield "tangled.jpg", with_exif(head + struct.pack("<H", 5_000) + gps), TAKEN
    yield "blocks.webp", _webp_with(b"EXIF", b"II*\x00" * 100_000), TAKEN
    yield "packets.webp", _webp_with(b"XMP ", b"<x:xmpmeta" * 100_000), TAKEN


def _webp_with(kind: bytes, body: bytes) -> bytes:
    bare = saved(Image.new("RGB", (40, 30), "green"), "WEBP")
    kept = bare[12:] + struct.pack("<4sI", kind, len(body)) + body
    return struct.pack("<4sI4s", b"RIFF", 4 + len(kept), b"WEBP") + kept


def posing() -> Iterator[Case]:
    """Give files of other kinds that call themselves pictures."""
    svg = b'<svg xmlns="http://www.w3.org/2000/svg"><image href="/etc/passwd"/></svg>'
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr("a.jpg", camera_jpeg((40, 30)))
    bodies = {
        "svg": svg,
        "html": b"<html><img src='http://nowhere.example/x.png'></html>",
        "pdf": b"%PDF-1.4\n1 0 obj\n<<>>\nendobj\ntrailer<<>>\n%%EOF",
        "zip": packed.getvalue(),
        "text": b"no picture at all",
        "program": b"\x7fELF" + bytes(200),
        "eps": b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\nshowpage\n",
        "ico": saved(Image.new("RGB", (16, 16)), "ICO"),
        "noise": random.Random(1).randbytes(5_000),  # noqa: S311 -- no secret
    }
    for kind, body in bodies.items():
        yield f"{kind}.jpg", body, NO_PICTURE
    yield "empty.jpg", b"", "is empty (0 bytes)"


def odd() -> Iterator[Case]:
    """Give pictures that are unusual, and good."""
    green = Image.new("RGB", (40, 30), "green")
    clear = Image.new("RGBA", (40, 30), (0, 128, 0, 90))
    frames = [Image.new("RGB", (40, 30), shade) for shade in ("red", "green", "blue")]
    yield "png-called.jpg", saved(green, "PNG"), TAKEN
    yield "jpg-called.png", camera_jpeg(), TAKEN
    yield "cmyk.jpg", saved(green.convert("CMYK"), "JPEG"), TAKEN
    yield "16-bit.png", saved(Image.new("I;16", (40, 30), 40_000), "PNG"), TAKEN
    yield "16-bit.tif", saved(Image.new("I;16", (40, 30), 40_000), "TIFF"), TAKEN
    yield "float.tif", saved(Image.new("F", (40, 30), 0.5), "TIFF"), TAKEN
    palette = clear.quantize()
    yield "palette.png", saved(palette, "PNG"), TAKEN
    yield "see-through.webp", saved(clear, "WEBP"), TAKEN
    yield "grey-alpha.png", saved(clear.convert("LA"), "PNG"), TAKEN
    yield "one-bit.png", saved(green.convert("1"), "PNG"), TAKEN
    moving = {"save_all": True, "append_images": frames[1:]}
    for form in ("GIF", "WEBP", "PNG", "TIFF"):
        yield f"moving.{form.lower()}", saved(frames[0], form, **moving), TAKEN
    yield "several.mpo.jpg", saved(frames[0], "MPO", **moving), TAKEN
    yield "bad-icc.jpg", saved(green, "JPEG", icc_profile=b"garbage" * 900), TAKEN
    yield "bad-icc.png", saved(green, "PNG", icc_profile=b"garbage" * 900), TAKEN
    yield "wide.png", png_of(65_535, 1), TAKEN
    yield "high.jpg", saved(Image.new("L", (1, 65_000)), "JPEG"), TAKEN
    for turned in range(10):
        yield f"turned-{turned}.jpg", camera_jpeg((64, 32), turned), TAKEN
    huge = Image.Exif()
    huge.get_ifd(0x8769)[0x9286] = b"ASCII\0\0\0" + b"x" * 65_000
    yield "huge-exif.jpg", saved(green, "JPEG", exif=huge), TAKEN
    huge.get_ifd(0x8769)[0x9286] = bytes(5_000_000)
    yield "huge-exif.png", saved(green, "PNG", exif=huge), TAKEN
    chance = random.Random(2)  # noqa: S311 -- no secret
    for number in range(20):
        block = b"II*\x00\x08\x00\x00\x00" + chance.randbytes(chance.randrange(9_000))
        yield f"noise-exif-{number}.jpg", with_exif(block), TAKEN


def bombs() -> Iterator[Case]:
    """Give small files that want much memory, or much time."""
    yield "81-mp.png", png_of(9_000, 9_000), TOO_MANY
    yield "225-mp.png", png_of(15_000, 15_000), TOO_MANY
    yield "1600-mp.png", png_of(40_000, 40_000), TOO_MANY
    yield "honest-108-mp.jpg", saved(Image.new("L", (12_000, 9_000), 90), "JPEG"), TAKEN
    yield "59-mp.png", png_of(7_700, 7_700, bits=8, colour=2), TAKEN
    yield "scans.jpg", many_scans(1_600, 400), "reading it takes hours"
    head = bytearray(saved(Image.new("L", (8, 8)), "JPEG", progressive=True))
    frame = head.index(b"\xff\xc2")
    struct.pack_into(">HH", head, frame + 5, 14_000, 14_000)
    yield "progressive-196-mp.jpg", bytes(head), TOO_MANY
    gif = bytearray(saved(Image.new("P", (8, 8)), "GIF"))
    struct.pack_into("<HH", gif, 6, 65_535, 65_535)
    yield "4295-mp.gif", bytes(gif), TOO_MANY
    text = _chunk(b"zTXt", b"note\x00\x00" + zlib.compress(bytes(80_000_000)))
    png = saved(Image.new("L", (8, 8)), "PNG")
    yield "text-bomb.png", png[:33] + text * 3 + png[33:], "."


def all_cases() -> Iterator[Case]:
    """Give every case that is a file of bytes."""
    for cases in (posing(), odd(), looping(), bombs()):
        yield from cases


def write(folder: Path, cases: Iterator[Case]) -> dict[str, str]:
    """Write the files; give what each line must say."""
    said = {}
    for name, content, must_say in cases:
        (folder / name).write_bytes(content)
        said[name] = must_say
    return said
