"""Draw the demo's flowers: cattleyas, moth orchids, slippers, sprays.

Stylised, after how such flowers are built, not after any picture.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from brush import (
    DEEP,
    GREEN,
    YELLOW,
    Canvas,
    Colour,
    Point,
    curve,
    leaf,
    mix,
    petal,
)

if TYPE_CHECKING:
    from collections.abc import Callable


def wide_lip_flower(
    canvas: Canvas, at: Point, reach: float, colours: tuple[Colour, Colour], lip: Colour
) -> None:
    """Draw a flower of the cattleya sort: three sepals, two broad petals, a lip."""
    for degrees in (-90, 35, 145):
        petal(canvas, at, degrees, (reach, reach * 0.36), colours)
    for degrees in (-160, -20):
        petal(canvas, at, degrees, (reach, reach * 0.72), colours)
    x, y = at
    foot = (x, y - reach * 0.02)
    petal(canvas, foot, 90, (reach * 0.92, reach * 0.78), (lip, mix(lip, YELLOW, 0.5)))
    petal(canvas, foot, 90, (reach * 0.45, reach * 0.34), (YELLOW, (250, 232, 160)))
    canvas.disc((x, y), reach * 0.1, mix(colours[0], (255, 255, 255), 0.5))


def moth_flower(canvas: Canvas, at: Point, reach: float, colour: Colour) -> None:
    """Draw a moth orchid's flower: round petals, a small lip."""
    shade = mix(colour, (170, 180, 160), 0.3)
    for degrees in (-90, 40, 140):
        petal(canvas, at, degrees, (reach * 0.92, reach * 0.5), (colour, shade))
    for degrees in (-172, -8):
        petal(canvas, at, degrees, (reach, reach * 1.02), (colour, shade))
    x, y = at
    petal(canvas, at, 90, (reach * 0.5, reach * 0.3), (YELLOW, (190, 70, 70)))
    canvas.disc((x, y), reach * 0.09, (252, 250, 240))


def slipper_flower(canvas: Canvas, at: Point, reach: float) -> None:
    """Draw a slipper: striped hood, two arms, a pouch."""
    x, y = at
    petal(
        canvas, at, -90, (reach * 1.1, reach * 1.0), ((238, 240, 230), (120, 160, 90))
    )
    for n in range(-4, 5):
        end = (x + n * reach * 0.085, y - reach * (0.95 - abs(n) * 0.05))
        canvas.path(curve(at, (x + n * reach * 0.1, y - reach / 2), end), (3, 1.5),
                    (112, 60, 92))  # fmt: skip
    for degrees in (-190, 10):
        petal(
            canvas,
            at,
            degrees,
            (reach * 1.2, reach * 0.34),
            ((150, 96, 120), (110, 150, 80)),
        )
    pouch = (134, 66, 84)
    canvas.disc((x, y + reach * 0.42), reach * 0.3, mix(pouch, (20, 10, 20), 0.3), 1.35)
    canvas.disc((x - 5, y + reach * 0.4), reach * 0.25, pouch, 1.35)
    canvas.disc(
        (x, y + reach * 0.1), reach * 0.27, mix(pouch, (255, 230, 230), 0.3), 0.34
    )
    canvas.disc((x, y), reach * 0.1, (226, 222, 190))


def small_spray(
    canvas: Canvas, stem: list[Point], count: int, draw: Callable[[Point, float], None]
) -> None:
    """Draw flowers to both sides of a stem, largest at its foot."""
    canvas.path(stem, (7, 3), DEEP)
    for n in range(count):
        share = 0.3 + 0.68 * n / max(1, count - 1)
        x, y = stem[int(share * (len(stem) - 1))]
        side = 1 if n % 2 else -1
        at = (x + side * 34, y + 12)
        canvas.path(curve((x, y), (x + side * 16, y - 8), at, 40), (4, 3), GREEN)
        draw(at, 1.0 - 0.35 * share)


def laelia_flower(canvas: Canvas) -> None:
    """Draw four pink flowers at the end of a long stem."""
    stem = curve((140, 480), (240, 120), (560, 110))
    canvas.path(stem, (8, 4), DEEP)
    for share, reach in ((0.99, 62), (0.84, 76), (0.7, 82), (0.55, 86)):
        x, y = stem[int(share * (len(stem) - 1))]
        wide_lip_flower(
            canvas,
            (x, y + 34),
            reach,
            ((214, 130, 178), (244, 206, 226)),
            (130, 30, 90),
        )


def moth_spray(canvas: Canvas) -> None:
    """Draw a bow of white moth orchids."""
    stem = curve((60, 470), (180, 20), (600, 260))
    canvas.path(stem, (9, 4), DEEP)
    for share in (0.98, 0.86, 0.74, 0.62, 0.5):
        x, y = stem[int(share * (len(stem) - 1))]
        moth_flower(canvas, (x, y + 36), 66 - 20 * abs(share - 0.62), (250, 248, 244))


def vanda_flower(canvas: Canvas) -> None:
    """Draw blue chequered flowers."""
    for degrees in (165, 190, -15, 10):
        leaf(canvas, (320, 430), degrees, (300, 40), GREEN)
    blue = ((118, 126, 206), (182, 186, 236))
    stem = curve((320, 430), (330, 280), (310, 170))
    canvas.path(stem, (8, 5), DEEP)
    canvas.path(curve((322, 400), (300, 330), (205, 300)), (6, 4), DEEP)
    canvas.path(curve((322, 390), (340, 330), (415, 310)), (6, 4), DEEP)
    for at, reach in (((200, 300), 82), ((420, 310), 82), ((310, 160), 96)):
        for degrees in (-90, 35, 145, -170, -10):
            petal(canvas, at, degrees, (reach, reach * 0.66), blue)
        for n in range(55):
            turn = math.radians((-90, 35, 145, -170, -10)[n % 5])
            turn += canvas.chance.uniform(-0.22, 0.22)
            far = canvas.chance.uniform(0.25, 0.8) * reach
            spot = (at[0] + math.cos(turn) * far, at[1] + math.sin(turn) * far)
            canvas.disc(spot, 2.2, (92, 92, 186))
        petal(
            canvas,
            at,
            90,
            (reach * 0.42, reach * 0.26),
            ((70, 50, 140), (110, 80, 170)),
        )
        canvas.disc(at, reach * 0.09, (248, 246, 250))


def slipper(canvas: Canvas) -> None:
    """Draw a slipper over mottled leaves."""
    for degrees in (-196, -168, -12, 16):
        leaf(canvas, (320, 452), degrees, (250, 66), (106, 142, 92))
    canvas.path(curve((320, 452), (300, 330), (320, 220)), (10, 8), (104, 74, 76))
    slipper_flower(canvas, (320, 185), 150)


def oncidium(canvas: Canvas) -> None:
    """Draw a spray of small yellow flowers with brown bars."""

    def draw(at: Point, size: float) -> None:
        for degrees in (-90, -30, -150):
            petal(
                canvas,
                at,
                degrees,
                (30 * size, 13 * size),
                ((160, 110, 40), (110, 62, 30)),
            )
        petal(canvas, at, 90, (44 * size, 50 * size), ((246, 206, 50), (250, 226, 110)))
        canvas.disc(at, 5 * size, (150, 80, 40))

    stems = (
        ((90, 470), (150, 60), (600, 90)),
        ((150, 480), (320, 200), (610, 330)),
        ((60, 470), (60, 150), (300, 40)),
    )
    for foot, bend, end in stems:
        small_spray(canvas, curve(foot, bend, end), 11, draw)


def nobile(canvas: Canvas) -> None:
    """Draw canes set with white and purple flowers from node to node."""
    for foot, bend, end in (
        ((250, 480), (200, 250), (150, 40)),
        ((390, 480), (420, 240), (500, 50)),
    ):
        cane = curve(foot, bend, end)
        canvas.path(cane, (26, 14), (146, 158, 88))
        for n in range(5):
            x, y = cane[int((0.3 + 0.16 * n) * (len(cane) - 1))]
            canvas.disc((x, y), 12, (186, 190, 130), 0.4)
            side = 1 if n % 2 else -1
            at = (x + side * 48, y + 6)
            for degrees in (-90, -162, -18, 40, 140):
                petal(canvas, at, degrees, (52, 32), ((186, 80, 160), (250, 244, 250)))
            petal(canvas, at, 90, (46, 46), ((244, 236, 244), (96, 20, 70)))


def cymbidium(canvas: Canvas) -> None:
    """Draw a tall spray, striped brown on yellow-green."""
    for degrees in (-130, -112, -70, -52, -95):
        leaf(canvas, (320, 500), degrees, (470, 26), GREEN)

    def draw(at: Point, size: float) -> None:
        for degrees in (-90, -160, -20, 35, 145):
            petal(
                canvas,
                at,
                degrees,
                (64 * size, 28 * size),
                ((196, 190, 90), (150, 84, 50)),
            )
        petal(canvas, at, 90, (46 * size, 34 * size), ((246, 234, 190), (170, 60, 50)))

    small_spray(canvas, curve((300, 480), (300, 120), (520, 60)), 9, draw)


def masdevallia(canvas: Canvas) -> None:
    """Draw scarlet triangles on thin stems."""
    for n in range(9):
        leaf(canvas, (320 + (n - 4) * 16, 470), -90 + (n - 4) * 9, (190, 34), GREEN)
    for foot, at in (
        ((290, 470), (180, 180)),
        ((330, 470), (340, 130)),
        ((350, 470), (490, 210)),
    ):
        canvas.path(curve(foot, (foot[0], 260), at), (5, 4), DEEP)
        for degrees, size in ((-90, (120, 40)), (55, (110, 78)), (125, (110, 78))):
            petal(canvas, at, degrees, size, ((222, 74, 36), (150, 40, 110)))
        canvas.disc(at, 11, (250, 200, 120))
