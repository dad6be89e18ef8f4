"""The menu entry: written for one user, started as installed, taken away again."""

from __future__ import annotations

import re
import sys
from configparser import RawConfigParser
from typing import TYPE_CHECKING

import pytest

from growdesk import APPLICATION_ID
from growdesk.app import main
from growdesk.commands.desktop_entry import entry_text
from growdesk.domain.errors import InputError
from growdesk.ui.start import application

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

ENTRY = f"applications/{APPLICATION_ID}.desktop"
ICONS = {
    f"icons/hicolor/{size}x{size}/apps/{APPLICATION_ID}.png"
    for size in (48, 64, 128, 256)
} | {f"icons/hicolor/scalable/apps/{APPLICATION_ID}.svg"}


@pytest.fixture
def share(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A user's data folder, and a program started from a folder with a blank."""
    scripts = tmp_path / "my programs"
    scripts.mkdir()
    (scripts / "growdesk-window").touch()
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setattr(sys, "argv", [str(scripts / "growdesk")])
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "share"))
    return tmp_path / "share"


def files_in(folder: Path) -> set[str]:
    return {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file()
    }


def keys_of(text: str) -> Mapping[str, str]:
    parser = RawConfigParser(delimiters=("=",), strict=True)
    parser.optionxform = str  # type: ignore[assignment,method-assign]
    parser.read_string(text)
    return parser["Desktop Entry"]


def started(text: str) -> list[str]:
    """Read an entry's command line as a desktop does (sections 4 and 7)."""
    value = keys_of(text)["Exec"].replace("\\\\", "\\")
    quoted = re.findall(r'"((?:[^"\\]|\\.)*)"', value)
    return [re.sub(r"\\(.)", r"\1", part).replace("%%", "%") for part in quoted]


def test_written_where_the_desktop_looks(
    share: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["desktop-entry"]) == 0
    assert files_in(share) == {ENTRY} | ICONS
    text = (share / ENTRY).read_text(encoding="utf-8")
    window = str(share.parent / "my programs" / "growdesk-window")
    assert started(text) == [window]
    assert keys_of(text)["TryExec"] == window
    told = capsys.readouterr().out.splitlines()
    assert str(share / ENTRY) in told[0]
    assert told[1] == f"It starts {window}."
    assert told[2].endswith("growdesk desktop-entry --remove")


def test_written_twice_and_removed_twice(
    share: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    others = share / "applications" / "other.desktop"
    others.parent.mkdir(parents=True)
    others.touch()
    assert main(["desktop-entry"]) == main(["desktop-entry"]) == 0
    capsys.readouterr()
    assert main(["desktop-entry", "--remove"]) == 0
    assert "are gone from" in capsys.readouterr().out
    assert files_in(share) == {"applications/other.desktop"}
    assert main(["desktop-entry", "--remove"]) == 0
    assert "There is no menu entry of growdesk" in capsys.readouterr().out


def test_a_data_folder_that_is_not_absolute_counts_as_none(
    share: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """XDG Base Directory Specification 0.8: relative paths are ignored."""
    monkeypatch.setenv("XDG_DATA_HOME", "share")
    monkeypatch.setenv("HOME", str(share.parent / "home"))
    monkeypatch.chdir(share.parent)
    assert main(["desktop-entry"]) == 0
    assert not share.exists()
    assert (share.parent / "home" / ".local" / "share" / ENTRY).is_file()


@pytest.mark.parametrize(
    "program",
    [
        ["/opt/growdesk/growdesk-window"],
        ['/home/a b/$HOME `x` "y" \\z 100%/growdesk-window'],
        ["/usr/bin/python3", "-m", "growdesk"],
    ],
)
def test_any_path_is_started_as_it_stands(program: list[str]) -> None:
    text = entry_text(program)
    assert started(text) == program
    assert keys_of(text)["TryExec"].replace("\\\\", "\\") == program[0]


@pytest.mark.parametrize("path", ["/opt/a=b/growdesk", "/opt/a\nb", "/opt/\udcff"])
def test_a_path_that_no_entry_can_name_is_refused(path: str) -> None:
    with pytest.raises(InputError, match="no menu entry can name") as caught:
        entry_text([path])
    assert caught.value.field == "desktop-entry"


def test_without_the_installed_program_python_starts_it(
    share: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "argv", ["-m"])
    monkeypatch.setattr("sysconfig.get_path", lambda _: str(share))
    monkeypatch.chdir(share.parent)
    assert main(["desktop-entry"]) == 0
    text = (share / ENTRY).read_text(encoding="utf-8")
    assert started(text) == [sys.executable, "-m", "growdesk"]


def test_frozen_it_starts_itself(share: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    program = share.parent / "frozen" / "growdesk"
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    monkeypatch.setattr(sys, "executable", str(program))
    monkeypatch.setattr("sysconfig.get_path", lambda _: str(share))
    assert main(["desktop-entry"]) == 0
    assert started((share / ENTRY).read_text(encoding="utf-8")) == [str(program)]


@pytest.mark.parametrize("platform", ["win32", "darwin"])
def test_elsewhere_it_says_what_to_do(
    platform: str,
    share: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr(sys, "platform", platform)
    assert main(["desktop-entry"]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert "this menu entry is for Linux. Here, make a shortcut to " in line
    assert not share.exists()


def test_the_windows_name_the_same_entry() -> None:
    app = application()
    assert app.desktopFileName() == APPLICATION_ID
    assert app.applicationVersion()
