"""A round's dose too small for the scale comes from the bottle, or asks for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.domain.batches import Batch
from growdesk.domain.measuring import Tool, ToolKind, Trouble
from growdesk.domain.stocktaking import Good, Sort
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services.drawing_down import of_feed
from growdesk.services.jug_making import jugs_of
from growdesk.services.jugs import fill
from growdesk.services.shelf import Shelf, read_shelf
from growdesk.services.small_doses import bottles_to_make, with_proposals
from growdesk.services.stock_values import StockWanted
from growdesk.services.values import TinDraft, WaterDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from growdesk.services.values import Jug

SCALE = Tool(ToolKind.SCALE, "pocket scale", 0.1, 500)
SYRINGE = Tool(ToolKind.SYRINGE, "20 mL syringe", 0.5, 20)


@pytest.fixture
def tin(collection: Collection) -> int:
    """Give a tin in use, beside a scale that is too coarse and a syringe."""
    collection.waters.add(WaterDraft("ro"))
    collection.measures.add_tool(SCALE)
    collection.measures.add_tool(SYRINGE)
    return collection.mixing.add_tin(TinDraft("Bloom feed", "20-20-20")).ids[0]


def shelf_of(collection: Collection) -> Shelf:
    with collection.ledger.reading() as session:
        return read_shelf(session)


def bottle(collection: Collection, tin: int) -> int:
    """Make half a litre of 20 g/L."""
    wanted = StockWanted("Bloom bottle", ((tin, 20.0),), volume_l=0.5)
    return collection.stocks.make(wanted).ids[0]


def told(jug: Jug) -> list[str]:
    return [line for line in jug.warnings if "Bloom" in line]


def test_without_a_bottle_the_way_out_is_said(collection: Collection, tin: int) -> None:
    filled = fill(100, 0.5, collection.settings.house(), shelf_of(collection))
    (dose,) = filled.doses
    assert dose.mass_g == pytest.approx(0.25)
    assert (dose.trouble, dose.product.key) == (Trouble.COARSE, tin)
    assert filled.warnings[0] == (
        "The pocket scale may be off by 20 % of 0.25 g of Bloom feed. Make a stock "
        "solution, weigh it on a scale that reads 0.01 g, or mix more."
    )


@pytest.mark.usefixtures("tin")
def test_one_bottle_is_proposed_for_all_jugs_of_a_round(collection: Collection) -> None:
    house, shelf = collection.settings.house(), shelf_of(collection)
    batches = [
        (Batch("A", 100, 0.45, ("A1",)), 0.05),
        (Batch("B", 40, 0.45, ("A2",)), 0.05),
        (Batch("C", 100, 4.75, ("A3",)), 0.25),
    ]
    jugs = jugs_of(batches, house, shelf)
    first, second, third = with_proposals(jugs, house, shelf)
    (said,) = told(first)
    assert said == (
        "The pocket scale may be off by 20 % of 0.25 g of Bloom feed. Make a bottle of "
        "Bloom feed once: 10.0 g in 500 mL, 20 g/L. Of it this dose is 12.5 mL."
    )
    (said,) = told(second)
    assert said == (
        "The pocket scale may be off by 50 % of 0.1 g of Bloom feed. Make a bottle of "
        "Bloom feed once: 10.0 g in 500 mL, 20 g/L. Of it this dose is 5 mL."
    )
    assert told(third) == []
    assert third is jugs[2]
    (bottle,) = bottles_to_make(jugs, house, shelf)
    assert (bottle.product, bottle.amount, bottle.volume_l) == ("Bloom feed", 10.0, 0.5)
    assert bottles_to_make(jugs[2:], house, shelf) == ()


def test_a_bottle_too_strong_to_be_read_well_is_still_better_than_the_scale(
    collection: Collection, tin: int
) -> None:
    wanted = StockWanted("Bloom bottle", ((tin, 100.0),), volume_l=0.5)
    collection.stocks.make(wanted)
    house, shelf = collection.settings.house(), shelf_of(collection)
    made = jugs_of([(Batch("A", 100, 0.45, ("A1",)), 0.05)], house, shelf)
    (jug,) = with_proposals(made, house, shelf)
    (dose,) = jug.doses
    assert (dose.bottle, dose.amount) == ("Bloom bottle", 2.5)
    assert jug.gives_ppm_n == pytest.approx(100)
    (said,) = told(jug)
    assert said == (
        "The 20 mL syringe may be off by 10 % of 2.5 mL of Bloom bottle. Make a bottle "
        "of Bloom feed once: 25.0 g in 500 mL, 50 g/L. Of it this dose is 5 mL."
    )


def test_the_bottle_on_the_shelf_doses_the_jug(
    collection: Collection, tin: int
) -> None:
    key = bottle(collection, tin)
    house, shelf = collection.settings.house(), shelf_of(collection)
    filled = fill(100, 0.5, house, shelf)
    (dose,) = filled.doses
    assert (dose.bottle, dose.bottle_key) == ("Bloom bottle", key)
    assert (dose.amount, dose.unit) == (12.5, "mL")
    assert filled.mixture is not None
    assert filled.mixture.strength_ppm_n == pytest.approx(100)
    assert not any("Bloom" in line for line in filled.warnings)


def test_a_dose_that_the_scale_weighs_well_leaves_the_bottle(
    collection: Collection, tin: int
) -> None:
    bottle(collection, tin)
    filled = fill(150, 5.0, collection.settings.house(), shelf_of(collection))
    assert [(dose.bottle, dose.unit) for dose in filled.doses] == [("", "g")]


def test_what_is_taken_goes_from_the_bottle_and_not_from_the_tin(
    collection: Collection, tin: int
) -> None:
    key = bottle(collection, tin)
    house, shelf = collection.settings.house(), shelf_of(collection)
    uses = of_feed(100, 0.5, house, shelf)
    assert uses[Good(Sort.STOCK, key)] == pytest.approx(12.5)
    assert Good(Sort.TIN, tin) not in uses
    plain = of_feed(150, 5.0, house, shelf)
    assert Good(Sort.STOCK, key) not in plain
    assert plain[Good(Sort.TIN, tin)] == pytest.approx(3.8, abs=0.06)


def test_an_emptied_bottle_doses_nothing(collection: Collection, tin: int) -> None:
    collection.stocks.empty(bottle(collection, tin))
    filled = fill(100, 0.5, collection.settings.house(), shelf_of(collection))
    assert [dose.bottle for dose in filled.doses] == [""]


def test_a_ceiling_is_kept_by_the_bottle_too(collection: Collection, tin: int) -> None:
    bottle(collection, tin)
    house, shelf = collection.settings.house(), shelf_of(collection)
    over = fill(101, 0.49, house, shelf)
    assert over.mixture is not None
    assert over.mixture.strength_ppm_n > 101
    held = fill(101, 0.49, house, shelf, most_ppm_n=101)
    assert held.mixture is not None
    assert held.mixture.strength_ppm_n <= 101
    assert held.doses[0].bottle == "Bloom bottle"


def test_a_jug_of_two_mixes_counts_bottle_and_scale_together_in_grams(
    collection: Collection, tin: int
) -> None:
    """A jug of 5 L is filled once and a half litre is left for a second mix."""
    bottle(collection, tin)
    collection.measures.add_vessel(Vessel(VesselKind.JUG, "white jug", 5.0))
    house, shelf = collection.settings.house(), shelf_of(collection)
    (made,) = jugs_of([(Batch("A", 100, 5.25, ("A1",)), 0.25)], house, shelf)
    assert {each.doses[0].bottle for each in made.fills} == {"", "Bloom bottle"}
    (dose,) = made.doses
    assert (dose.bottle, dose.bottle_key, dose.unit) == ("", None, "g")
    assert dose.amount == pytest.approx(dose.given_g)
    assert dose.given_g == pytest.approx(2.75, abs=0.06)
