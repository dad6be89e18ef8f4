"""Recipes kept, changed, copied, put in use and removed, and where they hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import House
from growdesk.domain.recipe import Wanted
from growdesk.services.known import load_known
from growdesk.services.recipe_values import (
    PartDraft,
    RecipeDraft,
    RecipeView,
    UseDraft,
)
from growdesk.services.shelf import read_shelf
from growdesk.services.values import Changed, PlaceDraft, TinDraft, WaterDraft

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.recipes import Recipes
    from tests.services.conftest import Bench

WINTER = ((11, 1), (2, 28))


@pytest.fixture
def recipes(collection: Collection, bench: Bench) -> Recipes:
    del bench
    for name, analysis in (
        ("Calcium nitrate", "15.5-0-0 Ca 19"),
        ("Epsom salt", "9.8 Mg + 13 S"),
    ):
        collection.mixing.add_tin(TinDraft(name, analysis, in_use=False))
    return collection.recipes


@pytest.fixture
def tins(collection: Collection, recipes: Recipes) -> dict[str, int]:
    del recipes
    return {view.draft.name: view.tin_id for view in collection.mixing.tins()}


@pytest.fixture
def growth(tins: dict[str, int]) -> RecipeDraft:
    return RecipeDraft(
        "Growth",
        (PartDraft(tins["Green tin"], 2.0), PartDraft(tins["Calcium nitrate"], 1.0)),
    )


@pytest.fixture
def solved(tins: dict[str, int]) -> RecipeDraft:
    parts = tuple(PartDraft(tin_id) for tin_id in tins.values())
    return RecipeDraft("Solved", parts, Wanted(3, k=1, ca=1, mg=0.5), note="for rain")


def one(recipes: Recipes, name: str) -> RecipeView:
    return next(view for view in recipes.all() if view.draft.name == name)


def fed_by(collection: Collection, tag: str, on: date) -> str:
    """Give the recipe of a plant of the bench on a day."""
    with collection.ledger.reading() as session:
        shelf = read_shelf(session)
        plants = [known.plant for known in load_known(session, on)]
    (plant,) = (each for each in plants if each.tag == tag)
    found = shelf.recipe_for(plant, on, House(latitude=48.2))
    assert found is not None
    return found.name


# -- kept ---------------------------------------------------------------------------


def test_a_recipe_is_kept_as_it_was_given(
    recipes: Recipes, growth: RecipeDraft, solved: RecipeDraft, bench: Bench
) -> None:
    uses = (UseDraft(bench.feed), UseDraft(None, bench.place, WINTER))
    for draft in (replace(growth, uses=uses), solved):
        done = recipes.add(draft)
        assert done.changed == Changed.SHELF
        assert done.title == f"Recipe {draft.name} added"
        assert one(recipes, draft.name) == RecipeView(done.ids[0], draft)


def test_shares_that_are_solved_for_are_none_of_the_grower_s(
    recipes: Recipes, growth: RecipeDraft
) -> None:
    recipes.add(replace(growth, wanted=Wanted(3, ca=1)))
    assert {part.share for part in one(recipes, "Growth").draft.parts} == {None}


def test_a_change_is_one_step_that_undo_takes_back(
    collection: Collection, recipes: Recipes, growth: RecipeDraft, bench: Bench
) -> None:
    (number,) = recipes.add(replace(growth, uses=(UseDraft(bench.feed),))).ids
    before = one(recipes, "Growth")
    changed = RecipeDraft(
        "Summer", growth.parts[:1], in_use=True, uses=(UseDraft(bench.clear),)
    )
    recipes.change(number, changed)
    assert recipes.all() == (RecipeView(number, changed),)
    collection.history.undo()
    assert recipes.all() == (before,)
    collection.history.redo()
    assert recipes.all() == (RecipeView(number, changed),)


def test_saving_the_same_again_writes_nothing(
    collection: Collection, recipes: Recipes, growth: RecipeDraft, bench: Bench
) -> None:
    draft = replace(growth, uses=(UseDraft(bench.feed), UseDraft(season=WINTER)))
    (number,) = recipes.add(draft).ids
    before = collection.history.view()
    assert recipes.change(number, draft).changed == Changed.NOTHING
    assert collection.history.view() == before


def test_one_recipe_at_most_is_in_use(
    collection: Collection,
    recipes: Recipes,
    growth: RecipeDraft,
    solved: RecipeDraft,
    today: date,
) -> None:
    assert fed_by(collection, "A1", today) == "Green tin"
    (first,) = recipes.add(growth).ids
    assert fed_by(collection, "A1", today) == "Green tin"
    recipes.use(first)
    assert fed_by(collection, "A1", today) == "Growth"
    recipes.add(replace(solved, in_use=True))
    assert [view.draft.in_use for view in recipes.all()] == [True, False]
    assert fed_by(collection, "A1", today) == "Solved"


def test_a_copy_holds_nowhere_and_has_a_name_of_its_own(
    recipes: Recipes, growth: RecipeDraft, bench: Bench
) -> None:
    draft = replace(growth, in_use=True, uses=(UseDraft(bench.feed),))
    (number,) = recipes.add(draft).ids
    assert recipes.copy(number).title == "Recipe Growth copied"
    recipes.copy(number)
    copies = [one(recipes, f"Growth, copy{more}").draft for more in ("", " 2")]
    for copied in copies:
        assert (copied.parts, copied.uses, copied.in_use) == (growth.parts, (), False)
    assert one(recipes, "Growth").draft == draft


def test_a_recipe_that_went_is_told_and_comes_back(
    collection: Collection,
    recipes: Recipes,
    growth: RecipeDraft,
    bench: Bench,
    today: date,
) -> None:
    uses = (UseDraft(bench.feed), UseDraft(None, bench.place, WINTER))
    (number,) = recipes.add(replace(growth, uses=uses)).ids
    done = recipes.remove(number)
    assert done.problems == ("It held for A1; East sill, 11-01 to 02-28.",)
    assert recipes.all() == ()
    assert fed_by(collection, "A1", today) == "Green tin"
    with pytest.raises(InputError, match="not there any more"):
        recipes.remove(number)
    collection.history.undo()
    assert fed_by(collection, "A1", today) == "Growth"


def test_a_tin_that_recipes_need_goes_and_they_are_told(
    collection: Collection,
    recipes: Recipes,
    growth: RecipeDraft,
    tins: dict[str, int],
) -> None:
    (number,) = recipes.add(growth).ids
    done = collection.mixing.remove_tin(tins["Calcium nitrate"])
    assert done.problems == ("The recipe Growth needs it.",)
    assert one(recipes, "Growth").lacking == ("Calcium nitrate",)
    with pytest.raises(InputError, match="not on the shelf any more"):
        recipes.change(number, replace(growth, note="still"))
    recipes.change(number, replace(growth, parts=growth.parts[:1]))
    assert one(recipes, "Growth").lacking == ()


# -- where it holds -----------------------------------------------------------------


def test_a_word_given_anew_is_taken_from_the_recipe_that_had_it(
    collection: Collection,
    recipes: Recipes,
    growth: RecipeDraft,
    solved: RecipeDraft,
    bench: Bench,
    today: date,
) -> None:
    recipes.add(replace(growth, uses=(UseDraft(bench.feed), UseDraft(season=WINTER))))
    done = recipes.add(replace(solved, uses=(UseDraft(bench.feed),)))
    assert done.problems == ("A1 was fed by Growth until now.",)
    assert one(recipes, "Growth").draft.uses == (UseDraft(season=WINTER),)
    assert fed_by(collection, "A1", today) == "Solved"


def test_what_holds_for_a_place_holds_for_its_plants(
    collection: Collection,
    recipes: Recipes,
    growth: RecipeDraft,
    bench: Bench,
    today: date,
) -> None:
    tent = collection.places.add(PlaceDraft("Tent")).ids[0]
    recipes.add(replace(growth, uses=(UseDraft(place_id=tent),)))
    assert fed_by(collection, "A1", today) == "Green tin"
    (number,) = [i for i, tag in recipes.board().plants if tag == "A1"]
    draft = collection.plants.some([number])[0]
    collection.plants.change(number, replace(draft, place_id=tent))
    assert fed_by(collection, "A1", today) == "Growth"
    assert bench.feed == number


def test_the_board_offers_what_there_is_in_order(
    recipes: Recipes, growth: RecipeDraft
) -> None:
    recipes.add(growth)
    board = recipes.board()
    assert [tag for _, tag in board.plants] == ["A1", "A2", "A3", "A10"]
    assert [name for _, name in board.places] == ["East sill"]
    assert len(board.tins) == 3
    assert [view.draft.name for view in board.recipes] == ["Growth"]


# -- looked at ----------------------------------------------------------------------


def test_a_look_tells_wanted_got_and_the_water_s_part(
    collection: Collection, recipes: Recipes, solved: RecipeDraft
) -> None:
    tap = collection.waters.add(
        WaterDraft("tap", 0.5, in_use=False, ca_mg_per_l=20, name="Kitchen tap")
    ).ids[0]
    look = recipes.look(solved, 90, tap)
    rows = {row.element: row for row in look.rows}
    assert look.water == "Kitchen tap"
    assert look.strength_ppm_n == pytest.approx(90)
    assert rows["Ca"].wanted_mg_per_l == pytest.approx(30)
    assert rows["Ca"].from_water_mg_per_l == 20
    assert rows["P"].wanted_mg_per_l is None
    assert rows["P"].off_mg_per_l is None
    assert rows["K"].off_mg_per_l == pytest.approx(rows["K"].got_mg_per_l - 30)
    assert recipes.look(solved, 90).water == "rain"
    assert recipes.look(replace(solved, water_id=tap), 90).water == "Kitchen tap"


def test_a_look_writes_nothing(
    collection: Collection, recipes: Recipes, growth: RecipeDraft
) -> None:
    before = collection.history.view()
    assert recipes.look(growth, 100).doses[0][1] == pytest.approx(2 / 5.55, rel=1e-6)
    assert collection.history.view() == before


# -- refused ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "field", "problem"),
    [
        ({"name": " "}, "name", "is empty"),
        ({"name": "two\nlines"}, "name", "more than one line"),
        ({"parts": ()}, "parts", "names no product"),
        ({"parts": (PartDraft(99, 1.0),)}, "parts", "not on the shelf any more"),
        ({"parts": (PartDraft(1, 1.0),) * 2}, "parts", "names a tin twice"),
        ({"parts": (PartDraft(1, None),)}, "parts", "has no share"),
        ({"parts": (PartDraft(1, 0.0),)}, "parts", ""),
        ({"parts": (PartDraft(3, 1.0),)}, "parts", "brings no nitrogen"),
        ({"wanted": Wanted(0, 1)}, "wanted", "wants no nitrogen"),
        ({"wanted": Wanted(3, -1)}, "wanted", ""),
        ({"water_id": 99}, "water", "not there any more"),
        ({"uses": (UseDraft(),)}, "uses", "says nowhere"),
        ({"uses": (UseDraft(plant_id=99),)}, "uses", "not there any more"),
        ({"uses": (UseDraft(place_id=99),)}, "uses", "not there any more"),
        ({"uses": (UseDraft(season=((2, 30), (3, 1))),)}, "uses", "no day of the year"),
    ],
)
def test_what_cannot_be_kept_names_its_field_and_nothing_is_written(
    recipes: Recipes,
    growth: RecipeDraft,
    changes: dict[str, object],
    field: str,
    problem: str,
) -> None:
    with pytest.raises(InputError) as refused:
        recipes.add(replace(growth, **changes))
    assert refused.value.field == field
    assert problem in refused.value.problem
    assert recipes.all() == ()


def test_two_recipes_of_one_name_are_refused(
    recipes: Recipes, growth: RecipeDraft, solved: RecipeDraft
) -> None:
    (number,) = recipes.add(growth).ids
    with pytest.raises(InputError, match="is a recipe already"):
        recipes.add(replace(solved, name="GROWTH"))
    recipes.remove(number)
    recipes.add(replace(solved, name="GROWTH"))


@pytest.mark.parametrize("strength", [0.0, -5.0, 5000.0, float("nan")])
def test_a_look_at_no_strength_is_refused(
    recipes: Recipes, growth: RecipeDraft, strength: float
) -> None:
    with pytest.raises(InputError) as refused:
        recipes.look(growth, strength)
    assert refused.value.field == "strength"


def test_a_recipe_that_lacks_a_tin_is_refused_by_the_name_of_the_tin(
    collection: Collection,
) -> None:
    feed = collection.mixing.add_tin(TinDraft("Feed", "20-20-20")).ids[0]
    epsom = collection.mixing.add_tin(TinDraft("Epsom", "0-0-0 + 9.8 Mg")).ids[0]
    draft = RecipeDraft("Two", (PartDraft(feed, 2.0), PartDraft(epsom, 1.0)))
    recipe = collection.recipes.add(draft).ids[0]
    collection.mixing.remove_tin(epsom)
    with pytest.raises(InputError) as refused:
        collection.recipes.change(recipe, replace(draft, name="Two salts"))
    assert refused.value.value == "Epsom"
    assert refused.value.problem == "is not on the shelf any more"


def test_next_to_no_nitrogen_wanted_is_refused(collection: Collection) -> None:
    tin = collection.mixing.add_tin(TinDraft("Feed", "20-20-20")).ids[0]
    draft = RecipeDraft("Thin", (PartDraft(tin),), Wanted(1e-320, 1.0))
    with pytest.raises(InputError, match="wants no nitrogen"):
        collection.recipes.add(draft)
    collection.recipes.add(replace(draft, wanted=Wanted(0.0001, 1.0)))
    assert collection.day.view() is not None
