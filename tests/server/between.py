"""What stands between a program and a server, so that a test may cut their line."""

from __future__ import annotations

import socket
import threading
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


class Line:
    """Hands bytes on both ways, and counts how often something is asked."""

    def __init__(self, host: str, port: int) -> None:
        self.asked = 0
        self.is_cut = False
        self._to = host, port
        self._ends: list[socket.socket] = []
        self._door = socket.create_server(("127.0.0.1", 0))
        self.port = int(self._door.getsockname()[1])
        threading.Thread(target=self._let_in, daemon=True).start()

    def cut(self) -> None:
        """Cut all connections, and let none in until it is mended."""
        self.is_cut = True
        ends, self._ends = self._ends, []
        for end in ends:
            with suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)

    def mend(self) -> None:
        """Let connections in again."""
        self.is_cut = False

    def close(self) -> None:
        """Cut all, and let nothing in any more."""
        self.cut()
        self._door.close()

    def _let_in(self) -> None:
        with suppress(OSError):
            while True:
                near = self._door.accept()[0]
                if self.is_cut:
                    near.close()
                    continue
                far = socket.create_connection(self._to)
                self._ends += near, far
                for one, other in ((near, far), (far, near)):
                    one.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
                    hands = threading.Thread(
                        target=self._hand_on,
                        args=(one, other, one is near),
                        daemon=True,
                    )
                    hands.start()

    def _hand_on(self, one: socket.socket, other: socket.socket, counts: bool) -> None:
        with suppress(OSError):
            while content := one.recv(65536):
                self.asked += counts
                other.sendall(content)
        for end in (one, other):
            with suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)
            end.close()


@contextmanager
def line_to(host: str, port: int) -> Iterator[Line]:
    """Give a line to a server, which is closed at the end."""
    line = Line(host, port)
    try:
        yield line
    finally:
        line.close()
