"""Recipes as the shelf reads them, with where they hold and what they lack."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import event

from growdesk.domain.errors import InputError
from growdesk.domain.facts import House, Place, Plant
from growdesk.domain.recipe import mixture
from growdesk.services.shelf import Shelf, read_shelf
from growdesk.services.values import PlaceDraft, TinDraft, WaterDraft
from growdesk.store.schema import RecipePartRow, RecipeRow, RecipeUseRow

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench

HOUSE = House(latitude=48.2)


def shelf_of(collection: Collection) -> Shelf:
    with collection.ledger.reading() as session:
        return read_shelf(session)


def put(
    collection: Collection,
    name: str,
    shares: dict[int, float | None],
    uses: tuple[dict[str, object], ...] = (),
    **values: object,
) -> int:
    """Write a recipe row by row and give its number."""
    with collection.ledger.writing(f"Recipe {name} added") as writing:
        recipe_id = writing.insert(RecipeRow, {"name": name, **values})
        parts = [
            {"recipe_id": recipe_id, "tin_id": tin, "share": share}
            for tin, share in shares.items()
        ]
        writing.insert_many(RecipePartRow, parts)
        writing.insert_many(
            RecipeUseRow, [{"recipe_id": recipe_id, **use} for use in uses]
        )
    return recipe_id


@pytest.fixture
def tins(collection: Collection, bench: Bench) -> tuple[int, int]:
    del bench
    add = collection.mixing.add_tin
    calcium = add(TinDraft("Calcium nitrate", "15.5-0-0 Ca 19", in_use=False)).ids[0]
    return collection.mixing.tins()[0].tin_id, calcium


def test_a_shelf_without_recipes_feeds_from_the_tin(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    shelf = shelf_of(collection)
    assert (shelf.recipes, shelf.recipe, shelf.uses) == ((), None, ())
    found = shelf.recipe_for(Plant("A1"), today, HOUSE)
    assert found is not None
    assert (found.name, found.key) == ("Green tin", None)
    assert Shelf().recipe_for(Plant("A1"), today, HOUSE) is None


def test_recipes_are_read_with_their_products_and_uses(
    collection: Collection, bench: Bench, tins: tuple[int, int]
) -> None:
    green, calcium = tins
    rain = collection.waters.all()[0].water_id
    tap = collection.waters.add(WaterDraft("tap", 0.5, in_use=False)).ids[0]
    both = put(
        collection,
        "Both",
        {green: 2.0, calcium: 1.0},
        ({"plant_id": bench.feed}, {"place_id": bench.place}),
        in_use=True,
    )
    put(
        collection,
        "Solved",
        {green: None, calcium: None},
        ({"from_day": "11-01", "until_day": "02-28"},),
        wanted_n=3.0,
        wanted_ca=1.0,
        water_id=tap,
    )
    shelf = shelf_of(collection)
    fixed, solved = shelf.recipes
    assert (fixed.name, fixed.key, fixed.wanted) == ("Both", both, None)
    assert [(p.product.key, p.share) for p in fixed.parts] == [
        (green, 2.0),
        (calcium, 1.0),
    ]
    assert shelf.recipe == fixed
    assert solved.wanted is not None
    assert (solved.wanted.n, solved.wanted.p, solved.wanted.ca) == (3.0, None, 1.0)
    assert [
        (use.recipe.name, use.tag, use.place, use.season) for use in shelf.uses
    ] == [
        ("Both", "A1", None, None),
        ("Both", None, "East sill", None),
        ("Solved", None, None, ((11, 1), (2, 28))),
    ]
    assert shelf.water_for(fixed).key == rain
    assert shelf.water_for(solved).key == tap
    tent = Plant("B1", place=Place("Tent"))
    assert shelf.recipe_for(tent, date(2026, 12, 1), HOUSE) == solved
    assert shelf.recipe_for(tent, date(2026, 6, 1), HOUSE) == fixed


def test_a_recipe_whose_tin_went_names_it_and_is_not_mixed(
    collection: Collection, tins: tuple[int, int]
) -> None:
    green, calcium = tins
    put(collection, "Both", {green: 2.0, calcium: 1.0}, in_use=True)
    collection.mixing.remove_tin(calcium)
    shelf = shelf_of(collection)
    assert shelf.recipe is not None
    assert shelf.recipe.lacking == ("Calcium nitrate",)
    with pytest.raises(InputError) as refused:
        mixture(shelf.recipe, 100, shelf.water_analysis())
    assert "Calcium nitrate, not on the shelf any more" in refused.value.problem
    collection.history.undo()
    again = shelf_of(collection).recipe
    assert again is not None
    assert again.lacking == ()


def test_what_is_said_of_a_plant_in_the_bin_is_not_said_of_the_next_with_its_tag(
    collection: Collection, bench: Bench, tins: tuple[int, int], today: date
) -> None:
    put(collection, "Own", {tins[0]: 1.0}, ({"plant_id": bench.feed},))
    collection.plants.remove([bench.feed])
    shelf = shelf_of(collection)
    assert shelf.uses == ()
    found = shelf.recipe_for(Plant("A1"), today, HOUSE)
    assert found is not None
    assert found.name == "Green tin"


def test_a_place_goes_with_what_recipes_hold_there_and_comes_back_with_it(
    collection: Collection, bench: Bench, tins: tuple[int, int]
) -> None:
    tent = collection.places.add(PlaceDraft("Tent")).ids[0]
    put(
        collection,
        "Tent feed",
        {tins[0]: 1.0},
        ({"place_id": tent}, {"place_id": tent, "plant_id": bench.feed}),
    )
    done = collection.places.remove(tent)
    assert done.problems == ("The recipe Tent feed no longer holds there.",)
    assert shelf_of(collection).uses == ()
    collection.history.undo()
    assert [use.place for use in shelf_of(collection).uses] == ["Tent", "Tent"]


def test_reading_recipes_takes_three_statements_and_one_while_there_are_none(
    collection: Collection, bench: Bench, tins: tuple[int, int], today: date
) -> None:
    del today

    def statements() -> int:
        seen: Counter[str] = Counter()

        def count(*details: object) -> None:
            seen[str(details[2])[:12]] += 1

        engine = collection.ledger.store._engine
        event.listen(engine, "before_cursor_execute", count)
        shelf_of(collection)
        event.remove(engine, "before_cursor_execute", count)
        return seen.total()

    none = statements()
    for number in range(8):
        put(collection, f"R{number}", {tins[0]: 1.0}, ({"plant_id": bench.feed},))
    assert statements() == none + 2


def test_a_day_is_shown_while_recipes_hold(
    collection: Collection, bench: Bench, tins: tuple[int, int], today: date
) -> None:
    put(collection, "Own", dict.fromkeys(tins, 1.0), ({"plant_id": bench.feed},))
    view = collection.day.view(today + timedelta(days=1))
    assert [line.tag for line in view.lines] != []
