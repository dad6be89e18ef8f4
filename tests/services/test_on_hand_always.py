"""On hand is what was counted, and came in, less what was taken: after every word."""

from __future__ import annotations

import tempfile
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule
from sqlalchemy import select
from typing_extensions import override

from growdesk.domain.facts import CareKind, Look, NewGrowths, RootTips, Verdict
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.stock_values import StockWanted
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.services.values import PlantDraft, TinDraft, WaterDraft
from growdesk.store.schema import CareRow, DrawnRow
from tests.conftest import TODAY

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.values import Jug, Line

TIN, BOTTLE, WATER = Good(Sort.TIN, 1), Good(Sort.STOCK, 1), Good(Sort.WATER, 1)
GOODS = (TIN, BOTTLE, WATER)
DAYS = (TODAY, TODAY - timedelta(days=1))
MADE_ON = TODAY - timedelta(days=2)
PLANTS = (1, 2, 3, 4)


@dataclass(frozen=True)
class Model:
    """What a grower would keep on paper: entries, and takings by plant and day."""

    entries: tuple[EntryDraft, ...] = ()
    taken: dict[tuple[int, date], dict[Good, float]] = field(default_factory=dict)

    def without(self, plants: list[int], on: date) -> Model:
        gone = {(plant, on) for plant in plants}
        kept = {key: uses for key, uses in self.taken.items() if key not in gone}
        return Model(self.entries, kept)

    def on_hand(self, good: Good) -> float | None:
        known = sorted(
            (entry for entry in self.entries if entry.good == good),
            key=lambda entry: entry.on,
        )
        if not known:
            return None
        hand, since = 0.0, known[0]
        for entry in known:
            if entry.what is What.COUNTED:
                hand, since = entry.amount, entry
            else:
                hand += entry.amount
        for (_plant, on), uses in self.taken.items():
            later = on > since.on or (on == since.on and not since.after_round)
            hand -= uses.get(good, 0.0) if later else 0.0
        return hand


def of_jug(jug: Jug, litres: float) -> dict[Good, float]:
    """Give a plant's part of a jug, by what the jug's card says."""
    share = litres / jug.volume_l
    found = {WATER: (jug.volume_l + jug.spare_l) * share}
    for dose in jug.doses:
        good = TIN if dose.bottle_key is None else BOTTLE
        found[good] = dose.amount * share
    return found


class Shelf(RuleBasedStateMachine):
    """Ticks, words given, counts, undo and redo, in any order."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        place = Path(self.folder.name) / "c"
        self.made = Collection.open(place, FixedClock(TODAY), create=True)
        self.made.mixing.add_tin(TinDraft("Green", "20-20-20"))
        self.made.waters.add(WaterDraft("rain"))
        self.made.measures.add_tool(Tool(ToolKind.SCALE, "Scale", 1.0, 5000.0))
        self.made.measures.add_tool(Tool(ToolKind.SYRINGE, "Syringe", 0.1, 20.0))
        for number in PLANTS:
            look = Look(
                MADE_ON,
                new_growths=NewGrowths(extending=int(number > 1), matured=1),
                root_tips=RootTips.RUNNING if number > 1 else RootTips.NONE,
            )
            draft = PlantDraft(f"A{number}", "", "cattleya", pot_volume_l=0.8 * number)
            self.made.looks.record(self.made.plants.add(draft).ids[0], look)
        made = StockWanted("Bottle", ((1, 20.0),), volume_l=0.5, made_on=MADE_ON)
        self.made.stocks.make(made)
        full = EntryDraft(BOTTLE, MADE_ON, What.COUNTED, 500.0, after_round=False)
        self.past = [Model((full,))]
        self.ahead: list[Model] = []

    @override
    def teardown(self) -> None:
        self.made.close()
        self.folder.cleanup()

    @property
    def now(self) -> Model:
        return self.past[-1]

    def became(self, model: Model) -> None:
        if model != self.now:
            self.past.append(model)
            self.ahead.clear()

    def lines(self, on: date) -> dict[int, Line]:
        return {line.plant_id: line for line in self.made.day.view(on).lines}

    @rule(
        plants=st.lists(st.sampled_from(PLANTS), min_size=1, max_size=4, unique=True),
        on=st.sampled_from(DAYS),
    )
    def tick(self, plants: list[int], on: date) -> None:
        view = self.made.day.view(on)
        lines = {line.plant_id: line for line in view.lines}
        jugs = {tag: jug for jug in view.mix.jugs for tag in jug.tags}
        new = [plant for plant in plants if (plant, on) not in self.now.taken]
        model = self.now.without(new, on)
        for plant in new:
            line = lines[plant]
            litres = line.volume_l or 0.0
            model.taken[plant, on] = (
                of_jug(jugs[line.tag], litres)
                if line.verdict is Verdict.FEED
                else {WATER: litres}
            )
        self.made.day.tick(plants, on)
        self.became(model)

    @rule(plants=st.lists(st.sampled_from(PLANTS), min_size=1, unique=True))
    def untick(self, plants: list[int]) -> None:
        self.made.day.untick(plants, TODAY)
        self.became(self.now.without(plants, TODAY))

    @rule(plant=st.sampled_from(PLANTS), on=st.sampled_from(DAYS))
    def water(self, plant: int, on: date) -> None:
        self.made.day.give([plant], on, CareKind.CLEAR_WATER, None)
        model = self.now.without([plant], on)
        # a quarter of the pot, by the house's own rule
        model.taken[plant, on] = {WATER: 0.2 * plant}
        self.past.append(model)
        self.ahead.clear()

    @rule(
        good=st.sampled_from(GOODS),
        on=st.sampled_from(DAYS),
        what=st.sampled_from(What),
        amount=st.integers(1, 60),
        after=st.booleans(),
    )
    def enter(
        self, good: Good, on: date, what: What, amount: int, *, after: bool
    ) -> None:
        entry = EntryDraft(good, on, what, float(amount), after_round=after)
        self.made.stocktaking.write(entry)
        self.became(Model((*self.now.entries, entry), self.now.taken))

    @precondition(lambda self: len(self.past) > 1)
    @rule()
    def undo(self) -> None:
        assert self.made.history.undo() is not None
        self.ahead.append(self.past.pop())

    @precondition(lambda self: self.ahead)
    @rule()
    def redo(self) -> None:
        assert self.made.history.redo() is not None
        self.past.append(self.ahead.pop())

    @invariant()
    def on_hand_is_as_on_paper(self) -> None:
        rows = {row.good: row.hand for row in self.made.stocktaking.view().rows}
        for good in GOODS:
            hand, paper = rows[good], self.now.on_hand(good)
            assert (hand is None) is (paper is None), good
            if hand is not None and paper is not None:
                assert hand.amount == pytest.approx(paper, abs=1e-6), good

    @invariant()
    def nothing_is_taken_but_by_care_on_record(self) -> None:
        found: dict[tuple[int, date], dict[Good, float]] = defaultdict(dict)
        with self.made.ledger.reading() as session:
            rows = session.execute(
                select(DrawnRow.__table__, CareRow.plant_id, CareRow.day).outerjoin(
                    CareRow, CareRow.id == DrawnRow.care_id
                )
            )
            for row in rows:
                keys = zip(GOODS, (row.tin_id, row.stock_id, row.water_id), strict=True)
                (good,) = [good for good, key in keys if key == 1]
                found[row.plant_id, row.day][good] = row.amount
        paper = {
            key: {good: pytest.approx(amount) for good, amount in uses.items()}
            for key, uses in self.now.taken.items()
        }
        assert found == paper


Shelf.TestCase.settings = settings(
    max_examples=12, stateful_step_count=12, deadline=None
)
TestOnHand = Shelf.TestCase
