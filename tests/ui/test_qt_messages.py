"""What Qt complains of is in the log by its sort and classes, never by its words."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QMessageLogContext, QtMsgType

from growdesk.ui import qt_messages

if TYPE_CHECKING:
    from pathlib import Path

TYPED = "Tante Irmgards Laelia"
CRASH = """
import sys, platformdirs
from pathlib import Path
platformdirs.user_log_path = lambda *_, **__: Path(sys.argv[1])
from PySide6.QtCore import qCritical, qFatal, qWarning, qDebug
from growdesk.services import hard_ends, log_file
from growdesk.ui import qt_messages
log_file.start()
watch = hard_ends.Watch()
watch.begin()
qt_messages.install()
qDebug("QObject: Tante")
for _ in range(30):
    qWarning("QPixmap: cannot load /home/tante/Irmgard.jpg")
qCritical("QObject::connect of Tante to QueenOfTheNight and QHBoxLayout")
qFatal("Tante ends it in QPainter::begin")
"""


@pytest.mark.parametrize("kind", list(QtMsgType))
def test_no_word_of_a_message_is_kept(
    kind: QtMsgType,
    caplog: pytest.LogCaptureFixture,
    capsys: pytest.CaptureFixture[str],
) -> None:
    text = f"QLabel::setText {kind.name}: {TYPED} QTante QLabelOfTante"
    qt_messages.heard(kind, QMessageLogContext(), text)
    assert not [word for word in TYPED.split() if word in caplog.text]
    assert capsys.readouterr().err == f"{text}\n"


def test_warnings_and_fatal_faults_of_qt_are_in_the_log(tmp_path: Path) -> None:
    ended = subprocess.run(
        [sys.executable, "-c", CRASH, str(tmp_path)],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert ended.returncode != 0
    written = (tmp_path / "growdesk.log").read_text(encoding="utf-8")
    assert written.count("Qt QtWarningMsg, default: QPixmap") == 2
    assert "ERROR growdesk: Qt QtCriticalMsg, default: QObject::connect " in written
    assert "QHBoxLayout" in written
    assert "ERROR growdesk: Qt QtFatalMsg" in written
    for word in ("Tante", "Irmgard", "QueenOfTheNight", "/home"):
        assert word not in written
    (crash,) = tmp_path.glob("growdesk-open.*")
    assert "Fatal Python error" in crash.read_text(encoding="utf-8")
    assert "Tante" in ended.stderr
