"""A dose too small for the scale comes from a bottle of stock solution."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain import measure_words as words
from growdesk.domain.from_bottle import from_bottle
from growdesk.domain.measuring import Measured, Tool, ToolKind, Trouble, measured
from growdesk.domain.stock_solution import Stock
from tests.domain.test_measuring import CYLINDER, DRY, OTHER, POCKET, SYRINGE

BOTTLE = Stock("Bloom bottle", ((DRY, 10.0),), 0.5, key=3, left_ml=400)
WEAK = Stock("Weak bottle", ((DRY, 2.5),), 0.5, key=4, left_ml=400)
TINY = Tool(ToolKind.SYRINGE, "1 mL syringe", 0.02, 1)


def small(mass_g: float = 0.24, *tools: Tool) -> Measured:
    return measured(DRY, mass_g, tools or (POCKET, SYRINGE))


def taken(dose: Measured, *bottles: Stock, never_over: bool = False) -> Measured:
    return from_bottle(dose, bottles, (POCKET, SYRINGE), never_over=never_over)


def test_the_bottle_stands_in_for_the_scale() -> None:
    dose = small(0.238)
    assert dose.trouble is Trouble.COARSE
    got = taken(dose, BOTTLE)
    assert (got.amount, got.unit, got.tool) == (12.0, "mL", SYRINGE)
    assert (got.bottle, got.bottle_key, got.trouble) == ("Bloom bottle", 3, None)
    assert got.given_g == pytest.approx(0.24)
    assert got.mass_g == 0.238
    assert got.g_per_unit == pytest.approx(0.02)
    assert got.half_step_share == pytest.approx(2 * 0.25 / 11.9)
    assert not got.too_small
    assert words.how(got) == ("10 mL and 2 mL of Bloom bottle with the 10 mL syringe")
    assert (got.taken_from, dose.taken_from) == ("Bloom bottle", "Bloom feed")


def test_a_bottle_called_like_its_tin_is_told_from_it() -> None:
    got = taken(small(0.238), replace(BOTTLE, name="Bloom feed"))
    assert got.bottle == got.product.name == "Bloom feed"
    assert got.taken_from == "Bloom feed stock"
    assert words.how(got).startswith("10 mL and 2 mL of Bloom feed stock with")


def test_what_rounds_to_nothing_comes_from_the_bottle_too() -> None:
    dose = small(0.04)
    assert dose.trouble is Trouble.NOTHING
    got = from_bottle(dose, [BOTTLE], [POCKET, TINY])
    assert (got.amount, got.loads) == (2.0, 2)
    assert got.given_g == pytest.approx(0.04)


def test_a_dose_that_is_weighed_well_stays_with_the_scale() -> None:
    dose = small(2.0)
    assert taken(dose, BOTTLE) is dose


def test_a_ceiling_holds_for_the_bottle_as_well() -> None:
    dose = small(0.238)
    got = taken(dose, BOTTLE, never_over=True)
    assert got.amount == 11.5
    assert got.given_g < dose.mass_g


@pytest.mark.parametrize(
    "bottle",
    [
        replace(BOTTLE, weighed=((OTHER, 10.0),)),
        replace(BOTTLE, weighed=((DRY, 10.0), (OTHER, 5.0))),
        replace(BOTTLE, left_ml=5.0),
        replace(BOTTLE, weighed=((DRY, 500.0),)),
    ],
    ids=["another product", "two products", "nearly empty", "read no better"],
)
def test_a_bottle_that_will_not_do_leaves_the_dose(bottle: Stock) -> None:
    dose = small(0.238)
    assert taken(dose, bottle) is dose


def test_a_bottle_read_better_than_the_scale_is_taken_and_still_too_coarse() -> None:
    strong = replace(BOTTLE, weighed=((DRY, 50.0),))
    got = taken(small(0.238), strong)
    assert (got.amount, got.trouble) == (2.5, Trouble.COARSE)
    assert got.too_small
    assert words.trouble(got) == (
        "The 10 mL syringe may be off by 11 % of 2.38 mL of Bloom bottle. Make a "
        "weaker bottle, draw it with a syringe that reads 0.1 mL, or mix more."
    )


def test_a_product_of_no_shelf_has_no_bottle() -> None:
    loose = replace(DRY, key=None)
    dose = measured(loose, 0.238, [POCKET])
    bottle = replace(BOTTLE, weighed=((loose, 10.0),))
    assert from_bottle(dose, [bottle], [SYRINGE]) is dose


@pytest.mark.parametrize(("mass_g", "bottled"), [(0.2, True), (0.21, False)])
def test_a_bottle_is_drawn_from_ten_times_at_most(mass_g: float, bottled: bool) -> None:
    thin = Stock("Thin bottle", ((DRY, 10.0),), 0.5, key=5)
    dose = measured(DRY, mass_g, [POCKET])
    got = from_bottle(dose, [thin], [TINY])
    assert (got.loads, got.bottle) == ((10, "Thin bottle") if bottled else (1, ""))


def test_a_bottle_read_to_none_of_the_dose_is_left() -> None:
    dose = small(0.238, POCKET)
    strong = replace(BOTTLE, weighed=((DRY, 2000.0),))
    assert taken(dose, strong) is dose


def test_the_bottle_read_best_is_taken() -> None:
    dose = small(0.24)
    assert from_bottle(dose, [BOTTLE, WEAK], [CYLINDER]).bottle == "Weak bottle"


def test_without_a_syringe_it_is_told_as_reckoned() -> None:
    got = from_bottle(small(0.24, POCKET), [BOTTLE], [POCKET])
    assert got.tool is None
    assert got.amount == pytest.approx(12)
    assert words.how(got) == "12 mL of Bloom bottle, with a syringe"
