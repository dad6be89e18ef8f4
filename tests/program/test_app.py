"""The window's door, faults of our own, and Ctrl-C."""

from __future__ import annotations

import re
import sys
from typing import TYPE_CHECKING, Never

import pytest

from growdesk.commands import screen, sun
from growdesk.services.collection import default_folder

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

SCREEN_SIGNS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")


@pytest.fixture
def no_screen(monkeypatch: pytest.MonkeyPatch) -> None:
    """Take every sign of a screen away, on a system that has such signs."""
    monkeypatch.setattr(sys, "platform", "linux")
    for sign in SCREEN_SIGNS:
        monkeypatch.delenv(sign, raising=False)


@pytest.mark.usefixtures("no_screen")
@pytest.mark.parametrize("arguments", [(), ("--demo",), ("--collection", "x")])
def test_without_a_screen_one_line_names_the_sheet_command(
    growdesk: Growdesk, arguments: tuple[str, ...]
) -> None:
    refusal = growdesk(*arguments).refusal
    assert "no screen" in refusal
    command = r"growdesk --demo sheet --week \d{4}-\d{2}-\d{2} --pdf sheet\.pdf"
    assert re.search(command, refusal)


@pytest.mark.usefixtures("no_screen")
@pytest.mark.parametrize("sign", SCREEN_SIGNS)
def test_each_sign_of_a_screen_counts(
    monkeypatch: pytest.MonkeyPatch, sign: str
) -> None:
    assert not screen.screen_there()
    monkeypatch.setenv(sign, "something")
    assert screen.screen_there()


@pytest.mark.usefixtures("no_screen")
@pytest.mark.parametrize("platform", ["win32", "darwin"])
def test_windows_and_macos_always_have_a_screen(
    monkeypatch: pytest.MonkeyPatch, platform: str
) -> None:
    monkeypatch.setattr(sys, "platform", platform)
    assert screen.screen_there()


class Window:
    """Stands in for the window: keeps what it was opened on."""

    def __init__(self) -> None:
        self.opened: list[tuple[Path, bool, bool]] = []

    def run(self, folder: Path, demo: bool, *, named: bool) -> int:
        assert demo or named is (folder != default_folder())
        self.opened.append((folder, demo, (folder / "collection.sqlite").exists()))
        return 7


@pytest.fixture
def window(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Window:
    """Let the window's door lead to a stand-in, with a data folder of its own."""
    made = Window()
    monkeypatch.setattr("growdesk.ui.start.run_window", made.run)
    monkeypatch.setattr("growdesk.app.screen_there", lambda: True)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return made


def test_without_a_command_the_window_opens(growdesk: Growdesk, window: Window) -> None:
    run = growdesk()
    assert (run.code, run.out, run.err) == (7, "", "")
    ((folder, demo, _),) = window.opened
    assert folder == default_folder()
    assert not demo


def test_the_window_opens_on_the_folder_named(
    growdesk: Growdesk, window: Window, tmp_path: Path
) -> None:
    growdesk("--collection", tmp_path / "mine")
    assert window.opened == [(tmp_path / "mine", False, False)]


def test_the_demo_is_laid_for_the_window_and_thrown_away(
    growdesk: Growdesk, window: Window
) -> None:
    assert growdesk("--demo").code == 7
    ((folder, demo, there),) = window.opened
    assert demo
    assert there
    assert not folder.exists()


def test_a_missing_system_library_is_named_with_what_to_install(
    growdesk: Growdesk, window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    def lacking(*_: object, **_more: object) -> Never:
        raise ImportError("libEGL.so.1: cannot open shared object file: No such file")

    monkeypatch.setattr("growdesk.ui.start.run_window", lacking)
    refusal = growdesk("--demo").refusal
    assert "without libEGL.so.1" in refusal
    assert "apt install libegl1" in refusal
    assert window.opened == []


def test_a_fault_of_ours_is_one_line_and_a_log(
    growdesk: Growdesk, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def fail(*_: object) -> Never:
        raise ZeroDivisionError("deep inside")

    monkeypatch.setattr(sun, "run", fail)
    monkeypatch.setattr("platformdirs.user_log_path", lambda *_, **__: tmp_path / "log")
    run = growdesk("sun", "--latitude", "1")
    log = tmp_path / "log" / "growdesk.log"
    assert run.code == 1
    assert run.err.count("\n") == 1
    assert "ZeroDivisionError" in run.err
    assert str(log) in run.err
    written = log.read_text(encoding="utf-8")
    assert "ZeroDivisionError\n    growdesk/app.py:" in written
    assert "deep inside" not in written  # what it says may be a grower's


def test_a_fault_without_a_place_for_the_log_is_still_one_line(
    growdesk: Growdesk, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def fail(*_: object) -> Never:
        raise ZeroDivisionError

    blocked = tmp_path / "log"
    blocked.write_text("a file where the folder would be")
    monkeypatch.setattr(sun, "run", fail)
    monkeypatch.setattr("platformdirs.user_log_path", lambda *_, **__: blocked)
    run = growdesk("sun", "--latitude", "1")
    assert (run.code, run.err.count("\n")) == (1, 1)
    assert "could not be written" in run.err


def test_ctrl_c_is_quiet(growdesk: Growdesk, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> Never:
        raise KeyboardInterrupt

    monkeypatch.setattr(sun, "run", interrupted)
    run = growdesk("sun", "--latitude", "1")
    assert (run.code, run.out, run.err) == (130, "", "")
