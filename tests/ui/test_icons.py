"""Every icon is drawn for this program: one grid, one stroke, one colour."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from growdesk.ui import icons, theme

FOLDER = Path(__file__).parents[2] / "resources" / "icons"
NAMES = sorted(each.stem for each in FOLDER.glob("*.svg") if each.stem != "growdesk")
SMALL_MARKS = {"tick": "3.200", "up": "3.200", "down": "3.200"}
"""Marks set at 12 px or less, in boxes and beside words, have a bolder stroke."""

SOLID = {"verdict-keep-dry": {"4"}, "verdict-look-first": {"3.400"}}
"""What stands for a solid part of a verdict's mark: the bar, and the handle."""


@pytest.mark.parametrize("name", NAMES)
def test_an_icon_keeps_the_grid_the_stroke_and_the_one_colour(name: str) -> None:
    text = (FOLDER / f"{name}.svg").read_text("utf-8")
    assert 'viewBox="0 0 24 24"' in text
    strokes = {*re.findall(r'stroke-width="([^"]+)"', text)}
    assert strokes <= {SMALL_MARKS.get(name, "2")} | SOLID.get(name, set())
    colours = {*re.findall(r'(?:fill|stroke)="([^"]+)"', text)}
    assert colours <= {"#000", "none"}


@pytest.mark.parametrize("ratio", [1.0, 1.25, 1.5, 2.0])
@pytest.mark.parametrize("name", NAMES)
def test_an_icon_is_drawn_in_the_dots_of_its_screen(name: str, ratio: float) -> None:
    picture = icons.pixmap(name, theme.LIGHT.ink, 16, ratio)
    assert picture.width() == round(16 * ratio)
    assert picture.devicePixelRatio() == ratio
    image = picture.toImage()
    inked = sum(
        image.pixelColor(x, y).alpha() > 127
        for x in range(image.width())
        for y in range(image.height())
    )
    assert inked > image.width(), "it is seen"


def test_every_icon_is_used_and_every_name_is_there() -> None:
    window = Path(icons.__file__).parent
    code = "\n".join(each.read_text("utf-8") for each in window.rglob("*.py"))
    for name in NAMES:
        is_made = name.startswith(("verdict-", "job-"))
        assert is_made or f'"{name}"' in code, name
