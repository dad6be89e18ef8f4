"""Give a folder for files that live as long as the program: icons, pasted pictures."""

from __future__ import annotations

import atexit
import shutil
import tempfile
from functools import cache
from pathlib import Path


@cache
def folder() -> Path:
    """Give the folder, made on first use and gone when the program ends."""
    made = Path(tempfile.mkdtemp(prefix="growdesk-"))
    atexit.register(shutil.rmtree, made, ignore_errors=True)
    return made


def new_file(name: str) -> Path:
    """Give a path in a folder of its own, so that no name is used twice."""
    return Path(tempfile.mkdtemp(dir=folder())) / name
