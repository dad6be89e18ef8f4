"""Overrules: the command, its form, several plants at once, and their end."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from growdesk.domain.facts import Overrule, Verdict, Water
from growdesk.ui import words
from growdesk.ui.dialogs.overrule import WATERS, OverruleDialog, OverruleStart
from growdesk.ui.dialogs.plant import PlantDialog
from growdesk.ui.widgets.form import choose
from tests.ui.driving import (
    dialog_of,
    go_to,
    line_of,
    open_dialogs,
    press,
    retype,
    settle,
    status,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

ON = date(2026, 5, 20)
RETURN, CTRL = Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier
HELD = Overrule(Verdict.KEEP_DRY, "smells sour", ON + timedelta(days=2), Water.SPARING)


@pytest.fixture
def window(stocked: Collection, show: Callable[[Collection], Window]) -> Window:
    return show(stocked)


@pytest.fixture
def form(qtbot: QtBot) -> OverruleDialog:
    dialog = OverruleDialog(None, OverruleStart("A1", "", Verdict.CLEAR_WATER, ON))
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    return dialog


def opened(qtbot: QtBot, window: Window, *tags: str) -> OverruleDialog:
    go_to(window, tags[0])
    if len(tags) > 1:
        window.day_list.table.selectAll()
        assert {line.tag for line in window.day_list.selected()} == set(tags)
    settle(qtbot, window)
    window.commands["overrule"].trigger()
    settle(qtbot, window)
    return dialog_of(window, OverruleDialog)


def said(dialog: OverruleDialog) -> str:
    return " ".join(each.text() for each in dialog.findChildren(QLabel))


# -- the form -------------------------------------------------------------------------


def test_it_opens_with_what_stands_and_a_week_on(form: OverruleDialog) -> None:
    assert form.verdict.currentData() == Verdict.CLEAR_WATER
    assert form.until.text() == "2026-05-27"
    assert form.day.text() == "Wednesday 27 May, 7 days on"
    assert not form.end_button.isVisible()
    form.reason.setText("on trial")
    until = ON + timedelta(days=7)
    assert form.draft() == Overrule(
        Verdict.CLEAR_WATER, "on trial", until, Water.IF_DRY
    )


@pytest.mark.parametrize("verdict", list(Verdict))
def test_how_to_water_follows_the_verdict(
    form: OverruleDialog, verdict: Verdict
) -> None:
    choose(form.verdict, verdict)
    offered = tuple(form.water.itemData(row) for row in range(form.water.count()))
    assert offered == WATERS[verdict]
    assert form.water.currentIndex() == 0
    assert form.water.isEnabled() is (len(offered) > 1)


@pytest.mark.parametrize(
    ("text", "until"),
    [
        ("A week", "2026-05-27"),
        ("Two weeks", "2026-06-03"),
        ("A month", "2026-06-19"),
        ("Three months", "2026-08-19"),
    ],
)
def test_quick_choices_of_the_last_day(
    form: OverruleDialog, text: str, until: str
) -> None:
    retype(form.until, "2026-05-")
    assert form.day.text() == ""
    press(form, text)
    assert form.until.text() == until


def test_a_reason_is_needed_and_told_beside_it(form: OverruleDialog) -> None:
    sent: list[object] = []
    form.saved.connect(sent.append)
    QTest.keyClick(form.reason, RETURN)
    assert sent == []
    assert "Say why" in form.reason.accessibleDescription()
    form.reason.setText("on trial")
    retype(form.until, "soon")
    QTest.keyClick(form.until, RETURN)
    assert sent == []
    assert form.until.accessibleDescription()
    retype(form.until, "2026-05-21")
    assert form.day.text() == "Thursday 21 May, 1 day on"
    QTest.keyClick(form.until, RETURN)
    assert len(sent) == 1


def test_a_day_over_a_season_off_is_asked_about_once(form: OverruleDialog) -> None:
    sent: list[object] = []
    form.saved.connect(sent.append)
    form.reason.setText("on trial")
    retype(form.until, "2026-09-17")
    form.try_save()
    assert len(sent) == 1, "120 days are a season"
    form.save_button.setEnabled(True)
    retype(form.until, "2028-05-20")
    form.try_save()
    assert len(sent) == 1
    assert "20 May 2028 is 731 days on. Press Overrule once more" in said(form)
    assert form.save_button.isEnabled()
    form.try_save()
    assert len(sent) == 2


# -- in the window --------------------------------------------------------------------


def test_one_plant_is_overruled_by_keyboard(qtbot: QtBot, window: Window) -> None:
    dialog = opened(qtbot, window, "A1")
    assert "Without the overrule: feed, 150 ppm N; " in said(dialog)
    QTest.keyClicks(dialog.verdict, "Keep")
    retype(dialog.reason, "it stands at a friend's")
    QTest.keyClick(dialog.reason, RETURN, CTRL)
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert line_of(window, "A1").verdict is Verdict.KEEP_DRY
    assert "Plant A1 overruled" in status(window)
    assert window.desk.detail is not None
    told = [one.sentence for one in window.desk.detail.told]
    assert told[0].endswith("until 27 May: it stands at a friend's.")
    assert told[1] == "Without the overrule it would be fed."
    window.past.undo()
    settle(qtbot, window)
    assert line_of(window, "A1").verdict is Verdict.FEED


def test_several_plants_take_one_word_and_one_undo(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    before = {line.tag: line.verdict for line in window.day_list.model.lines}
    dialog = opened(qtbot, window, "A1", "A2", "A3")
    assert "None of them is overruled now." in said(dialog)
    each = dialog.findChild(QLabel, "each-now")
    assert isinstance(each, QLabel)
    now = dict(told.split(": ", 1) for told in each.text().splitlines())
    assert list(now) == ["A1", "A2", "A3"]
    assert now["A1"].startswith("feed, 150 ppm N; ")
    short = line_of(window, "A3").short_reason
    assert now["A3"] == f"look first, {words.WATER[Water.IF_DRY]}; {short}"
    choose(dialog.verdict, Verdict.CLEAR_WATER)
    choose(dialog.water, Water.SPARING)
    dialog.reason.setText("I am away")
    dialog.try_save()
    settle(qtbot, window)
    lines = window.day_list.model.lines
    assert {(line.verdict, line.water) for line in lines} == {
        (Verdict.CLEAR_WATER, Water.SPARING)
    }
    assert stocked.history.view().undo == "3 plants overruled"
    window.past.undo()
    settle(qtbot, window)
    assert {line.tag: line.verdict for line in window.day_list.model.lines} == before


def test_a_word_that_holds_is_shown_and_lifted(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    stocked.plants.overrule((line_of(window, "A1").plant_id,), HELD)
    window.desk.show_day()
    settle(qtbot, window)
    dialog = opened(qtbot, window, "A1")
    assert "Overruled until 22 May 2026: keep dry. Your reason: smells sour." in (
        said(dialog)
    )
    assert "Without the overrule: feed, right through; " in said(dialog)
    assert dialog.draft() == HELD
    assert dialog.end_button.text() == "&End the overrule"
    dialog.end_button.click()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert line_of(window, "A1").verdict is Verdict.FEED
    assert stocked.history.view().undo == "Plant A1 judged again"


def test_of_several_only_those_overruled_are_lifted(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    ids = tuple(line_of(window, tag).plant_id for tag in ("A1", "A2"))
    stocked.plants.overrule(ids, HELD)
    window.desk.show_day()
    settle(qtbot, window)
    dialog = opened(qtbot, window, "A1", "A2", "A3")
    assert "2 of these 3 plants are overruled now." in said(dialog)
    assert "A1: keep dry, overruled until 22 May 2026; without that feed" in said(
        dialog
    )
    assert dialog.end_button.text() == "&End the overrules"
    dialog.end_button.click()
    settle(qtbot, window)
    assert stocked.history.view().undo == "2 plants judged again"


def test_a_day_that_is_over_is_told_beside_it_and_nothing_is_lost(
    qtbot: QtBot, window: Window
) -> None:
    dialog = opened(qtbot, window, "A1")
    dialog.reason.setText("on trial")
    retype(dialog.until, "2026-05-01")
    dialog.try_save()
    settle(qtbot, window)
    assert dialog.isVisible()
    assert "is over already" in dialog.until.accessibleDescription()
    assert dialog.reason.text() == "on trial"
    press(dialog, "A week")
    dialog.try_save()
    settle(qtbot, window)
    assert open_dialogs(window) == []


def test_the_plants_form_keeps_how_it_was_said_to_water(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    plant_id = line_of(window, "A1").plant_id
    stocked.plants.overrule((plant_id,), HELD)
    window.desk.show_day()
    settle(qtbot, window)
    window.forms.change_plant(plant_id)
    settle(qtbot, window)
    dialog = dialog_of(window, PlantDialog)
    dialog.rules.reason.setText("still sour")
    dialog.try_save()
    settle(qtbot, window)
    assert stocked.plants.get(plant_id).overrule == replace(
        HELD, reason="still sour", since=ON
    )
    window.forms.change_plant(plant_id)
    settle(qtbot, window)
    again = dialog_of(window, PlantDialog)
    choose(again.rules.overrule, Verdict.LOOK_FIRST)
    again.try_save()
    settle(qtbot, window)
    kept = stocked.plants.get(plant_id).overrule
    assert kept is not None
    assert kept.water is Water.SPARING


def test_without_a_plant_the_command_says_so(
    qtbot: QtBot, collection: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(collection)
    window.overrules.open(())
    settle(qtbot, window)
    assert status(window) == "No plant is selected."
    assert open_dialogs(window) == []
