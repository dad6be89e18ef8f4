"""Salts as a stock on the command line: clear or not, and the way out."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk


@pytest.fixture
def salts_file(tmp_path: Path) -> Path:
    return tmp_path / "salts.json"


def told(growdesk: Growdesk, file: Path, *options: str, **salts: Any) -> dict[str, Any]:
    file.write_text(json.dumps(salts))
    answer = growdesk("stock", "--salts", file, *options, "--json")
    assert isinstance(answer.json, dict)
    return answer.json


FEED = {"Ca(NO3)2.4H2O": 90, "KNO3": 40, "MgSO4.7H2O": 50, "KH2PO4": 27}


def test_what_falls_out_comes_with_its_bottles(
    growdesk: Growdesk, salts_file: Path
) -> None:
    found = told(growdesk, salts_file, salts_g_per_l=FEED)
    assert found["clear"] is False
    assert {each["rule"] for each in found["findings"]} == {
        "calcium-sulphate",
        "calcium-phosphate",
    }
    assert found["bottles"] == [["Ca(NO3)2.4H2O", "KNO3"], ["MgSO4.7H2O", "KH2PO4"]]
    assert found["coolest_c"] == 15
    assert found["most_g_per_l"]["KNO3"] == pytest.approx(193.7)


def test_a_weak_mix_stays_clear_in_any_of_its_litres(
    growdesk: Growdesk, salts_file: Path
) -> None:
    weak = {formula: grams / 100 for formula, grams in FEED.items()}
    found = told(growdesk, salts_file, salts_g_per_l=weak)
    assert (found["clear"], found["findings"], found["bottles"]) == (True, [], [])
    assert found["order"][-2].startswith("Last, when all is clear, stir in ")


def test_the_coolest_is_the_options_then_the_files(
    growdesk: Growdesk, salts_file: Path
) -> None:
    strong = {"KNO3": 180}
    assert told(growdesk, salts_file, salts_g_per_l=strong)["clear"]
    cool = told(growdesk, salts_file, "--coolest", "8", salts_g_per_l=strong)
    assert (cool["clear"], cool["coolest_c"]) == (False, 8)
    by_file = told(growdesk, salts_file, salts_g_per_l=strong, temperature_c=10)
    assert (by_file["clear"], by_file["coolest_c"]) == (False, 10)


def test_it_is_said_in_plain_lines(growdesk: Growdesk, salts_file: Path) -> None:
    salts_file.write_text(json.dumps({"salts_g_per_l": {"KNO3": 40}}))
    answer = growdesk("stock", "--salts", salts_file)
    assert answer.out.splitlines() == [
        "It stays clear.",
        "Judged by 80 % of what dissolves at 15 °C, to be safe.",
    ]
    salts_file.write_text(json.dumps({"salts_g_per_l": {"K2SO4": 100}}))
    answer = growdesk("stock", "--salts", salts_file)
    assert "Take more water: from 1.3 L on it stays clear." in answer.out


@pytest.mark.parametrize("coolest", ["0", "-4", "60", "cool"])
def test_a_temperature_that_cannot_be_meant_is_one_line(
    growdesk: Growdesk, salts_file: Path, coolest: str
) -> None:
    salts_file.write_text(json.dumps({"salts_g_per_l": {"KNO3": 40}}))
    answer = growdesk("stock", "--salts", salts_file, f"--coolest={coolest}")
    assert answer.code == 2
    assert answer.err.count("\n") == 1
    assert "--coolest" in answer.err
