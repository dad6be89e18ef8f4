"""Stock bottles of a collection: made, refused, what is left, emptied, undone."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Reading
from growdesk.domain.injector import Meaning, Ratio
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.stock_solution import keep_by
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.services.jugs import fill
from growdesk.services.recipe_values import PartDraft, RecipeDraft
from growdesk.services.shelf import read_shelf
from growdesk.services.stock_rows import stocks_of
from growdesk.services.stock_values import AmountOf, StockView, StockWanted
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.services.values import Changed, PlaceDraft, TinDraft, WaterDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench


@pytest.fixture
def tins(collection: Collection) -> dict[str, int]:
    """Give four salts on the shelf, RO water, a scale to 0.1 g."""
    given = {
        "Calcium nitrate": ("11.9-0-0 + 17 Ca", "Ca(NO3)2.4H2O"),
        "Epsom salt": ("0-0-0 + 9.9 Mg + 13 S", "MgSO4.7H2O"),
        "Potassium nitrate": ("13.8-0-46.6", "KNO3"),
        "Potassium sulphate": ("0-0-54 + 18.4 S", "K2SO4"),
    }
    collection.waters.add(WaterDraft("ro"))
    collection.measures.add_tool(Tool(ToolKind.SCALE, "fine scale", 0.1, 200.0))
    return {
        name: collection.mixing.add_tin(TinDraft(name, label, formula=formula)).ids[0]
        for name, (label, formula) in given.items()
    }


def epsom(tins: dict[str, int], grams: float = 50.0) -> StockWanted:
    return StockWanted(parts=((tins["Epsom salt"], grams),), volume_l=0.5)


def only(collection: Collection) -> StockView:
    (found,) = collection.stocks.bench().bottles
    return found


def test_a_bottle_is_written_down_as_it_was_weighed(
    collection: Collection, tins: dict[str, int], today: date
) -> None:
    done = collection.stocks.make(epsom(tins, 51.33))
    assert done.changed is Changed.SHELF
    assert done.title == "Stock bottle Epsom salt made"
    view = only(collection)
    assert view.weighed == ((tins["Epsom salt"], 25.7),)
    assert view.stock.g_per_l[0][1] == pytest.approx(51.4)
    assert (view.made_on, view.age_days, view.is_past) == (today, 0, False)
    assert view.left_ml == 500
    months = (view.keep_by or today).month - today.month
    assert months % 12 == 3


def test_on_the_shelf_a_bottle_is_told_from_its_tin(
    collection: Collection, tins: dict[str, int]
) -> None:
    collection.stocks.make(epsom(tins))
    names = [row.name for row in collection.stocktaking.view().rows]
    assert [name for name in names if "Epsom" in name] == [
        "Epsom salt",
        "Epsom salt stock",
    ]


def test_what_it_comes_to_is_said_before_it_is_made(
    collection: Collection, tins: dict[str, int]
) -> None:
    said = collection.stocks.answer(epsom(tins, 51.33))
    assert said.weigh == (
        "Weigh 25.7 g of Epsom salt.",
        "Fill up with water to 500 mL.",
    )
    assert said.use == ("19.5 mL hold 1 g of Epsom salt.",)
    assert said.held_against == "Judged by 80 % of what dissolves at 15 °C, to be safe."
    assert (said.refused, said.way_out, said.beware) == ((), (), ())
    assert collection.stocks.bench().bottles == ()


def test_what_is_typed_in_the_wrong_unit_is_never_taken_for_the_other(
    collection: Collection, tins: dict[str, int]
) -> None:
    liquid = collection.mixing.add_tin(TinDraft("Green feed", "7-7-7", 1.2)).ids[0]
    millilitres = replace(epsom(tins), units=("mL",))
    with pytest.raises(InputError) as refused:
        collection.stocks.answer(millilitres)
    assert refused.value.line() == (
        "parts: '50 mL' is a volume, and Epsom salt has no density. Weigh it in g, or "
        "give the density with the tin if it is a liquid."
    )
    grams = StockWanted(parts=((liquid, 50.0),), volume_l=0.5, units=("g",))
    with pytest.raises(InputError, match="is a liquid"):
        collection.stocks.answer(grams)
    fits = collection.stocks.answer(replace(epsom(tins), units=("g",)))
    assert fits == collection.stocks.answer(epsom(tins))


def test_for_a_ratio_the_feed_is_what_counts(
    collection: Collection, tins: dict[str, int]
) -> None:
    wanted = StockWanted(
        parts=((tins["Potassium nitrate"], 0.5),),
        amount_of=AmountOf.FEED,
        ratio=Ratio(100, Meaning.PART_ADDED),
        volume_l=1.0,
        feed_l_per_week=5.0,
    )
    said = collection.stocks.answer(wanted)
    assert said.weigh[0] == "Weigh 50.5 g of Potassium nitrate."
    assert said.use[0] == "9.9 mL in a litre of feed give 69 ppm N."
    assert said.use[1] == "At 5 L of feed a week it lasts 20 weeks."
    with pytest.raises(InputError, match="ratio"):
        collection.stocks.answer(replace(wanted, ratio=None))


def test_what_falls_out_is_refused_with_the_way_out(
    collection: Collection, tins: dict[str, int]
) -> None:
    both = StockWanted(
        parts=((tins["Calcium nitrate"], 100.0), (tins["Epsom salt"], 50.0)),
        volume_l=1.0,
    )
    said = collection.stocks.answer(both)
    assert said.refused == (
        (
            "The calcium of Calcium nitrate and the sulphate of Epsom salt fall out as "
            "gypsum in one bottle."
        ),
    )
    assert said.way_out[0] == (
        "Make two bottles: Calcium nitrate in bottle A; Epsom salt in bottle B."
    )
    with pytest.raises(InputError, match="would not stay clear") as refused:
        collection.stocks.make(both)
    assert refused.value.field == "parts"
    assert "Make two bottles" in refused.value.hint
    assert collection.stocks.bench().bottles == ()


def test_the_coolest_of_its_place_limits_it(
    collection: Collection, tins: dict[str, int]
) -> None:
    wanted = StockWanted(parts=((tins["Potassium nitrate"], 180.0),), volume_l=1.0)
    assert collection.stocks.answer(wanted).refused == ()
    cool = collection.stocks.answer(replace(wanted, coolest_c=10.0))
    assert cool.refused == (
        (
            "Potassium nitrate at 180 g/L is too strong: kept at 10 °C, a litre holds "
            "156 g with 80 % of its solubility used."
        ),
    )
    assert cool.way_out == ("Take more water: from 1.2 L on it stays clear.",)
    house = collection.settings.house()
    collection.settings.save_house(replace(house, stock_coolest_c=10.0))
    assert collection.stocks.answer(wanted).refused == cool.refused
    with pytest.raises(InputError, match="coolest_c"):
        collection.stocks.answer(replace(wanted, coolest_c=-3.0))


@pytest.mark.parametrize(
    ("coolest_c", "share", "refused"),
    [
        (15.0, 0.8, False),
        (10.0, 0.8, True),
        (10.0, 0.93, False),
        (15.0, 0.6, True),
        (11.0, 0.8, True),
    ],
)
def test_the_house_says_how_strong_a_bottle_may_be(
    collection: Collection,
    tins: dict[str, int],
    coolest_c: float,
    share: float,
    refused: bool,
) -> None:
    house = collection.settings.house()
    collection.settings.save_house(
        replace(house, stock_coolest_c=coolest_c, stock_share=share)
    )
    wanted = StockWanted(parts=((tins["Potassium nitrate"], 180.0),), volume_l=1.0)
    assert bool(collection.stocks.answer(wanted).refused) is refused


def test_the_coolest_read_at_each_place_within_a_year(
    collection: Collection, today: date
) -> None:
    sill = collection.places.add(PlaceDraft("East sill")).ids[0]
    shed = collection.places.add(PlaceDraft("Shed")).ids[0]
    for place, back, low in ((sill, 3, 14.0), (sill, 30, 12.5), (shed, 9, 4.0)):
        day = today - timedelta(days=back)
        collection.readings.write(place, Reading(day, mean_c=18.0, low_c=low))
    old = today - timedelta(days=400)
    collection.readings.write(sill, Reading(old, mean_c=10.0, low_c=2.0))
    found = collection.stocks.bench().coolest
    assert [(each.place, each.low_c) for each in found] == [
        ("Shed", 4.0),
        ("East sill", 12.5),
    ]


@pytest.mark.parametrize("months", [1, 3, 12])
def test_the_house_says_how_long_a_bottle_keeps(
    collection: Collection, tins: dict[str, int], today: date, months: int
) -> None:
    house = collection.settings.house()
    collection.settings.save_house(replace(house, stock_keep_months=months))
    collection.stocks.make(epsom(tins))
    last = only(collection).keep_by
    assert last == keep_by(today, months)
    assert last is not None
    assert last.month == (today.month + months - 1) % 12 + 1


def test_an_old_bottle_is_past_its_day(
    collection: Collection, tins: dict[str, int], today: date
) -> None:
    made_on = today - timedelta(days=120)
    collection.stocks.make(replace(epsom(tins), made_on=made_on))
    assert (only(collection).age_days, only(collection).is_past) == (120, True)


def test_a_bottle_is_changed_emptied_and_brought_back(
    collection: Collection, tins: dict[str, int]
) -> None:
    stock_id = collection.stocks.make(epsom(tins)).ids[0]
    weighed = StockWanted(
        "Epsom, shed",
        ((tins["Epsom salt"], 24.87),),
        AmountOf.BOTTLE,
        volume_l=0.5,
        note="cloudy at first",
    )
    collection.stocks.change(stock_id, weighed)
    view = only(collection)
    assert (view.name, view.note) == ("Epsom, shed", "cloudy at first")
    assert view.weighed == ((tins["Epsom salt"], 24.87),)
    done = collection.stocks.empty(stock_id)
    assert done.title == "Stock bottle Epsom, shed emptied"
    assert collection.stocks.bench().bottles == ()
    with pytest.raises(InputError, match="not there any more"):
        collection.stocks.empty(stock_id)
    with pytest.raises(InputError, match="not there any more"):
        collection.stocks.change(stock_id, weighed)
    collection.history.undo()
    assert only(collection).name == "Epsom, shed"
    collection.history.undo()
    assert only(collection).weighed == ((tins["Epsom salt"], 25.0),)


def test_a_bottle_made_otherwise_may_be_noted_on_but_not_made_worse(
    collection: Collection, tins: dict[str, int]
) -> None:
    """What stands in the shed stands there, whatever the house rules now say."""
    strong = StockWanted(parts=((tins["Potassium nitrate"], 180.0),), volume_l=1.0)
    stock_id = collection.stocks.make(strong).ids[0]
    house = collection.settings.house()
    collection.settings.save_house(replace(house, stock_coolest_c=5.0))
    weighed = replace(strong, amount_of=AmountOf.BOTTLE, note="in the shed")
    collection.stocks.change(stock_id, weighed)
    assert only(collection).note == "in the shed"
    with pytest.raises(InputError, match="would not stay clear"):
        collection.stocks.change(
            stock_id, replace(weighed, parts=((tins["Potassium nitrate"], 181.0),))
        )


def test_a_bottle_outlives_the_tin_it_was_made_of(
    collection: Collection, tins: dict[str, int]
) -> None:
    stock_id = collection.stocks.make(epsom(tins)).ids[0]
    collection.mixing.remove_tin(tins["Epsom salt"])
    view = only(collection)
    assert view.stock.weighed[0][0].name == "Epsom salt"
    weighed = replace(
        epsom(tins, 25.0), amount_of=AmountOf.BOTTLE, note="the last of it"
    )
    collection.stocks.change(stock_id, weighed)
    assert only(collection).note == "the last of it"


def test_bottles_are_handed_to_whoever_doses_from_them(
    collection: Collection, tins: dict[str, int], today: date
) -> None:
    stock_id = collection.stocks.make(epsom(tins)).ids[0]
    with collection.ledger.reading() as session:
        shelf = read_shelf(session)
    (stock,) = stocks_of(shelf, today)
    assert (stock.key, stock.left_ml, stock.volume_l) == (stock_id, 500, 0.5)
    assert stock.product is not None
    assert stock.product.key == tins["Epsom salt"]
    assert stocks_of(shelf) == (stock,)
    assert stocks_of(shelf, today - timedelta(days=1)) == ()


@pytest.mark.parametrize(
    ("slip", "field", "problem"),
    [
        ({"parts": ()}, "parts", "is empty"),
        ({"volume_l": 0.0}, "volume_l", "is not the volume of a bottle"),
        ({"parts": ((9999, 1.0),)}, "parts", "is not on the shelf"),
        ({"name": "x" * 200}, "name", "long"),
        ({"made_on": date(2099, 1, 1)}, "made_on", "is still to come"),
        ({"keep_by": date(2001, 1, 1)}, "keep_by", "is before it was made"),
    ],
)
def test_slips_are_told_beside_their_field(
    collection: Collection,
    tins: dict[str, int],
    slip: dict[str, object],
    field: str,
    problem: str,
) -> None:
    wanted = replace(epsom(tins), **slip)
    with pytest.raises(InputError, match=problem) as told:
        collection.stocks.make(wanted)
    assert told.value.field == field


def test_amounts_that_cannot_be_meant_and_names_taken(
    collection: Collection, tins: dict[str, int]
) -> None:
    with pytest.raises(InputError, match="is no amount of Epsom salt"):
        collection.stocks.make(epsom(tins, 0.0))
    twice = replace(epsom(tins), parts=((tins["Epsom salt"], 1.0),) * 2)
    with pytest.raises(InputError, match="names a product twice"):
        collection.stocks.make(twice)
    collection.stocks.make(epsom(tins))
    with pytest.raises(InputError, match="is the name of another bottle"):
        collection.stocks.make(epsom(tins))


def test_a_liquid_is_told_in_millilitres(collection: Collection) -> None:
    tin = collection.mixing.add_tin(TinDraft("Green", "8-4-6", density_g_per_ml=1.25))
    wanted = StockWanted(parts=((tin.ids[0], 40.0),), volume_l=0.5)
    said = collection.stocks.answer(wanted)
    assert said.weigh[0] == "Measure 20 mL of Green."
    assert said.stock.weighed[0][1] == pytest.approx(25.0)


def test_a_jug_says_what_clouds_it_in_the_water_at_hand(
    collection: Collection,
) -> None:
    """Calcium beside phosphate, mixed with hard alkaline tap water or with rain."""
    collection.mixing.add_tin(TinDraft("All in one", "13-3-15 + 8 Ca + 2 Mg"))
    rain = collection.waters.add(WaterDraft("rain")).ids[0]
    tap = collection.waters.add(
        WaterDraft("tap", alkalinity_mg_per_l=300.0, ca_mg_per_l=120.0)
    ).ids[0]
    house = collection.settings.house()
    said = {}
    for water in (rain, tap):
        collection.waters.use(water)
        with collection.ledger.reading() as session:
            said[water] = fill(150, 4.0, house, read_shelf(session)).warnings
    clouded = [each for each in said[tap] if "All in one" in each]
    assert any("chalk may settle" in each for each in clouded)
    assert not any("All in one" in each for each in said[rain])


@pytest.mark.parametrize(("age_days", "is_said"), [(89, False), (90, True)])
def test_a_round_dosed_from_an_old_bottle_says_so(
    collection: Collection, bench: Bench, today: date, age_days: int, *, is_said: bool
) -> None:
    assert bench.feed
    tin_id = collection.mixing.tins()[0].tin_id
    collection.measures.add_tool(Tool(ToolKind.SCALE, "coarse scale", 5.0, 2000.0))
    collection.measures.add_tool(Tool(ToolKind.SYRINGE, "syringe", 0.5, 20.0))
    made_on = today - timedelta(days=age_days)
    wanted = StockWanted("Green bottle", ((tin_id, 20.0),), made_on=made_on)
    collection.stocks.make(replace(wanted, volume_l=1.0))
    mix = collection.day.view(today).mix
    assert mix.jugs[0].doses[0].bottle == "Green bottle"
    said = [each for each in mix.short if "make the bottle anew" in each]
    assert [each.startswith("Green bottle was to be used by") for each in said] == (
        [True] if is_said else []
    )


def test_a_recipe_gives_what_a_litre_of_its_feed_takes(
    collection: Collection, tins: dict[str, int]
) -> None:
    nitrate, epsom_salt = tins["Potassium nitrate"], tins["Epsom salt"]
    parts = (PartDraft(nitrate, 3.0), PartDraft(epsom_salt, 1.0))
    recipe_id = collection.recipes.add(RecipeDraft("Winter", parts)).ids[0]
    lines = dict(collection.stocks.of_recipe(recipe_id, 100.0))
    assert lines[nitrate] == pytest.approx(100 / 138, rel=1e-3)
    assert lines[epsom_salt] == pytest.approx(lines[nitrate] / 3, rel=1e-3)
    with pytest.raises(InputError, match="is no strength of a feed"):
        collection.stocks.of_recipe(recipe_id, 0.0)
    collection.recipes.remove(recipe_id)
    with pytest.raises(InputError, match="is not there any more"):
        collection.stocks.of_recipe(recipe_id, 100.0)


def test_a_water_that_is_gone_makes_no_bottle(
    collection: Collection, tins: dict[str, int]
) -> None:
    with pytest.raises(InputError, match="is not there any more") as refused:
        collection.stocks.make(replace(epsom(tins), water_id=99))
    assert refused.value.field == "water_id"


def test_less_than_a_millilitre_is_no_bottle(
    collection: Collection, tins: dict[str, int]
) -> None:
    with pytest.raises(InputError, match="is not the volume of a bottle"):
        collection.stocks.make(replace(epsom(tins), volume_l=1e-320))


def test_an_emptied_bottle_is_not_counted_any_more(
    collection: Collection, tins: dict[str, int], today: date
) -> None:
    good = Good(Sort.STOCK, collection.stocks.make(epsom(tins)).ids[0])
    collection.stocktaking.write(EntryDraft(good, today, What.COUNTED, 300.0))
    collection.stocks.empty(good.key)
    with pytest.raises(InputError, match="is not there any more"):
        collection.stocktaking.write(EntryDraft(good, today, What.COUNTED, 200.0))
