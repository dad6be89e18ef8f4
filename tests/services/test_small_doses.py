"""A round's dose too small for the scale comes from the bottle, or asks for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.domain.batches import Batch
from growdesk.domain.measuring import Tool, ToolKind, Trouble
from growdesk.domain.stocktaking import Good, Sort
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services.drawing_down import of_feed
from growdesk.services.jug_making import jug_of
from growdesk.services.jugs import fill
from growdesk.services.shelf import Shelf, read_shelf
from growdesk.services.stock_values import StockWanted
from growdesk.services.values import TinDraft, WaterDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection

SCALE = Tool(ToolKind.SCALE, "pocket scale", 0.1, 500)
SYRINGE = Tool(ToolKind.SYRINGE, "20 mL syringe", 0.5, 20)


@pytest.fixture
def tin(collection: Collection) -> int:
    """Give a tin in use, beside a scale that is too coarse and a syringe."""
    collection.mixing.add_water(WaterDraft("ro"))
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


def test_without_a_bottle_one_is_proposed(collection: Collection, tin: int) -> None:
    house = collection.settings.house()
    filled = fill(100, 0.5, house, shelf_of(collection))
    (dose,) = filled.doses
    assert dose.mass_g == pytest.approx(0.25)
    assert dose.trouble is Trouble.COARSE
    (said,) = [line for line in filled.warnings if "Bloom feed" in line]
    assert said.startswith(
        "The pocket scale may be off by 20 % of 0.25 g of Bloom feed"
    )
    assert "Make a bottle of Bloom feed once:" in said
    assert tin == dose.product.key


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
    made = jug_of(Batch("A", 100, 5.25, ("A1",)), 0.25, house, shelf)
    assert {each.doses[0].bottle for each in made.fills} == {"", "Bloom bottle"}
    (dose,) = made.doses
    assert (dose.bottle, dose.bottle_key, dose.unit) == ("", None, "g")
    assert dose.amount == pytest.approx(dose.given_g)
    assert dose.given_g == pytest.approx(2.75, abs=0.06)
