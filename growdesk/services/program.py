"""What this program is made of: versions, where its form of data stands, licences."""

from __future__ import annotations

import platform
import re
import sqlite3
from importlib import metadata
from typing import Final

from msgspec import Struct

from growdesk import __version__
from growdesk.domain.speech import mark, tr
from growdesk.store.migrations import MIGRATIONS

LIBRARIES: Final = (
    "PySide6-Essentials",
    "shiboken6",
    "SQLAlchemy",
    "matplotlib",
    "numpy",
    "pint",
    "Pillow",
    "pillow-heif",
    "psycopg",
    "platformdirs",
    "astral",
    "icalendar",
    "segno",
    "typing_extensions",
    "tzdata",
)
"""What growdesk asks for by name, and what comes along that is large."""

_NOT_SAID: Final = mark("licence not told by its package")
_LONG: Final = 60
_CLASSIFIER: Final = re.compile(r"License :: (?:OSI Approved :: )?(.+)")


class Library(Struct, frozen=True):
    """A library that is installed: its name, version, and licence as it says it."""

    name: str
    version: str
    licence: str


class Program(Struct, frozen=True):
    """Versions that run here; ``data_form`` is the number of a collection's form."""

    growdesk: str
    python: str
    system: str
    sqlite: str
    data_form: int
    libraries: tuple[Library, ...]


def program() -> Program:
    """Give what runs here. Nothing of a collection is read."""
    return Program(
        growdesk=__version__,
        python=platform.python_version(),
        system=f"{platform.system()} {platform.release()} {platform.machine()}",
        sqlite=sqlite3.sqlite_version,
        data_form=MIGRATIONS[-1].number,
        libraries=tuple(
            found for found in map(_library, LIBRARIES) if found is not None
        ),
    )


def _library(name: str) -> Library | None:
    """Give a library, or nothing where it is not installed or not told of."""
    try:
        told = metadata.metadata(name)
    except metadata.PackageNotFoundError:
        return None
    return Library(name, told["Version"], _licence(told))


def _licence(told: metadata.PackageMetadata) -> str:
    """Give a licence in one line: its expression, else what the package has of it."""
    line = (_field(told, "License-Expression") or _field(told, "License")).strip()
    if line and len(line) <= _LONG and "\n" not in line:
        return line
    named = [
        found[1]
        for each in told.get_all("Classifier") or []
        if (found := _CLASSIFIER.match(each))
    ]
    return ", ".join(named) or tr(_NOT_SAID)


def _field(told: metadata.PackageMetadata, name: str) -> str:
    return next(iter(told.get_all(name) or ()), "")
