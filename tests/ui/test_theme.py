"""Both schemes are legible: 4.5 to 1 for words, 3 to 1 for edges and focus."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication

from growdesk.domain.facts import Verdict
from growdesk.ui import icons, theme

if TYPE_CHECKING:
    from growdesk.ui.window import Window

SCHEMES = pytest.mark.parametrize(
    "colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"]
)


@SCHEMES
@pytest.mark.parametrize("verdict", list(Verdict))
def test_a_verdict_is_legible_wherever_it_stands(
    colours: theme.Colours, verdict: Verdict
) -> None:
    for ground in (colours.card, colours.page, colours.chosen):
        assert theme.contrast(colours.verdict(verdict), ground) >= 4.5


@SCHEMES
def test_words_are_legible_on_every_ground(colours: theme.Colours) -> None:
    for ground in (colours.page, colours.card, colours.band, colours.chosen):
        assert theme.contrast(colours.ink, ground) >= 7
        assert theme.contrast(colours.muted, ground) >= 4.5
    assert theme.contrast(colours.on_accent, colours.accent) >= 4.5
    assert theme.contrast(colours.warn, colours.page) >= 4.5
    assert theme.contrast(colours.warn, colours.card) >= 4.5


@SCHEMES
def test_edges_and_focus_are_seen(colours: theme.Colours) -> None:
    for ground in (colours.page, colours.card):
        assert theme.contrast(colours.edge, ground) >= 3
        assert theme.contrast(colours.focus, ground) >= 3


@pytest.mark.parametrize("mode", [theme.Mode.LIGHT, theme.Mode.DARK])
def test_selected_text_is_legible(mode: theme.Mode, qapp: QApplication) -> None:
    theme.current().choose(mode)
    palette = qapp.palette()
    text = palette.color(QPalette.ColorRole.HighlightedText).name()
    ground = palette.color(QPalette.ColorRole.Highlight).name()
    assert theme.contrast(text, ground) >= 4.5


def test_the_sheet_has_no_name_left_over() -> None:
    assert "@" not in QApplication.instance().styleSheet()  # type: ignore[union-attr]


def test_a_scheme_is_chosen_from_the_menu_and_kept(window: Window) -> None:
    window.commands["light-dark"].trigger()
    assert theme.current().is_dark
    window.commands["light-light"].trigger()
    assert not theme.current().is_dark


def test_every_verdict_has_a_mark_of_its_own_shape() -> None:
    shapes = {
        verdict: icons.resource_text(f"icons/{icons.mark_name(verdict)}.svg")
        for verdict in Verdict
    }
    assert len(set(shapes.values())) == len(Verdict)
    for text in shapes.values():
        assert "#000" in text, "a mark takes its colour from the theme"


@pytest.mark.parametrize("verdict", list(Verdict))
def test_a_mark_is_drawn(verdict: Verdict) -> None:
    picture = icons.pixmap(icons.mark_name(verdict), "#ff0000", 24).toImage()
    inked = sum(
        picture.pixelColor(x, y).alpha() > 128 for x in range(24) for y in range(24)
    )
    assert 60 < inked < 480
