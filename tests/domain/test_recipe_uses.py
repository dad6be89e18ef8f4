"""Which recipe a plant is fed by: the narrower word first, in both hemispheres."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import permutations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.facts import Place, Plant
from growdesk.domain.product import Product
from growdesk.domain.recipe import Recipe, single
from growdesk.domain.recipe_uses import RecipeUse, recipe_for

NORTH, SOUTH = 48.2, -37.0
A1 = Plant("A1", place=Place("East sill"))
A2 = Plant("A2", place=Place("Tent"))
SUMMER = ((5, 1), (9, 15))
WINTER = ((11, 1), (2, 28))


def recipe(name: str) -> Recipe:
    return single(Product(name, parse_analysis("20-20-20")))


GROWTH, BLOOM, REST, HOUSE_FEED, OWN = map(
    recipe, ("Growth", "Bloom", "Rest", "House feed", "Own")
)


def said(
    plant: Plant, on: date, *uses: RecipeUse, latitude: float = NORTH
) -> str | None:
    found = recipe_for(plant, on, uses, HOUSE_FEED, latitude)
    return None if found is None else found.name


def test_the_recipe_in_use_where_nothing_else_is_said() -> None:
    assert said(A1, date(2026, 7, 1)) == "House feed"
    assert recipe_for(A1, date(2026, 7, 1), (), None, NORTH) is None


def test_plant_before_place_before_season() -> None:
    uses = (
        RecipeUse(GROWTH, season=SUMMER),
        RecipeUse(BLOOM, place="East sill"),
        RecipeUse(OWN, tag="A1"),
    )
    on = date(2026, 7, 1)
    for order in permutations(uses):
        assert said(A1, on, *order) == "Own"
        assert said(Plant("B7", place=Place("East sill")), on, *order) == "Bloom"
        assert said(A2, on, *order) == "Growth"
        assert said(A2, date(2026, 12, 1), *order) == "House feed"


def test_a_plant_in_a_season_goes_before_the_plant_all_year() -> None:
    uses = (RecipeUse(OWN, tag="A1"), RecipeUse(REST, tag="A1", season=WINTER))
    assert said(A1, date(2026, 12, 24), *uses) == "Rest"
    assert said(A1, date(2026, 7, 1), *uses) == "Own"


def test_a_plant_all_year_goes_before_its_place_in_season() -> None:
    uses = (
        RecipeUse(OWN, tag="A1"),
        RecipeUse(BLOOM, place="East sill", season=SUMMER),
    )
    assert said(A1, date(2026, 7, 1), *uses) == "Own"


def test_what_is_said_of_a_plant_at_a_place_ends_when_it_moves() -> None:
    use = RecipeUse(OWN, tag="A1", place="East sill")
    assert said(A1, date(2026, 7, 1), use) == "Own"
    assert said(Plant("A1", place=Place("Tent")), date(2026, 7, 1), use) == "House feed"


def test_of_two_equal_words_the_later_holds() -> None:
    uses = (RecipeUse(BLOOM, tag="A1", key=9), RecipeUse(OWN, tag="A1", key=4))
    assert said(A1, date(2026, 7, 1), *uses) == "Bloom"
    assert said(A1, date(2026, 7, 1), *reversed(uses)) == "Bloom"


@pytest.mark.parametrize(
    ("on", "north", "south"),
    [
        ("2026-04-30", "House feed", "House feed"),
        ("2026-05-01", "Growth", "House feed"),
        ("2026-09-15", "Growth", "House feed"),
        ("2026-09-16", "House feed", "House feed"),
        ("2026-10-31", "House feed", "House feed"),
        ("2026-11-01", "House feed", "Growth"),
        ("2027-01-01", "House feed", "Growth"),
        ("2027-03-15", "House feed", "Growth"),
        ("2027-03-16", "House feed", "House feed"),
    ],
)
def test_a_season_turns_with_the_hemisphere(on: str, north: str, south: str) -> None:
    use = RecipeUse(GROWTH, season=SUMMER)
    when = date.fromisoformat(on)
    assert said(A1, when, use, latitude=NORTH) == north
    assert said(A1, when, use, latitude=SOUTH) == south


@pytest.mark.parametrize(
    ("on", "holds"),
    [
        ("2026-10-31", False),
        ("2026-11-01", True),
        ("2026-12-31", True),
        ("2027-01-01", True),
        ("2027-02-28", True),
        ("2027-03-01", False),
    ],
)
def test_a_season_goes_over_the_turn_of_the_year(on: str, holds: bool) -> None:
    use = RecipeUse(REST, season=WINTER)
    expected = "Rest" if holds else "House feed"
    assert said(A1, date.fromisoformat(on), use) == expected


@given(st.dates(date(2024, 1, 1), date(2030, 12, 31)))
@example(date(2024, 3, 31))
@example(date(2024, 9, 30))
@example(date(2028, 2, 29))
def test_two_halves_of_the_year_leave_no_day_out(on: date) -> None:
    halves = (
        RecipeUse(GROWTH, season=((4, 1), (9, 30))),
        RecipeUse(REST, season=((10, 1), (3, 31))),
    )
    for latitude in (NORTH, SOUTH):
        held = [use for use in halves if use.holds(A1, on, latitude)]
        assert len(held) == 1
    assert said(A1, on, *halves) != said(A1, on, *halves, latitude=SOUTH)


@given(
    st.dates(date(2024, 1, 1), date(2030, 12, 31)),
    st.permutations(
        [
            RecipeUse(GROWTH, season=SUMMER, key=1),
            RecipeUse(BLOOM, place="East sill", key=2),
            RecipeUse(OWN, tag="A1", season=WINTER, key=3),
            RecipeUse(REST, tag="A1", place="East sill", key=4),
        ]
    ),
)
def test_the_order_in_which_uses_are_read_does_not_matter(
    on: date, uses: list[RecipeUse]
) -> None:
    assert said(A1, on, *uses) == "Rest"
    assert said(A1, on, *uses[:2]) == said(A1, on, *reversed(uses[:2]))
    assert said(A1, on + timedelta(days=366), *uses) == "Rest"
