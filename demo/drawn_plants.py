"""Draw the demo's pots and benches: leads, roots, bare bulbs, a repot, a rotten foot.

Stylised, after what a grower looks for, not after any picture.
"""

from __future__ import annotations

import math

from brush import (
    CLAY,
    DEEP,
    GREEN,
    PALE,
    STONE,
    TIP_GREEN,
    TIP_RED,
    WOOD,
    Canvas,
    Point,
    bulb,
    curve,
    leaf,
    mix,
    petal,
    pot,
    root,
)
from drawn_flowers import wide_lip_flower


def cattleya_flower(canvas: Canvas) -> None:
    """Draw two lilac flowers over leaves, with a new lead beside them."""
    pot(canvas, 300, 420, (330, 90), CLAY)
    for x, lean in ((210, -112), (280, -96), (350, -78)):
        bulb(canvas, (x, 424), (150, 46), PALE)
        leaf(canvas, (x, 285), lean, (190, 64), GREEN)
    leaf(canvas, (452, 420), -70, (120, 34), PALE)
    mauve = ((206, 142, 206), (236, 196, 232))
    wide_lip_flower(canvas, (225, 165), 120, mauve, (150, 40, 120))
    wide_lip_flower(canvas, (418, 150), 112, mauve, (150, 40, 120))


def moth_spike(canvas: Canvas) -> None:
    """Draw a spike, a hand long, between a moth orchid's leaves."""
    pot(canvas, 320, 372, (240, 130), STONE)
    root(canvas, curve((340, 370), (470, 340), (520, 420)), 15, None)
    for lean in (-205, 25, -168, -12):
        leaf(canvas, (320, 372), lean, (235, 88), DEEP if lean % 2 else GREEN)
    spike = curve((336, 362), (360, 200), (424, 96))
    canvas.path(spike, (13, 9), (120, 142, 78))
    for share in (0.35, 0.65):
        x, y = spike[int(share * (len(spike) - 1))]
        canvas.disc((x, y), 9, (148, 120, 86), 0.55)
    canvas.disc(spike[-1], 10, (150, 172, 90), 1.5)


def new_lead(canvas: Canvas) -> None:
    """Draw a new lead at the foot of old bulbs, its sheath still on."""
    pot(canvas, 320, 350, (460, 130), CLAY)
    for x, tall in ((170, 170), (240, 185), (315, 200)):
        bulb(canvas, (x, 356), (tall, 58), PALE)
        leaf(canvas, (x, 366 - tall), -100 + x / 12, (150, 56), GREEN)
    leaf(canvas, (400, 362), -66, (120, 50), (172, 200, 96))
    leaf(canvas, (398, 364), -52, (70, 42), (196, 190, 140))
    root(canvas, curve((392, 360), (450, 330), (520, 372)), 13, TIP_GREEN)
    root(canvas, curve((384, 362), (420, 380), (436, 420)), 13, TIP_GREEN)


def root_tips(canvas: Canvas) -> None:
    """Draw roots running over a bench, their tips green and red."""
    canvas.band(150, WOOD, mix(WOOD, (60, 40, 20), 0.4))
    for n in range(12):
        y = 160 + n * 27
        grain = curve((0, y), (320, y + canvas.chance.uniform(-14, 14)), (640, y + 4))
        canvas.path(grain, (1.5, 1.5), mix(WOOD, (90, 60, 30), 0.35))
    leaf(canvas, (250, 90), 172, (300, 70), DEEP)
    leaf(canvas, (250, 80), -20, (330, 72), GREEN)
    ends = ((120, 420), (230, 452), (340, 430), (468, 448), (560, 360))
    for n, end in enumerate(ends):
        bend = (
            250 + (end[0] - 250) * 0.1 + canvas.chance.uniform(-50, 50),
            end[1] - 120,
        )
        tip = TIP_RED if n == 3 else TIP_GREEN
        root(canvas, curve((250, 100), bend, end, 260), 22, tip)


def catasetum_roots(canvas: Canvas) -> None:
    """Draw a bare catasetum, its new growth up and its roots too short."""
    pot(canvas, 320, 370, (300, 110), STONE)
    for _ in range(260):
        at = (
            320 + canvas.chance.uniform(-135, 135),
            370 + canvas.chance.uniform(-14, 22),
        )
        canvas.disc(
            at,
            canvas.chance.uniform(3, 8),
            mix((176, 170, 110), (214, 204, 150), canvas.chance.random()),
            0.5,
        )
    bulb(canvas, (230, 372), (230, 70), (170, 164, 110))
    bulb(canvas, (315, 374), (255, 78), (160, 160, 100))
    leaf(canvas, (388, 374), -72, (105, 40), (166, 196, 90))
    leaf(canvas, (384, 374), -94, (80, 30), (146, 182, 84))
    for end in ((420, 392), (440, 376), (376, 398)):
        root(
            canvas, curve((388, 372), ((388 + end[0]) / 2, 362), end, 70), 8, TIP_GREEN
        )


def clowesia(canvas: Canvas) -> None:
    """Draw bare bulbs with a hanging string of green flowers."""
    pot(canvas, 300, 330, (260, 150), CLAY)
    bulb(canvas, (245, 334), (210, 68), (164, 160, 104))
    bulb(canvas, (330, 334), (225, 72), (158, 160, 98))
    stem = curve((352, 330), (520, 190), (540, 450))
    canvas.path(stem, (6, 3), DEEP)
    for n in range(9):
        x, y = stem[int((0.4 + 0.6 * n / 8) * (len(stem) - 1))]
        side = 1 if n % 2 else -1
        for degrees in (60, 100, 140, 20, 175):
            petal(
                canvas,
                (x + side * 12, y),
                degrees,
                (32, 20),
                ((150, 190, 110), (206, 224, 160)),
            )


def lycaste(canvas: Canvas) -> None:
    """Draw orange three-cornered flowers around leafless bulbs."""
    pot(canvas, 320, 400, (320, 100), CLAY)
    bulb(canvas, (270, 404), (140, 86), (140, 150, 84))
    bulb(canvas, (360, 404), (150, 92), (132, 148, 80))
    for foot, at in (
        ((200, 404), (130, 200)),
        ((300, 410), (300, 150)),
        ((420, 404), (490, 210)),
        ((360, 410), (420, 330)),
    ):
        canvas.path(curve(foot, (at[0], foot[1] - 60), at), (6, 5), GREEN)
        for degrees in (-90, 32, 148):
            petal(canvas, at, degrees, (82, 46), ((226, 160, 50), (240, 196, 90)))
        for degrees in (-120, -60):
            petal(canvas, at, degrees, (46, 38), ((240, 176, 40), (250, 206, 90)))
        petal(canvas, at, 90, (36, 26), ((230, 140, 30), (200, 90, 30)))


def new_fan(canvas: Canvas) -> None:
    """Draw a new fan of leaves beside the old, in a pot standing in water."""
    canvas.disc((320, 452), 230, (140, 150, 156), 0.12)
    canvas.disc((320, 448), 212, (176, 200, 208), 0.1)
    pot(canvas, 320, 330, (260, 120), STONE)
    for n, lean in enumerate((-158, -138, -118, -100, -80)):
        leaf(canvas, (270, 336), lean, (270 - 12 * n, 40), GREEN)
    for lean in (-78, -60, -40):
        leaf(canvas, (392, 338), lean, (140, 32), (160, 194, 96))


def rot(canvas: Canvas) -> None:
    """Draw a lead gone brown at its foot, cut away, with a bare blade beside it."""
    canvas.band(330, (196, 198, 192), (150, 152, 148))
    pot(canvas, 250, 320, (300, 130), CLAY)
    bulb(canvas, (190, 326), (180, 58), PALE)
    bulb(canvas, (270, 326), (190, 60), (150, 168, 84))
    leaf(canvas, (190, 150), -104, (150, 54), GREEN)
    leaf(canvas, (270, 142), -78, (150, 54), GREEN)
    canvas.disc((340, 322), 24, (92, 58, 34), 0.7)
    canvas.disc((334, 318), 13, (232, 222, 190), 0.6)
    leaf(canvas, (470, 420), -18, (130, 44), (150, 140, 70))
    canvas.disc((478, 420), 26, (84, 50, 30), 0.6)
    blade_of_knife: list[Point] = [(420, 366), (590, 350), (606, 358), (424, 382)]
    canvas.shape(blade_of_knife, (178, 184, 190))
    canvas.shape([(330, 372), (424, 362), (424, 386), (332, 398)], (64, 52, 46))


def repotting(canvas: Canvas) -> None:
    """Draw the bench at a repot: plant, washed pot, fresh bark."""
    canvas.band(260, WOOD, mix(WOOD, (60, 40, 20), 0.4))
    pot(canvas, 500, 250, (160, 140), CLAY)
    for _ in range(420):
        turn, far = canvas.chance.uniform(0, 2 * math.pi), canvas.chance.random() ** 0.6
        at = (190 + math.cos(turn) * far * 150, 400 + math.sin(turn) * far * 50)
        shade = mix((104, 70, 44), (170, 124, 84), canvas.chance.random())
        canvas.disc(at, canvas.chance.uniform(5, 12), shade, 0.65)
    for end in ((250, 330), (300, 352), (350, 340), (392, 322)):
        root(canvas, curve((320, 250), ((320 + end[0]) / 2, 320), end, 90), 11, None)
    for x, tall in ((290, 100), (325, 118), (356, 90)):
        bulb(canvas, (x, 256), (tall, 36), PALE)
        leaf(canvas, (x, 264 - tall), -96 + (x - 325) * 0.5, (104, 34), GREEN)
