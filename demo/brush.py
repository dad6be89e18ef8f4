"""Give the strokes the demo's pictures are drawn with: ground, petal, stem, root, pot.

Everything is drawn at twice the size and brought down at the end, with chance seeded by
the picture's name, so a picture comes out the same each time. No photo and no other
picture goes into one.
"""

from __future__ import annotations

import math
import random
from typing import TYPE_CHECKING

from PIL import Image, ImageDraw, ImageFilter

if TYPE_CHECKING:
    from pathlib import Path

WIDTH_PX, HEIGHT_PX, SCALE = 640, 480, 2
QUALITY = 82

Colour = tuple[int, int, int]
Point = tuple[float, float]

GREEN, DEEP, PALE = (92, 138, 66), (58, 98, 52), (150, 182, 92)
CLAY, STONE, WOOD = (176, 98, 66), (120, 122, 120), (168, 132, 96)
TIP_GREEN, TIP_RED = (126, 176, 60), (150, 84, 70)
YELLOW = (240, 196, 60)


def mix(one: Colour, other: Colour, share: float) -> Colour:
    """Give a colour that lies between two."""
    red, green, blue = (
        round(a + (b - a) * share) for a, b in zip(one, other, strict=True)
    )
    return red, green, blue


class Canvas:
    """A picture being drawn, in units of the finished picture's pixels."""

    def __init__(self, name: str, top: Colour, foot: Colour) -> None:
        self.chance = random.Random(name)
        size = (WIDTH_PX * SCALE, HEIGHT_PX * SCALE)
        self.image = Image.new("RGB", size, top)
        self._pen = ImageDraw.Draw(self.image)
        for row in range(size[1]):
            colour = mix(top, foot, row / size[1])
            self._pen.line([(0, row), (size[0], row)], fill=colour)
        self._blur_lights(mix(top, (255, 255, 245), 0.45))

    def _blur_lights(self, colour: Colour) -> None:
        """Lay a few soft lights behind, as a window out of focus gives."""
        for _ in range(9):
            x = self.chance.uniform(0, WIDTH_PX)
            y = self.chance.uniform(0, HEIGHT_PX * 0.7)
            self.disc((x, y), self.chance.uniform(20, 70), colour)
        self.image = self.image.filter(ImageFilter.GaussianBlur(38 * SCALE))
        self._pen = ImageDraw.Draw(self.image)

    def save(self, path: Path, exif: Image.Exif | None = None) -> None:
        """Bring the picture down to its size and write it, with what a camera adds."""
        small = self.image.resize((WIDTH_PX, HEIGHT_PX), Image.Resampling.LANCZOS)
        more = {} if exif is None else {"exif": exif}
        small.save(path, "JPEG", quality=QUALITY, optimize=True, **more)

    def shape(self, points: list[Point], colour: Colour) -> None:
        """Fill a closed outline."""
        self._pen.polygon([(x * SCALE, y * SCALE) for x, y in points], fill=colour)

    def disc(self, at: Point, radius: float, colour: Colour, flat: float = 1) -> None:
        """Fill a circle, or an ellipse where it is flat."""
        x, y = at
        box = (x - radius, y - radius * flat, x + radius, y + radius * flat)
        self._pen.ellipse([v * SCALE for v in box], fill=colour)

    def path(self, points: list[Point], wide: Point, colour: Colour) -> None:
        """Draw a rounded line that runs from one width to another."""
        for n, (x, y) in enumerate(points):
            share = n / max(1, len(points) - 1)
            self.disc((x, y), (wide[0] + (wide[1] - wide[0]) * share) / 2, colour)

    def band(self, top: float, colour: Colour, edge: Colour) -> None:
        """Lay a bench or sill across the foot of the picture."""
        self.shape(
            [(0, top), (WIDTH_PX, top), (WIDTH_PX, HEIGHT_PX), (0, HEIGHT_PX)], colour
        )
        self.shape([(0, top), (WIDTH_PX, top), (WIDTH_PX, top + 5), (0, top + 5)], edge)


def curve(start: Point, bend: Point, end: Point, steps: int = 120) -> list[Point]:
    """Give the points of a bow from start to end, drawn towards its bend."""
    points = []
    for n in range(steps + 1):
        t = n / steps
        a, b, c = (1 - t) ** 2, 2 * t * (1 - t), t**2
        points.append((
            a * start[0] + b * bend[0] + c * end[0],
            a * start[1] + b * bend[1] + c * end[1],
        ))  # fmt: skip
    return points


def blade(at: Point, degrees: float, size: Point, blunt: float = 0.5) -> list[Point]:
    """Give the outline of a petal or leaf: its foot, its lean, length and width.

    ``blunt`` moves its widest place from foot (0) to tip (1).
    """
    length, width = size
    lean = math.radians(degrees)
    power = math.log(0.5) / math.log(min(0.9, max(0.1, blunt)))
    outline = []
    sides = [(n / 40, 1) for n in range(41)] + [(n / 40, -1) for n in range(40, -1, -1)]
    for along, side in sides:
        out = side * width / 2 * math.sin(math.pi * along**power) ** 0.8
        x, y = along * length, out
        outline.append((
            at[0] + x * math.cos(lean) - y * math.sin(lean),
            at[1] + x * math.sin(lean) + y * math.cos(lean),
        ))  # fmt: skip
    return outline


def petal(
    canvas: Canvas,
    at: Point,
    degrees: float,
    size: Point,
    colours: tuple[Colour, Colour],
) -> None:
    """Draw a petal that changes from its edge to its middle, with fine veins."""
    edge, heart = colours
    for share in (0.0, 0.2, 0.4, 0.6):
        part = (size[0] * (1 - share * 0.55), size[1] * (1 - share))
        canvas.shape(blade(at, degrees, part, 0.62), mix(edge, heart, share))
    lean = math.radians(degrees)
    for side in (-0.16, 0.0, 0.16):
        reach = size[0] * 0.7
        tip = (
            at[0] + reach * math.cos(lean + side * 1.6),
            at[1] + reach * math.sin(lean + side * 1.6),
        )
        canvas.path(
            curve(at, _between(at, tip), tip, 160), (2.0, 0.8), mix(edge, heart, 0.75)
        )


def _between(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def leaf(
    canvas: Canvas, at: Point, degrees: float, size: Point, colour: Colour
) -> None:
    """Draw a leaf with a paler upper half and a keel."""
    canvas.shape(blade(at, degrees, size, 0.5), mix(colour, (20, 40, 20), 0.25))
    canvas.shape(blade(at, degrees, (size[0] * 0.97, size[1] * 0.62), 0.5), colour)
    canvas.shape(
        blade(at, degrees, (size[0] * 0.9, size[1] * 0.1), 0.5),
        mix(colour, (255, 255, 230), 0.28),
    )


def root(canvas: Canvas, points: list[Point], thick: float, tip: Colour | None) -> None:
    """Draw a silver root, with its growing tip where it has one."""
    canvas.path([(x + 2, y + 4) for x, y in points], (thick, thick), (88, 70, 54))
    canvas.path(points, (thick, thick * 0.92), (206, 208, 198))
    canvas.path([(x - 1, y - 2) for x, y in points], (thick * 0.4, thick * 0.3),
                (228, 230, 222))  # fmt: skip
    if tip is None:
        return
    growing = points[-max(6, len(points) // 6) :]
    canvas.path(growing, (thick * 0.92, thick * 0.62), tip)
    canvas.path([(x - 1, y - 2) for x, y in growing], (thick * 0.3, thick * 0.2),
                mix(tip, (255, 255, 255), 0.45))  # fmt: skip


def pot(canvas: Canvas, middle: float, top: float, size: Point, colour: Colour) -> None:
    """Draw a pot full of bark."""
    width, height = size
    left, right = middle - width / 2, middle + width / 2
    canvas.disc((middle, top), width / 2, (70, 52, 40), 0.22)
    for _ in range(90):
        x = middle + canvas.chance.uniform(-0.46, 0.46) * width
        y = top + canvas.chance.uniform(-0.05, 0.09) * width
        shade = mix((96, 66, 44), (150, 112, 78), canvas.chance.random())
        canvas.disc((x, y), canvas.chance.uniform(4, 10), shade, 0.6)
    foot = 0.12 * width
    body = [(left, top + 6), (right, top + 6), (right - foot, top + height),
            (left + foot, top + height)]  # fmt: skip
    canvas.shape(body, colour)
    lit_to = left + width * 0.3
    lit = [(left + 14, top + 6), (lit_to, top + 6), (lit_to, top + height),
           (left + foot + 14, top + height)]  # fmt: skip
    canvas.shape(lit, mix(colour, (255, 255, 255), 0.14))
    rim = [(left - 8, top), (right + 8, top), (right + 4, top + 26),
           (left - 4, top + 26)]  # fmt: skip
    canvas.shape(rim, mix(colour, (255, 240, 225), 0.12))


def bulb(canvas: Canvas, at: Point, size: Point, colour: Colour) -> None:
    """Draw a standing pseudobulb from its foot, with its ribs."""
    x, y = at
    height, width = size
    canvas.shape(
        blade((x, y + 6), -90, (height, width), 0.45), mix(colour, (30, 40, 10), 0.3)
    )
    canvas.shape(blade((x, y + 6), -90, (height * 0.98, width * 0.82), 0.45), colour)
    for side in (-0.24, 0.0, 0.24):
        bend = (x + side * width * 1.7, y - height / 2)
        end = (x + side * width * 0.2, y - height * 0.92)
        rib = curve((x + side * width * 0.5, y), bend, end, 330)
        canvas.path(rib, (1.6, 1.0), mix(colour, (30, 40, 10), 0.35))
