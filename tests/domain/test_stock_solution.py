"""Stock solutions: what is weighed, what the scale makes of it, what a dose then is."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain import stock_words
from growdesk.domain.errors import InputError
from growdesk.domain.injector import Meaning, Ratio
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.stock_solution import (
    Stock,
    check_volume,
    dose_from_stock,
    keep_by,
    lasts_weeks,
    stock_for_ratio,
    stock_ml,
    stock_of_strength,
)
from tests.domain.stock_builders import room, salt

SCALE = Tool(ToolKind.SCALE, "kitchen scale", 1.0, 2000.0)
SYRINGE = Tool(ToolKind.SYRINGE, "syringe 10 mL", 0.2, 10.0)
LARGE_SYRINGE = Tool(ToolKind.SYRINGE, "syringe 60 mL", 1.0, 60.0)
EPSOM = salt("MgSO4.7H2O", "Epsom salt", key=3)


def bottle(g_per_l: float, left_ml: float | None = None) -> Stock:
    return Stock("Epsom", ((EPSOM, g_per_l / 2),), 0.5, key=1, left_ml=left_ml)


def test_a_stock_is_weighed_as_the_scale_does_it_and_tells_what_that_gives() -> None:
    ratio = Ratio(100, Meaning.PART_IN)
    made = stock_for_ratio(((EPSOM, 0.513),), ratio, 0.5, [SCALE])
    assert made.doses[0].mass_g == pytest.approx(25.65)
    assert made.doses[0].given_g == 26
    assert made.stock.g_per_l == ((EPSOM, 52.0),)
    assert made.ml_per_l == 10


def test_a_stock_of_a_strength_is_what_the_scale_really_weighs() -> None:
    stock, (dose,) = stock_of_strength(((EPSOM, 51.3),), 0.5, [SCALE])
    assert dose.mass_g == pytest.approx(25.65)
    assert dose.given_g == 26
    assert stock.g_per_l == ((EPSOM, 52.0),)


def test_part_added_asks_for_a_little_more() -> None:
    feed = ((EPSOM, 0.5),)
    part_in = stock_for_ratio(feed, Ratio(15, Meaning.PART_IN), 1.0)
    added = stock_for_ratio(feed, Ratio(15, Meaning.PART_ADDED), 1.0)
    assert part_in.doses[0].mass_g == pytest.approx(7.5)
    assert added.doses[0].mass_g == pytest.approx(8.0)
    assert added.ml_per_l == pytest.approx(62.5)


@given(
    dose_g=st.floats(0.01, 50),
    g_per_l=st.floats(0.5, 400),
    volume_l=st.floats(0.1, 5),
)
def test_millilitres_of_a_stock_hold_the_grams_asked_for(
    dose_g: float, g_per_l: float, volume_l: float
) -> None:
    stock, _ = stock_of_strength(((EPSOM, g_per_l),), volume_l)
    ml = stock_ml(stock, EPSOM, dose_g)
    assert ml / 1000 * g_per_l == pytest.approx(dose_g)


def test_a_product_is_known_again_by_its_number() -> None:
    renamed = salt("MgSO4.7H2O", "Epsom, new bag", key=3)
    assert stock_ml(bottle(50), renamed, 1.0) == pytest.approx(20)
    with pytest.raises(InputError, match="holds no Epsom"):
        stock_ml(bottle(50), salt("MgSO4.7H2O", "Epsom", key=4), 1.0)


def test_a_dose_is_drawn_with_the_tool_that_reads_it_best() -> None:
    dose = dose_from_stock(bottle(50), 0.213, [LARGE_SYRINGE, SYRINGE, SCALE])
    assert dose.volume_ml == pytest.approx(4.26)
    assert (dose.given_ml, dose.tool) == (4.2, SYRINGE)
    assert dose.given_g == pytest.approx(0.21)
    assert dose.half_step_share == pytest.approx(0.1 / 4.26)
    larger = dose_from_stock(bottle(50), 2.13, [LARGE_SYRINGE, SYRINGE])
    assert (larger.given_ml, larger.tool, larger.loads) == (43.0, LARGE_SYRINGE, 1)


def test_never_over_rounds_down() -> None:
    dose = dose_from_stock(bottle(50), 0.216, [SYRINGE], never_over=True)
    assert dose.volume_ml == pytest.approx(4.32)
    assert dose.given_ml == 4.2
    assert dose_from_stock(bottle(50), 0.216, [SYRINGE]).given_ml == 4.4


def test_without_a_syringe_the_millilitres_are_told_as_reckoned() -> None:
    dose = dose_from_stock(bottle(50), 0.213, [SCALE])
    assert dose.tool is None
    assert dose.given_ml == pytest.approx(4.26)


def test_a_bottle_tells_whether_it_still_holds_the_dose() -> None:
    assert dose_from_stock(bottle(50), 1.0).is_enough
    assert dose_from_stock(bottle(50, left_ml=20.0), 1.0).is_enough
    assert not dose_from_stock(bottle(50, left_ml=19.0), 1.0).is_enough


def test_no_dose_of_one_product_from_a_bottle_of_two() -> None:
    both = Stock("Both", ((EPSOM, 10.0), (salt("KNO3"), 10.0)), 1.0)
    with pytest.raises(InputError, match="holds several products"):
        dose_from_stock(both, 1.0)


@pytest.mark.parametrize(
    ("weeks", "told"),
    [(0.99, "less than a week"), (1.9, "1 week"), (2.0, "2 weeks"), (10.9, "10 weeks")],
)
def test_a_bottle_is_not_said_to_last_longer_than_it_does(
    weeks: float, told: str
) -> None:
    said = stock_words.lasts_text(weeks, 2.0)
    assert said == f"At 2 L of feed a week it lasts {told}."


@pytest.mark.parametrize(
    ("g_per_l", "told"), [(0.5, "0.005"), (1.0, "0.01"), (33.3, "0.333"), (100, "1")]
)
def test_what_10_ml_of_a_weak_bottle_hold(g_per_l: float, told: str) -> None:
    assert stock_words.label_use_texts(bottle(g_per_l)) == (
        f"10 mL hold {told} g of Epsom salt.",
    )


def test_how_long_a_bottle_lasts() -> None:
    assert lasts_weeks(500, 10, 5) == 10
    assert lasts_weeks(500, 10, 0) is None


@pytest.mark.parametrize(
    ("made_on", "months", "until"),
    [
        (date(2026, 11, 26), 3, date(2027, 2, 26)),
        (date(2026, 11, 30), 3, date(2027, 2, 28)),
        (date(2027, 11, 30), 3, date(2028, 2, 29)),
        (date(2026, 9, 30), 3, date(2026, 12, 30)),
        (date(2026, 12, 1), 1, date(2027, 1, 1)),
        (date(2026, 1, 31), 12, date(2027, 1, 31)),
    ],
)
def test_keep_by_counts_months(made_on: date, months: int, until: date) -> None:
    assert keep_by(made_on, months) == until


@pytest.mark.parametrize("volume_l", [0.0, -1.0, 101.0])
def test_a_bottle_of_no_size_is_asked_back(volume_l: float) -> None:
    with pytest.raises(InputError, match="not the volume of a bottle"):
        stock_of_strength(((EPSOM, 50.0),), volume_l)


def test_what_to_weigh_in_words() -> None:
    parts = ((EPSOM, 51.3), (salt("KNO3", "Potassium nitrate"), 5.0))
    stock, doses = stock_of_strength(parts, 0.5, [SCALE])
    assert stock_words.weigh_texts(doses, stock) == (
        "Weigh 26 g of Epsom salt: 101.4 % of the strength meant.",
        "Weigh 3 g of Potassium nitrate: 120 % of the strength meant.",
        (
            "The kitchen scale may be off by 20 % of it: a larger bottle is weighed "
            "better."
        ),
        "Fill up with water to 500 mL.",
    )
    stock, doses = stock_of_strength(((EPSOM, 50.0),), 2.0, [SCALE])
    assert stock_words.weigh_texts(doses, stock) == (
        "Weigh 100 g of Epsom salt.",
        "Fill up with water to 2 L.",
    )


def test_what_a_bottle_holds_and_gives_in_words() -> None:
    parts = ((EPSOM, 52.0), (salt("KNO3", "Potassium nitrate"), 6.0))
    stock, _ = stock_of_strength(parts, 0.5, [SCALE])
    assert stock_words.contents_texts(stock) == (
        "26 g of Epsom salt in 500 mL (52 g/L)",
        "3 g of Potassium nitrate in 500 mL (6 g/L)",
    )
    assert stock_words.ml_texts(stock) == (
        "19.2 mL hold 1 g of Epsom salt.",
        "167 mL hold 1 g of Potassium nitrate.",
    )
    assert stock_words.label_use_texts(stock) == (
        "10 mL hold 0.52 g of Epsom salt.",
        "10 mL hold 0.06 g of Potassium nitrate.",
        "10 mL made up to a litre give 8 ppm N.",
    )
    # 6 g/L at 13.8 % N are 828 mg N in a litre
    assert stock_words.nitrogen_mg_per_l(stock) == pytest.approx(828)
    assert stock_words.use_text(stock, 10) == ("10 mL in a litre of feed give 8 ppm N.")
    assert stock_words.use_text(stock, 0.61).endswith(
        "0.61 mL in a litre of feed give 1 ppm N."
    )
    assert stock_words.use_text(stock, 0.6) == "0.6 mL in a litre of feed."


def test_days_of_a_bottle_in_words() -> None:
    made_on, until = date(2026, 11, 26), date(2027, 2, 26)
    assert stock_words.days_texts(made_on, until) == (
        "Made on 26 November 2026.",
        "Use by 26 February 2027.",
    )
    assert stock_words.days_texts(made_on, None)[1] == "Use while it is clear."
    assert stock_words.past_its_day_text("Epsom", date(2026, 9, 1), made_on) == (
        "Epsom was to be used by 1 September: make the bottle anew."
    )
    assert stock_words.lasts_text(None, 2.0) == ""
    told = "Shake well. Not used if cloudy or with crystals."
    assert stock_words.clear_text() == told
    assert stock_words.room_text(room()) == (
        "Judged by 80 % of what dissolves at 15 °C, to be safe."
    )


@pytest.mark.parametrize(
    ("litres", "exact", "up"),
    [
        (0.04, "40 mL", "50 mL"),
        (0.05, "50 mL", "50 mL"),
        (0.051, "51 mL", "100 mL"),
        (0.999, "999 mL", "1 L"),
        (1.0, "1 L", "1 L"),
        (1.01, "1.01 L", "1.1 L"),
        (9.91, "9.91 L", "10 L"),
        (10.0, "10 L", "10 L"),
        (10.1, "10.1 L", "11 L"),
    ],
)
def test_litres_of_bottles(litres: float, exact: str, up: str) -> None:
    assert stock_words.bottle_text(litres) == exact
    assert stock_words.litres_up(litres) == up


@pytest.mark.parametrize(
    ("volume_ml", "told"),
    [(0.254, "0.25 mL"), (9.94, "9.94 mL"), (10.04, "10 mL"), (99.94, "99.9 mL")],
)
def test_millilitres_are_no_finer_than_they_are_read(
    volume_ml: float, told: str
) -> None:
    assert stock_words.ml_text(volume_ml) == told
    assert stock_words.ml_text(100.4) == "100 mL"


def test_what_is_put_in_at_nought_grams_is_no_part_of_a_bottle() -> None:
    parts = ((EPSOM, 50.0), (salt("KNO3"), 0.0))
    stock, doses = stock_of_strength(parts, 0.5, [SCALE])
    assert (stock.product, len(doses)) == (EPSOM, 1)
    planned = stock_for_ratio(parts, Ratio(100, Meaning.PART_IN), 0.5)
    assert (planned.stock.product, len(planned.doses)) == (EPSOM, 1)


def test_a_bottle_holds_up_to_100_litres() -> None:
    assert check_volume(100.0) == 100.0
    with pytest.raises(InputError) as refused:
        check_volume(100.1)
    assert refused.value.line() == (
        "volume_l: '100.1 L' is not the volume of a bottle. Write what it holds, up to "
        "100 L."
    )


def test_a_tool_that_reads_nothing_of_a_dose_is_taken_last() -> None:
    coarse = Tool(ToolKind.CYLINDER, "cylinder", 50.0, 500.0)
    dose = dose_from_stock(bottle(50), 0.5, [coarse, SYRINGE])
    assert (dose.given_ml, dose.tool, dose.loads) == (10.0, SYRINGE, 1)
    # 12 mL are two fills of the small syringe, one of the large at half a step in 12
    twice = dose_from_stock(bottle(50), 0.6, [SYRINGE, LARGE_SYRINGE])
    assert (twice.tool, twice.loads, twice.given_ml) == (LARGE_SYRINGE, 1, 12.0)
    # 8 mL on the large one are off by 6 %: the small one reads them
    assert dose_from_stock(bottle(50), 0.4, [LARGE_SYRINGE, SYRINGE]).tool == SYRINGE
