"""What the decision is held to for any facts: bloom, rests, seasons, hemispheres."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING, Any, cast

import pytest
from hypothesis import HealthCheck, Phase, assume, find, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain.case import Case
from growdesk.domain.facts import Flowering, House, Overrule, Place, Plant, Verdict
from growdesk.domain.judging import judge
from growdesk.domain.kinds import Kind, Rest, Resume
from growdesk.domain.strength import strength_of
from growdesk.services import kinds
from tests.domain.builders import cases, kind_of, moving, plant

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.domain.explain import Judgement

Facts = tuple[Plant, House, date]
IN_FLOWER = frozenset({Flowering.OPEN, Flowering.FADING})
HALF_A_YEAR_DAYS = 183
KINDS = tuple(kinds.table().kinds.values())


def any_facts(examples: int) -> Callable[[Callable[[Facts], None]], Callable[[], None]]:
    slow = [HealthCheck.too_slow, HealthCheck.filter_too_much]
    limits = settings(max_examples=examples, deadline=None, suppress_health_check=slow)
    return lambda test: cast("Callable[[], None]", limits(given(facts=cases())(test)))


def with_open_flowers(one: Plant, on: date) -> Plant:
    """Give the plant with flowers open at its newest look, and nothing else changed."""
    newest = max((k for k in one.looks if k.on <= on), key=lambda k: k.on, default=None)
    assume(newest is not None)
    assert newest is not None
    stages = (newest.flowering or frozenset()) | {Flowering.OPEN}
    looks = tuple(replace(k, flowering=stages) if k is newest else k for k in one.looks)
    return replace(one, looks=looks)


def without_open_flowers(one: Plant) -> Plant:
    looks = tuple(
        replace(k, flowering=None if k.flowering is None else k.flowering - IN_FLOWER)
        for k in one.looks
    )
    return replace(one, looks=looks)


@any_facts(80)
def test_open_flowers_never_change_a_verdict_or_a_strength(facts: Facts) -> None:
    one, house, on = facts
    bare = without_open_flowers(one)
    kind = kind_of(one)
    plain = judge(bare, kind, house, on)
    flowering = judge(with_open_flowers(bare, on), kind, house, on)
    assert flowering.verdict is plain.verdict
    assert flowering.rule == plain.rule
    assert flowering.strength == plain.strength


def resting(kind: Kind, rest: Rest) -> Kind:
    """Give a kind with another rest, in the same months."""
    months = kind.rest_months or (11, 12, 1, 2)
    bare = rest is Rest.LEAFLESS
    return replace(
        kind,
        rest=rest,
        rest_months=() if rest is Rest.NONE else months,
        resume=Resume.ROOT_LENGTH if bare else None,
        resume_root_mm=80 if bare else 0,
    )


STRONGER = (
    (Rest.NONE, Rest.REDUCED),
    (Rest.REDUCED, Rest.UNFED),
    (Rest.REDUCED, Rest.NO_NITROGEN),
    (Rest.REDUCED, Rest.LEAFLESS),
)


@pytest.mark.parametrize(("weak", "strong"), STRONGER)
def test_a_stronger_rest_never_raises_strength(weak: Rest, strong: Rest) -> None:
    @any_facts(80)
    def holds(facts: Facts) -> None:
        one, house, on = facts
        kind = kind_of(one)
        less = judge(one, resting(kind, weak), house, on).strength_ppm_n or 0.0
        more = judge(one, resting(kind, strong), house, on).strength_ppm_n or 0.0
        assert more <= less

    holds()


# -- seasons ---------------------------------------------------------------------------

_latitudes = st.floats(-90, 90, allow_subnormal=False)
_days = st.dates(date(2024, 1, 1), date(2027, 12, 31))
_kinds = st.sampled_from(KINDS)
FINE = {
    "full_strength_ppm_n": 100.0,
    "strength_step_ppm_n": 1e-6,
    "strength_floor_ppm_n": 1.0,
    "strength_ceiling_ppm_n": 1000.0,
}


def season(kind: Kind, latitude: float, on: date, place: Place | None = None) -> float:
    """Give the strength of a growing plant by season alone, as per cent of full."""
    one = plant(kind.key, moving(on), place=place or Place())
    house = House(latitude=latitude, **FINE)  # type: ignore[arg-type]
    free = replace(kind, ceiling_ppm_n=None)
    return strength_of(Case(one, free, house, on)).ppm_n


@settings(max_examples=200, deadline=None)
@given(_kinds, _latitudes, _days)
def test_strength_is_continuous_in_latitude(
    kind: Kind, latitude: float, on: date
) -> None:
    """A hundredth of a degree, about a kilometre, moves it by half a per cent at most.

    At the edge of the polar night the curve is steepest: 0.003 MJ more light there is
    worth (1 + h) / h times 0.003 / 40 of full strength, 0.6 per cent where h is 0.15.
    """
    there = min(latitude + 0.01, 90.0)
    assert abs(season(kind, latitude, on) - season(kind, there, on)) <= 0.7


@settings(max_examples=200, deadline=None)
@given(_kinds, st.floats(-60, 60), _days)
def test_strength_is_continuous_in_the_day(
    kind: Kind, latitude: float, on: date
) -> None:
    """From one day to the next it moves by three per cent of full at most."""
    tomorrow = on + timedelta(days=1)
    moved = abs(season(kind, latitude, on) - season(kind, latitude, tomorrow))
    assert moved <= 3.0


@settings(max_examples=200, deadline=None)
@given(_kinds, _latitudes, _days)
def test_strength_stays_between_floor_and_ceiling(
    kind: Kind, latitude: float, on: date
) -> None:
    house = House(latitude=latitude)
    one = plant(kind.key, moving(on))
    got = strength_of(Case(one, kind, house, on))
    least = min(house.strength_floor_ppm_n, got.ceiling_ppm_n)
    assert least <= got.ppm_n <= got.ceiling_ppm_n <= house.strength_ceiling_ppm_n


# -- hemispheres -----------------------------------------------------------------------


def _moved(value: Any, by: timedelta) -> Any:
    return None if value is None else value + by


def later_by(one: Plant, by: timedelta) -> Plant:
    """Give the plant with all that is dated moved by some days."""
    said = one.overrule
    moved_word: Overrule | None = None
    if said is not None:
        moved_word = replace(said, until=said.until + by, since=_moved(said.since, by))
    readings = tuple(replace(r, on=r.on + by) for r in one.place.readings)
    return replace(
        one,
        place=replace(one.place, readings=readings),
        looks=tuple(replace(k, on=k.on + by) for k in one.looks),
        care=tuple(replace(c, on=c.on + by) for c in one.care),
        repotted_on=_moved(one.repotted_on, by),
        slow_release_until=_moved(one.slow_release_until, by),
        overrule=moved_word,
    )


def in_the_south(facts: Facts, days: int) -> Judgement:
    """Judge the same facts half a year on, as far south as they were north."""
    one, house, on = facts
    by = timedelta(days=days)
    south = replace(house, latitude=-house.latitude)
    return judge(later_by(one, by), kind_of(one), south, on + by)


@any_facts(100)
def test_the_south_is_the_north_half_a_year_on(facts: Facts) -> None:
    """Within three days either way, since the halves of the year are not equal."""
    one, house, on = facts
    north = replace(house, latitude=abs(house.latitude) or 1.0)
    there = judge(one, kind_of(one), north, on)
    nearby = range(HALF_A_YEAR_DAYS - 3, HALF_A_YEAR_DAYS + 4)
    mirrored = [in_the_south((one, north, on), days) for days in nearby]
    same = [
        got
        for got in mirrored
        if (got.verdict, got.water) == (there.verdict, there.water)
    ]
    assert same, (there.rule, [got.rule for got in mirrored])


@settings(max_examples=100, deadline=None)
@given(_kinds, st.floats(0.5, 66), _days)
def test_strength_in_the_south_follows_the_norths_half_a_year_on(
    kind: Kind, latitude: float, on: date
) -> None:
    """The sun is 3.4 per cent nearer in January (FAO 56 eq. 23), so 7 per cent apart.

    Three days either way move the season by up to three per cent of full a day.
    """
    half = timedelta(days=HALF_A_YEAR_DAYS)
    north = season(kind, latitude, on)
    south = season(kind, -latitude, on + half)
    assert south == pytest.approx(north, rel=0.07, abs=9.0)


def test_the_longest_days_feed_the_strongest_in_both_halves_of_the_earth() -> None:
    cattleya = kinds.table().kinds["cattleya"]
    months = [date(2026, month, 21) for month in range(1, 13)]
    north = [season(cattleya, 50, on) for on in months]
    south = [season(cattleya, -35, on) for on in months]
    assert months[north.index(max(north))].month == 6
    assert months[north.index(min(north))].month == 12
    assert south[11] == max(south)
    assert months[south.index(min(south))].month == 6


@pytest.mark.parametrize(
    "verdict", [Verdict.FEED, Verdict.CLEAR_WATER, Verdict.KEEP_DRY, Verdict.FLUSH]
)
def test_the_properties_are_asked_of_plants_of_every_sort(verdict: Verdict) -> None:
    """A guard: the mixtures above do reach it."""

    def reached(facts: Facts) -> bool:
        one, house, on = facts
        return judge(one, kind_of(one), house, on).verdict is verdict

    drawn = settings(
        max_examples=20_000,
        derandomize=True,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    assert reached(find(cases(), reached, settings=drawn))
