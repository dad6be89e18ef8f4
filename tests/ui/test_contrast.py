"""Every two colours that meet are legible in both schemes, by sheet and palette.

WCAG 2.2: 4.5 to 1 for words (1.4.3), 3 to 1 for edges, marks and focus (1.4.11); what
is disabled is exempt.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from PySide6.QtGui import QPalette

from growdesk.ui import icons, theme

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PySide6.QtWidgets import QApplication

SCHEMES = pytest.mark.parametrize(
    "colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"]
)
GROUNDS = {"page", "card", "chosen", "band"}
"""What stands behind everything else."""
WORDS = {"ink", "muted", "accent", "warn"}
VERDICTS = {"feed", "clear_water", "flush", "look_first", "keep_dry"}
FILLS = {"accent": {"on_accent", "card"}, "muted": {"card"}}
"""Colours that are filled in, and what is written or drawn on them."""
EDGES = {"edge", "focus"}
PLAIN = {"line"}
"""Lines that part what is apart anyway; nothing is known by them alone."""
Pair = tuple[str, str]


def rules() -> Iterator[tuple[str, dict[str, str]]]:
    """Give each selector of the sheet with its declarations."""
    text = re.sub(
        r"/\*.*?\*/", "", icons.resource_text("growdesk.qss"), flags=re.DOTALL
    )
    for heads, body in re.findall(r"([^{}]+)\{([^{}]*)\}", text):
        said: dict[str, str] = {}
        for line in body.split(";"):
            name, colon, value = line.partition(":")
            if colon:
                said[name.strip()] = value.strip()
        for head in heads.split(","):
            yield head.strip(), said


def named(value: str) -> str:
    found = re.search(r"@([a-z_]+)", value)
    return found[1] if found else ""


def bases(selector: str) -> list[str]:
    """Give a selector and what it goes back to, its states taken off one by one."""
    found = [selector]
    while re.search(r":[a-z-]+$", found[-1]) and not found[-1].endswith("::"):
        found.append(re.sub(r"(?<!:):[a-z-]+$", "", found[-1]))
        if found[-1] == found[-2]:
            return found[:-1]
    return found


def written(*, both: tuple[str, str] = ("color", "background")) -> set[Pair]:
    """Give which words stand on which ground by the sheet; disabled left out."""
    sheet: dict[str, dict[str, str]] = {}
    for head, said in rules():
        sheet.setdefault(head, {}).update(said)
    pairs: set[Pair] = set()
    for head, said in sheet.items():
        if ":disabled" in head or not named(said.get(both[0], "")):
            continue
        found = [named(sheet.get(each, {}).get(both[1], "")) for each in bases(head)]
        grounds = {next((each for each in found if each), "")} - {""}
        grounds = grounds or {"page", "card"}
        pairs |= {(named(said[both[0]]), ground) for ground in grounds}
    selected = "selection-color", "selection-background-color"
    return pairs if both == selected else pairs | written(both=selected)


def test_the_sheet_is_read() -> None:
    pairs = written()
    assert ("ink", "card") in pairs
    assert ("on_accent", "accent") in pairs
    assert ("muted", "page") in pairs
    assert len(pairs) >= 9


def test_every_colour_has_its_part() -> None:
    """A new colour is to be put where the tests below look at it."""
    parts = GROUNDS | WORDS | VERDICTS | EDGES | PLAIN
    parts |= {each for on in FILLS.values() for each in on}
    assert parts == set(theme.Colours.__struct_fields__)
    assert {name for pair in written() for name in pair} <= parts


@SCHEMES
def test_words_of_the_sheet_are_legible(colours: theme.Colours) -> None:
    faint = {
        pair: ratio
        for pair in written()
        if (ratio := theme.contrast(*(getattr(colours, each) for each in pair))) < 4.5
    }
    assert faint == {}


@SCHEMES
def test_painted_words_are_legible_on_every_ground(colours: theme.Colours) -> None:
    """Delegates, charts and paper paint any word on any ground."""
    faint = {
        (word, ground): ratio
        for word in WORDS | VERDICTS
        for ground in GROUNDS
        if (ratio := theme.contrast(getattr(colours, word), getattr(colours, ground)))
        < 4.5
    }
    assert faint == {}


@SCHEMES
def test_what_is_drawn_on_a_fill_is_seen(colours: theme.Colours) -> None:
    for fill, on in FILLS.items():
        for each in on:
            ratio = theme.contrast(getattr(colours, each), getattr(colours, fill))
            assert ratio >= 4.5, (each, fill)


@SCHEMES
def test_edges_and_focus_are_seen_on_every_ground(colours: theme.Colours) -> None:
    faint = {
        (edge, ground): ratio
        for edge in EDGES | {"accent"}
        for ground in GROUNDS
        if (ratio := theme.contrast(getattr(colours, edge), getattr(colours, ground)))
        < 3
    }
    assert faint == {}


@pytest.mark.parametrize("mode", [theme.Mode.LIGHT, theme.Mode.DARK])
def test_the_palette_is_legible(mode: theme.Mode, qapp: QApplication) -> None:
    """What no sheet touches, as dialogs of the system, goes by the palette."""
    theme.current().choose(mode)
    role = QPalette.ColorRole
    pairs = (
        (role.WindowText, role.Window),
        (role.Text, role.Base),
        (role.Text, role.AlternateBase),
        (role.ButtonText, role.Button),
        (role.HighlightedText, role.Highlight),
        (role.Link, role.Base),
        (role.LinkVisited, role.Base),
        (role.PlaceholderText, role.Base),
        (role.ToolTipText, role.ToolTipBase),
        (role.BrightText, role.Button),
    )
    palette = qapp.palette()
    faint = {
        pair: ratio
        for pair in pairs
        if (ratio := theme.contrast(*(palette.color(each).name() for each in pair)))
        < 4.5
    }
    assert faint == {}
