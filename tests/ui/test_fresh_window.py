"""A fresh process: nothing heavy before the first paint, and no lost references."""

from __future__ import annotations

import os
import subprocess
import sys

SOAK = """
import sys
from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QApplication, QLabel

class Bell(QObject):
    rang = Signal(object)

app = QApplication([])
label, bell, heard = QLabel(), Bell(), []
bell.rang.connect(heard.append)
before = sys.getrefcount(None)
for number in range(20_000):
    label.setText(str(number))
for number in range(20_000):
    bell.rang.emit(number)
lost = before - sys.getrefcount(None)
assert len(heard) == 20_000
print(lost)
sys.exit(0 if lost <= 100 else 3)
"""

FIRST_PAINTS = """
import sys, pathlib, tempfile
from growdesk.services.collection import Collection
from growdesk.services.values import PlantDraft
from growdesk.ui.start import application
from growdesk.ui.window import Window
app = application()
with tempfile.TemporaryDirectory() as made:
    collection = Collection.open(pathlib.Path(made), create=True)
    collection.plants.add(PlantDraft("A1", "Phal. amabilis", "phalaenopsis"))
    window = Window(collection)
    window.show()
    for face in ("day", "collection", "calendar"):
        window.faces.go(face)
        while window.desk.view is None or window.tasks.is_busy:
            app.processEvents()
        app.processEvents()
        assert window.faces.shown == face, window.faces.shown
    heavy = {
        *("pint", "matplotlib", "numpy", "scipy", "PIL"),
        *("icalendar", "segno", "pillow_heif", "PySide6.QtNetwork"),
        *("growdesk.services." + each for each in (
            *("backup_overview", "care_of_files", "daily_backup", "full_check"),
            *("rescuing", "restoring", "second_place"),
        )),
    } & set(sys.modules)
    window.close()
print(sorted(heavy))
"""


def run(program: str, folder: os.PathLike[str]) -> subprocess.CompletedProcess[str]:
    given = {"QT_QPA_PLATFORM": "offscreen", "XDG_CONFIG_HOME": str(folder)}
    return subprocess.run(
        [sys.executable, "-c", program],
        env={**os.environ, **given},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )


def test_no_reference_is_lost_in_forty_thousand_calls(
    tmp_path: os.PathLike[str],
) -> None:
    ended = run(SOAK, tmp_path)
    assert ended.returncode == 0, ended.stdout + ended.stderr


def test_nothing_heavy_is_loaded_for_day_collection_and_calendar(
    tmp_path: os.PathLike[str],
) -> None:
    ended = run(FIRST_PAINTS, tmp_path)
    assert ended.returncode == 0, ended.stderr
    assert ended.stdout.strip() == "[]"
