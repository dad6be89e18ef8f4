"""The n-th operation on a file below a folder fails, whoever asks for it.

Python's own are met by its audit events, by files that count what is written, and by
wrappers where there is neither; SQLite's by the table of system calls that it keeps for
its own tests (sqlite.org/c3ref/vfs.html, xSetSystemCall), which ctypes reaches where
Python's module stands on the system's library.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import io
import os
import sys
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

_CHANGING = {
    "os.rename",
    "os.mkdir",
    "os.link",
    "os.symlink",
    "os.remove",
    "os.rmdir",
    "os.truncate",
}
_WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC


@dataclass
class Luck:
    """Which operation fails and how; ``whats`` are those that were met.

    ``reads`` counts the files that are opened to be read as well.
    """

    root: str = "\0"
    at: int = 0
    number: int = 0
    reads: bool = False
    armed: bool = False
    failed: str = ""
    whats: list[str] = field(default_factory=list)

    def is_due(self, what: str, path: object) -> bool:
        """Count an operation on a path; tell whether it is the one that fails."""
        if not self.armed or not self._is_ours(path):
            return False
        self.whats.append(what)
        if len(self.whats) != self.at:
            return False
        self.failed = f"{what} {path}"
        return True

    def come(self, what: str, path: object) -> None:
        """Count an operation; fail as the system would where it is the one."""
        if self.is_due(what, path):
            raise OSError(self.number, os.strerror(self.number), os.fspath(path))  # type: ignore[call-overload]

    def _is_ours(self, path: object) -> bool:
        if isinstance(path, int):
            path = _name_of(path)
        if not isinstance(path, str | bytes | os.PathLike):
            return False
        return os.path.abspath(os.fsdecode(path)).startswith(self.root)  # noqa: PTH100


_luck = Luck()


def _name_of(descriptor: int) -> str:
    try:
        return os.readlink(f"/proc/self/fd/{descriptor}")  # noqa: PTH115
    except OSError:
        return ""


# -- Python's own -------------------------------------------------------------------


def _watch(event: str, given: tuple[Any, ...]) -> None:
    if not _luck.armed:
        return
    if event == "open":
        path, _mode, flags = given
        if isinstance(path, int):
            return
        if isinstance(flags, int) and flags & _WRITES:
            _luck.come("open", path)
        elif _luck.reads:
            _luck.come("read", path)
    elif event in _CHANGING:
        place = 1 if event == "os.link" else 0
        _luck.come(event.removeprefix("os."), given[place])


class _Counting(io.FileIO):
    @override
    def write(self, content: Any) -> int:
        _luck.come("write", str(self.name))
        return super().write(content)


def _opened(
    file: Any, mode: str = "r", buffering: int = -1, *rest: Any, **more: Any
) -> Any:
    """Give a file as ``open`` does, with writes that are counted."""
    if not (_luck.armed and set(mode) & set("wax+") and _luck._is_ours(file)):
        return _open(file, mode, buffering, *rest, **more)
    raw = _Counting(file, mode.replace("b", "").replace("t", ""))
    made = (io.BufferedRandom if "+" in mode else io.BufferedWriter)(raw)
    return made if "b" in mode else io.TextIOWrapper(made, *rest, **more)


_open = io.open
_fsync, _write = os.fsync, os.write
_faster = {
    name: getattr(os, name)
    for name in ("sendfile", "copy_file_range", "posix_fallocate")
    if hasattr(os, name)
}


def _fsynced(descriptor: Any) -> None:
    number = descriptor if isinstance(descriptor, int) else descriptor.fileno()
    _luck.come("fsync", _name_of(number))
    _fsync(descriptor)


def _written(descriptor: int, content: Any) -> int:
    _luck.come("write", _name_of(descriptor))
    return _write(descriptor, content)


def _counted(name: str) -> Callable[..., Any]:
    place = 1 if name == "copy_file_range" else 0

    def call(*given: Any, **more: Any) -> Any:
        _luck.come(name, _name_of(given[place]))
        return _faster[name](*given, **more)

    return call


# -- SQLite's -----------------------------------------------------------------------


class _Vfs(ctypes.Structure):
    _fields_ = [
        ("iVersion", ctypes.c_int),
        ("szOsFile", ctypes.c_int),
        ("mxPathname", ctypes.c_int),
        ("pNext", ctypes.c_void_p),
        ("zName", ctypes.c_char_p),
        ("pAppData", ctypes.c_void_p),
        *((f"x{each}", ctypes.c_void_p) for each in range(13)),
        ("xSetSystemCall", ctypes.c_void_p),
        ("xGetSystemCall", ctypes.c_void_p),
    ]


_int, _long, _ptr = ctypes.c_int, ctypes.c_ssize_t, ctypes.c_void_p
_CALLS: dict[bytes, tuple[Any, ...]] = {
    b"pwrite64": (_long, _int, _ptr, ctypes.c_size_t, ctypes.c_int64),
    b"pwrite": (_long, _int, _ptr, ctypes.c_size_t, ctypes.c_int64),
    b"write": (_long, _int, _ptr, ctypes.c_size_t),
    b"ftruncate": (_int, _int, ctypes.c_int64),
    b"unlink": (_int, ctypes.c_char_p),
    b"open": (_int, ctypes.c_char_p, _int, _int),
}
_held: list[Any] = []
"""What SQLite may still call stays."""


def _hook_sqlite() -> bool:
    """Put counting calls into SQLite's table; tell whether that could be done."""
    loaded = Path("/proc/self/maps")
    if not loaded.exists() or "libsqlite3.so" not in loaded.read_text():
        return False
    found = next(
        line.split()[-1]
        for line in loaded.read_text().splitlines()
        if "libsqlite3.so" in line
    )
    library = ctypes.CDLL(found)
    library.sqlite3_vfs_find.restype = ctypes.POINTER(_Vfs)
    vfs = library.sqlite3_vfs_find(None)
    if not vfs or vfs.contents.iVersion < 3:
        return False
    put = ctypes.CFUNCTYPE(_int, _ptr, ctypes.c_char_p, _ptr)(
        vfs.contents.xSetSystemCall
    )
    get = ctypes.CFUNCTYPE(_ptr, _ptr, ctypes.c_char_p)(vfs.contents.xGetSystemCall)
    for name, (result, *arguments) in _CALLS.items():
        address = get(vfs, name)
        if address:
            form = ctypes.CFUNCTYPE(result, *arguments, use_errno=True)
            call = form(_failing(name.decode(), form(address)))
            _held.append(call)
            put(vfs, name, ctypes.cast(call, _ptr))
    return True


def _failing(name: str, real: Any) -> Callable[..., int]:
    def call(*given: Any) -> int:
        about: object = given[0]
        if name == "open" and not given[1] & _WRITES and not _luck.reads:
            about = None
        if about is not None and _luck.is_due(f"SQLite's {name}", about):
            ctypes.set_errno(_luck.number)
            return -1
        return int(real(*given))

    return call


_installed: list[bool] = []


def install() -> bool:
    """Count from now on; tell whether SQLite's operations are counted too.

    What is put in stays for the process, and does nothing but where luck is bad.
    """
    if not _installed:
        sys.addaudithook(_watch)
        _installed.append(_hook_sqlite())
    return _installed[0]


@contextmanager
def bad_luck(
    root: Path, at: int, number: int, *, reads: bool = False
) -> Iterator[Luck]:
    """Let the n-th operation below a folder fail inside the block; 0 fails none."""
    global _luck  # noqa: PLW0603 -- hooks stay for good, and ask this one
    import builtins  # noqa: PLC0415

    install()
    _luck = Luck(str(root.resolve()), at, number, reads)
    own: Any = os
    builtins.open = _opened
    io.open = _opened
    own.fsync, own.write = _fsynced, _written
    for name in _faster:
        setattr(os, name, _counted(name))
    _luck.armed = True
    try:
        yield _luck
    finally:
        _luck.armed = False
        builtins.open = io.open = _open
        own.fsync, own.write = _fsync, _write
        for name, real in _faster.items():
            setattr(os, name, real)
