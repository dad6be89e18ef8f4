"""A recipe as it is typed into a file: what it says, and what is asked back."""

from __future__ import annotations

from typing import Any

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.recipe_file import parse_recipe

KNO3 = {"formula": "KNO3"}


def test_products_are_called_by_their_name_else_formula_else_label() -> None:
    recipe, water = parse_recipe(
        {
            "products": [
                {"name": "Potash", "formula": "KNO3", "share": 2},
                KNO3,
                {"analysis": "3-1-5", "density_g_per_ml": 1.2},
            ]
        }
    )
    assert recipe.name == "The recipe"
    assert [part.product.name for part in recipe.parts] == ["Potash", "KNO3", "3-1-5"]
    assert [part.share for part in recipe.parts] == [2, 1, 1]
    assert recipe.parts[2].product.analysis.density_g_per_ml == 1.2
    assert recipe.parts[0].product.formula == "KNO3"
    assert recipe.wanted is None
    assert water.kind == "ro"


def test_a_water_is_a_tap_unless_told_and_has_its_name() -> None:
    told: dict[str, object] = {"ec_ms_per_cm": 0.4, "name": "kitchen"}
    _, tap = parse_recipe({"products": [KNO3], "water": told})
    assert (tap.kind, tap.name, tap.ec_ms_per_cm) == ("tap", "kitchen", 0.4)
    _, rain = parse_recipe({"products": [KNO3], "water": {"kind": "rain"}})
    assert (rain.kind, rain.name) == ("rain", "")


def test_what_is_wanted_may_be_told_in_oxides() -> None:
    told = {"products": [KNO3], "wanted": "15:5:15"}
    plain, _ = parse_recipe(told)
    oxides, _ = parse_recipe({**told, "oxides": True})
    assert plain.wanted is not None
    assert oxides.wanted is not None
    assert plain.wanted.p == 5
    assert oxides.wanted.p == pytest.approx(5 * 0.4364, rel=1e-3)


@pytest.mark.parametrize(
    ("data", "field"),
    [
        ({"products": []}, "products"),
        ({"products": [KNO3] * 41}, "products"),
        ({"products": [KNO3, {"name": "Tin"}]}, "product 2, analysis"),
        (
            {"products": [{"analysis": "3-1-5", "density_g_per_ml": 0.4}]},
            "product 1, density_g_per_ml",
        ),
        (
            {"products": [{"analysis": "3-1-5", "density_g_per_ml": 3.1}]},
            "product 1, density_g_per_ml",
        ),
        ({"products": [KNO3], "water": {"na_mg_per_l": 5001}}, "water, na_mg_per_l"),
        ({"products": [KNO3], "name": "x" * 121}, "recipe, name"),
        ({"products": [KNO3], "wanted": "1" * 61}, "recipe, wanted"),
    ],
)
def test_what_cannot_be_is_named_by_its_place(data: Any, field: str) -> None:
    with pytest.raises(InputError) as refused:
        parse_recipe(data)
    assert refused.value.field == field
