"""The balance of water and salts in a pot, against FAO 29 and against itself.

FAO Irrigation & Drainage Paper 29 rev. 1 (Ayers & Westcot 1985), from memory: the
leaching fraction is what drains over what is applied; the water that drains holds what
is applied over that fraction; 1 dS/m at a fraction of 0.15 drains at 6.7 dS/m, and an
ET of 1000 mm then takes 1176 mm of water.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.salt_balance import (
    Assumed,
    Course,
    Store,
    Watering,
    drained_at,
    dried,
    end_of,
    followed,
    leach_l,
    poured,
    standing_ec,
)

# The fractions of FAO 29, table 3, from memory.
FRACTIONS = (0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50)
NO_LOSS = Assumed(drying=0.0, driest=0.0, uptake=0.0, mixing=1.0)
PLAIN = Assumed(drying=0.06, driest=0.6, uptake=0.0, mixing=0.6)

shares = st.floats(0.0, 1.0)
ecs = st.floats(0.0, 5.0)
litres = st.floats(0.001, 5.0)
assumptions = st.builds(
    Assumed,
    drying=st.floats(0.0, 0.3),
    driest=st.floats(0.0, 0.9),
    uptake=shares,
    mixing=st.floats(0.05, 1.0),
)
waterings = st.builds(
    Watering,
    days=st.integers(0, 40),
    volume_l=litres,
    water_ec=ecs,
    feed_ec=st.floats(0.0, 3.0),
)


def steady_drainage(fraction: float, ec: float, mixing: float) -> float:
    """Give the mean EC of what drains once a rhythm of one litre lost has settled."""
    store, applied_l = drained_at(2.0, ec), 1.0 / (1 - fraction)
    losing = Assumed(drying=0.5, driest=0.5, uptake=0.0, mixing=mixing)
    done = poured(store, applied_l, ec, mixing)
    for _ in range(2000):
        done = poured(dried(done.store, 1, losing), applied_l, ec, mixing)
    assert done.drained_l / applied_l == pytest.approx(fraction)
    return done.drained_salts / done.drained_l


@pytest.mark.parametrize("fraction", FRACTIONS)
@pytest.mark.parametrize("mixing", [1.0, 0.6, 0.4])
def test_at_a_steady_rhythm_drainage_is_what_is_poured_over_the_leaching_fraction(
    fraction: float, mixing: float
) -> None:
    for ec in (0.4, 1.0):
        found = steady_drainage(fraction, ec, mixing)
        assert found == pytest.approx(ec / fraction, rel=1e-3)


def test_the_example_of_fao_29() -> None:
    assert round(steady_drainage(0.15, 1.0, 1.0), 1) == 6.7
    assert round(1000 / (1 - 0.15)) == 1176


def test_small_steady_drainage_is_the_pots_own_solution() -> None:
    """With little drained at a time and all of it mixed, the pot stands there too."""
    store = drained_at(1.0, 0.5)
    losing = Assumed(drying=0.009, driest=0.5, uptake=0.0, mixing=1.0)
    for _ in range(10000):
        store = poured(dried(store, 1, losing), 0.010, 0.5, 1.0).store
    assert standing_ec(store, 0.0) == pytest.approx(0.5 / 0.1, rel=0.01)


@given(capacity=litres, ec=ecs, days=st.integers(0, 400), assumed=assumptions)
def test_drying_takes_water_and_leaves_salts(
    capacity: float, ec: float, days: int, assumed: Assumed
) -> None:
    before = drained_at(capacity, ec)
    after = dried(before, days, assumed)
    assert after.salts == before.salts
    least_l = capacity * (1 - assumed.driest)
    assert least_l * (1 - 1e-9) <= after.water_l <= before.water_l


@given(capacity=litres, start=ecs, left=shares, volume=litres, ec=ecs, mixing=shares)
def test_salts_and_water_are_conserved(
    capacity: float, start: float, left: float, volume: float, ec: float, mixing: float
) -> None:
    before = Store(capacity, capacity * left, capacity * left * start)
    done = poured(before, volume, ec, mixing)
    given_salts = before.salts + volume * ec
    assert done.store.salts + done.drained_salts == pytest.approx(given_salts)
    given_l = before.water_l + volume
    assert done.store.water_l + done.drained_l == pytest.approx(given_l)
    assert done.drained_salts >= -1e-12
    if done.drained_l == 0:
        assert done.store.salts == given_salts


def test_without_drainage_every_salt_stays() -> None:
    store = drained_at(1.0, 0.3)
    losing = Assumed(drying=0.1, driest=0.5, uptake=0.0, mixing=1.0)
    for _ in range(5):
        done = poured(dried(store, 4, losing), 0.4, 1.0, 1.0)
        assert done.drained_l == 0
        store = done.store
    assert store.salts == pytest.approx(0.3 + 5 * 0.4)


@given(start=ecs, course=st.lists(waterings, max_size=12), assumed=assumptions)
def test_a_pot_never_falls_below_the_weakest_water_poured(
    start: float, course: list[Watering], assumed: Assumed
) -> None:
    weakest = min([start, *(each.water_ec for each in course)])
    store = followed(drained_at(1.0, start), _course(course), assumed)
    assert standing_ec(store, weakest) >= weakest * (1 - 1e-9)


@given(
    start=ecs,
    course=st.lists(waterings, min_size=1, max_size=12),
    assumed=assumptions,
    which=st.integers(0, 11),
    more=st.floats(0.0, 3.0),
)
def test_a_stronger_feed_never_lowers_it(
    start: float, course: list[Watering], assumed: Assumed, which: int, more: float
) -> None:
    at = which % len(course)
    each = course[at]
    stronger = Watering(each.days, each.volume_l, each.water_ec, each.feed_ec + more)
    other = [*course[:at], stronger, *course[at + 1 :]]
    plain = followed(drained_at(1.0, start), _course(course), assumed)
    fed = followed(drained_at(1.0, start), _course(other), assumed)
    assert standing_ec(fed, 0.0) >= standing_ec(plain, 0.0) - 1e-9


@given(
    start=ecs,
    left=st.floats(0.1, 1.0),
    one=litres,
    other=litres,
    ec=ecs,
    mixing=st.floats(0.05, 1.0),
)
def test_more_clear_water_never_raises_it_above_pot_or_water(
    start: float, left: float, one: float, other: float, ec: float, mixing: float
) -> None:
    before = Store(1.0, left, start * left)
    less, more = sorted((one, other))
    stood = standing_ec(before, ec)
    after = [standing_ec(poured(before, v, ec, mixing).store, ec) for v in (less, more)]
    assert max(after) <= max(stood, ec) + 1e-9
    assert abs(after[1] - ec) <= abs(after[0] - ec) + 1e-9


@given(
    start=st.floats(0.1, 10.0),
    left=st.floats(0.2, 1.0),
    water=st.floats(0.0, 1.0),
    goal=st.floats(0.05, 5.0),
    mixing=st.floats(0.1, 1.0),
)
def test_the_litres_of_a_flush_bring_the_pot_to_its_goal(
    start: float, left: float, water: float, goal: float, mixing: float
) -> None:
    before = Store(1.5, 1.5 * left, 1.5 * start)
    wanted_l = leach_l(before, water, goal, mixing)
    if wanted_l is None:
        assert goal <= water
        return
    after = standing_ec(poured(before, wanted_l, water, mixing).store, water)
    stood = standing_ec(before, water)
    assert after == pytest.approx(min(stood, goal), rel=1e-6, abs=1e-9)


def test_the_litres_of_a_flush_are_the_logarithm_of_a_mixed_reservoir() -> None:
    wanted_l = leach_l(drained_at(2.0, 3.0), 0.5, 1.0, 1.0)
    assert wanted_l == pytest.approx(2.0 * math.log(5))
    assert leach_l(drained_at(2.0, 3.0), 0.5, 1.0, 0.5) == pytest.approx(
        4.0 * math.log(5)
    )
    assert leach_l(drained_at(2.0, 0.9), 0.5, 1.0, 1.0) == 0.0
    assert leach_l(drained_at(2.0, 3.0), 1.0, 1.0, 1.0) is None


def test_uptake_is_of_the_feed_and_not_of_the_water() -> None:
    hungry = Assumed(drying=0.0, driest=0.0, uptake=1.0, mixing=1.0)
    course = _course([Watering(0, 100.0, 0.4, 1.0)])
    assert standing_ec(followed(drained_at(1.0, 2.0), course, hungry), 0.4) == (
        pytest.approx(0.4)
    )
    assert standing_ec(followed(drained_at(1.0, 2.0), course, NO_LOSS), 0.4) == (
        pytest.approx(1.4)
    )


@given(course=st.lists(waterings, max_size=8), low=ecs, more=ecs)
def test_the_range_holds_the_usual_value_and_both_ends(
    course: list[Watering], low: float, more: float
) -> None:
    ended = end_of(_course(course, (low, low + more / 2, low + more)))
    assert ended.low <= ended.ec <= ended.high


def _course(
    given_to_it: list[Watering], starts: tuple[float, float, float] = (0, 0, 0)
) -> Course:
    gentle = Assumed(drying=0.03, driest=0.45, uptake=0.35, mixing=0.78)
    harsh = Assumed(drying=0.10, driest=0.75, uptake=0.05, mixing=0.42)
    return Course(1.0, starts, tuple(given_to_it), 3, 0.1, PLAIN, gentle, harsh)
