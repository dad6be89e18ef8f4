"""Which light counts for a place, what it leaves of the feed, and how it is said."""

from __future__ import annotations

import json
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain import templates, wording
from growdesk.domain.facts import Facing, Glass, House, Lamps, Place, Reading
from growdesk.domain.facts_file import parse_json, read_facts
from growdesk.domain.leaf_light import Light, at_leaf
from growdesk.domain.season_factor import MOL_PER_FC_DAY
from growdesk.domain.sun import dli_mol_per_m2
from growdesk.domain.window_light import at_place
from growdesk.services import kinds
from tests.domain.builders import HOUSE, day, judged, moving, plant

if TYPE_CHECKING:
    from growdesk.domain.explain import Step

KINDS = kinds.table().kinds
ON = day("11-25")
WINDOW = Place(facing=Facing.SOUTH, glass=Glass.DOUBLE, shaded=0.5)
LAMPS = Lamps(hours=12, ppfd=100)
LAMP_MOL = 100 * 12 * 3600 / 1e6
CALM = settings(deadline=None, max_examples=40)


def light_step(
    place: Place, on: date = ON, kind: str = "cattleya", house: House = HOUSE
) -> Step:
    strength = judged(
        plant(kind, moving(on - timedelta(days=1)), place=place), on, house
    ).strength
    assert strength is not None
    (step,) = [s for s in strength.steps if s.key in templates.LIGHT]
    return step


def read(mol: float | None, *ages: int) -> tuple[Reading, ...]:
    return tuple(
        Reading(ON - timedelta(days=age), light_mol_per_m2_d=mol) for age in ages
    )


# -- precedence --------


def test_nothing_recorded_goes_by_the_season() -> None:
    assert at_leaf(Place(), HOUSE, ON) is None
    assert light_step(Place()).key == "season-light"


@pytest.mark.parametrize("place", [Place(glass=Glass.TRIPLE), Place(shaded=0.5)])
def test_glass_and_shade_wait_for_a_facing(place: Place) -> None:
    assert light_step(place) == light_step(Place())


def test_a_window_goes_by_its_estimate() -> None:
    light = at_leaf(WINDOW, HOUSE, ON)
    assert light is not None
    assert (light.key, light.values) == ("season-window", {"facing": Facing.SOUTH})
    assert light.mol_per_m2_d == at_place(WINDOW, HOUSE, ON)


def test_lamps_go_alone_where_no_facing_is_known() -> None:
    light = at_leaf(Place(lamps=LAMPS, glass=Glass.SINGLE), HOUSE, ON)
    assert light == Light("season-lamps", dli_mol_per_m2(100, 12))
    assert light.mol_per_m2_d == pytest.approx(LAMP_MOL)


def test_a_leaf_under_lamps_in_a_window_gets_both() -> None:
    light = at_leaf(replace(WINDOW, lamps=LAMPS), HOUSE, ON)
    window = at_place(WINDOW, HOUSE, ON)
    assert light is not None
    assert window is not None
    assert light.key == "season-lamps-and-daylight"
    assert light.mol_per_m2_d == pytest.approx(LAMP_MOL + window)
    assert light.values == {
        "lamps_dli": pytest.approx(LAMP_MOL),
        "daylight_dli": pytest.approx(window),
    }


def test_what_was_read_at_the_leaf_goes_before_all() -> None:
    place = replace(WINDOW, lamps=LAMPS, readings=read(5.0, 0, 1, 2))
    light = at_leaf(place, HOUSE, ON)
    assert light is not None
    assert (light.key, light.mol_per_m2_d) == ("season-light-read", 5.0)
    assert light.values["read_days"] == 3


@pytest.mark.parametrize(
    ("ages", "counts"),
    [
        ((0, 1, 2), True),
        ((0, 10, 21), True),
        ((0, 10, 22), False),
        ((0, 1), False),
        ((-1, 0, 1), False),
        ((), False),
    ],
)
def test_light_is_read_on_three_days_of_three_weeks(
    ages: tuple[int, ...], counts: bool
) -> None:
    light = at_leaf(replace(WINDOW, readings=read(5.0, *ages)), HOUSE, ON)
    assert light is not None
    assert (light.key == "season-light-read") is counts


@pytest.mark.parametrize(
    ("window_days", "least_days", "counts"),
    [(10, 3, True), (9, 3, False), (9, 2, True), (10, 4, False)],
)
def test_how_long_and_how_often_is_the_houses_to_say(
    window_days: int, least_days: int, counts: bool
) -> None:
    house = replace(HOUSE, light_window_days=window_days, light_least_days=least_days)
    light = at_leaf(replace(WINDOW, readings=read(5.0, 0, 1, 10)), house, ON)
    assert light is not None
    assert (light.key == "season-light-read") is counts


def test_a_clearer_sky_is_the_houses_to_say() -> None:
    shares = (0.0, 0.25, 0.5, 1.0)
    houses = [replace(HOUSE, clear_sky_share=share) for share in shares]
    got = [light_step(WINDOW, house=house).factor or 0.0 for house in houses]
    assert got == sorted(got)
    assert len(set(got)) == 4


def test_a_day_without_a_light_reading_is_no_dark_day() -> None:
    readings = (*read(6.0, 0, 1, 2), *read(None, 3, 4), Reading(ON, 20.0))
    light = at_leaf(Place(readings=readings), HOUSE, ON)
    assert light is not None
    assert light.mol_per_m2_d == pytest.approx(6.0)
    assert light.values["read_days"] == 3


def test_a_controlled_place_stays_at_one_whatever_is_recorded() -> None:
    place = replace(WINDOW, controlled=True, lamps=LAMPS, readings=read(1.0, 0, 1, 2))
    step = light_step(place)
    assert (step.key, step.factor) == ("season-controlled", 1.0)


# -- how much it leaves --------


@pytest.mark.parametrize("kind", ["cattleya", "phalaenopsis", "masdevallia", "vanda"])
@pytest.mark.parametrize("mol", [0.0, 1.0, 4.0, 9.0, 60.0])
def test_light_is_held_against_what_the_kind_wants(kind: str, mol: float) -> None:
    """The middle of its light range, through the house's curve; one for every way."""
    full = KINDS[kind].light_mid_fc * MOL_PER_FC_DAY
    middle = KINDS[kind].light_mid_fc
    half = 0.4 if middle >= 2000 else 0.15 if middle < 1200 else 0.25
    light = min(mol / full, 1.0)
    expected = light * (1 + half) / (light + half)
    step = light_step(Place(readings=read(mol, 1, 2, 3)), kind=kind)
    assert step.factor == pytest.approx(expected)
    assert step.values["dli"] == pytest.approx(mol)
    assert step.values["full_dli"] == pytest.approx(full)
    lamps = Lamps(hours=24, ppfd=mol * 1e6 / 86400)
    assert light_step(Place(lamps=lamps), kind=kind).factor == pytest.approx(expected)


def test_a_darker_window_feeds_less() -> None:
    places = [
        replace(WINDOW, facing=Facing.NORTH),
        replace(WINDOW, facing=Facing.EAST),
        replace(WINDOW, facing=Facing.SOUTH_EAST),
        WINDOW,
        replace(WINDOW, shaded=None),
        replace(WINDOW, shaded=None, outdoors=True),
    ]
    got = [light_step(place).factor or 0.0 for place in places]
    assert got == sorted(got)
    assert len(set(got)) == 6


# -- both halves of the earth, and no steps --------


ACROSS = {Facing.NORTH: Facing.SOUTH, Facing.SOUTH: Facing.NORTH}


@CALM
@given(
    st.floats(1, 60),
    st.dates(date(2026, 1, 1), date(2026, 12, 31)),
    st.sampled_from((Facing.NORTH, Facing.EAST, Facing.SOUTH, Facing.OVERHEAD)),
)
def test_a_window_mirrors_across_the_equator_half_a_year_on(
    latitude: float, on: date, facing: Facing
) -> None:
    there = Place(facing=ACROSS.get(facing, facing))
    north = House(latitude=latitude)
    south = House(latitude=-latitude)
    one = light_step(Place(facing=facing), on, house=north).factor or 0.0
    other = [
        light_step(there, on + timedelta(days=182 + n), house=south).factor or 0.0
        for n in (-3, -2, -1, 0, 1, 2, 3)
    ]
    assert min(other) - 0.03 <= one <= max(other) + 0.03


@CALM
@given(
    st.floats(-62, 61.9),
    st.dates(date(2026, 1, 1), date(2026, 12, 31)),
    st.sampled_from(Facing),
    st.sampled_from(("cattleya", "phalaenopsis", "masdevallia")),
)
def test_a_tenth_of_a_degree_or_a_day_moves_it_little(
    latitude: float, on: date, facing: Facing, kind: str
) -> None:
    place = Place(facing=facing)
    here = light_step(place, on, kind, House(latitude=latitude)).factor or 0.0
    beside = light_step(place, on, kind, House(latitude=latitude + 0.1)).factor or 0.0
    next_day = on + timedelta(days=1)
    after = light_step(place, next_day, kind, House(latitude=latitude)).factor or 0.0
    assert abs(here - beside) < 0.03
    assert abs(here - after) < 0.03


# -- in words --------


@pytest.mark.parametrize(
    ("place", "opening"),
    [
        (WINDOW, "its south window gives about {dli} mol of light a day"),
        (
            replace(WINDOW, facing=Facing.NORTH_WEST),
            "its north-west window gives about {dli} mol of light a day",
        ),
        (
            Place(facing=Facing.WEST, outdoors=True),
            "open to the west it gets about {dli} mol of light a day",
        ),
        (
            Place(facing=Facing.OVERHEAD, glass=Glass.PLASTIC),
            "the roof over it lets in about {dli} mol of light a day",
        ),
        (
            Place(facing=Facing.OVERHEAD, outdoors=True, shaded=0.3),
            "under the open sky it gets about {dli} mol of light a day",
        ),
        (
            replace(WINDOW, lamps=LAMPS),
            "its lamps and the daylight give about {dli} mol of light a day",
        ),
        (Place(lamps=LAMPS), "its lamps give {dli} mol of light a day"),
        (Place(readings=read(5.04, 1, 2, 3)), "its light was read at {dli} mol a day"),
    ],
)
def test_the_strength_names_its_light(place: Place, opening: str) -> None:
    judgement = judged(plant("cattleya", moving("11-24"), place=place), ON)
    assert judgement.strength is not None
    (step,) = [s for s in judgement.strength.steps if s.key in templates.LIGHT]
    light = at_leaf(place, HOUSE, ON)
    assert light is not None
    assert step.factor is not None
    assert step.factor < 0.99
    mol = light.mol_per_m2_d
    dli = f"{mol:.1f}".removesuffix(".0") if mol < 9.95 else f"{mol:.0f}"
    full = f"{KINDS['cattleya'].light_mid_fc * MOL_PER_FC_DAY:.0f}"
    assert (
        f"{opening.format(dli=dli)} of the {full} this kind wants, which leaves "
        f"{step.factor * 100:.0f} %, {step.strength_ppm_n:.0f} ppm N"
    ) in wording.strength_sentence(judgement)


def test_each_number_of_the_season_stands_in_the_sentence() -> None:
    """Light by the window, warmth by the readings: both with what they went by."""
    cool = tuple(Reading(ON - timedelta(days=n), 13.4) for n in range(1, 15))
    one = plant("cattleya", moving("11-24"), place=replace(WINDOW, readings=cool))
    sentence = wording.strength_sentence(judged(one, ON))
    assert "its south window gives about" in sentence
    assert "a mean of 13.4 °C over 14 days of the last 21 leaves 60 %" in sentence


def test_humidity_is_shown_and_decides_nothing() -> None:
    dry, damp = (
        replace(WINDOW, readings=(Reading(ON, 20.0, humidity_percent=percent),))
        for percent in (10.0, 95.0)
    )
    looks = moving("11-24")
    assert judged(plant("cattleya", looks, place=dry), ON) == judged(
        plant("cattleya", looks, place=damp), ON
    )


SEASON_SAID = (
    "Its facing, lamps and light are not recorded, so its plants go by the light of "
    "the season."
)
BOTH_SAID = (
    "By its lamps it has 4.3 mol of light a day, and by day about 3.6 mol more today."
)


@pytest.mark.parametrize(
    ("place", "said"),
    [
        (Place(), SEASON_SAID),
        (WINDOW, "By its south window it has about 3.6 mol of light today."),
        (
            replace(WINDOW, shaded=None),
            "By its south window it has about 7.2 mol of light today.",
        ),
        (Place(lamps=LAMPS), "By its lamps it has 4.3 mol of light a day."),
        (
            Place(readings=read(12.34, 0, 1, 2)),
            "Its light was read at 12 mol a day, the mean of 3 days.",
        ),
        (replace(WINDOW, lamps=LAMPS), BOTH_SAID),
        (Place(controlled=True, facing=Facing.SOUTH), "It is lit as the plants want."),
    ],
)
def test_the_light_of_a_place_in_one_line(place: Place, said: str) -> None:
    light = at_leaf(place, HOUSE, ON)
    assert wording.light_sentence(light, ON, controlled=place.controlled) == said


def test_every_way_of_light_has_both_its_sentences() -> None:
    assert templates.LIGHT.keys() == {
        key
        for key in templates.STEPS
        if key.startswith("season-") and not key.startswith("season-temperature")
    }


# -- by the facts file --------


def test_a_facts_file_may_name_the_window_and_its_readings() -> None:
    place = {
        "facing": "south",
        "glass": "double",
        "shaded": 0.5,
        "readings": [
            {"on": "2026-11-20", "light_mol_per_m2_d": 3.5, "humidity_percent": 60}
        ],
    }
    text = json.dumps({"plants": [{"tag": "A1", "kind": "cattleya", "place": place}]})
    _, (one,) = read_facts(parse_json(text, "a text"))
    assert light_step(one.place) == light_step(WINDOW)
    assert one.place.readings[0].humidity_percent == 60
