"""A day of many plants stands in the window before all of them are judged."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from growdesk.domain.facts import Look, RootTips
from growdesk.services import begun_day
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.services.values import Line, Unjudged
from growdesk.services.watering_day import WateringDay
from growdesk.ui.day_columns import NOT_YET, Place
from growdesk.ui.models.day_model import Head
from growdesk.ui.widgets.looks_first import NOTHING_TO_LOOK_AT, STILL_LOOKED_FOR
from growdesk.ui.window import Window
from tests.conftest import TODAY
from tests.ui.driving import settle, status

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

FIRST, STEP = 4, 6


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lay_demo(tmp_path_factory.mktemp("begun") / "c", TODAY)


@pytest.fixture
def begun(
    laid: Path,
    tmp_path: Path,
    show: Callable[[Collection], Window],
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> Window:
    """Give a window on the demo that stands still after the first plants."""
    for name, many in {"AT_ONCE": 10, "FIRST": FIRST, "STEP": STEP}.items():
        monkeypatch.setattr(begun_day, name, many)
    monkeypatch.setattr(Window, "_go_on", lambda _window, _begun: None)
    folder = shutil.copytree(laid, tmp_path / "c")
    window = show(Collection.open(folder, FixedClock(TODAY)))
    settle(qtbot, window)
    assert window.desk.begun is not None
    return window


def step(qtbot: QtBot, window: Window) -> None:
    window.desk.go_on()
    settle(qtbot, window)


def to_the_end(qtbot: QtBot, window: Window) -> None:
    while window.desk.begun is not None:
        step(qtbot, window)


def rows(window: Window) -> list[Line | Unjudged]:
    found = window.day_list.model.rows
    return [each for each in found if not isinstance(each, Head)]


def judged(window: Window) -> list[int]:
    return [each.plant_id for each in rows(window) if isinstance(each, Line)]


def test_all_plants_stand_in_their_order_and_the_first_are_judged(
    begun: Window,
) -> None:
    model = begun.day_list.model
    whole = WateringDay(begun.desk.collection.ledger).view()
    assert [each.plant_id for each in rows(begun)] == [
        each.plant_id for each in whole.lines
    ]
    assert model.head_rows() == ()
    assert judged(begun) == [each.plant_id for each in whole.lines[:FIRST]]
    assert begun.desk.view is None
    assert begun.day_list.chosen is None, "the whole day is to begin at its top"
    first = begun.head.first.text()
    assert f"{len(whole.lines)} plants, {FIRST} done" in first
    last = model.rowCount() - 1
    said = [model.index(last, place).data() for place in Place]
    assert said == ["", whole.lines[-1].tag, whole.lines[-1].name, NOT_YET, ""]
    spoken = model.index(last, Place.PLANT).data(Qt.ItemDataRole.AccessibleTextRole)
    assert NOT_YET in spoken
    assert whole.lines[-1].tag in spoken


def test_nothing_is_said_of_jugs_or_ticked_before_all_are_judged(
    begun: Window, qtbot: QtBot
) -> None:
    model, table = begun.day_list.model, begun.day_list.table
    for row in range(FIRST):
        assert model.index(row, Place.STRENGTH).data() == ""
        assert model.index(row, Place.TICK).data(Qt.ItemDataRole.CheckStateRole) is None
        spoken = model.index(row, Place.PLANT).data(Qt.ItemDataRole.AccessibleTextRole)
        assert "ppm" not in spoken
    for row in (0, model.rowCount() - 1):
        table.scrollTo(model.index(row, 0))
        where = table.visualRect(model.index(row, Place.TICK)).center()
        QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=where)
        assert begun.day_list.chosen == rows(begun)[row].plant_id
        for key in ("tick", "pass-by", "give", "repot", "treat", "overrule"):
            begun.commands[key].trigger()
            assert "are judged so far" in status(begun), key
    settle(qtbot, begun)
    assert begun.desk.collection.history.view().undo is None
    to_the_end(qtbot, begun)
    assert all(line.done is None for line in begun.day_list.model.lines)


def test_a_step_tells_only_what_was_judged(begun: Window, qtbot: QtBot) -> None:
    told: list[tuple[int, int]] = []
    resets: list[None] = []
    model = begun.day_list.model
    model.dataChanged.connect(lambda a, b: told.append((a.row(), b.row())))
    model.modelReset.connect(lambda: resets.append(None))
    begun.desk.seen = tuple
    step(qtbot, begun)
    assert told == [(FIRST, FIRST + STEP - 1)]
    assert resets == []
    to_the_end(qtbot, begun)
    assert len(resets) == 1


def test_what_is_in_sight_is_judged_first(begun: Window, qtbot: QtBot) -> None:
    begun.resize(1000, 520)
    table = begun.day_list.table
    table.scrollToBottom()
    seen = begun.day_list.unjudged_in_sight()
    assert seen[-1] == rows(begun)[-1].plant_id
    step(qtbot, begun)
    assert set(seen[:STEP]) <= set(judged(begun))


def test_the_day_that_stands_in_the_end_is_the_day_judged_at_once(
    begun: Window, qtbot: QtBot
) -> None:
    to_the_end(qtbot, begun)
    whole = WateringDay(begun.desk.collection.ledger).view()
    assert begun.desk.view == whole
    model = begun.day_list.model
    assert model.head_rows()
    assert not model.is_begun
    top = next(each for each in model.rows if isinstance(each, Line))
    assert begun.day_list.chosen == top.plant_id
    assert "Judging" not in begun.head.first.text()
    assert begun.mixing._empty.isHidden()


def test_the_mixing_says_that_its_jugs_come_later(begun: Window) -> None:
    assert "once all plants are judged" in begun.mixing._empty.text()
    assert not begun.mixing._empty.isHidden()
    assert begun.mixing._jugs.isHidden()


def test_a_plant_chosen_before_stays_chosen_and_gets_its_jug(
    begun: Window, qtbot: QtBot
) -> None:
    whole = WateringDay(begun.desk.collection.ledger).view()
    fed = next(each for each in reversed(whole.lines) if each.letter)
    begun.day_list.go_to(fed.plant_id)
    settle(qtbot, begun)
    assert fed.plant_id not in judged(begun)
    said = " ".join(each.text() for each in begun.detail.findChildren(QLabel))
    assert "its jug is told once all plants are judged" in said
    to_the_end(qtbot, begun)
    assert begun.day_list.chosen == fed.plant_id
    detail = begun.desk.detail
    assert detail is not None
    assert (detail.plant_id, detail.letter) == (fed.plant_id, fed.letter)


def test_a_find_goes_by_names_until_all_are_judged(begun: Window, qtbot: QtBot) -> None:
    last = rows(begun)[-1]
    begun.day_list.filter.setText(last.tag)
    assert last.plant_id in [each.plant_id for each in rows(begun)]
    few = len(rows(begun))
    step(qtbot, begun)
    assert len(rows(begun)) == few
    begun.day_list.filter.setText("feed")
    assert begun.day_list.model.rows == ()
    assert "once all are judged" in begun.day_list._nothing.text()
    to_the_end(qtbot, begun)
    assert begun.day_list.model.rows, "verdicts are found now"


def test_a_look_written_meanwhile_is_in_the_verdict(
    begun: Window, qtbot: QtBot
) -> None:
    plant = judged(begun)[0]
    looks = begun.desk.collection.looks
    begun.desk.write(lambda: looks.record(plant, Look(TODAY, root_tips=RootTips.NONE)))
    settle(qtbot, begun)
    to_the_end(qtbot, begun)
    assert begun.desk.view == WateringDay(begun.desk.collection.ledger).view()


def test_a_look_written_meanwhile_is_seen_beside_the_list_at_once(
    begun: Window, qtbot: QtBot
) -> None:
    plant = judged(begun)[1]
    begun.day_list.go_to(plant)
    settle(qtbot, begun)
    looks = begun.desk.collection.looks
    begun.desk.write(lambda: looks.record(plant, Look(TODAY, root_tips=RootTips.NONE)))
    settle(qtbot, begun)
    assert begun.desk.begun is not None
    assert begun.desk.detail is not None
    assert begun.desk.detail.looks[0].look == Look(TODAY, root_tips=RootTips.NONE)


def test_where_there_are_plants_no_first_one_is_asked_for(begun: Window) -> None:
    begun.desk.show_plant(None)
    assert begun.detail.add_button.isHidden()
    assert begun.detail._nothing.text().startswith("Choose a plant in the list")


def test_midnight_begins_the_new_day(begun: Window, qtbot: QtBot) -> None:
    clock = begun.desk.collection.clock
    assert isinstance(clock, FixedClock)
    clock.day = TODAY.replace(day=TODAY.day + 1)
    begun.desk.notice_midnight()
    settle(qtbot, begun)
    assert begun.desk.begun is not None
    assert begun.desk.begun.on == clock.day
    to_the_end(qtbot, begun)
    assert begun.desk.view is not None
    assert begun.desk.view.on == clock.day


@pytest.mark.parametrize("face", ["week", "day-summary"])
def test_a_face_asked_for_meanwhile_comes_with_the_whole_day(
    begun: Window, qtbot: QtBot, face: str
) -> None:
    begun.commands[face].trigger()
    assert begun.faces.shown == "day"
    assert status(begun) == "It is shown once all plants are judged."
    to_the_end(qtbot, begun)
    assert begun.faces.shown == face


def test_today_asked_for_after_another_day_is_what_is_shown(
    begun: Window, qtbot: QtBot
) -> None:
    begun.commands["next-day"].trigger()
    begun.commands["today"].trigger()
    settle(qtbot, begun)
    to_the_end(qtbot, begun)
    assert begun.desk.view is not None
    assert begun.desk.view.on == TODAY


def test_what_is_written_meanwhile_does_not_keep_from_another_day(
    begun: Window, qtbot: QtBot
) -> None:
    to_the_end(qtbot, begun)
    plant_id = begun.day_list.model.lines[0].plant_id
    begun.desk.write(
        lambda: begun.desk.collection.looks.record(
            plant_id, Look(TODAY, root_tips=RootTips.RUNNING)
        )
    )
    begun.commands["next-day"].trigger()
    settle(qtbot, begun)
    assert begun.desk.view is not None
    assert begun.desk.view.on > TODAY


def test_nothing_is_said_of_looks_worth_taking_before_it_is_known(
    begun: Window, qtbot: QtBot
) -> None:
    begun.commands["looks-first"].trigger()
    assert "plants are judged so far" in status(begun)
    to_the_end(qtbot, begun)
    begun.day_list.looks.show_lines(())
    begun.looks._running = True
    begun.commands["looks-first"].trigger()
    assert status(begun) == STILL_LOOKED_FOR
    begun.looks._running = False
    begun.commands["looks-first"].trigger()
    assert status(begun) == NOTHING_TO_LOOK_AT


def test_closing_meanwhile_ends_what_judges(
    laid: Path, tmp_path: Path, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("AT_ONCE", "FIRST", "STEP"):
        monkeypatch.setattr(begun_day, name, 1)
    folder = shutil.copytree(laid, tmp_path / "c")
    window = Window(Collection.open(folder, FixedClock(TODAY)))
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: len(judged(window)) > 2)
    window.close()
    assert not window.tasks.is_busy
    assert window.desk.view is None
    assert not window.desk.collection.ledger.store.is_open
