"""Open the window on the demo collection, save one picture of it, and close it.

The README's picture is made with this, and CI opens the window with it under a virtual
screen. ``--on`` sets the day that the demo is laid on.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from datetime import date
from pathlib import Path

from PySide6.QtCore import QTimer

from growdesk.services.clock import FixedClock, SystemClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.ui import theme
from growdesk.ui.start import application
from growdesk.ui.window import Window

SETTLED_MS = 2500


def main() -> int:
    """Save the picture; give 0 if it was written."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path)
    parser.add_argument("--width", type=int, default=1280)
    parser.add_argument("--height", type=int, default=800)
    parser.add_argument("--mode", choices=("light", "dark"), default="light")
    parser.add_argument("--on", type=date.fromisoformat)
    chosen = parser.parse_args()
    on = chosen.on or SystemClock().today()
    app = application()
    theme.current().choose(theme.Mode(chosen.mode))
    with tempfile.TemporaryDirectory(prefix="growdesk-demo-") as made:
        folder = lay_demo(Path(made) / "collection", on)
        window = Window(Collection.open(folder, FixedClock(on)), title="growdesk")
        window.resize(chosen.width, chosen.height)
        window.show()
        saved: list[bool] = []

        def save() -> None:
            chosen.out.parent.mkdir(parents=True, exist_ok=True)
            saved.append(window.grab().save(str(chosen.out)))
            window.close()
            app.quit()

        QTimer.singleShot(SETTLED_MS, save)
        app.exec()
    return 0 if saved == [True] else 1


if __name__ == "__main__":
    sys.exit(main())
