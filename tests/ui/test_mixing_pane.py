"""The mixing pane on the demo: its cards, its choosers, and what they lead to."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui import jug_words
from growdesk.ui.dialogs.meter import MeterDialog
from growdesk.ui.widgets.jug_card import JugCard
from growdesk.ui.widgets.text_link import TextLink
from tests.ui.driving import dialog_of, settle

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

ON = date(2026, 11, 25)
ROOM_PX = 280
"""What the pane has in a window of 1280 pixels."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lay_demo(tmp_path_factory.mktemp("demo") / "collection", ON)


@pytest.fixture
def demo(folder: Path, show: Callable[[Collection], Window]) -> Iterator[Window]:
    """Give the window on the demo."""
    window = show(Collection.open(folder, FixedClock(ON)))
    yield window
    window.close()


def test_each_jug_has_a_card_that_speaks_all_of_it(demo: Window) -> None:
    assert demo.desk.view is not None
    mix = demo.desk.view.mix
    cards = demo.mixing.findChildren(JugCard)
    assert len(cards) == len(mix.jugs) >= 3
    for card, jug in zip(cards, mix.jugs, strict=True):
        told = jug_words.spoken(jug, mix)
        assert card.accessibleName() == told
        assert card.fold.button.accessibleDescription() == told
        amounts = card.findChildren(QLabel, "amount")
        parts = [each.doses for each in jug.fills] or [jug.doses]
        assert len(amounts) == sum(len(doses) for doses in parts)


def test_the_meter_on_a_card_opens_the_form_at_its_jug(
    qtbot: QtBot, demo: Window
) -> None:
    cards = demo.mixing.findChildren(JugCard)
    assert demo.desk.view is not None
    last = demo.desk.view.mix.jugs[-1].letter
    link = cards[-1].findChild(TextLink, "ec")
    assert isinstance(link, TextLink)
    QTest.keyClick(link, Qt.Key.Key_Return)
    settle(qtbot, demo)
    form = dialog_of(demo, MeterDialog)
    assert form.chosen().letter == last != "A"
    assert form.jug.count() == len(cards)
    form.reject()
    demo.commands["meter"].trigger()
    settle(qtbot, demo)
    assert dialog_of(demo, MeterDialog).chosen().letter == "A"


def test_on_a_day_to_come_no_reading_is_asked_for(qtbot: QtBot, demo: Window) -> None:
    demo.commands["next-day"].trigger()
    settle(qtbot, demo)
    assert demo.mixing.findChildren(JugCard)
    assert demo.mixing.findChildren(TextLink, "ec") == []


def test_the_choosers_show_what_is_in_use(demo: Window) -> None:
    recipes = demo.desk.collection.recipes.all()
    used = [each.draft.name for each in recipes if each.draft.in_use]
    assert [demo.mixing.recipe.currentText()] == used
    tins = demo.desk.collection.mixing.tins()
    assert demo.mixing.recipe.count() == len(recipes) + len(tins)


def test_the_barrel_s_litres_stand_by_the_clear_water(demo: Window) -> None:
    assert demo.desk.view is not None
    mix = demo.desk.view.mix
    stands = dict(mix.stands)
    (need,) = (each for each in mix.waters if each.clear_l > 0)
    shown = [each.text() for each in demo.mixing.findChildren(QLabel)]
    whole = f"{stands[need.key]:.0f}"
    (told,) = (each for each in shown if each.endswith("in the barrel by the record."))
    assert abs(float(told.split(" ")[0]) - float(whole)) <= 1


def test_the_marks_of_folds_turn_with_the_scheme(demo: Window) -> None:
    fold = demo.mixing.quick.fold
    before = fold.button.icon().pixmap(16).toImage()
    demo.commands["light-dark"].trigger()
    assert fold.button.icon().pixmap(16).toImage() != before
    demo.commands["light-light"].trigger()
    assert fold.button.icon().pixmap(16).toImage() == before


def test_all_unfolded_the_pane_keeps_to_its_room(demo: Window) -> None:
    for card in demo.mixing.findChildren(JugCard):
        card.fold.turn()
    least = demo.mixing.minimumSizeHint().width()
    assert least <= ROOM_PX
