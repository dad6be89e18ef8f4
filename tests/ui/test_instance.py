"""A window that is started once more comes to the front; one that is hung is told."""

from __future__ import annotations

import socket
import subprocess
import sys
import time
from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QDir

from growdesk.domain.errors import BusyError
from growdesk.services.collection import Collection
from growdesk.ui import instance
from growdesk.ui.instance import Answered, Bell, come_to_the_front, open_or_ring, ring

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

pytestmark = pytest.mark.skipif(
    sys.platform == "win32", reason="speaks to the socket's file of Unix"
)


@pytest.fixture
def bell() -> Iterator[Bell]:
    made = Bell()
    yield made
    made.take_down()


def at(folder: Path) -> str:
    """Give the file of a folder's socket."""
    return f"{QDir.tempPath()}/{instance._name(folder)}"


def rings(qtbot: QtBot, folder: Path, said: bytes = instance._RING) -> Answered:
    """Say something in a folder's name, while this program's events go on."""
    with socket.socket(socket.AF_UNIX) as other:
        try:
            other.connect(at(folder))
        except (FileNotFoundError, ConnectionRefusedError):
            return Answered.NOBODY
        other.sendall(said)
        other.setblocking(False)
        heard: list[bytes] = []

        def has_answered() -> bool:
            try:
                heard.append(other.recv(100))
            except BlockingIOError:
                return False
            except ConnectionError:
                heard.append(b"")
            return True

        qtbot.waitUntil(has_answered, timeout=20_000)
    return Answered.HERE if heard == [instance._HERE] else Answered.SILENT


def test_a_second_start_rings_and_the_first_window_comes(
    qtbot: QtBot, bell: Bell, tmp_path: Path
) -> None:
    assert bell.hang(tmp_path)
    with qtbot.waitSignal(bell.rung):
        assert rings(qtbot, tmp_path) is Answered.HERE
    assert Path(at(tmp_path)).stat().st_mode & 0o077 == 0, "nobody else may ring"
    assert rings(qtbot, tmp_path / "other") is Answered.NOBODY


def test_the_bell_moves_with_the_collection(
    qtbot: QtBot, bell: Bell, tmp_path: Path
) -> None:
    bell.hang(tmp_path / "first")
    bell.hang(tmp_path / "second")
    assert rings(qtbot, tmp_path / "first") is Answered.NOBODY
    assert rings(qtbot, tmp_path / "second") is Answered.HERE
    bell.take_down()
    bell.take_down()
    assert rings(qtbot, tmp_path / "second") is Answered.NOBODY


def test_names_tell_nothing_of_the_folder_and_are_one_folders(tmp_path: Path) -> None:
    (tmp_path / "c").mkdir()
    name = instance._name(tmp_path / "c")
    assert len(name) < 40
    assert "c" not in name.removeprefix("growdesk-").translate(
        {ord(each): None for each in "0123456789abcdef"}
    )
    assert instance._name(tmp_path / "x" / ".." / "c") == name
    assert instance._name(tmp_path / "d") != name


def listening(folder: Path) -> subprocess.Popen[bytes]:
    """Have a program listen in the folder's name, and never answer."""
    Path(at(folder)).unlink(missing_ok=True)
    program = (
        "import socket, sys, time\n"
        "at = socket.socket(socket.AF_UNIX)\n"
        "at.bind(sys.argv[1]); at.listen(5); print('on', flush=True)\n"
        "time.sleep(60)"
    )
    made = subprocess.Popen(
        [sys.executable, "-c", program, at(folder)], stdout=subprocess.PIPE
    )
    assert made.stdout is not None
    assert made.stdout.readline() == b"on\n"
    return made


def test_a_hung_window_does_not_answer(tmp_path: Path) -> None:
    with listening(tmp_path) as hung:
        assert ring(tmp_path, answer_ms=200) is Answered.SILENT
        hung.kill()


def test_a_hung_window_refuses_the_second_start(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def busy() -> Collection:
        raise BusyError("The collection is open in another growdesk.")

    monkeypatch.setattr(instance, "ring", lambda _folder: Answered.SILENT)
    with pytest.raises(BusyError, match="does not answer") as caught:
        open_or_ring(tmp_path, busy)
    assert "\n" not in caught.value.line()
    assert str(tmp_path) in caught.value.message


def test_what_a_stopped_window_left_is_in_nobodys_way(
    qtbot: QtBot, bell: Bell, tmp_path: Path
) -> None:
    with listening(tmp_path) as stopped:
        stopped.kill()
    assert ring(tmp_path) is Answered.NOBODY
    assert bell.hang(tmp_path)
    assert rings(qtbot, tmp_path) is Answered.HERE


@pytest.mark.parametrize(
    "said", [b"something else, as long as a ring is\n", b"x" * 9999, b"", b"\x00"]
)
def test_who_says_something_else_gets_no_answer(
    qtbot: QtBot, bell: Bell, tmp_path: Path, said: bytes
) -> None:
    bell.hang(tmp_path)
    rung: list[bool] = []
    bell.rung.connect(lambda: rung.append(True))
    assert rings(qtbot, tmp_path, said) is Answered.SILENT
    assert rung == []
    assert rings(qtbot, tmp_path) is Answered.HERE
    assert rung == [True]


def test_who_rings_and_says_nothing_is_not_kept(
    qtbot: QtBot, bell: Bell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(instance, "_PATIENCE_MS", 50)
    bell.hang(tmp_path)
    with ExitStack() as open_ones:
        silent = [
            open_ones.enter_context(socket.socket(socket.AF_UNIX)) for _ in range(20)
        ]
        for other in silent:
            other.settimeout(2)
            other.connect(at(tmp_path))
        qtbot.wait(500)
        assert {other.recv(100) for other in silent} == {b""}
    assert rings(qtbot, tmp_path) is Answered.HERE


def test_a_program_without_a_window_is_waited_for(tmp_path: Path) -> None:
    tried: list[float] = []

    def opening() -> Collection:
        tried.append(time.monotonic())
        if len(tried) < 3:
            raise BusyError("The collection is open in another growdesk.")
        return Collection.open(tmp_path / "c", create=True)

    made = open_or_ring(tmp_path / "c", opening)
    assert made is not None
    made.close()
    assert len(tried) == 3


def test_a_program_that_stays_is_told_after_a_while(tmp_path: Path) -> None:
    def busy() -> Collection:
        raise BusyError("The collection is open in another growdesk.")

    with pytest.raises(BusyError, match="open in another growdesk"):
        open_or_ring(tmp_path / "c", busy, wait_s=0.2)


def test_a_window_in_the_background_comes_to_the_front(
    qtbot: QtBot, window: Window
) -> None:
    window.showMinimized()
    come_to_the_front(window)
    qtbot.waitUntil(lambda: not window.isMinimized())
    assert window.isVisible()
