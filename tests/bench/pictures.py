"""Photos to measure with: large JPEGs of noise over gradients, made once and kept."""

from __future__ import annotations

import io
import struct
from typing import TYPE_CHECKING

from PIL import Image, ImageChops, ImageFilter

from tests.bench.ground import cache

if TYPE_CHECKING:
    from pathlib import Path

SHAPES = {"12": (4000, 3000), "12-progressive": (4000, 3000), "48": (8000, 6000)}
_QUALITIES = (70, 74, 78, 82, 70)
_FORM = 1
"""Raised when pictures are made otherwise, so that no old one is used."""


def large(name: str) -> Path:
    """Give a photo of so many megapixels: 3.7, 3.4 and 15 MB."""
    path = cache() / f"photo-{name}-{_FORM}.jpg"
    if not path.exists():
        turned = Image.Exif()
        turned[0x0112] = 6
        made = drawn(*SHAPES[name])
        save(made, path, 88, exif=turned, progressive=name.endswith("progressive"))
    return path


def many(count: int) -> list[Path]:
    """Give so many photos of 12 megapixels, 2 to 3 MB, no two of one content."""
    folder = cache() / f"photos-{_FORM}"
    folder.mkdir(exist_ok=True)
    paths = [folder / f"{number:04}.jpg" for number in range(count)]
    missing = [path for path in paths if not path.exists()]
    if missing:
        image, bodies = drawn(*SHAPES["12"]), []
        for quality in _QUALITIES:
            out = io.BytesIO()
            image.save(out, "JPEG", quality=quality)
            bodies.append(out.getvalue())
        for path in missing:
            body, said = bodies[int(path.stem) % len(bodies)], path.stem.encode()
            comment = b"\xff\xfe" + struct.pack(">H", len(said) + 2) + said
            path.write_bytes(body[:2] + comment + body[2:])
    return paths


def drawn(width: int, height: int) -> Image.Image:
    """Draw gradients under noise, which packs about as a photo of leaves does."""
    tile = Image.effect_noise((1024, 1024), 40)
    noise = Image.new("L", (width, height))
    for left in range(0, width, 1024):
        for top in range(0, height, 1024):
            noise.paste(tile, (left, top))
    slope = Image.linear_gradient("L")
    grounds = (slope, Image.radial_gradient("L"), slope.rotate(90))
    bands = [
        ImageChops.add(ground.resize((width, height)), noise, scale=1.3, offset=-40)
        for ground in grounds
    ]
    return Image.merge("RGB", bands).filter(ImageFilter.GaussianBlur(0.75))


def save(image: Image.Image, path: Path, quality: int, **form: object) -> None:
    """Write a picture so that a stopped run leaves none that is half."""
    part = path.with_suffix(".part")
    image.save(part, "JPEG", quality=quality, **form)
    part.rename(path)
