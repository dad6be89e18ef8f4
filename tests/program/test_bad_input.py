"""Bad input ends with code 2 and exactly one plain line, whatever was wrong."""

from __future__ import annotations

import io
import json
import sys
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk, Run

SUN = ("sun", "--latitude", "48.2")
DOSE = ("dose", "--analysis", "20-20-20", "--target", "150 ppm N", "--water", "5 L")


def changed(option: str, value: str) -> tuple[str, ...]:
    """Give the good dose with one option's value replaced."""
    at = DOSE.index(option)
    return (*DOSE[: at + 1], value, *DOSE[at + 2 :])


COMMAND_LINES: list[tuple[tuple[str, ...], tuple[str, ...]]] = [
    (("feed-them",), ("feed-them", "decide")),
    (("--frobnicate",), ("--frobnicate",)),
    (("decide", "--colour"), ("--colour",)),
    (("decide", "--on"), ("--on", "expected one argument")),
    (("decide", "--fact", "x.json"), ("--fact",)),
    (("decide", "extra"), ("extra",)),
    (("--collection",), ("--collection",)),
    (("decide", "--on", "2026-02-30"), ("--on", "2026-02-30", "exists")),
    (("decide", "--on", "yesterday"), ("--on", "yesterday", "year-month-day")),
    (("decide", "--on", "20260228"), ("--on", "20260228")),
    (("decide", "--on", "9999-12-31"), ("--on", "9999-12-31")),
    (("plan", "--on", "2026-13-01"), ("--on", "2026-13-01")),
    (("sheet", "--week", "2026-W09", "--pdf", "x.pdf"), ("--week", "2026-W09")),
    (("sheet", "--week", "2026-03-28"), ("--pdf",)),
    (("sheet", "--pdf", "x.pdf", "--paper", "A0"), ("--paper", "A0")),
    (("sheet", "--pdf", "no/such/folder/x.pdf"), ("--pdf", "folder")),
    (("sheet", "--pdf", "."), ("--pdf", "is a folder")),
    (("look-list", "--on", "2026-03-28"), ("--pdf",)),
    (("look-list", "--pdf", "."), ("--pdf", "look-list.pdf")),
    (("sun", "--on", "2026-01-01"), ("--latitude",)),
    (("sun", "--latitude", "91"), ("--latitude", "91", "-90 to 90")),
    (("sun", "--latitude", "-90.5"), ("--latitude", "-90.5")),
    (("sun", "--latitude", "nan"), ("--latitude", "nan")),
    (("sun", "--latitude", "inf"), ("--latitude", "inf")),
    (("sun", "--latitude", "north"), ("--latitude", "north")),
    (("sun", "--latitude", "4_8"), ("--latitude", "4_8")),
    (("sun", "--latitude", ""), ("--latitude",)),
    (("sun", "--latitude", "9" * 500), ("--latitude",)),
    ((*SUN, "--on", "2026-02-29"), ("--on", "2026-02-29")),
    ((*SUN, "--on", ""), ("--on",)),
    (DOSE[:5], ("--water",)),
    (("dose",), ("--analysis",)),
    (changed("--analysis", "50-50-50"), ("--analysis", "50-50-50")),
    (changed("--analysis", "20-20"), ("--analysis", "20-20")),
    (changed("--analysis", "nan-20-20"), ("--analysis",)),
    (changed("--analysis", "0-10-10"), ("N",)),
    (changed("--target", "150"), ("--target", "150")),
    (changed("--target", "-150 ppm N"), ("--target",)),
    (changed("--target", "150 ppm unobtainium"), ("--target",)),
    (changed("--water", "5"), ("--water", "unit")),
    (changed("--water", "0 L"), ("--water",)),
    (changed("--water", "-5 L"), ("--water", "-5 L")),
    (changed("--water", "nan L"), ("--water",)),
    (changed("--water", "5 kg"), ("--water", "5 kg")),
    (changed("--water", "1e30 L"), ("--water",)),
    (changed("--water", "5 L\n6 L"), ("--water",)),
    ((*DOSE, "--density", "12 g"), ("--density",)),
    ((*DOSE, "--density", "0 g/mL"), ("--density",)),
    (("ec",), ("--salts",)),
    (("ec", "--salts", "no-such.json"), ("--salts", "no-such.json")),
    (("decide", "--facts", "no-such.json"), ("--facts", "no-such.json")),
    (("plan", "--facts", "."), ("--facts", "is a folder")),
    (("plan", "--facts", "a\0b"), ("--facts",)),
    (("plan", "--facts", ""), ("--facts", "names no file")),
    (("ec", "--salts", ""), ("--salts", "names no file")),
    (("mix", "--strength", "120 ppm N"), ("--recipe",)),
    (("mix", "--recipe", "no-such.json"), ("--strength",)),
    (
        ("mix", "--recipe", "no-such.json", "--strength", "120 ppm N"),
        ("--recipe", "no-such.json"),
    ),
    (
        ("mix", "--recipe", "x.json", "--strength", "120 ppm K"),
        ("--strength", "120 ppm K", "nitrogen"),
    ),
    (("decide", "--facts", "x.json", "--demo"), ("--facts", "x.json", "--demo")),
    (("--demo", "plan", "--facts", "x.json"), ("--facts", "x.json", "--demo")),
    (("--collection", "c", "plan", "--facts", "x"), ("--facts", "--collection")),
    (("decide", "--facts", "f" * 4000), ("--facts", "fff…fff")),
    (("--collection", "c" * 250, "decide"), ("ccc…ccc",)),
    (("decide", "--on", "2201-01-01", "--demo"), ("--on", "1900 and 2200")),
    (("import", "."), ("no whole export", "growdesk.json")),
    (("restore", "."), ("is not a growdesk backup",)),
    (("restore", "2026-11-24"), ("FILE", "is the day of no kept backup")),
    (("restore", "a.zip", "--into", "/"), ("--into", "holds something")),
    (changed("--target", "150 ppm Mg"), ("--target", "Mg", "holds none")),
    (("import",), ("FILE.csv",)),
    (("export",), ("DIR",)),
    (("backup", "a.zip", "b.zip"), ("b.zip",)),
    (("restore",), ("FILE",)),
    (("restore", "no-such.zip"), ("no-such.zip", "is not there")),
    (("--demo", "decide", "--collection", "x"), ("--collection", "--demo")),
    (("restore", "no-such.zip", "--demo"), ("--demo",)),
]


@pytest.fixture
def in_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Work in an empty folder, with a data folder of its own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("arguments", "told"),
    COMMAND_LINES,
    ids=[" ".join(a)[:50] for a, _ in COMMAND_LINES],
)
@pytest.mark.usefixtures("in_empty_folder")
def test_a_bad_command_line_is_one_plain_line(
    growdesk: Growdesk, arguments: tuple[str, ...], told: tuple[str, ...]
) -> None:
    run = growdesk(*arguments)
    for part in told:
        assert part in run.refusal
    assert run.out == ""
    assert len(run.refusal) < 700


FACTS_TEXTS: list[tuple[str, tuple[str, ...]]] = [
    ("", ("line 1, column 1",)),
    ("{", ("line 1",)),
    ('{"plants": [NaN]}', ("NaN",)),
    ('{"plants": [], "plants": []}', ("twice",)),
    ("[]", ("facts",)),
    ('{"plants": 3}', ("plants", "3")),
    ('{"plants": [{"tag": "A1", "colour": "red"}]}', ("A1", "colour")),
    ('{"plants": [{"tag": "A1"}, {"tag": "A1"}]}', ("A1", "another")),
    (
        (
            '{"plants": [{"tag": "A1", "looks": [{"on": "2026-01-20"},'
            ' {"on": "2026-01-21"}, {"on": "2026-01-20"}]}]}'
        ),
        ("plant A1, looks", "2026-01-20", "two looks"),
    ),
    ('{"plants": [{"name": "Cattleya"}]}', ("tag",)),
    ('{"plants": [{"tag": "A1", "pot_volume_l": -1}]}', ("A1", "pot_volume_l", "-1")),
    ('{"plants": [{"tag": "A1", "pot_volume_l": 1e999}]}', ("A1", "pot_volume_l")),
    ('{"plants": [{"tag": "A1", "looks": [{"on": "2026-02-30"}]}]}', ("2026-02-30",)),
    ('{"house": {"latitude": 123}, "plants": []}', ("latitude", "123")),
    ('{"house": {"jugs": 0}, "plants": []}', ("jugs", "0")),
    ('{"house": {"wifi": 1}, "plants": []}', ("house", "wifi")),
    ("[" * 200_000, ("nested",)),
]


@pytest.mark.parametrize("command", ["decide", "plan"])
@pytest.mark.parametrize(
    ("text", "told"), FACTS_TEXTS, ids=[t[:40] for t, _ in FACTS_TEXTS]
)
def test_a_bad_facts_file_is_one_plain_line(
    growdesk: Growdesk, tmp_path: Path, command: str, text: str, told: tuple[str, ...]
) -> None:
    path = tmp_path / "facts.json"
    path.write_text(text, encoding="utf-8")
    refusal = growdesk(command, "--facts", path, "--on", "2026-01-28", "--json").refusal
    for part in told:
        assert part in refusal


def test_a_facts_file_that_is_not_utf_8_is_one_plain_line(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    path = tmp_path / "facts.json"
    path.write_bytes('{"plants": [{"tag": "Ä"}]}'.encode("latin-1"))
    assert "UTF-8" in growdesk("decide", "--facts", path).refusal


def test_bad_standard_input_is_called_so(
    growdesk: Growdesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"{]")))
    assert "standard input" in growdesk("decide", "--facts", "-").refusal


def test_an_unknown_tag_is_one_plain_line(growdesk: Growdesk, facts_file: Path) -> None:
    refusal = growdesk("decide", "--facts", facts_file, "--tag", "Z9").refusal
    assert "--tag" in refusal
    assert "Z9" in refusal


SALTS: list[tuple[object, tuple[str, ...]]] = [
    ([], ("salts",)),
    ({}, ("salts_g_per_l",)),
    ({"salts_g_per_l": {"XyZ9": 1}}, ("XyZ9",)),
    ({"salts_g_per_l": {"KNO3": -1}}, ("KNO3", "-1")),
    ({"salts_g_per_l": {"KNO3": "1"}}, ("KNO3",)),
    ({"salts_g_per_l": {"KNO3": True}}, ("KNO3",)),
    ({"salts_g_per_l": {"KNO3": 1}, "temperature_c": 99}, ("temperature_c", "99")),
    ({"salts_g_per_l": {"KNO3": 1}, "water_ec_ms_per_cm": -1}, ("water_ec",)),
    ({"salts_g_per_l": {"KNO3": 1}, "ph": 6}, ("ph",)),
    ({"salts_g_per_l": {"KNO3": None}}, ("KNO3: null",)),
    ({"salts_g_per_l": {"KNO3": True}}, ("KNO3: true",)),
    (None, ("salts: null",)),
]


@pytest.mark.parametrize(("salts", "told"), SALTS, ids=[str(s)[:40] for s, _ in SALTS])
def test_bad_salts_are_one_plain_line(
    growdesk: Growdesk, tmp_path: Path, salts: object, told: tuple[str, ...]
) -> None:
    path = tmp_path / "salts.json"
    path.write_text(json.dumps(salts), encoding="utf-8")
    refusal = growdesk("ec", "--salts", path, "--json").refusal
    for part in told:
        assert part in refusal


@pytest.mark.parametrize(
    "command",
    [
        ("decide",),
        ("plan", "--json"),
        ("sheet", "--pdf", "sheet.pdf"),
        ("look-list", "--pdf", "list.pdf"),
        ("export", "out"),
        ("backup", "backup.zip"),
        ("check",),
    ],
    ids=" ".join,
)
def test_no_collection_yet_says_how_to_start_one(
    growdesk: Growdesk, in_empty_folder: Path, command: tuple[str, ...]
) -> None:
    run = growdesk(*command)
    assert "There is no collection in" in run.refusal
    assert "--collection DIR" in run.refusal
    named = growdesk("--collection", "elsewhere", *command)
    assert "elsewhere" in named.refusal
    assert sorted(in_empty_folder.iterdir()) == []


def test_a_foreign_folder_is_left_as_it_is(
    growdesk: Growdesk, in_empty_folder: Path
) -> None:
    foreign = in_empty_folder / "collection.sqlite"
    foreign.write_text("a shopping list")
    for command in (("decide",), ("check",), ("backup", "../b.zip")):
        run: Run = growdesk("--collection", in_empty_folder, *command)
        assert "is not a growdesk collection" in run.refusal
    assert foreign.read_text() == "a shopping list"


def test_signs_that_move_the_cursor_never_reach_the_screen(
    growdesk: Growdesk,
) -> None:
    refusal = growdesk("decide", "--on", "\x1b[2J2026").refusal
    assert "\x1b" not in refusal


@pytest.mark.parametrize("text", ["", "{", '{"a": NaN}'])
def test_salts_that_are_not_json_name_their_option_and_show_an_example(
    growdesk: Growdesk, tmp_path: Path, text: str
) -> None:
    path = tmp_path / "salts.json"
    path.write_text(text, encoding="utf-8")
    refusal = growdesk("ec", "--salts", path).refusal
    assert refusal.startswith("--salts: ")
    assert '"salts_g_per_l": {"KNO3": 0.5}' in refusal
    assert "README" not in refusal


def test_a_file_that_never_ends_is_refused(
    growdesk: Growdesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("growdesk.commands.reading._MOST_BYTES", 1_000_000)
    refusal = growdesk("decide", "--facts", "/dev/zero").refusal
    assert "--facts" in refusal
    assert "is too large" in refusal


def test_standard_input_beyond_the_limit_is_refused_not_cut(
    growdesk: Growdesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("growdesk.commands.reading._MOST_BYTES", 20)
    for raw, told in (
        (b'{"plants": []}      ', ""),
        (b'{"plants": []}       ', "large"),
    ):
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(raw)))
        run = growdesk("decide", "--facts", "-")
        assert (run.code == 0) == (told == "")
        assert told in run.err
