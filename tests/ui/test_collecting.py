"""Cycles are collected by the window's own timer, and by nothing else."""

from __future__ import annotations

import gc
import sys
import weakref
from threading import Thread
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt

from growdesk.ui.collecting import LEFT_ALONE_EACH, MANY, WHOLE_EACH, Collecting
from growdesk.ui.start import _HOLD_S

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PySide6.QtWidgets import QApplication


class Node:
    """Something that may point at itself."""

    def __init__(self) -> None:
        self.itself = self


class Passes(list[int]):
    """What was asked of the collector, which is handed on."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        super().__init__()
        self._ask = gc.collect
        monkeypatch.setattr(gc, "collect", self._asked)

    def _asked(self, generation: int) -> int:
        self.append(generation)
        return self._ask(generation)


@pytest.fixture
def passes(monkeypatch: pytest.MonkeyPatch) -> Passes:
    return Passes(monkeypatch)


@pytest.fixture
def collecting(qapp: QApplication) -> Iterator[Collecting]:
    gc.enable()
    made = Collecting(qapp)
    made._timer.stop()
    yield made
    made.setParent(None)
    made.deleteLater()
    gc.unfreeze()


def lost() -> weakref.ref[Node]:
    """Give a look at something that only the collector would take away."""
    return weakref.ref(Node())


def until_whole(collecting: Collecting) -> None:
    for _ in range(WHOLE_EACH):
        collecting.collect()


def test_what_is_young_goes_with_the_next_round(collecting: Collecting) -> None:
    assert not gc.isenabled()
    seen = lost()
    assert seen() is not None
    collecting.collect()
    assert seen() is None


def test_what_grew_older_goes_within_a_minute(collecting: Collecting) -> None:
    held = Node()
    seen = weakref.ref(held)
    collecting.collect()
    del held
    collecting.collect()
    assert seen() is not None
    until_whole(collecting)
    assert seen() is None


@pytest.mark.parametrize("left_alone", [False, True])
def test_what_was_set_aside_goes_while_nobody_acts(
    collecting: Collecting, *, left_alone: bool
) -> None:
    held = Node()
    seen = weakref.ref(held)
    until_whole(collecting)
    del held
    until_whole(collecting)
    collecting._turned(Qt.ApplicationState.ApplicationActive)
    assert seen() is not None
    if left_alone:
        for _ in range(LEFT_ALONE_EACH):
            collecting.collect()
    else:
        collecting._turned(Qt.ApplicationState.ApplicationInactive)
    assert seen() is None


def test_many_new_objects_are_set_aside_unseen(
    collecting: Collecting, passes: Passes
) -> None:
    seen = lost()
    read = [[number] for number in range(MANY + 1)]
    collecting.collect()
    assert passes == []
    collecting.collect()
    assert passes == [1], "they are young no longer"
    assert seen() is not None
    collecting._turned(Qt.ApplicationState.ApplicationInactive)
    collecting._turned(Qt.ApplicationState.ApplicationInactive)
    assert passes == [1, 2], "once, until there is more"
    assert seen() is None
    assert len(read) > MANY


def test_the_minute_s_pass_leaves_out_what_is_too_much(
    collecting: Collecting, passes: Passes
) -> None:
    until_whole(collecting)
    assert passes.count(2) == 1
    read = []
    for _ in range(4):
        read.append([[number] for number in range(MANY // 3)])
        collecting.collect()
    until_whole(collecting)
    assert passes.count(2) == 1
    until_whole(collecting)
    assert passes.count(2) == 2
    assert len(read) == 4


def test_an_act_now_and_then_is_not_a_window_left_alone(
    collecting: Collecting, passes: Passes
) -> None:
    until_whole(collecting)
    whole = passes.count(2)
    acted: list[list[int]] = []
    for number in range(LEFT_ALONE_EACH):
        acted = [[each] for each in range(2_000 if number == 600 else 1)]
        collecting.collect()
    assert passes.count(2) == whole + LEFT_ALONE_EACH // WHOLE_EACH
    assert len(acted) == 1


def test_a_lane_is_not_hindered_while_the_old_is_counted(
    collecting: Collecting, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Who holds a tuple that is still being built has Python fail to build it."""
    monkeypatch.setattr(gc, "freeze", lambda: None)
    before = sys.getswitchinterval()
    sys.setswitchinterval(_HOLD_S)
    built: list[int] = []

    def build() -> None:
        while len(built) < 60:
            built.append(len(tuple(each for each in range(40_000))))

    lane = Thread(target=build)
    lane.start()
    while lane.is_alive():
        gc.collect(1)
        gc.collect(1)
        collecting._rounds = WHOLE_EACH - 1
        collecting.collect()
    lane.join()
    sys.setswitchinterval(before)
    assert built == [40_000] * 60
