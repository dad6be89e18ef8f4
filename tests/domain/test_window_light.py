"""The light through a window: geometry by a second reckoning, amounts against print.

How a value was read stands beside it, as in the tests of the sun.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from functools import cache
from math import cos, exp, radians, sin

import pytest
from astral import Observer
from astral.sun import azimuth, elevation
from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.domain import window_light as w
from growdesk.domain.facts import Facing, Glass, House, Place
from growdesk.domain.sun import inverse_distance, ra_mj_per_m2_d
from tests.domain.builders import HOUSE, day

SIDES = [facing for facing in Facing if facing is not Facing.OVERHEAD]
ACROSS = {  # the same window on the other half of the earth
    Facing.NORTH: Facing.SOUTH,
    Facing.NORTH_EAST: Facing.SOUTH_EAST,
    Facing.EAST: Facing.EAST,
    Facing.SOUTH_EAST: Facing.NORTH_EAST,
    Facing.SOUTH: Facing.NORTH,
    Facing.SOUTH_WEST: Facing.NORTH_WEST,
    Facing.WEST: Facing.WEST,
    Facing.NORTH_WEST: Facing.SOUTH_WEST,
    Facing.OVERHEAD: Facing.OVERHEAD,
}
IN_THE_GLASS = {  # east and west changed over
    Facing.EAST: Facing.WEST,
    Facing.NORTH_EAST: Facing.NORTH_WEST,
    Facing.SOUTH_EAST: Facing.SOUTH_WEST,
}
LATITUDES = st.floats(-90, 90, allow_nan=False)
DAYS = st.dates(date(1950, 1, 1), date(2100, 12, 31))
FACINGS = st.sampled_from(Facing)
NEAR = settings(deadline=None, max_examples=60)


def mol(facing: Facing, latitude: float, on: date) -> float:
    """Give the light outside the pane as the house has it, in mol m-2 d-1."""
    return w.outside_mol_per_m2_d(facing, latitude, on, HOUSE.clear_sky_share)


def light_of(facing: Facing, latitude: float, on: date) -> w.Daylight:
    """Give sun and sky as the house has them."""
    return w.daylight(facing, latitude, on, HOUSE.clear_sky_share)


def total(facing: Facing, latitude: float, on: date) -> float:
    """Give the radiation on a plane in MJ m-2 d-1."""
    return mol(facing, latitude, on) / w.MOL_PER_MJ


# -- the geometry, by another program's sun --------


@cache
def suns(latitude: float, on: date) -> tuple[tuple[float, float], ...]:
    """Give the sun's height and azimuth in degrees every 10 min, by astral."""
    observer = Observer(latitude, 0)
    start = datetime(on.year, on.month, on.day, tzinfo=UTC)
    times = [start + timedelta(minutes=10 * n + 5) for n in range(144)]
    return tuple(
        (elevation(observer, at, with_refraction=False), azimuth(observer, at))
        for at in times
    )


def second_reckoning(facing: Facing, latitude: float, on: date) -> w.Daylight:
    """Add sun and sky up over the clock's day; D.2 and D.4 written out once more."""
    beam = sky = 0.0
    for height_deg, azimuth_deg in suns(latitude, on):
        if height_deg <= 0:
            continue
        height = sin(radians(height_deg))
        clear = 0.98 * exp(-0.00146 * 101.3 / height - 0.075 * (14 / height) ** 0.4)
        branches = (0.35 - 0.36 * clear, 0.18 + 0.82 * clear, 0.10 + 2.08 * clear)
        from_sky = branches[0 if clear >= 0.15 else 1 if clear > 0.065 else 2]
        turned = height
        if facing is not Facing.OVERHEAD:
            off = radians(azimuth_deg - w.AZIMUTH_DEG[facing])
            turned = max(0.0, cos(radians(height_deg)) * cos(off))
        beam += 0.5 * clear * turned
        sky += height * (0.5 * from_sky + 0.5 * 0.25)
    above = 10 * 0.0820 * inverse_distance(on)
    return w.Daylight(beam * above, sky * above)


@pytest.mark.parametrize("facing", Facing)
@pytest.mark.parametrize("latitude", [0, 23, -40, 48.2, -60, 69])
def test_sun_and_sky_agree_with_a_second_reckoning(
    facing: Facing, latitude: float
) -> None:
    """FAO's declination runs up to a degree, or three days, ahead of the sun."""
    for month in (1, 3, 5, 6, 8, 10, 12):
        on = date(2027, month, 21)
        ours = light_of(facing, latitude, on)
        days = [on + timedelta(days=n) for n in (-3, 0, 3)]
        others = [second_reckoning(facing, latitude, near) for near in days]
        for got, near in zip(ours, zip(*others, strict=True), strict=True):
            assert 0.985 * min(near) - 0.05 <= got <= 1.015 * max(near) + 0.05


def test_it_tells_windows_that_lie_a_quarter_turn_apart() -> None:
    """The bounds above are narrow: a window turned by 90 degrees falls out of them."""
    on = date(2027, 3, 21)
    for facing, other in ((Facing.SOUTH, Facing.EAST), (Facing.EAST, Facing.NORTH)):
        here = light_of(facing, 48.2, on).beam_mj_per_m2_d
        there = second_reckoning(other, 48.2, on).beam_mj_per_m2_d
        assert abs(here - there) > 0.3 * max(here, there)


# -- amounts against print --------


@pytest.mark.parametrize(
    ("latitude", "on"), [(-20, "09-03"), (0, "03-21"), (40, "06-21")]
)
def test_a_high_sun_gives_half_as_fao_equation_35_does(
    latitude: float, on: str
) -> None:
    """FAO 56 eq. 35 with a = 0.25, b = 0.5 and half the sunshine: Rs = 0.5 Ra."""
    light = light_of(Facing.OVERHEAD, latitude, day(on))
    level = sum(light)
    assert level / ra_mj_per_m2_d(latitude, day(on)) == pytest.approx(0.5, abs=0.015)


@pytest.mark.parametrize("latitude", [-35, 0, 20, 40])
def test_the_sky_has_the_published_share_of_a_months_light(latitude: float) -> None:
    """Monthly means with half of Ra on the ground: 0.37 from the sky by Liu and Jordan
    (1960), 0.43 by Erbs and others (1982), 0.435 by Page (1964); all from memory.
    """
    for month in (3, 9):
        light = light_of(Facing.OVERHEAD, latitude, date(2027, month, 21))
        level = sum(light)
        assert 0.37 <= light.sky_mj_per_m2_d / level <= 0.435


def test_a_low_sun_gives_less_of_what_stands_above_the_air() -> None:
    shares = [
        total(Facing.OVERHEAD, latitude, day("12-21"))
        / ra_mj_per_m2_d(latitude, day("12-21"))
        for latitude in (0, 35, 48.2, 60)
    ]
    assert shares == sorted(shares, reverse=True)
    assert shares[-1] < 0.7 * shares[0]


def test_seattle_in_january() -> None:
    """Read: 5 to 10 mol outside (PAR Source, monthly light maps)."""
    days = [date(2027, 1, n) for n in range(1, 32)]
    mean = sum(mol(Facing.OVERHEAD, 47.6, on) for on in days) / 31
    assert 5 <= mean <= 10


@pytest.mark.parametrize("latitude", [45, 50])
def test_northern_china_in_december(latitude: float) -> None:
    """Read: 5 to 10 mol in the north in December (Sun and others, ASHS 2015)."""
    got = mol(Facing.OVERHEAD, latitude, date(2027, 12, 15))
    assert 5 <= got <= 10


def test_a_south_window_has_about_half_of_what_is_outdoors() -> None:
    """Read: outdoors 10 000 foot-candles, a south window 5000 (New York Botanical
    Garden, 40.9 N); here through two panes, over the year, with winters as clear as
    summers, as New York's nearly are (from memory).
    """
    days = [date(2027, 1, 1) + timedelta(days=5 * n) for n in range(73)]
    new_york = House(latitude=40.9, clear_sky_share_winter=0.5)
    window = Place(facing=Facing.SOUTH, glass=Glass.DOUBLE)
    outdoors = Place(facing=Facing.OVERHEAD, outdoors=True)

    def year(place: Place) -> float:
        return sum(w.at_place(place, new_york, on) or 0.0 for on in days)

    assert year(window) / year(outdoors) == pytest.approx(0.5, abs=0.05)


def test_a_clear_day_and_a_dull_one() -> None:
    """FAO 56 eq. 37: a clear day brings 0.75 of Ra at sea level; eq. 35 with no
    sunshine a quarter, of which nothing comes from the sun itself.
    """
    on = date(2027, 6, 21)
    above = ra_mj_per_m2_d(30, on)
    clear = w.daylight(Facing.OVERHEAD, 30, on, 1.0)
    dull = w.daylight(Facing.OVERHEAD, 30, on, 0.0)
    assert sum(clear) / above == pytest.approx(0.75, abs=0.02)
    assert dull.beam_mj_per_m2_d == 0
    assert sum(dull) / above == pytest.approx(0.25, abs=0.001)


@pytest.mark.parametrize(
    ("beam", "sky"), [(0.0, 0.10), (0.05, 0.204), (0.1, 0.262), (0.5, 0.17)]
)
def test_a_clear_sky_gives_its_published_share(beam: float, sky: float) -> None:
    """Allen, Trezza and Tasumi, Agric. For. Meteorol. 139 (2006): three branches, read
    in public code that quotes them; worked by hand.
    """
    assert w.sky_passed(beam) == pytest.approx(sky)


@pytest.mark.parametrize("edge", [0.15, 0.065])
def test_the_branches_of_the_clear_sky_nearly_meet(edge: float) -> None:
    below, above = w.sky_passed(edge - 1e-9), w.sky_passed(edge + 1e-9)
    assert abs(below - above) < 0.01


def test_light_for_plants_is_two_mol_per_megajoule() -> None:
    """Read: 7.265 mol per kWh (Faust and Logan, HortScience 53:1250, 2018) and 7.058
    (the same group, 2016), which is 2.02 and 1.96 mol per MJ.
    """
    assert 7.058 / 3.6 <= w.MOL_PER_MJ <= 7.265 / 3.6


# -- what a grower knows of windows --------


def test_windows_through_the_year_at_48_north() -> None:
    """Common practice, no source: south leads but in high summer, north never."""
    winter, summer = day("12-21"), day("06-21")
    by_winter = {side: total(side, 48.2, winter) for side in SIDES}
    by_summer = {side: total(side, 48.2, summer) for side in SIDES}
    assert max(by_winter, key=by_winter.__getitem__) is Facing.SOUTH
    assert by_summer[Facing.EAST] > by_summer[Facing.SOUTH] > by_summer[Facing.NORTH]
    assert by_winter[Facing.NORTH] < 0.2 * by_winter[Facing.SOUTH]
    assert by_summer[Facing.SOUTH] < 1.5 * by_winter[Facing.SOUTH]
    assert by_summer[Facing.EAST] > 4 * by_winter[Facing.EAST]


def test_a_north_window_in_winter_sees_the_sky_alone() -> None:
    light = light_of(Facing.NORTH, 48.2, day("12-21"))
    assert light.beam_mj_per_m2_d == 0
    assert total(Facing.NORTH, 48.2, day("12-21")) == pytest.approx(
        light.sky_mj_per_m2_d / 2
    )


def test_a_leaf_under_the_open_sky_sees_all_of_it() -> None:
    light = light_of(Facing.OVERHEAD, 48.2, day("06-21"))
    level = sum(light)
    assert total(Facing.OVERHEAD, 48.2, day("06-21")) == pytest.approx(level)


@pytest.mark.parametrize(
    ("place", "share"),
    [
        (Place(glass=Glass.NONE), 1.0),
        (Place(glass=Glass.SINGLE), 0.85),
        (Place(glass=Glass.DOUBLE), 0.75),
        (Place(glass=Glass.TRIPLE), 0.65),
        (Place(glass=Glass.PLASTIC), 0.8),
        (Place(), 0.75),
        (Place(outdoors=True), 1.0),
        (Place(outdoors=True, glass=Glass.TRIPLE), 1.0),
        (Place(glass=Glass.SINGLE, shaded=0.5), 0.425),
        (Place(glass=Glass.NONE, shaded=0.95), 0.05),
    ],
)
def test_glass_and_shade_take_their_share(place: Place, share: float) -> None:
    """The shares of glass are from memory, no source."""
    facing = Place(
        facing=Facing.EAST,
        glass=place.glass,
        outdoors=place.outdoors,
        shaded=place.shaded,
    )
    on = day("05-10")
    clear = w.clear_share(HOUSE, on)
    outside = w.outside_mol_per_m2_d(Facing.EAST, HOUSE.latitude, on, clear)
    assert w.at_place(facing, HOUSE, on) == pytest.approx(share * outside)


def test_without_a_facing_nothing_is_told() -> None:
    place = Place(glass=Glass.DOUBLE, shaded=0.5)
    assert w.at_place(place, HOUSE, day("05-10")) is None


# -- properties --------


@NEAR
@given(LATITUDES, DAYS, FACINGS)
def test_it_is_finite_everywhere(latitude: float, on: date, facing: Facing) -> None:
    light = light_of(facing, latitude, on)
    assert 0 <= light.beam_mj_per_m2_d < 30
    assert 0 <= light.sky_mj_per_m2_d < 20


@NEAR
@given(st.floats(70, 90), FACINGS)
def test_the_polar_night_is_dark(latitude: float, facing: Facing) -> None:
    assert mol(facing, latitude, date(2026, 12, 21)) == 0
    assert mol(facing, -latitude, date(2026, 6, 21)) == 0
    assert mol(facing, latitude, date(2026, 6, 21)) > 5


@NEAR
@given(LATITUDES, DAYS, st.sampled_from(list(IN_THE_GLASS)))
def test_morning_and_evening_windows_have_the_same(
    latitude: float, on: date, facing: Facing
) -> None:
    assert total(facing, latitude, on) == pytest.approx(
        total(IN_THE_GLASS[facing], latitude, on)
    )


@NEAR
@given(st.floats(-62, 62), st.dates(date(2026, 1, 1), date(2026, 12, 31)), FACINGS)
def test_both_halves_of_the_earth_mirror_half_a_year_apart(
    latitude: float, on: date, facing: Facing
) -> None:
    """The earth is 7 % nearer in January, by radiation; and the halves of the year are
    not quite of one length, which tells where the light changes fast.
    """
    here = total(facing, latitude, on)
    shifted = [on + timedelta(days=182 + n) for n in range(-3, 4)]
    there = [total(ACROSS[facing], -latitude, other) for other in shifted]
    assert min(there) * 0.92 - 0.05 <= here <= max(there) * 1.08 + 0.05


@NEAR
@given(st.floats(-90, 89.9), DAYS, FACINGS)
def test_it_is_continuous_in_latitude(
    latitude: float, on: date, facing: Facing
) -> None:
    here = mol(facing, latitude, on)
    there = mol(facing, latitude + 0.1, on)
    assert abs(here - there) < 0.2


@NEAR
@given(LATITUDES, DAYS, FACINGS)
def test_it_is_continuous_from_day_to_day(
    latitude: float, on: date, facing: Facing
) -> None:
    """The day after may differ most at a pole, where the sun climbs all spring."""
    here = mol(facing, latitude, on)
    there = mol(facing, latitude, on + timedelta(days=1))
    assert abs(here - there) < (0.5 if abs(latitude) <= 62 else 1.0)


# -- how clear the sky is through the year --------

JUNE, DECEMBER = date(2026, 6, 21), date(2026, 12, 21)


@pytest.mark.parametrize(
    ("latitude", "on", "share"),
    [
        (48.2, JUNE, 0.5),
        (48.2, DECEMBER, 0.3),
        (-37.0, DECEMBER, 0.5),
        (-37.0, JUNE, 0.3),
        (0.0, JUNE, 0.5),
        (0.0, DECEMBER, 0.5),
        (15.0, DECEMBER, 0.4),
    ],
)
def test_a_temperate_winter_has_fewer_clear_hours(
    latitude: float, on: date, share: float
) -> None:
    house = House(latitude=latitude)
    assert w.clear_share(house, on) == pytest.approx(share, abs=0.002)


@given(
    st.floats(-90, 90),
    st.dates(date(2024, 1, 1), date(2027, 12, 31)),
    st.floats(0, 1),
    st.floats(0, 1),
)
def test_the_clear_share_stays_between_winters_and_summers(
    latitude: float, on: date, summer: float, winter: float
) -> None:
    house = House(
        latitude=latitude, clear_sky_share=summer, clear_sky_share_winter=winter
    )
    low, high = sorted((summer, winter))
    assert low - 1e-9 <= w.clear_share(house, on) <= high + 1e-9
