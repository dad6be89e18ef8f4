"""What 1:R means, and published injector tables.

Ids name the rows of the project's list of published values. Ounces are avoirdupois
(28.3495 g), gallons US (3.78541 L).
"""

from __future__ import annotations

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.injector import (
    Meaning,
    Ratio,
    apart_percent,
    meanings,
    parse_ratio,
)
from growdesk.domain.stock_solution import stock_for_ratio, stock_ml
from tests.domain.stock_builders import nitrogen

OUNCE_G, GALLON_L = 28.349523125, 3.785411784

TABLES = [
    ("D11", 15, 50, 100, 1, 4.5, 0.02),
    ("D11", 15, 100, 100, 1, 9, 0.02),
    ("D11", 15, 200, 100, 1, 18, 0.02),
    ("D13", 15, 50, 200, 1, 9, 0.02),
    ("D13", 15, 100, 200, 1, 18, 0.02),
    ("D13", 15, 200, 200, 1, 36, 0.02),
    ("D14", 15, 200, 100, 5, 90, 0.02),
    ("D16", 20, 200, 100, 1, 13.5, 0.02),
    ("D18", 15, 200, 100, 1, 18, 0.02),
    ("D28", 20, 200, 100, 1, 13.33, 0.002),
    ("D28", 20, 200, 200, 1, 26.66, 0.002),
    ("D48", 20, 150, 200, 1, 20.25, 0.02),
    ("D49", 20, 150, 200, 5, 101.25, 0.02),
]
"""Id, % N, ppm N, R, US gallons of stock, ounces as printed, how far the print rounds.

D11, D13, D14: Hummert Intl. newsletter 38; D16, D18: R. Yates, GrowerTalks, 1 June
2018; D28: NC Farms, 26 August 2021; D48, D49: N. Mattson, Cornell University.
"""


def ounces(percent_n: float, ppm_n: float, ratio: Ratio, gallons: float) -> float:
    feed = ((nitrogen(percent_n), ppm_n / (10 * percent_n)),)
    made = stock_for_ratio(feed, ratio, gallons * GALLON_L)
    return made.doses[0].given_g / OUNCE_G


@pytest.mark.parametrize("row", TABLES, ids=lambda row: f"{row[0]}-{row[2]}-{row[3]}")
def test_published_injector_tables(
    row: tuple[str, float, float, float, float, float, float],
) -> None:
    _, percent_n, ppm_n, parts, gallons, printed, off = row
    one_part_in = Ratio(parts, Meaning.PART_IN)
    found = ounces(percent_n, ppm_n, one_part_in, gallons)
    assert found == pytest.approx(printed, rel=off)


def test_d52_at_a_low_ratio_the_meaning_matters_most() -> None:
    """Calcium nitrate 15 % N, 125 ppm N, siphon 1:15, 20 gallons (Hort 4040 course)."""
    part_in, part_added = meanings(15)
    assert ounces(15, 125, part_in, 20) == pytest.approx(33.38, abs=0.01)
    assert ounces(15, 125, part_added, 20) == pytest.approx(35.6, abs=0.01)
    assert apart_percent(15) == pytest.approx(6.7, abs=0.05)


def test_c04_d40_at_1_to_100_they_differ_by_one_per_cent() -> None:
    """UMass: one gallon makes a hundred; Hummert and others: one added to a hundred."""
    part_in, part_added = meanings(100)
    assert (part_in.times, part_added.times) == (100, 101)
    assert part_in.water_ml_per_l == pytest.approx(990)
    assert apart_percent(100) == 1


@pytest.mark.parametrize(
    ("parts", "percent"), [(50, 2), (100, 1), (200, 0.5), (500, 0.2)]
)
def test_d41_d42_ratios_as_per_cents(parts: float, percent: float) -> None:
    """New England Greenhouse Update. D41 is a trap: slides print 0.1 % for 1:500."""
    assert Ratio(parts, Meaning.PART_IN).percent == pytest.approx(percent)


def test_d47_two_hundred_ppm_at_one_to_a_hundred_is_a_stock_of_20_000_ppm() -> None:
    """N. Mattson, Cornell: one gallon of concentrate with 99 gallons of water."""
    ratio = Ratio(100, Meaning.PART_IN)
    made = stock_for_ratio(((nitrogen(20), 1.0),), ratio, 1.0)
    ((product, grams),) = made.stock.g_per_l
    assert grams * 10 * product.analysis.n_percent == pytest.approx(20_000)
    assert ratio.water_ml_per_l / ratio.stock_ml_per_l == pytest.approx(99)


def test_m16_a_gram_in_a_litre_at_one_to_a_hundred_is_100_g_in_a_litre() -> None:
    """Commercial hydroponic farming, article on solubility."""
    ratio = Ratio(100, Meaning.PART_IN)
    made = stock_for_ratio(((nitrogen(20), 1.0),), ratio, 1.0)
    assert made.stock.g_per_l[0][1] == pytest.approx(100)
    assert made.ml_per_l == pytest.approx(10)


def test_c05_20_ml_of_a_20_000_ppm_stock_make_4_l_at_100_ppm() -> None:
    made = stock_for_ratio(((nitrogen(20), 1.0),), Ratio(100, Meaning.PART_IN), 1.0)
    product = made.stock.product
    assert product is not None
    wanted_g = 4 * 100 / (10 * 20)
    assert stock_ml(made.stock, product, wanted_g) == pytest.approx(20)


def test_c01_one_ml_of_a_stock_in_a_hundred() -> None:
    """0.500 mol/L, 1.00 mL made up to 100.00 mL: 5.00e-3 (Vanderbilt, Chem 104)."""
    assert 0.5 / Ratio(100, Meaning.PART_IN).times == pytest.approx(5.00e-3)


@pytest.mark.parametrize(
    ("typed", "chosen", "times"),
    [
        ("1 part in 100", None, 100),
        ("1 part added to 100 parts", None, 101),
        ("1:100", Meaning.PART_IN, 100),
        ("1 : 100", Meaning.PART_ADDED, 101),
        ("100", Meaning.PART_IN, 100),
        ("1 in 16", None, 16),
        ("1 in 16", Meaning.PART_ADDED, 16),
        ("1 + 15", None, 16),
        ("1 %", None, 100),
        ("0,5 %", None, 200),
        ("2%", Meaning.PART_ADDED, 50),
        ("1:128", Meaning.PART_IN, 128),
        ("1:12,5", Meaning.PART_IN, 12.5),
        ("1 to 50", Meaning.PART_ADDED, 51),
        ("1:2", Meaning.PART_IN, 2),
        ("1:2000", Meaning.PART_IN, 2000),
        ("50 %", None, 2),
        ("0.05 %", None, 2000),
    ],
)
def test_a_typed_ratio(typed: str, chosen: Meaning | None, times: float) -> None:
    assert parse_ratio(typed, chosen).times == pytest.approx(times)


@pytest.mark.parametrize(
    ("typed", "problem"),
    [
        ("1:100", "can be meant in two ways"),
        ("100", "can be meant in two ways"),
        ("", "is not a ratio that can be read"),
        ("a lot", "is not a ratio that can be read"),
        ("2:100", "is not a ratio that can be read"),
        ("1:1", "is not a ratio from"),
        ("1:0", "is not a ratio from"),
        ("1:1.9", "is not a ratio from 1:2 to 1:2000"),
        ("1:2001", "is not a ratio from"),
        ("0.04 %", "is not a share of stock"),
        ("51 %", "is not a share of stock"),
        ("1:5000", "is not a ratio from"),
        ("0 %", "is not a share of stock"),
        ("60 %", "is not a share of stock"),
    ],
)
def test_a_ratio_is_asked_back(typed: str, problem: str) -> None:
    with pytest.raises(InputError, match=problem) as caught:
        parse_ratio(typed, None)
    assert caught.value.field == "ratio"
    assert caught.value.hint


def test_a_ratio_that_is_asked_back_says_how_to_write_or_choose_it() -> None:
    with pytest.raises(InputError) as unread:
        parse_ratio("a lot", None, "injector")
    assert unread.value.line() == (
        "injector: 'a lot' is not a ratio that can be read. Write it as on the "
        'injector, for instance "1:100" or "1 %".'
    )
    with pytest.raises(InputError) as unclear:
        parse_ratio("1:100", None)
    assert unclear.value.line() == (
        "ratio: '1:100' can be meant in two ways. Choose one part in so many, or one "
        "part added to so many."
    )
