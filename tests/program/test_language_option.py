"""The command line speaks English, whatever the machine; ``--language`` changes it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from growdesk import assets
from growdesk.app import main
from growdesk.domain.speech import Manner, manner, speak
from tests.catalogue_files import write_catalogue

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture(autouse=True)
def _english_after() -> Iterator[None]:
    yield
    speak()


def decided(capsys: pytest.CaptureFixture[str], *given: str) -> str:
    assert main([*given, "--demo", "decide", "--json"]) == 0
    return capsys.readouterr().out


def test_the_machines_language_and_units_change_nothing(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    plain = decided(capsys)
    for name in ("LANG", "LC_ALL", "LC_NUMERIC", "LANGUAGE"):
        monkeypatch.setenv(name, "de_DE.UTF-8")
    speak(Manner(decimal=",", customary=True))
    assert decided(capsys) == plain
    json.loads(plain)


def test_a_language_asked_for_is_spoken(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    head = {"": "Content-Type: text/plain; charset=UTF-8\n"}
    write_catalogue(tmp_path / "locale/de", head, {("decimal sign", "."): ","})
    found = assets.path
    monkeypatch.setattr(
        assets,
        "path",
        lambda name: tmp_path / name if name == "locale" else found(name),
    )

    decided(capsys, "--language", "de")
    assert manner().decimal == ","


def test_a_language_that_is_not_ready_names_those_that_are(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["--language", "xx", "--demo", "decide"]) == 2
    told = capsys.readouterr().err
    assert "--language" in told
    assert "en" in told


def test_the_windows_language_is_chosen_in_the_window(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["--language", "en"]) == 2
    assert "Preferences" in capsys.readouterr().err
