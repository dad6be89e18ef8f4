"""What a ticked round takes from the shelf, and how it comes back."""

from __future__ import annotations

from collections import defaultdict
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.facts import CareKind
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services.recipe_values import PartDraft, RecipeDraft, UseDraft
from growdesk.services.stock_values import StockWanted
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.services.values import PlantDraft, TinDraft, WaterDraft
from growdesk.store.schema import CareRow, DrawnRow

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench

Drawn = dict[int, dict[str, float]]


def drawn(collection: Collection) -> Drawn:
    """Give what each plant took, by ``tin 1`` or ``water 1``."""
    found: Drawn = defaultdict(dict)
    with collection.ledger.reading() as session:
        rows = session.execute(
            select(
                CareRow.plant_id,
                DrawnRow.tin_id,
                DrawnRow.stock_id,
                DrawnRow.water_id,
                DrawnRow.amount,
            ).join(CareRow, CareRow.id == DrawnRow.care_id)
        )
        for row in rows:
            pairs = zip(("tin", "stock", "water"), row[1:4], strict=True)
            ((sort, key),) = [(sort, key) for sort, key in pairs if key is not None]
            found[row.plant_id][f"{sort} {key}"] = row.amount
    return dict(found)


def second_fed(collection: Collection, bench: Bench) -> int:
    """Add a plant that is fed like A1, of twice its volume."""
    look = collection.looks.start(bench.feed, collection.clock.today())
    draft = PlantDraft("A4", "", "cattleya", bench.place, pot_volume_l=2.4)
    plant = collection.plants.add(draft).ids[0]
    collection.looks.record(plant, look)
    return plant


def test_a_ticked_plant_takes_its_share_of_the_jug_and_of_the_spare(
    collection: Collection, bench: Bench, today: date
) -> None:
    other = second_fed(collection, bench)
    (jug,) = collection.day.view().mix.jugs
    assert set(jug.tags) == {"A1", "A4"}
    # 0.3 L and 0.6 L, with 0.05 L spare, from a tin of 20 % N
    assert jug.volume_l == pytest.approx(0.9)
    assert jug.spare_l == pytest.approx(0.05)
    grams = jug.strength_ppm_n / 1000 / 0.20 * 0.95
    collection.day.tick([bench.feed], today)
    assert drawn(collection) == {
        bench.feed: {
            "tin 1": pytest.approx(grams / 3, rel=0.02),
            "water 1": pytest.approx(0.95 / 3),
        }
    }
    collection.day.tick([other, bench.clear], today)
    taken = drawn(collection)
    assert taken[bench.clear] == {"water 1": pytest.approx(0.3)}
    assert taken[bench.feed]["tin 1"] * 2 == pytest.approx(taken[other]["tin 1"])
    given = sum(dose.given_g for dose in jug.doses)
    of_tin = sum(each.get("tin 1", 0.0) for each in taken.values())
    assert of_tin == pytest.approx(given)
    of_water = sum(each["water 1"] for each in taken.values())
    assert of_water == pytest.approx(0.95 + 0.3)


def test_undo_redo_and_untick_carry_what_was_taken_along(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed, bench.clear], today)
    taken = drawn(collection)
    assert set(taken) == {bench.feed, bench.clear}
    collection.history.undo()
    assert drawn(collection) == {}
    collection.history.redo()
    assert drawn(collection) == taken
    collection.day.untick([bench.feed], today)
    assert drawn(collection) == {bench.clear: taken[bench.clear]}
    collection.history.undo()
    assert drawn(collection) == taken
    collection.day.pass_by([bench.feed, bench.clear], today)
    assert drawn(collection) == {}


def test_what_was_really_given_takes_what_that_takes(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    collection.day.give([bench.feed, bench.dry], today, CareKind.FEED, 100.0)
    # 0.3 L at 100 mg N/L from a tin of 20 % N is 0.15 g; no spare is reckoned to it
    whole = {"tin 1": pytest.approx(0.15, rel=0.02), "water 1": pytest.approx(0.3)}
    assert drawn(collection) == {bench.feed: whole, bench.dry: whole}
    collection.day.give([bench.feed], today, CareKind.FEED, None)
    assert drawn(collection)[bench.feed] == {"water 1": pytest.approx(0.3)}
    collection.day.give([bench.feed], today, CareKind.FLUSH, None)
    # a whole flush is the pot's volume
    assert drawn(collection)[bench.feed] == {"water 1": pytest.approx(1.2)}
    collection.day.give([bench.feed], today, CareKind.RAIN, None)
    assert bench.feed not in drawn(collection)


def test_a_liquid_is_taken_in_millilitres_and_a_blend_from_its_waters(
    collection: Collection, bench: Bench, today: date
) -> None:
    mixing = collection.mixing
    bottle = mixing.add_tin(TinDraft("Bottle", "7-7-7", 1.25)).ids[0]
    tap = collection.waters.add(WaterDraft("tap", 0.6)).ids[0]
    blend = WaterDraft("blend", first_id=1, second_id=tap, aim="share", aim_value=0.75)
    collection.waters.add(blend)
    (jug,) = collection.day.view().mix.jugs
    collection.day.tick([bench.feed], today)
    taken = drawn(collection)[bench.feed]
    litres = jug.volume_l + jug.spare_l
    assert taken == {
        f"tin {bottle}": pytest.approx(
            jug.strength_ppm_n / 1000 / 0.07 / 1.25 * litres, rel=0.02
        ),
        "water 1": pytest.approx(0.75 * litres),
        f"water {tap}": pytest.approx(0.25 * litres),
    }


def test_an_empty_shelf_takes_nothing(collection: Collection, today: date) -> None:
    plant = collection.plants.add(PlantDraft("A1", "", "cattleya", volume_l=0.3))
    collection.day.give(plant.ids, today, CareKind.FEED, 100.0)
    assert drawn(collection) == {}


def test_a_recipe_of_a_place_is_drawn_from_its_tins_and_its_water(
    collection: Collection, bench: Bench, today: date
) -> None:
    epsom = collection.mixing.add_tin(TinDraft("Epsom salt", "0-0-0 + 9.86 Mg"))
    tap = collection.waters.add(WaterDraft("tap", 0.6, in_use=False)).ids[0]
    parts = (PartDraft(1, 3.0), PartDraft(epsom.ids[0], 1.0))
    here = (UseDraft(place_id=bench.place),)
    recipe = RecipeDraft("Green and Epsom", parts, water_id=tap, uses=here)
    collection.recipes.add(recipe)
    collection.day.tick([bench.feed], today)
    taken = drawn(collection)[bench.feed]
    assert set(taken) == {"tin 1", f"tin {epsom.ids[0]}", f"water {tap}"}
    collection.day.give([bench.feed], today, CareKind.FEED, 100.0)
    # 0.3 L at 100 mg N/L: 0.15 g of 20 % N, and a third of that of the other
    given = drawn(collection)[bench.feed]
    assert given == {
        "tin 1": pytest.approx(0.15, rel=0.03),
        f"tin {epsom.ids[0]}": pytest.approx(0.05, rel=0.03),
        f"water {tap}": pytest.approx(0.3),
    }


def test_a_dose_from_a_bottle_is_taken_from_the_bottle(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.measures.add_tool(Tool(ToolKind.SCALE, "Kitchen scale", 1.0, 5000.0))
    collection.measures.add_tool(Tool(ToolKind.SYRINGE, "Syringe", 0.1, 10.0))
    wanted = StockWanted("Green bottle", ((1, 20.0),), volume_l=0.5)
    bottle = collection.stocks.make(wanted).ids[0]
    (jug,) = collection.day.view().mix.jugs
    (dose,) = jug.doses
    assert dose.bottle_key == bottle
    collection.day.tick([bench.feed], today)
    assert drawn(collection)[bench.feed] == {
        f"stock {bottle}": pytest.approx(dose.amount),
        "water 1": pytest.approx(jug.volume_l + jug.spare_l),
    }
    hand = collection.stocktaking.view().rows[1].hand
    assert hand is not None
    assert hand.amount == pytest.approx(500 - dose.amount)


def coarse_scale_and_bottle(collection: Collection) -> int:
    """Give half a litre of 20 g/L of the tin, beside a scale too coarse for a jug."""
    collection.measures.add_tool(Tool(ToolKind.SCALE, "Kitchen scale", 1.0, 5000.0))
    collection.measures.add_tool(Tool(ToolKind.SYRINGE, "Syringe", 0.1, 10.0))
    wanted = StockWanted("Green bottle", ((1, 20.0),), volume_l=0.5)
    return collection.stocks.make(wanted).ids[0]


def count(collection: Collection, bottle: int, ml: float, on: date) -> None:
    good = Good(Sort.STOCK, bottle)
    entry = EntryDraft(good, on, What.COUNTED, ml, after_round=False)
    collection.stocktaking.write(entry)


def left_ml(collection: Collection) -> float:
    (bottle,) = collection.stocks.bench().bottles
    return bottle.left_ml


@pytest.mark.parametrize("emptied", [False, True])
def test_a_round_half_ticked_goes_on_from_the_bottle_it_was_mixed_from(
    collection: Collection, bench: Bench, today: date, *, emptied: bool
) -> None:
    other = second_fed(collection, bench)
    bottle = coarse_scale_and_bottle(collection)
    (jug,) = collection.day.view().mix.jugs
    (dose,) = jug.doses
    count(collection, bottle, dose.amount, today)
    collection.day.tick([bench.feed], today)
    if emptied:
        collection.stocks.empty(bottle)
    assert collection.day.view().mix.jugs == (jug,)
    collection.day.tick([other], today)
    taken = drawn(collection)
    of_bottle = [taken[plant][f"stock {bottle}"] for plant in (bench.feed, other)]
    assert of_bottle == [
        pytest.approx(dose.amount / 3),
        pytest.approx(dose.amount * 2 / 3),
    ]
    if not emptied:
        assert left_ml(collection) == pytest.approx(0.0, abs=1e-9)
        assert collection.day.view().mix.short == ()


def test_a_bottle_put_away_before_a_round_is_not_drawn_from(
    collection: Collection, bench: Bench, today: date
) -> None:
    bottle = coarse_scale_and_bottle(collection)
    collection.stocks.empty(bottle)
    (jug,) = collection.day.view().mix.jugs
    assert [dose.bottle for dose in jug.doses] == [""]
    collection.day.tick([bench.feed], today)
    assert f"stock {bottle}" not in drawn(collection)[bench.feed]


def test_a_past_round_is_not_drawn_from_a_bottle_made_after_it(
    collection: Collection, bench: Bench, today: date
) -> None:
    bottle = coarse_scale_and_bottle(collection)
    before = today - timedelta(days=1)
    (jug,) = collection.day.view(before).mix.jugs
    assert [dose.bottle for dose in jug.doses] == [""]
    collection.day.tick([bench.feed], before)
    collection.day.give([bench.feed], before, CareKind.FEED, 100.0)
    assert f"stock {bottle}" not in drawn(collection)[bench.feed]


def test_a_later_round_is_not_mixed_from_what_an_earlier_one_empties(
    collection: Collection, bench: Bench, today: date
) -> None:
    assert bench.feed
    bottle = coarse_scale_and_bottle(collection)
    sooner = replace(collection.settings.house(), least_interval_days=1)
    collection.settings.save_house(sooner)
    later = collection.day.next_watering_day(today)
    ((dose,),) = [jug.doses for jug in collection.day.view(later).mix.jugs]
    assert dose.bottle_key == bottle
    count(collection, bottle, dose.amount * 1.5, today)
    ((now,),) = [jug.doses for jug in collection.day.view().mix.jugs]
    assert now.bottle_key == bottle
    ((dose,),) = [jug.doses for jug in collection.day.view(later).mix.jugs]
    assert dose.bottle_key is None


def test_a_jug_of_one_mix_weighed_and_one_from_a_bottle_is_drawn_from_both(
    collection: Collection, bench: Bench, today: date
) -> None:
    big = collection.plants.add(
        PlantDraft("A4", "", "cattleya", bench.place, pot_volume_l=12.0)
    ).ids[0]
    collection.looks.record(big, collection.looks.start(bench.feed, today))
    collection.measures.add_tool(Tool(ToolKind.SCALE, "Pocket scale", 0.1, 500.0))
    collection.measures.add_tool(Tool(ToolKind.SYRINGE, "Syringe", 0.1, 10.0))
    collection.measures.add_vessel(Vessel(VesselKind.JUG, "Jug", 3.0))
    wanted = StockWanted("Green bottle", ((1, 20.0),), volume_l=0.5)
    bottle = collection.stocks.make(wanted).ids[0]
    (jug,) = collection.day.view().mix.jugs
    (weighed,), (poured,) = [fill.doses for fill in jug.fills]
    assert (weighed.bottle_key, poured.bottle_key) == (None, bottle)
    collection.day.tick([bench.feed, big], today)
    taken = drawn(collection).values()
    assert sum(each["tin 1"] for each in taken) == pytest.approx(weighed.amount)
    of_bottle = sum(each[f"stock {bottle}"] for each in taken)
    assert of_bottle == pytest.approx(poured.amount)


def test_a_stock_solution_of_a_blend_takes_from_its_two_waters(
    collection: Collection, bench: Bench, today: date
) -> None:
    assert bench.feed
    tap = collection.waters.add(WaterDraft("tap", 0.6, in_use=False)).ids[0]
    draft = WaterDraft("blend", first_id=1, second_id=tap, aim="share", aim_value=0.75)
    blend = collection.waters.add(replace(draft, in_use=False)).ids[0]
    for water in (1, tap):
        entry = EntryDraft(
            Good(Sort.WATER, water), today, What.COUNTED, 10.0, after_round=False
        )
        collection.stocktaking.write(entry)
    wanted = StockWanted("Bottle", ((1, 20.0),), volume_l=2.0, water_id=blend)
    made = collection.stocks.make(wanted).ids[0]
    rows = {row.good: row for row in collection.stocktaking.view().rows}
    left = [rows[Good(Sort.WATER, key)].hand for key in (1, tap)]
    assert [hand and hand.amount for hand in left] == pytest.approx([8.5, 9.5])
    collection.stocks.empty(made)
    collection.waters.remove(blend)
    rows = {row.good: row for row in collection.stocktaking.view().rows}
    left = [rows[Good(Sort.WATER, key)].hand for key in (1, tap)]
    assert [hand and hand.amount for hand in left] == pytest.approx([8.5, 9.5])


@pytest.mark.usefixtures("bench")
def test_looking_at_days_to_come_and_at_sheets_draws_nothing(
    collection: Collection, today: date
) -> None:
    bottle = coarse_scale_and_bottle(collection)
    count(collection, bottle, 60.0, today)
    for ahead in range(8):
        on = today + timedelta(days=ahead)
        collection.day.view(on)
        collection.day.week(on)
        collection.sheet.week(on)
    assert drawn(collection) == {}
    assert left_ml(collection) == 60.0
