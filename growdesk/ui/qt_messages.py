"""Write what Qt complains of to the log, without what it may repeat of the grower's.

Of a message only its sort and the names of Qt's own classes in it are kept; it still
goes to standard error as it is, as it would without us.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from contextlib import suppress
from typing import Final

from PySide6 import QtCore, QtGui, QtWidgets
from PySide6.QtCore import QMessageLogContext, QtMsgType, qInstallMessageHandler

from growdesk.services.log_file import Key, log

_NAME: Final = re.compile(r"\bQ[A-Z]\w+(?:::\w+)?")
_CATEGORY: Final = re.compile(r"[a-z]+(\.[a-z0-9]+)*")
_times: Counter[str] = Counter()
_QUIET: Final = {QtMsgType.QtDebugMsg, QtMsgType.QtInfoMsg}
_SEVERE: Final = {QtMsgType.QtCriticalMsg, QtMsgType.QtFatalMsg}


def install() -> None:
    """Hear what Qt says from now on."""
    qInstallMessageHandler(heard)


def heard(kind: QtMsgType, context: QMessageLogContext, message: str) -> None:
    """Take one message of Qt's, on whichever thread."""
    with suppress(Exception):
        if kind not in _QUIET and _is_worth_a_line(message):
            write = log.error if kind in _SEVERE else log.warning
            write("Qt %s, %s: %s", Key(kind.name), _category(context), _names(message))
    with suppress(Exception):
        if sys.stderr is not None:
            sys.stderr.write(f"{message}\n")


def _is_worth_a_line(message: str) -> bool:
    """Tell the first of many alike, the tenth, the hundredth and so on."""
    _times[message] += 1
    return str(_times[message]).strip("0") == "1"


def _category(context: QMessageLogContext) -> Key:
    given = str(context.category or "")
    return Key(given if _CATEGORY.fullmatch(given) else "default")


def _names(message: str) -> Key:
    """Give the classes and methods of Qt that a message names."""
    found = [name for name in _NAME.findall(message) if _is_of_qt(name)]
    return Key(" ".join(dict.fromkeys(found)) or "no class named")


def _is_of_qt(name: str) -> bool:
    owner, _, method = name.partition("::")
    for module in (QtCore, QtGui, QtWidgets):
        kind = getattr(module, owner, None)
        if kind is not None:
            return not method or hasattr(kind, method)
    return False
