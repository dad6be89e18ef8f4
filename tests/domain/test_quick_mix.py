"""A mix free of any plan: parts are scaled, own amounts stay, the water counts."""

from __future__ import annotations

import pytest

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.dose import dose
from growdesk.domain.errors import InputError
from growdesk.domain.product import Product
from growdesk.domain.quick_mix import (
    Parts,
    PerLitre,
    QuickPart,
    amount_of,
    parse_wish,
    quick_mixture,
)
from growdesk.domain.units import Target
from growdesk.domain.water_analysis import WaterAnalysis

PURE = WaterAnalysis(kind="rain")
BASE = Product("Base", parse_analysis("20-10-20 nitrate-N 12 ammonium-N 8"))
CALCIUM = Product("Calcium nitrate", parse_analysis("15.5-0-0 Ca 19 nitrate-N 14.4"))
EPSOM = Product("Epsom salt", parse_analysis("Mg 9.86 S 13"))


@pytest.mark.parametrize(
    ("text", "wish"),
    [
        ("", Parts(1.0)),
        ("  ", Parts(1.0)),
        ("2", Parts(2.0)),
        ("2,5 parts", Parts(2.5)),
        ("1 part", Parts(1.0)),
        ("0.5 g/L", PerLitre(0.5)),
        ("0,5 g per litre", PerLitre(0.5)),
        ("20 ppm Mg", Target("Mg", 20.0)),
        ("33 mg/L MgO", Target("MgO", 33.0)),
    ],
)
def test_an_amount_is_parts_a_weight_or_a_strength(text: str, wish: object) -> None:
    assert parse_wish(text) == wish


def test_a_weight_in_a_gallon_is_read() -> None:
    wish = parse_wish("1 oz/gal")
    assert isinstance(wish, PerLitre)
    assert wish.g_per_l == pytest.approx(28.349523 / 3.785411784)


@pytest.mark.parametrize(
    "text", ["lots", "0", "-2", "1001", "20 ppm", "0.5 mg/L", "5 L"]
)
def test_an_amount_that_cannot_be_meant_shows_the_three_ways(text: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_wish(text, "amount_2")
    assert caught.value.field == "amount_2"
    assert '"0.5 g/L"' in caught.value.hint


def test_one_product_is_the_plain_dose() -> None:
    target = Target("N", 150.0)
    made = quick_mixture([QuickPart(BASE, Parts())], target, PURE)
    ((_, grams),) = made.g_per_l
    assert grams == pytest.approx(dose(BASE.analysis, target, 1.0).mass_g)
    assert made.strength_ppm_n == pytest.approx(150.0)


def test_parts_are_scaled_together_to_the_target() -> None:
    parts = [QuickPart(BASE, Parts(2)), QuickPart(CALCIUM, Parts(1))]
    made = quick_mixture(parts, Target("N", 111.0), PURE)
    base, calcium = (grams for _, grams in made.g_per_l)
    assert base == pytest.approx(2 * calcium)
    assert calcium == pytest.approx(111 / (2 * 200 + 155))
    assert made.elements_mg_per_l["N"] == pytest.approx(111.0)


def test_an_own_amount_stays_and_its_nitrogen_is_counted() -> None:
    parts = [
        QuickPart(BASE, Parts()),
        QuickPart(CALCIUM, Target("Ca", 38.0)),
        QuickPart(EPSOM, PerLitre(0.1)),
    ]
    made = quick_mixture(parts, Target("N", 100.0), PURE)
    base, calcium, epsom = (grams for _, grams in made.g_per_l)
    assert calcium == pytest.approx(0.2)
    assert epsom == pytest.approx(0.1)
    assert base == pytest.approx((100 - 0.2 * 155) / 200)
    assert made.elements_mg_per_l["N"] == pytest.approx(100.0)
    assert made.elements_mg_per_l["Mg"] == pytest.approx(9.86)


def test_what_the_water_brings_is_counted() -> None:
    water = WaterAnalysis(kind="tap", no3_mg_per_l=44.2665, ca_mg_per_l=60.0)
    made = quick_mixture([QuickPart(BASE, Parts())], Target("N", 100.0), water)
    ((_, grams),) = made.g_per_l
    assert grams == pytest.approx(90 / 200, rel=1e-3)
    assert made.elements_mg_per_l["N"] == pytest.approx(100.0)


def test_own_amounts_alone_need_no_target() -> None:
    made = quick_mixture([QuickPart(BASE, PerLitre(0.5))], None, PURE)
    assert made.strength_ppm_n == pytest.approx(100.0)


@pytest.mark.parametrize("nutrient", ["N", "P2O5", "K2O", "K", "NO3", "NH4"])
def test_any_element_oxide_or_form_comes_out_as_asked(nutrient: str) -> None:
    target = Target(nutrient, 50.0)
    made = quick_mixture([QuickPart(BASE, Parts())], target, PURE)
    assert amount_of(nutrient, made) == pytest.approx(50.0)


def test_the_water_s_nitrate_counts_towards_nitrate() -> None:
    water = WaterAnalysis(kind="tap", no3_mg_per_l=20.0)
    target = Target("NO3", 50.0)
    made = quick_mixture([QuickPart(BASE, Parts())], target, water)
    assert amount_of("NO3", made) == pytest.approx(50.0)
    ((_, grams),) = made.g_per_l
    pure = quick_mixture([QuickPart(BASE, Parts())], target, PURE)
    assert grams == pytest.approx(0.6 * pure.g_per_l[0][1])


@pytest.mark.parametrize(
    ("parts", "target", "field", "said"),
    [
        ([QuickPart(BASE, Parts())], None, "target", "is needed"),
        (
            [QuickPart(BASE, PerLitre(1.0))],
            Target("N", 50.0),
            "target",
            "an amount of its own",
        ),
        ([QuickPart(EPSOM, Parts())], Target("N", 50.0), "target", "holds none"),
        (
            [QuickPart(BASE, Parts()), QuickPart(EPSOM, Target("Ca", 9.0), "amount_2")],
            Target("N", 50.0),
            "amount_2",
            "holds none",
        ),
        (
            [QuickPart(BASE, Parts()), QuickPart(CALCIUM, Target("Ca", 190.0))],
            Target("N", 100.0),
            "target",
            "is there already: without these it holds 155 mg/L",
        ),
        (
            [QuickPart(Product("P", parse_analysis("9-9-9")), Parts())],
            Target("NO3", 5.0),
            "target",
            "does not tell that form",
        ),
    ],
)
def test_what_cannot_be_mixed_is_named(
    parts: list[QuickPart], target: Target | None, field: str, said: str
) -> None:
    with pytest.raises(InputError) as caught:
        quick_mixture(parts, target, PURE)
    assert caught.value.field == field
    assert said in caught.value.problem
    assert caught.value.hint


@pytest.mark.parametrize("text", ["1001", "0"])
def test_parts_are_counted_up_to_a_thousand(text: str) -> None:
    assert parse_wish("1000") == Parts(1000.0)
    with pytest.raises(InputError) as refused:
        parse_wish(text, "part_2")
    assert refused.value.field == "part_2"
    assert refused.value.problem == "is not a number of parts from above 0 to 1000"
    assert refused.value.value == text


@pytest.mark.parametrize("text", ["2 ppm", "20 ppm Unobtainium", "0 g/L"])
def test_a_slip_in_an_amount_is_told_beside_its_part(text: str) -> None:
    with pytest.raises(InputError) as refused:
        parse_wish(text, "part_2")
    assert refused.value.field == "part_2"
    assert refused.value.value == text


@pytest.mark.parametrize(
    ("wish", "target", "hint"),
    [
        (
            Parts(),
            None,
            'Write for instance "150 ppm N", or give each product its own amount.',
        ),
        (
            PerLitre(0.5),
            Target("N", 100.0),
            "Leave one amount empty, or leave this empty.",
        ),
    ],
)
def test_the_way_out_is_told(wish: Parts, target: Target | None, hint: str) -> None:
    with pytest.raises(InputError) as refused:
        quick_mixture([QuickPart(BASE, wish)], target, PURE)
    assert (refused.value.field, refused.value.hint) == ("target", hint)


def test_what_just_holds_the_target_already_is_refused() -> None:
    alone = quick_mixture([QuickPart(EPSOM, PerLitre(0.2))], None, PURE)
    there = amount_of("Mg", alone)
    parts = [QuickPart(EPSOM, PerLitre(0.2)), QuickPart(EPSOM, Parts())]
    with pytest.raises(InputError, match="is there already") as refused:
        quick_mixture(parts, Target("Mg", there), PURE)
    assert refused.value.hint == "Ask for more, or take a water that brings less."
    assert quick_mixture(parts, Target("Mg", there + 1), PURE).g_per_l[1][1] > 0


def test_the_mix_tells_its_products_and_shares() -> None:
    parts = [QuickPart(BASE, Parts(2.0)), QuickPart(CALCIUM, Parts())]
    recipe = quick_mixture(parts, Target("N", 150.0), PURE).recipe
    assert recipe.name == "Base and Calcium nitrate"
    assert [(part.product, part.share) for part in recipe.parts] == [
        (BASE, 2.0),
        (CALCIUM, 1.0),
    ]
