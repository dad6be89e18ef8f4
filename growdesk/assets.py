"""Finds shipped files, both in an installed package and in a checkout.

Installed, ``resources`` and ``demo`` lie inside the package; in a checkout they lie
beside it. This module knows nothing of what the files hold.
"""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path


def _find(folder: str, name: str) -> Path:
    package = Path(str(files("growdesk")))
    tried = [root / folder / name for root in (package, package.parent)]
    for candidate in tried:
        if candidate.exists():
            return candidate
    places = " or ".join(str(candidate) for candidate in tried)
    message = f"growdesk's own file {name} is missing: looked for {places}"
    raise FileNotFoundError(message)


def path(name: str) -> Path:
    """Give where a file or folder of ``resources`` lies."""
    return _find("resources", name)


def demo_path(name: str) -> Path:
    """Give where a file or folder of ``demo`` lies."""
    return _find("demo", name)


def read_text(name: str) -> str:
    """Give the text of a file of ``resources``."""
    return path(name).read_text(encoding="utf-8")
