"""F18: a fault nobody caught, wherever it rises, is told once and the window lives."""

from __future__ import annotations

import logging
import sys
import threading
from contextlib import contextmanager
from datetime import UTC, datetime
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import (
    QAbstractListModel,
    QEvent,
    QObject,
    Qt,
    QThread,  # noqa: TID251 -- one that fails on purpose
    QTimer,
    Signal,
)
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QListView, QPushButton, QWidget
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.services import log_file, trail
from growdesk.services.hard_ends import HardEnd
from growdesk.services.values import PlaceDraft
from growdesk.ui import faults
from growdesk.ui.dialogs import fault
from growdesk.ui.dialogs.fault import FaultDialog
from growdesk.ui.dialogs.look import LookDialog
from growdesk.ui.dialogs.report import ReportDialog
from growdesk.ui.faults import Faults
from growdesk.ui.field_words import BUG_LINE
from growdesk.ui.tasks import Job, Lane
from tests.ui.driving import (
    dialog_of,
    open_dialogs,
    press,
    settle,
    status,
    take_focus,
    typed,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    import pytest
    from PySide6.QtGui import QPaintEvent
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


BENCH = "bench-of-faults"


class OnPurposeError(Exception):
    """What the tests raise."""


TYPED = "Tante Irmgards Laelia"


def fail(*_given: object) -> Any:
    raise OnPurposeError(TYPED)


@contextmanager
def catching(window: Window) -> Iterator[Faults]:
    """Catch as the program does, where pytest would otherwise."""
    trail.forget()
    made = Faults()
    made.install()
    made.attend(window)
    try:
        yield made
    finally:
        made.remove()
        QApplication.processEvents()


def until(window: Window, holds: Callable[[], bool]) -> None:
    """Let events go by until something holds and nothing is asked any more.

    Qt hands on what a model raised to whoever called into it last, which is the test;
    in the program that is the loop of events, and ends in the hook.
    """
    for _ in range(2_000):
        try:
            QTest.qWait(5)
        except OnPurposeError:
            sys.excepthook(*sys.exc_info())
        if holds() and not window.tasks.is_busy:
            return
    raise AssertionError("it never came")


# -- what fails, in each sort of place -----------------------------------------------


class Painted(QWidget):
    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        fail()


class Watched(QObject):
    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.KeyPress:
            fail()
        return False


class Rows(QAbstractListModel):
    @override
    def rowCount(self, *_parent: object) -> int:
        return 3

    @override
    def data(self, *_asked: object) -> Any:
        return fail()


class Sending(QObject):
    sent = Signal(object)


class Threaded(QThread):
    @override
    def run(self) -> None:
        fail()


class Pressed(QWidget):
    @override
    def mousePressEvent(self, *_event: object) -> None:
        fail()


class Shown(QWidget):
    @override
    def showEvent(self, *_event: object) -> None:
        fail()


def bench(window: Window) -> QWidget:
    """Give the widget in the window on which a test lays what fails."""
    return next(each for each in window.findChildren(QWidget, BENCH))


def in_a_slot(window: Window) -> None:
    made = QPushButton("fail", bench(window))
    made.clicked.connect(fail)
    made.click()


def in_a_queued_slot(window: Window) -> None:
    made = Sending(bench(window))
    made.sent.connect(fail, Qt.ConnectionType.QueuedConnection)
    made.sent.emit(1)


def in_a_command(window: Window) -> None:
    window.commands["find"].triggered.connect(fail)
    window.commands["find"].trigger()


def in_a_timer(window: Window) -> None:
    QTimer.singleShot(0, window, fail)


def in_a_paint_event(window: Window) -> None:
    made = Painted(bench(window))
    made.resize(60, 60)
    made.show()


def in_a_show_event(window: Window) -> None:
    Shown(bench(window)).show()


def in_a_mouse_event(window: Window) -> None:
    made = Pressed(bench(window))
    made.show()
    QTest.mouseClick(made, Qt.MouseButton.LeftButton)


def in_an_event_filter(window: Window) -> None:
    bench(window).installEventFilter(Watched(bench(window)))
    QTest.keyClick(bench(window), Qt.Key.Key_A)


def in_a_model(window: Window) -> None:
    view = QListView(bench(window))
    view.setModel(Rows(bench(window)))
    view.resize(80, 80)
    view.show()


def in_the_desk_lane(window: Window) -> None:
    window.desk.write(fail)


def in_the_side_lane(window: Window) -> None:
    window.tasks.ask(window, Job(fail, print, window.desk.fail), Lane.SIDE)


def in_the_rank_lane(window: Window) -> None:
    window.tasks.ask(window, Job(fail, print, window.desk.fail), Lane.RANK)


def in_the_photos_lane(window: Window) -> None:
    window.tasks.ask(window, Job(fail, print, window.desk.fail), Lane.PHOTOS)


def in_an_answer(window: Window) -> None:
    window.desk.read(lambda: 1, fail)


def in_a_failed_answer(window: Window) -> None:
    window.desk.read(refuse, print, fail)


def in_a_thread_of_qt(window: Window) -> None:
    made = Threaded(bench(window))
    made.start()
    made.wait()


def in_a_thread_of_python(_window: Window) -> None:
    made = threading.Thread(target=fail)
    made.start()
    made.join()


def while_something_is_let_go(_window: Window) -> None:
    class Gone:
        def __del__(self) -> None:
            fail()

    Gone()


def refuse() -> None:
    raise InputError("pot_volume_l", 3, "is wrong")


SORTS: tuple[Callable[[Window], None], ...] = (
    in_a_slot,
    in_a_queued_slot,
    in_a_command,
    in_a_timer,
    in_a_paint_event,
    in_a_show_event,
    in_a_mouse_event,
    in_an_event_filter,
    in_a_model,
    in_the_desk_lane,
    in_the_side_lane,
    in_the_rank_lane,
    in_the_photos_lane,
    in_an_answer,
    in_a_failed_answer,
    in_a_thread_of_qt,
    in_a_thread_of_python,
    while_something_is_let_go,
)


def test_a_fault_of_any_sort_is_told_once_and_the_window_lives(
    window: Window,
    collection: Collection,
    caplog: pytest.LogCaptureFixture,
    told: Callable[[str], None],
) -> None:
    """After each fault something is written; all of it is there at the end."""
    log_file.start()
    for sort in SORTS:
        name = sort.__name__
        caplog.clear()
        with catching(window):
            laid = QWidget(window)
            laid.setObjectName(BENCH)
            laid.resize(100, 100)
            laid.show()
            QTimer.singleShot(0, window, partial(sort, window))
            until(window, lambda: bool(open_dialogs(window)))
            until(window, lambda: True)  # what fails in painting fails again
            (dialog,) = open_dialogs(window)
            assert isinstance(dialog, FaultDialog), name
            assert "OnPurposeError" in caplog.text, name
            press(dialog, "&Go on")
            laid.deleteLater()
            until(window, lambda: not open_dialogs(window))
            place = PlaceDraft(f"after {name}")
            window.desk.write(partial(collection.places.add, place))
            until(window, lambda: True)
        assert window.isVisible(), name
    log_file.stop()
    log_file.log.setLevel(logging.NOTSET)
    written = (log_file.folder() / log_file.NAME).read_text(encoding="utf-8")
    assert "OnPurposeError" in written
    assert not [word for word in TYPED.split() if word in written]
    kept = {each.draft.name for each in collection.places.all()}
    lost = [each for each in SORTS if f"after {each.__name__}" not in kept]
    assert not lost
    told(f"F18 faults on purpose: {len(SORTS)} sorts, all told once, {len(lost)} lost")


# -- what it says --------------------------------------------------------------------


def texts(dialog: QWidget) -> str:
    return "\n".join(each.text() for each in dialog.findChildren(QLabel))


def test_it_says_what_was_asked_for_and_when_was_saved_last(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    with catching(window):
        window.commands["week"].trigger()
        settle(qtbot, window)
        window.desk.write(lambda: collection.places.add(PlaceDraft("Sill")))
        settle(qtbot, window)
        QTimer.singleShot(0, window, fail)
        qtbot.waitUntil(lambda: bool(open_dialogs(window)))
        said = texts(dialog_of(window, FaultDialog))
        assert "What was asked for last: The week, or back to the day." in said
        assert "Everything that was saved, last at " in said
        assert "What is typed in an open form stays there." in said
        dialog_of(window, FaultDialog).reject()


def test_nothing_saved_yet_is_said_too(qtbot: QtBot, window: Window) -> None:
    with catching(window):
        QTimer.singleShot(0, window, fail)
        qtbot.waitUntil(lambda: bool(open_dialogs(window)))
        said = texts(dialog_of(window, FaultDialog))
        assert "In this window nothing has been saved yet." in said
        dialog_of(window, FaultDialog).reject()


def test_the_same_fault_again_is_a_line(qtbot: QtBot, window: Window) -> None:
    with catching(window):
        QTimer.singleShot(0, window, fail)
        qtbot.waitUntil(lambda: bool(open_dialogs(window)))
        dialog_of(window, FaultDialog).reject()
        for _ in range(99):
            QTimer.singleShot(0, window, fail)
        qtbot.waitUntil(lambda: "100 times" in status(window))
        assert not open_dialogs(window)


def test_another_fault_meanwhile_is_said_in_the_dialog(
    qtbot: QtBot, window: Window
) -> None:
    with catching(window):
        QTimer.singleShot(0, window, fail)
        QTimer.singleShot(0, window, lambda: 1 / 0)
        qtbot.waitUntil(lambda: bool(open_dialogs(window)))
        (dialog,) = open_dialogs(window)
        qtbot.waitUntil(lambda: "1 other fault came meanwhile." in texts(dialog))
        dialog.reject()


def test_a_refusal_nobody_caught_is_a_line_and_no_dialog(
    qtbot: QtBot, window: Window
) -> None:
    with catching(window):
        QTimer.singleShot(0, window, refuse)
        qtbot.waitUntil(lambda: "is wrong" in status(window))
        assert not open_dialogs(window)


def test_a_form_under_it_keeps_what_was_typed(qtbot: QtBot, window: Window) -> None:
    with catching(window):
        window.commands["look"].trigger()
        settle(qtbot, window)
        form = dialog_of(window, LookDialog)
        take_focus(form.note)
        typed("half a note")
        before = form.held()
        QTimer.singleShot(0, window, fail)
        qtbot.waitUntil(lambda: len(open_dialogs(window)) == 2)
        told = dialog_of(window, FaultDialog)
        assert told.parentWidget() is form
        press(told, "&Go on")
        assert form.isVisible()
        assert form.held() == before
        form.reject()


def test_the_keyboard_goes_on_with_enter_and_esc(qtbot: QtBot, window: Window) -> None:
    for key in (Qt.Key.Key_Return, Qt.Key.Key_Escape):
        with catching(window):
            QTimer.singleShot(0, window, fail)
            qtbot.waitUntil(lambda: bool(open_dialogs(window)))
            dialog = dialog_of(window, FaultDialog)
            QTest.keyClick(dialog, key)
            qtbot.waitUntil(lambda: not open_dialogs(window))
        assert window.isVisible()


def test_a_report_is_made_from_it(qtbot: QtBot, window: Window) -> None:
    with catching(window):
        QTimer.singleShot(0, window, fail)
        qtbot.waitUntil(lambda: bool(open_dialogs(window)))
        press(dialog_of(window, FaultDialog), "&Make a report…")
        qtbot.waitUntil(lambda: bool(window.findChildren(ReportDialog)))
        settle(qtbot, window)
        dialog_of(window, ReportDialog).reject()


def test_it_closes_the_program_where_asked(qtbot: QtBot, window: Window) -> None:
    with catching(window):
        QTimer.singleShot(0, window, fail)
        qtbot.waitUntil(lambda: bool(open_dialogs(window)))
        press(dialog_of(window, FaultDialog), "&Close growdesk")
        qtbot.waitUntil(lambda: not window.isVisible())


def test_a_dialog_that_fails_itself_leaves_the_line(
    qtbot: QtBot, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(fault, "FaultDialog", fail)
    with catching(window):
        QTimer.singleShot(0, window, fail)
        qtbot.waitUntil(lambda: status(window) == BUG_LINE)
        assert not open_dialogs(window)


def test_a_fault_in_the_dialog_s_own_code_closes_it(
    qtbot: QtBot, window: Window
) -> None:
    with catching(window) as catcher:
        QTimer.singleShot(0, window, fail)
        qtbot.waitUntil(lambda: bool(open_dialogs(window)))
        own = "OnPurposeError growdesk/ui/dialogs/fault.py:1 paint"
        catcher._came.emit(faults.Fault(own, ""))
        qtbot.waitUntil(lambda: status(window) == BUG_LINE)
        assert not open_dialogs(window)


def test_a_fault_with_no_window_left_is_logged_and_stays_quiet(
    window: Window, caplog: pytest.LogCaptureFixture
) -> None:
    with catching(window):
        window.close()
        try:
            fail()
        except OnPurposeError:
            sys.excepthook(*sys.exc_info())
        QApplication.processEvents()
    assert "OnPurposeError" in caplog.text


def test_a_hard_end_is_said_without_the_way_to_close(window: Window) -> None:
    with catching(window) as catcher:
        catcher.tell_hard_end(HardEnd(datetime(2026, 11, 25, 16, 49, tzinfo=UTC), ()))
        dialog = dialog_of(window, FaultDialog)
        assert "growdesk did not end properly the last time" in texts(dialog)
        buttons = [each.text() for each in dialog.findChildren(QPushButton)]
        assert buttons == ["&Go on", "&Make a report…"]
        dialog.reject()
