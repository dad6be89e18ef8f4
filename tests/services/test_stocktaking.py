"""The shelf: counts and what came in, what is used, needed, short and what it costs."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import event

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind
from growdesk.domain.stocktaking import Basis, Good, Sort, What
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.stocktaking_values import EntryDraft, ShelfRow
from growdesk.services.values import Changed, TinDraft, WaterDraft
from growdesk.services.watering_day import WateringDay
from growdesk.store.schema import CareRow, DrawnRow, StockPartRow, StockRow

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.services.conftest import Bench

TIN = Good(Sort.TIN, 1)
RAIN = Good(Sort.WATER, 1)
COUNTED, ADDED = What.COUNTED, What.ADDED


def row(collection: Collection, good: Good = TIN) -> ShelfRow:
    found = {each.good: each for each in collection.stocktaking.view().rows}
    return found[good]


def count(
    collection: Collection, amount: float, good: Good = TIN, *, after: bool = False
) -> None:
    on = collection.clock.today()
    draft = EntryDraft(good, on, COUNTED, amount, after_round=after)
    collection.stocktaking.write(draft)


def lay(collection: Collection, plant: int, taken: list[tuple[date, float]]) -> None:
    """Write rounds of the past that took so much of the tin."""
    with collection.ledger.writing("Rounds") as writing:
        ids = writing.insert_many(
            CareRow,
            [{"plant_id": plant, "day": on, "what": "feed"} for on, _ in taken],
        )
        writing.insert_many(
            DrawnRow,
            [
                {"care_id": care_id, "tin_id": 1, "amount": amount}
                for care_id, (_, amount) in zip(ids, taken, strict=True)
            ],
        )


def round_g(collection: Collection) -> float:
    """Give the grams of the tin that today's jugs take."""
    jugs = collection.day.view().mix.jugs
    return sum(dose.given_g for jug in jugs for dose in jug.doses)


def test_nothing_counted_is_said_and_nothing_runs_short(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    view = collection.stocktaking.view()
    assert (view.on, view.round_on, view.short) == (today, today, ())
    assert [each.name for each in view.rows] == ["Green tin", "Rain"]
    tin = view.rows[0]
    assert (tin.hand, tin.days_left, tin.unit, tin.in_use) == (None, None, "g", True)
    assert tin.began == "Not counted yet."
    assert tin.needed == pytest.approx(round_g(collection))
    assert tin.needed > 0
    assert (tin.cost_round, view.cost_round, view.cost_year) == (None, None, None)
    assert view.unpriced == ("Green tin",)


def test_a_count_before_the_round_goes_down_by_what_is_ticked(
    collection: Collection, bench: Bench, today: date
) -> None:
    needed = round_g(collection)
    count(collection, 420.0)
    assert row(collection).began == "Counted today: 420 g, before the round."
    collection.day.tick([bench.feed], today)
    after = row(collection)
    assert after.hand is not None
    assert after.hand.amount == pytest.approx(420.0 - needed)
    assert after.needed == pytest.approx(0.0)
    collection.history.undo()
    before = row(collection)
    assert before.hand is not None
    assert before.hand.amount == 420.0
    assert before.needed == pytest.approx(needed)
    count(collection, 400.0, after=True)
    collection.day.tick([bench.feed], today)
    settled = row(collection)
    assert settled.hand is not None
    assert settled.hand.amount == 400.0


def test_a_round_is_done_for_a_good_once_a_tick_took_of_it(
    collection: Collection, bench: Bench, today: date
) -> None:
    service = collection.stocktaking
    lay(collection, bench.dry, [(today - timedelta(days=7), 3.0)])
    assert not service.is_round_done(TIN)
    collection.day.tick([bench.clear], today)
    assert (service.is_round_done(TIN), service.is_round_done(RAIN)) == (False, True)
    collection.day.tick([bench.feed], today)
    assert service.is_round_done(TIN)
    assert not service.is_round_done(Good(Sort.STOCK, 1))


def test_once_today_is_ticked_the_next_round_is_meant(
    collection: Collection, bench: Bench, today: date
) -> None:
    service = collection.stocktaking
    assert service.view().round_on == today
    collection.day.tick([bench.feed], today)
    assert service.view().round_on == today
    collection.day.tick([bench.clear], today)
    saturday = today + timedelta(days=3)
    ahead = service.view()
    assert ahead.round_on == saturday
    mix = collection.day.view(saturday).mix
    litres = sum(jug.volume_l + jug.spare_l for jug in mix.jugs)
    needed = {each.good: each.needed for each in ahead.rows}
    assert needed[RAIN] == pytest.approx(litres + mix.clear_l + mix.flush_l)


def test_with_nothing_left_of_the_week_the_next_one_is_meant(
    collection: Collection, bench: Bench, today: date
) -> None:
    house = collection.settings.house()
    collection.settings.save_house(replace(house, watering_weekdays=(today.weekday(),)))
    collection.day.tick([bench.feed, bench.clear], today)
    assert collection.stocktaking.view().round_on == today + timedelta(days=7)


def test_entries_are_listed_changed_removed_and_come_back(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    service = collection.stocktaking
    first = EntryDraft(TIN, today - timedelta(days=3), COUNTED, 420.0, note="by scale")
    done = service.write(first)
    assert (done.title, done.changed) == ("Green tin: 420 g counted", Changed.SHELF)
    bought = EntryDraft(TIN, today, ADDED, 1000.0, price=12.5)
    added = service.write(bought)
    assert added.title == "Green tin: 1 kg came in"
    assert [view.draft for view in service.entries(TIN)] == [bought, first]
    assert service.entries(RAIN) == ()
    service.change(done.ids[0], replace(first, amount=400.0))
    hand = row(collection).hand
    assert hand is not None
    assert hand.amount == 1400.0
    service.remove([done.ids[0], added.ids[0]])
    assert service.entries(TIN) == ()
    collection.history.undo()
    assert len(service.entries(TIN)) == 2
    with pytest.raises(InputError, match="not there any more"):
        service.change(99, first)
    with pytest.raises(InputError, match="not there any more"):
        service.remove([done.ids[0], 99])
    assert len(service.entries(TIN)) == 2
    with pytest.raises(InputError, match="are chosen"):
        service.remove([])


@pytest.mark.parametrize(
    ("change", "field", "told"),
    [
        ({"amount": -1.0}, "amount", "cannot be meant"),
        ({"amount": 0.0, "what": ADDED}, "amount", "cannot be meant"),
        ({"amount": float("nan")}, "amount", "is not a number"),
        ({"price": 3.0}, "price", "belongs to what came in only"),
        ({"price": -3.0, "what": ADDED}, "price", "cannot be meant"),
        ({"on": date(2026, 5, 21)}, "on", "is still to come"),
        ({"good": Good(Sort.TIN, 9)}, "good", "is not there any more"),
        ({"good": Good(Sort.STOCK, 1)}, "good", "is not there any more"),
        ({"good": RAIN, "amount": 201.0}, "amount", "more than the 200 L"),
    ],
)
def test_an_entry_that_cannot_be_is_refused_by_its_field(
    collection: Collection,
    bench: Bench,
    today: date,
    change: dict[str, object],
    field: str,
    told: str,
) -> None:
    del bench
    collection.waters.change(1, WaterDraft("rain", capacity_l=200.0))
    draft = replace(EntryDraft(TIN, today, COUNTED, 5.0), **change)
    with pytest.raises(InputError, match=told) as refused:
        collection.stocktaking.write(draft)
    assert refused.value.field == field
    assert collection.stocktaking.entries(draft.good) == ()


def test_a_barrel_full_to_the_brim_is_taken(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.waters.change(1, WaterDraft("rain", capacity_l=200.0))
    count(collection, 200.0, RAIN)
    collection.day.tick([bench.clear], today)
    barrel = row(collection, RAIN)
    assert barrel.hand is not None
    assert barrel.hand.amount == pytest.approx(199.7)
    assert (barrel.unit, barrel.capacity_l) == ("L", 200.0)


def test_the_week_goes_by_the_plan_then_by_eight_weeks_then_by_last_year(
    collection: Collection, bench: Bench, today: date
) -> None:
    count(collection, 140.0)
    planned = row(collection).rate
    assert planned.basis is Basis.PLAN
    weeks = [collection.day.view(today + timedelta(days=d)).mix for d in (0, 3)]
    two_rounds = sum(d.given_g for mix in weeks for jug in mix.jugs for d in jug.doses)
    assert planned.per_week == pytest.approx(two_rounds)
    lay(collection, bench.dry, [(today - timedelta(7 * n), 14.0) for n in range(1, 9)])
    recent = row(collection)
    assert (recent.rate.basis, recent.rate.per_week) == (Basis.RECENT, 14.0)
    # 140 g at 14 g a week: ten weeks
    assert recent.days_left == 70
    assert recent.lasts_until == today + timedelta(days=70)
    assert recent.rate_told == "14 g a week, as in the last eight weeks."
    assert recent.lasts_told == "Lasts until about 29 July, 70 days from now."
    year_ago = today - timedelta(days=364)
    lay(collection, bench.dry, [(year_ago + timedelta(7 * n), 35.0) for n in range(4)])
    seasonal = row(collection)
    assert seasonal.rate.basis is Basis.LAST_YEAR
    assert seasonal.rate.per_week == pytest.approx(35.0)
    # four weeks of 35 g are all of it; the next that was taken is 44 weeks later
    assert seasonal.days_left == 308


def test_costs_by_the_pack_and_by_what_came_in_last(
    collection: Collection, bench: Bench, today: date
) -> None:
    service = collection.stocktaking
    tin = TinDraft("Green tin", "20-20-20", price=12.5, pack_amount=1000.0)
    collection.mixing.change_tin(1, tin)
    lay(collection, bench.dry, [(today - timedelta(7 * n), 14.0) for n in range(1, 9)])
    grams = round_g(collection)
    by_pack = row(collection)
    assert by_pack.unit_price == pytest.approx(0.0125)
    assert by_pack.cost_round == pytest.approx(0.0125 * grams)
    # 14 g a week for 52 weeks at 1.25 cent
    assert by_pack.cost_year == pytest.approx(9.1)
    service.write(EntryDraft(TIN, today, ADDED, 500.0, price=10.0))
    assert row(collection).unit_price == pytest.approx(0.02)
    service.write(EntryDraft(RAIN, today, ADDED, 20.0, price=8.0))
    view = service.view()
    water = row(collection, RAIN)
    assert water.cost_round is not None
    assert view.cost_round == pytest.approx(0.02 * grams + water.cost_round)
    assert view.unpriced == ()
    assert service.currency() == ""
    assert service.set_currency(" EUR ").title == "Currency set"
    assert service.view().currency == service.currency() == "EUR"
    with pytest.raises(InputError, match="too long"):
        service.set_currency("thirteen signs")


def test_what_runs_short_is_told_with_what_could_take_its_place(
    collection: Collection, bench: Bench, today: date
) -> None:
    needed = round_g(collection)
    assert collection.day.view().mix.short == ()
    count(collection, needed / 2)
    (told,) = collection.day.view().mix.short
    assert told.startswith("Green tin runs short: the round needs ")
    assert told.endswith("That makes 180 mL of jug A.")
    blue = collection.mixing.add_tin(TinDraft("Blue tin", "18-18-18", in_use=False))
    count(collection, 40.0, Good(Sort.TIN, blue.ids[0]))
    (told,) = collection.day.view().mix.short
    assert "Blue tin could take its place: about " in told
    assert collection.stocktaking.view().short == (told,)
    assert row(collection).is_short
    collection.day.tick([bench.feed], today)
    assert collection.day.view().mix.short == ()
    (over,) = [each for each in collection.stocktaking.view().rows if each.good == TIN]
    assert over.lasts_told == "More was used than was counted; count it again."
    assert over.hand is not None
    assert over.hand.there == 0


def test_a_later_round_goes_by_what_the_earlier_ones_leave(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    saturday = today + timedelta(days=3)
    mixes = [collection.day.view(on).mix for on in (today, saturday)]
    litres = [
        sum(jug.volume_l + jug.spare_l for jug in mix.jugs) + mix.clear_l + mix.flush_l
        for mix in mixes
    ]
    count(collection, litres[0] + litres[1] / 2, RAIN)
    rounds = collection.sheet.week(today).rounds
    assert [each.on for each in rounds] == [today, saturday]
    assert rounds[0].mix.short == ()
    (told,) = rounds[1].mix.short
    assert told.startswith("Rain runs short: the round needs ")
    assert collection.day.view(saturday).mix.short == (told,)
    # alone on the shelf it would have reached for either round
    assert litres[1] < litres[0] + litres[1] / 2


def test_a_round_to_come_takes_no_more_than_is_there(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    count(collection, 0.1, RAIN)
    saturday = today + timedelta(days=3)
    first, later = (each.mix.short for each in collection.sheet.week(today).rounds)
    assert first[0].startswith("Rain runs short: ")
    (told,) = later
    assert told.startswith("Rain is used up: the round needs ")
    assert "count it again" not in told
    assert collection.day.view(saturday).mix.short == later


def test_a_stock_solution_takes_from_its_tins_and_goes_down_by_millilitres(
    collection: Collection, bench: Bench, today: date
) -> None:
    tin = TinDraft("Green tin", "20-20-20", price=12.5, pack_amount=1000.0)
    collection.mixing.change_tin(1, tin)
    count(collection, 420.0)
    with collection.ledger.writing("Stock made") as writing:
        made = {"name": "Stock A", "made_on": today, "volume_l": 0.5, "water_id": 1}
        stock = writing.insert(StockRow, made)
        part = {"stock_id": stock, "tin_id": 1, "mass_g": 50.0}
        writing.insert(StockPartRow, part)
        care = {"plant_id": bench.dry, "day": today, "what": "feed"}
        care_id = writing.insert(CareRow, care)
        took = {"care_id": care_id, "stock_id": stock, "amount": 20.0}
        writing.insert(DrawnRow, took)
    bottle = row(collection, Good(Sort.STOCK, stock))
    assert (bottle.name, bottle.unit) == ("Stock A", "mL")
    assert bottle.hand is not None
    assert bottle.hand.amount == 480.0
    # 50 g at 1.25 cent in 500 mL
    assert bottle.unit_price == pytest.approx(0.00125)
    hand = row(collection).hand
    assert hand is not None
    assert hand.amount == 370.0
    used = collection.stocktaking.used(today)
    (product,) = used.products
    # 20 mL of 500 mL hold 2 g of the tin, 20 % of it N
    assert product.amounts[-1] == pytest.approx(2.0)
    assert used.nitrogen_g[-1] == pytest.approx(0.4)


def test_a_bottle_made_on_the_day_takes_nothing_of_what_its_round_needs(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    count(collection, round_g(collection) / 2)
    count(collection, 0.4, RAIN)
    before = collection.day.view().mix
    assert [each.split()[0] for each in before.short] == ["Green", "Rain"]
    with collection.ledger.writing("Stock made") as writing:
        made = {"name": "Stock A", "made_on": today, "volume_l": 0.5, "water_id": 1}
        stock = writing.insert(StockRow, made)
        part = {"stock_id": stock, "tin_id": 1, "mass_g": 50.0}
        writing.insert(StockPartRow, part)
    after = collection.day.view().mix
    assert after.short == before.short
    assert after.waters == before.waters
    hand = row(collection).hand
    assert hand is not None
    assert not hand.is_overdrawn


def test_feed_used_by_month_is_summed_by_product_and_element(
    collection: Collection, bench: Bench, today: date
) -> None:
    bottle = collection.mixing.add_tin(TinDraft("Bottle", "7-0-7 + 2 Ca", 1.25)).ids[0]
    lay(
        collection,
        bench.dry,
        [
            (date(2026, 5, 2), 10.0),
            (date(2026, 5, 19), 5.0),
            (date(2025, 6, 1), 100.0),
            (date(2025, 5, 31), 999.0),
        ],
    )
    collection.day.give([bench.dry], today, CareKind.FEED, 70.0)
    used = collection.stocktaking.used(today)
    assert used.months[0] == date(2025, 6, 1)
    assert used.months[-1] == date(2026, 5, 1)
    assert len(used.months) == 12
    green, liquid = used.products
    assert (green.name, green.unit) == ("Green tin", "g")
    assert green.amounts == (100.0, *[0.0] * 10, 15.0)
    assert green.of("N") == pytest.approx((20.0, *[0.0] * 10, 3.0))
    # P2O5 holds 43.64 % P
    assert green.of("P")[0] == pytest.approx(20.0 * 0.4364, rel=1e-3)
    assert green.of("Ca") == (0.0,) * 12
    # 0.3 L at 70 mg N/L are 21 mg N, 0.3 g of the liquid, 0.24 mL
    assert (liquid.name, liquid.unit) == ("Bottle", "mL")
    assert liquid.amounts[-1] == pytest.approx(0.24)
    assert liquid.of("N")[-1] == pytest.approx(0.021)
    assert used.nitrogen_g[-1] == pytest.approx(3.021)
    collection.mixing.remove_tin(bottle)
    assert len(collection.stocktaking.used(today).products) == 2


def test_without_rounds_no_feed_was_used(collection: Collection, today: date) -> None:
    used = collection.stocktaking.used(today)
    assert used.products == ()
    assert used.nitrogen_g == (0.0,) * 12


def statements(collection: Collection, ask: Callable[[], object]) -> int:
    seen: Counter[str] = Counter()

    def note(*details: object) -> None:
        seen[str(details[2])[:12]] += 1

    engine = collection.ledger.store._engine
    event.listen(engine, "before_cursor_execute", note)
    ask()
    event.remove(engine, "before_cursor_execute", note)
    return seen.total()


def test_ten_thousand_rows_take_the_same_few_statements(
    collection: Collection, bench: Bench, today: date
) -> None:
    service = collection.stocktaking
    count(collection, 420.0)
    lay(collection, bench.dry, [(today - timedelta(days=700), 0.14)])
    anew = lambda: WateringDay(collection.ledger).view()  # noqa: E731 -- as the others
    asked = (service.view, lambda: service.used(today), anew)
    few = [statements(collection, ask) for ask in asked]
    days = [today - timedelta(days=7 * n) for n in range(1, 101)]
    lay(collection, bench.dry, [(day, 0.14) for day in days for _ in range(100)])
    assert [statements(collection, ask) for ask in asked] == few
    assert few[0] <= 26
    assert few[1] <= 4
    assert row(collection).rate.per_week == pytest.approx(14.0)


def test_another_program_may_read_the_shelf(
    collection: Collection, today: date
) -> None:
    collection.mixing.add_tin(TinDraft("Green tin", "20-20-20"))
    count(collection, 5.0)
    beside = Collection.open_to_read(collection.folder, FixedClock(today))
    assert [each.name for each in beside.stocktaking.view().rows] == ["Green tin"]
    beside.close()


def test_a_tin_found_to_be_liquid_is_told_in_millilitres_from_then_on(
    collection: Collection, bench: Bench, today: date
) -> None:
    """600 g counted, of a liquid of 1.2 g/mL, are 500 mL; what was taken follows."""
    service, good = collection.stocktaking, Good(Sort.TIN, 1)
    entry = EntryDraft(good, today, What.COUNTED, 600.0, after_round=False)
    service.write(entry)
    collection.day.tick([bench.feed], today)
    dry = service.view().rows[0]
    assert dry.hand is not None
    draft = TinDraft("Green tin", "20-20-20", 1.2)
    collection.mixing.change_tin(1, draft)
    liquid = service.view().rows[0]
    assert liquid.hand is not None
    assert (dry.unit, liquid.unit) == ("g", "mL")
    assert liquid.hand.since.amount == pytest.approx(500)
    assert liquid.hand.amount == pytest.approx(dry.hand.amount / 1.2)
    collection.mixing.change_tin(1, replace(draft, density_g_per_ml=1.3))
    assert service.view().rows[0].hand == liquid.hand
    collection.history.undo()
    collection.mixing.change_tin(1, replace(draft, density_g_per_ml=None))
    again = service.view().rows[0]
    assert again.hand is not None
    assert again.hand.amount == pytest.approx(dry.hand.amount)
    collection.history.undo()
    collection.history.undo()
    assert service.view().rows[0].hand == dry.hand


def test_a_blend_stands_in_no_barrel_to_be_counted(
    collection: Collection, today: date
) -> None:
    rain = collection.waters.add(WaterDraft("rain")).ids[0]
    tap = collection.waters.add(WaterDraft("tap", 0.6)).ids[0]
    two = WaterDraft("blend", first_id=rain, second_id=tap, aim="share", aim_value=0.5)
    blend = Good(Sort.WATER, collection.waters.add(two).ids[0])
    with pytest.raises(InputError, match="is blended as it is poured"):
        collection.stocktaking.write(EntryDraft(blend, today, What.COUNTED, 5.0))
