"""Picture ten states of the window, light and dark, at two sizes, into a folder.

One process does it all on throw-away collections. ``--sheet`` makes one picture of
all of a size and scheme beside the others, to look them over; ``--only`` pictures
states by their names. The pictures have few colours, so that they stay small.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections import Counter
from datetime import date
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct
from PIL import Image
from PySide6.QtCore import QBuffer, QIODevice, QPoint, QRect, QSettings, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPixmap
from PySide6.QtWidgets import QApplication, QDialog
from screenshot import settle

from growdesk.services.clock import FixedClock, SystemClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui import theme
from growdesk.ui.start import application
from growdesk.ui.window import Window

if TYPE_CHECKING:
    from collections.abc import Callable

SIZES = ((1280, 800), (1920, 1080))
MODES = (theme.Mode.LIGHT, theme.Mode.DARK)
COLOURS = 96
"""The commonest colours of a picture, kept exactly; all others go to the nearest."""

BAR_PX = 26
SHOWN = "A1"
CHART_TAB = 4


class State(Struct, frozen=True):
    """One state of the window: its name, and what leads there from the one before."""

    name: str
    lead: Callable[[Window], object]
    is_first_run: bool = False


def tick(window: Window, share: float) -> None:
    """Tick the first part of the lines that can be done as planned."""
    lines = [line for line in window.day_list.model.lines if line.done is None]
    window.deeds.tick([line.plant_id for line in lines[: round(len(lines) * share)]])
    settle(window)


def pass_by_the_rest(window: Window) -> None:
    """Tick what is left, and pass by what waits for a look."""
    tick(window, 1.0)
    left = [line for line in window.day_list.model.lines if line.done is None]
    window.deeds.pass_by(left)


def chart(window: Window) -> None:
    """Show the chart of the plant in sight, in the day's list."""
    window.faces.go("day")
    go_to(window)
    window.detail.tabs.setCurrentIndex(CHART_TAB)


def go_to(window: Window) -> None:
    """Show the plant that the pictures are about."""
    plant_id = window.desk.collection.plants.find(SHOWN)
    if plant_id is not None:
        window.day_list.go_to(plant_id)


def face(key: str) -> Callable[[Window], object]:
    """Give what turns the window to a face."""
    return lambda window: window.faces.go(key)


def command(key: str) -> Callable[[Window], object]:
    """Give what does a command."""
    return lambda window: window.commands[key].trigger()


STATES = (
    State("first-run", lambda _window: None, is_first_run=True),
    State("watering-day", go_to),
    State("chart", chart),
    State("week", lambda window: back(window).faces.go("week")),
    State("calendar", face("calendar")),
    State("collection", face("collection")),
    State("recipes", command("recipes")),
    State("sheet", command("preview-sheet")),
    State("half-done", lambda window: tick(back(window), 0.5)),
    State("all-done", pass_by_the_rest),
)


def back(window: Window) -> Window:
    """Show the day's list and the plant's timeline again."""
    window.faces.go("day")
    window.detail.tabs.setCurrentIndex(0)
    settle(window)
    return window


def main() -> int:
    """Make the pictures; give 0 where all were written."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path)
    parser.add_argument("--on", type=date.fromisoformat)
    parser.add_argument("--only", nargs="*", choices=[each.name for each in STATES])
    parser.add_argument("--sheet", action="store_true")
    chosen = parser.parse_args()
    on = chosen.on or SystemClock().today()
    chosen.out.mkdir(parents=True, exist_ok=True)
    application()
    made: list[Path] = []
    with tempfile.TemporaryDirectory(prefix="growdesk-demo-") as folder:
        form, scope = QSettings.Format.IniFormat, QSettings.Scope.UserScope
        QSettings.setPath(form, scope, f"{folder}/preferences")
        for is_first_run in (True, False):
            states = [each for each in STATES if each.is_first_run is is_first_run]
            if chosen.only and not {each.name for each in states} & {*chosen.only}:
                continue
            window = open_on(Path(folder), on, is_empty=is_first_run)
            for state in states:
                state.lead(window)
                if not chosen.only or state.name in chosen.only:
                    made += picture(window, state.name, chosen.out)
                close_dialogs(window)
            window.close()
    if chosen.sheet:
        for size, mode in ((size, mode) for size in SIZES for mode in MODES):
            ending = f"{size[0]}-{mode}.png"
            of_these = [each for each in made if each.name.endswith(ending)]
            sheet(of_these, chosen.out / f"all-{ending}")
    print(f"{len(made)} pictures in {chosen.out}")
    return 0


def open_on(folder: Path, on: date, *, is_empty: bool) -> Window:
    """Open the window on an empty collection or on the demo."""
    where = folder / ("empty" if is_empty else "demo")
    if not is_empty:
        lay_demo(where, on)
    collection = Collection.open(where, FixedClock(on), create=is_empty)
    window = Window(collection, title="growdesk")
    window.show()
    settle(window)
    return window


def picture(window: Window, name: str, out: Path) -> list[Path]:
    """Picture the window as it stands, in each size and scheme."""
    made = []
    for wide, high in SIZES:
        window.resize(wide, high)
        for mode in MODES:
            theme.current().choose(mode)
            settle(window)
            file = out / f"{name}-{wide}-{mode}.png"
            keep(seen(window), file)
            made.append(file)
    return made


def seen(window: Window) -> QPixmap:
    """Give the window with the dialogs that stand over it, each under its title."""
    whole = window.grab()
    painter = QPainter(whole)
    for dialog in window.findChildren(QDialog):
        if dialog.isVisible():
            room = window.size() - QSize(2, 2 * BAR_PX)
            dialog.resize(dialog.size().boundedTo(room))
            aside = (window.size() - dialog.size()) / 2
            inner = QRect(QPoint(aside.width(), aside.height()), dialog.size())
            frame = inner.adjusted(-1, -BAR_PX, 0, 0)
            colours = theme.colours()
            painter.setPen(QColor(colours.edge))
            painter.setBrush(QColor(colours.band))
            painter.drawRect(frame)
            painter.setPen(QColor(colours.ink))
            bar = QRect(frame.x(), frame.y(), frame.width(), BAR_PX)
            centre = Qt.AlignmentFlag.AlignCenter
            painter.drawText(bar, centre, dialog.windowTitle())
            painter.drawPixmap(inner.topLeft(), dialog.grab())
    painter.end()
    return whole


def keep(pixmap: QPixmap, file: Path) -> None:
    """Write a picture in few colours."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    pixmap.save(buffer, "PNG")
    with Image.open(BytesIO(bytes(buffer.data().data()))) as whole:
        plain = whole.convert("RGB")
    counted = Counter(zip(*[iter(plain.tobytes())] * 3, strict=True))
    most = [colour for colour, _ in counted.most_common(COLOURS)]
    palette = Image.new("P", (1, 1))
    palette.putpalette([part for colour in most for part in colour])
    plain.quantize(palette=palette, dither=Image.Dither.NONE).save(file, optimize=True)


def sheet(files: list[Path], out: Path, columns: int = 2, wide: int = 960) -> None:
    """Lay pictures side by side on one."""
    if not files:
        return
    small = []
    for file in files:
        with Image.open(file) as whole:
            high = round(whole.height * wide / whole.width)
            small.append(whole.convert("RGB").resize((wide, high)))
    high = max(each.height for each in small)
    rows = -(-len(small) // columns)
    all_of_them = Image.new("RGB", (columns * (wide + 8), rows * (high + 8)), "#888")
    for number, each in enumerate(small):
        at = (number % columns * (wide + 8), number // columns * (high + 8))
        all_of_them.paste(each, at)
    all_of_them.save(out)


def close_dialogs(window: Window) -> None:
    """Close whatever stands over the window."""
    for dialog in window.findChildren(QDialog):
        if dialog.isVisible():
            dialog.reject()
    QApplication.processEvents()


if __name__ == "__main__":
    sys.exit(main())
