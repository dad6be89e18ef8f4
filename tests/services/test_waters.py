"""Waters are kept with all that is known; blends follow the two they are made of."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import House
from growdesk.services.recipe_values import PartDraft, RecipeDraft
from growdesk.services.shelf import house_with_water, read_waters
from growdesk.services.values import Changed, TinDraft, WaterDraft
from growdesk.store.schema import StockRow

if TYPE_CHECKING:
    from growdesk.services.collection import Collection

TAP = WaterDraft(
    "tap",
    0.6,
    in_use=False,
    name="kitchen",
    alkalinity_mg_per_l=200,
    hardness_mg_per_l=240,
    na_mg_per_l=20,
    capacity_l=None,
)
RAIN = WaterDraft("rain", 0.02, in_use=False, capacity_l=120)


def put(collection: Collection) -> tuple[int, int]:
    """Give a tap and a rain water on the shelf."""
    waters = collection.waters
    return waters.add(TAP).ids[0], waters.add(RAIN).ids[0]


def blend_of(first: int, second: int, **given: Any) -> WaterDraft:
    wanted: dict[str, Any] = {
        "kind": "blend",
        "name": "soft",
        "first_id": first,
        "second_id": second,
        "aim": "alkalinity",
        "aim_value": 60.0,
    }
    return WaterDraft(**wanted | given)


def test_all_that_is_known_comes_back(collection: Collection) -> None:
    tap, _rain = put(collection)
    views = {view.water_id: view.draft for view in collection.waters.all()}
    assert views[tap] == replace(TAP, in_use=True)  # the first one is in use


def test_a_blend_in_use_is_a_water_like_any_other(collection: Collection) -> None:
    tap, rain = put(collection)
    made = collection.waters.add(blend_of(tap, rain))
    assert made.title == "Water soft added"
    assert made.changed == Changed.SHELF
    view = collection.waters.all()[0]
    assert view.draft.in_use
    assert view.draft.first_share == pytest.approx(0.3)
    assert view.draft.alkalinity_mg_per_l == pytest.approx(60)
    assert view.draft.na_mg_per_l == pytest.approx(6)
    assert view.draft.ec_ms_per_cm == pytest.approx(0.194)
    assert view.blend is not None
    assert view.blend.first.name == "kitchen"
    with collection.ledger.reading() as session:
        shelf = read_waters(session)
    assert shelf.water_analysis().alkalinity_mg_per_l == pytest.approx(60)
    assert shelf.water_analysis().called == "soft"
    house = house_with_water(House(), shelf)
    assert house.water_ec_ms_per_cm == pytest.approx(0.194)


def test_a_blend_follows_its_waters(collection: Collection) -> None:
    tap, rain = put(collection)
    collection.waters.add(blend_of(tap, rain))
    collection.waters.change(tap, replace(TAP, alkalinity_mg_per_l=120))
    now = collection.waters.all()[0].draft
    assert now.first_share == pytest.approx(0.5)
    assert now.hardness_mg_per_l == pytest.approx(120)
    collection.history.undo()
    assert collection.waters.all()[0].draft.first_share == pytest.approx(0.3)


def test_a_blend_whose_aim_went_out_of_reach_stays_and_says_so(
    collection: Collection,
) -> None:
    tap, rain = put(collection)
    collection.waters.add(blend_of(tap, rain))
    collection.waters.change(tap, replace(TAP, alkalinity_mg_per_l=40))
    view = collection.waters.all()[0]
    assert view.blend is not None
    assert not view.blend.reached
    assert view.draft.first_share == 1.0
    collection.waters.change(tap, replace(TAP, alkalinity_mg_per_l=None))
    lost = collection.waters.all()[0]
    assert lost.draft.first_share == pytest.approx(0.3)  # the last share holds
    assert lost.draft.alkalinity_mg_per_l is None
    assert lost.draft.hardness_mg_per_l == pytest.approx(72)


def test_a_blend_saved_as_it_is_shown_keeps_nothing_of_what_follows(
    collection: Collection,
) -> None:
    tap, rain = put(collection)
    blend_id = collection.waters.add(blend_of(tap, rain)).ids[0]
    shown = collection.waters.all()[0].draft
    collection.waters.change(blend_id, replace(shown, note="for the sill"))
    collection.waters.change(tap, replace(TAP, hardness_mg_per_l=100))
    assert collection.waters.all()[0].draft.hardness_mg_per_l == pytest.approx(30)
    plain = replace(shown, kind="tap", name="plain")
    collection.waters.change(blend_id, plain)
    now = collection.waters.all()[0]
    assert now.blend is None
    assert now.draft.first_id is None
    assert now.draft.alkalinity_mg_per_l == pytest.approx(60)


@pytest.mark.parametrize(
    ("given", "field", "problem"),
    [
        ({"first_id": None}, "first_id", "is empty"),
        ({"second_id": 99}, "second_id", "is empty"),
        ({"aim": "colour"}, "aim", "is nothing a blend aims at"),
        ({"aim_value": None}, "aim_value", "is empty"),
        ({"aim_value": 300.0}, "aim_value", "cannot be had from these two"),
        ({"aim": "share", "aim_value": 1.5}, "aim_value", "no share"),
        ({"aim": "ec", "aim_value": 0.9}, "aim_value", "which hold 0.02 to 0.6"),
    ],
)
def test_a_blend_that_cannot_be(
    collection: Collection, given: dict[str, Any], field: str, problem: str
) -> None:
    tap, rain = put(collection)
    with pytest.raises(InputError, match=problem) as refused:
        collection.waters.add(blend_of(tap, rain, **given))
    assert refused.value.field == field
    assert len(collection.waters.all()) == 2


def test_no_blend_of_blends_nor_of_one_water(collection: Collection) -> None:
    tap, rain = put(collection)
    soft = collection.waters.add(blend_of(tap, rain)).ids[0]
    with pytest.raises(InputError, match="is a blend itself"):
        collection.waters.add(blend_of(soft, rain))
    with pytest.raises(InputError, match="is both of the two"):
        collection.waters.add(blend_of(tap, tap))
    with pytest.raises(InputError, match="itself part of the blend soft"):
        collection.waters.change(tap, blend_of(rain, rain))


def test_a_water_that_something_is_made_with_stays(collection: Collection) -> None:
    tap, rain = put(collection)
    soft = collection.waters.add(blend_of(tap, rain)).ids[0]
    with pytest.raises(InputError, match="is part of the blend soft") as refused:
        collection.waters.remove(rain)
    assert refused.value.hint == "Remove or change the blend first."
    assert collection.waters.remove(soft).title == "Water soft removed"
    collection.waters.remove(rain)
    assert [view.water_id for view in collection.waters.all()] == [tap]
    collection.history.undo()
    collection.history.undo()
    assert len(collection.waters.all()) == 3


@pytest.mark.parametrize(
    ("draft", "field"),
    [
        (WaterDraft(" "), "kind"),
        (WaterDraft("tap", 11), "ec_ms_per_cm"),
        (WaterDraft("tap", alkalinity_mg_per_l=-1), "alkalinity_mg_per_l"),
        (WaterDraft("tap", hardness_mg_per_l=3001), "hardness_mg_per_l"),
        (WaterDraft("tap", cl_mg_per_l=float("inf")), "cl_mg_per_l"),
        (WaterDraft("tap", capacity_l=0), "capacity_l"),
        (WaterDraft("tap", name="x" * 121), "name"),
    ],
)
def test_what_no_water_is(
    collection: Collection, draft: WaterDraft, field: str
) -> None:
    with pytest.raises(InputError) as refused:
        collection.waters.add(draft)
    assert refused.value.field == field
    assert collection.waters.all() == ()


def test_one_water_is_in_use(collection: Collection) -> None:
    tap, rain = put(collection)
    assert collection.waters.use(rain).title == "Water rain in use"
    in_use = [v.water_id for v in collection.waters.all() if v.draft.in_use]
    assert in_use == [rain]
    for call in (collection.waters.use, collection.waters.remove):
        with pytest.raises(InputError, match="not there any more"):
            call(99)
    assert tap != rain


def test_the_water_of_a_recipe_or_a_stock_solution_stays(
    collection: Collection,
) -> None:
    tap, rain = put(collection)
    tin = collection.mixing.add_tin(TinDraft("Green tin", "20-20-20")).ids[0]
    recipe = RecipeDraft("Growth", (PartDraft(tin, 1.0),), water_id=rain)
    number = collection.recipes.add(recipe).ids[0]
    with pytest.raises(InputError, match="is the water of the recipe Growth"):
        collection.waters.remove(rain)
    collection.recipes.change(number, replace(recipe, water_id=tap))
    collection.waters.remove(rain)
    with collection.ledger.writing("Bottle") as writing:
        made = {"name": "K bottle", "made_on": collection.clock.today()}
        writing.insert(StockRow, {**made, "volume_l": 0.5, "water_id": tap})
    collection.recipes.remove(number)
    with pytest.raises(InputError, match="the water of the stock solution K bottle"):
        collection.waters.remove(tap)


def test_a_name_on_two_lines_is_refused(collection: Collection) -> None:
    with pytest.raises(InputError, match="has more than one line"):
        collection.waters.add(WaterDraft("tap", name="Kitchen\ntap"))
