"""What only a fresh process can show: what is loaded, streams, signals."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

from growdesk.commands import screen

HEAVY = (
    *("PySide6", "sqlalchemy", "matplotlib", "pint", "astral", "scipy.optimize"),
    *("PIL", "icalendar", "segno", "pillow_heif"),
)
PROBE = """
import sys
from growdesk.app import main
code = main(sys.argv[1:])
loaded = [name for name in {heavy} if name in sys.modules]
sys.stderr.write(",".join(loaded))
sys.exit(code)
"""
SALTS = '{"salts_g_per_l": {"KNO3": 0.5}}'


def run(
    *arguments: object, code: str | None = None, **environment: str
) -> subprocess.CompletedProcess[bytes]:
    """Run growdesk in a process of its own."""
    start = ["-m", "growdesk"] if code is None else ["-c", code]
    return subprocess.run(
        [sys.executable, *start, *map(str, arguments)],
        capture_output=True,
        check=False,
        timeout=120,
        env={**os.environ, **environment},
        cwd=Path(__file__).parents[2],
    )


@pytest.mark.parametrize(
    ("arguments", "allowed"),
    [
        (("decide", "--facts", "{facts}", "--on", "2026-01-28", "--json"), set()),
        (("plan", "--facts", "{facts}", "--on", "2026-01-28", "--json"), set()),
        (("sun", "--latitude", "48.2", "--on", "2026-06-21", "--json"), set()),
        (("ec", "--salts", "{salts}", "--json"), set()),
        (("stock", "--salts", "{salts}", "--json"), set()),
        (
            ("mix", "--recipe", "{recipe}", "--strength", "120 ppm N", "--json"),
            {"pint"},
        ),
        (("rules", "--json"), set()),
        (("name", "Phal. amabilis", "--json"), set()),
        (
            (
                *("dose", "--analysis", "20-20-20", "--target", "150 ppm N"),
                *("--water", "5 L", "--json"),
            ),
            {"pint"},
        ),
    ],
    ids=["decide", "plan", "sun", "ec", "stock", "mix", "rules", "name", "dose"],
)
def test_scripted_commands_load_neither_qt_nor_the_store(
    tmp_path: Path, facts_file: Path, arguments: tuple[str, ...], allowed: set[str]
) -> None:
    salts = tmp_path / "salts.json"
    salts.write_text(SALTS)
    recipe = tmp_path / "recipe.json"
    recipe.write_text('{"products": [{"formula": "KNO3"}]}')
    files = {"facts": facts_file, "salts": salts, "recipe": recipe}
    named = [argument.format(**files) for argument in arguments]
    done = run(*named, code=PROBE.format(heavy=HEAVY))
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)
    loaded = {name for name in done.stderr.decode().split(",") if name}
    assert loaded <= allowed


def test_output_is_utf_8_whatever_the_locale(facts_file: Path) -> None:
    done = run(
        *("decide", "--facts", facts_file, "--on", "2026-01-28"),
        LC_ALL="C",
        LANG="C",
        PYTHONUTF8="0",
        PYTHONCOERCECLOCALE="0",
        PYTHONIOENCODING="ascii",
    )
    assert done.returncode == 0, done.stderr
    assert "Fräulein Ærø" in done.stdout.decode("utf-8")


def test_a_bad_command_ends_with_code_2_and_one_line() -> None:
    done = run("sun", "--latitude", "north")
    assert done.returncode == 2
    assert done.stdout == b""
    assert done.stderr.count(b"\n") == 1
    assert b"Traceback" not in done.stderr


@pytest.mark.parametrize("paper", [(), ("--paper", "Letter")], ids=["own", "Letter"])
def test_the_sheet_needs_no_screen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, paper: tuple[str, ...]
) -> None:
    for sign in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(sign, raising=False)
    pdf = tmp_path / "sheet.pdf"
    done = run("--demo", "sheet", "--week", "2026-03-28", "--pdf", pdf, *paper)
    assert done.returncode == 0, done.stderr
    assert done.stderr == b""
    assert str(pdf) in done.stdout.decode()
    pages = PdfReader(pdf).pages
    assert "DO NOT WATER" in "".join(page.extract_text() for page in pages)
    width_pt = float(pages[0].mediabox.width)
    assert width_pt == pytest.approx(612, abs=1) or not paper


def test_the_window_without_a_screen_is_one_line(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for sign in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(sign, raising=False)
    if screen.screen_there():
        pytest.skip("this system always has a screen")
    done = run(code=PROBE.format(heavy=HEAVY))
    assert done.returncode == 2
    line, loaded = done.stderr.decode().split("\n")
    assert "growdesk --demo sheet --week" in line
    assert loaded == ""


@pytest.mark.skipif(sys.platform == "win32", reason="a pipe breaks otherwise there")
def test_a_reader_that_goes_away_is_no_fault(facts_file: Path) -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "growdesk", "decide", "--facts", str(facts_file)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=Path(__file__).parents[2],
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(timeout=60) == 141


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a full device")
def test_a_full_disk_is_one_plain_line() -> None:
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "growdesk", "sun", "--latitude", "1"],
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
            timeout=60,
            cwd=Path(__file__).parents[2],
        )
    assert done.returncode == 2
    assert done.stderr.decode() == "growdesk: No space left on device.\n"
