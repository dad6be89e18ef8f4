"""A measured dose in words, as a grower reads it at the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.domain import measure_words as words
from growdesk.domain.measuring import Measured, Tool, ToolKind, measured
from tests.domain.test_measuring import (
    CYLINDER,
    DRY,
    FINE,
    KITCHEN,
    LIQUID,
    OTHER,
    POCKET,
    SYRINGE,
    TEASPOON,
)

if TYPE_CHECKING:
    from growdesk.domain.product import Product


def of(mass_g: float, *tools: Tool, product: Product = DRY) -> Measured:
    return measured(product, mass_g, tools)


@pytest.mark.parametrize(
    ("dose", "said"),
    [
        (of(3.42, POCKET), "Weigh 3.4 g on the pocket scale"),
        (of(3.0, POCKET), "Weigh 3.0 g on the pocket scale"),
        (of(45.0, FINE), "Weigh 2 × 20.00 g and 5.00 g on the fine scale"),
        (of(10.0, TEASPOON), "2½ level teaspoons (4.1 g each) = 10.3 g"),
        (of(4.1, TEASPOON), "1 level teaspoon (4.1 g each) = 4.1 g"),
        (of(2.0, TEASPOON), "½ level teaspoon (4.1 g each) = 2.05 g"),
        (
            of(34.5 * 1.2, SYRINGE, product=LIQUID),
            "3 × 10 mL and 4.5 mL with the 10 mL syringe",
        ),
        (of(24, SYRINGE, product=LIQUID), "2 × 10 mL with the 10 mL syringe"),
        (of(60, CYLINDER, product=LIQUID), "50 mL with the 100 mL cylinder"),
        (of(3.4219), "Weigh 3.42 g on a scale that reads 0.1 g"),
        (of(0.34), "Weigh 0.34 g on a scale that reads 0.01 g"),
        (of(1234.4), "Weigh 1234 g on a scale that reads 1 g"),
        (of(6, product=LIQUID), "5 mL with a syringe that reads 0.1 mL"),
        (of(0.004), "0.004 g, which is best measured from a stock solution"),
    ],
)
def test_how_a_dose_is_measured(dose: Measured, said: str) -> None:
    assert words.how(dose) == said


def test_other_names_and_parts_of_spoons() -> None:
    quarter = Tool(ToolKind.SPOON, "Blue scoop", 0.25, None, ((7, 2.0),))
    third = Tool(ToolKind.SPOON, "lid", 0.2, None, ((7, 2.0),))
    assert words.amount_text(of(3.5, quarter)) == "1¾ level blue scoops"
    assert words.amount_text(of(3.6, third)) == "1.8 level spoons (lid)"
    assert words.amount_text(of(2.0, third)) == "1 level spoon (lid)"


def test_what_the_tool_does_not_measure_is_never_told_as_nothing() -> None:
    dose = of(0.04, POCKET)
    assert words.amount_text(dose) == "under 0.1 g"
    assert words.how(dose) == "under 0.1 g, which the pocket scale does not measure"


def test_a_name_stands_small_inside_a_sentence_and_letters_stay_large() -> None:
    names = ("Pocket scale", "RO jug", "pH spoon", "10 mL syringe", "A")
    assert [words.named(name) for name in names] == [
        "pocket scale",
        "RO jug",
        "pH spoon",
        "10 mL syringe",
        "A",
    ]


def test_amounts_are_read_as_the_tool_shows_them() -> None:
    assert words.amount_text(of(3.0, KITCHEN)) == "3 g"
    assert words.amount_text(of(3.0, FINE)) == "3.00 g"
    assert words.amount_text(of(3.6, SYRINGE, product=LIQUID)) == "3 mL"


@pytest.mark.parametrize(
    ("dose", "said"),
    [
        (of(3.4, POCKET), ""),
        (of(3.4), ""),
        (
            of(0.04, POCKET),
            (
                "0.04 g of Bloom feed is less than the pocket scale measures: its "
                "least is 0.1 g. Make a stock solution, or mix more."
            ),
        ),
        (
            of(0.6, POCKET),
            (
                "The pocket scale may be off by 8 % of 0.6 g of Bloom feed. Make a "
                "stock solution, weigh it on a scale that reads 0.01 g, or mix more."
            ),
        ),
        (
            of(10, TEASPOON),
            (
                "The teaspoon may be off by 10 % of 10 g of Bloom feed. Make a stock "
                "solution, weigh it on a scale that reads 1 g, or mix more."
            ),
        ),
        (
            of(1.2, SYRINGE, product=LIQUID),
            (
                "The 10 mL syringe may be off by 25 % of 1 mL of Green liquid. Make a "
                "stock solution, draw it with a syringe that reads 0.1 mL, or mix more."
            ),
        ),
        (
            of(0.006, Tool(ToolKind.SCALE, "fine scale", 0.001)),
            (
                "The fine scale may be off by 8 % of 0.006 g of Bloom feed. Make a "
                "stock solution, or mix more."
            ),
        ),
        (
            of(180, SYRINGE, product=LIQUID),
            "That is 15 loads of the 10 mL syringe; something larger is quicker.",
        ),
        (
            of(5, SYRINGE),
            (
                "None of your tools measures Bloom feed, which is dry: weigh it on a "
                "scale that reads 0.1 g, or weigh a level spoon of it once."
            ),
        ),
        (
            of(12, TEASPOON, product=OTHER),
            (
                "None of your tools measures Nitrate feed, which is dry: weigh it on a "
                "scale that reads 1 g, or weigh a level spoon of it once."
            ),
        ),
        (
            measured(
                LIQUID, 12, [Tool(ToolKind.SPOON, "teaspoon", 1, None, ((1, 2.0),))]
            ),
            (
                "None of your tools measures Green liquid, a liquid: draw it with a "
                "syringe that reads 1 mL."
            ),
        ),
    ],
)
def test_what_is_wrong_names_the_way_out(dose: Measured, said: str) -> None:
    assert words.trouble(dose) == said


@pytest.mark.parametrize(
    ("given", "wanted", "said"),
    [
        (118, 120, "gives 118 of 120 ppm N (−2 %)"),
        (120.2, 120, "gives 120 ppm N"),
        (124.5, 120, "gives 125 of 120 ppm N (+4 %)"),
        (299, 300, "gives 299 of 300 ppm N (−0.3 %)"),
        (19.6, 20, "gives 19.6 of 20 ppm N (−2 %)"),
        (1.24, 1.2, "gives 1.24 of 1.2 ppm N (+3 %)"),
        (119.4, 120, "gives 119 of 120 ppm N (−0.5 %)"),
        (0, 120, "gives 0 of 120 ppm N (−100 %)"),
    ],
)
def test_what_rounding_does(given: float, wanted: float, said: str) -> None:
    assert words.gives(given, wanted) == said


def test_why_a_spoon_is_weighed_names_both_printed_figures() -> None:
    """Check values V07, V09 and V10: 6 g and 3.15 g a teaspoon; 2.5 to 7.3 mL."""
    said = words.WEIGH_THE_SPOON
    assert "3 g" in said
    assert "6 g" in said
    assert "2.5 to 7.3 mL" in said
    ounce_g, teaspoons = 28.349523, 9
    assert f"{ounce_g / teaspoons:.0f} g" == "3 g"
    assert said.startswith("Weigh ten level spoons of it and divide by ten")


@pytest.mark.parametrize(
    ("tool", "limit", "said"),
    [
        (POCKET, 0.05, "A dose under 1 g may be off by more than 5 % on it;"),
        (POCKET, 0.1, "A dose under 0.5 g may be off by more than 10 % on it;"),
        (SYRINGE, 0.05, "A dose under 5 mL may be off by more than 5 % in it;"),
        (CYLINDER, 0.05, "A dose under 10 mL may be off by more than 5 % in it;"),
        (TEASPOON, 0.05, "A dose under 5 level spoons may be off by more than 5 %"),
    ],
)
def test_from_what_amount_a_tool_is_fine_enough(
    tool: Tool, limit: float, said: str
) -> None:
    got = words.least_well(tool, limit)
    assert got.startswith(said)
    assert "stock solution" in got


@pytest.mark.parametrize(
    ("gives", "wanted", "said"),
    [
        (0.6, 0.5, "gives 0.6 of 0.5 ppm N (+20 %)"),
        (3.0, 0.0, "gives 3 of 0 ppm N (+0 %)"),
    ],
)
def test_a_weak_strength_is_told_by_its_share(
    gives: float, wanted: float, said: str
) -> None:
    assert words.gives(gives, wanted) == said


def test_one_per_cent_is_told_whole() -> None:
    assert (words.percent(0.01), words.percent(0.0099)) == ("1 %", "1 %")
    assert words.percent(0.0094) == "0.9 %"
