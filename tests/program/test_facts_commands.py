"""The commands that need no collection answer under their fixed keys."""

from __future__ import annotations

import io
import json
import sys
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

import pytest

from tests.program.conftest import FACTS, Growdesk

if TYPE_CHECKING:
    from pathlib import Path

VERDICTS = {"feed", "clear-water", "flush", "keep-dry", "look-first"}
WATERS = {"none", "sparing", "if-dry", "through"}
ROLES = {"decides", "supports", "not-a-reason", "unknown"}


def decided(growdesk: Growdesk, facts_file: Path) -> list[dict[str, Any]]:
    answer = growdesk("decide", "--facts", facts_file, "--on", "2026-01-28", "--json")
    assert isinstance(answer.json, list)
    return answer.json


def test_decide_has_the_fixed_keys_and_words(
    growdesk: Growdesk, facts_file: Path
) -> None:
    plants = decided(growdesk, facts_file)
    assert [plant["tag"] for plant in plants] == ["A1", "B2"]
    for plant in plants:
        assert set(plant) >= {
            "tag",
            "name",
            "verdict",
            "water",
            "strength_ppm_n",
            "volume_l",
            "reasons",
            "would_change",
        }
        assert plant["verdict"] in VERDICTS
        assert plant["water"] in WATERS
        assert {reason["role"] for reason in plant["reasons"]} <= ROLES
        assert plant["reasons"][0]["role"] == "decides"
        for reason in plant["reasons"]:
            assert set(reason) >= {"rule", "role", "sentence"}
        assert all(set(change) >= {"sentence"} for change in plant["would_change"])


def test_decide_gives_a_strength_only_where_it_feeds(
    growdesk: Growdesk, facts_file: Path
) -> None:
    fed, not_fed = decided(growdesk, facts_file)
    assert (fed["verdict"], fed["water"]) == ("feed", "through")
    assert 30 <= fed["strength_ppm_n"] <= 300
    assert fed["volume_l"] == pytest.approx(0.375)
    assert any(
        reason["role"] == "not-a-reason" and "flower" in reason["sentence"]
        for reason in fed["reasons"]
    )
    assert not_fed["verdict"] == "look-first"
    assert not_fed["strength_ppm_n"] is None


def test_decide_says_that_a_kind_is_unknown(
    growdesk: Growdesk, facts_file: Path
) -> None:
    unknown = decided(growdesk, facts_file)[1]
    said = [reason for reason in unknown["reasons"] if reason["role"] == "unknown"]
    assert any("unheard-of" in reason["sentence"] for reason in said)


def test_decide_takes_the_kind_from_the_name(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    path = tmp_path / "facts.json"
    facts = {"plants": [{"tag": "1", "name": "Phalaenopsis amabilis"}]}
    path.write_text(json.dumps(facts), encoding="utf-8")
    (plant,) = decided(growdesk, path)
    assert not [reason for reason in plant["reasons"] if reason["rule"] == "kind"]


def test_decide_keeps_to_the_tags_asked_for(
    growdesk: Growdesk, facts_file: Path
) -> None:
    answer = growdesk("decide", "--facts", facts_file, "--tag", "B2", "--json").json
    assert isinstance(answer, list)
    assert [plant["tag"] for plant in answer] == ["B2"]


def test_decide_tells_people_the_same(growdesk: Growdesk, facts_file: Path) -> None:
    told = growdesk("decide", "--facts", facts_file, "--on", "2026-01-28")
    assert told.code == 0
    assert "Verdicts for Wednesday 2026-01-28" in told.out
    assert "Feed (1)" in told.out
    assert "Look first (1)" in told.out
    assert "ppm N" in told.out
    assert told.out.index("Feed (1)") < told.out.index("Look first (1)")
    for plant in decided(growdesk, facts_file):
        assert plant["reasons"][0]["sentence"] in told.out


def test_decide_on_no_plants_says_so(growdesk: Growdesk, tmp_path: Path) -> None:
    path = tmp_path / "none.json"
    path.write_text('{"plants": []}', encoding="utf-8")
    assert growdesk("decide", "--facts", path, "--json").json == []
    assert "There are no plants." in growdesk("decide", "--facts", path).out


def test_decide_without_a_day_is_for_today(
    growdesk: Growdesk, facts_file: Path
) -> None:
    today = datetime.now(tz=UTC).astimezone().date().isoformat()
    without = growdesk("decide", "--facts", facts_file, "--json").json
    given = growdesk("decide", "--facts", facts_file, "--on", today, "--json").json
    assert without == given


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig"])
def test_facts_are_read_from_standard_input(
    growdesk: Growdesk, monkeypatch: pytest.MonkeyPatch, encoding: str
) -> None:
    raw = json.dumps(FACTS, ensure_ascii=False).encode(encoding)
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(raw)))
    answer = growdesk("decide", "--facts", "-", "--on", "2026-01-28", "--json").json
    assert isinstance(answer, list)
    assert answer[1]["name"] == "Fräulein Ærø"


def test_plan_has_the_fixed_keys(growdesk: Growdesk, facts_file: Path) -> None:
    plan: Any = growdesk(
        "plan", "--facts", facts_file, "--on", "2026-01-28", "--json"
    ).json
    fed = decided(growdesk, facts_file)[0]
    (batch,) = plan["batches"]
    assert batch["letter"] == "A"
    assert batch["tags"] == ["A1"]
    assert batch["strength_ppm_n"] == fed["strength_ppm_n"]
    assert batch["volume_l"] == pytest.approx(fed["volume_l"])
    assert [set(step) for step in plan["ladder"]] == [{"sentence"}]
    assert plan["outside_band"] == []


def test_plan_names_whom_too_few_jugs_serve_outside_their_band(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    look = {
        "on": "2026-06-01",
        "new_growths": {"extending": 1},
        "root_tips": "running",
    }
    place = {"controlled": True}
    plants = [
        {
            "tag": f"P{strength}",
            "kind": "cattleya",
            "place": place,
            "volume_l": 0.5,
            "full_strength_ppm_n": strength,
            "looks": [look],
        }
        for strength in (50, 100, 200)
    ]
    path = tmp_path / "three.json"
    asked = ("plan", "--facts", path, "--on", "2026-06-03")
    path.write_text(json.dumps({"house": {"jugs": 3}, "plants": plants}))
    enough: Any = growdesk(*asked, "--json").json
    assert [batch["letter"] for batch in enough["batches"]] == ["A", "B", "C"]
    assert enough["outside_band"] == []
    path.write_text(json.dumps({"house": {"jugs": 1}, "plants": plants}))
    one: Any = growdesk(*asked, "--json").json
    assert len(one["batches"]) == 1
    assert one["outside_band"]
    told = growdesk(*asked)
    assert "Served outside their band" in told.out


def test_plan_tells_people_the_jugs(growdesk: Growdesk, facts_file: Path) -> None:
    told = growdesk("plan", "--facts", facts_file, "--on", "2026-01-28")
    assert told.code == 0
    assert "jug A" in told.out
    assert "A1" in told.out
    nobody = growdesk("plan", "--facts", facts_file, "--on", "2027-01-28")
    assert "No plant is fed." in nobody.out


def test_plan_names_plants_without_a_volume(growdesk: Growdesk, tmp_path: Path) -> None:
    plant = {
        "tag": "N1",
        "kind": "cattleya",
        "looks": [{"on": "2026-06-01", "root_tips": "running"}],
    }
    path = tmp_path / "novolume.json"
    path.write_text(json.dumps({"plants": [plant]}))
    asked = ("plan", "--facts", path, "--on", "2026-06-03")
    plan: Any = growdesk(*asked, "--json").json
    assert plan["volume_unknown"] == ["N1"]
    assert "no volume is recorded: N1" in growdesk(*asked).out


def test_dose_has_the_fixed_keys(growdesk: Growdesk) -> None:
    asked = ("dose", "--analysis", "20-20-20", "--target", "150 ppm N")
    dose: Any = growdesk(*asked, "--water", "5 L", "--json").json
    assert dose["grams"] == pytest.approx(3.75)
    assert dose["millilitres"] is None
    assert dose["elements_mg_per_l"]["N"] == pytest.approx(150)
    assert dose["elements_mg_per_l"]["P"] == pytest.approx(65.46, abs=0.01)
    assert dose["volume_l"] == pytest.approx(5)
    assert "ec_ms_per_cm" in dose


def test_dose_says_what_narrows_a_wide_range_of_ec(growdesk: Growdesk) -> None:
    def lines(analysis: str) -> list[str]:
        asked = ("--target", "150 ppm N", "--water", "5 L")
        told = growdesk("dose", "--analysis", analysis, *asked).out.splitlines()
        return [line for line in told if "mS/cm" in line or "narrower" in line]

    wide, hint = lines("20-20-20")
    assert wide == "Expect 0.33 to 0.97 mS/cm at 25 °C more than the water has."
    assert '"20-20-20 nitrate-N 5.9 ammonium-N 3.9 urea-N 10.2"' in hint
    (narrow,) = lines("20-20-20 nitrate-N 5.9 ammonium-N 3.9 urea-N 10.2")
    assert narrow.startswith("Expect 0.59 to 0.72 mS/cm")
    assert len(lines("15.5-0-0 + 19 Ca")) == 1


def test_dose_tells_what_the_scale_gives(growdesk: Growdesk) -> None:
    feed = ("dose", "--analysis", "20-20-20", "--target", "150 ppm N")
    asked = (*feed, "--water", "1 L")
    plain: Any = growdesk(*asked, "--json").json
    assert plain["measured"] is None
    dose: Any = growdesk(*asked, "--scale", "0.1 g", "--json").json
    assert dose["grams"] == pytest.approx(0.75), "the dose itself stays as reckoned"
    assert dose["measured"]["amount"] == 0.8
    assert dose["measured"]["gives_mg_per_l"] == pytest.approx(160)
    assert dose["measured"]["too_small"] is True
    said = growdesk(*asked, "--scale", "0.1").out
    assert "Weigh 0.8 g on the scale that reads 0.1 g: gives 160 of 150 ppm N" in said
    assert "Make a stock solution" in said
    refused = growdesk(*asked, "--scale", "1 mL").refusal
    assert "--scale: '1 mL' is a volume, and this product is dry." in refused


def test_dose_of_a_liquid_gives_millilitres(growdesk: Growdesk) -> None:
    asked = ("dose", "--analysis", "3-1-2", "--target", "100 ppm N", "--water", "1 gal")
    dose: Any = growdesk(*asked, "--density", "1.2 g/mL", "--json").json
    assert dose["millilitres"] == pytest.approx(dose["grams"] / 1.2)
    told = growdesk(*asked, "--density", "1.2 g/mL")
    assert "mL in 3.78541 L" in told.out
    assert "ppm means milligrams per litre" in told.out


def test_sun_has_the_fixed_keys(growdesk: Growdesk) -> None:
    sun: Any = growdesk("sun", "--latitude", "-20", "--on", "2026-09-03", "--json").json
    assert sun["ra_mj_per_m2_d"] == pytest.approx(32.2, abs=0.1)  # FAO 56, example 8
    assert sun["day_length_h"] == pytest.approx(11.7, abs=0.05)  # FAO 56, example 9
    assert sun["sunrise_to_sunset_h"] > sun["day_length_h"]


@pytest.mark.parametrize(
    ("latitude", "on", "hours"),
    [("80", "2026-06-21", 24), ("-80", "2026-06-21", 0), ("90", "2026-12-21", 0)],
)
def test_sun_has_polar_days_and_nights(
    growdesk: Growdesk, latitude: str, on: str, hours: float
) -> None:
    sun: Any = growdesk("sun", "--latitude", latitude, "--on", on, "--json").json
    assert sun["day_length_h"] == hours
    assert sun["sunrise_to_sunset_h"] == hours


def test_sun_tells_people(growdesk: Growdesk) -> None:
    told = growdesk("sun", "--latitude", "48,2", "--on", "2026-06-21")
    assert "2026-06-21 at latitude 48.2°" in told.out
    assert "MJ/m² a day" in told.out


def test_ec_has_the_fixed_keys(growdesk: Growdesk, tmp_path: Path) -> None:
    path = tmp_path / "salts.json"
    salts = {"KNO3": 0.5}
    path.write_text(
        json.dumps(
            {"water_ec_ms_per_cm": 0.2, "temperature_c": 20, "salts_g_per_l": salts}
        )
    )
    ec: Any = growdesk("ec", "--salts", path, "--json").json
    assert ec["ions_mmol_per_l"]["K"] == pytest.approx(4.9455, abs=0.001)
    assert ec["ions_mmol_per_l"]["NO3"] == pytest.approx(4.9455, abs=0.001)
    assert 0.8 < ec["ec_ms_per_cm"] < 1.0
    told = growdesk("ec", "--salts", path)
    assert "mS/cm at 25 °C" in told.out
    assert "at 20 °C" in told.out


def test_ec_takes_the_waters_ions(growdesk: Growdesk, tmp_path: Path) -> None:
    path = tmp_path / "salts.json"
    water = {"ca_mg_per_l": 60, "alkalinity_mg_per_l": 150}
    path.write_text(json.dumps({"water": water, "salts_g_per_l": {"KNO3": 0.5}}))
    ec: Any = growdesk("ec", "--salts", path, "--json").json
    assert ec["water_ions_mmol_per_l"]["Ca"] == pytest.approx(1.497, abs=0.001)
    assert set(ec["ions_mmol_per_l"]) == {"K", "NO3"}
    assert "Taken for the water:" in growdesk("ec", "--salts", path).out


def test_help_and_version_answer_with_success(growdesk: Growdesk) -> None:
    assert "decide" in growdesk("--help").out
    assert "--facts" in growdesk("decide", "--help").out
    version = growdesk("--version")
    assert (version.code, version.err) == (0, "")
    assert version.out.startswith("growdesk ")
