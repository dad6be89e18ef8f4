"""A watering day from an empty folder to its sum, by the keyboard alone.

The program runs as a process of its own on a virtual X screen. Keys go to the X server,
the screen is read as a screen reader reads it, and the folder is asked afterwards.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pypdf
import pytest
from sqlalchemy import func, select

from growdesk.domain.facts import CareKind
from growdesk.services.clock import SystemClock
from growdesk.services.collection import Collection
from growdesk.store.schema import CareRow, DrawnRow, LookRow, PlantRow
from tests.endtoend.x_keys import Keyboard, libraries_there

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

HERE: Final = Path(__file__).parent
PATIENCE_S: Final = 30.0
XVFB: Final = shutil.which("Xvfb") or ""

needs_screen = pytest.mark.skipif(
    not XVFB or not libraries_there(),
    reason="no Xvfb, libX11 and libXtst here: real keys need a virtual X screen",
)


@dataclass
class Seen:
    """What can be read on the screen at a moment."""

    title: str
    windows: list[str]
    focus: str
    text: str


class Grower:
    """Somebody with a keyboard who reads the screen."""

    def __init__(self, keyboard: Keyboard, file: Path) -> None:
        self._keyboard = keyboard
        self._file = file

    def seen(self) -> Seen:
        """Read the screen as it is now."""
        if not self._file.is_file():
            return Seen("", [], "", "")
        return Seen(**json.loads(self._file.read_text(encoding="utf-8")))

    def wait(self, until: Callable[[Seen], bool], what: str) -> Seen:
        """Wait until something stands on the screen."""
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            self._keyboard.front()
            seen = self.seen()
            if until(seen):
                return seen
            time.sleep(0.05)
        seen = self.seen()
        raise AssertionError(
            f"waited for {what}; {seen.title!r} of {seen.windows} has the focus on "
            f"{seen.focus!r} and reads:\n{seen.text}"
        )

    def reads(self, text: str) -> Seen:
        """Wait until a text stands in sight."""
        return self.wait(lambda seen: text in seen.text, repr(text))

    def is_on(self, name: str) -> Seen:
        """Wait until what has the focus is called so."""
        return self.wait(lambda seen: name in seen.focus, f"the focus on {name!r}")

    def is_in(self, title: str) -> Seen:
        """Wait until a window of this title is the active one."""
        return self.wait(lambda seen: title in seen.title, f"the window {title!r}")

    def press(self, *keys: str) -> None:
        """Press keys one after another."""
        for each in keys:
            self._keyboard.press(each)

    def write(self, text: str) -> None:
        """Type over what stands in a field."""
        self._keyboard.press("ctrl+a")
        self._keyboard.write(text)


@pytest.fixture
def screen() -> Iterator[str]:
    """Give a virtual X screen of its own, with no window manager on it."""
    read, write = os.pipe()
    server = subprocess.Popen(
        [XVFB, "-displayfd", str(write), "-screen", "0", "1280x800x24"],
        pass_fds=[write],
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    try:
        with os.fdopen(read) as told:
            number = told.readline().strip()
        yield f":{number}"
    finally:
        server.terminate()
        server.wait(timeout=20)


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """Give a home where nothing of growdesk was ever kept."""
    return tmp_path / "home"


@pytest.fixture
def program(
    screen: str, home: Path, tmp_path: Path
) -> Iterator[subprocess.Popen[bytes]]:
    home.mkdir()
    environment = {
        **{k: v for k, v in os.environ.items() if not k.startswith(("QT_", "XDG_"))},
        "HOME": str(home),
        "DISPLAY": screen,
        "QT_QPA_PLATFORM": "xcb",
        "LANG": "C.UTF-8",
        "PYTHONPATH": str(HERE.parents[1]),
    }
    environment.pop("WAYLAND_DISPLAY", None)
    running = subprocess.Popen(
        [sys.executable, str(HERE / "read_aloud.py"), str(tmp_path / "seen.json")],
        env=environment,
        cwd=home,
    )
    try:
        yield running
    finally:
        if running.poll() is None:
            running.kill()
        running.wait(timeout=20)


@pytest.fixture
def grower(
    screen: str, program: subprocess.Popen[bytes], tmp_path: Path
) -> Iterator[Grower]:
    assert program.poll() is None
    keyboard = Keyboard(screen)
    yield Grower(keyboard, tmp_path / "seen.json")
    keyboard.close()


def fill_the_shelf(grower: Grower) -> None:
    """Write a place, a tin and a water down, each in the window of its own."""
    grower.press("ctrl+shift+l")
    grower.is_in("Places")
    grower.press("alt+n")
    grower.write("East window")
    grower.press("ctrl+Return")
    grower.reads("Undo: Place East window added")
    grower.press("Escape")
    grower.is_in("growdesk")
    grower.press("ctrl+shift+t")
    grower.is_in("Tins")
    grower.press("alt+n")
    grower.write("Blue tin")
    grower.press("Tab")
    grower.write("20-20-20")
    grower.press("ctrl+Return")
    grower.reads("Undo: Tin Blue tin added")
    grower.press("Escape")
    grower.is_in("growdesk")
    grower.press("ctrl+shift+w")
    grower.is_in("Waters")
    grower.press("alt+k")
    grower.press("r")
    grower.press("ctrl+Return")
    grower.reads("Undo: Water rain added")
    grower.press("Escape")
    grower.is_in("growdesk")


def add_the_plant(grower: Grower) -> None:
    """Add a plant in a pot at the place, named so that its kind is known."""
    grower.press("Insert")
    grower.is_in("plant")
    grower.press("alt+n")
    grower.write("Cattleya intermedia")
    grower.press("alt+p")
    grower.press("e")
    grower.press("alt+o")
    grower.write("1.5 L")
    grower.press("ctrl+Return")


def record_the_look(grower: Grower) -> None:
    """Say by letters that a growth is on the way and root tips are running."""
    grower.is_in("Look at A1")
    grower.press("alt+n")
    grower.press("Tab")
    grower.write("1")
    grower.press("alt+r")
    grower.press("r")
    grower.press("ctrl+Return")


@needs_screen
def test_a_watering_day_by_keyboard_alone(
    grower: Grower, program: subprocess.Popen[bytes], home: Path, tmp_path: Path
) -> None:
    grower.reads("No plants yet.")
    grower.is_on("Add the first plant")
    fill_the_shelf(grower)
    add_the_plant(grower)
    record_the_look(grower)
    grower.reads("Mix 1 jug of feed")
    grower.press("F8")
    grower.is_on("To mix")
    grower.reads("Blue tin")

    sheet = tmp_path / "sheet.pdf"
    grower.press("ctrl+shift+s")
    grower.is_in("Save the sheet")
    grower.write(str(sheet))
    grower.press("Return")
    grower.reads(f"Saved {sheet}")

    grower.is_in("growdesk")
    grower.press("F6", "space")
    grower.reads("All done: 1 fed.")
    grower.press("F12")
    grower.reads("1 plant was fed: A1.")
    grower.is_on("Back to the list")
    grower.press("ctrl+z")
    grower.reads("Undone: ")
    grower.reads("1 plant is still to do: A1.")
    grower.press("ctrl+y")
    grower.reads("Done again: ")
    grower.reads("1 plant was fed: A1.")
    grower.press("ctrl+q")
    grower.wait(lambda _seen: program.poll() is not None, "the end of the program")
    assert program.returncode == 0

    folder = home / ".local/share/growdesk/collection"
    assert_kept(folder)
    text = " ".join(
        " ".join(page.extract_text().split()) for page in pypdf.PdfReader(sheet).pages
    )
    assert "A1" in text
    assert "Blue tin" in text
    assert "East window" in text


def assert_kept(folder: Path) -> None:
    """Hold that what was entered stands in the folder, and the shelf was drawn on."""
    collection = Collection.open_to_read(folder)
    today = SystemClock().today()
    try:
        view = collection.day.view(today)
        assert [(line.tag, line.place) for line in view.lines] == [
            ("A1", "East window")
        ]
        assert view.lines[0].done is not None
        assert collection.history.view().undo is not None
        with collection.ledger.reading() as session:
            plant = session.execute(select(PlantRow.__table__)).one()
            look = session.execute(select(LookRow.__table__)).one()
            care = session.execute(select(CareRow.__table__)).one()
            drawn = session.scalar(select(func.count()).select_from(DrawnRow))
            assert (plant.name, plant.pot_volume_l) == ("Cattleya intermedia", 1.5)
            assert (look.day, look.root_tips) == (today, "running")
            assert (care.day, care.what) == (today, CareKind.FEED)
            assert drawn == 2, "of the tin and of the water"
    finally:
        collection.close()
