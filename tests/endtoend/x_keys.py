"""Press real keys on an X screen, as a keyboard does, and hand them to the top window.

The keys go to the server (XTEST), which hands them to the window that has its focus. A
bare Xvfb has no window manager; ``Keyboard.front`` does the one thing of it that is
needed here and gives the focus to the topmost window.
"""

from __future__ import annotations

import ctypes
import ctypes.util
import time
from typing import Any, Final

_MODIFIERS: Final = {"ctrl": "Control_L", "shift": "Shift_L", "alt": "Alt_L"}
_SIGNS: Final = {
    " ": "space",
    ".": "period",
    "-": "minus",
    "/": "slash",
    ",": "comma",
    "_": "underscore",
    "'": "apostrophe",
}
_SHIFTED: Final = frozenset("_")
_VIEWABLE: Final = 2
_PAUSE_S: Final = 0.012


class _Attributes(ctypes.Structure):
    """XWindowAttributes of Xlib.h."""

    _fields_ = (
        ("x", ctypes.c_int),
        ("y", ctypes.c_int),
        ("width", ctypes.c_int),
        ("height", ctypes.c_int),
        ("border_width", ctypes.c_int),
        ("depth", ctypes.c_int),
        ("visual", ctypes.c_void_p),
        ("root", ctypes.c_ulong),
        ("class_", ctypes.c_int),
        ("bit_gravity", ctypes.c_int),
        ("win_gravity", ctypes.c_int),
        ("backing_store", ctypes.c_int),
        ("backing_planes", ctypes.c_ulong),
        ("backing_pixel", ctypes.c_ulong),
        ("save_under", ctypes.c_int),
        ("colormap", ctypes.c_ulong),
        ("map_installed", ctypes.c_int),
        ("map_state", ctypes.c_int),
        ("all_event_masks", ctypes.c_long),
        ("your_event_mask", ctypes.c_long),
        ("do_not_propagate_mask", ctypes.c_long),
        ("override_redirect", ctypes.c_int),
        ("screen", ctypes.c_void_p),
    )


def libraries_there() -> bool:
    """Tell whether the libraries that press keys are installed."""
    return all(ctypes.util.find_library(name) for name in ("X11", "Xtst"))


class Keyboard:
    """The keyboard of one X screen."""

    def __init__(self, display: str) -> None:
        self._x: Any = ctypes.CDLL(ctypes.util.find_library("X11"))
        self._test: Any = ctypes.CDLL(ctypes.util.find_library("Xtst"))
        self._x.XOpenDisplay.restype = ctypes.c_void_p
        self._x.XStringToKeysym.restype = ctypes.c_ulong
        self._x.XDefaultRootWindow.restype = ctypes.c_ulong
        self._handler = ctypes.CFUNCTYPE(
            ctypes.c_int, ctypes.c_void_p, ctypes.c_void_p
        )(
            lambda _display, _error: 0  # a window may be gone before it is asked
        )
        self._x.XSetErrorHandler(self._handler)
        self._display = ctypes.c_void_p(self._x.XOpenDisplay(display.encode()))
        if not self._display.value:
            raise OSError(f"no X screen answers at {display}")
        self._root = ctypes.c_ulong(self._x.XDefaultRootWindow(self._display))

    def front(self) -> None:
        """Give the focus to the topmost window that a window manager would manage."""
        for window in reversed(self._windows()):
            held = _Attributes()
            wanted = ctypes.c_ulong(window)
            self._x.XGetWindowAttributes(self._display, wanted, ctypes.byref(held))
            if held.map_state == _VIEWABLE and not held.override_redirect:
                self._x.XSetInputFocus(self._display, wanted, 1, 0)
                self._x.XSync(self._display, 0)
                return

    def press(self, keys: str) -> None:
        """Press one key with those held beside it, as ``ctrl+shift+Return``."""
        *held, name = keys.split("+")
        codes = [self._code(_MODIFIERS[each]) for each in held]
        for code in codes:
            self._key(code, down=True)
        self._tap(self._code(name))
        for code in reversed(codes):
            self._key(code, down=False)
        time.sleep(_PAUSE_S)

    def write(self, text: str) -> None:
        """Type a text, letter by letter."""
        shift = self._code("Shift_L")
        for letter in text:
            shifted = letter.isupper() or letter in _SHIFTED
            if shifted:
                self._key(shift, down=True)
            self._tap(self._code(_SIGNS.get(letter, letter.lower())))
            if shifted:
                self._key(shift, down=False)
            time.sleep(_PAUSE_S)

    def close(self) -> None:
        """Let go of the screen."""
        self._x.XCloseDisplay(self._display)

    def _windows(self) -> list[int]:
        """Give the windows on the screen, the topmost last."""
        root, parent, count = ctypes.c_ulong(), ctypes.c_ulong(), ctypes.c_uint()
        found = ctypes.POINTER(ctypes.c_ulong)()
        refs = [ctypes.byref(each) for each in (root, parent, found, count)]
        self._x.XQueryTree(self._display, self._root, *refs)
        windows = [int(found[number]) for number in range(count.value)]
        self._x.XFree(found)
        return windows

    def _code(self, name: str) -> int:
        keysym = ctypes.c_ulong(self._x.XStringToKeysym(name.encode()))
        code = int(self._x.XKeysymToKeycode(self._display, keysym))
        if not code:
            raise KeyError(name)
        return code

    def _tap(self, code: int) -> None:
        self._key(code, down=True)
        self._key(code, down=False)

    def _key(self, code: int, *, down: bool) -> None:
        self._test.XTestFakeKeyEvent(self._display, code, int(down), 0)
        self._x.XSync(self._display, 0)
