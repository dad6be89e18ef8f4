"""Light of any meter becomes PPFD; the factors are held to what was published."""

from __future__ import annotations

import pytest

from growdesk.domain.light_units import LUX_PER_FC, LightUnit, fahrenheit_as_c, ppfd


def test_a_foot_candle_is_a_lumen_per_square_foot() -> None:
    """The foot is 0.3048 m by definition; tables print 10.764 lux."""
    assert round(LUX_PER_FC, 3) == 10.764
    assert ppfd(1.0, LightUnit.FC) == pytest.approx(ppfd(10.764, LightUnit.LUX), 1e-5)


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [(32, 0), (212, 100), (-40, -40), (98.6, 37), (70, 21.11)],
)
def test_degrees_by_their_definition(fahrenheit: float, celsius: float) -> None:
    assert fahrenheit_as_c(fahrenheit) == pytest.approx(celsius, abs=0.005)


def test_daylight_by_the_conversion_page() -> None:
    """Apogee Instruments, conversion page: 1 fc is 0.200; 10 020 fc are 2000."""
    assert ppfd(1.0, LightUnit.FC) == pytest.approx(0.200, abs=0.001)
    assert ppfd(10_020, LightUnit.FC) == pytest.approx(2000, rel=0.005)


def test_full_sun_in_three_units() -> None:
    """Thimijan & Heins, HortScience 1983: 950 W m-2, 95 000 lux, 1800 µmol m-2 s-1.

    Their 950 W m-2 give 6 % more by the factor of Faust & Logan (2018), whose sun has
    45 % of its energy in the photosynthetic band.
    """
    assert ppfd(95_000, LightUnit.LUX) == pytest.approx(1800, rel=0.03)
    assert ppfd(950, LightUnit.W_PER_M2) == pytest.approx(1800, rel=0.07)
    assert ppfd(1800, LightUnit.PPFD) == 1800


def test_a_kilowatt_hour_of_sun() -> None:
    """Faust & Logan 2018 print 7.265 mol; Logan, Sams & Faust 2016 print 7.058."""
    mol = ppfd(1000, LightUnit.W_PER_M2) * 3600 / 1e6
    assert mol == pytest.approx(7.265, rel=0.002)
    assert mol == pytest.approx(7.058, rel=0.03)
