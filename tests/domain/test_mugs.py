"""Mugs: fractions an eye can see, honest about the rest, silent where silly."""

from __future__ import annotations

import pytest

from growdesk.domain.mugs import in_mugs, the_mug
from growdesk.domain.vessels import Vessel, VesselKind

MUG = Vessel(VesselKind.MUG, "the blue one", 0.35)


@pytest.mark.parametrize(
    ("volume_l", "words"),
    [
        (0.875, "2½ mugs"),
        (0.35, "1 mug"),
        (0.0875, "¼ mug"),
        (0.1167, "⅓ mug"),
        (0.2625, "¾ mug"),
        (0.4375, "1¼ mugs"),
        (0.34, "1 mug"),
        (0.7, "2 mugs"),
        (3.5, "10 mugs"),
        (0.28, "about ¾ mug"),  # 0.8 of a mug
        (0.32, "about 1 mug"),  # 0.914 of a mug
        (0.095, "about ¼ mug"),  # 0.271 of a mug
        (0.4, "about 1¼ mugs"),  # 1.143 mugs
    ],
)
def test_a_volume_is_told_in_mugs(volume_l: float, words: str) -> None:
    assert in_mugs(volume_l, MUG) == words


@pytest.mark.parametrize(
    "volume_l", [0.0, 0.05, 0.086, 3.55, 20.0, -1.0, float("nan"), float("inf")]
)
def test_mugs_are_not_told_where_nobody_would_count_them(volume_l: float) -> None:
    assert in_mugs(volume_l, MUG) == ""


def test_no_fraction_near_enough_is_not_told() -> None:
    assert in_mugs(0.305, MUG) == ""  # 0.871 of a mug
    assert in_mugs(0.1458, MUG) == ""  # 0.417 of a mug


def test_what_is_told_is_never_a_tenth_off() -> None:
    values = {"¼": 1 / 4, "⅓": 1 / 3, "½": 1 / 2, "⅔": 2 / 3, "¾": 3 / 4}
    told = 0
    for ml in range(1, 4000):
        words = in_mugs(ml / 1000, MUG).removeprefix("about ").split(" ")[0]
        if not words:
            continue
        told += 1
        sign = words[-1] if words[-1] in values else ""
        whole = words.removesuffix(sign)
        mugs = float(whole or 0) + values.get(sign, 0.0)
        assert mugs * 0.35 == pytest.approx(ml / 1000, rel=0.1001)
    assert told > 3000


def test_the_mug_is_the_first_of_the_vessels() -> None:
    jug = Vessel(VesselKind.JUG, "jug", 5.0)
    other = Vessel(VesselKind.MUG, "small", 0.2)
    assert the_mug((jug, MUG, other)) is MUG
    assert the_mug((jug,)) is None


ROUND = Vessel(VesselKind.MUG, "litre mug", 1.0)


@pytest.mark.parametrize(
    ("volume_l", "words"),
    [
        (0.25, "¼ mug"),
        (0.2499, ""),
        (10.0, "10 mugs"),
        (10.001, ""),
        (5.0, "5 mugs"),
        (1.04, "1 mug"),
        (1.045, "about 1 mug"),
        (0.91, "about 1 mug"),
        (0.42, ""),
        (0.54, "about ½ mug"),
        (0.5209, "about ½ mug"),
        (0.5207, "½ mug"),
        (0.607, "about ⅔ mug"),
        (0.605, ""),
    ],
)
def test_a_limit_of_the_mug_is_held_from_both_sides(
    volume_l: float, words: str
) -> None:
    assert in_mugs(volume_l, ROUND) == words


@pytest.mark.parametrize("mug", [None, Vessel(VesselKind.MUG, "no size", 0.0)])
def test_without_a_mug_of_some_size_nothing_is_told(mug: Vessel | None) -> None:
    assert in_mugs(0.5, mug) == ""
