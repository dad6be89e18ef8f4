"""Two photos at one scale: by pixels, or by a length marked on both."""

from __future__ import annotations

import pytest

from growdesk.ui.beside_scale import by_marks, by_pixels


def test_by_pixels_a_pixel_is_a_pixel_and_middle_lies_on_middle() -> None:
    pairing = by_pixels((400, 300), (200, 100))
    assert pairing.right_scale(0.5) == 0.5
    assert pairing.right_centre((200, 150)) == (100, 50)
    assert pairing.right_centre((210, 150)) == (110, 50)


def test_marked_lengths_are_drawn_alike_and_in_the_same_place() -> None:
    rim_left, rim_right = [(100, 100), (400, 100)], [(50, 20), (50, 120)]
    pairing = by_marks(rim_left, rim_right)
    assert pairing is not None
    scale = 0.4
    assert 300 * scale == pytest.approx(100 * pairing.right_scale(scale))
    assert pairing.right_centre((250, 100)) == (50, 70)
    moved = pairing.right_centre((280, 100))
    assert (280 - 250) * scale == pytest.approx(
        (moved[0] - 50) * pairing.right_scale(scale)
    )
    assert pairing.left_centre(moved) == pytest.approx((280, 100))


def test_marks_that_are_missing_or_too_close_set_no_scale() -> None:
    good = [(0.0, 0.0), (100.0, 0.0)]
    assert by_marks(good, good[:1]) is None
    assert by_marks([(5.0, 5.0), (7.0, 7.0)], good) is None
    assert by_marks(good, [(0.0, 0.0), (0.0, 4.0)]) is not None


def test_all_of_both_is_in_sight_about_the_marks() -> None:
    pairing = by_marks([(0, 0), (100, 0)], [(80, 40), (90, 40)])
    assert pairing is not None
    scale, middle = pairing.all_of((400, 300), (100, 50), (500, 200))
    for size, at in (((0, 0), "left"), ((400, 300), "left")):
        across = (size[0] - middle[0]) * scale
        assert abs(across) <= 250 + 1e-6, at
        assert abs((size[1] - middle[1]) * scale) <= 100 + 1e-6
    right = pairing.right_centre(middle)
    for size in ((0, 0), (100, 50)):
        across = (size[0] - right[0]) * pairing.right_scale(scale)
        assert abs(across) <= 250 + 1e-6
        down = (size[1] - right[1]) * pairing.right_scale(scale)
        assert abs(down) <= 100 + 1e-6


def test_two_alike_fill_the_room() -> None:
    pairing = by_pixels((400, 200), (400, 200))
    assert pairing.all_of((400, 200), (400, 200), (800, 800)) == (2.0, (200, 100))
