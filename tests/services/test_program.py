"""What the program is made of is told as it runs."""

from __future__ import annotations

import sqlite3
from importlib import metadata
from typing import TYPE_CHECKING

from growdesk import __version__
from growdesk.services import program
from growdesk.store.migrations import MIGRATIONS

if TYPE_CHECKING:
    import pytest


def test_versions_are_those_that_run() -> None:
    told = program.program()
    assert told.growdesk == __version__
    assert told.sqlite == sqlite3.sqlite_version
    assert told.data_form == MIGRATIONS[-1].number
    versions = {each.name: each.version for each in told.libraries}
    for name in ("PySide6-Essentials", "SQLAlchemy", "matplotlib"):
        assert versions[name] == metadata.version(name)


def test_each_licence_is_one_short_line() -> None:
    libraries = {each.name: each.licence for each in program.program().libraries}
    assert "LGPL-3.0" in libraries["PySide6-Essentials"]
    assert libraries["SQLAlchemy"] == "MIT"
    for licence in libraries.values():
        assert licence
        assert "\n" not in licence
        assert len(licence) <= 70


def test_a_library_that_is_not_there_is_left_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(program, "LIBRARIES", ("no-such-library", "SQLAlchemy"))
    assert [each.name for each in program.program().libraries] == ["SQLAlchemy"]
