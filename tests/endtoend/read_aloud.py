"""Run growdesk as it is started, and write down what a screen reader would read.

Several times a second what is in sight goes to a file: the active window's title, what
has the focus, and every name and value of the accessible tree. It reads and does
nothing else; whoever drives the program has only the keyboard.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QApplication, QWidget

from growdesk.app import main
from growdesk.ui.start import application

if TYPE_CHECKING:
    from collections.abc import Iterator

_EVERY_MS = 60
_NAME, _VALUE = QAccessible.Text.Name, QAccessible.Text.Value


def in_sight() -> dict[str, object]:
    """Give what can be read now."""
    window = QApplication.activeWindow()
    held = QApplication.focusWidget()
    tops = [each for each in QApplication.topLevelWidgets() if each.isVisible()]
    return {
        "title": "" if window is None else window.windowTitle(),
        "windows": [each.windowTitle() for each in tops],
        "focus": "" if held is None else _focus_name(held),
        "text": "\n".join(text for each in tops for text in _texts(each)),
    }


def _focus_name(held: QWidget) -> str:
    return QAccessible.queryAccessibleInterface(held).text(_NAME)


def _texts(window: QWidget) -> Iterator[str]:
    yield from _below(QAccessible.queryAccessibleInterface(window))


def _below(node: QAccessibleInterface) -> Iterator[str]:
    if node.state().invisible:
        return
    for sort in (_NAME, _VALUE):
        text = node.text(sort)
        if text:
            yield text
    for number in range(node.childCount()):
        child = node.child(number)
        if child.isValid():
            yield from _below(child)


def _write(file: Path) -> None:
    half = file.with_suffix(".half")
    half.write_text(json.dumps(in_sight()), encoding="utf-8")
    half.replace(file)


if __name__ == "__main__":
    app = application()
    timer = QTimer(app)
    timer.timeout.connect(lambda: _write(Path(sys.argv[1])))
    timer.start(_EVERY_MS)
    sys.exit(main(sys.argv[2:]))
