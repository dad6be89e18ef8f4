"""The calculator's dose, as a scale or syringe of one step gives it."""

from __future__ import annotations

import json

import pytest

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.dose import TOO_LITTLE_TO_WEIGH, dose
from growdesk.domain.dose_measured import (
    as_tool_gives,
    measured_report,
    tool_of,
    with_tool,
)
from growdesk.domain.errors import InputError
from growdesk.domain.measuring import ToolKind
from growdesk.domain.units import parse_target

DRY = parse_analysis("20-20-20")
LIQUID = parse_analysis("7-3-6", 1.2)


@pytest.mark.parametrize(
    ("typed", "kind", "step"),
    [
        ("0.1 g", ToolKind.SCALE, 0.1),
        ("0,01", ToolKind.SCALE, 0.01),
        ("1/4 oz", ToolKind.SCALE, 7.087),
        ("0.5 mL", ToolKind.SYRINGE, 0.5),
        ("1 tsp", ToolKind.SYRINGE, 4.929),
    ],
)
def test_a_step_as_typed(typed: str, kind: ToolKind, step: float) -> None:
    tool = tool_of(typed, LIQUID)
    assert tool.kind is kind
    assert tool.step == pytest.approx(step, rel=1e-3)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("0.5 mL", "is a volume, and this product is dry"),
        ("fine", "is not a mass"),
        ("0 g", "must be more than nothing"),
        ("", "is empty"),
    ],
)
def test_a_step_that_cannot_be_is_asked_back(typed: str, said: str) -> None:
    with pytest.raises(InputError, match=said) as refused:
        tool_of(typed, DRY, "--scale")
    assert refused.value.field == "--scale"
    assert typed in refused.value.line()


def test_what_the_scale_gives() -> None:
    made = dose(DRY, parse_target("125 ppm N"), 2.1)
    told = as_tool_gives(made, DRY, tool_of("0.1 g", DRY))
    assert made.mass_g == pytest.approx(1.3125)
    assert told.dose.amount == 1.3
    assert told.gives_mg_per_l == pytest.approx(125 * 1.3 / 1.3125)
    assert told.sentence == (
        "Weigh 1.3 g on the scale that reads 0.1 g: gives 124 of 125 ppm N (−1 %)."
    )
    assert told.warnings == ()


def test_of_another_nutrient_and_a_liquid() -> None:
    made = dose(LIQUID, parse_target("30 ppm P2O5"), 1.0)
    told = as_tool_gives(made, LIQUID, tool_of("0.2 mL", LIQUID))
    assert told.dose.amount == 0.8
    assert told.sentence == (
        "0.8 mL with the syringe that reads 0.2 mL: gives 29 of 30 ppm P2O5 (−4 %)."
    )
    assert told.dose.too_small
    assert "Make a stock solution" in told.warnings[0]


def test_what_the_tool_does_not_measure_is_a_sentence_too() -> None:
    made = dose(DRY, parse_target("2 ppm N"), 1.0)
    told = as_tool_gives(made, DRY, tool_of("1 g", DRY))
    assert told.sentence.startswith("Under 1 g, which the scale")


def test_the_tool_given_speaks_for_itself() -> None:
    made = dose(DRY, parse_target("150 ppm N"), 0.1)
    assert made.warnings == (TOO_LITTLE_TO_WEIGH,)
    fine = as_tool_gives(made, DRY, tool_of("0.001 g", DRY))
    assert with_tool(made, fine).warnings == ()
    coarse = with_tool(made, as_tool_gives(made, DRY, tool_of("1 g", DRY))).warnings
    (said,) = coarse
    assert said == (
        "0.075 g of 20-20-20 is less than the scale that reads 1 g measures: its "
        "least is 1 g. Make a stock solution, or mix more."
    )
    assert with_tool(made, None) is made


def test_the_report() -> None:
    made = dose(DRY, parse_target("125 ppm N"), 2.1)
    told = as_tool_gives(made, DRY, tool_of("0.1 g", DRY))
    report = json.loads(json.dumps(measured_report(told)))
    assert report == {
        "tool": "scale",
        "step": 0.1,
        "unit": "g",
        "amount": 1.3,
        "grams": 1.3,
        "half_step_share": pytest.approx(0.05 / 1.3125),
        "gives_mg_per_l": pytest.approx(123.8095, rel=1e-6),
        "too_small": False,
        "sentence": told.sentence,
    }
    assert measured_report(None) is None
