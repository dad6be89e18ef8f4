"""Long work: on a lane of its own, one after another, told, and cancelled in words."""

from __future__ import annotations

import threading
from contextlib import closing
from datetime import timedelta
from functools import partial
from threading import Event, Semaphore
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog
from typing_extensions import override

from growdesk.domain.errors import StoreError
from growdesk.services import intake_survey, intake_taking
from growdesk.services.collection import Collection
from growdesk.services.long_work import StoppedError
from growdesk.store import photos as files
from growdesk.ui import calendaring, rostering, theme
from growdesk.ui.away_prints import AwayPrints
from growdesk.ui.charts.panel import Style
from growdesk.ui.dialogs.away import AwayDialog
from growdesk.ui.dialogs.pages import PagesPreview, SheetPreview
from growdesk.ui.files import NOT_SHOWN
from growdesk.ui.going import Going
from growdesk.ui.long_work import NOTHING_WRITTEN, PHOTOS, Long
from growdesk.ui.preferences import COMMA, Regional, kept_regional
from growdesk.ui.widgets.form import choose
from tests.ui.driving import (
    dialog_of,
    focused,
    line_of,
    open_dialogs,
    settle,
    status,
    take_focus,
    to_list,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.long_work import Step
    from growdesk.ui.window import Window


class Slow:
    """Work in ten steps that goes on where it is let."""

    def __init__(self) -> None:
        self.may_go_on = Semaphore(0)
        self.begun = Event()
        self.thread = 0
        self.steps = 0

    def __call__(self, step: Step) -> int:
        self.begun.set()
        self.thread = threading.get_ident()
        for number in range(10):
            step(number, 10)
            self.steps += 1
            self.may_go_on.acquire()
        return self.steps

    def go_on(self, steps: int = 20) -> None:
        self.may_go_on.release(steps)


@pytest.fixture
def slow() -> Iterator[Slow]:
    made = Slow()
    yield made
    made.go_on()


@pytest.fixture
def said() -> list[str]:
    return []


def begin(window: Window, slow: Slow, said: list[str], title: str = "Walking") -> None:
    window.desk.long.begin(
        Long(
            title,
            slow,
            lambda steps: said.append(f"done {steps}"),
            lambda error: said.append(f"failed {error}"),
            lambda: said.append("stopped"),
            PHOTOS,
        )
    )


def once_stopped(monkeypatch: pytest.MonkeyPatch, then: Callable[[], object]) -> None:
    stop = Going.stop

    def stopping(self: Going) -> None:
        stop(self)
        then()

    monkeypatch.setattr(Going, "stop", stopping)


def shown(qtbot: QtBot, window: Window) -> None:
    window.long_panel._patience.setInterval(0)
    qtbot.waitUntil(window.long_panel.isVisible)


def test_it_runs_off_the_windows_thread_and_takes_no_focus(
    qtbot: QtBot, window: Window, said: list[str]
) -> None:
    table, slow = to_list(qtbot, window), Slow()
    window.long_panel._patience.setInterval(0)
    begin(window, slow, said)
    shown(qtbot, window)
    assert open_dialogs(window) == []
    assert QApplication.focusWidget() is table
    slow.go_on(4)
    panel = window.long_panel
    qtbot.waitUntil(lambda: panel.counted.text() == "4 of 10 photos")
    assert panel.bar.value() == 40
    assert panel.bar.accessibleDescription() == "4 of 10 photos"
    assert panel.bar.accessibleName() == "Walking"
    assert panel.cancel_button.accessibleName() == "Cancel: Walking"
    slow.go_on()
    settle(qtbot, window)
    assert said == ["done 10"]
    assert slow.thread != threading.get_ident()
    assert not panel.isVisible()
    assert QApplication.focusWidget() is table


def test_what_is_over_at_once_is_never_shown(
    qtbot: QtBot, window: Window, said: list[str]
) -> None:
    came: list[str] = []
    window.long_panel.came.connect(lambda: came.append("came"))
    slow = Slow()
    slow.go_on()
    begin(window, slow, said)
    settle(qtbot, window)
    assert (said, came) == (["done 10"], [])
    assert not window.long_panel._patience.isActive()


def test_escape_in_the_line_cancels_and_nowhere_else(
    qtbot: QtBot, window: Window, said: list[str]
) -> None:
    table, slow = to_list(qtbot, window), Slow()
    window.long_panel._patience.setInterval(0)
    begin(window, slow, said)
    shown(qtbot, window)
    QTest.keyClick(table, Qt.Key.Key_Escape)
    now = window.desk.long.now
    assert now is not None
    before, going = now.going.is_stopped, now.going
    assert not before
    take_focus(window.long_panel.cancel_button)
    QTest.keyClick(focused(), Qt.Key.Key_Escape)
    assert going.is_stopped
    assert window.long_panel.counted.text() == "Stopping…"
    slow.go_on()
    settle(qtbot, window)
    assert said == ["stopped"]
    assert slow.steps == 1
    assert focused() is not window.long_panel.cancel_button


def test_the_command_cancels_and_is_off_where_nothing_runs(
    qtbot: QtBot, window: Window, said: list[str]
) -> None:
    action, slow = window.commands["cancel"], Slow()
    assert not action.isEnabled()
    begin(window, slow, said)
    assert action.isEnabled()
    action.trigger()
    slow.go_on()
    settle(qtbot, window)
    assert said == ["stopped"]
    assert not action.isEnabled()


def test_a_second_work_waits_for_its_turn_and_that_is_said(
    qtbot: QtBot, window: Window, said: list[str]
) -> None:
    window.long_panel._patience.setInterval(0)
    first, second, third = Slow(), Slow(), Slow()
    begin(window, first, said, "Walking")
    begin(window, second, said, "Running")
    shown(qtbot, window)
    assert window.long_panel.line.text() == "Walking… Then: Running"
    begin(window, third, said, "Jumping")
    assert window.long_panel.line.text() == "Walking… Then: Running, and 1 more"
    assert not second.begun.is_set()
    window.desk.long.cancel()
    for each in (first, second, third):
        each.go_on()
    settle(qtbot, window)
    assert said == ["stopped", "done 10", "done 10"]


def test_what_fails_is_told_and_the_next_begins(
    qtbot: QtBot, window: Window, said: list[str]
) -> None:
    def broken(_step: Step) -> int:
        raise StoreError("The disk is full.", "Make room.")

    slow = Slow()
    slow.go_on()
    window.desk.long.begin(
        Long("Breaking", broken, said.append, window.desk.fail, lambda: None)
    )
    begin(window, slow, said)
    settle(qtbot, window)
    assert said == ["done 10"]
    assert status(window) == "The disk is full. Make room."


def test_reading_and_mixing_do_not_wait_for_it(
    qtbot: QtBot, window: Window, said: list[str]
) -> None:
    slow = Slow()
    begin(window, slow, said)
    plant = line_of(window, "A2").plant_id
    window.desk.show_plant(plant)
    qtbot.waitUntil(
        lambda: window.desk.detail is not None and window.desk.detail.plant_id == plant
    )
    assert said == []
    slow.go_on()
    settle(qtbot, window)


def test_closing_ends_it_and_lets_it_keep_what_is_to_stay(
    window: Window, said: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    slow = Slow()
    begin(window, slow, said)
    assert slow.begun.wait(10)
    once_stopped(monkeypatch, slow.go_on)
    window.close()
    assert not window.isVisible()
    assert said == ["stopped"]
    assert slow.steps == 1


def test_no_other_collection_and_no_other_language_comes_while_it_runs(
    qtbot: QtBot, window: Window, said: list[str], slow: Slow, tmp_path: Path
) -> None:
    begin(window, slow, said, "Making a backup")
    assert slow.begun.wait(10)
    before = window.desk.collection
    window.files.open_folder(tmp_path / "other", create=True)
    assert status(window).startswith("Still under way: Making a backup.")
    dialog = window.preferences.open()
    combo = dialog.combos["decimal"]
    choose(combo, COMMA)
    assert "Making a backup" in dialog.refusal.text()
    assert kept_regional() == Regional()
    dialog.reject()
    slow.go_on()
    qtbot.waitUntil(lambda: said == ["done 10"])
    assert window.desk.collection is before
    window.files.open_folder(tmp_path / "other", create=True)
    qtbot.waitUntil(lambda: status(window).startswith("Opened"))


def test_a_collection_that_comes_when_long_work_has_begun_is_let_go(
    qtbot: QtBot, window: Window, said: list[str], slow: Slow, tmp_path: Path
) -> None:
    window.files.open_folder(tmp_path / "other", create=True)
    begin(window, slow, said, "Making a backup")
    qtbot.waitUntil(lambda: status(window).startswith("Still under way"))
    slow.go_on()
    qtbot.waitUntil(lambda: said == ["done 10"])
    window.files.open_folder(tmp_path / "other")
    qtbot.waitUntil(lambda: status(window).startswith("Opened"))


def test_ten_thousand_steps_are_a_hundred_in_the_bar(
    qtbot: QtBot, window: Window
) -> None:
    told: list[int] = []
    panel = window.long_panel
    panel.bar.valueChanged.connect(told.append)
    going_on = Event()

    def work(step: Step) -> None:
        now = window.desk.long.now
        assert now is not None
        for number in range(10_000):
            step(number, 10_000)
        going_on.wait(10)

    window.desk.long.begin(
        Long("Counting", work, told.append, window.desk.fail, lambda: None)
    )
    now = window.desk.long.now
    assert now is not None
    for number in range(10_000):
        now.going.done, now.going.of = number, 10_000
        panel.read()
    going_on.set()
    settle(qtbot, window)
    assert 50 <= len(told) <= 200


# -- what a cancel leaves -------------------------------------------------------------


def stopped_at(step_number: int) -> Going:
    """Give work that is stopped once it has told so many steps."""

    class Stopping(Going):
        told = 0

        @override
        def step(self, done: int, of: int) -> None:
            self.told += 1
            if self.told > step_number:
                self.stop()
            super().step(done, of)

    return Stopping()


def drawn(path: Path, colour: str) -> Path:
    image = QImage(8, 8, QImage.Format.Format_RGB32)
    image.fill(QColor(colour))
    assert image.save(str(path))
    return path


@pytest.mark.parametrize("work", ["export_to", "backup_to", "save_sheet_to"])
def test_a_cancelled_file_is_not_there(
    window: Window,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    work: str,
) -> None:
    pictures = [drawn(tmp_path / f"{name}.png", name) for name in ("red", "blue")]
    plant = line_of(window, "A1").plant_id
    window.desk.collection.photos.add(plant, pictures)
    monkeypatch.setattr("growdesk.ui.long_work.Going", lambda: stopped_at(1))
    target = tmp_path / "there"
    target.mkdir()
    getattr(window.files, work)(target / "out")
    settle(qtbot, window)
    assert status(window) == NOTHING_WRITTEN
    assert list(target.rglob("*")) == []


def test_a_cancelled_chart_table_or_calendar_is_not_there(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.roster.save_table()
    (chooser,) = window.findChildren(QFileDialog)
    chooser.reject()
    settle(qtbot, window)
    monkeypatch.setattr("growdesk.ui.long_work.Going", lambda: stopped_at(1))
    files, collection = window.files, window.desk.collection
    chart = collection.charts.plant(line_of(window, "A1").plant_id, window.desk.on)
    model = window.roster.pane.model
    style = Style(theme.colours(), 10.0)
    files.save_chart_to(chart, style, tmp_path / "chart.png")
    settle(qtbot, window)
    assert status(window) == NOTHING_WRITTEN
    files.save_table_to(
        partial(rostering._save, model.columns, model.rows), tmp_path / "table.csv"
    )
    settle(qtbot, window)
    assert status(window) == NOTHING_WRITTEN
    files.save_calendar_to(partial(calendaring._save, collection), tmp_path / "a.ics")
    settle(qtbot, window)
    assert status(window) == NOTHING_WRITTEN
    assert list(tmp_path.glob("*.[pci]*")) == []


def test_a_cancelled_away_sheet_leaves_its_form_as_it_was_filled(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window.commands["away"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, AwayDialog)
    dialog.call.setText("Anna, 555 0101")
    monkeypatch.setattr("growdesk.ui.long_work.Going", lambda: stopped_at(1))
    prints = AwayPrints(window.desk, window)
    prints.save_to(dialog, dialog.draft(), tmp_path / "away.pdf")
    assert not dialog.isVisible(), "it stands before the way to cancel"
    settle(qtbot, window)
    assert status(window) == NOTHING_WRITTEN
    assert dialog.isVisible()
    assert dialog.call.text() == "Anna, 555 0101"
    dialog.save_button.click()
    settle(qtbot, window)
    assert dialog.isVisible()
    assert dialog.save_button.isEnabled()
    assert not list(tmp_path.glob("*.pdf"))
    monkeypatch.undo()
    dialog.save_button.click()
    settle(qtbot, window)
    (preview,) = window.findChildren(PagesPreview)
    preview.close()


def test_a_cancel_leaves_an_earlier_export_whole(
    window: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    collection, out = window.desk.collection, tmp_path / "out"
    plant = line_of(window, "A1").plant_id
    collection.photos.add(plant, [drawn(tmp_path / "red.png", "red")])
    window.files.export_to(out)
    settle(qtbot, window)
    before = {path: path.read_bytes() for path in out.rglob("*") if path.is_file()}
    names = ("green", "blue", "black")
    collection.photos.add(plant, [drawn(tmp_path / f"{n}.png", n) for n in names])
    monkeypatch.setattr("growdesk.ui.long_work.Going", lambda: stopped_at(2))
    window.files.export_to(out)
    settle(qtbot, window)
    assert status(window) == NOTHING_WRITTEN
    assert {
        path: path.read_bytes() for path in out.rglob("*") if path.is_file()
    } == before


def test_a_cancelled_table_leaves_every_row_as_it_was(
    window: Window, tmp_path: Path
) -> None:
    ledger = window.desk.collection.ledger
    path = tmp_path / "plants.csv"
    path.write_text("tag\n" + "".join(f"K{number}\n" for number in range(1200)))
    survey = intake_survey.survey(path)
    before = len(window.desk.collection.plants.all())
    told: list[int] = []

    def step(done: int, _of: int) -> None:
        told.append(done)
        if done:
            raise StoppedError("Stopped.")

    with pytest.raises(StoppedError):
        intake_taking.take(ledger, survey, survey.choices, step)
    assert told == [0, 500]
    assert len(window.desk.collection.plants.all()) == before


def test_closing_over_many_photos_keeps_what_was_taken_in(
    qtbot: QtBot, window: Window, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plant = line_of(window, "A1").plant_id
    folder = window.desk.collection.folder
    pictures = [drawn(tmp_path / f"{n}.png", n) for n in ("red", "green", "blue")]
    in_hand, may_go_on = Event(), Semaphore(0)
    put = files.put

    def slowly(folder: Path, photo: files.Examined) -> files.Stored:
        in_hand.set()
        may_go_on.acquire(timeout=10)
        return put(folder, photo)

    monkeypatch.setattr(files, "put", slowly)
    window.photos.take(plant, pictures)
    qtbot.waitUntil(in_hand.is_set)
    once_stopped(monkeypatch, lambda: may_go_on.release(3))
    window.close()
    with closing(Collection.open(folder, window.desk.collection.clock)) as again:
        assert len(again.photos.of(plant)) == 1


def test_a_cancelled_sheet_is_not_opened(
    window: Window, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("growdesk.ui.long_work.Going", lambda: stopped_at(1))
    window.commands["preview-sheet"].trigger()
    settle(qtbot, window)
    assert status(window) == NOT_SHOWN
    assert window.findChildren(SheetPreview) == []


def test_the_week_of_a_sheet_stops_after_the_round_it_is_at(window: Window) -> None:
    collection = window.desk.collection
    on = collection.clock.today() + timedelta(days=14)
    rounds = len(collection.sheet.week(on).rounds)
    told: list[tuple[int, int]] = []

    def step(done: int, of: int) -> None:
        told.append((done, of))
        if done == 1:
            raise StoppedError("Stopped.")

    with pytest.raises(StoppedError):
        collection.sheet.week(on, step)
    assert told[0] == (0, 0)
    assert told[1][0] == 1
    assert told[1][1] > rounds > 0, "the rounds before the week are walked too"
    assert len(told) == 2
