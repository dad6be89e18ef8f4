"""The season of a place: light by sun or lamps, and temperature. House curves."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import House, Lamps, Place, Plant, Reading
from growdesk.domain.season_factor import (
    half_light,
    light_class,
    light_factor,
    temperature_factor,
)
from growdesk.domain.sun import sun
from growdesk.services import kinds
from tests.domain.builders import HOUSE, day, judged, moving, plant, warm_place

KINDS = kinds.table().kinds


def fed_at(one: Plant, on: str, house: House = HOUSE) -> float | None:
    return judged(one, on, house).strength_ppm_n


def factor_of(one: Plant, key: str, on: str = "05-08") -> float | None:
    strength = judged(one, on).strength
    assert strength is not None
    return next((step.factor for step in strength.steps if step.key == key), None)


@pytest.mark.parametrize("month", ["01", "06", "12"])
def test_a_controlled_place_has_no_season(month: str) -> None:
    one = plant("cattleya", moving(f"{month}-05"), place=Place(controlled=True))
    assert fed_at(one, f"{month}-08") == 150


@pytest.mark.parametrize(
    ("wanted", "half"), [("bright", 0.4), ("medium", 0.25), ("low", 0.15)]
)
@pytest.mark.parametrize("light", [0.0, 0.2, 0.5, 1.0, 1.3])
def test_the_light_curve_is_the_designs(wanted: str, half: float, light: float) -> None:
    assert half_light(wanted, HOUSE) == half
    bounded = min(light, 1.0)
    expected = bounded * (1 + half) / (bounded + half)
    assert light_factor(light, half) == pytest.approx(expected)


@pytest.mark.parametrize(
    ("low", "high", "wanted"),
    [
        (3000, 5000, "bright"),
        (1500, 2500, "bright"),
        (1500, 2400, "medium"),
        (1000, 1400, "medium"),
        (1000, 1390, "low"),
    ],
)
def test_light_wanted_goes_by_the_middle_of_the_range(
    low: float, high: float, wanted: str
) -> None:
    """Bright 2000 foot-candles and more, low under 1200."""
    kind = replace(KINDS["cattleya"], light_low_fc=low, light_high_fc=high)
    assert light_class(kind, HOUSE) == wanted


def test_light_goes_by_the_suns_radiation_over_forty() -> None:
    on = day("03-08")
    light = sun(48.2, on).ra_mj_per_m2_d / 40
    expected = light * 1.4 / (light + 0.4)
    one = plant("cattleya", moving("03-05"))
    assert factor_of(one, "season-light", "03-08") == pytest.approx(expected)


@pytest.mark.parametrize(
    ("mean_c", "expected"),
    [
        (2, 0),
        (8, 0),
        (12.5, 0.5),
        (17, 1),
        (22, 1),
        (26, 1),
        (30, 0.5),
        (34, 0),
        (40, 0),
    ],
)
def test_the_temperature_curve(mean_c: float, expected: float) -> None:
    """Cattleya: base 8, best 17 to 26, stop 34 °C."""
    assert temperature_factor(KINDS["cattleya"], mean_c) == pytest.approx(expected)


def test_temperature_goes_by_the_readings_of_21_days_else_one() -> None:
    with_none = plant("cattleya", moving("06-18"))
    read = warm_place(14.3, "06-21")
    cool = replace(with_none, place=read)
    assert fed_at(with_none, "06-21") == 150
    assert factor_of(cool, "season-temperature", "06-21") == pytest.approx(0.7)
    assert fed_at(cool, "06-21") == 110


def test_older_readings_say_nothing() -> None:
    place = Place(readings=(Reading(day("05-20"), 14.3),))
    one = plant("cattleya", moving("06-18"), place=place)
    assert fed_at(one, "06-21") == 150


@pytest.mark.parametrize("month", ["01", "06"])
def test_lamps_take_the_place_of_the_sun(month: str) -> None:
    """Under lamps hours and PPFD decide, whatever the month."""
    place = Place(lamps=Lamps(hours=12, ppfd=200))
    one = plant("cattleya", moving(f"{month}-05"), place=place)
    assert factor_of(one, "season-light", f"{month}-08") is None
    assert factor_of(one, "season-lamps", f"{month}-08") == factor_of(
        one, "season-lamps", f"{month}-09"
    )


def test_more_lamp_light_feeds_more_up_to_full() -> None:
    got = [
        factor_of(
            plant("cattleya", moving("05-05"), place=Place(lamps=Lamps(hours, ppfd))),
            "season-lamps",
        )
        for hours, ppfd in ((6, 50), (12, 50), (12, 150), (14, 2000))
    ]
    assert got == sorted(got)  # type: ignore[type-var]
    assert len(set(got)) == 4
    assert got[-1] == pytest.approx(1.0)
