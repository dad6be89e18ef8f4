"""Tells whether there is a screen to open a window on. It does not ask Qt."""

from __future__ import annotations

import os
import sys

_SIGNS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
_ALWAYS = ("win32", "darwin")


def screen_there() -> bool:
    """Tell whether a window can be opened; Windows and macOS always have a screen."""
    if sys.platform.startswith(_ALWAYS):
        return True
    return any(os.environ.get(sign) for sign in _SIGNS)
