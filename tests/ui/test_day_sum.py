"""The day in sum: turned to in place of the list, in words, copied and printed."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.stocktaking import Sort
from growdesk.services.day_sum import DaySum, Given, NextDay, Used
from growdesk.ui import day_sum_words
from growdesk.ui.printing.day_sum import lay_out_sum
from growdesk.ui.printing.marks import Words
from tests.ui.driving import focused, key, line_of, press, settle, to_list

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

ON = date(2026, 11, 25)
NEXT = NextDay(
    date(2026, 11, 28),
    ((Verdict.FEED, 3), (Verdict.LOOK_FIRST, 1)),
    2,
    3.61,
    0.15,
    ("Rain is used up: the round needs 2 L.",),
)
SUM = DaySum(
    on=ON,
    today=ON,
    plants=6,
    given=(
        Given(CareKind.FEED, ("A1", "A2"), 1.0),
        Given(CareKind.FLUSH, ("B1",), 1.2),
        Given(None, ("B2",), 0.0),
    ),
    open=("B3",),
    looks=("C1",),
    dry=("C2",),
    used=(
        Used(Sort.TIN, "Green tin", "g", 1.24, 98.76),
        Used(Sort.WATER, "", "L", 2.3, None),
    ),
    following=NEXT,
)


def test_the_whole_day_is_said_a_line_an_idea() -> None:
    assert day_sum_words.as_text(SUM).splitlines() == [
        "Today, Wednesday 25 November, summed up",
        "",
        "Given",
        "2 plants were fed: A1 and A2. 1 L poured.",
        "1 plant was flushed: B1. 1.2 L poured.",
        "1 plant was passed by, still damp: B2.",
        "1 plant is kept dry: C2.",
        "",
        "Left",
        "1 plant is still to do: B3.",
        "1 plant wants a look first: C1.",
        "",
        "Used",
        "Green tin: 1.2 g; 99 g is left by the record.",
        "Something that was put away since: 2.3 L.",
        "",
        "Next",
        "Saturday 28 November, in 3 days.",
        "As things stand: 3 to feed and 1 to look at first.",
        "2 jugs of feed, 3.61 L in all.",
        "150 mL of clear water, and a little to spare.",
        "Rain is used up: the round needs 2 L.",
    ]


def test_litres_that_nobody_knows_are_not_told_as_none() -> None:
    following = replace(NEXT, jugs=1, mixed_l=0.0)
    said = day_sum_words.as_text(replace(SUM, following=following))
    assert "1 jug of feed, litres not known." in said
    assert ", 0 mL" not in said


@pytest.mark.parametrize(
    ("summed", "said"),
    [
        (replace(SUM, plants=0), day_sum_words.NO_PLANTS),
        (replace(SUM, given=()), day_sum_words.NOTHING_GIVEN),
        (replace(SUM, given=(), today=date(2026, 12, 1)), day_sum_words.NOTHING_EVER),
        (replace(SUM, open=(), looks=()), day_sum_words.NOTHING_LEFT),
        (replace(SUM, on=date(2026, 11, 26)), day_sum_words.TO_COME),
        (replace(SUM, today=date(2026, 11, 27)), "Tomorrow, Saturday 28 November."),
        (replace(SUM, today=date(2026, 12, 1)), "Saturday 28 November."),
    ],
)
def test_each_state_of_a_day_has_its_own_words(summed: DaySum, said: str) -> None:
    lines = [line for part in day_sum_words.parts(summed) for line in part.lines]
    assert said in lines


def test_the_sum_is_printed_whole_and_inside_the_page() -> None:
    (page,) = lay_out_sum(SUM, 595, 842)
    set_ = [
        (placed, mark)
        for placed in page.placed
        for mark in placed.marks
        if isinstance(mark, Words)
    ]
    said = " ".join(mark.text for _placed, mark in set_)
    for line in day_sum_words.as_text(SUM).split():
        assert line in said
    assert all(placed.y_pt + mark.y_pt < 842 - 20 for placed, mark in set_)
    many = replace(SUM, following=replace(NEXT, short=NEXT.short * 80))
    assert len(lay_out_sum(many, 595, 842)) == 2


def test_f12_sums_the_day_up_and_goes_back(qtbot: QtBot, window: Window) -> None:
    assert window.head.sum_up.isHidden(), "nothing is done yet"
    window.deeds.tick([line_of(window, "A1").plant_id])
    settle(qtbot, window)
    assert not window.head.sum_up.isHidden()
    to_list(qtbot, window)
    key(Qt.Key.Key_F12)
    settle(qtbot, window)
    pane = window.summing.pane
    assert window.faces.shown == "day-summary"
    assert pane.isVisible()
    assert focused() is pane.back_button
    summed = pane.summed
    assert summed is not None
    assert [each.tags for each in summed.given] == [("A1",)]
    assert summed.looks == ("A3",)
    assert not pane.looks_button.isHidden()
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert pane.summed is not None
    assert pane.summed.given == ()
    key(Qt.Key.Key_F12)
    assert window.faces.shown == "day"
    assert window.day_list.table.hasFocus()


def test_the_sum_is_copied_and_leads_to_the_looks(qtbot: QtBot, window: Window) -> None:
    to_list(qtbot, window)
    key(Qt.Key.Key_F12)
    settle(qtbot, window)
    pane = window.summing.pane
    press(pane, "Copy")
    assert pane.summed is not None
    assert QGuiApplication.clipboard().text() == day_sum_words.as_text(pane.summed)
    press(pane, "Look at them now")
    settle(qtbot, window)
    assert window.faces.shown == "day"
    assert window.day_list.looks.view.isVisible()


def test_an_empty_collection_says_what_the_sum_is_for(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    window.commands["day-summary"].trigger()
    settle(qtbot, window)
    assert window.summing.pane.summed is not None
    assert window.summing.pane.summed.plants == 0
