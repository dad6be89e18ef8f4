"""Verdicts are told by word and shape, also to eyes that see colours otherwise.

Colours are bent as Machado, Oliveira and Fernandes (2009), "A physiologically-based
model for simulation of color vision deficiency", IEEE Transactions on Visualization and
Computer Graphics 15(6), give it for severity 1.0; the matrices act on linear RGB.
"""

from __future__ import annotations

from itertools import combinations, product

import numpy as np
import pytest
from PySide6.QtGui import QColor

from growdesk.domain.facts import Verdict
from growdesk.ui import icons, theme, words

Matrix = tuple[tuple[float, float, float], ...]
VISIONS: dict[str, Matrix] = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
SCHEMES = {"light": theme.LIGHT, "dark": theme.DARK}
SEEN = pytest.mark.parametrize(("scheme", "vision"), list(product(SCHEMES, VISIONS)))
TOLD_APART = 25.0
"""Distance in CIE L*a*b* from which two small marks are told apart by colour alone."""
SIDE = 48


def linear(colour: str) -> np.ndarray:
    q = QColor(colour)
    channels = np.array([q.redF(), q.greenF(), q.blueF()])
    low = channels / 12.92
    return np.where(channels <= 0.04045, low, ((channels + 0.055) / 1.055) ** 2.4)


def seen_as(colour: str, vision: str) -> str:
    """Give the colour that an eye of this vision sees."""
    bent = np.clip(np.array(VISIONS[vision]) @ linear(colour), 0, 1)
    shown = np.where(bent <= 0.0031308, bent * 12.92, 1.055 * bent ** (1 / 2.4) - 0.055)
    return QColor.fromRgbF(*(float(each) for each in shown)).name()


def lab(colour: str) -> np.ndarray:
    """Give CIE L*a*b* under D65."""
    to_xyz = np.array(
        [
            [0.4124564, 0.3575761, 0.1804375],
            [0.2126729, 0.7151522, 0.0721750],
            [0.0193339, 0.1191920, 0.9503041],
        ]
    )
    ratio = to_xyz @ linear(colour) / np.array([0.95047, 1.0, 1.08883])
    f = np.where(ratio > 216 / 24389, np.cbrt(ratio), (24389 / 27 * ratio + 16) / 116)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def silhouette(verdict: Verdict) -> np.ndarray:
    """Give where the mark of a verdict has ink."""
    image = icons.pixmap(icons.mark_name(verdict), "#000000", SIDE).toImage()
    return np.array(
        [
            [image.pixelColor(x, y).alpha() > 128 for x in range(SIDE)]
            for y in range(SIDE)
        ]
    )


def unlike(one: Verdict, other: Verdict) -> float:
    """Give what share of the ink of two marks is not common to both."""
    a, b = silhouette(one), silhouette(other)
    return 1.0 - float((a & b).sum()) / float((a | b).sum())


def test_grey_is_grey_to_every_eye() -> None:
    """The matrices are copied whole: each row adds up to one."""
    for vision in VISIONS:
        assert seen_as("#808080", vision) == "#808080"
    assert lab("#ffffff") == pytest.approx([100, 0, 0], abs=0.05)


def test_every_two_marks_differ_in_shape() -> None:
    alike = {
        (one, other): share
        for one, other in combinations(Verdict, 2)
        if (share := unlike(one, other)) < 0.5
    }
    assert alike == {}


@SEEN
def test_what_colour_does_not_tell_word_and_shape_do(scheme: str, vision: str) -> None:
    colours = SCHEMES[scheme]
    merged = [
        (one, other)
        for one, other in combinations(Verdict, 2)
        if np.linalg.norm(
            lab(seen_as(colours.verdict(one), vision))
            - lab(seen_as(colours.verdict(other), vision))
        )
        < TOLD_APART
    ]
    assert merged, "to this eye at least two verdicts have one colour"
    for one, other in merged:
        assert unlike(one, other) >= 0.5
        assert words.VERDICT[one] != words.VERDICT[other]


@SEEN
def test_words_of_verdicts_stay_legible(scheme: str, vision: str) -> None:
    colours = SCHEMES[scheme]
    faint = {
        (verdict, ground): ratio
        for verdict in Verdict
        for ground in ("page", "card", "chosen")
        if (
            ratio := theme.contrast(
                seen_as(colours.verdict(verdict), vision),
                seen_as(getattr(colours, ground), vision),
            )
        )
        < 4.5
    }
    assert faint == {}
