"""Raise the window that has a collection open already, when it is started once more.

The only module that talks through a socket: one of this machine, for this account
alone, named by the folder (a file of Unix, a pipe of Windows). It carries one word each
way and nothing of the collection, and Qt's part for it is loaded when it is needed.
"""

from __future__ import annotations

import getpass
import hashlib
import time
from enum import Enum
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from growdesk.domain.errors import BusyError
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtNetwork import QLocalServer, QLocalSocket
    from PySide6.QtWidgets import QWidget

    from growdesk.services.collection import Collection

_RING, _HERE = b"growdesk: come to the front\n", b"growdesk: here\n"
_MOST_BYTES = 100
_CONNECT_MS, _ANSWER_MS = 1_000, 3_000
_PATIENCE_MS = 5_000
"""How long one who rang may say nothing."""
_WAIT_S, _AGAIN_S = 5.0, 0.1


class Answered(Enum):
    """What came of ringing: a window came, none was there, or it was silent."""

    HERE = "here"
    NOBODY = "nobody"
    SILENT = "silent"


def ring(folder: Path, answer_ms: int = _ANSWER_MS) -> Answered:
    """Ask the window that has a folder open to come to the front."""
    from PySide6.QtNetwork import QLocalSocket  # noqa: PLC0415 -- for a second start

    socket = QLocalSocket()
    socket.connectToServer(_name(folder))
    if not socket.waitForConnected(_CONNECT_MS):
        return Answered.NOBODY
    socket.write(_RING)
    came = socket.waitForBytesWritten(answer_ms) and socket.waitForReadyRead(answer_ms)
    is_here = came and socket.read(_MOST_BYTES).data() == _HERE
    socket.abort()
    return Answered.HERE if is_here else Answered.SILENT


def open_or_ring(
    folder: Path, opening: Callable[[], Collection], wait_s: float = _WAIT_S
) -> Collection | None:
    """Open a collection; where its window is open, raise that one and give nothing.

    A program that holds the folder and has no window is waited for a while.
    """
    until = time.monotonic() + wait_s
    while True:
        try:
            return opening()
        except BusyError as error:
            answered = ring(folder)
            if answered is Answered.HERE:
                return None
            if answered is Answered.SILENT:
                raise BusyError(
                    tr("The window that has {folder} open does not answer.").format(
                        folder=folder
                    ),
                    tr("Wait until it is done, or end it, and start again."),
                ) from error
            if time.monotonic() >= until:
                raise
        time.sleep(_AGAIN_S)


class Bell(QObject):
    """Answers those who start on the folder of this window once more."""

    rung = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._server: QLocalServer | None = None

    def hang(self, folder: Path) -> bool:
        """Answer for a folder from now on, and for no other; tell whether it can."""
        from PySide6.QtNetwork import QLocalServer  # noqa: PLC0415 -- not to start with

        self.take_down()
        name = _name(folder)
        server = QLocalServer(self)
        server.setSocketOptions(QLocalServer.SocketOption.UserAccessOption)
        QLocalServer.removeServer(name)  # of a program that was stopped
        server.newConnection.connect(partial(self._came, server))
        self._server = server
        return server.listen(name)

    def take_down(self) -> None:
        """Answer for no folder any more."""
        if self._server is not None:
            self._server.close()
            self._server.deleteLater()
            self._server = None

    def _came(self, server: QLocalServer) -> None:
        while server.hasPendingConnections():
            socket = server.nextPendingConnection()
            socket.readyRead.connect(partial(self._read, socket))
            socket.disconnected.connect(socket.deleteLater)
            QTimer.singleShot(_PATIENCE_MS, socket, socket.abort)
            if socket.bytesAvailable():
                self._read(socket)

    def _read(self, socket: QLocalSocket) -> None:
        if socket.bytesAvailable() < len(_RING):
            return
        if socket.read(_MOST_BYTES).data() != _RING:
            socket.abort()
            return
        socket.write(_HERE)
        socket.flush()
        self.rung.emit()


def come_to_the_front(window: QWidget) -> None:
    """Bring a window to the front, as far as the system lets a program do that."""
    window.setWindowState(window.windowState() & ~Qt.WindowState.WindowMinimized)
    window.show()
    window.raise_()
    window.activateWindow()


def _name(folder: Path) -> str:
    """Give the name of a folder's socket: short, and another for each account."""
    try:
        who = getpass.getuser()
    except (KeyError, OSError):
        who = ""
    told = f"{who}\n{folder.resolve()}".encode(errors="surrogateescape")
    return f"growdesk-{hashlib.sha256(told).hexdigest()[:24]}"
