"""Amounts in the units of the grower; factors are exact by definition.

An inch is 25.4 mm and a US gallon 231 cubic inches (NIST Handbook 44, appendix C);
0 and 100 degrees Celsius are 32 and 212 degrees Fahrenheit.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain import day_words, quantity_words, volume_words
from growdesk.domain.kind_words import cell, value_text
from growdesk.domain.quantity_words import (
    amount_text,
    apart_text,
    kept_of,
    length_text,
    shown_in,
    small_text,
    temperature_text,
    unit_shown,
)
from growdesk.domain.speech import Manner, speak
from growdesk.domain.units import parse_temperature_c, parse_volume_l
from growdesk.domain.volume_words import volume_text, volume_text_fine

if TYPE_CHECKING:
    from collections.abc import Iterator

US = Manner(customary=True)
STEPS_L = {
    "mL": 0.001,
    "fl oz": volume_words.L_IN_GALLON / 1280,
    "qt": volume_words.L_IN_GALLON / 400,
    "gal": volume_words.L_IN_GALLON / 100,
}
"""What the last digit told of a volume is worth; exact by definition."""


@pytest.fixture(autouse=True)
def _english_after() -> Iterator[None]:
    yield
    speak()


@pytest.mark.parametrize(
    ("celsius", "metric", "us"),
    [
        (12, "12 °C", "54 °F"),
        (0, "0 °C", "32 °F"),
        (-40, "-40 °C", "-40 °F"),
        (15.5, "15.5 °C", "60 °F"),
        (37.7, "37.7 °C", "100 °F"),
    ],
)
def test_temperatures(celsius: float, metric: str, us: str) -> None:
    assert temperature_text(celsius) == metric
    speak(US)
    assert temperature_text(celsius) == us


def test_a_difference_has_no_zero_of_its_own() -> None:
    assert apart_text(2) == "2 °C"
    speak(US)
    assert apart_text(2) == "3.6 °F"
    assert kept_of(3.6, "°C", apart=True) == pytest.approx(2)


@pytest.mark.parametrize(
    ("litres", "metric", "us"),
    [
        (0.02, "20 mL", "20 mL"),
        (0.75, "750 mL", "25.4 fl oz"),
        (0.94635, "950 mL", "1 qt"),
        (2.35, "2.35 L", "2.48 qt"),
        (3.785411784, "3.79 L", "1 gal"),
        (5, "5 L", "1.32 gal"),
        (120, "120 L", "31.7 gal"),
    ],
)
def test_volumes(litres: float, metric: str, us: str) -> None:
    assert volume_text(litres) == metric
    speak(US)
    assert volume_text(litres) == us


def test_lengths_and_rates() -> None:
    assert [length_text(8), length_text(120), small_text(120)] == [
        "8 mm",
        "12 cm",
        "120 mm",
    ]
    speak(US)
    assert [length_text(8), length_text(120), small_text(120)] == [
        "0.31 inches",
        "4.7 inches",
        "4.7 inches",
    ]
    assert unit_shown("mm a week") == "inches a week"
    assert amount_text(20, "mm a week") == "0.79 inches a week"


def test_a_kinds_cell_is_a_machine_form_and_its_words_are_the_growers() -> None:
    speak(Manner(decimal=",", customary=True))
    assert cell("resume_root_mm", 82.5) == "82.5"
    assert value_text("resume_root_mm", 80.0) == "3,15 inches"


@settings(deadline=None)
@given(st.floats(0.0296, 200))
def test_a_volume_told_is_within_half_of_its_last_digit(litres: float) -> None:
    speak(US)
    told = volume_text(litres)
    step = STEPS_L[told.partition(" ")[2]]
    assert abs(parse_volume_l(told) - litres) <= step / 2 + 1e-9
    fine = volume_text_fine(litres)
    assert volume_text_fine(parse_volume_l(fine)) == fine


@settings(deadline=None)
@given(st.floats(-39, 59))
def test_a_temperature_told_is_within_half_a_degree(celsius: float) -> None:
    speak(US)
    told = temperature_text(celsius)
    assert abs(parse_temperature_c(told) - celsius) <= 0.5 * 5 / 9 + 1e-9
    assert temperature_text(parse_temperature_c(told)) == told


@settings(deadline=None)
@given(
    st.floats(-60, 5000),
    st.sampled_from(["°C", "mm", "mm a week", "mS/cm"]),
    st.booleans(),
    st.booleans(),
)
def test_what_is_turned_turns_back(
    value: float, unit: str, apart: bool, customary: bool
) -> None:
    speak(Manner(customary=customary))
    back = kept_of(shown_in(value, unit, apart=apart), unit, apart=apart)
    assert back == pytest.approx(value, abs=1e-9)


@settings(deadline=None)
@given(st.dates(date(1990, 1, 1), date(2100, 1, 1)), st.integers(0, 6))
def test_a_week_begins_on_the_day_chosen(day: date, begins: int) -> None:
    speak(Manner(week_begins=begins))
    first = day_words.week_start(day)
    assert first.weekday() == begins
    assert timedelta(0) <= day - first < timedelta(7)


def test_days_in_words_follow_the_order_of_the_place() -> None:
    day = date(2026, 11, 25)
    assert day_words.dated_text(day) == "25 November 2026"
    assert day_words.short_text(day) == "25 Nov"
    assert day_words.figures(day) == "2026-11-25"
    speak(Manner(day_form="{m}/{d}/{y}"))
    assert day_words.dated_text(day) == "November 25, 2026"
    assert day_words.short_text(day) == "Nov 25"
    assert day_words.figures(day) == "11/25/2026"


def test_units_have_one_name_each() -> None:
    names = [quantity_words.temperature_unit(), quantity_words.length_unit()]
    speak(US)
    names += [quantity_words.temperature_unit(), quantity_words.length_unit()]
    assert names == ["°C", "mm", "°F", "inches"]
