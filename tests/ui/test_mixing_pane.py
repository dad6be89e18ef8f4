"""The mixing pane on the demo: its cards, its choosers, and what they lead to."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLayout, QPushButton, QWidget

from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui import jug_words
from growdesk.ui.dialogs.meter import MeterDialog
from growdesk.ui.widgets import focus
from growdesk.ui.widgets.jug_card import JugCard
from growdesk.ui.widgets.jugs import Jugs
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


def test_a_plan_shown_after_others_reads_as_shown_alone(
    qtbot: QtBot, demo: Window
) -> None:
    """What stands already is left alone; what is left must say what is so."""
    view = demo.desk.view
    assert view is not None
    mix, days = view.mix, demo.desk.collection.day
    first, second, *_rest = mix.jugs
    plans = [
        mix,
        replace(mix, short=("Rain runs short.",)),
        replace(mix, jugs=(replace(first, volume_l=first.volume_l + 1), *mix.jugs[1:])),
        replace(mix, jugs=(second, first)),
        replace(mix, jugs=(first,), water="tap", waters=()),
        replace(mix, jugs=tuple(replace(each, doses=()) for each in mix.jugs)),
        replace(mix, tin=None, jugs=(replace(first, doses=(), recipe=""),)),
        replace(mix, jugs=(first, replace(second, recipe="Another"))),
        *(
            replace(mix, ladder=("One.", "Two."), ladder_first=so)
            for so in (False, True)
        ),
        replace(mix, ladder=("One.",), ladder_first=True, ladder_why="It is better."),
        replace(mix, jugs=(), clear_l=0.0, flush_l=0.0, remarks=("None.", "None.")),
        *(days.view(ON + timedelta(days=number)).mix for number in (-1, 3, 30)),
    ]
    shown = Jugs()
    qtbot.addWidget(shown)
    order = [
        plans[at * step % len(plans)] for step in (1, 7) for at in range(len(plans))
    ]
    for number, plan in enumerate(order):
        is_today = bool(number % 3)
        alone = Jugs()
        qtbot.addWidget(alone)
        alone.show_plan(plan, is_today=is_today)
        shown.show_plan(plan, is_today=is_today)
        assert read(shown) == read(alone)
        assert [*map(name_of, shown.stops())] == [*map(name_of, focus.stops(alone))]


def test_a_card_is_left_alone_where_its_jug_is_the_same(demo: Window) -> None:
    view = demo.desk.view
    assert view is not None
    cards = demo.mixing.findChildren(JugCard)
    short = ("Rain barrel runs short: the rest of the round needs 5 L.",)
    less = replace(view.mix.jugs[0], tags=view.mix.jugs[0].tags[1:])
    plan = replace(view.mix, short=short, jugs=(less, *view.mix.jugs[1:]))
    demo.mixing.show_day(replace(view, mix=plan))
    now = demo.mixing.findChildren(JugCard)
    assert len(now) == len(cards)
    assert [each for each in cards if each not in now] == cards[:1]


def read(jugs: QWidget) -> list[tuple[str, str, str]]:
    """Give all labels and buttons from the top, with names, folds opened."""
    for card in jugs.findChildren(JugCard):
        if not card.fold.is_open:
            card.fold.turn()
    return _read_layout(jugs.layout())


def _read_layout(layout: QLayout | None) -> list[tuple[str, str, str]]:
    found: list[tuple[str, str, str]] = []
    for number in range(0 if layout is None else layout.count()):
        item = layout.itemAt(number) if layout is not None else None
        widget = None if item is None else item.widget()
        if isinstance(widget, QLabel | QPushButton):
            found.append((widget.text(), *name_of(widget)))
        elif widget is not None:
            found.append(("", *name_of(widget)))
            found += _read_layout(widget.layout())
        elif item is not None:
            found += _read_layout(item.layout())
    return found


def name_of(widget: QWidget) -> tuple[str, str]:
    return widget.accessibleName(), widget.objectName()
