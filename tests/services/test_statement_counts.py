"""A use case asks the database as often for many rows as for few."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import event

from growdesk.domain.facts import CareKind, Look, NewGrowths, RootTips
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services import begun_day
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.care_values import CareDraft
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.history_values import PastAsk
from growdesk.services.quick_values import QuickAsk, QuickLine
from growdesk.services.recipe_values import PartDraft, RecipeDraft, UseDraft
from growdesk.services.roster_values import ViewDraft
from growdesk.services.stock_values import StockWanted
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.services.tags import TagChoice
from growdesk.services.values import PlaceDraft, PlantDraft, TinDraft, WaterDraft
from growdesk.store.states import state
from tests.conftest import TODAY

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path


WEEK, MONTH = timedelta(days=7), timedelta(days=30)


@dataclass(frozen=True)
class Desk:
    """A collection with ``size`` of everything, twice that of plants."""

    made: Collection
    size: int
    plants: tuple[int, ...]

    def spoon(self, grams: float) -> Tool:
        tins = range(2, 2 + self.size)
        weighed = tuple((tin, grams) for tin in tins)
        return Tool(ToolKind.SPOON, "spoon 0", 0.5, None, weighed)

    def steps(self) -> None:
        """Begin a day as of many plants, and judge some of them."""
        with self.made.ledger.reading() as session:
            part = begun_day.begun(session, state(session), TODAY, TODAY)
            begun_day.gone_on(session, part, self.plants, 2)

    def recipe(self, uses: tuple[UseDraft, ...]) -> RecipeDraft:
        return RecipeDraft("new", (PartDraft(1, 1.0),), in_use=True, uses=uses)


USES: dict[str, Callable[[Desk], object]] = {
    "the day": lambda d: d.made.day.view(),
    "a day by steps": lambda d: d.steps(),
    "the week": lambda d: d.made.day.week(TODAY),
    "the sheet": lambda d: d.made.sheet.week(TODAY),
    "a tick": lambda d: d.made.day.tick(d.plants, TODAY),
    "undo of a tick": lambda d: d.made.history.undo(),
    "redo of a tick": lambda d: d.made.history.redo(),
    "a tick taken back": lambda d: d.made.day.untick(d.plants, TODAY),
    "feed given": lambda d: d.made.day.give(d.plants, TODAY, CareKind.FEED, 100.0),
    "passed by": lambda d: d.made.day.pass_by(d.plants, TODAY),
    "the shelf": lambda d: d.made.stocktaking.view(),
    "tins told": lambda d: d.made.stocktaking.of_tins(),
    "the bottles": lambda d: d.made.stocks.bench(),
    "the recipes": lambda d: d.made.recipes.board(),
    "a recipe in use": lambda d: d.made.recipes.use(1),
    "a recipe added": lambda d: d.made.recipes.add(
        d.recipe(tuple(UseDraft(plant_id=key) for key in d.plants))
    ),
    "a recipe changed": lambda d: d.made.recipes.change(d.size + 1, d.recipe(())),
    "a tin in use": lambda d: d.made.mixing.use_tin(2),
    "a water in use": lambda d: d.made.waters.use(2),
    "a spoon weighed": lambda d: d.made.measures.change_tool(1, d.spoon(5.0)),
    "a spoon removed": lambda d: d.made.measures.remove_tool(1),
    "the table of all plants": lambda d: d.made.roster.read(),
    "a view kept": lambda d: d.made.views.add(ViewDraft("Warm bench")),
    "the views": lambda d: d.made.views.all(),
    "a plant": lambda d: d.made.day.detail(d.plants[0], TODAY),
    "the calendar": lambda d: d.made.calendar.jobs(TODAY, TODAY + MONTH),
    "the walk": lambda d: d.made.walks.stops(TODAY),
    "a stop of the walk": lambda d: d.made.walks.at(d.plants[0], TODAY),
    "the look list": lambda d: d.made.look_lists.make(TODAY),
    "who blooms when": lambda d: d.made.blooms.year(TODAY),
    "the night": lambda d: d.made.nights.view(TODAY),
    "rain on what stands outdoors": lambda d: d.made.rain.places(),
    "benches to choose": lambda d: d.made.benches.choices(),
    "the away sheet": lambda d: d.made.away.make(TODAY, TODAY + WEEK),
    "tags of all": lambda d: d.made.tags.chosen(TagChoice()),
    "jugs to read": lambda d: d.made.meter.jugs(TODAY),
    "a look written": lambda d: d.made.looks.record(
        d.plants[0], Look(TODAY - WEEK, root_tips=RootTips.NONE)
    ),
    "the day after a look": lambda d: d.made.day.view(),
    "a look begun": lambda d: d.made.looks.start(d.plants[0], TODAY),
    "a clock in doubt": lambda d: d.made.clock_doubt.line(),
    "what undo would do": lambda d: d.made.history.view(),
    "the history": lambda d: d.made.history.page(),
    "a plant's history": lambda d: d.made.history.page(PastAsk(tag="A0")),
    "the bin": lambda d: d.made.bin.view(),
    "a chart of a plant": lambda d: d.made.charts.plant(d.plants[0], TODAY),
    "the season of a plant": lambda d: d.made.charts.season(d.plants[0], TODAY),
    "past days of a plant": lambda d: d.made.hindsight.past(d.plants[0], TODAY),
    "the places": lambda d: d.made.places.all(),
    "photos of a plant": lambda d: d.made.photos.timeline(d.plants[0]),
    "blooms of a plant": lambda d: d.made.blooms.of(d.plants[0], TODAY),
    "the next tag": lambda d: d.made.plants.next_tag(),
    "all waters": lambda d: d.made.waters.all(),
    "all tins": lambda d: d.made.mixing.tins(),
    "all meter readings": lambda d: d.made.meter.all(),
}

MOST: dict[str, int] = {
    "the day": 28,
    "a day by steps": 18,
    "the week": 24,
    "the sheet": 26,
    "a tick": 19,
    "undo of a tick": 9,
    "redo of a tick": 8,
    "a tick taken back": 17,
    "feed given": 38,
    "passed by": 47,
    "the shelf": 31,
    "tins told": 14,
    "the bottles": 17,
    "the recipes": 8,
    "a recipe in use": 12,
    "a recipe added": 33,
    "a recipe changed": 26,
    "a tin in use": 15,
    "a water in use": 12,
    "a spoon weighed": 18,
    "a spoon removed": 14,
    "the table of all plants": 8,
    "a view kept": 10,
    "the views": 2,
    "a plant": 39,
    "the calendar": 17,
    "the walk": 4,
    "a stop of the walk": 4,
    "the look list": 11,
    "who blooms when": 10,
    "the night": 14,
    "rain on what stands outdoors": 3,
    "benches to choose": 2,
    "the away sheet": 24,
    "tags of all": 2,
    "jugs to read": 27,
    "a look written": 12,
    "the day after a look": 15,
    "a look begun": 3,
    "a clock in doubt": 3,
    "what undo would do": 3,
    "the history": 4,
    "a plant's history": 5,
    "the bin": 18,
    "a chart of a plant": 11,
    "the season of a plant": 12,
    "past days of a plant": 14,
    "the places": 5,
    "photos of a plant": 3,
    "blooms of a plant": 4,
    "the next tag": 3,
    "all waters": 2,
    "all tins": 2,
    "all meter readings": 2,
}
"""How many statements each use case takes at most, BEGIN among them."""


def laid(folder: Path, size: int) -> Desk:
    """Lay a collection with much or little in it."""
    made = Collection.open(folder, FixedClock(TODAY), create=True)
    made.mixing.add_tin(TinDraft("Green", "20-20-20"))
    made.waters.add(WaterDraft("rain"))
    drafts = (
        PlantDraft(f"A{n}", "", "cattleya", volume_l=0.3) for n in range(2 * size)
    )
    plants = tuple(made.plants.add(draft).ids[0] for draft in drafts)
    growing = NewGrowths(extending=1)
    for plant in plants:
        look = Look(TODAY, new_growths=growing, root_tips=RootTips.RUNNING)
        made.looks.record(plant, look)
    _lay_records(made, plants, size)
    for n in range(size):
        epsom = TinDraft(f"Epsom {n}", "0-0-0 + 9.8 Mg + 13 S", in_use=False)
        tin = made.mixing.add_tin(epsom).ids[0]
        tap = WaterDraft("tap", 0.5, name=f"Tap {n}", in_use=False)
        parts = (PartDraft(1, 2.0), PartDraft(tin, 1.0))
        here = (UseDraft(plant_id=plants[n]),)
        water = made.waters.add(tap).ids[0]
        made.recipes.add(RecipeDraft(f"Recipe {n}", parts, water_id=water, uses=here))
        made.stocks.make(StockWanted(f"Bottle {n}", ((tin, 20.0),), volume_l=0.5))
        weighed = ((1, 3.0), (tin, 4.0))
        made.measures.add_tool(Tool(ToolKind.SPOON, f"spoon {n}", 0.5, None, weighed))
        made.measures.add_vessel(Vessel(VesselKind.JUG, f"Jug {n}", 3.0 + n))
        good = Good(Sort.TIN, tin)
        made.stocktaking.write(EntryDraft(good, TODAY, What.COUNTED, 100.0))
    return Desk(made, size, plants)


def _lay_records(made: Collection, plants: tuple[int, ...], size: int) -> None:
    """Lay places outdoors, and a bloom and a treatment of each plant."""
    for n in range(size):
        made.places.add(PlaceDraft(f"Yard {n}", "garden", outdoors=True))
    opened = TODAY - MONTH
    treated = CareDraft(
        opened, CareKind.TREAT, note="scale", product="Soap", repeat_on=TODAY + WEEK
    )
    made.care.add(plants, treated)
    for plant in plants:
        made.blooms.add(plant, BloomDraft(None, opened, TODAY, 3))


@pytest.mark.file
def test_many_rows_take_no_more_statements_than_few(tmp_path: Path) -> None:
    few, many = laid(tmp_path / "few", 2), laid(tmp_path / "many", 5)
    try:
        asked = {
            name: (statements(few, use), statements(many, use))
            for name, use in USES.items()
        }
    finally:
        few.made.close()
        many.made.close()
    assert [name for name, both in asked.items() if not min(both)] == []
    over = {name: both[0] for name, both in asked.items() if both[0] > MOST[name]}
    assert over == {}
    assert MOST.keys() == USES.keys()
    assert {name: both for name, both in asked.items() if both[0] != both[1]} == {}


def test_what_is_looked_at_while_typing_sums_up_no_rounds(tmp_path: Path) -> None:
    desk = laid(tmp_path / "few", 1)
    ask = QuickAsk((QuickLine(pick="tin:1"),), "100 ppm N", "5 L", 1)
    looks: tuple[Callable[[Desk], object], ...] = (
        lambda d: d.made.mixing.quick(ask),
        lambda d: d.made.recipes.look(d.recipe(()), 100.0),
    )
    try:
        asked = [text for use in looks for text in heard(desk, use)]
        shown = heard(desk, lambda d: d.made.day.view())
    finally:
        desk.made.close()
    assert asked
    assert [text for text in asked if "drawn" in text] == []
    assert [text for text in shown if "drawn" in text] != []


def statements(desk: Desk, use: Callable[[Desk], object]) -> int:
    return len(heard(desk, use))


def heard(desk: Desk, use: Callable[[Desk], object]) -> list[str]:
    """Give the statements that a use case sends to the database."""
    return heard_of(desk.made, lambda: use(desk))


def heard_of(made: Collection, use: Callable[[], object]) -> list[str]:
    """Give the statements that are sent to a collection's file meanwhile."""
    seen: list[str] = []

    def note(*details: object) -> None:
        seen.append(str(details[2]))

    engine = made.ledger.store._engine
    event.listen(engine, "before_cursor_execute", note)
    use()
    event.remove(engine, "before_cursor_execute", note)
    return seen
