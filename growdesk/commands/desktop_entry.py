"""Puts growdesk into the desktop's menu for one user, and takes it out again.

The files go where the XDG Base Directory Specification 0.8 has a user's own data; the
entry follows the Desktop Entry Specification 1.5, section 7 for its command line.
"""

from __future__ import annotations

import os
import shutil
import sys
import sysconfig
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk import APPLICATION_ID, assets
from growdesk.commands import output
from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Iterator, Sequence

    from growdesk.commands.desk import Desk

WINDOW = "growdesk-window"
_ENTRY = f"applications/{APPLICATION_ID}.desktop"
_QUOTED = str.maketrans({sign: f"\\{sign}" for sign in '"`$\\'} | {"%": "%%"})


class NoMenuError(GrowdeskError):
    """The platform keeps its menu in another way."""

    reference = "no-menu"


def run(arguments: Namespace, desk: Desk) -> None:  # noqa: ARG001 -- commands share one form
    """Write the entry and its icons, or remove them, and say where."""
    if sys.platform.startswith(("win32", "darwin")):
        raise NoMenuError(
            tr("growdesk: this menu entry is for Linux."),
            tr("Here, make a shortcut to {program}.").format(program=_program()[0]),
        )
    share = _share()
    if arguments.remove:
        _remove(share)
        return
    program = _program()
    written = entry_text(program)
    for source, target in _icons(share):
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(source, target)
    (share / _ENTRY).parent.mkdir(parents=True, exist_ok=True)
    (share / _ENTRY).write_text(written, encoding="utf-8")
    _touch_icons(share)
    output.say(
        tr("The menu entry is in {file}; its icons are under {folder}.").format(
            file=share / _ENTRY, folder=share / "icons"
        )
    )
    output.say(tr("It starts {program}.").format(program=" ".join(program)))
    output.say(tr("Take it away again with: growdesk desktop-entry --remove"))


def entry_text(program: Sequence[str]) -> str:
    """Give the shipped entry as it starts ``program``, a path with its arguments.

    Raises InputError where no entry can name the path.
    """
    path = program[0]
    if "=" in path or not path.isprintable():
        raise InputError(
            "desktop-entry",
            path,
            tr("holds a sign that no menu entry can name"),
            tr("Install growdesk in a folder with a plain name."),
        )
    ours = {
        "Exec": _escaped(" ".join(f'"{part.translate(_QUOTED)}"' for part in program)),
        "TryExec": _escaped(path),
    }
    shipped = (_shipped() / _ENTRY).read_text(encoding="utf-8").splitlines()
    lines = (
        f"{key}={ours[key]}" if (key := line.partition("=")[0]) in ours else line
        for line in shipped
    )
    return "".join(f"{line}\n" for line in lines)


def _escaped(text: str) -> str:
    """Give a value of type string as it stands in a file (section 4)."""
    return text.replace("\\", "\\\\")


def _program() -> list[str]:
    """Give what opens the window, as installed, frozen, or from a checkout."""
    frozen = getattr(sys, "frozen", False)
    name = f"{WINDOW}.exe" if sys.platform.startswith("win32") else WINDOW
    started = Path(sys.executable if frozen else sys.argv[0]).absolute()
    for folder in (started.parent, Path(sysconfig.get_path("scripts"))):
        if (folder / name).is_file():
            return [str(folder / name)]
    return [sys.executable] if frozen else [sys.executable, "-m", "growdesk"]


def _share() -> Path:
    """Give the user's data folder; one that is not absolute counts as not given."""
    given = Path(os.environ.get("XDG_DATA_HOME", ""))
    return given if given.is_absolute() else Path.home() / ".local" / "share"


def _shipped() -> Path:
    return assets.path("linux/share")


def _icons(share: Path) -> Iterator[tuple[Path, Path]]:
    """Give each icon as shipped, and where a user's own goes."""
    shipped = _shipped()
    for source in sorted((shipped / "icons").rglob(f"{APPLICATION_ID}.*")):
        yield source, share / source.relative_to(shipped)


def _touch_icons(share: Path) -> None:
    """Let desktops see that icons changed: they ask the theme's folder for its time."""
    folder = share / "icons" / "hicolor"
    if folder.is_dir():
        os.utime(folder)


def _remove(share: Path) -> None:
    there = [
        path
        for path in (share / _ENTRY, *(target for _, target in _icons(share)))
        if path.exists()
    ]
    for path in there:
        path.unlink()
    _touch_icons(share)
    told = (
        tr("The menu entry and its icons are gone from {folder}.")
        if there
        else tr("There is no menu entry of growdesk in {folder}.")
    )
    output.say(told.format(folder=share))
