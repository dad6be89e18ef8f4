"""``growdesk mix``: a recipe from a file, solved or in fixed shares."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

SALTS = ("KH2PO4", "KNO3", "Ca(NO3)2.4H2O", "MgSO4.7H2O")
HOAGLAND = {
    "name": "Hoagland 1",
    "wanted": "210:31:235:200:48.6",
    "products": [{"formula": formula} for formula in SALTS],
}
"""D. R. Hoagland & D. I. Arnon, Circular 347, 1950; mmol of its salts from memory."""


@pytest.fixture
def mix(growdesk: Growdesk, tmp_path: Path) -> Any:
    def run(recipe: object, strength: str = "120 ppm N", *options: str) -> Any:
        path = tmp_path / "recipe.json"
        path.write_text(json.dumps(recipe), encoding="utf-8")
        return growdesk("mix", "--recipe", path, "--strength", strength, *options)

    return run


def test_hoagland_s_solution_from_its_salts(mix: Any) -> None:
    made = mix(HOAGLAND, "210 ppm N", "--json").json
    assert set(made) == {
        "strength_ppm_n",
        "products",
        "elements_mg_per_l",
        "from_water_mg_per_l",
        "wanted_mg_per_l",
        "misfit_mg_per_l",
        "nitrogen_forms_mg_per_l",
        "ec_ms_per_cm",
        "ec_range_ms_per_cm",
        "notes",
        "advice",
    }
    grams = {each["name"]: each["g_per_l"] for each in made["products"]}
    assert grams["KNO3"] == pytest.approx(0.5055, rel=0.006)
    assert grams["Ca(NO3)2.4H2O"] == pytest.approx(1.181, rel=0.006)
    assert made["elements_mg_per_l"]["S"] == pytest.approx(64, rel=0.006)
    assert made["wanted_mg_per_l"]["Ca"] == pytest.approx(200)
    low, high = made["ec_range_ms_per_cm"]
    assert 1.5 < low <= made["ec_ms_per_cm"] <= high < 2.5
    assert (made["notes"], made["advice"]) == ([], None)


def test_fixed_shares_with_a_water(mix: Any) -> None:
    recipe = {
        "products": [
            {"name": "Green tin", "analysis": "20-20-20", "share": 2},
            {"name": "Calcium nitrate", "analysis": "15.5-0-0 Ca 19"},
        ],
        "water": {"kind": "tap", "ec_ms_per_cm": 0.4, "ca_mg_per_l": 40},
    }
    made = mix(recipe, "111 ppm N", "--json").json
    grams = [each["g_per_l"] for each in made["products"]]
    assert grams == pytest.approx([0.4, 0.2])
    assert made["elements_mg_per_l"]["Ca"] == pytest.approx(40 + 38)
    assert made["from_water_mg_per_l"] == {"Ca": 40}
    assert (made["wanted_mg_per_l"], made["misfit_mg_per_l"]) == ({}, {})


def test_it_is_told_in_lines(mix: Any) -> None:
    recipe = {"wanted": "15:5:15", "oxides": True, "products": [{"formula": "KNO3"}]}
    told = mix(recipe).out
    assert told.startswith("The recipe, a litre at 120 ppm N:")
    assert "KNO3" in told
    assert "120.0 mg/L  wanted 120.0" in told
    assert "Phosphorus comes to 0 mg/L" in told
    assert "mS/cm at 25 °C" in told


@pytest.mark.parametrize(
    ("recipe", "named"),
    [
        ([], "is not a recipe"),
        ({"products": []}, "cannot be mixed"),
        ({"products": [{"formula": "XyZ"}]}, "product 1, formula"),
        ({"products": [{"name": "Tin"}]}, "product 1, analysis"),
        ({"products": [{"analysis": "nonsense"}]}, "product 1, analysis"),
        ({"products": [{"formula": "KNO3", "share": -1}]}, "product 1, share"),
        ({"products": [{"formula": "KNO3", "colour": "blue"}]}, "colour"),
        ({"products": [{"formula": "KH2PO4"}]}, "brings no nitrogen"),
        ({"products": [{"formula": "KNO3"}], "wanted": "0:1"}, "wants no nitrogen"),
        ({"products": [{"formula": "KNO3"}], "water": {"ca": 1}}, "water"),
        (
            {"products": [{"formula": "KNO3"}], "water": {"ca_mg_per_l": "much"}},
            "water, ca_mg_per_l",
        ),
    ],
)
def test_a_bad_recipe_is_one_plain_line(mix: Any, recipe: object, named: str) -> None:
    assert named in mix(recipe).refusal
