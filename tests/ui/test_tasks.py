"""Work off the window's thread: in order, answers to the right owner, none stale."""

from __future__ import annotations

import errno
import os
import threading
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QObject

from growdesk.domain.errors import InputError, StoreError
from growdesk.ui.tasks import Job, Lane, Tasks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot


@pytest.fixture
def tasks() -> Iterator[Tasks]:
    made = Tasks()
    yield made
    made.stop()


def _none(_answer: object) -> None:
    return None


def test_desk_work_is_answered_in_order_on_the_window_thread(
    qtbot: QtBot, tasks: Tasks
) -> None:
    owner = QObject()
    answers: list[tuple[int, bool]] = []
    here = threading.get_ident()
    workers: set[int] = set()

    def work(number: int) -> int:
        workers.add(threading.get_ident())
        return number

    def done(number: int) -> None:
        answers.append((number, threading.get_ident() == here))

    for number in range(20):
        tasks.ask(owner, Job(lambda n=number: work(n), done, _none))  # type: ignore[misc]
    qtbot.waitUntil(lambda: not tasks.is_busy)
    assert answers == [(number, True) for number in range(20)]
    assert len(workers) == 1
    assert here not in workers


def test_a_newer_question_of_the_same_topic_makes_the_older_stale(
    qtbot: QtBot, tasks: Tasks
) -> None:
    owner, other = QObject(), QObject()
    answers: list[str] = []
    gate = threading.Event()
    tasks.ask(owner, Job(lambda: gate.wait(5), _none, _none))
    for name, who in (("old", owner), ("new", owner), ("other", other)):
        tasks.ask(who, Job(lambda n=name: n, answers.append, _none, "day"))  # type: ignore[misc]
    gate.set()
    qtbot.waitUntil(lambda: not tasks.is_busy)
    assert answers == ["new", "other"]


def test_what_is_stale_before_its_turn_is_not_done(qtbot: QtBot, tasks: Tasks) -> None:
    owner, other = QObject(), QObject()
    gate = threading.Event()
    did: list[str] = []
    tasks.ask(owner, Job(lambda: gate.wait(5), _none, _none))
    for topic in ("day", "day", "plant", "day", ""):
        for who in (owner, other):
            named = f"{topic or 'none'} of {'owner' if who is owner else 'other'}"
            tasks.ask(who, Job(lambda n=named: did.append(n), _none, _none, topic))  # type: ignore[misc]
    gate.set()
    qtbot.waitUntil(lambda: not tasks.is_busy)
    assert did == [
        "plant of owner",
        "plant of other",
        "day of owner",
        "day of other",
        "none of owner",
        "none of other",
    ]


def test_an_answer_for_an_owner_that_is_gone_is_dropped(
    qtbot: QtBot, tasks: Tasks
) -> None:
    owner = QObject()
    answers: list[int] = []
    gate = threading.Event()

    def work() -> int:
        gate.wait(5)
        return 1

    tasks.ask(owner, Job(work, answers.append, _none))
    with qtbot.waitSignal(owner.destroyed):
        owner.deleteLater()
    gate.set()
    qtbot.waitUntil(lambda: not tasks.is_busy)
    assert answers == []


def test_a_failure_comes_back_as_what_it_was(
    qtbot: QtBot, tasks: Tasks, caplog: pytest.LogCaptureFixture
) -> None:
    owner = QObject()
    failures: list[Exception] = []

    def slip() -> None:
        raise InputError("tag", "", "is empty")

    def bug() -> None:
        raise ZeroDivisionError

    tasks.ask(owner, Job(slip, _none, failures.append))
    tasks.ask(owner, Job(bug, _none, failures.append, "sum"))
    qtbot.waitUntil(lambda: not tasks.is_busy)
    assert [type(each) for each in failures] == [InputError, ZeroDivisionError]
    assert "work failed: sum" in caplog.text


@pytest.mark.parametrize(
    ("number", "file", "line"),
    [
        (errno.ENOSPC, "/stick/a", "The disk is full: /stick/a."),
        (errno.ENOSPC, None, "The disk is full."),
        (errno.EIO, "/stick/a", "The disk would not read or write /stick/a."),
        (errno.EIO, None, "The disk would not read or write."),
        (errno.EACCES, "/stick/a", "/stick/a may not be written."),
        (errno.ENOENT, "/stick/a", "/stick/a cannot be used: No such file"),
    ],
)
def test_what_a_disk_does_is_one_line_and_no_fault_of_ours(
    qtbot: QtBot, tasks: Tasks, number: int, file: str | None, line: str
) -> None:
    failed: list[Exception] = []
    broke: list[object] = []
    tasks.broke.connect(broke.append)

    def work() -> None:
        raise OSError(number, os.strerror(number), file)

    tasks.ask(tasks, Job(work, _none, failed.append))
    qtbot.waitUntil(lambda: bool(failed))
    assert isinstance(failed[0], StoreError)
    assert failed[0].line().startswith(line)
    assert broke == []


def test_another_error_of_the_system_is_a_fault_of_ours(
    qtbot: QtBot, tasks: Tasks
) -> None:
    broke: list[object] = []
    tasks.broke.connect(broke.append)

    def work() -> None:
        raise OSError(errno.EBADF, os.strerror(errno.EBADF))

    tasks.ask(tasks, Job(work, _none, _none))
    qtbot.waitUntil(lambda: bool(broke))
    assert isinstance(broke[0], OSError)


def test_the_side_lane_does_not_wait_for_the_desk(qtbot: QtBot, tasks: Tasks) -> None:
    owner = QObject()
    gate = threading.Event()
    answers: list[int] = []
    tasks.ask(owner, Job(lambda: gate.wait(5), _none, _none))
    tasks.ask(owner, Job(lambda: 7, answers.append, _none), Lane.SIDE)
    qtbot.waitUntil(lambda: answers == [7])
    assert tasks.is_busy
    gate.set()
    qtbot.waitUntil(lambda: not tasks.is_busy)


def test_busy_is_told_once_at_each_end(qtbot: QtBot, tasks: Tasks) -> None:
    told: list[bool] = []
    tasks.busy_changed.connect(told.append)
    owner = QObject()
    tasks.ask(owner, Job(lambda: 1, _none, _none))
    tasks.ask(owner, Job(lambda: 2, _none, _none))
    qtbot.waitUntil(lambda: not tasks.is_busy)
    assert told == [True, False]


def test_who_asked_is_let_go_of_on_the_windows_thread(
    qtbot: QtBot, tasks: Tasks
) -> None:
    here = threading.get_ident()
    gone: list[int] = []

    class Asker:
        def take(self, _answer: object) -> None:
            return None

        def __del__(self) -> None:
            gone.append(threading.get_ident())

    for _ in range(50):
        tasks.ask(tasks, Job(lambda: None, Asker().take, _none))
    qtbot.waitUntil(lambda: not tasks.is_busy)
    assert gone == [here] * 50
